"""Bookings out of the records: a day's, and a student's next."""

from datetime import date, datetime, timedelta

from cockpit.desk.ports import Reading
from cockpit.studio.booking import Booking, merged, planned
from cockpit.studio.calendar import Zone, day_bounds, local_time
from cockpit.studio.lesson import Lesson, Outcome
from cockpit.studio.people import StudentId

_AHEAD = timedelta(days=120)
_STILL_GOING = timedelta(hours=12)
# A lesson has 240 minutes at most, so that one of the evening before is over by then.
_EVENING_ENDS = 4
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


def day_going_on(reading: Reading, now: datetime, home_zone: Zone) -> date:
    """The teacher's date at a UTC moment; after midnight still that of a lesson which is taught, or can yet be."""
    today = local_time(now, home_zone).date()
    live = reading.live_lesson()
    if live is not None and now - live.starts_at < _STILL_GOING:
        return local_time(live.starts_at, home_zone).date()
    if local_time(now, home_zone).hour >= _EVENING_ENDS:
        return today
    evening = bookings_on(reading, today - timedelta(days=1), home_zone)
    is_awaited = any(booking.lesson.is_open and now < booking.lesson.planned_end for booking in evening)
    return today - timedelta(days=1) if is_awaited else today


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
