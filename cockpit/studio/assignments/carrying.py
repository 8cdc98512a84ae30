"""An assignment from one week to the next: when two lines ask for the same thing, and how one is carried on."""

import re

from cockpit.studio.assignments.assignment import Part, Stretch
from cockpit.studio.assignments.goals import without_day
from cockpit.studio.assignments.reading import column_as_typed, number_of, read_assignment
from cockpit.studio.notes.notes import Line, NoteLine, read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import replace

# How fast, how long, how often and on which days may change from week to week: it is the same assignment still.
_PASSING = frozenset({Part.TEMPO, Part.MINUTES, Part.TIMES, Part.DAYS, Part.IN_TURNS, Part.BY_HEART})
_GOAL = re.compile(r"(?:\bup\s+to\s+)?(\d+)(?=\D*$)", re.IGNORECASE)
_FIRST = re.compile(r"\d+")
_NOT_WORDS = re.compile(r"[\W_]+")


def thread_of(line: NoteLine) -> str:
    """What a line assigns, without how fast, how long, or how often: equal for the same thing.

    Of a thing to get it is the thing, and of a goal what is to be reached, without its day.
    """
    if line.line is Line.TO_GET or line.line is Line.GOAL:
        words = without_day(line.text) if line.line is Line.GOAL else line.text
        return f"{line.line}: {_NOT_WORDS.sub(' ', words).casefold().strip() or line.text}"
    assignment = read_assignment(line)
    kept, at = "", 0
    for stretch in assignment.stretches:
        if stretch.part in _PASSING:
            kept += f"{assignment.text[at : stretch.begins]} "
            at = stretch.ends
    words = _NOT_WORDS.sub(" ", kept + assignment.text[at:]).casefold().strip()
    return f"{assignment.area}: {_numbered(words, line)}"


def _numbered(words: str, line: NoteLine) -> str:
    """The words with the number of the label, where it is a number of the thing."""
    number = number_of(line)
    return f"{number} {words}" if number else words


def given_again(line: NoteLine, body: str, labels: Labels = BUILT_IN) -> str | None:
    """The line of a note that asks for the same as an earlier one; None where there is none."""
    thread = thread_of(line)
    given = (each for each in read_notes(body, labels) if each.line is Line.ASSIGNMENT)
    return next((each.typed for each in given if thread_of(each) == thread), None)


def carried_on(line: NoteLine, tempo: int | None) -> str:
    """The line as it is given again: with a tempo heard (beats a minute) as its new start, where one is asked for.

    Everything else stays as typed. What was heard at the goal or above leaves the line as it is.
    """
    assignment = read_assignment(line)
    wanted = assignment.tempo
    if tempo is None or wanted is None or tempo >= wanted.goal:
        return line.typed
    marks = [stretch for stretch in assignment.stretches if stretch.part is Part.TEMPO]
    if len(marks) != 1:
        return line.typed
    return _checked(line, _from(line, marks[0], tempo, wanted.start), tempo, wanted.goal)


def _from(line: NoteLine, mark: Stretch, tempo: int, start: int | None) -> str:
    offset = line.typed.index(line.text)
    begins, ends = (offset + column_as_typed(line.text, at) for at in (mark.begins, mark.ends))
    typed = line.typed[begins:ends]
    if start is not None:
        fresh = _FIRST.sub(str(tempo), typed, count=1)
    else:
        fresh = _GOAL.sub(lambda goal: f"{tempo} to {goal[1]}", typed, count=1)
    return f"{line.typed[:begins]}{fresh}{line.typed[ends:]}"


def _checked(line: NoteLine, carried: str, tempo: int, goal: int) -> str:
    """The carried line, if it reads as it was meant; else as it was typed."""
    read = read_assignment(replace(line, typed=carried, text=carried[line.typed.index(line.text) :].rstrip())).tempo
    return carried if read is not None and (read.start, read.goal) == (tempo, goal) else line.typed
