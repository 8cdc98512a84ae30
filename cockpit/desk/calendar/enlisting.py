"""Students who come: somebody new with a weekly time, a sibling, and a trial student who stays."""

from datetime import date, datetime, time, timedelta

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import Whose, addresses_for, refuse_taken
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import grouped
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.horizons import A_YEAR
from cockpit.studio.clocks.moments import WEEKDAYS, lesson_clock, lesson_zone, local_time, moment, zone_on
from cockpit.studio.clocks.moves import agreed, zones_of
from cockpit.studio.clocks.words import city, clock_time, counted, listed, long_date, minutes_of
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.inquiries.inquiry import same_address
from cockpit.studio.lessons.breaks import without_breaks
from cockpit.studio.lessons.scheduled import Enrollment, People, ScheduledLesson, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import (
    Family,
    FamilyId,
    Guardian,
    GuardianId,
    Student,
    StudentId,
    name_key,
    next_position,
)
from cockpit.studio.typed_times.student_line import StudentLine, read_becomes, read_student
from cockpit.studio.typed_times.when import When
from cockpit.studio.values import Value, replace
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)
_NOON = time(12)
_FAMILY, _STUDENT, _TIME, _GUARDIANS = range(4)  # places of the numbers for new records; guardians come last


class _Enlisted(Value):
    """Who is to be: a student in a family, each with the record before it where that is there."""

    student: Student
    family: Family
    family_before: Family | None
    student_before: Student | None = None


class Enlisting:
    """Proposes that somebody becomes a student."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines

    def propose(self, whose: Whose | None, line: str) -> Proposal:
        """A line about a new student. Of somebody who never had a weekly time it is about that student, who stays.

        Raises:
            BadInput: a part of the line is not understood, or a name is there already.
        """
        if whose is None or not self._is_tried(whose.student):
            return self._new(line)
        try:
            return self._becomes(whose, line)
        except BadInput as fault:
            try:
                return self._new(line)
            except BadInput:
                raise fault from None

    def _is_tried(self, student: Student) -> bool:
        """Whether a student has never had a weekly time."""
        return all(each.student_id != student.id for each in self._reading.standing_times())

    def _usual(self) -> datetime:
        home = self._lines.preferences.home
        return moment(datetime.combine(self._lines.today(), _NOON), home.zone)

    def _new(self, line: str) -> Proposal:
        people = self._reading.people()
        reference, _ = self._lines.reference(self._lines.today())
        said = read_student(line, self._lines.names(), reference, self._usual())
        family, before = self._family(said, people)
        refuse_taken(said.name, family, people)
        student = Student(id=StudentId(self._lines.id_number(_STUDENT)), family_id=family.id, name=said.name)
        proposal = self._proposal(said, _Enlisted(student=student, family=family, family_before=before), people)
        return replace(proposal, troubles=(*_of_that_name(said, people), *proposal.troubles))

    def _becomes(self, whose: Whose, line: str) -> Proposal:
        people = self._reading.people()
        reference, _ = self._lines.reference(self._lines.today())
        said = read_becomes(line, self._lines.names(), reference, self._usual())
        if said.sibling is not None:
            raise BadInput(f"{whose.student.name} has a family already. Take out the sibling.")
        before = whose.family
        family = replace(
            before,
            name=said.family or before.name,
            zone=agreed(before.zone, self._zone(said) or before.zone),
        )
        first, *last = whose.student.name.split()
        # A trial calls a student by both names; papers have the first alone.
        student = replace(whose.student, name=first if last and " ".join(last) == family.name else whose.student.name)
        enlisted = _Enlisted(student=student, family=family, family_before=before, student_before=whose.student)
        return self._proposal(said, enlisted, people)

    def _family(self, said: StudentLine, people: People) -> tuple[Family, Family | None]:
        """The family of a new student, and as it is now, if it is there already."""
        name = said.family or said.last_name or said.name
        known = next((each for each in people.families.values() if name_key(each.name) == name_key(name)), None)
        if said.sibling is not None:
            known = people.families[said.sibling.family_id]
        elif known is not None and said.family is None and said.last_name is None:
            known = None  # a first name alone is no family's
        zone = self._zone(said)
        if known is None:
            own = zone or lesson_zone(self._lines.preferences.home.zone, self._lines.today())
            family_id = FamilyId(self._lines.id_number(_FAMILY))
            return Family(id=family_id, name=name, zone=own), None
        if zone is not None and zone not in zones_of(known.zone):
            lives_in = zone_on(known.zone, self._lines.today())
            raise BadInput(f"The {known.name} family lives in {city(lives_in)}, not in {city(zone)}.")
        return known, known

    def _zone(self, said: StudentLine) -> str | None:
        when = said.weekly.when if said.weekly is not None else None
        in_time = when.zone if when is not None and when.is_away else None
        if said.zone is not None and in_time is not None and said.zone != in_time:
            raise BadInput(f"The line has two places: {city(said.zone)} and {city(in_time)}. Keep one.")
        return said.zone or in_time

    def _proposal(self, said: StudentLine, new: _Enlisted, people: People) -> Proposal:
        student, family = new.student, new.family
        edits: list[Edit] = []
        if new.family_before != family:
            edits.append(Edit(before=new.family_before, after=family))
        if new.student_before != student:
            edits.append(Edit(before=new.student_before, after=student))
        edits += self._guardians(said, student, family)
        facts = ["an adult"] if said.is_adult else []
        facts += [f"family {family.name} ({city(zone_on(family.zone, self._lines.today()))})"]
        facts += [said.instrument] if said.instrument else []
        troubles = self._shared_address(said, family, people)
        lesson = None
        if said.weekly is not None and said.weekly.when is not None:
            standing = self._standing(said, said.weekly.when, student, family)
            edits += added(standing)
            enrollment = Enrollment(standing=standing, student=student, family=family)
            lesson, told, more = self._lessons(enrollment, said.weekly.when)
            facts += told
            troubles += more
        else:
            facts.append("no weekly time yet")
        addresses = [*addresses_for(self._reading, family.id), *said.emails]
        told = [each for nth, each in enumerate(addresses) if not any(same_address(each, a) for a in addresses[:nth])]
        facts.append(f"notes to {listed(told)}" if told else "no email address yet")
        who = (
            f"New: {student.name}"
            if new.student_before is None
            else f"{student.name} becomes a student, with the trial's notes"
        )
        is_named_so = (
            said.family is None and said.last_name is None and said.sibling is None and new.student_before is None
        )
        name_it = f' Type "family" and a name to call the family otherwise than {family.name}.' if is_named_so else ""
        return Proposal(
            understood=f"{who}, {', '.join(facts)}.{name_it}",
            edits=tuple(edits),
            said=f"adding {student.name}",
            troubles=tuple(troubles),
            lesson=lesson,
        )

    def _guardians(self, said: StudentLine, student: Student, family: Family) -> tuple[Edit, ...]:
        """A guardian of the family for each address that none has so far; it gets all that goes out. An adult is the first of them."""
        known = self._reading.of_family(Guardian, family.id)
        place = next_position(known)
        new = [address for address in said.emails if not any(same_address(address, each.email) for each in known)]
        own_name = " ".join(filter(None, [student.name, said.last_name])) if said.is_adult else None
        return added(
            *(
                Guardian(
                    id=GuardianId(self._lines.id_number(_GUARDIANS + nth)),
                    family_id=family.id,
                    name=None if nth else own_name,
                    email=address,
                    position=place + nth,
                )
                for nth, address in enumerate(dict.fromkeys(new) or ([None] if own_name else []))
            )
        )

    def _standing(self, said: StudentLine, when: When, student: Student, family: Family) -> StandingTime:
        """The weekly time, on the family's clock where the line says the time there, else on the teacher's."""
        home = self._lines.preferences.home
        kept_in = KeptIn.FAMILY if when.is_away else KeptIn.TEACHER
        on = home.date_of(when.starts_at)
        at = local_time(
            when.starts_at, lesson_clock(family.zone) if when.is_away else lesson_zone(home.lesson_clock, on)
        )
        weekly = said.weekly
        return StandingTime(
            id=StandingTimeId(self._lines.id_number(_TIME)),
            student_id=student.id,
            weekday=at.weekday(),
            at=at.time(),
            minutes=said.minutes,
            kept_in=kept_in,
            instrument=said.instrument,
            from_on=at.date(),
            until_on=weekly.until_on if weekly is not None else None,
            every_weeks=(weekly.every if weekly is not None else None) or 1,
        )

    def _lessons(self, new: Enrollment, when: When) -> tuple[ScheduledLesson | None, list[str], list[str]]:
        """The first lesson, the weekly time in words, and what is to be known of it in the year to come."""
        home, now = self._lines.preferences.home, self._lines.now()
        meetings = planned([new], home, when.starts_at - _DAY, when.starts_at + A_YEAR)
        if not meetings:
            raise Refused("There is no lesson at that time within a year.")
        kept, _ = without_breaks(meetings, self._reading.breaks(), home)
        standing, first = new.standing, home.date_of(when.starts_at)
        clock = "on the family's clock" if standing.kept_in is KeptIn.FAMILY else "on your clock"
        other = (
            home.there(when.starts_at, new.family.zone)
            if standing.kept_in is KeptIn.TEACHER
            else f"{home.time(when.starts_at)} yours"
        )
        weekday = WEEKDAYS[standing.weekday]
        often = "every other " if standing.every_weeks > 1 else ""
        told = [
            f"{often}{weekday} {clock_time(datetime.combine(date.min, standing.at), home.hours)} {clock}",
            minutes_of(standing.minutes),
            f"from {long_date(first)}" + (f" ({other})" if other else ""),
            *([f"through {long_date(standing.until_on)}"] if standing.until_on is not None else []),
        ]
        to_come = [each for each in kept if each.lesson.planned_end > now]
        past = len(kept) - len(to_come)
        over = f"{counted(past, 'lesson')} {'is' if past == 1 else 'are'} over already and will be there, not marked."
        found = grouped(self._ahead.troubles_of(to_come))
        troubles = [over] if past else []
        troubles += [group_sentence(group, home, home.date_of(now)) for group in found]
        troubles += self._lines.of_pauses(found, to_come, new.student)
        return meetings[0], told, troubles

    def _shared_address(self, said: StudentLine, family: Family, people: People) -> list[str]:
        """A sentence for each address that another family has, too."""
        guardians = self._reading.guardians()
        return [
            f"{address} is an address of the {other.name} family, too."
            for address in said.emails
            for other in people.families.values()
            if other.id != family.id
            and any(each.family_id == other.id and same_address(address, each.email) for each in guardians)
        ]


def _of_that_name(said: StudentLine, people: People) -> list[str]:
    """A sentence on each student who is called by both names of a new one, as somebody who came for a trial is."""
    whole = name_key(f"{said.name} {said.family or said.last_name or ''}")
    return [
        f"{each.name} is in your studio already. For the same student, choose {each.name} in the roster and press n there."
        for each in people.students.values()
        if name_key(each.name) == whole != name_key(said.name)
    ]
