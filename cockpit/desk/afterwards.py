"""Lessons that were arranged, or have notes typed ahead, when their standing time becomes another one."""

from dataclasses import replace
from datetime import date, timedelta

from cockpit.desk.ports import Reading
from cockpit.studio.booking import Enrollment, planned
from cockpit.studio.calendar import StandingTime, Zone, day_bounds, local_time
from cockpit.studio.lesson import Lesson, meeting_date
from cockpit.studio.records import Edit, Note, added
from cockpit.studio.words import clock_time, short_date

_DAY = timedelta(days=1)
_REACH = timedelta(days=800)
_NEXT_MEETING = timedelta(days=120)


def left_over(reading: Reading, standing: StandingTime, since: date, begins: date) -> tuple[Lesson, ...]:
    """The recorded lessons of a standing time that it names from the date `begins` on; not those that were taught.

    `since` is a date from which on they can lie: one can have been moved to before `begins`.
    """
    first = day_bounds(min(since, begins) - _DAY, "UTC")[0]
    found = reading.lessons_of(standing.student_id, first, first + _REACH)
    return tuple(
        lesson
        for lesson in found
        if lesson.standing_time_id == standing.id
        and lesson.began_at is None
        and lesson.finished_at is None
        and (meeting_date(lesson) or date.min) >= begins
    )


def carried(reading: Reading, lessons: tuple[Lesson, ...], new: Enrollment, home_zone: Zone) -> tuple[Edit, ...]:
    """The edits that take notes typed ahead along, each into the new standing time's lesson of that week, or the next."""
    notes = reading.notes([lesson.id for lesson in lessons if lesson.is_by_rule])
    edits: list[Edit] = []
    taken: set[str] = set()
    for lesson in lessons:
        note = notes.get(lesson.id)
        if note is None or not note.body.strip():
            continue
        on = local_time(lesson.starts_at, home_zone).date()
        monday = day_bounds(on - on.weekday() * _DAY, home_zone)[0]
        meetings = planned([new], home_zone, monday, monday + _NEXT_MEETING)
        target = next((meeting.lesson for meeting in meetings if meeting.lesson.id not in taken), None)
        if target is None:
            continue
        taken.add(target.id)
        owed = reading.follow_ups(lesson.id)
        moved = Note(lesson_id=target.id, body=note.body, changed_at=note.changed_at)
        edits += [*(Edit(before=each, after=None) for each in owed), Edit(before=note, after=None)]
        edits += added(target, moved, *(replace(each, lesson_id=target.id) for each in owed))
    return tuple(edits)


def arranged(lessons: tuple[Lesson, ...], home_zone: Zone, hours: int) -> str | None:
    """A sentence on the lessons that stay as they were arranged, for her to look at; None where there are none."""
    said = [_said(lesson, home_zone, hours) for lesson in lessons if not lesson.is_by_rule]
    if not said:
        return None
    return f"Arranged before, and left so: {'; '.join(said)}. Look whether that still holds."


def _said(lesson: Lesson, home_zone: Zone, hours: int) -> str:
    at = local_time(lesson.starts_at, home_zone)
    if lesson.outcome is not None:
        return f"{short_date(at.date())}, {lesson.outcome}"
    return f"moved to {short_date(at.date())}, {clock_time(at, hours)}"
