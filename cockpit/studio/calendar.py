"""Standing times, and the moments that they name.

A standing time is kept as weekday, local time and clock; never as an offset. A moment is an aware datetime in UTC.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from enum import StrEnum
from typing import NewType
from zoneinfo import ZoneInfo

from cockpit.studio.people import StudentId

StandingTimeId = NewType("StandingTimeId", int)
WEEK = timedelta(days=7)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class KeptIn(StrEnum):
    """Whose clock a standing time belongs to."""

    TEACHER = "teacher"
    FAMILY = "family"


@dataclass(frozen=True, slots=True, kw_only=True)
class StandingTime:
    """A weekly lesson: Monday is weekday 0; `at`, `from_on` and `until_on` are read on the clock it is kept in."""

    id: StandingTimeId
    student_id: StudentId
    weekday: int
    at: time
    minutes: int
    kept_in: KeptIn = KeptIn.TEACHER
    instrument: str | None = None
    from_on: date | None = None
    until_on: date | None = None
    call_link: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Occurrence:
    """One meeting that a standing time names: its date on the clock it is kept in, and its moment (UTC)."""

    taught_on: date
    starts_at: datetime


def moment(local: datetime, zone: str) -> datetime:
    """The UTC moment of a naive local time in an IANA zone.

    A time that exists twice is the first of the two; one that does not exist is read with the offset before the gap
    (RFC 5545 3.3.5).
    """
    return local.replace(tzinfo=ZoneInfo(zone), fold=0).astimezone(UTC)


def local_time(at: datetime, zone: str) -> datetime:
    """The aware local time of a UTC moment in an IANA zone."""
    return at.astimezone(ZoneInfo(zone))


def day_bounds(on: date, zone: str) -> tuple[datetime, datetime]:
    """The UTC moments at which a local day begins and ends; 23 to 25 hours apart around a clock change."""
    midnight = datetime.combine(on, time())
    return moment(midnight, zone), moment(midnight + timedelta(days=1), zone)


def occurrences(standing: StandingTime, zone: str, begins: datetime, ends: datetime) -> Iterator[Occurrence]:
    """The meetings that start in [begins, ends), both UTC, for a standing time kept in `zone`; in order.

    Each is resolved from its own local date, so that a clock change bends one meeting and not those after it.
    A local time that does not exist still counts, at the moment of RFC 5545 3.3.5.
    """
    first = local_time(begins, zone).date() - timedelta(days=1)
    last = local_time(ends, zone).date() + timedelta(days=1)
    if standing.from_on is not None:
        first = max(first, standing.from_on)
    if standing.until_on is not None:
        last = min(last, standing.until_on)
    on = first + timedelta(days=(standing.weekday - first.weekday()) % 7)
    while on <= last:
        starts_at = moment(datetime.combine(on, standing.at), zone)
        if begins <= starts_at < ends:
            yield Occurrence(taught_on=on, starts_at=starts_at)
        on += WEEK
