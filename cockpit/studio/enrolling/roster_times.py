"""Which standing time of a student a row of the roster speaks of."""

from collections import defaultdict
from collections.abc import Container, Hashable, Iterable, Sequence
from datetime import date
from typing import TypeVar

from cockpit.studio.lessons.file_rows import FileRow, followed_up, made_another
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import name_key
from cockpit.studio.roster.columns import RosterRow

Slot = RosterRow | FileRow | StandingTime
_SURE = 2  # so many of the keys below say all that a row can say of its lessons


def match_rows(
    rows: Sequence[RosterRow], remembered: Sequence[FileRow], columns: frozenset[str]
) -> tuple[FileRow | None, ...]:
    """For each row of a student, what the file said in its place when it was read last; None for a row that is new.

    First come those that say the same, then those that have less and less in common: weekday and time, weekday and
    instrument, weekday, instrument, nothing. Whatever they have in common, a row means none that holds on other days.
    `remembered` are in the order in which they are to be meant; `columns` are those of the file.
    """
    free = list(remembered)
    matched: dict[int, FileRow] = {}
    for level in range(len(_keys(rows[0], columns)) if rows else 0):
        matched |= _pairs(_left(rows, matched), free, level, columns)
        free = [row for row in free if row not in matched.values()]
    return tuple(matched.get(place) for place in range(len(rows)))


def match_times(
    rows: Sequence[RosterRow], known: Sequence[StandingTime], columns: frozenset[str], today: date
) -> tuple[StandingTime | None, ...]:
    """For each row of a student, the known standing time that it speaks of for the first time; None for a new one.

    They are held against each other as in `match_rows`. One that ended before `today` is history: a row can only say
    it once more. `columns` are those of the file.
    """
    matched: dict[int, StandingTime] = {}
    # Or the file could not take its word back.
    gone = made_another(known)
    meaningful = [standing for standing in known if standing.id not in gone]
    # Where two would do, the one that lasts is meant.
    free = sorted(meaningful, key=lambda standing: (is_over(standing, today), is_followed(standing, known)))
    for level in range(len(_keys(rows[0], columns)) if rows else 0):
        meant = [standing for standing in free if level < _SURE or not is_over(standing, today)]
        matched |= _pairs(_left(rows, matched), meant, level, columns)
        # A row that still says what the studio has changed since speaks for what it was changed into.
        taken = followed_up((standing.id for standing in matched.values()), known)
        free = [standing for standing in free if standing.id not in taken]
    return tuple(matched.get(place) for place in range(len(rows)))


def meet(row: Slot, other: Slot) -> bool:
    """Whether there is a day on which both can hold."""
    begins, ends = row.from_on or date.min, row.until_on or date.max
    return begins <= (other.until_on or date.max) and (other.from_on or date.min) <= ends


def is_over(standing: StandingTime, today: date) -> bool:
    """Whether the standing time ended before a date."""
    return standing.until_on is not None and standing.until_on < today


def is_followed(standing: StandingTime, others: Iterable[StandingTime]) -> bool:
    """Whether another one has taken a standing time's place."""
    ends = standing.until_on
    return ends is not None and any(each.from_on is not None and each.from_on > ends for each in others)


Known = TypeVar("Known", FileRow, StandingTime)


def _left(rows: Sequence[RosterRow], matched: Container[int]) -> list[tuple[int, RosterRow]]:
    return [(place, row) for place, row in enumerate(rows) if place not in matched]


def _pairs(
    wanted: Iterable[tuple[int, RosterRow]], free: Iterable[Known], level: int, columns: frozenset[str]
) -> dict[int, Known]:
    waiting: defaultdict[Hashable, list[Known]] = defaultdict(list)
    for each in free:
        waiting[_keys(each, columns)[level]].append(each)
    pairs = {}
    for place, row in wanted:
        alike = waiting.get(_keys(row, columns)[level], [])
        nth = next((nth for nth, each in enumerate(alike) if meet(row, each)), None)
        if nth is not None:
            pairs[place] = alike.pop(nth)
    return pairs


def _keys(slot: Slot, columns: frozenset[str]) -> tuple[Hashable, ...]:
    """What two of the same standing time have in common, from the surest to the least."""
    dates = (slot.from_on if "from" in columns else None, slot.until_on if "until" in columns else None)
    instrument = name_key(slot.instrument or "")
    at = (slot.weekday, slot.at)
    alike = (at, slot.minutes, (slot.every_weeks or 1) if "every_weeks" in columns else None)
    if "instrument" in columns:
        return (alike, dates), alike, (at, dates), at, (slot.weekday, instrument), slot.weekday, instrument, ()
    return (alike, dates), alike, (at, dates), at, slot.weekday, ()
