"""Moments, and what a clock on a wall shows then. A moment is an aware datetime in UTC."""

from datetime import date, datetime, time, timedelta

from cockpit.studio.clocks.home import Home, Stay, moment_in, zone_named

# A clock on a wall: that of an IANA zone, or one that moves with its owner, the teacher or a family.
Zone = str | Home
WEEK = timedelta(days=7)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def moment(local: datetime, zone: Zone) -> datetime:
    """The UTC moment of a naive local time in a zone.

    A time that exists twice is the first of the two; one that does not exist is read with the offset before the gap
    (RFC 5545 3.3.5).
    """
    return moment_in(local, zone_on(zone, local.date()))


def local_time(at: datetime, zone: Zone) -> datetime:
    """The aware local time of a UTC moment in a zone."""
    return at.astimezone(zone_named(zone_at(zone, at)))


def day_bounds(on: date, zone: Zone) -> tuple[datetime, datetime]:
    """The UTC moments at which a local day begins and ends; 23 to 25 hours apart around a clock change."""
    following = on + timedelta(days=1)
    if isinstance(zone, str):
        return moment(datetime.combine(on, time()), zone), moment(datetime.combine(following, time()), zone)
    return zone.day_begins(on), zone.day_begins(following)


def zone_on(zone: Zone, on: date) -> str:
    """The IANA zone that a clock shows on a date."""
    return zone if isinstance(zone, str) else zone.zone_on(on)


def zone_at(zone: Zone, at: datetime) -> str:
    """The IANA zone that a clock shows at a UTC moment."""
    return zone if isinstance(zone, str) else zone.zone_at(at)


def parted(zone: Zone) -> tuple[str, tuple[Stay, ...]]:
    """The zone that a clock begins with, and the stays that change it; none for a clock of one zone."""
    return (zone, ()) if isinstance(zone, str) else (zone.zone, zone.stays)


def lesson_clock(zone: Zone) -> Zone:
    """The clock that weekly times on a clock go by: moves count, journeys do not."""
    return zone if isinstance(zone, str) else zone.without_journeys()


def lesson_zone(zone: Zone, on: date) -> str:
    """The IANA zone that a weekly time kept on a clock goes by on a date."""
    return zone if isinstance(zone, str) else zone.lesson_zone_on(on)
