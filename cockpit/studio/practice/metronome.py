"""The marks of a metronome, and ladders of tempos that climb on them.

A ladder is arithmetic for planning. A study of 60 students found no significant effect of the pattern in which tempos
rise (Henley, Journal of Research in Music Education, 2001), so nothing is promised by it.
"""

from bisect import bisect_left, bisect_right

# The steps printed on traditional metronomes: by 2 up to 60, by 3 to 72, by 4 to 120, by 6 to 144, by 8 to 208.
MARKS: tuple[int, ...] = (
    *range(40, 60, 2),
    *range(60, 72, 3),
    *range(72, 120, 4),
    *range(120, 144, 6),
    *range(144, 209, 8),
)
_ON_A_MARK = frozenset(MARKS)


def is_mark(tempo: int) -> bool:
    """Whether a tempo in beats a minute is one of the marks."""
    return tempo in _ON_A_MARK


def nearest_mark(tempo: int) -> int:
    """The mark nearest to a tempo; of two as near, the slower one."""
    return min(MARKS, key=lambda mark: (abs(mark - tempo), mark))


def next_mark(tempo: int) -> int:
    """The first mark faster than a tempo, or the tempo itself where there is none."""
    return next(iter(MARKS[bisect_right(MARKS, tempo) :]), tempo)


def previous_mark(tempo: int) -> int:
    """The first mark slower than a tempo, or the tempo itself where there is none."""
    return next(reversed(MARKS[: bisect_left(MARKS, tempo)]), tempo)


def ladder(start: int, goal: int, days: int, largest_step: int) -> tuple[int, ...]:
    """A tempo for each practice day, in beats a minute, climbing from the tempo heard to the goal.

    Every tempo is a mark, save the goal, which stays as it was typed. The first day is at the tempo heard; where that
    lies between two marks, at the faster of them, so that no day is slower than what was heard. The climb is spread
    evenly and is never more than `largest_step` marks (at least 1) from one day to the next; where the goal is out of
    reach so, the last day is the mark nearest to it that is not. A single day goes one largest step up from what was
    heard, or two lessons with one day between them would never climb.

    A tempo heard at the goal or above it stays at the goal. Below 40 and above 208 there are no marks: a climb begins
    with 40 there, or goes from 208, in one step, to the goal.
    """
    if start >= goal:
        return (goal,) * days
    above = (*MARKS[bisect_right(MARKS, start) : bisect_left(MARKS, goal)], goal)
    if days == 1:
        return (above[min(largest_step, len(above)) - 1],)
    rungs = (start, *above) if is_mark(start) else above
    steps = min(len(rungs) - 1, largest_step * (days - 1))
    return tuple(rungs[steps * day // (days - 1)] for day in range(days))
