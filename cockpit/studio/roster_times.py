"""Which standing time of a student a row of the roster speaks of, and how long it holds."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence
from datetime import date

from cockpit.studio.calendar import StandingTime
from cockpit.studio.people import name_key
from cockpit.studio.roster_rows import RosterRow

Dates = tuple[date | None, date | None]
_SURE = 2  # so many of the keys below say all that a row can say of its lessons


def match_times(
    rows: Sequence[RosterRow], known: Sequence[StandingTime], columns: frozenset[str], today: date
) -> tuple[StandingTime | None, ...]:
    """For each row of a student, the known standing time that it changes; None where it is a new one.

    First come those that are as the row says, then those that have less and less in common: weekday and time, weekday
    and instrument, weekday, instrument, nothing. One that ended before `today` is history: a row can only say it once
    more. Whatever they have in common, a row means none that holds on other days. `columns` are those of the file.
    """
    matched: dict[int, StandingTime] = {}
    # What an earlier reading ended can only be meant as what it became: or the file could not take its word back.
    ended_by_file = {standing.follows for standing in known if standing.is_from_file}
    meaningful = [standing for standing in known if standing.id not in ended_by_file]
    # Where two would do, the one that lasts is meant.
    free = sorted(meaningful, key=lambda standing: (is_over(standing, today), is_followed(standing, known)))
    row_keys = [_keys(row, columns) for row in rows]
    for level in range(len(_keys(rows[0], columns)) if rows else 0):
        places = [place for place in range(len(rows)) if place not in matched]
        meant = [standing for standing in free if level < _SURE or not is_over(standing, today)]
        found = _pairs(((rows[place], place, row_keys[place][level]) for place in places), meant, level, columns)
        matched |= found
        taken = {standing.id for standing in found.values()}
        # A row that still says what the studio has changed since speaks for what it was changed into.
        taken |= {standing.id for standing in known if standing.follows in taken}
        free = [standing for standing in free if standing.id not in taken]
    return tuple(matched.get(place) for place in range(len(rows)))


def meet(row: RosterRow, standing: StandingTime) -> bool:
    """Whether there is a day on which a row and a standing time can both hold."""
    begins, ends = row.from_on or date.min, row.until_on or date.max
    return begins <= (standing.until_on or date.max) and (standing.from_on or date.min) <= ends


def is_over(standing: StandingTime, today: date) -> bool:
    """Whether the standing time ended before a date."""
    return standing.until_on is not None and standing.until_on < today


def is_followed(standing: StandingTime, others: Iterable[StandingTime]) -> bool:
    """Whether another one has taken a standing time's place."""
    ends = standing.until_on
    return ends is not None and any(each.from_on is not None and each.from_on > ends for each in others)


def kept_dates(row: RosterRow, known: StandingTime, others: Iterable[StandingTime]) -> Dates:
    """From when and until when a standing time holds that a row changes, beside the student's `others`.

    A blank cell takes no date away, since a change from a date on, or an end, was made in the studio and is in no
    file. An event, which nobody writes by hand, goes on no longer than the studio has it. Nor does a row bring a
    standing time back on days for which another one has taken its place.
    """
    begins, ends = row.from_on or known.from_on, row.until_on or known.until_on
    if row.event_uid is not None and known.until_on is not None and ends is not None:
        ends = min(ends, known.until_on)
    for other in others:
        if known.until_on is not None and other.from_on is not None and ends is not None:
            ends = known.until_on if known.until_on < other.from_on <= ends else ends
        if known.from_on is not None and other.until_on is not None and begins is not None:
            begins = known.from_on if begins <= other.until_on < known.from_on else begins
    return begins, ends


def _pairs(
    wanted: Iterable[tuple[RosterRow, int, Hashable]],
    free: Iterable[StandingTime],
    level: int,
    columns: frozenset[str],
) -> dict[int, StandingTime]:
    waiting: defaultdict[Hashable, list[StandingTime]] = defaultdict(list)
    for standing in free:
        waiting[_keys(standing, columns)[level]].append(standing)
    pairs = {}
    for row, place, key in wanted:
        alike = waiting.get(key, [])
        nth = next((nth for nth, standing in enumerate(alike) if meet(row, standing)), None)
        if nth is not None:
            pairs[place] = alike.pop(nth)
    return pairs


def _keys(slot: RosterRow | StandingTime, columns: frozenset[str]) -> tuple[Hashable, ...]:
    """What two of the same standing time have in common, from the surest to the least."""
    dates = (slot.from_on if "from" in columns else None, slot.until_on if "until" in columns else None)
    instrument = name_key(slot.instrument or "")
    at = (slot.weekday, slot.at)
    alike = (at, slot.minutes, (slot.every_weeks or 1) if "every_weeks" in columns else None)
    if "instrument" in columns:
        return (alike, dates), alike, (at, dates), at, (slot.weekday, instrument), slot.weekday, instrument, ()
    return (alike, dates), alike, (at, dates), at, slot.weekday, ()
