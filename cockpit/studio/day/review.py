"""The end of the day: what was taught, what was sent, what is missing, what is owed."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from types import MappingProxyType
from typing import assert_never

from cockpit.studio.changes.records import Export, FollowUp, Note
from cockpit.studio.clocks.words import counted, possessive
from cockpit.studio.lessons.breaks import LeftOut
from cockpit.studio.lessons.lesson import LessonId, State, in_words, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, was_taught
from cockpit.studio.notes.notes import for_family
from cockpit.studio.post.outgoing import DeliveryStatus


@dataclass(frozen=True, slots=True, kw_only=True)
class ReviewedLesson:
    """One lesson of the day as it went. `minutes_taught` is None where its real times are not known."""

    booking: ScheduledLesson
    state: State
    minutes_taught: int | None
    has_notes: bool
    assignments: int
    export: Export | None
    is_stale: bool
    fate: DeliveryStatus | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing:
    """Something left undone, as a sentence, and the lesson it leads back to; None where it leads to the outbox."""

    lesson_id: LessonId | None
    sentence: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OwedFollowUp:
    """An open follow-up, with whose lesson it comes from and when that was (UTC)."""

    follow_up: FollowUp
    student: str
    noted_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class DayReview:
    """A day looked back on, and the next one laid out; `left_out` are the lessons of both that a break takes away."""

    on: date
    lessons: tuple[ReviewedLesson, ...]
    missing: tuple[Missing, ...]
    owed: tuple[OwedFollowUp, ...]
    tomorrow_on: date
    tomorrow: tuple[ScheduledLesson, ...]
    left_out: tuple[LeftOut, ...] = ()

    @property
    def minutes_taught(self) -> int:
        """The minutes of all lessons whose real times are known."""
        return sum(lesson.minutes_taught or 0 for lesson in self.lessons)

    def count(self, state: State) -> int:
        """How many lessons are in a state."""
        return sum(lesson.state is state for lesson in self.lessons)


def review_lesson(
    booking: ScheduledLesson,
    note: Note | None,
    export: Export | None,
    now: datetime,
    fate: DeliveryStatus | None = None,
) -> ReviewedLesson:
    """One lesson as it went; its export is stale when the notes changed after it. `fate` is that of its notes in the outbox."""
    lesson = booking.lesson
    real = None
    if lesson.began_at is not None and lesson.finished_at is not None:
        real = round((lesson.finished_at - lesson.began_at).total_seconds() / 60)
    body = note.body if note is not None else ""
    return ReviewedLesson(
        booking=booking,
        state=state_of(lesson, now),
        minutes_taught=real,
        has_notes=bool(body.strip()),
        assignments=len(for_family(body).assignments),
        export=export,
        is_stale=export is not None and note is not None and export.exported_at < note.changed_at,
        fate=fate,
    )


def missing_elsewhere(
    fates: Iterable[tuple[LessonId, DeliveryStatus]], of_the_day: Iterable[LessonId]
) -> tuple[Missing, ...]:
    """What of other days has not gone out, as one sentence; nothing where all has."""
    from cockpit.studio.post.outbox import outbox_words  # 2 ms, which opening the day need not pay

    today = frozenset(of_the_day)
    words = outbox_words(fate for lesson_id, fate in fates if lesson_id not in today)
    return (Missing(lesson_id=None, sentence=f"Notes from other days are in the outbox: {words}"),) if words else ()


def missing_of(lesson: ReviewedLesson, now: datetime) -> str | None:
    """The one thing to do next for a lesson, or None when all is well."""
    student = lesson.booking.student.name
    booked = lesson.booking.lesson
    match lesson.state:
        case State.ABSENT | State.CANCELLED | State.CANCELLED_LATE:
            return None
        case State.RUNNING | State.OVER_TIME:
            return f"{possessive(student)} lesson is not finished"
        case State.BOOKED if booked.planned_end > now:
            return None
        case State.BOOKED:
            return f"{possessive(student)} lesson has no outcome. Was it finished, absent, or canceled?"
        case State.FINISHED:
            return _missing_notes(lesson, student)
        case _ as never:
            assert_never(never)


def _missing_notes(lesson: ReviewedLesson, student: str) -> str | None:
    if not lesson.has_notes:
        return f"No notes for {student}"
    if lesson.export is None:
        return f"{possessive(student)} notes are not in the studio folder"
    if not lesson.export.is_final:
        return f"{possessive(student)} notes are still a draft"
    if lesson.is_stale:
        return f"{possessive(student)} notes changed after they were exported"
    return _not_out(student, lesson.fate)


def _not_out(student: str, fate: DeliveryStatus | None) -> str | None:
    match fate:
        case DeliveryStatus.UNSURE:
            return f"Did {possessive(student)} notes arrive? Answer in the outbox"
        case DeliveryStatus.REFUSED:
            return f"{possessive(student)} notes were refused. See the outbox"
        case DeliveryStatus.GOING | DeliveryStatus.WAITING:
            return f"{possessive(student)} notes are still waiting in the outbox"
        case _:
            return None


def review_day(
    bookings: Sequence[ScheduledLesson],
    notes: Mapping[LessonId, Note],
    exports: Mapping[LessonId, Export],
    now: datetime,
    fates: Mapping[LessonId, DeliveryStatus] = MappingProxyType({}),
) -> tuple[tuple[ReviewedLesson, ...], tuple[Missing, ...]]:
    """The lessons of a day as they went, and what is missing, in order. `now` is UTC; `fates` are of notes not out."""
    lessons = tuple(
        review_lesson(b, notes.get(b.lesson.id), exports.get(b.lesson.id), now, fates.get(b.lesson.id))
        for b in bookings
    )
    found = ((lesson, missing_of(lesson, now)) for lesson in lessons)
    missing = tuple(
        Missing(lesson_id=lesson.booking.lesson.id, sentence=sentence) for lesson, sentence in found if sentence
    )
    return lessons, missing


def attendance(review: DayReview) -> str:
    """Who came, with the count it is taken from: `3 of 5 lessons taught, 1 absent, 1 cancelled`."""
    taught = sum(was_taught(lesson.booking.lesson) for lesson in review.lessons)
    parts = [f"{taught} of {counted(len(review.lessons), 'lesson')} taught"]
    closed = ((review.count(state), state) for state in (State.ABSENT, State.CANCELLED, State.CANCELLED_LATE))
    parts += [f"{number} {in_words(state)}" for number, state in closed if number]
    return ", ".join(parts)
