"""A typed line that says when a lesson is to be: "thu 4:30pm", "12/3 16:00 45m", "4 pm phoenix".

Every word must mean something, or the line is refused; a line that could mean two things is refused too, or read by
the rules of `read_when`, which the program shows before it acts. All the rules are common practice, no source, but
for the clock changes (RFC 5545 3.3.5).
"""

from collections.abc import Mapping, Sequence, Set
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from types import MappingProxyType
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.moments import Zone, local_time, moment, zone_on
from cockpit.studio.clocks.words import city, clock_time, long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.days import Days, counted_from, day_of
from cockpit.studio.typed_times.parts import FromToday, Length, Part, TimeShift, Weekday, ZoneName
from cockpit.studio.typed_times.places import spoken
from cockpit.studio.typed_times.times import length_of, refuse_from_own_time, time_of, with_numbers_read
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value

_NOBODY: Mapping[str, Zone] = MappingProxyType({})
_DAY = timedelta(days=1)


class Occurs(StrEnum):
    """How often a local time comes on its day: a clock change can skip it or repeat it."""

    ONCE = "once"
    TWICE = "twice"
    NEVER = "never"


class When(Value):
    """What a typed line names.

    `starts_at` is the moment (UTC), `minutes` the length (None where the line says nothing of it). `local` is the
    naive time as the line says it on the clock of `zone` (IANA); where it `occurs` never there, `starts_at` shows
    another time on that clock. `is_away` is true where the line names the place of that clock. `counted` is a sentence on the day that the line counts from, if it does.
    """

    starts_at: datetime
    minutes: int | None
    zone: str
    local: datetime
    occurs: Occurs
    is_past: bool
    is_away: bool = False
    counted: str = ""


class Reference(Value):
    """What a moment is read against, as `read_when` has it; `lived_in` are the clocks of the studio's families.

    With `can_be_past` a day may have passed, as the first one of somebody who has lessons already.
    """

    now: datetime
    around: date
    home_zone: Zone
    month_first: bool = True
    same: time | None = None
    lived_in: tuple[Zone, ...] = ()
    can_be_past: bool = False


def read_when(  # noqa: PLR0913 all but the line and now are what the teacher's habits and the lesson say
    text: str,
    *,
    now: datetime,
    around: date,
    home_zone: Zone,
    month_first: bool = True,
    also: Mapping[str, Zone] = _NOBODY,
    same: time | None = None,
) -> When:
    """The moment, length and clock that a line names.

    `now` is UTC; `around` the date and `same` the time, on the teacher's clock, of the lesson that is meant; `also`
    maps names of families and students to their clocks. A city or a name puts the whole line on that clock: its date,
    its time and what "today" is. These are the rules where a line leaves something open:

    - No day: the day `around`; with a city, the day there on which the lesson stays on `around` for the teacher.
    - No time: `same`, if it is given and the line names no city; "same time" says so in words.
    - A weekday: the first on or after today, today included though the hour may be over (`is_past` tells). "next tue"
      and "tue next week" are in the week after today's; weeks begin on Monday. "next week" alone keeps the weekday of
      `around`.
    - "in 2 weeks" counts from today, "+2 weeks" and "2 weeks later" from `around`; with a weekday, it is that of the
      week reached.
    - A date without a year: the next one, today included; where one was in the last 60 days, that one, which is refused as
      past. "The 3rd": the next one. 12/3 by `month_first`; "3.12." is 3 December everywhere, "3.12" is a time.
    - An hour without am, pm, a leading zero or a part of the day: 1 to 6 are in the afternoon and 9 to 12 as they
      stand, so that lessons lie between 7:00 and 21:00. 7 and 8 could be both: evening, or morning if `same` is
      before noon (and the line names no city).
    - A number alone is an hour up to 23, a time with three or four digits (1630), and otherwise a length; behind a
      time it is a length, from 15 minutes on. "1h" to "4h" are lengths, "5h" to "23h" times.
    - An abbreviation or a region (EST, pacific) stands for its cities; of those that differ at that moment it is the
      one where she or one of `also` lives, and the line is refused if that leaves two.

    Raises:
        BadInput: a word is not understood, or what the line says does not exist, is past or contradicts itself.
    """
    reference = Reference(
        now=now, around=around, home_zone=home_zone, month_first=month_first, same=same, lived_in=tuple(also.values())
    )
    return when_of(read_parts(text, also), reference)


def when_of(parts: Sequence[Part], reference: Reference) -> When:
    """The same for the parts of a line.

    Raises:
        BadInput: what they say does not exist, is past or contradicts itself.
    """
    parts = with_numbers_read(parts)
    places = [part for part in parts if isinstance(part, ZoneName)]
    lived_in = {zone_on(each, reference.around) for each in (*reference.lived_in, reference.home_zone)}
    zones = tuple(dict.fromkeys(zone for part in places for zone in _likely_zones(part, lived_in)))
    if not zones:
        return _read_in(None, parts, reference)
    found = [_read_in(zone, parts, reference) for zone in zones]
    if len({each.starts_at for each in found}) > 1:
        said = " and ".join(dict.fromkeys(f'"{part.text}"' for part in places))
        cities = " or ".join(dict.fromkeys(spoken(zone_on(zone, reference.around)) for zone in zones))
        raise BadInput(f"{said} could mean places with different times that day. Type one city: {cities}.")
    return found[0]


def clock_note(when: When, hours: int) -> str | None:
    """What a clock change does to the time that a line says, in a sentence; None if nothing."""
    said = f"{clock_time(when.local, hours)} on {long_date(when.local)}"
    match when.occurs:
        case Occurs.NEVER:
            shown = clock_time(local_time(when.starts_at, when.zone), hours)
            return f"{said} does not exist in {city(when.zone)}, because the clock changes. Using {shown}."
        case Occurs.TWICE:
            return f"{said} comes twice in {city(when.zone)}, because the clock changes. Using the first."
        case Occurs.ONCE:
            return None


def _read_in(place: Zone | None, parts: Sequence[Part], reference: Reference) -> When:
    zone = reference.home_zone if place is None else place
    days = days_from(reference, zone)
    local = _from_now(parts, local_time(reference.now, zone).replace(tzinfo=None))
    if local is None:
        at = time_of(parts, reference.same, is_away=place is not None)
        on = day_of(parts, days)
        if on is None:
            on = reference.around if place is None else _day_there(at, place, reference)
        local = datetime.combine(on, at) + _a_week_on(parts, on, at, reference)
    on = local.date()
    named = zone_on(zone, on)
    starts_at = moment(local, named)
    if reference.same is not None and starts_at == _own_moment(reference.around, reference.same, reference):
        refuse_from_own_time(parts)
    return When(
        starts_at=starts_at,
        minutes=length_of(parts),
        zone=named,
        local=local,
        occurs=_occurs(local, named),
        is_past=starts_at < reference.now,
        is_away=place is not None,
        counted=counted_from(parts, days),
    )


def days_from(reference: Reference, zone: Zone) -> Days:
    """What days are counted from on a clock."""
    return Days(
        today=local_time(reference.now, zone).date(),
        around=reference.around,
        month_first=reference.month_first,
        can_be_past=reference.can_be_past,
    )


def _own_moment(on: date, at: time, reference: Reference) -> datetime:
    """The moment (UTC) of the lesson that is meant."""
    return moment(datetime.combine(on, at), zone_on(reference.home_zone, on))


def _from_now(parts: Sequence[Part], now: datetime) -> datetime | None:
    """The local time so many minutes from now on, if that is what a line says."""
    shift = next((part for part in parts if isinstance(part, TimeShift) and part.from_now), None)
    if shift is None:
        return None
    other = next((part for part in parts if not isinstance(part, Length | ZoneName) and part != shift), None)
    if other is not None:
        raise BadInput(f'The line has two times: "{shift.text}" and "{other.text}". Keep one.')
    return now.replace(second=0, microsecond=0) + timedelta(minutes=shift.minutes)


def _a_week_on(parts: Sequence[Part], on: date, at: time, reference: Reference) -> timedelta:
    """What is added to "next week" alone, where that is the lesson's own moment: then it is the week after the lesson's."""
    week = next((part for part in parts if isinstance(part, FromToday)), None)
    says_week = (
        week is not None and week.is_week and week.weeks > 0 and not any(isinstance(part, Weekday) for part in parts)
    )
    return timedelta(weeks=int(says_week and (on, at) == (reference.around, reference.same)))


def _likely_zones(place: ZoneName, lived_in: Set[str]) -> tuple[Zone, ...]:
    return tuple(zone for zone in place.zones if zone in lived_in) or place.zones


def _day_there(at: time, place: Zone, reference: Reference) -> date:
    """The day on a place's clock whose time `at` lies on the teacher's day `around`."""
    for on in (reference.around, reference.around - _DAY, reference.around + _DAY):
        if local_time(moment(datetime.combine(on, at), place), reference.home_zone).date() == reference.around:
            return on
    return reference.around


def _occurs(local: datetime, zone: str) -> Occurs:
    first, second = (local.replace(tzinfo=ZoneInfo(zone), fold=fold).utcoffset() for fold in (0, 1))
    if first == second or first is None or second is None:
        return Occurs.ONCE
    return Occurs.TWICE if first > second else Occurs.NEVER
