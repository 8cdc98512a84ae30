"""Lessons that were arranged, or have notes typed ahead, when their weekly time becomes another one: what named the very same lesson goes along."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta

from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import Edit, Note, added
from cockpit.studio.clocks.horizons import EVER, NEXT_LESSON
from cockpit.studio.clocks.moments import WEEK, day_bounds
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import short_date
from cockpit.studio.lessons.later_times import Reshaped
from cockpit.studio.lessons.lesson import Lesson, LessonId, in_words, meeting_date
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.values import replace

_DAY = timedelta(days=1)


def left_over(reading: Reading, standing: StandingTime, since: date, begins: date) -> tuple[Lesson, ...]:
    """The recorded lessons of a weekly time that it names from the date `begins` on; not those that were taught.

    `since` is a date from which on they can lie: one can have been moved to before `begins`.
    """
    first = day_bounds(min(since, begins) - _DAY, "UTC")[0]
    found = reading.lessons_of(standing.student_id, first, first + EVER)
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
    home: TeacherClock,
    spoken_for: frozenset[LessonId] = frozenset(),
) -> tuple[Edit, ...]:
    """The edits that take the lessons of the weekly time `before` along into those of new ones.

    What was called off or moved stays so where a new one names that very lesson. Notes typed ahead go each into the
    lesson of that week; where a week has none any more, into the next that is neither taken nor `spoken_for`.
    """
    same = same_lessons(lessons, before, new, home)
    edits = [*going_along(reading, lessons, same, spoken_for)]
    spoken_for = spoken_for.union(each.id for each in same.values())
    notes = reading.notes([lesson.id for lesson in lessons if lesson.is_by_rule])
    noted = [lesson for lesson in lessons if lesson.id in notes and notes[lesson.id].body.strip()]
    for lesson, target in _targets(reading, noted, new, home, spoken_for):
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
    home: TeacherClock,
    spoken_for: frozenset[LessonId],
) -> Iterator[tuple[Lesson, Lesson]]:
    """Each lesson with notes that has to leave them, and the one that they go into."""
    choices = {lesson.id: _choices(lesson, new, home) for lesson in noted}
    begins = min((lesson.starts_at for lesson in noted), default=None)
    ids = {meeting.id for meetings in choices.values() for meeting in meetings}
    recorded = reading.lessons_between(begins, begins, ids) if begins is not None else ()
    taken = {lesson.id for lesson in recorded} | spoken_for
    goes: dict[LessonId, Lesson] = {}
    for reach in (WEEK, NEXT_LESSON):
        for lesson in noted:
            ends = _monday(lesson, home) + reach
            free = (each for each in choices[lesson.id] if each.id not in taken or each.id == lesson.id)
            meetings = [each for each in free if each.starts_at < ends]
            if lesson.id not in goes and meetings:
                goes[lesson.id] = next((each for each in meetings if each.id == lesson.id), meetings[0])
                taken.add(goes[lesson.id].id)
    pairs = ((lesson, goes[lesson.id]) for lesson in noted if lesson.id in goes)
    return ((lesson, target) for lesson, target in pairs if target.id != lesson.id)


def _choices(lesson: Lesson, new: Iterable[Enrollment], home: TeacherClock) -> list[Lesson]:
    """The lessons of weekly times from the week of a lesson on."""
    monday = _monday(lesson, home)
    return [meeting.lesson for meeting in planned(new, home, monday, monday + NEXT_LESSON)]


def _monday(lesson: Lesson, home: TeacherClock) -> datetime:
    on = home.date_of(lesson.starts_at)
    return home.day_bounds(on - on.weekday() * _DAY)[0]


def arranged(lessons: tuple[Lesson, ...], home: TeacherClock) -> str | None:
    """A sentence on the lessons that stay as they were arranged, for her to look at; None where there are none."""
    said = [_said(lesson, home) for lesson in lessons if not lesson.is_by_rule]
    if not said:
        return None
    return f"Lessons that you arranged yourself were not changed: {'; '.join(said)}. Check whether each still fits."


def follow(
    reading: Reading,
    reshaped: Iterable[Reshaped],
    now: datetime,
    home: TeacherClock,
    spoken_for: frozenset[LessonId] = frozenset(),
) -> tuple[list[Edit], list[str]]:
    """Finds what goes along when weekly times become others at `now` (UTC).

    That is the edits that take notes along, into no lesson that is `spoken_for`, and sentences on what stays.
    """
    today = home.date_of(now)
    edits: list[Edit] = []
    said: list[str] = []
    for each in reshaped:
        over = left_over(reading, each.before, today, each.since)
        edits += carried(reading, over, each.before, each.after, home, spoken_for)
        stays = arranged(over, home)
        said += [f"{each.after[0].student.name}: {stays}"] if stays is not None else []
    return edits, said


def _said(lesson: Lesson, home: TeacherClock) -> str:
    if lesson.outcome is not None:
        return f"{short_date(home.date_of(lesson.starts_at))}, {in_words(lesson.outcome)}"
    return f"moved to {home.date_and_time(lesson.starts_at)}"


def same_lessons(
    lessons: Iterable[Lesson], before: StandingTime, new: Sequence[Enrollment], home: TeacherClock
) -> Mapping[LessonId, Lesson]:
    """The lesson of new weekly times that each arranged lesson of the one `before` is, by the latter's id.

    That is the one which they name at the very moment at which the other one did, however long it is; where they name
    none then, there is none.
    """
    found: dict[LessonId, Lesson] = {}
    # A lesson that was left beyond an end is taken up where its weekly time goes on.
    was = replace(new[0], standing=replace(before, until_on=None))
    for lesson in lessons:
        on = meeting_date(lesson)
        if lesson.is_by_rule or on is None:
            continue
        begins, _ = day_bounds(on - _DAY, "UTC")
        ends = begins + 3 * _DAY
        at = {each.lesson.starts_at for each in planned([was], home, begins, ends) if each.lesson.id == lesson.id}
        same = (each.lesson for each in planned(new, home, begins, ends) if each.lesson.starts_at in at)
        found.update((lesson.id, each) for each in same if each.id != lesson.id)
    return found


def going_along(
    reading: Reading, lessons: Iterable[Lesson], same: Mapping[LessonId, Lesson], spoken_for: frozenset[LessonId]
) -> tuple[Edit, ...]:
    """The edits that make arranged lessons those of a new weekly time, as `same_lessons` has them.

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
        # The bare row stays, as that of every lesson which its weekly time has left behind.
        edits.append(Edit(before=lesson, after=replace(lesson, outcome=None, is_moved=False)))
        edits += _pointing(reading, lesson.id, target.id)
        if target.id not in spoken_for:
            edits += added(_as(lesson, target))
        edits += _words(reading, lesson.id, target.id, notes)
    return tuple(edits)


def _as(lesson: Lesson, target: Lesson) -> Lesson:
    """The lesson of a new weekly time, called off or moved as the other one was; a moved one is as long as it was."""
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
