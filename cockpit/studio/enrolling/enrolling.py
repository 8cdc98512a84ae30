"""What a file changes in the studio: its rows against the families, students and weekly times that are there."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime
from typing import TypeVar

from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.moments import WEEKDAYS, lesson_zone
from cockpit.studio.clocks.moves import clock_text
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import clock_time, minutes_of
from cockpit.studio.enrolling.matching import is_over
from cockpit.studio.enrolling.merging import Merging
from cockpit.studio.enrolling.people import Enrolled, Known, Roll, find_homes
from cockpit.studio.enrolling.sharing import shared_rows, with_shares
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.later_times import Clocks, Reshaped
from cockpit.studio.lessons.lineage import made_another
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, ends_before_it_begins
from cockpit.studio.people.people import Family, FamilyId, Gets, Guardian, Student, name_key
from cockpit.studio.people.permissions import Permission, said_words
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.roster.columns import (
    OF_FAMILY,
    OF_STUDENT,
    OF_TIME,
    Column,
    RosterFault,
    RosterReading,
    RosterRow,
    value_of,
)
from cockpit.studio.roster.guardian_cells import gets_words
from cockpit.studio.roster.roster import disagreements, repetitions
from cockpit.studio.values import Value, replace

__all__ = ["Known", "RosterPlan", "plan_roster"]

Kept = TypeVar("Kept", Family, Student, StandingTime)
_BEFORE_ALL = datetime(1, 1, 3, tzinfo=UTC)


class RosterPlan(Value):
    """What a file changes, the same in readable lines, and what it leaves alone.

    `edits` come in the order in which records refer to each other; `imported` is what the file said, to be kept after
    them for the next reading. Of what is left alone, `ended`
    is what the file would let go on, and the studio has ended, and `still_going` what a canceled event does not end; of
    the events in `unknown`, which are canceled too, the studio has nothing. `over` is what is new and has ended already. `standing_times` are what the rows became,
    `reshaped` those whose lessons move, and `people` everybody as they will be; `notices` are what is not used;
    `shared` are addresses that become those of a second family's guardian.
    """

    edits: tuple[Edit, ...]
    imported: tuple[Edit, ...]
    lines: tuple[str, ...]
    left_alone: tuple[str, ...]
    ended: tuple[str, ...]
    still_going: tuple[str, ...]
    unknown: frozenset[str]
    over: tuple[str, ...]
    standing_times: Mapping[RosterRow, StandingTime]
    reshaped: tuple[Reshaped, ...]
    people: People
    shared: tuple[str, ...] = ()
    notices: tuple[str, ...] = ()


def plan_roster(
    reading: RosterReading,
    known: Known,
    home: TeacherClock,
    new_id: Callable[[], int],
    now: datetime | None = None,
    report: Report = unheard,
) -> RosterPlan:
    """What a roster, or a calendar as one, changes in the studio at a moment (UTC); nothing, when it has been read before.

    A new family without a zone gets that of `home`. `new_id` is asked once for each new record. A blank cell clears
    what the studio has, except a zone, whose clock a time is kept in, and from when until when it holds; a column that
    the file does not have leaves it alone. A weekly time that has ended by `now` is history, and so are the lessons
    before it: one that gets another time is another one from then on. Without `now`, all of them are still to come. `report` counts the students.

    Raises:
        BadInput: the faults of the reading, or of its rows against the studio; one sentence a line.
    """
    _refuse(reading.faults)
    roll = Roll(known)
    homes = find_homes(reading.rows, roll)
    family_of = homes.family_of.__getitem__
    pairs, nobody = shared_rows(reading.rows, family_of)
    _refuse([*disagreements(reading.rows, family_of), *repetitions(reading.rows, family_of), *nobody])
    clocks = Clocks(home=home, family_zone="UTC", now=_BEFORE_ALL if now is None else now)
    enrolled = Enrolled(reading, roll, homes, new_id)
    enrolled.take_families(lesson_zone(home.zone, clocks.today))
    _refuse(enrolled.take_guardians(known))
    _refuse(enrolled.take_students(known, clocks.today))
    before, after = enrolled.people(known)
    times: list[Merging] = []
    for student in in_steps((*enrolled.rows_of, *_others(reading, roll, enrolled)), report):
        family = after.families[student.family_id]
        own = roll.times.get(student.id, ()), roll.imported_times.get(student.id, ())
        at_home = replace(clocks, family_zone=family.zone)
        times.append(Merging((student, family), *own, at_home, new_id, all_to_come=now is None))
        times[-1].take(reading, enrolled.rows_of.get(student, ()))
    meant = {row: standing for each in times for row, standing in each.meant.items()}
    of_times = with_shares(pairs, meant, (edit for each in times for edit in (*each.added, *each.edits)))
    edits = tuple(edit for edit in (*enrolled.edits, *of_times) if edit.before != edit.after)
    left = [standing for each in times for standing in each.left_ended]
    ended = tuple(f"ended in the studio, not brought back: {described(each, after, home.hours)}" for each in left)
    named = {standing.id for standing in (*meant.values(), *left)} | made_another(known.standing_times)
    named |= {edit.before.id for edit in of_times if isinstance(edit.before, StandingTime)}
    unsaid = (each for each in known.standing_times if each.id not in named and _is_to_come(each, clocks.today))
    new = (e.after for e in of_times if e.before is None and isinstance(e.after, StandingTime))
    over = tuple(each for each in new if is_over(each, clocks.today))
    going = (standing for each in times for standing in each.left_going)
    return RosterPlan(
        edits=edits,
        imported=tuple(edit for each in times for edit in each.imported),
        lines=differences(edits, before, after, home.hours),
        left_alone=(*ended, *(f"not in the file, kept: {described(each, after, home.hours)}" for each in unsaid)),
        ended=ended,
        still_going=tuple(
            f"canceled in the file, kept in the studio: {described(each, after, home.hours)}" for each in going
        ),
        over=tuple(f"ended already, no lessons to come: {described(each, after, home.hours)}" for each in over),
        unknown=reading.uids_called_off.difference(*(each.called_off for each in times)),
        standing_times=meant,
        reshaped=tuple(reshaped for each in times for reshaped in each.reshaped),
        people=after,
        shared=tuple(_shared(edits, known.guardians, after)),
        notices=reading.notices,
    )


def _is_to_come(standing: StandingTime, today: date) -> bool:
    return not is_over(standing, today) and not ends_before_it_begins(standing)


def _others(reading: RosterReading, roll: Roll, enrolled: Enrolled) -> Iterator[Student]:
    """The students without a row in a file of whom one of its events spoke, or speaks as canceled."""
    with_rows = {student.id for student in enrolled.rows_of}
    called_off = {name_key(row.student) for row in reading.called_off}
    for student in roll.students.values():
        of_events = any(each.event_uid in reading.event_uids for each in roll.imported_times.get(student.id, ()))
        if student.id not in with_rows and (of_events or name_key(student.name) in called_off):
            yield student


def _shared(edits: Sequence[Edit], known: Sequence[Guardian], people: People) -> Iterator[str]:
    """A sentence about each address that a family gets and another has: a grandparent's may be, a slip may not."""
    changed = [edit for edit in edits if isinstance(edit.before or edit.after, Guardian)]
    gone = {edit.before for edit in changed}
    now = [edit.after for edit in changed if isinstance(edit.after, Guardian)]
    had = {(each.family_id, each.email) for each in known}
    homes: defaultdict[str, set[FamilyId]] = defaultdict(set)
    for each in (*now, *(each for each in known if each not in gone)):
        homes[name_key(each.email or "")].add(each.family_id)
    for each in now:
        others = sorted(people.families[home].name for home in homes[name_key(each.email or "")] - {each.family_id})
        if each.email and others and (each.family_id, each.email) not in had:
            yield f"{each.email} of {people.families[each.family_id].name} is an address of {' and '.join(others)} too"


def _refuse(faults: Iterable[RosterFault]) -> None:
    said = "\n".join(str(fault) for fault in faults)
    if said:
        raise BadInput(said)


def differences(edits: Iterable[Edit], before: People, after: People, hours: int) -> tuple[str, ...]:
    """The edits of families, students and weekly times as lines; times on a clock of 12 or 24 `hours`.

    `before` and `after` are the studio's people without and with the edits.
    """
    lines: list[str] = []
    for edit in edits:
        match edit:
            case Edit(before=Family() | None as old, after=Family() as new):
                lines += _family(old, new)
            case Edit(before=Guardian() | None as old, after=Guardian() as new):
                lines.append(_guardian(old, new, after))
            case Edit(before=Guardian() | Permission() as old, after=None):
                lines.append(_gone(old, after))
            case Edit(before=Student() | None as old, after=Student() as new):
                lines += _student(old, new, before, after)
            case Edit(before=Permission() | Pause() | None as old, after=(Permission() | Pause()) as new):
                lines.append(_said_of(old, new, after.students[new.student_id].name))
            case Edit(before=StandingTime() | None as old, after=StandingTime() as new):
                lines += _standing(old, new, after, hours)
            case _:
                pass  # a roster removes nothing else, and touches no other records
    return tuple(lines)


def _said_of(old: Permission | Pause | None, new: Permission | Pause, name: str) -> str:
    if isinstance(new, Permission):
        return f"{name} {said_words(new.said)}"
    days = f"{_days(old)} -> " if isinstance(old, Pause) else ""
    return f"pause of {name}: {days}{_days(new)}"


def _days(pause: Pause) -> str:
    return f"from {pause.from_on} on" if pause.until_on is None else f"{pause.from_on} through {pause.until_on}"


def described(standing: StandingTime, people: People, hours: int) -> str:
    """A weekly time in one line: `Ilse, Tuesday 4:00 pm, 45 minutes, cello (family Brandvold)`."""
    student = people.students[standing.student_id]
    parts = [
        student.name,
        f"{WEEKDAYS[standing.weekday]} {clock_time(standing.at, hours)}",
        minutes_of(standing.minutes),
        *([standing.instrument] if standing.instrument else []),
        *(["every other week"] if standing.every_weeks == 2 else []),
        *(["on the family's clock"] if standing.kept_in is KeptIn.FAMILY else []),
        *([f"from {standing.from_on}"] if standing.from_on else []),
        *([f"through {standing.until_on}"] if standing.until_on else []),
        *([standing.call_link] if standing.call_link else []),
        *(["shared with others"] if standing.shares is not None else []),
    ]
    return f"{', '.join(parts)} (family {people.families[student.family_id].name})"


def new_family_line(family: Family) -> str:
    """What is said of a family that a file adds."""
    return f"new family: {family.name} ({clock_text(family.zone)})"


def _family(old: Family | None, new: Family) -> list[str]:
    lines = []
    if old is None:
        lines.append(new_family_line(new))
    elif old.name != new.name:
        lines.append(f"family renamed: {old.name} -> {new.name}")
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(OF_FAMILY, old, new, 24)]


def _guardian(old: Guardian | None, new: Guardian, people: People) -> str:
    home = people.families[new.family_id].name
    if old is None:
        gets = [] if new.gets == frozenset(Gets) else [f"gets {gets_words(new.gets)}"]
        return f"new guardian of {home}: {', '.join((*filter(None, (new.name, new.email, new.phone)), *gets))}"
    was = {
        "name": old.name,
        "email": old.email,
        "phone": old.phone,
        "gets": gets_words(old.gets),
        "place": old.position + 1,
    }
    now = {
        "name": new.name,
        "email": new.email,
        "phone": new.phone,
        "gets": gets_words(new.gets),
        "place": new.position + 1,
    }
    changes = (f"{label} {was[label] or '-'} -> {now[label] or '-'}" for label in was if was[label] != now[label])
    return f"guardian of {home}, {_who(old)}: {', '.join(changes)}"


def _gone(old: Guardian | Permission, people: People) -> str:
    if isinstance(old, Guardian):
        return f"guardian of {people.families[old.family_id].name} removed: {_who(old)}"
    return f"{people.students[old.student_id].name}: no longer said: {said_words(old.said)}"


def _who(guardian: Guardian) -> str:
    return guardian.name or guardian.email or guardian.phone or "without a name"


def _student(old: Student | None, new: Student, before: People, after: People) -> list[str]:
    lines = []
    if old is not None and old.name != new.name:
        lines.append(f"student renamed: {old.name} -> {new.name}")
    if old is not None and old.family_id != new.family_id:
        homes = before.families[old.family_id].name, after.families[new.family_id].name
        lines.append(f"family of {new.name}: {homes[0]} -> {homes[1]}")
    return lines + [f"{label} of {new.name}: {change}" for label, change in _changes(OF_STUDENT, old, new, 24)]


def _standing(old: StandingTime | None, new: StandingTime, people: People, hours: int) -> list[str]:
    if old is None:
        return [f"new: {described(new, people, hours)}"]
    changes = ", ".join(f"{label} {change}" for label, change in _changes(OF_TIME, old, new, hours))
    lines = [f"changed: {people.students[new.student_id].name}, {WEEKDAYS[old.weekday]}: {changes}"] if changes else []
    return lines + ([f"shared with others: {described(new, people, hours)}"] if new.shares != old.shares else [])


def _changes(table: Iterable[Column], old: Kept | None, new: Kept, hours: int) -> Iterator[tuple[str, str]]:
    """What differs, by the label of its column. Of somebody new, what a column keeps where it is blank was never given."""
    for column in table:
        after = value_of(new, column)
        before = value_of(old, column) if old is not None else after if column.keeps else None
        if before != after:
            yield column.label, f"{_shown(column, before, hours)} -> {_shown(column, after, hours)}"


def _shown(column: Column, value: object, hours: int) -> str:
    return "-" if value is None else " ".join(column.said(value, hours).split())
