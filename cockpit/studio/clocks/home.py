"""A clock that moves when its owner moves house or travels: the teacher's own, or a family's."""

from datetime import UTC, date, datetime, time, timedelta
from functools import cache, lru_cache
from zoneinfo import ZoneInfo

from cockpit.studio.values import Value

_DAY = timedelta(days=1)


class Stay(Value):
    """From a date on somebody lives in another zone (IANA), or, with `until_on`, is only there up to and on that day."""

    zone: str
    from_on: date
    until_on: date | None = None


class Home(Value):
    """Somebody's clock over time: the zone (IANA) before any stay, and the stays.

    Each date lies in one zone. The owner changes clocks at the midnight before a stay's first day, on the clock that is
    left, so that the days follow one another without a gap or an overlap; the day of a journey has more or fewer
    than 24 hours.
    """

    zone: str
    stays: tuple[Stay, ...] = ()

    def zone_on(self, on: date) -> str:
        """The zone that the clock shows on a date; a stretch of days goes before a move."""
        return _zone_on(self, self.stays, on)

    def lesson_zone_on(self, on: date) -> str:
        """The zone that the weekly times on the clock go by: a move takes them along, a journey does not.

        Lessons keep their time while somebody travels; common practice, no source.
        """
        return _zone_on(self, self.without_journeys().stays, on)

    def without_journeys(self) -> "Home":
        """The clock as it would be if its owner never traveled, only moved."""
        return Home(zone=self.zone, stays=tuple(stay for stay in self.stays if stay.until_on is None))

    def zone_at(self, at: datetime) -> str:
        """The zone that the clock shows at a UTC moment."""
        zone = self.zone
        for arrives_at, then in arrivals(self):
            if at < arrives_at:
                break
            zone = then
        return zone

    def day_begins(self, on: date) -> datetime:
        """The UTC moment at which a date begins on the clock: where it shows that date, or a later one, first."""
        midnight = datetime.combine(on, time())
        begins = moment_in(midnight, self.zone)
        for arrives_at, then in arrivals(self):
            if begins < arrives_at:
                break
            # On the day after a journey east, part of the date was over before the arrival.
            begins = max(arrives_at, moment_in(midnight, then))
        return begins


def moment_in(local: datetime, zone: str) -> datetime:
    """The UTC moment of a naive local time in an IANA zone, by RFC 5545 3.3.5.

    A time that exists twice is the first of the two; one that does not exist is read with the offset before the gap.
    """
    if local.fold:
        local = local.replace(fold=0)
    # Three times as fast as `replace`, which a year of lessons calls thousands of times.
    return datetime.combine(local.date(), local.time(), zone_named(zone)).astimezone(UTC)


@cache
def zone_named(name: str) -> ZoneInfo:
    """The rules of an IANA zone. zoneinfo itself keeps eight of them, and reads the ninth from its file each time.

    Raises:
        ZoneInfoNotFoundError: there is no such zone.
    """
    return ZoneInfo(name)


def _zone_on(home: Home, stays: tuple[Stay, ...], on: date) -> str:
    there = [stay for stay in stays if stay.from_on <= on and (stay.until_on is None or on <= stay.until_on)]
    # Of two stays that hold, the stretch of days wins, then the later one.
    there.sort(key=lambda stay: (stay.until_on is not None, stay.from_on))
    return there[-1].zone if there else home.zone


@lru_cache(maxsize=256)
def arrivals(home: Home) -> tuple[tuple[datetime, str], ...]:
    """The UTC moments at which a clock becomes that of another zone, each with that zone; in order."""
    dates = {stay.from_on for stay in home.stays} | {s.until_on + _DAY for s in home.stays if s.until_on is not None}
    found: list[tuple[datetime, str]] = []
    for on in sorted(dates):
        leaves, then = home.zone_on(on - _DAY), home.zone_on(on)
        if leaves == then:
            continue
        at = moment_in(datetime.combine(on, time()), leaves)
        if found and at <= found[-1][0]:
            # Across the date line a stay of one day can be over before the arrival: nobody is ever there.
            at, _ = found.pop()
        found.append((at, then))
    return tuple(found)
