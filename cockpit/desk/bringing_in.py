"""A calendar file into the studio: weekly events as standing times with their exceptions, single ones as lessons."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from hashlib import sha256
from itertools import count

from cockpit.desk.afterwards import follow
from cockpit.desk.ports import Clock, Reading, Writing
from cockpit.studio.calendar import KeptIn, StandingTime, Zone, lesson_zone, local_time, moment
from cockpit.studio.calendar_events import EventsReading, SingleLesson, WeeklyEvent
from cockpit.studio.enrolling import plan_roster
from cockpit.studio.kept_ends import with_ends_of_here
from cockpit.studio.lesson import Kind, Lesson, LessonId, Outcome, weekly_id
from cockpit.studio.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.records import Change, Edit, added
from cockpit.studio.roll import Known
from cockpit.studio.roster_rows import quoted
from cockpit.studio.words import clock_time, counted, long_date, minutes_of

_AHEAD = timedelta(days=7305)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """What a calendar file changes: the change, the same in readable lines, and what was left out, with the reason."""

    change: Change
    lines: tuple[str, ...]
    left_out: tuple[str, ...]


@dataclass(slots=True, kw_only=True)
class _Studio:
    """The studio as it will be when the rows are in."""

    families: dict[FamilyId, Family]
    students: dict[str, Student]
    recorded: Mapping[LessonId, Lesson]
    kept: list[Lesson]


class BringingIn:
    """Takes calendar files in."""

    def __init__(self, reading: Reading, writing: Writing | None, clock: Clock, home_zone: Zone, hours: int) -> None:
        self._reading = reading
        self._writing = writing
        self._clock = clock
        self._home_zone = home_zone
        self._hours = hours

    def unknown_titles(self, events: EventsReading) -> tuple[str, ...]:
        """The titles that are no student of the studio, and were not settled at an earlier reading; each once."""
        known = {name_key(student.name) for student in self._reading.people().students.values()}
        settled = self._reading.calendar_titles()
        events = _of_others(events, self._reading.calendar_edition()[0])
        titles = [event.row.student for event in events.weekly] + [lesson.title for lesson in events.lessons]
        return tuple(dict.fromkeys(t for t in titles if name_key(t) not in known and t not in settled))

    def students_near(self, title: str) -> tuple[str, ...]:
        """The students whose name is a part of a title."""
        words = f" {name_key(''.join(letter if letter.isalnum() else ' ' for letter in title))} "
        names = {student.name for student in self._reading.people().students.values()}
        return tuple(sorted(name for name in names if f" {name_key(name)} " in words))

    def look_at(self, events: EventsReading, names: Mapping[str, str | None]) -> Arrival:
        """What a file would change. Nothing is written.

        `names` are the students that its titles stand for; None where nobody said: what has such a title is left out.
        """
        numbers = count(-1, -1)
        return self._arrival(events, names, lambda: next(numbers))

    def take_in(self, events: EventsReading, names: Mapping[str, str | None]) -> Arrival:
        """Takes a file in, all of it or nothing, and returns what it changed.

        Raises:
            BadInput: one line for each fault; nothing was taken in.
        """
        if self._writing is None:
            return self.look_at(events, names)
        arrival = self._arrival(events, names, self._writing.new_id)
        self._writing.apply(arrival.change, durable=True)
        self._writing.settle_titles({title: name for title, name in names.items() if name is not None})
        return arrival

    def _arrival(self, events: EventsReading, names: Mapping[str, str | None], new_id: Callable[[], int]) -> Arrival:
        events = _named(
            _of_others(events, self._reading.calendar_edition()[0]), {**self._reading.calendar_titles(), **names}
        )
        people = self._reading.people()
        known = Known(
            families=tuple(people.families.values()),
            students=tuple(people.students.values()),
            standing_times=self._reading.standing_times(),
        )
        events, ended = with_ends_of_here(events, known)
        roster = events.roster
        now = self._clock.now()
        plan = plan_roster(roster, known, self._home_zone, new_id, self._hours, now)
        studio = self._after(known, plan.change)
        meant = [plan.standing_times[row] for row in roster.rows]
        lessons = [
            edit
            for event, standing in zip(events.weekly, meant, strict=True)
            for edit in self._exceptions(event, standing, studio)
        ]
        changed = frozenset(edit.after.id for edit in lessons if isinstance(edit.after, Lesson))
        follows, stays = follow(self._reading, plan.reshaped, now, self._home_zone, self._hours, changed)
        singles = [edit for lesson in events.lessons for edit in self._single(lesson, studio, new_id)]
        lines = tuple(
            _line(edit.after, studio, self._home_zone, self._hours)
            for edit in (*lessons, *singles)
            if isinstance(edit.after, Lesson)
        )
        change = Change(said="bring a calendar", edits=(*plan.change.edits, *lessons, *singles, *follows))
        moved = (f"moved here, left so: {_line(each, studio, self._home_zone, self._hours)}" for each in studio.kept)
        return Arrival(
            change=change, lines=(*plan.lines, *lines), left_out=(*events.left_out, *ended, *plan.ended, *stays, *moved)
        )

    def _after(self, known: Known, change: Change) -> _Studio:
        families = {family.id: family for family in known.families}
        students = {student.id: student for student in known.students}
        for edit in change.edits:
            match edit.after:
                case Family():
                    families[edit.after.id] = edit.after
                case Student():
                    students[edit.after.id] = edit.after
                case _:
                    pass
        now = self._clock.now()
        recorded = self._reading.lessons_between(now, now + _AHEAD)
        return _Studio(
            families=families,
            students={name_key(student.name): student for student in students.values()},
            recorded={lesson.id: lesson for lesson in recorded},
            kept=[],
        )

    def _exceptions(self, event: WeeklyEvent, standing: StandingTime, studio: _Studio) -> Iterable[Edit]:
        """The meetings of a rule that were called off or moved, as far as they are still to come."""
        student = studio.students[name_key(event.row.student)]
        zone = self._home_zone if standing.kept_in is KeptIn.TEACHER else studio.families[student.family_id].zone
        changed = dict.fromkeys(event.cancelled) | {moved.taught_on: moved for moved in event.moved}
        for on, moved in changed.items():
            if not (standing.from_on or date.min) <= on <= (standing.until_on or date.max):
                continue
            starts_at = moment(datetime.combine(on, standing.at), lesson_zone(zone, on))
            by_rule = Lesson(
                id=weekly_id(standing.id, on),
                student_id=student.id,
                standing_time_id=standing.id,
                instrument=standing.instrument,
                starts_at=starts_at,
                minutes=standing.minutes,
            )
            if moved is None:
                after = replace(by_rule, outcome=Outcome.CANCELLED)
            else:
                after = replace(by_rule, starts_at=moved.starts_at, minutes=moved.minutes, is_moved=True)
            yield from _edit(studio, after, self._clock.now())

    def _single(self, single: SingleLesson, studio: _Studio, new_id: Callable[[], int]) -> Iterable[Edit]:
        student = studio.students.get(name_key(single.title))
        if student is None:
            home = lesson_zone(self._home_zone, local_time(single.starts_at, self._home_zone).date())
            family = Family(id=FamilyId(new_id()), name=single.title, zone=home)
            student = Student(id=StudentId(new_id()), family_id=family.id, name=single.title)
            studio.families[family.id] = family
            studio.students[name_key(single.title)] = student
            yield from added(family, student)
        after = Lesson(
            id=LessonId(f"c{sha256(single.uid.encode()).hexdigest()[:20]}"),  # read again, it is the same lesson
            student_id=student.id,
            kind=Kind.EXTRA,
            starts_at=single.starts_at,
            minutes=single.minutes,
        )
        yield from _edit(studio, after, self._clock.now())


def _edit(studio: _Studio, after: Lesson, now: datetime) -> Iterable[Edit]:
    """The edit that makes a lesson so; none for one that was begun or closed here, or is so already, or is past.

    One that was moved stays where it is: the file cannot tell whether it knows of that.
    """
    before = studio.recorded.get(after.id)
    if max(after.starts_at, before.starts_at if before is not None else after.starts_at) < now:
        return
    if before is None:
        yield Edit(before=None, after=after)
    elif before.is_moved and before.outcome is None and before.began_at is None:
        wanted = (after.starts_at, after.minutes, after.outcome)
        if wanted != (before.starts_at, before.minutes, before.outcome):
            studio.kept.append(before)
    elif before.began_at is None and before.finished_at is None and before.outcome is None and before != after:
        yield Edit(before=before, after=replace(before, starts_at=after.starts_at, minutes=after.minutes,
                                                outcome=after.outcome, is_moved=after.is_moved))  # fmt: skip


def _line(lesson: Lesson, studio: _Studio, home_zone: Zone, hours: int) -> str:
    name = next(student.name for student in studio.students.values() if student.id == lesson.student_id)
    at = local_time(lesson.starts_at, home_zone)
    what = "cancelled" if lesson.outcome is not None else "moved to" if lesson.is_moved else "lesson"
    when = f"{long_date(at.date())}, {clock_time(at, hours)}"
    return f"{name}, {what}: {when}, {minutes_of(lesson.minutes)}"


def _named(events: EventsReading, names: Mapping[str, str | None]) -> EventsReading:
    """The events under the names of the students that their titles stand for, without those that stand for nobody."""
    weekly, lessons, unsaid = [], [], []
    for event in events.weekly:
        title = event.row.student
        name = names.get(title, title)
        if name is None:
            unsaid.append(title)
        else:
            weekly.append(replace(event, row=replace(event.row, student=name)))
    for lesson in events.lessons:
        name = names.get(lesson.title, lesson.title)
        if name is None:
            unsaid.append(lesson.title)
        else:
            lessons.append(replace(lesson, title=name))
    told = (f"{quoted(title)}: nobody said which student that is." for title in dict.fromkeys(unsaid))
    return replace(events, weekly=tuple(weekly), lessons=tuple(lessons), left_out=(*told, *events.left_out))


def _of_others(events: EventsReading, studio_uid: str) -> EventsReading:
    """The events that this studio did not hand out itself: those it has already."""
    own = f"@{studio_uid}"
    weekly = tuple(event for event in events.weekly if not event.uid.endswith(own))
    lessons = tuple(lesson for lesson in events.lessons if not lesson.uid.endswith(own))
    passed_over = len(events.weekly) + len(events.lessons) - len(weekly) - len(lessons)
    told = (f"{counted(passed_over, 'event')} of this studio's own calendar",) if passed_over else ()
    return replace(events, weekly=weekly, lessons=lessons, left_out=(*told, *events.left_out))
