"""What the notes pane says of the line with the cursor, in the room that there is for it."""

from collections.abc import Iterator
from dataclasses import replace

from rich.cells import cell_len

from cockpit.screens.look.show import wrapped
from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.notes.notes import Line, read_line
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels

_BETWEEN = " · "


def understood_rows(line: str, width: int, most: int, labels: Labels = BUILT_IN) -> str:
    """What is understood of a typed line, in at most so many rows of a width; nothing of one that is no assignment.

    `measures 17–32 (16) · quarter 72`. Where there is no room for all of it, what a plan counts with stays, and a sign
    stands for the rest: `… quarter 72 · 5 min`.
    """
    read = read_line(line, labels)
    if read.line is not Line.ASSIGNMENT or width < 1:
        return ""
    assignment = read_assignment(read)
    whole = understood(assignment)
    for each in _shorter(assignment):
        said = understood(each)
        rows = wrapped((said if said == whole else f"… {said}").split(_BETWEEN), width, "").split("\n")
        if said and len(rows) <= most and all(cell_len(row) <= width for row in rows):
            return "\n".join(rows)
    return "\n".join(wrapped(whole.split(_BETWEEN), width, "").split("\n")[:most])


def _shorter(assignment: Assignment) -> Iterator[Assignment]:
    """The assignment, and what is left of it as its parts are left out one after another, the least needed first."""
    yield assignment
    yield (left := replace(assignment, opus=None, number=None, pages=()))
    yield (left := replace(left, octaves=None))
    yield (left := replace(left, key=None))
    yield (left := replace(left, hands=None))
    yield (left := replace(left, times=None, in_turns=False, by_heart=False))
    yield (left := replace(left, days=None))
    yield replace(left, measures=())
