"""The studio as a roster: a row for each weekly time with a lesson to come, which is read as the same again."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from datetime import date, time

from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTime, ends_before_it_begins
from cockpit.studio.people.people import Family, Guardian, Student, StudentId, name_key
from cockpit.studio.people.permissions import Permission, permissions_cell
from cockpit.studio.roster.columns import OF_PERMISSIONS, OF_SHARING, PAUSED_FROM, PAUSED_UNTIL, TABLE, Column, value_of
from cockpit.studio.roster.guardian_cells import cells_of
from cockpit.studio.roster.shared_cell import Companion, are_at_one_time, companions_cell
from cockpit.studio.values import Value


class WrittenRoster(Value):
    """The rows of a table, each a cell for every column, and a sentence about each student who is not in it."""

    rows: tuple[tuple[str, ...], ...]
    left_out: tuple[str, ...]


def written_roster(
    people: People,
    guardians: Iterable[Guardian],
    permissions: Iterable[Permission],
    pauses: Iterable[Pause],
    standing_times: Iterable[StandingTime],
    today: date,
) -> WrittenRoster:
    """What the studio has of its students on a date; in the order of families, students, and weekly times.

    A student without a weekly time has no row, and nor has one whose name or whose family's name two have: a table
    tells people apart by their names. Of the pauses of a student it has the one that lasts, or else the next.
    """
    known, allowed = tuple(guardians), tuple(permissions)
    paused: dict[StudentId, Pause] = {}
    for pause in sorted(pauses, key=lambda each: (each.from_on, each.id)):
        if pause.last_on >= today:
            paused.setdefault(pause.student_id, pause)
    lasting = (each for each in standing_times if each.until_on is None or each.until_on >= today)
    times = [each for each in lasting if not ends_before_it_begins(each)]
    homes = Counter(name_key(family.name) for family in people.families.values())
    names = Counter((student.family_id, name_key(student.name)) for student in people.students.values())
    alike = Counter(name_key(student.name) for student in people.students.values())
    in_table: list[tuple[Family, Student, StandingTime]] = []
    left_out: list[str] = []
    for student in sorted(people.students.values(), key=lambda each: (_home(each, people), each.id)):
        family = people.families[student.family_id]
        own = sorted((each for each in times if each.student_id == student.id), key=lambda each: each.id)
        is_twice = homes[name_key(family.name)] > 1 or names[family.id, name_key(student.name)] > 1
        if not own or is_twice:
            why = "another has the same name" if is_twice else "no weekly time"
            left_out.append(f"{student.name} (family {family.name}): {why}")
            continue
        in_table += [(family, student, each) for each in own]

    sharing = defaultdict[int | None, list[tuple[Family, Student, StandingTime]]](list)
    for each in in_table:
        sharing[each[2].shares].append(each)

    def row(family: Family, student: Student, standing: StandingTime) -> tuple[str, ...]:
        companions = (
            Companion(name=other.name, family=home.name if alike[name_key(other.name)] > 1 else None)
            for home, other, each in (sharing[standing.shares] if standing.shares is not None else ())
            if each.student_id != standing.student_id and are_at_one_time(each, standing)
        )
        pause = paused.get(student.id)
        cells = {
            PAUSED_FROM.name: pause.from_on.isoformat() if pause is not None else "",
            PAUSED_UNTIL.name: pause.until_on.isoformat() if pause is not None and pause.until_on is not None else "",
            **cells_of(each for each in known if each.family_id == family.id),
            OF_PERMISSIONS.name: permissions_cell(each.said for each in allowed if each.student_id == student.id),
            OF_SHARING.name: companions_cell(dict.fromkeys(companions)),
        }
        return tuple(_cell(column, (family, student, standing), cells) for column in TABLE)

    return WrittenRoster(rows=tuple(row(*each) for each in in_table), left_out=tuple(left_out))


def _home(student: Student, people: People) -> tuple[str, int]:
    return name_key(people.families[student.family_id].name), student.family_id


def _cell(column: Column, records: tuple[Family, Student, StandingTime], cells: Mapping[str, str]) -> str:
    family, student, _ = records
    if column.name in cells:
        return cells[column.name]
    if column.of is None:
        return family.name if column.field == "family" else student.name
    record = next(each for each in records if isinstance(each, column.of))
    value = value_of(record, column)
    if value is None:
        return ""
    return f"{value:%H:%M}" if isinstance(value, time) else column.said(value)
