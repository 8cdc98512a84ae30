"""Pieces practiced in turns: a layout of the minutes, and no promise.

The layout is that of Carter and Grahn (Frontiers in Psychology 7:1251, 2016), who had ten clarinetists play turns of 3
minutes up to 12 minutes for each piece. They rated it better where ratings differed; a study of 19 beginners found no
main effect of the order. It is made because a teacher asks for it.
"""

from collections.abc import Sequence
from itertools import chain

from cockpit.studio.practice.shares import shares

_MOST_ROUNDS = 40  # two hours of turns of three minutes: more is a slip of the finger


def turn_lengths(minutes: Sequence[int], longest: int) -> tuple[tuple[int, ...], ...]:
    """The turns of each piece, in minutes: as many for one as for the other, so that no piece follows itself.

    There are as many rounds as keep every turn within `longest` minutes, but never more than the shortest piece has
    minutes, and never more than 40: then turns are longer. A piece's turns differ by a minute at the most, the longer ones first.
    `minutes` are at least 1 each, and so is `longest`.
    """
    if not minutes:
        return ()
    rounds = min(-(-max(minutes) // longest), min(minutes), _MOST_ROUNDS)
    return tuple(shares(each, [1] * rounds) for each in minutes)


def interleaved(lengths: Sequence[Sequence[int]]) -> tuple[tuple[int, int], ...]:
    """The turns in the order they are played, A B A B: which piece, counted from 0, and for how many minutes."""
    return tuple(chain.from_iterable(enumerate(turn) for turn in zip(*lengths, strict=True)))
