"""Clock changes ahead, with every family's times; for the teacher alone."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from textwrap import wrap

from cockpit.studio.calendar.clock_changes import ChangeAhead, Shift
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import city, clock_time, counted, long_date, minutes_of, short_date, utc_offset
from cockpit.studio.clocks.zones import ClockChange
from cockpit.studio.shown import one_line
from cockpit.wording.columns import cells, columns

_WIDTH = 80
_SECOND = timedelta(seconds=1)


def clock_changes_text(ahead: Iterable[ChangeAhead], hours: int, zone_data: str) -> str:
    """What changes, day by day: the places, the lessons that shift on both clocks, and how many others do not.

    Times are in 12 or 24 `hours`; a day is named as in the place that changes. `zone_data` is the version of the zone
    data, such as `2026f`.
    """
    by_day: dict[date, list[ChangeAhead]] = {}
    for each in ahead:
        by_day.setdefault(each.changed_on, []).append(each)
    days = [_day(on, changes, hours) for on, changes in by_day.items()]
    nothing = [] if days else ["No clock changes in this period, for you or for any family.\n"]
    return "\n".join([*days, *nothing, f"Time zone data {one_line(zone_data)}.\n"])


def shift_readings(shift: Shift, hours: int) -> tuple[tuple[str, list[str]], ...]:
    """What her clock and the family's show before and after, each behind whose it is; once where that is the same.

    Of a family that moves meanwhile, each time has its city.
    """
    before, after = shift.before, shift.after
    there = _readings(before.theirs, after.theirs, hours)
    if before.zone == after.zone:
        theirs = city(after.zone), there
    else:
        theirs = "family", [f"{there[0]} {city(before.zone)}", f"{there[-1]} {city(after.zone)}"]
    return ("you", _readings(before.ours, after.ours, hours)), theirs


def shift_words(shift: Shift, hours: int) -> str:
    """What a lesson becomes when a family moves: `Ilse, cello: 3:00 pm stays 3:00 pm (4:00 pm for you)`."""
    times = (shift.before.ours, shift.after.ours, shift.before.theirs, shift.after.theirs)
    said = [clock_time(each, hours) for each in times]
    if len({each.weekday() for each in times}) > 1:
        said = [f"{WEEKDAYS[each.weekday()][:3]} {time}" for each, time in zip(times, said, strict=True)]
    ours, theirs = said[:2], said[2:]
    there = f"{theirs[0]} stays {theirs[1]}" if theirs[0] == theirs[1] else f"{theirs[0]} becomes {theirs[1]}"
    here = ours[0] if ours[0] == ours[1] else f"{ours[0]} becomes {ours[1]}"
    return f"{shift.title}: {there}" if ours == theirs else f"{shift.title}: {there} ({here} for you)"


def _day(on: date, together: Sequence[ChangeAhead], hours: int) -> str:
    moves = [move for each in together for move in each.moves]
    places = [
        _place(change, on, whose="you" if change is each.own else "") for each in together for change in each.clocks
    ]
    places += [_place(move.change, on, whose=f"{move.family.name} family") for move in moves]
    shifts = [shift for each in together for shift in each.shifts]
    kept = [each for move in moves for each in move.kept]
    unaffected = {lesson for each in together for lesson in each.unaffected}
    unaffected -= {shift.standing_time_id for shift in (*shifts, *kept)}
    blocks = [
        f"{long_date(on)}\n{_in_columns(places)}",
        *(["".join(_shift(shift, hours) for shift in shifts)] if shifts else []),
        *(["".join(f"  {one_line(shift_words(each, hours))}\n" for each in kept)] if kept else []),
        f"  {_kept(len(unaffected), has_others=bool(shifts or kept))}\n",
    ]
    return "\n".join(blocks)


def _place(change: ClockChange, on: date, *, whose: str) -> tuple[str, ...]:
    places = [city(zone) for zone in (change.left_zone, change.zone) if zone is not None]
    there = change.local_date
    offsets = (
        utc_offset(change.at - _SECOND, change.left_zone or change.zone),
        utc_offset(change.at, change.zone),
    )
    return (
        f"  {' -> '.join(places)}{f' ({one_line(whose)})' if whose else ''}",
        _turned(change.after - change.before),
        " -> ".join(offsets),
        "" if there == on else f"on {short_date(there)}",
    )


def _in_columns(places: Sequence[tuple[str, ...]]) -> str:
    text = columns(places)
    if max(map(cells, text.splitlines())) <= _WIDTH:
        return text
    return "".join(f"{name}\n    {'  '.join(part for part in rest if part)}\n" for name, *rest in places)


def _turned(by: timedelta) -> str:
    if not by:
        return "same time"
    hours, minutes = divmod(abs(by) // timedelta(minutes=1), 60)
    said = [counted(hours, "hour")] * bool(hours) + [minutes_of(minutes)] * bool(minutes)
    return f"{' '.join(said)} {'forward' if by > timedelta() else 'back'}"


def _shift(shift: Shift, hours: int) -> str:
    what = (shift.student.name, shift.instrument, f"from {short_date(shift.after.ours.date())}")
    named = one_line(", ".join(part for part in what if part))
    heading = wrap(named, _WIDTH, initial_indent="  ", subsequent_indent="  ")
    clocks = columns([(f"    {whose}", " -> ".join(readings)) for whose, readings in shift_readings(shift, hours)])
    return "\n".join([*heading, clocks])


def _readings(before: datetime, after: datetime, hours: int) -> list[str]:
    shown = (f"{WEEKDAYS[each.weekday()][:3]} {clock_time(each, hours)}" for each in (before, after))
    return list(dict.fromkeys(shown))


def _kept(count: int, *, has_others: bool) -> str:
    if not has_others:
        return f"No lessons shift ({counted(count, 'lesson')} in all)." if count else "No lessons shift."
    if not count:
        return "There are no other lessons around that day."
    return f"{counted(count, 'other lesson')} {'keeps its time' if count == 1 else 'keep their times'} on both clocks."
