"""Which standing time of a student a row of the roster speaks of."""

from collections import defaultdict
from collections.abc import Hashable, Iterable, Sequence

from cockpit.studio.calendar import StandingTime
from cockpit.studio.people import name_key
from cockpit.studio.roster_rows import RosterRow


def match_times(
    rows: Sequence[RosterRow], known: Sequence[StandingTime], columns: frozenset[str]
) -> tuple[StandingTime | None, ...]:
    """For each row of a student, the known standing time that it changes; None where it is a new one.

    First those at the same weekday and time are matched, then those that have less and less in common: weekday and
    instrument, weekday, instrument, nothing. `columns` are those that the file has.
    """
    matched: dict[int, StandingTime] = {}
    free = list(known)
    row_keys = [_keys(row, columns) for row in rows]
    for level in range(len(_keys(rows[0], columns)) if rows else 0):
        places = [place for place in range(len(rows)) if place not in matched]
        found = _pairs(((place, row_keys[place][level]) for place in places), free, level, columns)
        matched |= found
        taken = {standing.id for standing in found.values()}
        free = [standing for standing in free if standing.id not in taken]
    return tuple(matched.get(place) for place in range(len(rows)))


def _pairs(
    wanted: Iterable[tuple[int, Hashable]], free: Iterable[StandingTime], level: int, columns: frozenset[str]
) -> dict[int, StandingTime]:
    by_key: defaultdict[Hashable, list[StandingTime]] = defaultdict(list)
    for standing in free:
        by_key[_keys(standing, columns)[level]].append(standing)
    waiting = {key: iter(standings) for key, standings in by_key.items()}
    pairs = {}
    for place, key in wanted:
        match = next(waiting.get(key, iter(())), None)
        if match is not None:
            pairs[place] = match
    return pairs


def _keys(slot: RosterRow | StandingTime, columns: frozenset[str]) -> tuple[Hashable, ...]:
    """What two of the same standing time have in common, from the surest to the least."""
    dates = (slot.from_on if "from" in columns else None, slot.until_on if "until" in columns else None)
    instrument = name_key(slot.instrument or "")
    at = (slot.weekday, slot.at)
    if "instrument" in columns:
        return (at, dates), at, (slot.weekday, instrument), slot.weekday, instrument, ()
    return (at, dates), at, slot.weekday, ()
