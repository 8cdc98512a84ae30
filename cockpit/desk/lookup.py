"""Bookings out of the records: a day's, and a student's next."""

from datetime import date, datetime, timedelta

from cockpit.desk.ports import Reading
from cockpit.studio.booking import Booking, merged, planned
from cockpit.studio.calendar import Zone, day_bounds, local_time
from cockpit.studio.lesson import Lesson, Outcome
from cockpit.studio.people import StudentId

_AHEAD = timedelta(days=120)
_CALLED_OFF = (Outcome.CANCELLED, Outcome.CANCELLED_LATE)


def bookings_on(reading: Reading, on: date, home_zone: Zone) -> list[Booking]:
    """The lessons that start on a date of the teacher's clock, in order."""
    begins, ends = day_bounds(on, home_zone)
    people = reading.people()
    # A standing time on another clock can end on the day before and still be today's.
    enrollments = reading.enrollments(people, on - timedelta(days=1))
    by_rule = planned(enrollments, home_zone, begins, ends)
    recorded = reading.lessons_between(begins, ends, [booking.lesson.id for booking in by_rule])
    return merged(by_rule, recorded, people, enrollments)


def next_of(reading: Reading, student_id: StudentId, after: Lesson | datetime, home_zone: Zone) -> Booking | None:
    """The student's next lesson that is not cancelled, after a lesson or a UTC moment; None in the next 120 days."""
    since = after.starts_at if isinstance(after, Lesson) else after
    same = after.id if isinstance(after, Lesson) else None
    people = reading.people()
    on = local_time(since, home_zone).date() - timedelta(days=1)
    enrollments = [e for e in reading.enrollments(people, on) if e.student.id == student_id]
    by_rule = planned(enrollments, home_zone, since, since + _AHEAD)
    recorded = reading.lessons_of(student_id, since, since + _AHEAD)
    for booking in merged(by_rule, recorded, people, enrollments):
        lesson = booking.lesson
        if lesson.id != same and lesson.outcome not in _CALLED_OFF and lesson.finished_at is None:
            return booking
    return None
