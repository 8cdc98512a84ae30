"""What a roster changes, in lines for the teacher to read before she lets it."""

from collections.abc import Iterable

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import clock_time, minutes_of
from cockpit.studio.lessons.booking import People
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime
from cockpit.studio.people.people import Family, Student
from cockpit.studio.roster.practice_days import practice_days_words

Field = tuple[str, object, object]


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
    fields: list[Field] = [
        ("email", old and old.email, new.email),
        ("zone", old.zone if old else new.zone, new.zone),
        ("clock", old and old.hours, new.hours),
        ("send by", old and old.send_by, new.send_by),
        ("language", old and old.language, new.language),
    ]
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(fields)]


def _student(old: Student | None, new: Student, before: People, after: People) -> list[str]:
    lines = []
    if old is not None and old.name != new.name:
        lines.append(f"name of {old.name} -> {new.name}")
    if old is not None and old.family_id != new.family_id:
        homes = before.families[old.family_id].name, after.families[new.family_id].name
        lines.append(f"family of {new.name}: {homes[0]} -> {homes[1]}")
    fields: list[Field] = [
        ("daily minutes", old and old.daily_minutes, new.daily_minutes),
        ("practice days", old and _days(old), _days(new)),
        ("remark", old and old.remark, new.remark),
    ]
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(fields)]


def _days(student: Student) -> str | None:
    return practice_days_words(student.practice_days) if student.practice_days is not None else None


def _standing(old: StandingTime | None, new: StandingTime, people: People, hours: int) -> list[str]:
    if old is None:
        return [f"new: {described(new, people, hours)}"]
    fields: list[Field] = [
        ("weekday", WEEKDAYS[old.weekday], WEEKDAYS[new.weekday]),
        ("time", clock_time(old.at, hours), clock_time(new.at, hours)),
        ("minutes", old.minutes, new.minutes),
        ("instrument", old.instrument, new.instrument),
        ("kept in", old.kept_in, new.kept_in),
        ("from", old.from_on, new.from_on),
        ("until", old.until_on, new.until_on),
        ("call link", old.call_link, new.call_link),
        ("every weeks", old.every_weeks, new.every_weeks),
    ]
    changes = ", ".join(f"{label} {change}" for label, change in _changes(fields))
    return [f"changed: {people.students[new.student_id].name}, {WEEKDAYS[old.weekday]}: {changes}"]


def _changes(fields: Iterable[Field]) -> list[tuple[str, str]]:
    return [(label, f"{_shown(old)} -> {_shown(new)}") for label, old, new in fields if old != new]


def _shown(value: object) -> str:
    return "-" if value is None else " ".join(str(value).split())
