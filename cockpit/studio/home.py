"""The teacher's own clock, which moves when she moves house or travels."""

from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo

_DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stay:
    """From a date on she lives in another zone (IANA), or, with `until_on`, she is only there up to and on that day."""

    zone: str
    from_on: date
    until_on: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Home:
    """A teacher's clock over time: the zone (IANA) before any stay, and the stays.

    Each date lies in one zone. She changes clocks at the midnight before a stay's first day, on the clock that she
    leaves, so that the days follow one another without a gap or an overlap; the day of a journey has more or fewer
    than 24 hours.
    """

    zone: str
    stays: tuple[Stay, ...] = ()

    def zone_on(self, on: date) -> str:
        """The zone that her clock shows on a date; a stretch of days goes before a move."""
        return _zone_on(self, self.stays, on)

    def lesson_zone_on(self, on: date) -> str:
        """The zone that the standing times on her clock go by: a move takes them along, a journey does not.

        A family keeps its time while she travels; common practice, no source.
        """
        return _zone_on(self, tuple(stay for stay in self.stays if stay.until_on is None), on)

    def zone_at(self, at: datetime) -> str:
        """The zone that her clock shows at a UTC moment."""
        zone = self.zone
        for begins, then in _changes(self):
            if at < begins:
                break
            zone = then
        return zone

    def day_begins(self, on: date) -> datetime:
        """The UTC moment at which a date begins on her clock."""
        midnight = moment_in(datetime.combine(on, time()), self.zone_on(on))
        before = moment_in(datetime.combine(on, time()), self.zone_on(on - _DAY))
        # On the day after a journey east, part of the date was over before she arrived.
        return max(midnight, before)


def moment_in(local: datetime, zone: str) -> datetime:
    """The UTC moment of a naive local time in an IANA zone, by RFC 5545 3.3.5.

    A time that exists twice is the first of the two; one that does not exist is read with the offset before the gap.
    """
    return local.replace(tzinfo=ZoneInfo(zone), fold=0).astimezone(UTC)


def _zone_on(home: Home, stays: tuple[Stay, ...], on: date) -> str:
    there = [stay for stay in stays if stay.from_on <= on and (stay.until_on is None or on <= stay.until_on)]
    # Of two stays that hold, the stretch of days wins, then the later one.
    there.sort(key=lambda stay: (stay.until_on is not None, stay.from_on))
    return there[-1].zone if there else home.zone


@lru_cache(maxsize=16)
def _changes(home: Home) -> tuple[tuple[datetime, str], ...]:
    dates = {stay.from_on for stay in home.stays} | {s.until_on + _DAY for s in home.stays if s.until_on is not None}
    return tuple(
        (moment_in(datetime.combine(on, time()), home.zone_on(on - _DAY)), home.zone_on(on)) for on in sorted(dates)
    )
