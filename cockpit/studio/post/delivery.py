"""What came of an attempt to hand something over, and when the next one is made."""

from datetime import timedelta
from enum import StrEnum

from cockpit.studio.values import Value

_FIRST_GAP, _LONGEST_GAP = timedelta(minutes=1), timedelta(hours=1)
_MOST_DOUBLINGS = 16


class Answer(StrEnum):
    """What the other side said: it has it, not now, never, or nothing that can be known."""

    TAKEN = "taken"
    LATER = "later"
    NEVER = "never"
    UNKNOWN = "unknown"


class Delivery(Value):
    """How an attempt ended, and why in plain words.

    `is_channel_shut` says that nothing else can go on this way now: the reason has nothing to do with what was to go.
    """

    answer: Answer
    reason: str = ""
    is_channel_shut: bool = False


def gap_before(attempt: int, chance: float) -> timedelta:
    """How long to wait after so many attempts (1 or more): twice as long each time, an hour at most.

    `chance` in [0, 1) takes up to half of it away, so that many that failed at once do not come again at once. RFC 5321
    4.5.4.1 asks for at least 30 minutes between servers; this is a person's own program handing over to her own one.
    """
    doublings = min(max(attempt, 1) - 1, _MOST_DOUBLINGS)
    return min(_FIRST_GAP * (1 << doublings), _LONGEST_GAP) * (1 - chance / 2)
