"""What a roster changes in the studio: its rows against the families, students and standing times that are there."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import TypeVar

from cockpit.studio.changes.records import Change, Edit, Record
from cockpit.studio.clocks.moments import Zone, lesson_zone
from cockpit.studio.enrolling.enrolled_times import EnrolledTimes
from cockpit.studio.enrolling.roll import Known, Roll
from cockpit.studio.enrolling.roster_differences import described, differences
from cockpit.studio.enrolling.roster_homes import Homes, find_homes
from cockpit.studio.enrolling.roster_times import is_over
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.booking import People
from cockpit.studio.lessons.later_times import Reshaped
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.roster.columns import (
    OF_FAMILY,
    OF_STUDENT,
    Column,
    RosterFault,
    RosterReading,
    RosterRow,
    value_of,
    with_values,
)
from cockpit.studio.roster.roster import disagreements, repetitions

__all__ = ["Known", "RosterPlan", "plan_roster"]

Person = TypeVar("Person", Family, Student)


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterPlan:
    """The change that a roster makes, the same in readable lines, and what it leaves alone because it does not say.

    `ended` is of that what the file would let go on, and the studio has ended. `standing_times` are what the rows of the file became, and `reshaped` those whose lessons move; `notices` are what the
    file has that is not used. `remembered` is what the file said, to be kept with the change for the next reading.
    """

    change: Change
    remembered: tuple[Edit, ...]
    lines: tuple[str, ...]
    left_alone: tuple[str, ...]
    ended: tuple[str, ...]
    standing_times: Mapping[RosterRow, StandingTime]
    reshaped: tuple[Reshaped, ...]
    notices: tuple[str, ...] = ()


def plan_roster(
    reading: RosterReading,
    known: Known,
    home_zone: Zone,
    new_id: Callable[[], int],
    hours: int = 12,
    now: datetime | None = None,
) -> RosterPlan:
    """What a roster changes in the studio at a moment (UTC); nothing, when it has been read before.

    A new family without a zone gets that of `home_zone`. `new_id` is asked once for each new record. `hours` is the
    teacher's clock, 12 or 24, for the lines. A blank cell clears what the studio has, except a zone, whose clock a
    time is kept in, and from when until when it holds; a column that the file does not have leaves it alone. A
    standing time that has ended by `now` is history, and so are the lessons before it: one that gets another time is
    another one from then on. Without `now`, all of them are still to come.

    Raises:
        BadInput: the faults of the reading, or of its rows against the studio; one sentence a line.
    """
    _refuse(reading.faults)
    roll = Roll(known)
    homes = find_homes(reading.rows, roll)
    faults = [*disagreements(reading.rows, homes.family_of.__getitem__)]
    faults += repetitions(reading.rows, homes.family_of.__getitem__)
    _refuse(faults)
    times = EnrolledTimes(reading.columns, known.standing_times, home_zone, now, new_id)
    enrolling = _Enrolling(reading, roll, homes, new_id)
    enrolling.take_families(lesson_zone(home_zone, times.today))
    enrolling.take_students()
    enrolling.take_times(times)
    before, after = enrolling.people(known)
    edits = tuple(edit for edit in enrolling.edits if edit.before != edit.after)
    ended = tuple(f"ended in the studio, left so: {described(each, after, hours)}" for each in times.left_so)
    unsaid = (each for each in times.unsaid(known.standing_times) if not is_over(each, times.today))
    return RosterPlan(
        change=Change(said="bring the roster", edits=edits),
        remembered=times.remembered,
        lines=differences(edits, before, after, hours),
        left_alone=(*ended, *(f"not in the file, left as it is: {described(each, after, hours)}" for each in unsaid)),
        ended=ended,
        standing_times=times.meant,
        reshaped=tuple(times.reshaped),
        notices=reading.notices,
    )


def _refuse(faults: Iterable[RosterFault]) -> None:
    said = "\n".join(str(fault) for fault in faults)
    if said:
        raise BadInput(said)


def _people(families: Iterable[Family], students: Iterable[Student]) -> People:
    return People(
        families={family.id: family for family in families}, students={student.id: student for student in students}
    )


class _Enrolling:
    """Goes through the rows by family, then by student, and gathers what each record becomes.

    In this order, since a student refers to a family and a standing time to a student.
    """

    def __init__(self, reading: RosterReading, roll: Roll, homes: Homes, new_id: Callable[[], int]) -> None:
        self._roll = roll
        self._homes = homes
        self._new_id = new_id
        self._columns = reading.columns
        self._by_family: dict[str, list[RosterRow]] = {}
        self._by_student: dict[tuple[str, str], list[RosterRow]] = {}
        self.families: dict[str, Family] = {}
        self.students: dict[tuple[str, str], Student] = {}
        self.edits: list[Edit] = []
        for row in reading.rows:
            family, student = name_key(homes.family_of[row]), name_key(row.student)
            self._by_family.setdefault(family, []).append(row)
            self._by_student.setdefault((family, student), []).append(row)

    def people(self, known: Known) -> tuple[People, People]:
        """Everybody without what the rows change, and with it."""
        families, students = self.families.values(), self.students.values()
        after = _people((*known.families, *families), (*known.students, *students))
        return _people(known.families, known.students), after

    def take_families(self, home_zone: str) -> None:
        for key, rows in self._by_family.items():
            before = self._roll.families.get(key) or self._homes.renamed.get(key)
            known = before or Family(id=FamilyId(self._new_id()), name=self._homes.family_of[rows[0]], zone=home_zone)
            name = next((row.family for row in rows if row.family is not None), known.name)
            after = self._told(replace(known, name=name), OF_FAMILY, rows)
            self.families[key] = after
            self._edit(before, after)

    def take_students(self) -> None:
        for key, rows in self._by_student.items():
            family = self.families[key[0]]
            before = self._roll.students.get((family.id, key[1])) or self._homes.moved.get(key)
            known = before or Student(id=StudentId(self._new_id()), family_id=family.id, name=rows[0].student)
            known = replace(known, family_id=family.id, name=rows[0].student)
            after = self._told(known, OF_STUDENT, rows)
            self.students[key] = after
            self._edit(before, after)

    def take_times(self, times: EnrolledTimes) -> None:
        for key, rows in self._by_student.items():
            student = self.students[key]
            known = self._roll.times.get(student.id, ())
            times.take(rows, student, self.families[key[0]], known, self._roll.file_rows.get(student.id, ()))
        self.edits += times.edits

    def _told(self, known: Person, table: Iterable[Column], rows: Sequence[RosterRow]) -> Person:
        """A family or a student as the file has them."""
        told = {
            column.field: column.told((value_of(row, column) for row in rows), value_of(known, column), self._columns)
            for column in table
        }
        return with_values(known, told)

    def _edit(self, before: Record | None, after: Record) -> None:
        self.edits.append(Edit(before=before, after=after))
