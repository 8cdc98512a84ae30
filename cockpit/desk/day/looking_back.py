"""A student's earlier lessons, one after another, as they were noted."""

from datetime import UTC, date, datetime

from cockpit.desk.ports import Reading
from cockpit.studio.assignments.last_lesson import GivenAssignment, TaughtNotes, given_in
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.notes.notes import NoteLine, read_notes
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value


class EarlierLesson(Value):
    """A lesson of the past: its date on the teacher's clock, what was given and how it went, and the other lines, in order.

    What was given are assignments, things to get, and goals.
    """

    lesson: Lesson
    on: date
    given: tuple[GivenAssignment, ...] = ()
    lines: tuple[NoteLine, ...] = ()


class LookingBack:
    """Reads the lesson before or after another one of the same student; it never writes."""

    def __init__(self, reading: Reading, home: TeacherClock, labels: Labels) -> None:
        self._reading = reading
        self._home = home
        self._labels = labels

    def before(self, lesson: Lesson) -> EarlierLesson | None:
        """The student's lesson before one, whatever became of it; None before the first."""
        return self._read(self._reading.lesson_before(lesson))

    def after(self, earlier: Lesson, until: Lesson | None) -> EarlierLesson | None:
        """The student's lesson after an earlier one; None where that is the lesson `until`, or a later one."""
        found = self._reading.lesson_after(earlier)
        if found is None or until is None:
            return self._read(found)
        return self._read(found) if (found.starts_at, found.id) < (until.starts_at, until.id) else None

    def lesson(self, lesson_id: LessonId) -> EarlierLesson | None:
        """One lesson; None where it is not kept any more."""
        begins = datetime.min.replace(tzinfo=UTC)
        return self._read(next(iter(self._reading.lessons_between(begins, begins, [lesson_id])), None))

    def latest(self, student_id: StudentId, now: datetime, most: int) -> list[EarlierLesson]:
        """The student's latest lessons, the newest first, of the 120 days up to a moment; but for one that is running.

        They have notes, or something became of them.
        """
        lessons = self._reading.lessons_of(student_id, now - NEXT_LESSON, now)
        notes = self._reading.notes([lesson.id for lesson in lessons])
        noted = [
            each
            for each in lessons
            if not each.is_live and (each.outcome is not None or (each.id in notes and notes[each.id].body.strip()))
        ]
        return [found for lesson in reversed(noted[-most:]) if (found := self._read(lesson)) is not None]

    def _read(self, lesson: Lesson | None) -> EarlierLesson | None:
        if lesson is None:
            return None
        on = self._home.date_of(lesson.starts_at)
        note = self._reading.notes([lesson.id]).get(lesson.id)
        if note is None:
            return EarlierLesson(lesson=lesson, on=on)
        notes = TaughtNotes(
            lesson_id=lesson.id, taught_on=on, body=note.body, minutes=lesson.minutes, labels=self._labels
        )
        lines = read_notes(note.body, self._labels)
        return EarlierLesson(
            lesson=lesson,
            on=on,
            given=given_in(notes, self._reading.marks([lesson.id]), self._reading.heard([lesson.id])),
            lines=tuple(line for line in lines if line.text and not line.line.takes_marks),
        )
