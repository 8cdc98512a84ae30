"""Lessons that were called off or moved, when their standing time becomes another one that names the very same lesson."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import timedelta

from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import Edit, Note, added
from cockpit.studio.clocks.moments import Zone, day_bounds
from cockpit.studio.lessons.booking import Enrollment, planned
from cockpit.studio.lessons.lesson import Lesson, LessonId, meeting_date
from cockpit.studio.lessons.weekly_times import StandingTime

_DAY = timedelta(days=1)


def same_lessons(
    lessons: Iterable[Lesson], before: StandingTime, new: Sequence[Enrollment], home_zone: Zone
) -> Mapping[LessonId, Lesson]:
    """The lesson of new standing times that each arranged lesson of the one `before` is, by the latter's id.

    That is the one which they name at the very moment at which the other one did, however long it is; where they name
    none then, there is none.
    """
    found: dict[LessonId, Lesson] = {}
    # A lesson that was left beyond an end is taken up where its standing time goes on.
    was = replace(new[0], standing=replace(before, until_on=None))
    for lesson in lessons:
        on = meeting_date(lesson)
        if lesson.is_by_rule or on is None:
            continue
        begins, _ = day_bounds(on - _DAY, "UTC")
        ends = begins + 3 * _DAY
        at = {each.lesson.starts_at for each in planned([was], home_zone, begins, ends) if each.lesson.id == lesson.id}
        same = (each.lesson for each in planned(new, home_zone, begins, ends) if each.lesson.starts_at in at)
        found.update((lesson.id, each) for each in same if each.id != lesson.id)
    return found


def going_along(
    reading: Reading, lessons: Iterable[Lesson], same: Mapping[LessonId, Lesson], spoken_for: frozenset[LessonId]
) -> tuple[Edit, ...]:
    """The edits that make arranged lessons those of a new standing time, as `same_lessons` has them.

    Notes, follow-ups and the make-ups given for them go along. Those that are `spoken_for` are made by other edits,
    which come before these.
    """
    going = [lesson for lesson in lessons if lesson.id in same]
    if not going:
        return ()
    notes = reading.notes([lesson.id for lesson in going])
    edits: list[Edit] = []
    for lesson in going:
        target = same[lesson.id]
        # The bare row stays, as that of every lesson which its standing time has left behind.
        edits.append(Edit(before=lesson, after=replace(lesson, outcome=None, is_moved=False)))
        edits += _pointing(reading, lesson.id, target.id)
        if target.id not in spoken_for:
            edits += added(_as(lesson, target))
        edits += _words(reading, lesson.id, target.id, notes)
    return tuple(edits)


def _as(lesson: Lesson, target: Lesson) -> Lesson:
    """The lesson of a new standing time, called off or moved as the other one was; a moved one is as long as it was."""
    after = replace(target, outcome=lesson.outcome, is_moved=lesson.is_moved)
    return replace(after, starts_at=lesson.starts_at, minutes=lesson.minutes) if lesson.is_moved else after


def _pointing(reading: Reading, before: LessonId, after: LessonId) -> Iterator[Edit]:
    """The edits by which the make-ups of a lesson are those of another one."""
    for each in reading.closed_lessons():
        if each.makes_up == before:
            yield Edit(before=each, after=replace(each, makes_up=after))


def _words(reading: Reading, before: LessonId, after: LessonId, notes: Mapping[LessonId, Note]) -> Iterator[Edit]:
    """The edits that take the notes and the follow-ups of a lesson to another one."""
    owed = reading.follow_ups(before)
    yield from (Edit(before=each, after=None) for each in owed)
    note = notes.get(before)
    if note is not None and note.body.strip():
        yield Edit(before=note, after=None)
    yield from added(*(replace(each, lesson_id=after) for each in owed))
    if note is not None and note.body.strip():
        # Last, so that undo stops at them first where there are more words by now.
        yield from added(replace(note, lesson_id=after))
