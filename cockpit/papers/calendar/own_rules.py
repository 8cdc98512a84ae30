"""A time zone of a file's own making, by its rules: the IANA zone whose clock shows the same for years.

Rules are read year by year and never expanded without an end; only rules of the form that RFC 5545 3.6.5 shows are read.
"""

import calendar
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from datetime import UTC, date, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo, available_timezones

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard, vDDDLists, vDDDTypes, vRecur, vUTCOffset

from cockpit.studio.clocks.zones import find_zone, near_zones
from cockpit.studio.errors import BadInput

_WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
_PARTS = {"FREQ", "INTERVAL", "BYMONTH", "BYDAY", "BYMONTHDAY", "WKST", "UNTIL"}
_YEARS = 4
_DAY = timedelta(days=1)
_YEAR = timedelta(days=366)
_SECOND = timedelta(seconds=1)
_MOST = 200  # parts of a zone, and dates in one of them
# Named before others of the same clock.
_KNOWN = (
    "America/New_York", "America/Chicago", "America/Denver", "America/Los_Angeles", "America/Phoenix", "America/Halifax",
    "Europe/London", "Europe/Berlin", "Europe/Athens", "Asia/Kolkata", "Asia/Tokyo", "Australia/Sydney",
)  # fmt: skip
_Onset = tuple[datetime, timedelta, timedelta]


def zone_of_rules(component: Timezone, begins: date, home_zone: str) -> str | None:
    """The IANA zone of the rules of a VTIMEZONE, for the years from a date on; None where they are no zone's, or unread."""
    onsets = _read(component, begins)
    if not onsets:
        return None
    shown = _shown(
        onsets, datetime(begins.year - 1, 1, 1, tzinfo=UTC), datetime(begins.year + _YEARS, 1, 1, tzinfo=UTC)
    )
    named = str(component.get("TZID", ""))
    hinted = [
        zone for word in named.replace("(", ",").replace(")", ",").split(",") for zone in near_zones(word.strip())
    ]
    for zone in dict.fromkeys((home_zone, *hinted, *_KNOWN, *_all_zones())):
        clock = ZoneInfo(zone)
        if all(at.astimezone(clock).utcoffset() == offset for at, offset in shown):
            return zone
    return None


def first_difference(component: Timezone, zone: str, begins: date) -> date | None:
    """The first day from a date on when a VTIMEZONE and the IANA zone show different times; None without one, or unread.

    A file may name the changes of its own years alone: it is read up to the last of them, or for a year where it has none.
    """
    onsets = _read(component, begins)
    if not onsets:
        return None
    first, clock = datetime(begins.year, begins.month, begins.day, tzinfo=UTC), ZoneInfo(zone)
    last = onsets[-1][0]
    shown = _shown(onsets, first, last if last > first else first + _YEAR)
    return next(
        (at.astimezone(clock).date() for at, offset in sorted(shown) if at.astimezone(clock).utcoffset() != offset),
        None,
    )


def _read(component: Timezone, begins: date) -> list[_Onset]:
    """When the parts of a zone begin, in order; nothing where its rules are of another form."""
    try:
        return sorted(_onsets(component, begins.year - 2, begins.year + _YEARS))
    except (BadInput, ValueError, LookupError, OverflowError):
        return []


def _shown(onsets: Sequence[_Onset], first: datetime, ends: datetime) -> list[tuple[datetime, timedelta]]:
    """The offset on each day between two moments (UTC), and just before and after each change."""
    marks = [first + _DAY * day for day in range((ends - first) // _DAY)]
    marks += [at for onset, _, _ in onsets for at in (onset - _SECOND, onset) if first <= at < ends]
    begun = [onset for onset, _, _ in onsets]
    # Before the first change it is the offset from which that one leads away.
    offsets = [onsets[0][1], *(after for _, _, after in onsets)]
    return [(at, offsets[bisect_right(begun, at)]) for at in marks]


@lru_cache(maxsize=1)
def _all_zones() -> tuple[str, ...]:
    found = []
    for name in sorted(available_timezones()):
        try:
            found.append(find_zone(name))
        except BadInput:
            continue
    return tuple(name for name in found if "/" in name and not name.startswith("Etc/"))


def _onsets(component: Timezone, first_year: int, last_year: int) -> Iterator[_Onset]:
    """When each part of a zone begins (UTC), and the offsets before and after; the last one before the years, too."""
    parts = [each for each in component.subcomponents if each.name in {"STANDARD", "DAYLIGHT"}]
    if len(parts) > _MOST:
        raise BadInput("it has too many parts")
    for part in parts:
        before, after = _offset_in(part, "TZOFFSETFROM"), _offset_in(part, "TZOFFSETTO")
        for local in _locals(part, first_year, last_year):
            yield (local - before).replace(tzinfo=UTC), before, after


def _locals(part: TimezoneStandard | TimezoneDaylight, first_year: int, last_year: int) -> Iterable[datetime]:
    starts = _start_of(part)
    rule: object = part.get("RRULE")
    if rule is None:
        return [starts, *_separate(part.get("RDATE"))]
    if not isinstance(rule, vRecur) or part.get("RDATE") is not None:
        raise BadInput("it has several rules")
    parts = {str(name).upper(): _values(value) for name, value in rule.items()}
    until = next(iter(parts.get("UNTIL", [])), None)
    last = until.year if isinstance(until, date) else last_year
    years = range(max(first_year, starts.year), min(last, last_year) + 1)
    # Of a rule that is over, its last year says what came after.
    found = [datetime.combine(_day(parts, starts, year), starts.time()) for year in years or range(last, last + 1)]
    return [local for local in found if local >= starts]


def _start_of(part: TimezoneStandard | TimezoneDaylight) -> datetime:
    value: object = part.get("DTSTART")
    if not isinstance(value, vDDDTypes) or not isinstance(value.dt, datetime):
        raise BadInput("its beginning could not be read")
    return value.dt.replace(tzinfo=None)


def _offset_in(part: TimezoneStandard | TimezoneDaylight, name: str) -> timedelta:
    value: object = part.get(name)
    if not isinstance(value, vUTCOffset):
        raise BadInput("its offset could not be read")
    return timedelta(seconds=value.td.total_seconds())


def _values(value: object) -> list[object]:
    return list(value) if isinstance(value, list | tuple) else [value]


def _separate(dates: object) -> list[datetime]:
    lists = dates if isinstance(dates, list) else [] if dates is None else [dates]
    found = [each.dt for those in lists if isinstance(those, vDDDLists) for each in those.dts]
    moments = [each.replace(tzinfo=None) for each in found if isinstance(each, datetime)]
    if len(moments) < len(found) or len(found) > _MOST:
        raise BadInput("its dates could not be read")
    return moments


def _day(parts: dict[str, list[object]], starts: datetime, year: int) -> date:
    """The day of a year on which a part begins."""
    is_of_a_year = str(parts["FREQ"][0]).upper() == "YEARLY" and _only(parts.get("INTERVAL", [1])) == 1
    if not is_of_a_year or parts.keys() - _PARTS:
        raise BadInput("its rule is none of a year")
    month = _only(parts.get("BYMONTH", [starts.month]))
    if "BYDAY" not in parts:
        return date(year, month, _only(parts.get("BYMONTHDAY", [starts.day])))
    (byday,) = parts["BYDAY"]
    said = str(byday).upper()
    weekday = _WEEKDAYS.index(said[-2:])
    length = calendar.monthrange(year, month)[1]
    days = [day for day in range(1, length + 1) if date(year, month, day).weekday() == weekday]
    if "BYMONTHDAY" in parts:
        allowed = {int(str(day)) for day in parts["BYMONTHDAY"]}
        return date(year, month, _only([day for day in days if day in allowed]))
    nth = int(said[:-2])
    return date(year, month, days[nth - 1 if nth > 0 else nth])


def _only(values: Sequence[object]) -> int:
    if len(values) != 1:
        raise BadInput("its rule names several days")
    return int(str(values[0]))
