"""Narrow reads: each method asks for what one use needs, by an index."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from cockpit.store import rows
from cockpit.store.asking import LISTED, listed
from cockpit.store.calendar_reading import CalendarReading
from cockpit.store.outbox_reading import OutboxReading
from cockpit.store.rows import text_of
from cockpit.studio.changes.records import Export, FollowUp, Heard, MarkSet, Note
from cockpit.studio.lessons.booking import Enrollment, People
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import FamilyId, StudentId

_LIVE = "began_at IS NOT NULL AND finished_at IS NULL AND outcome IS NULL"


class Reading(CalendarReading, OutboxReading):
    """What the desk asks of a studio's database."""

    def people(self) -> People:
        """All students and families."""
        students = self._asking.made(rows.student, "SELECT * FROM student ORDER BY id")
        families = self._asking.made(rows.family, "SELECT * FROM family ORDER BY id")
        return People(
            students={student.id: student for student in students},
            families={family.id: family for family in families},
        )

    def standing_times(self, until_at_least: date | None = None) -> tuple[StandingTime, ...]:
        """The standing times that still hold on a date, or all of them."""
        asked = "SELECT * FROM standing_time WHERE ? IS NULL OR until_on IS NULL OR until_on >= ? ORDER BY id"
        on = None if until_at_least is None else until_at_least.isoformat()
        return self._asking.made(rows.standing_time, asked, (on, on))

    def enrollments(self, people: People, on: date) -> tuple[Enrollment, ...]:
        """The standing times that hold on a date or later, with their people."""
        return tuple(
            Enrollment(standing=standing, student=student, family=people.families[student.family_id])
            for standing in self.standing_times(on)
            for student in (people.students[standing.student_id],)
        )

    def lessons_between(self, begins: datetime, ends: datetime, also: Iterable[LessonId] = ()) -> tuple[Lesson, ...]:
        """The recorded lessons that start in [begins, ends), both UTC, and those with the ids in `also`."""
        asked = f"SELECT * FROM lesson WHERE (starts_at >= ? AND starts_at < ?) OR id IN {LISTED}"  # noqa: S608 a constant
        return self._asking.made(rows.lesson, asked, (text_of(begins), text_of(ends), listed(also)))

    def live_lesson(self) -> Lesson | None:
        """The lesson that is being taught, if any."""
        asked = f"SELECT * FROM lesson WHERE {_LIVE} ORDER BY began_at DESC LIMIT 1"  # noqa: S608 a constant
        return next(iter(self._asking.made(rows.lesson, asked)), None)

    def lessons_of(self, student_id: StudentId, begins: datetime, ends: datetime) -> tuple[Lesson, ...]:
        """A student's recorded lessons that start in [begins, ends), both UTC; in order."""
        asked = "SELECT * FROM lesson WHERE student_id = ? AND starts_at >= ? AND starts_at < ? ORDER BY starts_at"
        return self._asking.made(rows.lesson, asked, (student_id, text_of(begins), text_of(ends)))

    def last_taught(
        self, student_id: StudentId, before: datetime, instrument: str | None, most: int = 1
    ) -> tuple[Lesson, ...]:
        """The student's latest lessons that were taught and have notes, before a UTC moment; the newest first.

        On the instrument, if any was.
        """
        asked = """SELECT lesson.* FROM lesson JOIN note ON note.lesson_id = lesson.id
            WHERE student_id = ? AND starts_at < ? AND outcome IS NULL AND trim(body) <> '' AND (? OR instrument IS ?)
            ORDER BY starts_at DESC LIMIT ?"""
        for anything in (False, True):
            values = (student_id, text_of(before), anything, instrument, most)
            if found := self._asking.made(rows.lesson, asked, values):
                return found
        return ()

    def notes(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Note]:
        """The notes of lessons, by lesson."""
        found = self._asking.of_lessons(rows.note, "note", ids)
        return {note.lesson_id: note for note in found}

    def exports(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Export]:
        """What lies in the folder of lessons, by lesson."""
        found = self._asking.of_lessons(rows.export, "export", ids)
        return {export.lesson_id: export for export in found}

    def marks(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], MarkSet]:
        """The marks on the assignments of lessons, by lesson and line."""
        found = self._asking.of_lessons(rows.mark_set, "mark", ids)
        return {(mark.lesson_id, mark.line): mark for mark in found}

    def heard(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], Heard]:
        """What was heard of the assignments of lessons, by lesson and line."""
        found = self._asking.of_lessons(rows.heard, "heard", ids)
        return {(each.lesson_id, each.line): each for each in found}

    def follow_ups(self, lesson_id: LessonId) -> tuple[FollowUp, ...]:
        """A lesson's follow-ups, open and ticked."""
        return self._asking.of_lessons(rows.follow_up, "follow_up", (lesson_id,))

    def open_follow_ups(self) -> tuple[tuple[FollowUp, Lesson], ...]:
        """Everything owed, with the lesson it was noted in; the oldest first."""
        asked = """SELECT lesson.*, follow_up.lesson_id, follow_up.body, follow_up.ticked_at
            FROM follow_up JOIN lesson ON lesson.id = follow_up.lesson_id
            WHERE ticked_at IS NULL ORDER BY starts_at, follow_up.rowid"""
        return self._asking.made(lambda row: (rows.follow_up(row), rows.lesson(row)), asked)

    def papers_of(self, family_id: FamilyId) -> tuple[str, ...]:
        """The paths of all practice notes of a family, relative to the studio folder."""
        asked = """SELECT path FROM export JOIN lesson ON lesson.id = lesson_id
            JOIN student ON student.id = student_id WHERE family_id = ?"""
        return self._asking.made(lambda row: str(row["path"]), asked, (family_id,))
