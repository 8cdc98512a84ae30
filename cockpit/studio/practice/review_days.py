"""The days on which review pieces come round, by a rule of widening gaps.

The rule is our own. Widening gaps are a choice and not proven better than equal ones: both led to the same recall in
the end (Kang, Lindsey, Mozer and Pashler, Psychonomic Bulletin & Review, 2014, on facts, not on playing).
"""

from collections.abc import Iterator, Sequence


def review_days(days: int, turn: int, gaps: Sequence[int], passed: int = 0) -> tuple[int, ...]:
    """The practice days, counted from 0, on which a review piece comes: with gaps of 1, 2, 3 on days 0, 1, 3, 6.

    `turn` is which of the review pieces it is, counted from 0: each begins a day after the one before, from the first
    day again when there are no more, so that every one of them comes. `passed` are the practice days since it was first
    asked for: the gaps go on from there. The last gap is used again as long as there are days. Gaps are at least 1;
    without any, or where the next visit lies beyond these days, a piece comes once, on the day of its turn: it was
    asked for.
    """
    if days < 1:
        return ()
    begins = turn % days
    return tuple(day - passed for day in _visits(begins, gaps, passed + days) if day >= passed) or (begins,)


def _visits(day: int, gaps: Sequence[int], end: int) -> Iterator[int]:
    left = list(gaps)
    while day < end:
        yield day
        if not left:
            return
        day += left[0]
        left = left[1:] or left
