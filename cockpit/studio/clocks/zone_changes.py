"""When a clock changes: a zone's by its rules, and the teacher's own when she moves or travels."""

from dataclasses import dataclass
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.home import arrivals
from cockpit.studio.clocks.moments import Zone

_SECOND = timedelta(seconds=1)
# In the zone data no two changes of one zone since 1990 lie closer than 6 days 23 hours (Brazil's north-east, 2000).
_STEP = timedelta(days=5)


@dataclass(frozen=True, slots=True, kw_only=True)
class ClockChange:
    """From a moment (UTC) on a clock has another offset; or it is another zone's, where its owner leaves `left_zone`."""

    zone: str
    at: datetime
    before: timedelta
    after: timedelta
    left_zone: str | None = None


def changes_of_zone(zone: str, begins: datetime, ends: datetime) -> list[ClockChange]:
    """Every change of an IANA zone's offset in [begins, ends), both UTC, to the second; in order."""
    clock = ZoneInfo(zone)
    at, last = _last_second(begins), _last_second(ends)
    before = _offset(at, clock)
    found: list[ClockChange] = []
    while at < last:
        then = min(at + _STEP, last)
        if _offset(then, clock) != before:
            then = _first_change(clock, at, then)
            after = _offset(then, clock)
            found.append(ClockChange(zone=zone, at=then, before=before, after=after))
            before = after
        at = then
    return found


def changes_of_clock(clock: Zone, begins: datetime, ends: datetime) -> list[ClockChange]:
    """Every change of a clock in [begins, ends), both UTC: of its offset, and to another zone's; in order."""
    if isinstance(clock, str):
        return changes_of_zone(clock, begins, ends)
    found: list[ClockChange] = []
    zone, since = clock.zone_at(begins - _SECOND), begins
    for at, then in arrivals(clock):
        if not begins <= at < ends or then == zone:
            continue
        found += changes_of_zone(zone, since, at)
        before, after = _offset(at - _SECOND, ZoneInfo(zone)), _offset(at, ZoneInfo(then))
        found.append(ClockChange(zone=then, at=at, before=before, after=after, left_zone=zone))
        zone, since = then, at + _SECOND
    return found + changes_of_zone(zone, since, ends)


def _last_second(before: datetime) -> datetime:
    return (before - timedelta(microseconds=1)).replace(microsecond=0)


def _offset(at: datetime, clock: ZoneInfo) -> timedelta:
    return at.astimezone(clock).utcoffset() or timedelta()


def _first_change(clock: ZoneInfo, low: datetime, high: datetime) -> datetime:
    before = _offset(low, clock)
    while high - low > _SECOND:
        middle = low + (high - low) // _SECOND // 2 * _SECOND
        low, high = (middle, high) if _offset(middle, clock) == before else (low, middle)
    return high
