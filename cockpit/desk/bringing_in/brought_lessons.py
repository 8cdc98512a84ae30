"""The lessons of a calendar file against those that the studio has recorded."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from datetime import date, datetime, timedelta
from hashlib import sha256

from cockpit.studio.calendar.events import EventsReading, SingleLesson, WeeklyEvent
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import Zone, day_bounds, lesson_zone, moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import long_date, minutes_of
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, Outcome, meeting_date, weekly_id
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId, occurrences
from cockpit.studio.people.people import StudentId
from cockpit.studio.roster.columns import RosterRow
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)


class Apart(Value):
    """A lesson as the studio has it, and as the file does."""

    here: Lesson
    there: Lesson


class BroughtLessons:
    """Takes in lessons from a moment (UTC) on, and gathers in `edits` what changes, and in `apart` what does not.

    Nothing tells whether a recorded lesson was moved or called off here, or by an earlier version of the file. So it
    stays as it is, and where the file has it otherwise that is told.
    """

    def __init__(self, recorded: Iterable[Lesson], now: datetime) -> None:
        self._recorded = {lesson.id: lesson for lesson in recorded}
        self._of_rule: defaultdict[StandingTimeId | None, list[Lesson]] = defaultdict(list)
        for lesson in self._recorded.values():
            if lesson.is_moved or lesson.outcome is not None:
                self._of_rule[lesson.standing_time_id].append(lesson)
        self._now = now
        self.edits: list[Edit] = []
        self.apart: list[Apart] = []

    @property
    def changed(self) -> frozenset[LessonId]:
        """The lessons that become otherwise."""
        return frozenset(edit.after.id for edit in self.edits if isinstance(edit.after, Lesson))

    def take_meetings(self, event: WeeklyEvent, standing: StandingTime, zone: Zone) -> None:
        """Takes in the meetings of a rule, called off, moved, or as the rule has them; `zone` is that of its clock."""
        changed = dict.fromkeys(event.cancelled) | {moved.taught_on: moved for moved in event.moved}
        for on, moved in changed.items():
            if not _names(standing, on, zone):
                continue
            by_rule = _by_rule(standing, on, zone)
            if moved is None:
                self._take(replace(by_rule, outcome=Outcome.CANCELLED))
            else:
                there = replace(by_rule, starts_at=moved.starts_at, minutes=moved.minutes, is_moved=True)
                self._take(there, by_rule.starts_at)  # also into the past: it takes place at its own time no more
        for lesson in self._of_rule[standing.id]:
            met = meeting_date(lesson)
            if met is not None and met not in changed and _names(standing, met, zone):
                self._take(_by_rule(standing, met, zone))

    def take_single(self, single: SingleLesson, student_id: StudentId) -> None:
        """Takes in a lesson by itself."""
        lesson = Lesson(
            id=single_id(single),
            student_id=student_id,
            kind=Kind.EXTRA,
            starts_at=single.starts_at,
            minutes=single.minutes,
        )
        self._take(lesson)

    def call_off(self, single: SingleLesson) -> bool:
        """Cancels a lesson by itself, and returns whether the studio has it."""
        here = self._recorded.get(single_id(single))
        if here is not None:
            self._take(replace(here, outcome=Outcome.CANCELLED, is_moved=False))
        return here is not None

    def _take(self, there: Lesson, by_rule: datetime | None = None) -> None:
        """Makes a lesson so, if it is still to come, here, there or by its rule, and nothing was done to it."""
        here = self._recorded.get(there.id)
        here_at = here.starts_at if here is not None else by_rule or there.starts_at
        if max(there.starts_at, here_at) < self._now:
            return
        if here is None:
            self.edits.append(Edit(before=None, after=there))
        elif here.began_at is not None or here.finished_at is not None or _is_alike(here, there):
            return
        elif here.is_moved or here.outcome is not None:
            self.apart.append(Apart(here=here, there=there))
        else:
            after = replace(here, starts_at=there.starts_at, minutes=there.minutes,
                            outcome=there.outcome, is_moved=there.is_moved)  # fmt: skip
            self.edits.append(Edit(before=here, after=after))


def named_lessons(events: EventsReading, standing_times: Mapping[RosterRow, StandingTime]) -> set[LessonId]:
    """The lessons that a file names by themselves, wherever the studio has them by now."""
    singles = (each for each in (*events.lessons, *events.called_off) if isinstance(each, SingleLesson))
    named = {single_id(single) for single in singles}
    for event in events.weekly:
        dates = (*event.cancelled, *(moved.taught_on for moved in event.moved))
        named |= {weekly_id(standing_times[event.row].id, on) for on in dates}
    return named


def single_id(single: SingleLesson) -> LessonId:
    """The lasting id of a lesson by itself: read again, it is the same one."""
    return LessonId(f"c{sha256(single.uid.encode()).hexdigest()[:20]}")


def lesson_line(lesson: Lesson, names: Mapping[StudentId, str], home: TeacherClock) -> str:
    """A lesson on one line: `Ilse, moved to: Wednesday, December 9, 2026, 10:00 am, 30 minutes`."""
    return f"{names[lesson.student_id]}, {_state(lesson, home)}"


def apart_line(apart: Apart, names: Mapping[StudentId, str], home: TeacherClock) -> str:
    """What the studio has otherwise than the file, on one line."""
    here, there = lesson_line(apart.here, names, home), _state(apart.there, home)
    return f"kept as in the studio; the file differs: {here} (in the file, {there})"


def _state(lesson: Lesson, home: TeacherClock) -> str:
    what = "canceled" if lesson.outcome is not None else "moved to" if lesson.is_moved else "lesson"
    return f"{what}: {long_date(home.date_of(lesson.starts_at))}, {home.time(lesson.starts_at)}, {minutes_of(lesson.minutes)}"


def _by_rule(standing: StandingTime, on: date, zone: Zone) -> Lesson:
    return Lesson(
        id=weekly_id(standing.id, on),
        student_id=standing.student_id,
        standing_time_id=standing.id,
        instrument=standing.instrument,
        starts_at=moment(datetime.combine(on, standing.at), lesson_zone(zone, on)),
        minutes=standing.minutes,
    )


def _names(standing: StandingTime, on: date, zone: Zone) -> bool:
    """Whether a date is one of the weekly time's."""
    begins, _ = day_bounds(on - _DAY, "UTC")
    return any(meeting.taught_on == on for meeting in occurrences(standing, zone, begins, begins + 3 * _DAY))


def _is_alike(here: Lesson, there: Lesson) -> bool:
    """Whether nobody sees a difference: two that are called off are alike, whenever and however they were."""
    if here.outcome is not None and there.outcome is not None:
        return True
    return (here.starts_at, here.minutes, here.outcome) == (there.starts_at, there.minutes, there.outcome)
