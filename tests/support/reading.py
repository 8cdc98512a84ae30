"""Lines of assignments read, a piece's unless told otherwise, and what of them was understood and kept."""

from fractions import Fraction

from cockpit.studio.assignments.assignment import Assignment, Measures, Part, Tempo
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import Area, Line, NoteLine


def line_of(text: str, area: Area = Area.PIECE) -> NoteLine:
    """The line that a label and a text make."""
    return NoteLine(line=Line.ASSIGNMENT, area=area, text=text, typed=f"{area.value.capitalize()}: {text}")


def read(text: str, area: Area = Area.PIECE) -> Assignment:
    """The text behind a label, read anew."""
    return read_assignment.__wrapped__(line_of(text, area))


def tempo(goal: int, start: int | None = None, *, beat: str = "1", about: bool = False, ceiling: bool = False) -> Tempo:
    """A tempo in quarters, unless told otherwise."""
    return Tempo(beat=Fraction(beat), goal=goal, start=start, is_about=about, is_ceiling=ceiling)


def ranges(text: str, area: Area = Area.PIECE) -> list[tuple[int, int | None]]:
    """The first and last measures of a line's ranges."""
    return [(each.first, each.last) for each in read(text, area).measures]


def counted(measures: tuple[Measures, ...]) -> int:
    """How many measures some closed ranges are."""
    return sum(each.count or 0 for each in measures)


def understood_as(assignment: Assignment) -> dict[str, Part]:
    """The stretches of the text that were understood, and as what."""
    return {assignment.text[each.begins : each.ends]: each.part for each in assignment.stretches}


def pieces(assignment: Assignment) -> list[str]:
    """The text cut at its stretches: kept, understood, kept, ..."""
    cut, at = [], 0
    for each in assignment.stretches:
        cut += [assignment.text[at : each.begins], assignment.text[each.begins : each.ends]]
        at = each.ends
    return [*cut, assignment.text[at:]]
