"""Days without lessons: breaks of the whole studio or of one family, and pauses of one student."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import NewType

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Lesson, meeting_date
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import FamilyId, Student, StudentId
from cockpit.studio.values import Value

BreakId = NewType("BreakId", int)
PauseId = NewType("PauseId", int)
# Who leaves without a day to come back is asked about then; common practice, no source.
_ASKED_AFTER = timedelta(weeks=8)


class Break(Value):
    """No lessons from a day up to and on another. Without a family it is the whole studio's.

    The days are the teacher's; those of a family's break are on that family's clock.
    """

    id: BreakId
    family_id: FamilyId | None = None
    from_on: date
    until_on: date
    reason: str = ""

    @property
    def last_on(self) -> date:
        """Its last day."""
        return self.until_on


class Pause(Value):
    """No lessons of one student from a day up to and on another, or for good while nobody says when it ends.

    The days are those of the clock that each weekly time is kept on. With `keeps_time` the time stays the student's: it
    is neither free nor a seat meanwhile. `reason` is for the teacher alone.
    """

    id: PauseId
    student_id: StudentId
    from_on: date
    until_on: date | None = None
    keeps_time: bool = True
    reason: str = ""

    @property
    def last_on(self) -> date:
        """Its last day; the last day of all where it has no end."""
        return self.until_on or date.max

    @property
    def ask_on(self) -> date | None:
        """The day from which on the teacher asks whether the student comes back; None where that is known."""
        return self.from_on + _ASKED_AFTER if self.until_on is None else None


TimeOff = Break | Pause
"""Days on which weekly lessons do not take place."""


class LeftOut(Value):
    """A weekly lesson that does not take place, and the break or the pause that it falls into."""

    booking: ScheduledLesson
    because: TimeOff

    @property
    def keeps_time(self) -> bool:
        """Whether nobody else is to have its time."""
        return isinstance(self.because, Pause) and self.because.keeps_time


def pauses_in(time_off: Iterable[TimeOff], student_id: StudentId | None = None) -> list[Pause]:
    """The pauses among breaks and pauses, in order; of one student alone where that is named."""
    pauses = (each for each in time_off if isinstance(each, Pause))
    return [each for each in pauses if student_id in {None, each.student_id}]


def is_for_all(each: TimeOff) -> bool:
    """Whether it is a break of the whole studio."""
    return isinstance(each, Break) and each.family_id is None


def paused_date(lesson: Lesson, home: TeacherClock) -> date:
    """The date of a lesson by which a pause goes: of a weekly one, on the clock that its weekly time is kept on; else hers."""
    kept = meeting_date(lesson) if lesson.kind is Kind.WEEKLY and not lesson.is_moved else None
    return kept or home.date_of(lesson.starts_at)


def break_of(booking: ScheduledLesson, breaks: Iterable[TimeOff], home: TeacherClock) -> TimeOff | None:
    """The break or the pause that a lesson's day lies in, if there is one; the studio's own goes first, then a pause."""
    starts_at = booking.lesson.starts_at
    ours, theirs = home.date_of(starts_at), local_time(starts_at, booking.family.zone).date()
    pause: Pause | None = None
    family_break: Break | None = None
    for each in breaks:
        if isinstance(each, Pause):
            if (
                each.student_id == booking.student.id
                and each.from_on <= paused_date(booking.lesson, home) <= each.last_on
            ):
                pause = pause or each
        elif each.family_id is None and each.from_on <= ours <= each.until_on:
            return each
        elif each.family_id == booking.family.id and each.from_on <= theirs <= each.until_on:
            family_break = family_break or each
    return pause or family_break


def days_off(breaks: Iterable[TimeOff], student: Student, until: date) -> frozenset[date]:
    """The days without weekly lessons of a student up to a date: of breaks that are the student's too, and of own pauses."""
    found: set[date] = set()
    for each in breaks:
        if each.student_id == student.id if isinstance(each, Pause) else each.family_id in {None, student.family_id}:
            count = (min(each.last_on, until) - each.from_on).days + 1
            found.update(each.from_on + timedelta(days=day) for day in range(count))
    return frozenset(found)


def without_breaks(
    bookings: Iterable[ScheduledLesson], breaks: Sequence[TimeOff], home: TeacherClock
) -> tuple[list[ScheduledLesson], list[LeftOut]]:
    """The lessons that take place, and those that fall into a break or a pause; both in order.

    Only a weekly lesson that nothing was done to can fall into one: what she moved, booked, began or closed by hand
    stays where she put it.
    """
    if not breaks:
        return list(bookings), []
    kept: list[ScheduledLesson] = []
    left_out: list[LeftOut] = []
    for booking in bookings:
        because = break_of(booking, breaks, home) if _is_untouched(booking) else None
        if because is None:
            kept.append(booking)
        else:
            left_out.append(LeftOut(booking=booking, because=because))
    return kept, left_out


def _is_untouched(booking: ScheduledLesson) -> bool:
    lesson = booking.lesson
    return (
        lesson.kind is Kind.WEEKLY
        and not lesson.is_moved
        and lesson.outcome is None
        and lesson.began_at is None
        and lesson.finished_at is None
    )
