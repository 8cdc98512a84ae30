"""What came before what: a weekly time and those whose place it took, a make-up and what it makes up."""

from collections.abc import Callable, Iterable
from datetime import date
from typing import TypeVar

from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId

Key = TypeVar("Key")


def origin_of(key: Key, before: Callable[[Key], Key | None]) -> Key:
    """The first of those that came before a key, one before the other; itself, where there are none.

    Damaged rows that go in a circle do not hold anybody up.
    """
    passed = {key}
    while (earlier := before(key)) is not None and earlier not in passed:
        passed.add(earlier)
        key = earlier
    return key


def followed_up(ids: Iterable[StandingTimeId], known: Iterable[StandingTime]) -> set[StandingTimeId]:
    """Weekly times by their ids, and all that took their place, one after the other."""
    found, others = set(ids), tuple(known)
    while more := {each.id for each in others if each.follows in found} - found:
        found |= more
    return found


def made_another(known: Iterable[StandingTime]) -> set[StandingTimeId]:
    """Those that a file itself let become another: they can only be meant as what they became."""
    return {each.follows for each in known if each.is_from_file and each.follows is not None}


def pieces_of(standing_id: StandingTimeId, known: Iterable[StandingTime]) -> tuple[StandingTime, ...]:
    """A weekly time and all that it became, the one that lasts at the end."""
    others = tuple(known)
    ids = followed_up([standing_id], others)
    return tuple(sorted((each for each in others if each.id in ids), key=lambda each: (_begins(each), each.id)))


def _begins(standing: StandingTime) -> date:
    # One that was ended before its first day comes before what took its place.
    return min(standing.from_on or date.min, standing.until_on or date.max)
