"""The practice days of a student, as people write them and as they are written."""

import re
from collections.abc import Iterable, Iterator
from itertools import groupby

from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.errors import BadInput
from cockpit.studio.notes.areas import Area

PRACTICE_DAYS_WANTED = 'Write the practice days, such as "Mon-Sat", "M W F", or "daily"'
_SETS = {
    **dict.fromkeys(("daily", "every day", "everyday", "all"), range(7)),
    **dict.fromkeys(("weekdays", "every weekday"), range(5)),
    **dict.fromkeys(("weekends", "the weekend"), range(5, 7)),
}
_INITIALS = {"m": 0, "t": 1, "w": 2, "f": 4}  # S may be either of two
_RANGE = r"\s*(?:[-–—−]|\bto\b|\bthrough\b)\s*"
_A_RUN = 3


def read_practice_days(text: str) -> frozenset[int]:
    """The weekdays that a text names; Monday is 0. A range may go over the weekend: `Sat-Tue`.

    Raises:
        BadInput: a word is no weekday, or could be two; it says what would work.
    """
    said = " ".join(text.split()).rstrip(".")
    if (days := _SETS.get(said.casefold())) is not None:
        return frozenset(days)
    from cockpit.studio.roster.values import BETWEEN_DAYS  # with 10 ms of patterns, which most settings do not need

    words = BETWEEN_DAYS.split(re.sub(_RANGE, "-", said, flags=re.IGNORECASE))
    return frozenset(day for word in words for day in _days(word))


def practice_days_words(days: Iterable[int]) -> str:
    """Weekdays in a few words, which are read as the same again: `Mon-Sat`, `Mon Wed Fri`, `daily`."""
    in_order = sorted(set(days))
    if len(in_order) == len(WEEKDAYS):
        return "daily"
    return " ".join(_spans(in_order))


def _spans(in_order: list[int]) -> Iterator[str]:
    for _, numbered in groupby(enumerate(in_order), key=lambda each: each[1] - each[0]):
        run = [WEEKDAYS[day][:3] for _, day in numbered]
        yield from [f"{run[0]}-{run[-1]}"] if len(run) >= _A_RUN else run


def _days(word: str) -> Iterable[int]:
    ends = word.split("-")
    if len(ends) == 1:
        return _fused(word) or (_day(word),)
    if len(ends) > 2:
        raise BadInput(PRACTICE_DAYS_WANTED)
    first, last = map(_day, ends)
    return [(first + n) % len(WEEKDAYS) for n in range((last - first) % len(WEEKDAYS) + 1)]


def _day(word: str) -> int:
    initial = _INITIALS.get(word.casefold().rstrip("."))
    if initial is not None:
        return initial
    from cockpit.studio.roster.values import read_weekday

    try:
        return read_weekday(word)
    except BadInput as fault:
        raise BadInput(PRACTICE_DAYS_WANTED) from fault


def _fused(word: str) -> tuple[int, ...]:
    """The days of a word such as `MWF`; none where it is not one."""
    from cockpit.studio.assignments.days import read_fused_days
    from cockpit.studio.assignments.tokens import tokens_of

    tokens = tokens_of(word, Area.PIECE)
    found = read_fused_days(tokens, 0) if len(tokens.words) == 1 else None
    return tuple(day for day in found.values if isinstance(day, int)) if found is not None else ()
