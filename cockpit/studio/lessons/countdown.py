"""The lesson's clock: what is left, the wrap-up cue, and what running over does to the lessons after it.

Everything is a difference of UTC moments, so that neither sleep nor a clock change can bend it.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta
from enum import StrEnum

from cockpit.studio.clocks.words import listed
from cockpit.studio.lessons.scheduled import ScheduledLesson, are_together, called, live_one, together_with
from cockpit.studio.values import Value


class Phase(StrEnum):
    """What the clock is counting."""

    RUNNING = "left"
    WRAP_UP = "wrap up"
    OVER = "over"
    BEFORE = "to go"
    WAITING = "waiting"
    FREE = "free"
    NO_LESSONS = "no lessons"


class LateStart(Value):
    """A lesson that cannot start on time, and by how many whole minutes (rounded up).

    `has_time` is False where none of its time is left by then.
    """

    student: str
    minutes: int
    has_time: bool = True


class ClockFace(Value):
    """What the clock shows: whole seconds, counted down in RUNNING, WRAP_UP and BEFORE, up in OVER and WAITING.

    `share` is how much of the lesson's time has passed, 0 to 1; `wrap_up_share` where its cue lies. `not_marked` is
    how many lessons are over, and wait to be marked, when no other is to come. `together` are those who share the lesson.
    """

    phase: Phase
    booking: ScheduledLesson | None = None
    together: tuple[ScheduledLesson, ...] = ()
    seconds: int = 0
    share: float = 0.0
    wrap_up_share: float = 1.0
    late: tuple[LateStart, ...] = ()
    not_marked: int = 0


def wrap_up_minutes(minutes: int, cues: Mapping[int, int]) -> int:
    """How long before the end the cue comes, for a lesson of `minutes`: that of the nearest length not above it."""
    fitting = [length for length in cues if length <= minutes]
    return cues[max(fitting)] if fitting else min(cues.values(), default=0)


def read_clock(bookings: Sequence[ScheduledLesson], now: datetime, cues: Mapping[int, int]) -> ClockFace:
    """The clock at `now` (UTC) for the bookings of a day, in order."""
    running = live_one(bookings)
    if running is not None:
        return _lesson_clock(running, bookings, now, cues)
    waiting = [b for b in bookings if b.lesson.is_open and b.lesson.began_at is None and not b.lesson.is_reopened]
    for booking in waiting:
        lesson = booking.lesson
        if now < lesson.starts_at:
            return ClockFace(phase=Phase.BEFORE, booking=booking, seconds=_seconds_up(lesson.starts_at - now))
        if now < lesson.planned_end:
            return ClockFace(
                phase=Phase.WAITING, booking=booking, seconds=int((now - lesson.starts_at).total_seconds())
            )
    return ClockFace(phase=Phase.FREE if bookings else Phase.NO_LESSONS, not_marked=len(waiting))


def names_on(face: ClockFace) -> str:
    """Whose lesson the clock counts, in words: of all who share it."""
    if face.booking is None:
        return ""
    return listed([face.booking.student.name, *(each.student.name for each in face.together)])


def next_after(bookings: Sequence[ScheduledLesson], face: ClockFace) -> ScheduledLesson | None:
    """The lesson of a day that comes after the one that runs, as far as it is not begun; None where none runs."""
    if face.booking is None or not face.booking.lesson.is_live:
        return None
    starts_at = face.booking.lesson.starts_at
    to_come = (
        b
        for b in bookings
        if b.lesson.is_open and b.lesson.began_at is None and not b.lesson.is_reopened
        if not are_together(b, face.booking)
    )
    return next((b for b in to_come if b.lesson.starts_at >= starts_at), None)


def late_starts(bookings: Sequence[ScheduledLesson], running: ScheduledLesson, now: datetime) -> tuple[LateStart, ...]:
    """The booked lessons that begin before the running one can end: at its end, or now if that has passed.

    A late start keeps its planned end, so that a lesson which still fits makes none after it late.
    """
    free_at = max(running.lesson.ends_at, now)
    names = called(bookings)
    return tuple(
        LateStart(
            student=names[booking.lesson.id],
            minutes=-(-_seconds_up(free_at - booking.lesson.starts_at) // 60),
            has_time=free_at < booking.lesson.planned_end,
        )
        for booking in bookings
        if booking.lesson.id != running.lesson.id
        and not are_together(booking, running)
        and booking.lesson.is_open
        and booking.lesson.began_at is None
        and running.lesson.starts_at <= booking.lesson.starts_at < free_at
    )


def _lesson_clock(
    running: ScheduledLesson, bookings: Sequence[ScheduledLesson], now: datetime, cues: Mapping[int, int]
) -> ClockFace:
    lesson = running.lesson
    left = lesson.ends_at - now
    cue = wrap_up_minutes(lesson.minutes, cues)
    if left <= timedelta():
        phase, seconds = Phase.OVER, int(-left.total_seconds())
    else:
        phase = Phase.WRAP_UP if left <= timedelta(minutes=cue) else Phase.RUNNING
        seconds = _seconds_up(left)
    length = lesson.all_minutes * 60
    return ClockFace(
        phase=phase,
        booking=running,
        seconds=seconds,
        share=min(1.0, max(0.0, 1 - left.total_seconds() / length)),
        wrap_up_share=max(0.0, 1 - cue * 60 / length),
        late=late_starts(bookings, running, now),
        together=tuple(each for each in together_with(running, bookings) if each.lesson.is_live),
    )


def _seconds_up(span: timedelta) -> int:
    """Whole seconds, rounded up: a countdown shows 0:01 until the moment itself."""
    return -int(-span.total_seconds() // 1)
