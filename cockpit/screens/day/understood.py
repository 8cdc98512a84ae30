"""What the notes pane says of the line with the cursor, in the room that there is for it."""

from collections.abc import Iterator

from rich.cells import cell_len

from cockpit.screens.look.show import wrapped
from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.goals import TypedOn
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.assignments.telling import LabelOffer, goal_phrases, kind_phrases, meaning_of, warnings_of
from cockpit.studio.clocks.words import counted
from cockpit.studio.notes.notes import Line, NoteLine, things_of
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory
from cockpit.studio.values import replace

_BETWEEN = " · "


def understood_rows(  # noqa: PLR0913, PLR0917 all that is known of a line
    line: NoteLine,
    offer: LabelOffer | None,
    width: int,
    most: int,
    labels: Labels = BUILT_IN,
    typed: TypedOn | None = None,
    lesson: LessonTheory = ANY_LESSON,
) -> str:
    """What a line is, who reads it, and what is understood of it, in at most so many rows of a width.

    `assignment: piece  for the family  measures 17–32 (16)  quarter 72`. Where there is no room for all of it, what a
    plan counts with stays, and a sign stands for the rest: `… quarter 72  5 min`. An empty line is nothing. The day of a
    goal counts from that on which the line was `typed`.
    """
    if not line.typed.strip() or width < 1:
        return ""
    lead = [
        *kind_phrases(line),
        *warnings_of(line, labels),
        *_theory_of(line, width, lesson),
        *_goal_of(line, width, typed),
        *([f"end adds {offer.label}"] if offer is not None else []),
    ]
    assignment = read_assignment(line) if line.line is Line.ASSIGNMENT else None
    whole = meaning_of(line)
    things = things_of(line)
    shorter = _shorter_words(assignment, whole) if not things else [whole, counted(len(things), "thing")]
    for said in shorter:
        rows = wrapped([*lead, *filter(None, said.split(_BETWEEN))], width, "").split("\n")
        if len(rows) <= most and all(cell_len(row) <= width for row in rows):
            return "\n".join(rows)
    return "\n".join(wrapped(lead, width, "").split("\n")[:most])


def _theory_of(line: NoteLine, width: int, lesson: LessonTheory) -> Iterator[str]:
    """What its braces are answered, in parts that are no wider than there is room."""
    if "}" not in line.text:
        return
    from textwrap import wrap

    from cockpit.wording.theory import told_of  # with 10 ms of patterns, which no other line waits for

    for each in told_of(line.text, lesson):
        yield from wrap(each, width)


def _goal_of(line: NoteLine, width: int, typed: TypedOn | None) -> Iterator[str]:
    """The day of a goal, or why there is none, in parts that are no wider than there is room."""
    for each in goal_phrases(line, typed) if typed is not None else ():
        from textwrap import wrap

        yield from wrap(each, width)


def _shorter_words(assignment: Assignment | None, whole: str) -> Iterator[str]:
    yield whole
    for each in _shorter(assignment) if assignment is not None else ():
        said = understood(each)
        if said != whole:
            yield f"… {said}" if said else "…"


def _shorter(assignment: Assignment) -> Iterator[Assignment]:
    """What is left of an assignment as its parts are left out one after another, the least needed first."""
    yield (left := replace(assignment, opus=None, number=None, pages=()))
    yield (left := replace(left, octaves=None))
    yield (left := replace(left, key=None))
    yield (left := replace(left, hands=None))
    yield (left := replace(left, times=None, in_turns=False, by_heart=False))
    yield (left := replace(left, days=None))
    yield (left := replace(left, measures=()))
    yield replace(left, tempo=None)
