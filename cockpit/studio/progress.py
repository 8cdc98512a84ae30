"""How far long work is: what counts its steps reports them, and whoever is told may end the work between two steps."""

from collections.abc import Callable, Iterator, Sequence
from typing import TypeVar

T = TypeVar("T")
Report = Callable[[int, int], None]
"""Takes how many steps are done, and of how many. What it raises ends the work: `Interrupted`, where she wants no more of it."""


def unheard(_done: int, _of: int) -> None:
    """Reports to nobody."""


def in_steps(things: Sequence[T], report: Report) -> Iterator[T]:
    """Goes through things, and reports before each how many are done, and at the end all of them."""
    for done, each in enumerate(things):
        report(done, len(things))
        yield each
    report(len(things), len(things))
