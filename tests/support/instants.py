"""Local times and zone changes worked out from nothing but the offset that a zone has at a UTC moment.

Reading a UTC moment in a zone is never ambiguous, so what is found here is independent of how the program reads local
times, where folds and gaps lie.
"""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

SECOND = timedelta(seconds=1)


def offset(at: datetime, zone: str) -> timedelta:
    """The offset of a zone at a UTC moment."""
    found = at.astimezone(ZoneInfo(zone)).utcoffset()
    assert found is not None
    return found


def changes(zone: str, begins: datetime, ends: datetime) -> Iterator[datetime]:
    """The UTC moments in [begins, ends) at which a zone's offset changes, found by halving each day that has one."""
    day = timedelta(days=1)
    while begins < ends:
        low, high = begins, begins + day
        if offset(low, zone) != offset(high, zone):
            while high - low > SECOND:
                middle = low + (high - low) // 2
                middle -= timedelta(microseconds=middle.microsecond)
                low, high = (middle, high) if offset(middle, zone) == offset(low, zone) else (low, middle)
            yield high
        begins += day


def readings(local: datetime, zone: str) -> list[datetime]:
    """The UTC moments at which a zone's clock shows a naive local time: none, one or two, in order."""
    near = local.replace(tzinfo=UTC)
    offsets = {offset(near + timedelta(hours=hours), zone) for hours in (-36, -26, -14, 0, 14, 26, 36)}
    found = (near - each for each in offsets)
    return sorted(at for at in found if at.astimezone(ZoneInfo(zone)).replace(tzinfo=None) == local)


def rfc_moment(local: datetime, zone: str) -> datetime:
    """The UTC moment of a local time by RFC 5545 3.3.5: the first of two; in a gap, by the offset before it."""
    if found := readings(local, zone):
        return found[0]
    near = local.replace(tzinfo=UTC)
    change = next(
        at
        for at in changes(zone, near - timedelta(days=2), near + timedelta(days=2))
        if offset(at - SECOND, zone) <= near - at < offset(at, zone)
    )
    return near - offset(change - SECOND, zone)
