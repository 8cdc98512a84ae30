"""What a roster changes, in lines for the teacher to read before she lets it."""

from collections.abc import Iterable, Iterator
from typing import TypeVar

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import clock_time, minutes_of
from cockpit.studio.lessons.booking import People
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime
from cockpit.studio.people.people import Family, Student
from cockpit.studio.roster.columns import OF_FAMILY, OF_STUDENT, OF_TIME, Column, value_of

Kept = TypeVar("Kept", Family, Student, StandingTime)


def differences(edits: Iterable[Edit], before: People, after: People, hours: int) -> tuple[str, ...]:
    """The edits of families, students and standing times as lines; times on a clock of 12 or 24 `hours`.

    `before` and `after` are the studio's people without and with the edits.
    """
    lines: list[str] = []
    for edit in edits:
        match edit:
            case Edit(before=Family() | None as old, after=Family() as new):
                lines += _family(old, new)
            case Edit(before=Student() | None as old, after=Student() as new):
                lines += _student(old, new, before, after)
            case Edit(before=StandingTime() | None as old, after=StandingTime() as new):
                lines += _standing(old, new, after, hours)
            case Edit():
                pass  # a roster neither removes anything nor touches other records
    return tuple(lines)


def described(standing: StandingTime, people: People, hours: int) -> str:
    """A standing time in one line: `Ilse, Tuesday 4:00 pm, 45 minutes, cello (family Brandvold)`."""
    student = people.students[standing.student_id]
    parts = [
        student.name,
        f"{WEEKDAYS[standing.weekday]} {clock_time(standing.at, hours)}",
        minutes_of(standing.minutes),
        *([standing.instrument] if standing.instrument else []),
        *(["every second week"] if standing.every_weeks == 2 else []),
        *(["on the family's clock"] if standing.kept_in is KeptIn.FAMILY else []),
        *([f"from {standing.from_on}"] if standing.from_on else []),
        *([f"until {standing.until_on}"] if standing.until_on else []),
        *([standing.call_link] if standing.call_link else []),
    ]
    return f"{', '.join(parts)} (family {people.families[student.family_id].name})"


def _family(old: Family | None, new: Family) -> list[str]:
    lines = []
    if old is None:
        lines.append(f"new family: {new.name} ({new.zone})")
    elif old.name != new.name:
        lines.append(f"name of the family {old.name} -> {new.name}")
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(OF_FAMILY, old, new, 24)]


def _student(old: Student | None, new: Student, before: People, after: People) -> list[str]:
    lines = []
    if old is not None and old.name != new.name:
        lines.append(f"name of {old.name} -> {new.name}")
    if old is not None and old.family_id != new.family_id:
        homes = before.families[old.family_id].name, after.families[new.family_id].name
        lines.append(f"family of {new.name}: {homes[0]} -> {homes[1]}")
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(OF_STUDENT, old, new, 24)]


def _standing(old: StandingTime | None, new: StandingTime, people: People, hours: int) -> list[str]:
    if old is None:
        return [f"new: {described(new, people, hours)}"]
    changes = ", ".join(f"{label} {change}" for label, change in _changes(OF_TIME, old, new, hours))
    return [f"changed: {people.students[new.student_id].name}, {WEEKDAYS[old.weekday]}: {changes}"]


def _changes(table: Iterable[Column], old: Kept | None, new: Kept, hours: int) -> Iterator[tuple[str, str]]:
    """What differs, by the label of its column. Of somebody new, what a column keeps where it is blank was never given."""
    for column in table:
        after = value_of(new, column)
        before = value_of(old, column) if old is not None else after if column.keeps else None
        if before != after:
            yield column.label, f"{_shown(column, before, hours)} -> {_shown(column, after, hours)}"


def _shown(column: Column, value: object, hours: int) -> str:
    return "-" if value is None else " ".join(column.said(value, hours).split())
