"""What the desk needs of the store, the printer and the folder, without knowing them."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import AbstractContextManager
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Protocol, TypeVar

from cockpit.studio.changes.records import BoardLine, Change, Export, FollowUp, Heard, MarkSet, Note, Record
from cockpit.studio.lessons.breaks import TimeOff
from cockpit.studio.lessons.calls import CallLoss
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.scheduled import Enrollment, People, ScheduledLesson
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
from cockpit.studio.people.people import Family, FamilyId, Guardian, StudentId
from cockpit.studio.post.outgoing import DeliveryStatus, Outgoing, OutgoingId

if TYPE_CHECKING:
    from cockpit.studio.calendar.clock_changes import Concerned, FamilyMessage
    from cockpit.studio.changes.duties import Duty
    from cockpit.studio.changes.pieces import Piece, PieceAlias, StrandLeft
    from cockpit.studio.changes.recital import Recital, RecitalId, RecitalItem, RecitalNoted
    from cockpit.studio.day.posting import Letter
    from cockpit.studio.day.review import DayReview
    from cockpit.studio.inquiries.inquiry import Inquiry, InquiryStep
    from cockpit.studio.lessons.withdrawn import WithdrawnClock, WithdrawnLesson, WithdrawnTime
    from cockpit.studio.people.permissions import Permission
    from cockpit.studio.pieces.progress_sheet import ProgressSheet
    from cockpit.studio.post.delivery import Delivery
    from cockpit.studio.post.family_letter import FamilyLetter, LetterFor, LetterGuardian, LetterText
    from cockpit.studio.post.letters import TimeLetter
    from cockpit.studio.post.parcel import Parcel
    from cockpit.studio.practice.notes import PracticeNotes
    from cockpit.studio.practice.sheet import FamilySheet
    from cockpit.studio.recital.papers import CalendarDay, FamilyProgram, PublicProgram
    from cockpit.studio.recital.running_sheet import RunningSheet

R = TypeVar("R", bound=Record)


class Clock(Protocol):
    """What tells the time. In a rehearsal it is set to a moment that the teacher chose."""

    is_rehearsal: bool

    def now(self) -> datetime:
        """The moment it is, in UTC."""
        ...


class Reading(Protocol):
    """What is asked of a studio's records."""

    def people(self) -> People: ...  # noqa: D102
    def guardians(self) -> tuple[Guardian, ...]: ...  # noqa: D102
    def permissions(self) -> "tuple[Permission, ...]": ...  # noqa: D102
    def standing_times(self, until_at_least: date | None = None) -> tuple[StandingTime, ...]: ...  # noqa: D102
    def enrollments(self, people: People, on: date) -> tuple[Enrollment, ...]: ...  # noqa: D102
    def lessons_between(  # noqa: D102
        self, begins: datetime, ends: datetime, also: Iterable[LessonId] = ()
    ) -> tuple[Lesson, ...]: ...
    def live_lesson(self) -> Lesson | None: ...  # noqa: D102
    def call_losses(self, lesson_id: LessonId) -> tuple[CallLoss, ...]: ...  # noqa: D102
    def unsettled_losses(self) -> tuple[tuple[CallLoss, Lesson], ...]: ...  # noqa: D102
    def lessons_of(self, student_id: StudentId, begins: datetime, ends: datetime) -> tuple[Lesson, ...]: ...  # noqa: D102
    def last_taught(  # noqa: D102
        self, student_id: StudentId, before: datetime, instrument: str | None, most: int = 1
    ) -> tuple[Lesson, ...]: ...
    def lesson_before(self, lesson: Lesson) -> Lesson | None: ...  # noqa: D102
    def lesson_after(self, lesson: Lesson) -> Lesson | None: ...  # noqa: D102
    def notes(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Note]: ...  # noqa: D102
    def exports(self, ids: Iterable[LessonId]) -> Mapping[LessonId, Export]: ...  # noqa: D102
    def marks(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], MarkSet]: ...  # noqa: D102
    def heard(self, ids: Iterable[LessonId]) -> Mapping[tuple[LessonId, str], Heard]: ...  # noqa: D102
    def board_lines(self, lesson_id: LessonId) -> tuple[BoardLine, ...]: ...  # noqa: D102
    def follow_ups(self, lesson_id: LessonId) -> tuple[FollowUp, ...]: ...  # noqa: D102
    def open_follow_ups(self) -> tuple[tuple[FollowUp, Lesson], ...]: ...  # noqa: D102
    def closed_lessons(self, of: StudentId | None = None) -> tuple[Lesson, ...]: ...  # noqa: D102
    def calendar_edition(self) -> tuple[str, int]: ...  # noqa: D102
    def calendar_basis(self) -> str | None: ...  # noqa: D102
    def accepted(self) -> frozenset[str]: ...  # noqa: D102
    def duties(self) -> "tuple[Duty, ...]": ...  # noqa: D102
    def family_letters(self) -> "tuple[FamilyLetter, ...]": ...  # noqa: D102
    def letter_guardians(self) -> "tuple[LetterGuardian, ...]": ...  # noqa: D102
    def pieces_said(self, student_id: StudentId) -> "tuple[Piece, ...]": ...  # noqa: D102
    def piece_aliases(self, student_id: StudentId) -> "tuple[PieceAlias, ...]": ...  # noqa: D102
    def strands_left(self) -> "tuple[StrandLeft, ...]": ...  # noqa: D102
    def recitals(self) -> "tuple[Recital, ...]": ...  # noqa: D102
    def recital_items(self, recital_id: "RecitalId") -> "tuple[RecitalItem, ...]": ...  # noqa: D102
    def recital_items_of(self, student_id: StudentId) -> "tuple[RecitalItem, ...]": ...  # noqa: D102
    def recital_noted(self, recital_id: "RecitalId") -> "tuple[RecitalNoted, ...]": ...  # noqa: D102
    def imported_times(self) -> tuple[ImportedTime, ...]: ...  # noqa: D102
    def withdrawn_lessons(self) -> "tuple[WithdrawnLesson, ...]": ...  # noqa: D102
    def withdrawn_times(self) -> "tuple[WithdrawnTime, ...]": ...  # noqa: D102
    def withdrawn_clocks(self) -> "tuple[WithdrawnClock, ...]": ...  # noqa: D102
    def calendar_titles(self) -> Mapping[str, str]: ...  # noqa: D102
    def breaks(self, until_at_least: date | None = None) -> tuple[TimeOff, ...]: ...  # noqa: D102
    def inquiries(self) -> "tuple[Inquiry, ...]": ...  # noqa: D102
    def inquiry_steps(self) -> "tuple[InquiryStep, ...]": ...  # noqa: D102
    def unanswered_inquiries(self) -> "tuple[Inquiry, ...]": ...  # noqa: D102
    def open_outgoing(self) -> tuple[Outgoing, ...]: ...  # noqa: D102
    def outgoing_by_id(self, item_id: OutgoingId) -> Outgoing | None: ...  # noqa: D102
    def answers(self) -> tuple[Outgoing, ...]: ...  # noqa: D102
    def undelivered_answers(self) -> frozenset[str]: ...  # noqa: D102
    def open_statuses(self) -> tuple[tuple[str, DeliveryStatus], ...]: ...  # noqa: D102
    def next_outgoing_at(self, after: datetime) -> datetime | None: ...  # noqa: D102
    def last_news_at(self) -> datetime | None: ...  # noqa: D102
    def outgoing_about(self, abouts: Iterable[str]) -> tuple[Outgoing, ...]: ...  # noqa: D102
    def outgoing_since(self, at: datetime) -> tuple[Outgoing, ...]: ...  # noqa: D102
    def of_family(self, record: type[R], family_id: FamilyId) -> tuple[R, ...]: ...  # noqa: D102


class Writing(Protocol):
    """What changes a studio's records; each call is one transaction."""

    def check_place(self) -> None: ...  # noqa: D102 said where it is done
    def new_id(self) -> int: ...  # noqa: D102
    def new_ids(self) -> AbstractContextManager[Callable[[], int]]: ...  # noqa: D102
    def apply(self, change: Change, *, durable: bool = False) -> None: ...  # noqa: D102
    def save_note(  # noqa: D102
        self, note: Note, follow_ups: tuple[str, ...] | None, *, durable: bool = False
    ) -> None: ...
    def settle_titles(self, names: Mapping[str, str]) -> None: ...  # noqa: D102
    def clear_inquiries(self, closed_before: datetime) -> None: ...  # noqa: D102


class Printer(Protocol):
    """What makes documents of values."""

    def markdown(self, paper: "PracticeNotes") -> str: ...  # noqa: D102 said where it is done
    def page(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def review(self, review: "DayReview") -> str: ...  # noqa: D102
    def clock_message(self, concerned: "Concerned") -> "FamilyMessage": ...  # noqa: D102


class PostPrinter(Protocol):
    """What makes of practice notes what goes out, and of that a mail, a draft or a sheet."""

    def title(self, paper: "PracticeNotes") -> str: ...  # noqa: D102 said where it is done
    def text(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def laid_out(self, paper: "PracticeNotes") -> "FamilySheet": ...  # noqa: D102
    def markdown(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def page(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def body(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def language(self, paper: "PracticeNotes") -> str: ...  # noqa: D102
    def next_lesson(self, booking: ScheduledLesson, edition: tuple[str, int], made_at: datetime) -> str: ...  # noqa: D102
    def message_id(self, items: Sequence[Outgoing], studio_uid: str) -> str: ...  # noqa: D102
    def message(  # noqa: D102
        self, items: Sequence[Outgoing], on: date, references: Sequence[str], sent_at: datetime
    ) -> bytes: ...
    def draft(self, item: Outgoing, on: date, made_at: datetime) -> bytes: ...  # noqa: D102
    def as_read(self, item: Outgoing, on: date, sent_at: datetime) -> tuple[str, str, str]: ...  # noqa: D102
    def sheet(self, item: Outgoing) -> str: ...  # noqa: D102
    def letter(self, letter: "TimeLetter") -> "Letter": ...  # noqa: D102
    def family_letter(self, text: "LetterText", to: "LetterFor") -> "Letter": ...  # noqa: D102
    def reply(self, inquiry: "Inquiry", text: str) -> "Letter": ...  # noqa: D102
    def progress(self, sheet: "ProgressSheet", family: "Family") -> "Letter": ...  # noqa: D102
    def progress_files(self, sheet: "ProgressSheet", family: "Family") -> tuple[str, str]: ...  # noqa: D102
    def recital_program(self, papers: "FamilyProgram", calendar: str | None = None) -> "Letter": ...  # noqa: D102
    def recital_calendar(  # noqa: D102
        self, papers: "FamilyProgram", days: "Sequence[CalendarDay]", edition: tuple[str, int], made_at: datetime
    ) -> str: ...
    def program_files(self, program: "PublicProgram") -> tuple[str, str]: ...  # noqa: D102
    def running_sheet(self, sheet: "RunningSheet") -> str: ...  # noqa: D102
    def with_words(self, letter: "Letter", text: str) -> "Letter": ...  # noqa: D102


class Sender(Protocol):
    """What hands a parcel over. It may take half a minute, and needs nothing but the parcel."""

    def carry(self, parcel: "Parcel", may_go: Callable[[], bool]) -> "Delivery":
        """Hands a parcel over, and returns what came of it; it raises nothing.

        `may_go` is asked just before a mail leaves for good. After False it stays here.
        """
        ...


class Folder(Protocol):
    """Where documents are put: whole or not at all."""

    def put(self, name: str, text: str) -> Path:
        """Writes a document under a name relative to the studio folder, and returns its path.

        Raises:
            NotSaved: it could not be written; an earlier one of that name is whole.
        """
        ...

    def content(self, name: str) -> bytes | None:
        """What is in a document; None where there is none."""
        ...

    def remove(self, names: Iterable[str]) -> None:
        """Deletes documents, and the folders that are empty then."""
        ...

    def below(self, folder: str = "") -> tuple[str, ...]:
        """The names of the documents in a folder and in all folders below it, in order."""
        ...
