"""The queue of a day, and what a lesson is, in a few words."""

from collections.abc import Iterable
from datetime import datetime

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import minutes_of
from cockpit.studio.lessons.lesson import Kind, Lesson, in_words, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.shown import one_line
from cockpit.wording.columns import columns

_RIGHT = frozenset({0, 2})  # the teacher's time, and the minutes


def instrument_and_minutes(lesson: Lesson) -> str:
    """What is taught and for how long: `cello 30`, or `30 minutes` where no instrument is named."""
    return f"{lesson.instrument} {lesson.minutes}" if lesson.instrument else minutes_of(lesson.minutes)


def unusual(lesson: Lesson) -> list[str]:
    """What a lesson is other than a weekly one at its time: its kind, and that it was moved."""
    kind = [] if lesson.kind is Kind.WEEKLY else [str(lesson.kind)]
    return [*kind, "moved"] if lesson.is_moved else kind


def queue_text(bookings: Iterable[ScheduledLesson], home: TeacherClock, now: datetime) -> str:
    """The lessons as aligned lines: time, the family's time where it differs, minutes, student, instrument, state.

    `now` is UTC.
    """
    rows = [_row(booking, home, now) for booking in bookings]
    return columns(rows, right=_RIGHT) or "No lessons.\n"


def _row(booking: ScheduledLesson, home: TeacherClock, now: datetime) -> tuple[str, ...]:
    lesson = booking.lesson
    return (
        home.time(lesson.starts_at),
        home.there(lesson.starts_at, booking.family.zone) or "",
        f"{lesson.minutes} min",
        one_line(booking.student.name),
        one_line(lesson.instrument or ""),
        in_words(state_of(lesson, now)),
    )
