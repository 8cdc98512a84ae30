"""The studio as a roster: a row for each weekly time with a lesson to come, which is read as the same again."""

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, time

from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTime, ends_before_it_begins
from cockpit.studio.people.people import Family, Guardian, Student, name_key
from cockpit.studio.people.permissions import Permission, permissions_cell
from cockpit.studio.roster.columns import OF_PERMISSIONS, TABLE, Column, value_of
from cockpit.studio.roster.guardian_cells import cells_of


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenRoster:
    """The rows of a table, each a cell for every column, and a sentence about each student who is not in it."""

    rows: tuple[tuple[str, ...], ...]
    left_out: tuple[str, ...]


def written_roster(
    people: People,
    guardians: Iterable[Guardian],
    permissions: Iterable[Permission],
    standing_times: Iterable[StandingTime],
    today: date,
) -> WrittenRoster:
    """What the studio has of its students on a date; in the order of families, students, and weekly times.

    A student without a weekly time has no row, and nor has one whose name or whose family's name two have: a table
    tells people apart by their names.
    """
    known, allowed = tuple(guardians), tuple(permissions)
    lasting = (each for each in standing_times if each.until_on is None or each.until_on >= today)
    times = [each for each in lasting if not ends_before_it_begins(each)]
    homes = Counter(name_key(family.name) for family in people.families.values())
    names = Counter((student.family_id, name_key(student.name)) for student in people.students.values())
    rows: list[tuple[str, ...]] = []
    left_out: list[str] = []
    for student in sorted(people.students.values(), key=lambda each: (_home(each, people), each.id)):
        family = people.families[student.family_id]
        own = sorted((each for each in times if each.student_id == student.id), key=lambda each: each.id)
        is_twice = homes[name_key(family.name)] > 1 or names[family.id, name_key(student.name)] > 1
        if not own or is_twice:
            why = "another has the same name" if is_twice else "no weekly time"
            left_out.append(f"{student.name} (family {family.name}): {why}")
            continue
        shown = permissions_cell(each.said for each in allowed if each.student_id == student.id)
        cells = {
            **cells_of(each for each in known if each.family_id == family.id),
            OF_PERMISSIONS.name: shown,
        }
        rows += [tuple(_cell(column, (family, student, each), cells) for column in TABLE) for each in own]
    return WrittenRoster(rows=tuple(rows), left_out=tuple(left_out))


def _home(student: Student, people: People) -> tuple[str, int]:
    return name_key(people.families[student.family_id].name), student.family_id


def _cell(column: Column, records: tuple[Family, Student, StandingTime], cells: Mapping[str, str]) -> str:
    family, student, _ = records
    if column.of is None:
        return family.name if column.field == "family" else student.name
    if column.name in cells:
        return cells[column.name]
    record = next(each for each in records if isinstance(each, column.of))
    value = value_of(record, column)
    if value is None:
        return ""
    return f"{value:%H:%M}" if isinstance(value, time) else column.said(value)
