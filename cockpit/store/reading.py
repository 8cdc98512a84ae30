"""Narrow reads: each method asks for what one use needs, by an index."""

import sqlite3
from collections.abc import Callable, Iterable, Mapping
from datetime import date, datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, TypeVar

from cockpit.store.faults import damaged, translated_errors
from cockpit.store.tables import LISTED, Cell, R, listed, moment_in, records_of, table_of, text_of
from cockpit.studio.changes.records import Accepted, BoardLine, CalendarTitle, Export, FollowUp, Heard, MarkSet, Note
from cockpit.studio.errors import StudioDamaged
from cockpit.studio.lessons.breaks import Break, Pause, TimeOff
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.scheduled import Enrollment, People
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
from cockpit.studio.people.people import Family, FamilyId, Guardian, Student, StudentId
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId

if TYPE_CHECKING:
    from cockpit.studio.changes.duties import Duty
    from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
    from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItem, RecitalNoted
    from cockpit.studio.inquiries.inquiry import Inquiry, InquiryStep
    from cockpit.studio.lessons.withdrawn import WithdrawnClock, WithdrawnLesson, WithdrawnTime
    from cockpit.studio.people.permissions import Permission
    from cockpit.studio.post.family_letter import FamilyLetter, LetterGuardian

T = TypeVar("T")

_LIVE = "began_at IS NOT NULL AND finished_at IS NULL AND outcome IS NULL"
_TOUCHED = """began_at IS NOT NULL OR finished_at IS NOT NULL OR outcome IS NOT NULL
    OR EXISTS (SELECT 1 FROM note WHERE lesson_id = lesson.id AND trim(body) <> '')"""
_UNDELIVERED = """SELECT about FROM outgoing WHERE inquiry_id IS NOT NULL GROUP BY about
    HAVING max(fate NOT IN ('refused', 'withdrawn')) = 0"""
_OPEN = "fate IN ('waiting', 'going', 'unsure', 'refused')"


class SqliteReading:
    """What the desk asks of a studio's database."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def people(self) -> People:
        """All students and families."""
        students, families = self._records(Student, "ORDER BY id"), self._records(Family, "ORDER BY id")
        return People(
            students={student.id: student for student in students},
            families={family.id: family for family in families},
        )

    def guardians(self) -> tuple[Guardian, ...]:
        """The guardians of all families."""
        return self._records(Guardian, "ORDER BY family_id, position, id")

    def permissions(self) -> "tuple[Permission, ...]":
        """What was said of how students may be shown."""
        from cockpit.studio.people.permissions import Permission

        return self._records(Permission, "ORDER BY student_id, what")

    def standing_times(self, until_at_least: date | None = None) -> tuple[StandingTime, ...]:
        """The weekly times that still hold on a date, or all of them."""
        on = None if until_at_least is None else until_at_least.isoformat()
        return self._records(StandingTime, "WHERE ? IS NULL OR until_on IS NULL OR until_on >= ? ORDER BY id", on, on)

    def enrollments(self, people: People, on: date) -> tuple[Enrollment, ...]:
        """The weekly times that hold on a date or later, with their people."""
        return tuple(
            Enrollment(standing=standing, student=student, family=people.families[student.family_id])
            for standing in self.standing_times(on)
            for student in (people.students[standing.student_id],)
        )

    def lessons_between(self, begins: datetime, ends: datetime, also: Iterable[LessonId] = ()) -> tuple[Lesson, ...]:
        """The recorded lessons that start in [begins, ends), both UTC, and those with the ids in `also`."""
        where = f"WHERE (starts_at >= ? AND starts_at < ?) OR id IN {LISTED}"
        return self._records(Lesson, where, text_of(begins), text_of(ends), listed(also))

    def live_lesson(self) -> Lesson | None:
        """The lesson that is being taught, if any."""
        return next(iter(self._records(Lesson, f"WHERE {_LIVE} ORDER BY began_at DESC LIMIT 1")), None)

    def call_losses(self, lesson_id: LessonId) -> tuple[CallLoss, ...]:
        """The losses of a lesson's call, in order."""
        return self._records(CallLoss, "WHERE lesson_id = ? ORDER BY lost_at", lesson_id)

    def board_lines(self, lesson_id: LessonId) -> tuple[BoardLine, ...]:
        """What was put on the board of a lesson and taken off it, in order."""
        return self._records(BoardLine, "WHERE lesson_id = ? ORDER BY put_at, rowid", lesson_id)

    def unsettled_losses(self) -> tuple[tuple[CallLoss, Lesson], ...]:
        """What was lost of calls in lessons that were taught, and nothing became of, each with its lesson; the oldest first.

        Minutes that were given in another lesson are lost again where that one came to nothing. A rehearsal counts for nothing.
        """
        query = """SELECT lesson.*, call_loss.* FROM call_loss JOIN lesson ON lesson.id = lesson_id
            WHERE finished_at IS NOT NULL AND outcome IS NULL AND NOT is_rehearsed AND (settled IS NULL OR EXISTS (
                SELECT 1 FROM lesson AS later WHERE later.id = given_in AND later.more_minutes = 0))
            ORDER BY starts_at, lost_at"""
        return self._made(lambda rows: zip(records_of(CallLoss, rows), records_of(Lesson, rows), strict=True), query)

    def lessons_of(self, student_id: StudentId, begins: datetime, ends: datetime) -> tuple[Lesson, ...]:
        """A student's recorded lessons that start in [begins, ends), both UTC; in order."""
        where = "WHERE student_id = ? AND starts_at >= ? AND starts_at < ? ORDER BY starts_at"
        return self._records(Lesson, where, student_id, text_of(begins), text_of(ends))

    def last_taught(
        self, student_id: StudentId, before: datetime, instrument: str | None, most: int = 1
    ) -> tuple[Lesson, ...]:
        """The student's latest lessons that were taught and have notes, before a UTC moment; the newest first.

        On the instrument, if any was.
        """
        query = """SELECT lesson.* FROM lesson JOIN note ON note.lesson_id = lesson.id
            WHERE student_id = ? AND starts_at < ? AND outcome IS NULL AND trim(body) <> '' AND (? OR instrument IS ?)
            ORDER BY starts_at DESC LIMIT ?"""
        for anything in (False, True):
            values = (student_id, text_of(before), anything, instrument, most)
            if found := self._made(partial(records_of, Lesson), query, *values):
                return found
        return ()

    def lesson_before(self, lesson: Lesson) -> Lesson | None:
        """The same student's last lesson before one that was taught or closed, or has notes."""
        return self._beside(lesson, "<", "DESC")

    def lesson_after(self, lesson: Lesson) -> Lesson | None:
        """The same student's first lesson after one that was taught or closed, or has notes."""
        return self._beside(lesson, ">", "ASC")

    def _beside(self, lesson: Lesson, which: str, order: str) -> Lesson | None:
        where = f"""WHERE student_id = ? AND (starts_at, id) {which} (?, ?) AND ({_TOUCHED})
            ORDER BY starts_at {order}, id {order} LIMIT 1"""
        return next(iter(self._records(Lesson, where, lesson.student_id, text_of(lesson.starts_at), lesson.id)), None)

    def notes(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Note]:
        """The notes of lessons, by lesson."""
        return {note.lesson_id: note for note in self._of_lessons(Note, ids)}

    def exports(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Export]:
        """What lies in the folder of lessons, by lesson."""
        return {export.lesson_id: export for export in self._of_lessons(Export, ids)}

    def marks(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], MarkSet]:
        """The marks on the assignments of lessons, by lesson and line."""
        return {(mark.lesson_id, mark.line): mark for mark in self._of_lessons(MarkSet, ids)}

    def heard(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], Heard]:
        """What was heard of the assignments of lessons, by lesson and line."""
        return {(each.lesson_id, each.line): each for each in self._of_lessons(Heard, ids)}

    def follow_ups(self, lesson_id: LessonId) -> tuple[FollowUp, ...]:
        """A lesson's follow-ups, open and ticked."""
        return self._of_lessons(FollowUp, (lesson_id,))

    def open_follow_ups(self) -> tuple[tuple[FollowUp, Lesson], ...]:
        """Everything owed, with the lesson it was noted in; the oldest first."""
        query = """SELECT lesson.*, follow_up.lesson_id, follow_up.body, follow_up.ticked_at
            FROM follow_up JOIN lesson ON lesson.id = follow_up.lesson_id
            WHERE ticked_at IS NULL ORDER BY starts_at, follow_up.rowid"""
        return self._made(lambda rows: zip(records_of(FollowUp, rows), records_of(Lesson, rows), strict=True), query)

    def closed_lessons(self, of: StudentId | None = None) -> tuple[Lesson, ...]:
        """The lessons that were absent or cancelled, and those that make one up; all of them, or those `of` one student."""
        whose = "" if of is None else " AND student_id = :of"
        parts = (f"SELECT * FROM lesson WHERE {each} IS NOT NULL{whose}" for each in ("outcome", "makes_up"))  # noqa: S608 names of ours
        return self._made(partial(records_of, Lesson), " UNION ".join(parts), of=of)

    def calendar_edition(self) -> tuple[str, int]:
        """The lasting name of the studio's calendar, and a number that grows with each change of it."""
        return self._of_the_studio(lambda row: (str(row["uid"]), int(row["revision"])))

    def calendar_basis(self) -> str | None:
        """What the calendar hung on beside the records when a cockpit that writes was opened last; None before the first."""
        return self._of_the_studio(lambda row: None if row["basis"] is None else str(row["basis"]))

    def imported_times(self) -> tuple[ImportedTime, ...]:
        """What rosters and calendars said of weekly times when they were read last."""
        return self._records(ImportedTime, "ORDER BY standing_time_id, event_uid")

    def withdrawn_lessons(self) -> "tuple[WithdrawnLesson, ...]":
        """The lessons that others may have in their calendars and the studio has no more."""
        from cockpit.studio.lessons.withdrawn import WithdrawnLesson

        return self._records(WithdrawnLesson, "ORDER BY lesson_id")

    def withdrawn_times(self) -> "tuple[WithdrawnTime, ...]":
        """The weekly times that others may have in their calendars and the studio has no more."""
        from cockpit.studio.lessons.withdrawn import WithdrawnTime

        return self._records(WithdrawnTime, "ORDER BY standing_time_id")

    def withdrawn_clocks(self) -> "tuple[WithdrawnClock, ...]":
        """The clocks of families with moves that others may have in their calendars and the studio has no more."""
        from cockpit.studio.lessons.withdrawn import WithdrawnClock

        return self._records(WithdrawnClock, "ORDER BY family_id")

    def calendar_titles(self) -> Mapping[str, str]:
        """The student's name that each title of a calendar was said to stand for."""
        return {each.title: each.name for each in self._records(CalendarTitle)}

    def duties(self) -> "tuple[Duty, ...]":
        """What is owed that comes from no lesson, also what was checked off; in the order in which it was noted."""
        from cockpit.studio.changes.duties import Duty

        return self._records(Duty, "ORDER BY id")

    def family_letters(self) -> "tuple[FamilyLetter, ...]":
        """The letters to many families, also those that went, in the order in which they were begun."""
        from cockpit.studio.post.family_letter import FamilyLetter

        return self._records(FamilyLetter, "ORDER BY id")

    def letter_guardians(self) -> "tuple[LetterGuardian, ...]":
        """To which guardians the letters went, and who was left out of each."""
        from cockpit.studio.post.family_letter import LetterGuardian

        return self._records(LetterGuardian, "ORDER BY letter_id, guardian_id")

    def accepted(self) -> frozenset[str]:
        """The keys of what would collide and is to stay as it is."""
        return frozenset(each.key for each in self._records(Accepted))

    def breaks(self, until_at_least: date | None = None) -> tuple[TimeOff, ...]:
        """The breaks and the pauses that last to a date or longer, or all of them; each kind in order."""
        on = None if until_at_least is None else until_at_least.isoformat()
        lasting = "WHERE ? IS NULL OR until_on IS NULL OR until_on >= ? ORDER BY from_on, id"
        return (*self._records(Break, lasting, on, on), *self._records(Pause, lasting, on, on))

    def pieces_said(self, student_id: StudentId) -> "tuple[Piece, ...]":
        """What she said of a student's pieces."""
        from cockpit.studio.changes.pieces import Piece

        return self._records(Piece, "WHERE student_id = ? ORDER BY key", student_id)

    def piece_aliases(self, student_id: StudentId) -> "tuple[PieceAlias, ...]":
        """The names of a student's pieces that she said are one, or are not."""
        from cockpit.studio.changes.pieces import PieceAlias

        return self._records(PieceAlias, "WHERE student_id = ? ORDER BY key, piece", student_id)

    def strands_left(self) -> "tuple[StrandLeft, ...]":
        """The strands of the mix that are not mentioned, of all students."""
        from cockpit.studio.changes.pieces import StrandLeft

        return self._records(StrandLeft, "ORDER BY student_id, strand")

    def recitals(self) -> "tuple[Recital, ...]":
        """All recitals, with their rehearsals and further sittings, by date."""
        from cockpit.studio.changes.recital import Recital

        return self._records(Recital, "ORDER BY held_on, at, id")

    def recital_items(self, recital_id: "RecitalId") -> "tuple[RecitalItem, ...]":
        """What is played in a recital, in order."""
        from cockpit.studio.changes.recital import RecitalItem

        return self._records(RecitalItem, "WHERE recital_id = ? ORDER BY position, id", recital_id)

    def recital_items_of(self, student_id: StudentId) -> "tuple[RecitalItem, ...]":
        """What a student plays in recitals, in the order in which it was put in."""
        from cockpit.studio.changes.recital import RecitalItem

        return self._records(RecitalItem, "WHERE student_id = ? ORDER BY id", student_id)

    def recital_noted(self, recital_id: "RecitalId") -> "tuple[RecitalNoted, ...]":
        """What was noted of the items of a recital, also of its rehearsals."""
        from cockpit.studio.changes.recital import RecitalNoted

        items = "SELECT id FROM recital_item WHERE recital_id = ?"
        return self._records(RecitalNoted, f"WHERE item_id IN ({items}) ORDER BY said_on, item_id, what", recital_id)

    def inquiries(self) -> "tuple[Inquiry, ...]":
        """All inquiries, the oldest first."""
        from cockpit.studio.inquiries.inquiry import Inquiry

        return self._records(Inquiry, "ORDER BY came_at, id")

    def inquiry_steps(self) -> "tuple[InquiryStep, ...]":
        """What happened to all inquiries, in order."""
        from cockpit.studio.inquiries.inquiry import InquiryStep

        return self._records(InquiryStep, "ORDER BY at, id")

    def unanswered_inquiries(self) -> "tuple[Inquiry, ...]":
        """The inquiries to which nothing happened yet but that they wrote again, or that an answer did not go."""
        from cockpit.studio.inquiries.inquiry import Inquiry, StepKind

        steps = f"SELECT inquiry_id FROM inquiry_step WHERE what <> ? AND 'answer-' || id NOT IN ({_UNDELIVERED})"  # noqa: S608 constants
        where = f"WHERE id NOT IN ({steps}) ORDER BY came_at, id"
        return self._records(Inquiry, where, StepKind.THEY_WROTE)

    def answers(self) -> tuple[Outgoing, ...]:
        """The answers to inquiries that went out, or are to."""
        return self._records(Outgoing, "WHERE inquiry_id IS NOT NULL ORDER BY id")

    def undelivered_answers(self) -> frozenset[str]:
        """What those answers are about that reached nobody and are not on their way: each copy was refused or withdrawn."""
        return frozenset(self._made(lambda rows: (str(row["about"]) for row in rows), _UNDELIVERED))

    def open_outgoing(self) -> tuple[Outgoing, ...]:
        """Everything of which something is still to come."""
        return self._records(Outgoing, f"WHERE {_OPEN} ORDER BY id")

    def outgoing_by_id(self, item_id: OutgoingId) -> Outgoing | None:
        """One entry, while it is there."""
        return next(iter(self._records(Outgoing, "WHERE id = ?", item_id)), None)

    def open_statuses(self) -> tuple[tuple[str, DeliveryStatus], ...]:
        """The fate of everything of which something is still to come, by what it is about: the lesson of practice notes."""
        query = f"SELECT about, fate FROM outgoing WHERE {_OPEN} ORDER BY id"  # noqa: S608 a constant
        return self._made(lambda rows: ((str(row["about"]), DeliveryStatus(row["fate"])) for row in rows), query)

    def next_outgoing_at(self, after: datetime) -> datetime | None:
        """When the time of something that waits comes next, after a UTC moment; None where none does."""
        query = "SELECT min(not_before) AS at FROM outgoing WHERE fate = 'waiting' AND not_before > ?"
        (at,) = self._made(lambda rows: (moment_in(row["at"]) for row in rows), query, text_of(after))
        return at

    def last_news_at(self) -> datetime | None:
        """When a mail that went to many was sent last (UTC)."""
        query = "SELECT max(settled_at) AS at FROM outgoing WHERE paper IN ('news', 'program') AND way = 'mail' AND fate = 'sent'"
        (at,) = self._made(lambda rows: (moment_in(row["at"]) for row in rows), query)
        return at

    def outgoing_about(self, abouts: Iterable[str]) -> tuple[Outgoing, ...]:
        """Everything that went out about lessons, or other things that papers are about, or is to."""
        return self._records(Outgoing, f"WHERE about IN {LISTED} ORDER BY id", listed(abouts))

    def outgoing_since(self, at: datetime) -> tuple[Outgoing, ...]:
        """Everything that is open, and what was settled at a UTC moment or later."""
        return self._records(Outgoing, f"WHERE {_OPEN} OR settled_at >= ? ORDER BY id", text_of(at))

    def of_family(self, record: type[R], family_id: FamilyId) -> tuple[R, ...]:
        """All records of a kind that belong to a family, in the order of their keys."""
        table = table_of(record)
        rest = f"WHERE {table.of_family} ORDER BY {', '.join(table.keys)}"
        return self._records(record, rest, family_id=family_id)

    def _records(self, record: type[R], rest: str = "", *values: Cell, **named: Cell) -> tuple[R, ...]:
        """The records of a kind; `rest` is the query after its table, with its values in their order or by their names."""
        query = f"SELECT * FROM {table_of(record).name} {rest}"  # noqa: S608 names of ours
        return self._made(partial(records_of, record), query, *values, **named)

    def _of_lessons(self, record: type[R], ids: Iterable[LessonId]) -> tuple[R, ...]:
        return self._records(record, f"WHERE lesson_id IN {LISTED}", listed(ids))

    def _of_the_studio(self, make: Callable[[sqlite3.Row], T]) -> T:
        """What `make` makes of a row that is always there."""
        for made in self._made(lambda rows: map(make, rows), "SELECT uid, revision, basis FROM studio_calendar"):
            return made
        raise StudioDamaged(damaged(self._path, "a row is missing"))

    def _made(
        self, make: Callable[[list[sqlite3.Row]], Iterable[T]], query: str, *values: Cell, **named: Cell
    ) -> tuple[T, ...]:
        """What `make` makes of the rows of an answer.

        Raises:
            StudioDamaged: the file is no longer a database, or a row has a value that cannot be there, such as a date with
                a letter in it.
        """
        with translated_errors(self._path):
            rows = self._connection.execute(query, named or values).fetchall()
        try:
            return tuple(make(rows))
        except (ValueError, TypeError, LookupError, OverflowError) as fault:
            raise StudioDamaged(damaged(self._path, "a row has a value that cannot be there")) from fault
