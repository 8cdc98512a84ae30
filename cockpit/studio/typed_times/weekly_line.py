"""A typed line on a weekly time: "from jan 12 5 pm 45m", "wednesdays 5pm from january", "through dec 18".

What follows "from" says the first day, what follows "until" the last one; the rest is said of every lesson. The first
lesson is on the first such weekday from the first day on: that of the weekly time, or the one that the line names beside
the date. All of it is common practice, no source.
"""

import re
from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta

from cockpit.studio.clocks.moments import WEEKDAYS, Zone, local_time
from cockpit.studio.clocks.words import long_date, month_and_day
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.days import Days, counted_from, day_of, in_one_order, in_year_of
from cockpit.studio.typed_times.parts import (
    After,
    Dated,
    Edge,
    Every,
    FromToday,
    Joint,
    Length,
    Link,
    Part,
    SameDay,
    SameTime,
    Weekday,
    ZoneName,
)
from cockpit.studio.typed_times.places import place_key
from cockpit.studio.typed_times.rules import WEEKLY_RULES
from cockpit.studio.typed_times.when import Reference, When, days_from, when_of
from cockpit.studio.typed_times.words import (
    OF_THE_DAY,
    NotUnderstood,
    claims_of,
    moment_finders,
    month_alone,
    not_understood,
)
from cockpit.studio.values import Value, replace

_EXAMPLE = 'Try "from jan 12 5 pm 45m", "from jan 12 every other week", or "through dec 18".'
_SMALL = re.compile(
    rf"(?:on|at|@|the|(?:my|our) (?:local )?(?:time|clock)|{OF_THE_DAY}|lessons?|onwards?|forward|new time|(?:change|move|switch)(?:s|d|ed)?(?: it)? to|it|is|instead)(?=[ ,;]|$)"
)
_DAY = timedelta(days=1)


class WeeklyLine(Value):
    """What a line names: `when` the first lesson is, from the day `since` on, and the last day; or the last day alone.

    `when` is None for an end, `since` where the line says no first day. `every` weeks is None where it says nothing of
    that. `keeps_time` and `keeps_weekday` are true where the weekly time's own go on.
    """

    when: When | None
    since: date | None
    until_on: date | None
    every: int | None
    keeps_time: bool
    keeps_weekday: bool


class _Said:
    """The parts of a line by what they say: of each lesson, of the first day, and of the last one."""

    def __init__(self) -> None:
        self.days: dict[str, list[Part]] = {"": [], "from": [], "until": []}
        self.each: list[Part] = []
        self.every: list[Every] = []
        self.has_until = False
        self.same_day: SameDay | None = None
        self._place = ""

    def take(self, part: Part) -> None:
        """Puts a part where it belongs."""
        match part:
            case Link():
                self._link(part.joint)
            case Every():
                self.every.append(part)
            case Weekday() if self._has_date():
                # "from 13 jan on wednesdays": behind the date it is said of each lesson, before it of the date.
                self.days[""].append(part)
            case Dated() if part.edge is not None:
                self._take_month(part, part.edge)
            case Dated() | FromToday() | Weekday():
                self.days[self._place].append(part)
            case SameDay():
                self.same_day = part
            case _:
                self.each.append(part)

    def _take_month(self, part: Dated, edge: Edge) -> None:
        if edge is Edge.LAST and self._place == "":
            raise BadInput(f'"{part.text}" could be the first day or the last. Type "from" or "through" before it.')
        if edge is Edge.NONE and self._place == "until":
            raise BadInput(
                f'"{part.text}" could be its first day or its last. Type "through the end of {part.text}", or a date.'
            )
        self.days[self._place or "from"].append(part)

    def _link(self, joint: Joint) -> None:
        if joint is Joint.FROM:
            self._place = "from"
        elif joint is Joint.TO or (self._place == "from" and self._has_date()):
            # "from 12 jan to 30 mar" ends; "to wed 5pm" says what the new time is.
            self._place, self.has_until = "until", True

    def _has_date(self) -> bool:
        return self._place != "" and any(isinstance(part, Dated) for part in self.days[self._place])


def read_weekly(text: str, reference: Reference, *, usual: datetime, also: Mapping[str, Zone]) -> WeeklyLine:
    """What a line says of a weekly time; `usual` is its next lesson (UTC), `also` maps names of people to zones.

    Where the line names no day, the first lesson is the one of `reference.around`.

    Raises:
        BadInput: a word is not understood, or no such weekday lies between the first day and the last.
    """
    said = _said_in(text, also, month_first=reference.month_first)
    if len({each.weeks for each in said.every}) > 1:
        raise BadInput(f'"{said.every[0].text}" and "{said.every[1].text}" do not match. Keep one.')
    every = said.every[0].weeks if said.every else None
    if said.has_until and not (said.days[""] or said.days["from"] or said.every):
        return _end(said, reference)
    zone = _zone(said.each, reference)
    days = days_from(reference, zone)
    since, weekday = _first_day(said, days)
    _refuse_counted(said, since or _next_day(weekday, days))
    usual_weekday = local_time(usual, zone).weekday()
    if said.same_day is not None and weekday not in {None, usual_weekday}:
        raise BadInput(
            f'"{said.same_day.text}" is {WEEKDAYS[usual_weekday]}, and the line has another day. Keep one of them.'
        )
    first = reference.around if since is None and weekday is None else since or days.today
    target = weekday if weekday is not None else usual_weekday
    if since is not None or weekday is not None:
        first += (target - first.weekday()) % 7 * _DAY
    keeps_time = not any(not isinstance(part, Length | SameTime) for part in said.each)
    if target == usual_weekday:
        reference = replace(reference, around=first)
    parts = [*said.each, Dated(text=long_date(first), day=first.day, month=first.month, year=first.year)]
    when = when_of(parts if not keeps_time else [*parts, SameTime(text="same time")], reference)
    until_on = (
        _last_day(said, first, target, replace(days, around=first, first=since or first)) if said.has_until else None
    )
    return WeeklyLine(
        when=replace(when, counted=counted_from([*said.days[""], *said.days["from"]], days)),
        since=since,
        until_on=until_on,
        every=every,
        keeps_time=keeps_time,
        keeps_weekday=target == usual_weekday,
    )


def _said_in(text: str, also: Mapping[str, Zone], *, month_first: bool) -> _Said:
    names = {place_key(name): zone for name, zone in also.items()}
    runs = claims_of(text, moment_finders(names, WEEKLY_RULES, _SMALL))
    unknown = next((place for place, run in enumerate(runs) if run.is_unknown), None)
    if unknown is not None:
        word = runs[unknown].text.casefold()
        links = [part for run in runs[:unknown] for part in run.parts if isinstance(part, Link)]
        if month_alone(word) and links and links[-1].joint is Joint.TO:
            raise BadInput(f'"{word}" needs a day. Type "end of {word}" for its last day, or a day such as "{word} 1".')
        fault = not_understood(runs[unknown:], names)
        raise BadInput(f"{fault.found} {_EXAMPLE}") if isinstance(fault, NotUnderstood) else fault
    if not any(run.parts for run in runs):
        raise BadInput(f"The line has no day or time yet. {_EXAMPLE}")
    said = _Said()
    for part in in_one_order([part for run in runs for part in run.parts], month_first=month_first):
        said.take(part)
    return said


def _first_day(said: _Said, days: Days) -> tuple[date | None, int | None]:
    """The day from which on the line holds, and the weekday that it names; None for what it does not say."""
    begins: Sequence[Part] = said.days[""]
    beside: list[Part] = []
    if said.days["from"]:
        beside = [part for part in begins if isinstance(part, Weekday)]
        begins = [*said.days["from"], *(part for part in begins if not isinstance(part, Weekday))]
    begins = in_year_of(said.days["until"], begins, days.today)
    day_of(beside, days)  # refuses two
    since = day_of(begins, days)
    named = [part for part in (*beside, *begins) if isinstance(part, Weekday)]
    weekday = named[0].weekday if named else None
    if since is not None and begins and all(isinstance(part, FromToday) and part.is_week for part in begins):
        since = max(days.today, since - since.weekday() * _DAY)
    says_no_day = not said.days["from"] and all(isinstance(part, Weekday) for part in begins)
    return (None if says_no_day else since), weekday


def _refuse_counted(said: _Said, since: date) -> None:
    """Refuses days that are counted from a day where they could say how long lessons go on, or from one lesson."""
    for part in said.each:
        if isinstance(part, After):
            first, last = since + part.days * _DAY, since + (part.days - 1) * _DAY
            lasts = f"from {_typed(since)} until {_typed(last)}"
            raise BadInput(
                f'"{part.text}" could be how long the weekly time lasts or when it begins. '
                f'Type "{lasts}" or "from {_typed(first)}".'
            )
    for part in (*said.days[""], *said.days["from"]):
        if isinstance(part, FromToday) and part.from_lesson:
            raise BadInput(
                f'"{part.text}" counts from one lesson, and a weekly time is for all. '
                'Type its first day, such as "from dec 8", or its weekday, such as "wednesdays".'
            )


def _next_day(weekday: int | None, days: Days) -> date:
    return days.today if weekday is None else days.today + (weekday - days.today.weekday()) % 7 * _DAY


def _typed(on: date) -> str:
    return month_and_day(on).casefold()


def _last_day(said: _Said, first: date, weekday: int, days: Days) -> date:
    ends = day_of(said.days["until"], days)
    if ends is None:
        raise BadInput(f"The line has no last day. {_EXAMPLE}")
    if first > ends:
        day = WEEKDAYS[weekday]
        raise BadInput(
            f"There is no {day} from {long_date(days.since)} through {long_date(ends)}. "
            f"The first one is {long_date(first)}."
        )
    return ends


def _end(said: _Said, reference: Reference) -> WeeklyLine:
    if said.each:
        raise BadInput(
            f'"{said.each[0].text}" says nothing about an end. Try "through dec 18", or "from jan 12 5 pm until mar 30".'
        )
    today = local_time(reference.now, reference.home_zone).date()
    until_on = day_of(said.days["until"], Days(today=today, around=reference.around, month_first=reference.month_first))
    if until_on is None:
        raise BadInput(f"The line has no last day. {_EXAMPLE}")
    return WeeklyLine(when=None, since=None, until_on=until_on, every=None, keeps_time=True, keeps_weekday=True)


def _zone(parts: Iterable[Part], reference: Reference) -> Zone:
    """The clock of the one place that a line names, else the teacher's."""
    zones = [zone for part in parts if isinstance(part, ZoneName) for zone in part.zones]
    return zones[0] if len(set(zones)) == 1 else reference.home_zone
