"""A calendar file into the studio: weekly events as standing times with their exceptions, single ones as lessons."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import count

from cockpit.desk.bringing_in.brought_lessons import BroughtLessons, apart_line, lesson_line, named_lessons
from cockpit.desk.bringing_in.called_off import CalledOff
from cockpit.desk.bringing_in.ended_series import SeriesOver
from cockpit.desk.calendar.afterwards import follow
from cockpit.desk.ports import Clock, Reading, Writing
from cockpit.studio.calendar.events import EventsReading, SingleLesson, WeeklyEvent
from cockpit.studio.changes.records import Change, Edit, added
from cockpit.studio.clocks.moments import Zone, lesson_zone, local_time
from cockpit.studio.enrolling.enrolling import plan_roster
from cockpit.studio.enrolling.event_times import event_number
from cockpit.studio.enrolling.following_files import Following
from cockpit.studio.enrolling.roll import Known
from cockpit.studio.enrolling.roster_differences import differences
from cockpit.studio.lessons.booking import People
from cockpit.studio.lessons.later_times import Clocks
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.roster.columns import RosterRow

_AHEAD = timedelta(days=7305)


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrival:
    """What a calendar file changes: the change, the same in readable lines, and what was left out, with the reason."""

    change: Change
    lines: tuple[str, ...]
    left_out: tuple[str, ...]


@dataclass(slots=True, kw_only=True)
class _Studio:
    """The people as they will be when the rows are in; the students by their name and by their id."""

    families: dict[FamilyId, Family]
    students: dict[str, Student]
    by_id: dict[StudentId, Student]

    @property
    def people(self) -> People:
        return People(students=self.by_id, families=self.families)

    @property
    def names(self) -> Mapping[StudentId, str]:
        return {student.id: student.name for student in self.by_id.values()}

    def family_of(self, student_id: StudentId) -> Family:
        return self.families[self.by_id[student_id].family_id]

    def take(self, *people: Family | Student) -> None:
        for each in people:
            match each:
                case Family():
                    self.families[each.id] = each
                case Student():
                    self.students[name_key(each.name)] = each
                    self.by_id[each.id] = each


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
        titles = events.of_others(self._reading.calendar_edition()[0]).titles
        return tuple(title for title in titles if name_key(title) not in known and title not in settled)

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
        with self._writing.new_ids() as new_id:
            arrival = self._arrival(events, names, new_id)
        self._writing.apply(arrival.change, durable=True)
        self._writing.settle_titles({title: name for title, name in names.items() if name is not None})
        return arrival

    def _arrival(self, events: EventsReading, names: Mapping[str, str | None], new_id: Callable[[], int]) -> Arrival:
        events = events.of_others(self._reading.calendar_edition()[0])
        events = events.named({**self._reading.calendar_titles(), **names})
        people, now = self._reading.people(), self._clock.now()
        known = Known(
            families=tuple(people.families.values()),
            students=tuple(people.students.values()),
            standing_times=self._reading.standing_times(),
            file_rows=self._reading.file_rows(),
        )
        plan = plan_roster(events.roster, known, self._home_zone, new_id, self._hours, now)
        studio = _studio(people, plan.change)
        named = named_lessons(events, plan.standing_times)
        lessons = BroughtLessons(self._reading.lessons_between(now, now + _AHEAD, named), now)
        for event, row in zip(events.weekly, events.roster.rows, strict=True):
            standing = plan.standing_times[row]
            lessons.take_meetings(event, standing, self._zone_of(standing, studio))
        follows, stays = follow(self._reading, plan.reshaped, now, self._home_zone, self._hours, lessons.changed)
        new = [edit for single in events.lessons for edit in self._student(single, studio, new_id)]
        for single in events.lessons:
            lessons.take_single(single, studio.students[name_key(single.title)].id)
        meant = {standing.id for standing in plan.standing_times.values()}
        others = [standing for standing in known.standing_times if standing.id not in meant]
        off = CalledOff(others, known.file_rows, lambda standing: self._clocks_of(standing, studio, now))
        for cancelled in events.called_off:
            self._call_off(cancelled, off, lessons, studio)
        over = SeriesOver(
            known.file_rows, known.standing_times, meant, lambda each: self._following(each, known, studio, now)
        )
        over.take_ended(events.ended)
        over.take_renamed(_students_of(events, plan.standing_times))
        ends = (*off.edits, *over.edits)
        told = (*plan.remembered, *off.told, *over.told)
        edits = (*plan.change.edits, *ends, *told, *new, *lessons.edits, *follows)
        left = (*off.said(studio.people, self._hours), *self._told_apart(lessons, studio))
        return Arrival(
            change=Change(said="bring a calendar", edits=edits),
            lines=(
                *plan.lines,
                *differences(ends, studio.people, studio.people, self._hours),
                *self._lines(lessons, studio),
            ),
            left_out=(*events.left_out, *plan.ended, *stays, *left),
        )

    def _call_off(
        self, event: WeeklyEvent | SingleLesson, off: CalledOff, lessons: BroughtLessons, studio: _Studio
    ) -> None:
        if isinstance(event, SingleLesson):
            if not lessons.call_off(event):
                off.unknown.add(event.uid)
            return
        student = studio.students.get(name_key(event.row.student))
        off.take(event, None if student is None else student.id)

    def _clocks_of(self, standing: StandingTime, studio: _Studio, now: datetime) -> Clocks:
        family = studio.family_of(standing.student_id)
        return Clocks(home_zone=self._home_zone, family_zone=family.zone, now=now)

    def _following(self, standing: StandingTime, known: Known, studio: _Studio, now: datetime) -> Following:
        student = studio.by_id[standing.student_id]
        family = studio.families[student.family_id]
        return Following(known.standing_times, student, family, self._clocks_of(standing, studio, now))

    def _zone_of(self, standing: StandingTime, studio: _Studio) -> Zone:
        if standing.kept_in is KeptIn.TEACHER:
            return self._home_zone
        return studio.family_of(standing.student_id).zone

    def _student(self, single: SingleLesson, studio: _Studio, new_id: Callable[[], int]) -> Iterable[Edit]:
        """What puts the student of a lesson into the studio; nothing for one who is there."""
        if name_key(single.title) in studio.students:
            return ()
        home = lesson_zone(self._home_zone, local_time(single.starts_at, self._home_zone).date())
        family = Family(id=FamilyId(new_id()), name=single.title, zone=home)
        student = Student(id=StudentId(new_id()), family_id=family.id, name=single.title)
        studio.take(family, student)
        return added(family, student)

    def _lines(self, lessons: BroughtLessons, studio: _Studio) -> Iterable[str]:
        after, names = (edit.after for edit in lessons.edits), studio.names
        return (
            lesson_line(lesson, names, self._home_zone, self._hours) for lesson in after if isinstance(lesson, Lesson)
        )

    def _told_apart(self, lessons: BroughtLessons, studio: _Studio) -> Iterable[str]:
        names = studio.names
        return (apart_line(apart, names, self._home_zone, self._hours) for apart in lessons.apart)


def _students_of(
    events: EventsReading, standing_times: Mapping[RosterRow, StandingTime]
) -> Mapping[int, set[StudentId]]:
    """Whose the weekly events of a file are, by the number of each."""
    found: defaultdict[int, set[StudentId]] = defaultdict(set)
    for event, row in zip(events.weekly, events.roster.rows, strict=True):
        found[event_number(event.uid)].add(standing_times[row].student_id)
    return found


def _studio(people: People, change: Change) -> _Studio:
    """The people when a change is made."""
    studio = _Studio(families=dict(people.families), students={}, by_id={})
    studio.take(*people.students.values())
    for edit in change.edits:
        if isinstance(edit.after, Family | Student):
            studio.take(edit.after)
    return studio
