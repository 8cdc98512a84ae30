"""The rules of a time zone, for those who read a calendar without having the zone data.

The library's own component for a zone is not used: it dates a change to summer time an hour late, at the local time
after it, where RFC 5545 3.6.5 wants the one before.
"""

import calendar
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple
from zoneinfo import ZoneInfo

from icalendar import Timezone, TimezoneDaylight, TimezoneStandard

_STEP = timedelta(days=7)  # no zone has changed twice within a week since 2007
_SECOND = timedelta(seconds=1)
_YEARS = 30  # weekdays and dates meet in every way within 28
_WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")


class _Change(NamedTuple):
    """A change of offset: when, on the clock that it ends, and from and to what."""

    at: datetime
    before: timedelta
    after: timedelta


def zone_component(zone: str, first_year: int, last_year: int) -> Timezone:
    """The VTIMEZONE of an IANA zone, right from one year's beginning to another's end.

    Where the zone follows a yearly rule, it is right for good.
    """
    component = Timezone()
    component.add("TZID", zone)
    begins, past_all = datetime(first_year - 1, 1, 1, tzinfo=UTC), max(last_year, first_year + _YEARS) + 1
    changes = _changes(zone, begins.year, past_all)
    # A zone that changed in the year before needs no word on what was before that.
    if not changes or changes[0].at.year >= first_year:
        offset = _offset(begins, zone)
        component.add_component(_observance(begins.replace(tzinfo=None), offset, offset))
    for before, after in dict.fromkeys((change.before, change.after) for change in changes):
        starts = [change.at for change in changes if (change.before, change.after) == (before, after)]
        yearly = _yearly(starts, past_all - 1)
        # One part for each change that no rule has: readers take only the first date of several in an RDATE.
        for irregular in starts[: len(starts) - len(yearly)]:
            component.add_component(_observance(irregular, before, after))
        if yearly:
            component.add_component(_observance(yearly[0], before, after, _rule(yearly)))
    return component


@lru_cache(maxsize=64)
def _changes(zone: str, first_year: int, last_year: int) -> tuple[_Change, ...]:
    begins = datetime(first_year, 1, 1, tzinfo=UTC)
    weeks = (datetime(last_year, 1, 1, tzinfo=UTC) - begins) // _STEP
    marks = ((at, _offset(at, zone)) for at in (begins + week * _STEP for week in range(weeks + 1)))
    found = []
    for (low, before), (high, after) in pairwise(marks):
        if before != after:
            at = _first_second(low, high, zone)
            found.append(_Change(at=(at + before).replace(tzinfo=None), before=before, after=after))
    return tuple(found)


def _first_second(low: datetime, high: datetime, zone: str) -> datetime:
    before = _offset(low, zone)
    while high - low > _SECOND:
        middle = low + (high - low) // _SECOND // 2 * _SECOND
        low, high = (middle, high) if _offset(middle, zone) == before else (low, middle)
    return high


def _offset(at: datetime, zone: str) -> timedelta:
    return at.astimezone(ZoneInfo(zone)).utcoffset() or timedelta()


def _yearly(starts: list[datetime], last_year: int) -> list[datetime]:
    """The last of the starts, as far as they follow one yearly rule up to the last year; none, if they do not."""
    tail = [starts[-1]] if starts[-1].year == last_year else []
    for start in reversed(starts[:-1]):
        days = [each.day for each in (*tail, start)]
        if not tail or start.year != tail[0].year - 1 or _habit(start) != _habit(tail[0]) or max(days) - min(days) > 6:
            break
        tail.insert(0, start)
    # Fewer years would not show which seven days of the month it can fall on.
    return tail if len(tail) >= 28 else []


def _habit(start: datetime) -> tuple[object, ...]:
    return start.month, start.weekday(), start.time()


def _rule(starts: list[datetime]) -> dict[str, object]:
    first = min(start.day for start in starts)
    month, weekday = starts[0].month, _WEEKDAYS[starts[0].weekday()]
    rule: dict[str, object] = {"FREQ": "YEARLY", "BYMONTH": month}
    if first in {1, 8, 15}:
        return rule | {"BYDAY": f"{first // 7 + 1}{weekday}"}
    if first + 6 == calendar.monthrange(starts[0].year, month)[1]:
        return rule | {"BYDAY": f"-1{weekday}"}
    return rule | {"BYDAY": weekday, "BYMONTHDAY": list(range(first, first + 7))}


def _observance(
    starts: datetime, before: timedelta, after: timedelta, rule: dict[str, object] | None = None
) -> TimezoneDaylight | TimezoneStandard:
    component = TimezoneDaylight() if after > before else TimezoneStandard()
    component.add("DTSTART", starts)
    component.add("TZOFFSETFROM", before)
    component.add("TZOFFSETTO", after)
    if rule is not None:
        component.add("RRULE", rule)
    return component
