"""The small plot of the tempos that a piece was heard at: how high each of its cells is."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor

MOST_CELLS = 16
HIGHEST = 8
_MIDDLE = 4


def heights(heard: Sequence[Fraction], goal: Fraction | None = None) -> tuple[int, ...]:
    """A height from 1 to 8 for each of the last 16 tempos, the newest at the end.

    The lowest and the highest of them and the goal are 1 and 8; where all are equal, each is in the middle.
    """
    shown = heard[-MOST_CELLS:]
    scale = (*shown, goal) if goal is not None else tuple(shown)
    if not shown:
        return ()
    low, high = min(scale), max(scale)
    if low == high:
        return (_MIDDLE,) * len(shown)
    return tuple(1 + floor((HIGHEST - 1) * (each - low) / (high - low)) for each in shown)
