"""The queue of a day, for scripts."""

from collections.abc import Iterable
from datetime import datetime

from cockpit.papers.json_text import json_text
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson


def queue_json(bookings: Iterable[ScheduledLesson], home: TeacherClock, now: datetime) -> str:
    """The lessons as a JSON list of objects, in the order given. `now` is UTC.

    `starts_at` is on the clock of `home`, `family_starts_at` on the family's, both ISO 8601 with offset.
    """
    lessons = [_lesson(booking, home, now) for booking in bookings]
    return json_text(lessons) + "\n"


def _lesson(booking: ScheduledLesson, home: TeacherClock, now: datetime) -> dict[str, str | int | None]:
    lesson = booking.lesson
    return {
        "id": lesson.id,
        "student": booking.student.name,
        "family": booking.family.name,
        "instrument": lesson.instrument,
        "kind": lesson.kind,
        "starts_at": home.local(lesson.starts_at).isoformat(),
        "family_starts_at": local_time(lesson.starts_at, booking.family.zone).isoformat(),
        "minutes": lesson.minutes,
        "state": state_of(lesson, now),
    }
