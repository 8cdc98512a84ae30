"""The board of a running lesson: as a page of its own, and the lines that a family will get, for a screen that is shared."""

import re
from collections.abc import Iterator
from html import escape

from cockpit.papers.notes import sentences
from cockpit.papers.notes.page import page_frame
from cockpit.papers.notes.theory import MOST_STAVES, Draw, answers, no_staff, with_answers
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.day.board import Board, BoardEntry
from cockpit.studio.notes.notes import FamilyNotes
from cockpit.studio.shown import one_line
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory

REFRESH = '<meta http-equiv="refresh" content="3">\n'
"""Has a browser read the page again each three seconds: nothing runs on it."""
_BEFORE = "<title>"
_ENGRAVED = re.compile(r'<svg role="img" width="([\d.]+)mm"')
_EMS_A_MILLIMETER = 0.19  # a line of a staff is a letter and a half high
_NOTHING = "♪"  # a page has a title, and this one is to say nothing


def board_page(board: Board | None, style: str, language: str, draw: Draw = no_staff) -> str:
    """The first name and the theory with the staves that `draw` makes, and nothing else; empty where no lesson runs.

    What came last is on top: nobody scrolls in a window that is shared.
    """
    name = one_line(board.first_name) if board is not None else ""
    body = "".join(_parts(name, board, draw)) if board is not None else ""
    return page_frame(name or _NOTHING, body, style, language).replace(_BEFORE, f"{REFRESH}{_BEFORE}", 1)


def family_lines(notes: FamilyNotes, phrases: Phrases, lesson: LessonTheory = ANY_LESSON) -> tuple[str, ...]:
    """A family's notes line by line as its paper has them: assignments, things to get, goals, remarks; answers below them."""
    given = (f"{sentences.assignment_label(line, phrases)} {line.text}" for line in notes.assignments)
    lasting = (
        said
        for heading, lines in (("notes.to_get", notes.to_get), ("notes.goals", notes.goals))
        for line in lines
        for said in (f"{phrases.say(heading)}: {sentences.lasting_line(line)}", *answers(line.text, phrases, lesson))
    )
    return (
        *map(one_line, with_answers(given, phrases, lesson)),
        *map(one_line, lasting),
        *map(one_line, with_answers(notes.remarks, phrases, lesson)),
    )


def _parts(name: str, board: Board, draw: Draw) -> Iterator[str]:
    yield f"<h1>{escape(name)}</h1>\n"
    for number, entry in enumerate(reversed(board.entries)):
        staff = draw(entry.words, board.theory) if number < MOST_STAVES else None
        figure = _figure(staff) if staff is not None else ""
        yield f"<section>\n<h2>{escape(one_line(entry.words))}</h2>\n{_answer(entry)}{figure}</section>\n"


def _figure(staff: str) -> str:
    """Shows a staff in the width that it was engraved in, measured in ems. So a staff of two lines is as large as one of one line."""
    wide = _ENGRAVED.match(staff)
    style = f' style="--wide: {float(wide[1]) * _EMS_A_MILLIMETER:.1f}em"' if wide is not None else ""
    return f"<figure{style}>{staff}</figure>\n"


def _answer(entry: BoardEntry) -> str:
    return "".join(
        f"<p>{' '.join(f'<span>{escape(part)}</span>' for part in one_line(row).split())}</p>\n" for row in entry.rows
    )
