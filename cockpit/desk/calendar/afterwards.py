"""Lessons that were arranged, or have notes typed ahead, when their standing time becomes another one."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

from cockpit.desk.calendar.going_along import going_along, same_lessons
from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import Edit, Note, added
from cockpit.studio.clocks.moments import WEEK, Zone, day_bounds, local_time
from cockpit.studio.clocks.words import clock_time, short_date
from cockpit.studio.lessons.booking import Enrollment, planned
from cockpit.studio.lessons.later_times import Reshaped
from cockpit.studio.lessons.lesson import Lesson, LessonId, meeting_date
from cockpit.studio.lessons.weekly_times import StandingTime

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


def carried(
    reading: Reading,
    lessons: tuple[Lesson, ...],
    before: StandingTime,
    new: Sequence[Enrollment],
    home_zone: Zone,
    spoken_for: frozenset[LessonId] = frozenset(),
) -> tuple[Edit, ...]:
    """The edits that take the lessons of the standing time `before` along into those of new ones.

    What was called off or moved stays so where a new one names that very lesson. Notes typed ahead go each into the
    lesson of that week; where a week has none any more, into the next that is neither taken nor `spoken_for`.
    """
    same = same_lessons(lessons, before, new, home_zone)
    edits = [*going_along(reading, lessons, same, spoken_for)]
    spoken_for = spoken_for.union(each.id for each in same.values())
    notes = reading.notes([lesson.id for lesson in lessons if lesson.is_by_rule])
    noted = [lesson for lesson in lessons if lesson.id in notes and notes[lesson.id].body.strip()]
    for lesson, target in _targets(reading, noted, new, home_zone, spoken_for):
        note, owed = notes[lesson.id], reading.follow_ups(lesson.id)
        moved = Note(lesson_id=target.id, body=note.body, changed_at=note.changed_at)
        edits += [*(Edit(before=each, after=None) for each in owed), Edit(before=note, after=None)]
        # The notes come last, so that undo stops at them first where there are more words by now.
        edits += added(target, *(replace(each, lesson_id=target.id) for each in owed), moved)
    return tuple(edits)


def _targets(
    reading: Reading,
    noted: Sequence[Lesson],
    new: Sequence[Enrollment],
    home_zone: Zone,
    spoken_for: frozenset[LessonId],
) -> Iterator[tuple[Lesson, Lesson]]:
    """Each lesson with notes that has to leave them, and the one that they go into."""
    choices = {lesson.id: _choices(lesson, new, home_zone) for lesson in noted}
    begins = min((lesson.starts_at for lesson in noted), default=None)
    ids = {meeting.id for meetings in choices.values() for meeting in meetings}
    recorded = reading.lessons_between(begins, begins, ids) if begins is not None else ()
    taken = {lesson.id for lesson in recorded} | spoken_for
    goes: dict[LessonId, Lesson] = {}
    for reach in (WEEK, _NEXT_MEETING):
        for lesson in noted:
            ends = _monday(lesson, home_zone) + reach
            free = (each for each in choices[lesson.id] if each.id not in taken or each.id == lesson.id)
            meetings = [each for each in free if each.starts_at < ends]
            if lesson.id not in goes and meetings:
                goes[lesson.id] = next((each for each in meetings if each.id == lesson.id), meetings[0])
                taken.add(goes[lesson.id].id)
    pairs = ((lesson, goes[lesson.id]) for lesson in noted if lesson.id in goes)
    return ((lesson, target) for lesson, target in pairs if target.id != lesson.id)


def _choices(lesson: Lesson, new: Iterable[Enrollment], home_zone: Zone) -> list[Lesson]:
    """The lessons of standing times from the week of a lesson on."""
    monday = _monday(lesson, home_zone)
    return [meeting.lesson for meeting in planned(new, home_zone, monday, monday + _NEXT_MEETING)]


def _monday(lesson: Lesson, home_zone: Zone) -> datetime:
    on = local_time(lesson.starts_at, home_zone).date()
    return day_bounds(on - on.weekday() * _DAY, home_zone)[0]


def arranged(lessons: tuple[Lesson, ...], home_zone: Zone, hours: int) -> str | None:
    """A sentence on the lessons that stay as they were arranged, for her to look at; None where there are none."""
    said = [_said(lesson, home_zone, hours) for lesson in lessons if not lesson.is_by_rule]
    if not said:
        return None
    return f"Arranged before, and left so: {'; '.join(said)}. Look whether that still holds."


def follow(
    reading: Reading,
    reshaped: Iterable[Reshaped],
    now: datetime,
    home_zone: Zone,
    hours: int,
    spoken_for: frozenset[LessonId] = frozenset(),
) -> tuple[list[Edit], list[str]]:
    """What follows standing times that became others by `now` (UTC).

    That is the edits that take notes along, into no lesson that is `spoken_for`, and sentences on what stays.
    """
    today = local_time(now, home_zone).date()
    edits: list[Edit] = []
    said: list[str] = []
    for each in reshaped:
        over = left_over(reading, each.before, today, each.since)
        edits += carried(reading, over, each.before, each.after, home_zone, spoken_for)
        stays = arranged(over, home_zone, hours)
        said += [f"{each.after[0].student.name}: {stays}"] if stays is not None else []
    return edits, said


def _said(lesson: Lesson, home_zone: Zone, hours: int) -> str:
    at = local_time(lesson.starts_at, home_zone)
    if lesson.outcome is not None:
        return f"{short_date(at.date())}, {lesson.outcome}"
    return f"moved to {short_date(at.date())}, {clock_time(at, hours)}"
