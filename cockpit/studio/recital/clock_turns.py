"""What a clock that changes on the day of a recital does to its start, told for each clock that it concerns."""

from collections.abc import Iterable
from datetime import datetime
from enum import StrEnum

from cockpit.studio.clocks.moments import Zone, day_bounds, local_time, zone_at
from cockpit.studio.values import Value


class TurnedHour(StrEnum):
    """Where a start lies on a day on which the clock changes."""

    SKIPPED = "the hour that is skipped"
    FIRST = "the first of two hours"
    SECOND = "the second of two hours"
    OTHER = "another hour of that day"


class ClockTurn(Value):
    """A clock that changes on the day of a start, which it shows as `local`; `typed` is what it was set to."""

    zone: str
    local: datetime
    typed: datetime | None
    hour: TurnedHour


def clock_turns(starts_at: datetime, set_to: tuple[datetime, str], zones: Iterable[Zone]) -> tuple[ClockTurn, ...]:
    """Finds the clocks that change on the day of a start (UTC), each once. `set_to` is the typed local time with its zone; `zones` are the other clocks."""
    typed, own = set_to
    names = dict.fromkeys([own, *(zone_at(each, starts_at) for each in zones)])
    found = (_turn(starts_at, name, typed if name == own else None) for name in names)
    return tuple(each for each in found if each is not None)


def _turn(starts_at: datetime, zone: str, typed: datetime | None) -> ClockTurn | None:
    local = local_time(starts_at, zone)
    if typed is not None and typed != local.replace(tzinfo=None, fold=0):
        hour = TurnedHour.SKIPPED
    elif local.utcoffset() != local.replace(fold=1 - local.fold).utcoffset():
        hour = TurnedHour.SECOND if local.fold else TurnedHour.FIRST
    elif len({local_time(each, zone).utcoffset() for each in day_bounds(local.date(), zone)}) > 1:
        hour = TurnedHour.OTHER
    else:
        return None
    return ClockTurn(zone=zone, local=local, typed=typed, hour=hour)
