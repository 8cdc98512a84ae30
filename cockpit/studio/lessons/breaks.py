"""Days without lessons: of the whole studio, or of one family."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NewType

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import FamilyId

BreakId = NewType("BreakId", int)


@dataclass(frozen=True, slots=True, kw_only=True)
class Break:
    """No lessons from a day up to and on another. Without a family it is the whole studio's.

    The days are the teacher's; those of a family's break are on that family's clock.
    """

    id: BreakId
    family_id: FamilyId | None = None
    from_on: date
    until_on: date
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOut:
    """A weekly lesson that does not take place, and the break that it falls into."""

    booking: ScheduledLesson
    because: Break


def break_of(booking: ScheduledLesson, breaks: Iterable[Break], home: TeacherClock) -> Break | None:
    """The break that a lesson's day lies in, if there is one; the studio's own goes first."""
    starts_at = booking.lesson.starts_at
    ours, theirs = home.date_of(starts_at), local_time(starts_at, booking.family.zone).date()
    family_break = None
    for each in breaks:
        if each.family_id is None and each.from_on <= ours <= each.until_on:
            return each
        if each.family_id == booking.family.id and each.from_on <= theirs <= each.until_on:
            family_break = family_break or each
    return family_break


def without_breaks(
    bookings: Iterable[ScheduledLesson], breaks: Sequence[Break], home: TeacherClock
) -> tuple[list[ScheduledLesson], list[LeftOut]]:
    """The lessons that take place, and those that fall into a break; both in order.

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
