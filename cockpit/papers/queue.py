"""The queue of a day, for scripts and for a terminal; the teacher's own, with what her families call the times."""

from collections.abc import Iterable
from datetime import datetime

from cockpit.papers.columns import columns
from cockpit.papers.json_text import json_text
from cockpit.papers.words.typed import one_line
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.clocks.words import clock_time, family_time
from cockpit.studio.lessons.lesson import in_words, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson

_RIGHT = frozenset({0, 2})  # the teacher's time, and the minutes


def queue_json(bookings: Iterable[ScheduledLesson], home_zone: Zone, now: datetime) -> str:
    """The lessons as a JSON list of objects, in the order given. `now` is UTC.

    `starts_at` is on the clock of `home_zone`, `family_starts_at` on the family's, both ISO 8601 with offset.
    """
    lessons = [_lesson(booking, home_zone, now) for booking in bookings]
    return json_text(lessons) + "\n"


def queue_text(bookings: Iterable[ScheduledLesson], home_zone: Zone, hours: int, now: datetime) -> str:
    """The lessons as aligned lines: time, the family's time where it differs, minutes, student, instrument, state.

    Times are on the clock of `home_zone` with 12 or 24 `hours`; `now` is UTC.
    """
    rows = [_row(booking, home_zone, hours, now) for booking in bookings]
    return columns(rows, right=_RIGHT) or "No lessons.\n"


def _lesson(booking: ScheduledLesson, home_zone: Zone, now: datetime) -> dict[str, str | int | None]:
    lesson = booking.lesson
    return {
        "id": lesson.id,
        "student": booking.student.name,
        "family": booking.family.name,
        "instrument": lesson.instrument,
        "kind": lesson.kind,
        "starts_at": local_time(lesson.starts_at, home_zone).isoformat(),
        "family_starts_at": local_time(lesson.starts_at, booking.family.zone).isoformat(),
        "minutes": lesson.minutes,
        "state": state_of(lesson, now),
    }


def _row(booking: ScheduledLesson, home_zone: Zone, hours: int, now: datetime) -> tuple[str, ...]:
    lesson = booking.lesson
    return (
        clock_time(local_time(lesson.starts_at, home_zone), hours),
        family_time(lesson.starts_at, home_zone, booking.family.zone, hours) or "",
        f"{lesson.minutes} min",
        one_line(booking.student.name),
        one_line(lesson.instrument or ""),
        in_words(state_of(lesson, now)),
    )
