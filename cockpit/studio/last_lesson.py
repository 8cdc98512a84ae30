"""What a student brings to a lesson: the assignments of the last one, their marks, and what to remember."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from cockpit.studio.lesson import LessonId
from cockpit.studio.notes import Line, Mark, NoteLine, next_time, read_notes
from cockpit.studio.records import MarkSet


@dataclass(frozen=True, slots=True, kw_only=True)
class GivenAssignment:
    """An assignment of the last lesson, and how it went, once that is known."""

    line: NoteLine
    mark: Mark | None


@dataclass(frozen=True, slots=True, kw_only=True)
class LastLesson:
    """The lesson before this one: its date on the teacher's clock, what was given, what to remember."""

    lesson_id: LessonId
    taught_on: date
    assignments: tuple[GivenAssignment, ...]
    next_time: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """What lies before the teacher for a lesson: the text so far, and the last lesson if there was one."""

    body: str
    last: LastLesson | None


def last_lesson(lesson_id: LessonId, taught_on: date, body: str, marks: Mapping[str, MarkSet]) -> LastLesson:
    """The last lesson from its typed notes and the marks set since; equal lines share a mark."""
    lines = dict.fromkeys(line for line in read_notes(body) if line.line is Line.ASSIGNMENT and line.text)
    given = (GivenAssignment(line=line, mark=marks[line.typed].mark if line.typed in marks else None) for line in lines)
    return LastLesson(lesson_id=lesson_id, taught_on=taught_on, assignments=tuple(given), next_time=next_time(body))
