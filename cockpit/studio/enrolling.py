"""What a roster changes in the studio: its rows against the families, students and standing times that are there."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeVar

from cockpit.studio.booking import People
from cockpit.studio.calendar import StandingTime, StandingTimeId
from cockpit.studio.errors import BadInput
from cockpit.studio.event_times import match_events, new_number
from cockpit.studio.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.records import Change, Edit, Record
from cockpit.studio.roll import Known, Roll
from cockpit.studio.roster_agreement import disagreements, repetitions
from cockpit.studio.roster_differences import described, differences
from cockpit.studio.roster_homes import Homes, find_homes
from cockpit.studio.roster_rows import RosterFault, RosterReading, RosterRow
from cockpit.studio.roster_times import match_times

__all__ = ["Known", "RosterPlan", "plan_roster"]

Value = TypeVar("Value")


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterPlan:
    """The change that a roster makes, the same in readable lines, and what it leaves alone because it does not say.

    `standing_times` are what the rows of the file became; `notices` are what the file has that is not used.
    """

    change: Change
    lines: tuple[str, ...]
    left_alone: tuple[str, ...]
    standing_times: Mapping[RosterRow, StandingTime]
    notices: tuple[str, ...] = ()


def plan_roster(
    reading: RosterReading, known: Known, home_zone: str, new_id: Callable[[], int], hours: int = 12
) -> RosterPlan:
    """What a roster changes in the studio; nothing, when it has been read before.

    A new family without a zone gets `home_zone` (IANA). `new_id` is asked once for each new record. `hours` is the
    teacher's clock, 12 or 24, for the lines. A blank cell clears what the studio has, except a zone and whose clock a
    time is kept in; a column that the file does not have leaves it alone.

    Raises:
        BadInput: the faults of the reading, or of its rows against the studio; one sentence a line.
    """
    _refuse(reading.faults)
    roll = Roll(known)
    homes = find_homes(reading.rows, roll)
    faults = [*disagreements(reading.rows, homes.family_of.__getitem__)]
    faults += repetitions(reading.rows, homes.family_of.__getitem__)
    _refuse(faults)
    enrolling = _Enrolling(reading, roll, homes, new_id)
    enrolling.take_families(home_zone)
    enrolling.take_students()
    enrolling.take_times()
    return replace(_plan(enrolling, known, hours), notices=reading.notices)


def _refuse(faults: Iterable[RosterFault]) -> None:
    said = "\n".join(str(fault) for fault in faults)
    if said:
        raise BadInput(said)


def _plan(enrolling: "_Enrolling", known: Known, hours: int) -> RosterPlan:
    edits = tuple(edit for edit in enrolling.edits if edit.before != edit.after)
    before = _people(known.families, known.students)
    families, students = enrolling.families.values(), enrolling.students.values()
    after = _people((*known.families, *families), (*known.students, *students))
    named = {edit.after.id for edit in enrolling.edits if isinstance(edit.after, StandingTime)}
    left = (standing for standing in known.standing_times if standing.id not in named)
    return RosterPlan(
        change=Change(said="bring the roster", edits=edits),
        lines=differences(edits, before, after, hours),
        left_alone=tuple(f"not in the file, left as it is: {described(standing, after, hours)}" for standing in left),
        standing_times=enrolling.standing_times,
    )


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
        self._numbers = {standing.id for standings in roll.times.values() for standing in standings}
        self.families: dict[str, Family] = {}
        self.students: dict[tuple[str, str], Student] = {}
        self.standing_times: dict[RosterRow, StandingTime] = {}
        self.edits: list[Edit] = []
        for row in reading.rows:
            family, student = name_key(homes.family_of[row]), name_key(row.student)
            self._by_family.setdefault(family, []).append(row)
            self._by_student.setdefault((family, student), []).append(row)

    def take_families(self, home_zone: str) -> None:
        for key, rows in self._by_family.items():
            before = self._roll.families.get(key) or self._homes.renamed.get(key)
            known = before or Family(id=FamilyId(self._new_id()), name=self._homes.family_of[rows[0]], zone=home_zone)
            after = replace(
                known,
                name=_first(row.family for row in rows) or known.name,
                email=self._told("email", _first(row.email for row in rows), known.email),
                zone=_first(row.zone for row in rows) or known.zone,
                hours=self._told("clock", _first(row.hours for row in rows), known.hours),
                send_by=self._told("send_by", _first(row.send_by for row in rows), known.send_by),
                language=self._told("language", _first(row.language for row in rows), known.language),
            )
            self.families[key] = after
            self._edit(before, after)

    def take_students(self) -> None:
        for key, rows in self._by_student.items():
            family = self.families[key[0]]
            before = self._roll.students.get((family.id, key[1])) or self._homes.moved.get(key)
            known = before or Student(id=StudentId(self._new_id()), family_id=family.id, name=rows[0].student)
            after = replace(
                known,
                family_id=family.id,
                name=rows[0].student,
                daily_minutes=self._told(
                    "daily_minutes", _first(row.daily_minutes for row in rows), known.daily_minutes
                ),
                practice_days=self._told(
                    "practice_days", _first(row.practice_days for row in rows), known.practice_days
                ),
                remark=self._told("remark", _first(row.remark for row in rows), known.remark),
            )
            self.students[key] = after
            self._edit(before, after)

    def take_times(self) -> None:
        for key, rows in self._by_student.items():
            student = self.students[key]
            matches = self._matches(rows, self._roll.times.get(student.id, ()))
            for row, before in zip(rows, matches, strict=True):
                self.standing_times[row] = after = self._standing(row, before, student.id)
                self._edit(before, after)

    def _matches(self, rows: Sequence[RosterRow], known: Sequence[StandingTime]) -> tuple[StandingTime | None, ...]:
        if any(row.event_uid is not None for row in rows):
            return match_events(rows, known, self._columns)
        return match_times(rows, known, self._columns)

    def _number(self, row: RosterRow) -> StandingTimeId:
        if row.event_uid is None:
            return StandingTimeId(self._new_id())
        number = new_number(row.event_uid, self._numbers)
        self._numbers.add(number)
        return number

    def _standing(self, row: RosterRow, before: StandingTime | None, student_id: StudentId) -> StandingTime:
        known = before or StandingTime(
            id=self._number(row),
            student_id=student_id,
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
        )
        return replace(
            known,
            weekday=row.weekday,
            at=row.at,
            minutes=row.minutes,
            kept_in=row.kept_in or known.kept_in,
            instrument=self._told("instrument", row.instrument, known.instrument),
            from_on=self._told("from", row.from_on, known.from_on),
            until_on=self._told("until", row.until_on, known.until_on),
            call_link=self._told("call_link", row.call_link, known.call_link),
            every_weeks=self._told("every_weeks", row.every_weeks, known.every_weeks) or 1,
        )

    def _told(self, column: str, value: Value | None, known: Value | None) -> Value | None:
        """What the file says: its value, or nothing where its cell is blank, or what is known without the column."""
        return value if value is not None or column in self._columns else known

    def _edit(self, before: Record | None, after: Record) -> None:
        self.edits.append(Edit(before=before, after=after))


def _first(values: Iterable[Value | None]) -> Value | None:
    return next((value for value in values if value is not None), None)
