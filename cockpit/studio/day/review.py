"""The end of the day: what was taught, what was sent, what is missing, what is owed."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime
from enum import Enum, auto
from types import MappingProxyType
from typing import assert_never

from cockpit.studio.assignments.last_lesson import LastLesson
from cockpit.studio.changes.duties import Duty
from cockpit.studio.changes.records import Export, FollowUp, Note
from cockpit.studio.inquiries.to_do import InquiryStanding, WhoFits
from cockpit.studio.lessons.breaks import LeftOut
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import Lesson, LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, each_time_once, was_taught
from cockpit.studio.notes.notes import for_family, kept_back
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.values import Value, field


class ReviewedLesson(Value):
    """One lesson of the day as it went. `minutes_taught`, up to now if it is running, is None where its real times are not known."""

    booking: ScheduledLesson
    state: State
    minutes_taught: int | None
    has_notes: bool
    assignments: int
    private_lines: int
    export: Export | None
    is_stale: bool
    fate: DeliveryStatus | None = None


class Lack(Enum):
    """What is left undone for a lesson."""

    NOT_FINISHED = auto()
    NO_OUTCOME = auto()
    NO_NOTES = auto()
    NOT_EXPORTED = auto()
    DRAFT = auto()
    CHANGED = auto()
    IN_DOUBT = auto()
    REFUSED = auto()
    WAITING = auto()


_NOT_OUT = {
    DeliveryStatus.UNSURE: Lack.IN_DOUBT,
    DeliveryStatus.REFUSED: Lack.REFUSED,
    DeliveryStatus.GOING: Lack.WAITING,
    DeliveryStatus.WAITING: Lack.WAITING,
}


class Missing(Value):
    """Something left undone for the lesson of a student."""

    lesson_id: LessonId
    student: str
    lack: Lack


class OtherDaysNotes(Value):
    """Notes of other days that have not gone out, each by its status; at least one."""

    fates: tuple[DeliveryStatus, ...]


class OwedFollowUp(Value):
    """An open follow-up, with whose lesson it comes from and when that was (UTC)."""

    follow_up: FollowUp
    student: str
    noted_at: datetime


class OwedDuty(Value):
    """Something owed that comes from no lesson, with the first day on which it was."""

    duty: Duty
    since: date


Owed = OwedFollowUp | OwedMinutes | OwedDuty
"""What she owes at the end of a day."""


class InquiriesToDo(Value):
    """What is to be done with inquiries at a moment (UTC): those that are due, those that are deleted soon, and who of the waiting fits."""

    due: tuple[InquiryStanding, ...]
    leaving: tuple[InquiryStanding, ...]
    openings: tuple[WhoFits, ...]
    now: datetime


class BroughtAlong(Value):
    """What a student brings to a lesson: how many assignments are open, for how many weeks the oldest is, and what was noted for it."""

    open: int
    weeks: int
    next_time: tuple[str, ...]


class WeekSoFar(Value):
    """How much of a week was taught, of all that is planned in it, and how many make-ups are owed."""

    minutes_taught: int
    minutes: int
    taught: int
    lessons: int
    owed: int


class DayReview(Value):
    """A day looked back on, and the next one laid out; `left_out` are the lessons of both that a break takes away.

    `brought` is what students bring to tomorrow's lessons, without those that bring nothing.
    """

    on: date
    lessons: tuple[ReviewedLesson, ...]
    missing: tuple[Missing | OtherDaysNotes, ...]
    owed: tuple[Owed, ...]
    tomorrow_on: date
    tomorrow: tuple[ScheduledLesson, ...]
    brought: Mapping[LessonId, BroughtAlong] = field(default_factory=dict)
    left_out: tuple[LeftOut, ...] = ()
    inquiries: InquiriesToDo | None = None
    week: WeekSoFar | None = None

    @property
    def minutes_taught(self) -> int:
        """The minutes of all lessons whose real times are known; one that two share counts once."""
        times = {each.lesson.id for each in each_time_once([lesson.booking for lesson in self.lessons])}
        return sum(each.minutes_taught or 0 for each in self.lessons if each.booking.lesson.id in times)

    def count(self, state: State) -> int:
        """How many lessons are in a state."""
        return sum(lesson.state is state for lesson in self.lessons)


def review_lesson(
    booking: ScheduledLesson,
    note: Note | None,
    export: Export | None,
    now: datetime,
    fate: DeliveryStatus | None = None,
    labels: Labels = BUILT_IN,
) -> ReviewedLesson:
    """One lesson as it went; its export is stale when the notes changed after it. `fate` is that of its notes in the outbox."""
    lesson = booking.lesson
    body = note.body if note is not None else ""
    return ReviewedLesson(
        booking=booking,
        state=state_of(lesson, now),
        minutes_taught=_minutes_taught(lesson, now),
        has_notes=bool(body.strip()),
        assignments=len(for_family(body, labels).assignments),
        private_lines=len(kept_back(body)),
        export=export,
        is_stale=export is not None and note is not None and export.exported_at < note.changed_at,
        fate=fate,
    )


def _minutes_taught(lesson: Lesson, now: datetime) -> int | None:
    until = now if lesson.is_live else lesson.finished_at
    if lesson.began_at is None or until is None:
        return None
    return round((until - lesson.began_at).total_seconds() / 60)


def week_so_far(bookings: Sequence[ScheduledLesson], owed: int, now: datetime) -> WeekSoFar:
    """How much of a week's lessons was taught up to `now` (UTC); a lesson that two share counts its minutes once."""
    once = [each.lesson for each in each_time_once(bookings)]
    return WeekSoFar(
        minutes_taught=sum(_minutes_taught(each, now) or 0 for each in once),
        minutes=sum(each.minutes for each in once),
        taught=sum(was_taught(each.lesson) for each in bookings),
        lessons=len(bookings),
        owed=owed,
    )


def brought_along(last: LastLesson | None, on: date) -> BroughtAlong | None:
    """What a student brings to a lesson on a date, after the last one; None where that is nothing."""
    if last is None:
        return None
    weeks = [each.weeks(on) for each in (*last.assignments, *last.earlier) if each.is_open]
    if not weeks and not last.next_time:
        return None
    return BroughtAlong(open=len(weeks), weeks=max(weeks, default=0), next_time=last.next_time)


def missing_of(lesson: ReviewedLesson) -> Lack | None:
    """The one thing to do next for a lesson, or None when all is well."""
    match lesson.state:
        case State.ABSENT | State.CANCELLED | State.CANCELLED_LATE | State.CALLED_OFF | State.BOOKED:
            return None
        case State.RUNNING | State.OVER_TIME:
            return Lack.NOT_FINISHED
        case State.NOT_MARKED:
            return Lack.NO_OUTCOME
        case State.FINISHED:
            return _missing_notes(lesson)
        case _ as never:
            assert_never(never)


def _missing_notes(lesson: ReviewedLesson) -> Lack | None:
    if not lesson.has_notes:
        return Lack.NO_NOTES
    if lesson.export is None:
        return Lack.NOT_EXPORTED
    if not lesson.export.is_final:
        return Lack.DRAFT
    if lesson.is_stale:
        return Lack.CHANGED
    return _NOT_OUT.get(lesson.fate) if lesson.fate is not None else None


def review_day(
    bookings: Sequence[ScheduledLesson],
    notes: Mapping[LessonId, Note],
    exports: Mapping[LessonId, Export],
    now: datetime,
    fates: Mapping[str, DeliveryStatus] = MappingProxyType({}),
    labels: Labels = BUILT_IN,
) -> tuple[tuple[ReviewedLesson, ...], tuple[Missing, ...]]:
    """The lessons of a day as they went, and what is missing, in order. `now` is UTC; `fates` are of notes not out."""
    lessons = tuple(
        review_lesson(b, notes.get(b.lesson.id), exports.get(b.lesson.id), now, fates.get(b.lesson.id), labels)
        for b in bookings
    )
    found = ((lesson.booking, missing_of(lesson)) for lesson in lessons)
    missing = tuple(
        Missing(lesson_id=booking.lesson.id, student=booking.student.name, lack=lack)
        for booking, lack in found
        if lack is not None
    )
    return lessons, missing


def missing_elsewhere(
    fates: Iterable[tuple[str, DeliveryStatus]], of_the_day: Iterable[LessonId]
) -> tuple[OtherDaysNotes, ...]:
    """What of other days has not gone out; nothing where all has. `fates` are those that are open."""
    today = frozenset(of_the_day)
    left = tuple(fate for about, fate in fates if about not in today)
    return (OtherDaysNotes(fates=left),) if left else ()
