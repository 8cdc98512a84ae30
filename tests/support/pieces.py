"""Lines as lessons of 2026 gave them, for tests of what is read of a student's pieces."""

from datetime import date

from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.notes.vocabulary import BUILT_IN
from cockpit.studio.pieces.given import GivenLine, read_lines


def given_line(on: str, line: str, mark: Mark | None = None, heard: int | None = None) -> GivenLine:
    """A line that the lesson on `11-24` gave, with its mark, and the tempo that it was heard at."""
    (read,) = read_lines(line, BUILT_IN)
    month_and_day = date.fromisoformat(f"2026-{on}")
    return GivenLine(lesson_id=LessonId(f"w1-2026-{on}"), on=month_and_day, read=read, mark=mark, heard=heard)


def given_lines(on: str, body: str) -> list[GivenLine]:
    """The lines of a lesson's notes."""
    at = date.fromisoformat(f"2026-{on}")
    lesson_id = LessonId(f"w1-2026-{on}")
    return [GivenLine(lesson_id=lesson_id, on=at, read=read) for read in read_lines(body, BUILT_IN)]
