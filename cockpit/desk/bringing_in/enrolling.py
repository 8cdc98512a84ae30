"""A roster or a calendar into the studio: looked at first, then taken in, all of it or nothing."""

from collections.abc import Callable, Mapping
from itertools import count
from types import MappingProxyType

from cockpit.desk.bringing_in.brought_lessons import BroughtLessons, apart_line, lesson_line, named_lessons
from cockpit.desk.calendar.afterwards import follow
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Clock, Reading, Writing
from cockpit.studio.calendar.events import EventsReading, EventTitle, SingleLesson
from cockpit.studio.calendar.titles import members_named, name_in, students_near
from cockpit.studio.changes.records import Change, added
from cockpit.studio.clocks.horizons import EVER
from cockpit.studio.clocks.moments import lesson_zone
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted
from cockpit.studio.enrolling.enrolling import RosterPlan, new_family_line, plan_roster
from cockpit.studio.enrolling.people import Known, NearMiss, near_misses
from cockpit.studio.lessons.breaks import pauses_in
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.progress import Report, unheard
from cockpit.studio.roster.columns import RosterReading
from cockpit.studio.roster.roster import read_roster
from cockpit.studio.roster.written import WrittenRoster, written_roster

_NOBODY: Mapping[str, str | None] = MappingProxyType({})
File = str | RosterReading | EventsReading
"""The text of a roster, the same as it was read, or a calendar as it was read."""


class Enrolling:
    """Proposes what a file changes, and takes it in: weekly times, and of a calendar also lessons by themselves."""

    def __init__(self, reading: Reading, writing: Writing | None, clock: Clock, home: TeacherClock) -> None:
        self._reading = reading
        self._writing = writing
        self._clock = clock
        self._home = home

    def look_at(self, file: File, names: Mapping[str, str | None] = _NOBODY, report: Report = unheard) -> Proposal:
        """Proposes what a file would change, and writes nothing.

        `names` are the students that the titles of a calendar stand for; None where nobody said: what has such a title
        is left out.

        Raises:
            BadInput: one line for each fault.
        """
        numbers = count(-1, -1)
        return self._proposal(file, names, lambda: next(numbers), report)

    def take_in(self, file: File, names: Mapping[str, str | None] = _NOBODY, report: Report = unheard) -> Proposal:
        """Takes a file in, and returns what it changed; `names` as in `look_at`. `report` counts the students that are compared.

        Raises:
            BadInput: one line for each fault; nothing was taken in.
        """
        if self._writing is None:
            return self.look_at(file, names, report)
        with self._writing.new_ids() as new_id:
            proposal = self._proposal(file, names, new_id, report)
        self._writing.apply(Change(said=proposal.said, edits=proposal.edits), durable=True)
        if isinstance(file, EventsReading):
            self._writing.settle_titles({title: name for title, name in names.items() if name is not None})
        return proposal

    def written(self) -> WrittenRoster:
        """The studio as a roster."""
        today = self._home.date_of(self._clock.now())
        reading = self._reading
        return written_roster(
            reading.people(),
            reading.guardians(),
            reading.permissions(),
            pauses_in(reading.breaks()),
            reading.standing_times(),
            today,
        )

    def near_misses(self, roster: RosterReading) -> tuple[NearMiss, ...]:
        """The names in a roster that may be misspelled, each once."""
        people = self._reading.people()
        known = Known(families=tuple(people.families.values()), students=tuple(people.students.values()))
        return near_misses(roster.rows, known)

    def unknown_titles(self, events: EventsReading) -> tuple[EventTitle, ...]:
        """The titles that are no student of the studio, and were not settled at an earlier reading; each once.

        One lesson of a series may have the title of another series, which is asked about itself.
        """
        known = {name_key(student.name) for student in self._reading.people().students.values()}
        settled = self._reading.calendar_titles()
        events = events.of_others(self._reading.calendar_edition()[0])
        series = {event.row.student for event in events.weekly}
        return tuple(
            title
            for title in events.titles
            if name_key(title.text) not in known
            and settled.keys().isdisjoint({title.text, str(title)})
            and (title.series is None or title.text not in series)
        )

    def students_near(self, title: EventTitle, names: Mapping[str, str | None] = _NOBODY) -> tuple[str, ...]:
        """The students that a title may mean, or else the name of somebody new in it; none where it is a name alone.

        One lesson of a series may be that of its student by any name; `names` are those that were said of titles so far.
        """
        people = self._reading.people()
        members: dict[str, list[str]] = {}
        for student in people.students.values():
            members.setdefault(people.families[student.family_id].name, []).append(student.name)
        name = name_in(title.text)
        near = students_near(title.text, (student.name for student in people.students.values()))
        near = near or members_named(title.text, members) or ((name,) if name else ())
        if title.series is None:
            return near
        of_series = EventTitle(text=title.series).whose({**self._reading.calendar_titles(), **names})
        return tuple(dict.fromkeys((*near, of_series or title.series)))

    def _proposal(
        self, file: File, names: Mapping[str, str | None], new_id: Callable[[], int], report: Report
    ) -> Proposal:
        people = self._reading.people()
        known = Known(
            families=tuple(people.families.values()),
            guardians=self._reading.guardians(),
            students=tuple(people.students.values()),
            permissions=self._reading.permissions(),
            pauses=tuple(pauses_in(self._reading.breaks())),
            standing_times=self._reading.standing_times(),
            imported_times=self._reading.imported_times(),
        )
        if not isinstance(file, EventsReading):
            roster = read_roster(file) if isinstance(file, str) else file
            plan = plan_roster(roster, known, self._home, new_id, self._clock.now(), report)
            return self._of_roster(plan)
        events = file.of_others(self._reading.calendar_edition()[0])
        events = events.named({**self._reading.calendar_titles(), **names})
        events = events.as_kept({each.event_uid for each in known.imported_times})
        plan = plan_roster(events.roster, known, self._home, new_id, self._clock.now(), report)
        return self._of_calendar(events, plan, new_id)

    def _of_roster(self, plan: RosterPlan) -> Proposal:
        follows, stays = follow(self._reading, plan.reshaped, self._clock.now(), self._home)
        return Proposal(
            understood="\n".join(plan.lines),
            edits=(*plan.edits, *plan.imported, *follows),
            said="importing the roster",
            troubles=(*plan.shared, *plan.over, *stays, *plan.left_alone),
        )

    def _of_calendar(self, events: EventsReading, plan: RosterPlan, new_id: Callable[[], int]) -> Proposal:
        now, home = self._clock.now(), self._home
        newcomers = self._newcomers(events, plan.people, new_id)
        people = People(
            families={**plan.people.families, **{family.id: family for family, _ in newcomers}},
            students={**plan.people.students, **{student.id: student for _, student in newcomers}},
        )
        students = {name_key(student.name): student.id for student in people.students.values()}
        named = named_lessons(events, plan.standing_times)
        lessons = BroughtLessons(self._reading.lessons_between(now, now + EVER, named), now)
        for event in events.weekly:
            standing = plan.standing_times[event.row]
            family = people.families[people.students[standing.student_id].family_id]
            lessons.take_meetings(event, standing, standing.clock(home, family.zone))
        follows, stays = follow(self._reading, plan.reshaped, now, home, lessons.changed)
        for single in events.lessons:
            lessons.take_single(single, students[name_key(single.title)])
        singles_off = [event for event in events.called_off if isinstance(event, SingleLesson)]
        unknown = plan.unknown.union(single.uid for single in singles_off if not lessons.call_off(single))
        names = {student.id: student.name for student in people.students.values()}
        changed = (edit.after for edit in lessons.edits)
        of_lessons = (lesson_line(each, names, home) for each in changed if isinstance(each, Lesson))
        not_here = (
            [f"{counted(len(unknown), 'event')} canceled in the file and never added to the studio"] if unknown else []
        )
        apart = (apart_line(each, names, home) for each in lessons.apart)
        return Proposal(
            understood="\n".join((*plan.lines, *(new_family_line(family) for family, _ in newcomers), *of_lessons)),
            edits=(
                *plan.edits,
                *plan.imported,
                *(e for new in newcomers for e in added(*new)),
                *lessons.edits,
                *follows,
            ),
            said="importing a calendar",
            troubles=(*events.left_out, *plan.ended, *stays, *plan.still_going, *not_here, *apart),
            is_all=events.is_whole and not (plan.ended or plan.still_going or lessons.apart),
        )

    def _newcomers(
        self, events: EventsReading, people: People, new_id: Callable[[], int]
    ) -> list[tuple[Family, Student]]:
        """Those of whom the studio has nothing, and the file a lesson by itself."""
        known = {name_key(student.name) for student in people.students.values()}
        found = []
        for single in events.lessons:
            if name_key(single.title) not in known:
                known.add(name_key(single.title))
                zone = lesson_zone(self._home.zone, self._home.date_of(single.starts_at))
                family = Family(id=FamilyId(new_id()), name=single.title, zone=zone)
                found.append((family, Student(id=StudentId(new_id()), family_id=family.id, name=single.title)))
        return found
