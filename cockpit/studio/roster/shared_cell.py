"""The cell of a roster that says with whom a lesson is shared: `Tobin`, or `Tobin (Aldersgate); Arlo`."""

import re
from collections.abc import Iterable
from datetime import date, time
from typing import Protocol

from cockpit.studio.errors import BadInput
from cockpit.studio.roster.values import read_person
from cockpit.studio.values import Value

_ENTRY = re.compile(r"(?P<name>[^()]+?)\s*(?:\((?P<family>[^()]+)\))?")


class Slot(Protocol):
    """A row of a roster, or a weekly time: when it is, and from when until when."""

    @property
    def weekday(self) -> int: ...  # noqa: D102
    @property
    def at(self) -> time: ...  # noqa: D102
    @property
    def minutes(self) -> int: ...  # noqa: D102
    @property
    def from_on(self) -> date | None: ...  # noqa: D102
    @property
    def until_on(self) -> date | None: ...  # noqa: D102


class Companion(Value):
    """Somebody with whom a lesson is shared, and the family where that is said."""

    name: str
    family: str | None = None

    def __str__(self) -> str:
        """As the cell has it."""
        return self.name if self.family is None else f"{self.name} ({self.family})"


def read_companions(text: str) -> str:
    """The companions in a cell, each once, in one form.

    Raises:
        BadInput: one is no name.
    """
    return companions_cell(companions_in(text))


def companions_in(text: str) -> tuple[Companion, ...]:
    """The companions in a cell.

    Raises:
        BadInput: one is no name.
    """
    found = []
    for entry in filter(None, map(str.strip, text.split(";"))):
        match = _ENTRY.fullmatch(entry)
        if match is None:
            raise BadInput(
                'Write the name of the student who shares the lesson, such as "Tobin" or "Tobin (Aldersgate)"'
            )
        family = match["family"]
        found.append(Companion(name=read_person(match["name"]), family=read_person(family) if family else None))
    return tuple(dict.fromkeys(found))


def companions_cell(companions: Iterable[Companion]) -> str:
    """The cell with these companions."""
    return "; ".join(map(str, companions))


def are_at_one_time(one: Slot, other: Slot) -> bool:
    """Whether two have the weekday, the time, and the length in common, and some of their dates."""
    is_same = (one.weekday, one.at, one.minutes) == (other.weekday, other.at, other.minutes)
    return is_same and overlap(one, other)


def overlap(one: Slot, other: Slot) -> bool:
    """Whether two have some of their dates in common."""
    first = max(one.from_on or date.min, other.from_on or date.min)
    return first <= min(one.until_on or date.max, other.until_on or date.max)
