"""Which standing time of a student an event of a calendar speaks of.

A standing time that came from an event has a number that is made of the event's lasting name (its UID): so the event
is known again wherever it was moved to, as a single lesson is by its id.
"""

from collections import defaultdict
from collections.abc import Container, Mapping, Sequence
from datetime import date
from hashlib import sha256
from itertools import count

from cockpit.studio.enrolling.roster_times import is_followed, match_times, meet
from cockpit.studio.lessons.file_rows import ROSTER
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.roster.columns import RosterRow

_FIRST = 1 << 60  # far beyond the numbers that a studio counts up to
_OF_ONE = 256  # an event has a standing time for each of its weekdays, and another one after each change


def event_number(uid: str) -> int:
    """The first of the numbers that the standing times of an event can have."""
    return _FIRST + int.from_bytes(sha256(uid.encode()).digest()[:6]) * _OF_ONE


def event_of_row(row: RosterRow) -> int:
    """The event that a row is of, or `ROSTER`."""
    return ROSTER if row.event_uid is None else event_number(row.event_uid)


def by_event(rows: Sequence[RosterRow]) -> Mapping[int, list[int]]:
    """The places of the rows of each event, or of a roster."""
    places: defaultdict[int, list[int]] = defaultdict(list)
    for place, row in enumerate(rows):
        places[event_of_row(row)].append(place)
    return places


def event_of(standing: StandingTime) -> int | None:
    """The event that a standing time came from, by its first number; None for one that came from elsewhere."""
    return standing.id - standing.id % _OF_ONE if standing.id >= _FIRST else None


def new_number(uid: str, taken: Container[int]) -> StandingTimeId:
    """A number for one more standing time of an event, beside those that are taken."""
    return StandingTimeId(next(number for number in count(event_number(uid)) if number not in taken))


def match_events(
    rows: Sequence[RosterRow], known: Sequence[StandingTime], columns: frozenset[str]
) -> tuple[StandingTime | None, ...]:
    """For each event of a student, the known standing time that it changes; None where it is a new one.

    That is the one that came from the event, or else one at the very weekday and time. Any other event is another
    lesson, whatever else the student has.
    """
    places = by_event(rows)
    known_of: defaultdict[int | None, list[StandingTime]] = defaultdict(list)
    for standing in known:
        event = event_of(standing)
        known_of[event if event in places else None].append(standing)
    matches: list[StandingTime | None] = [None] * len(rows)
    for event, own in places.items():
        of_event = [standing for standing in known_of[event] if not is_followed(standing, known_of[event])]
        # Nothing of an event is history: where it has ended, it is still what the event means.
        found = match_times([rows[place] for place in own], of_event, columns, date.min)
        for place, match in zip(own, found, strict=True):
            matches[place] = match
    return at_their_times(rows, matches, known_of[None])


def at_their_times(
    rows: Sequence[RosterRow], matches: Sequence[StandingTime | None], others: Sequence[StandingTime]
) -> tuple[StandingTime | None, ...]:
    """The matches, and where there is none, the standing time at a row's weekday and time on days that it speaks of."""
    free: defaultdict[object, list[StandingTime]] = defaultdict(list)
    for standing in others:
        free[standing.weekday, standing.at].append(standing)
    found = list(matches)
    for place, row in enumerate(rows):
        here = free[row.weekday, row.at]
        if found[place] is None:
            found[place] = next((standing for standing in here if meet(row, standing)), None)
            here[:] = [standing for standing in here if standing is not found[place]]
    return tuple(found)
