"""Who is in the studio, found by name, and what the rows of a file make of families and students."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date
from typing import TypeVar

from cockpit.studio.changes.records import Edit, Record, edits_between
from cockpit.studio.enrolling.pausing import pauses_told
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import ImportedTime, StandingTime
from cockpit.studio.notes.spelling import is_near, neighborhood
from cockpit.studio.people.people import Family, FamilyId, Guardian, Student, StudentId, name_key
from cockpit.studio.people.permissions import Permission, permissions_after
from cockpit.studio.roster.columns import (
    OF_FAMILY,
    OF_GUARDIANS,
    OF_PERMISSIONS,
    OF_STUDENT,
    Column,
    RosterFault,
    RosterReading,
    RosterRow,
    quoted,
    value_of,
    with_values,
)
from cockpit.studio.roster.guardian_cells import GuardiansTold
from cockpit.studio.roster.permission_cell import permissions_in
from cockpit.studio.values import Value, replace

Person = TypeVar("Person", Family, Student)


class Known(Value):
    """The families, guardians, students with what may be shown of them and their pauses, and weekly times of a studio, and what files said of these times."""

    families: tuple[Family, ...] = ()
    guardians: tuple[Guardian, ...] = ()
    students: tuple[Student, ...] = ()
    permissions: tuple[Permission, ...] = ()
    pauses: tuple[Pause, ...] = ()
    standing_times: tuple[StandingTime, ...] = ()
    imported_times: tuple[ImportedTime, ...] = ()


class Roll:
    """The studio's people by the key of their names. Of two families with one name it is the older that counts."""

    def __init__(self, known: Known) -> None:
        self.families: dict[str, Family] = {}
        self.families_by_id: dict[FamilyId, Family] = {family.id: family for family in known.families}
        self.students: dict[tuple[FamilyId, str], Student] = {}
        self.namesakes: defaultdict[str, list[Student]] = defaultdict(list)
        self.members: defaultdict[FamilyId, list[Student]] = defaultdict(list)
        self.times: defaultdict[StudentId, list[StandingTime]] = defaultdict(list)
        self.imported_times: defaultdict[StudentId, list[ImportedTime]] = defaultdict(list)
        for family in sorted(known.families, key=lambda family: family.id):
            self.families.setdefault(name_key(family.name), family)
        for student in sorted(known.students, key=lambda student: student.id):
            self.students.setdefault((student.family_id, name_key(student.name)), student)
            self.namesakes[name_key(student.name)].append(student)
            self.members[student.family_id].append(student)
        for standing in sorted(known.standing_times, key=lambda standing: standing.id):
            self.times[standing.student_id].append(standing)
        for row in known.imported_times:
            self.imported_times[row.student_id].append(row)

    def homes_of(self, student: str) -> list[Family]:
        """The families that have a student with this name key."""
        return [self.families_by_id[namesake.family_id] for namesake in self.namesakes.get(student, ())]


class NearMiss(Value):
    """A name in a file of which nobody is known, and the names that it may stand for; `kind` is `student` or `family`."""

    kind: str
    name: str
    near: tuple[str, ...]


def near_misses(rows: Iterable[RosterRow], known: Known) -> tuple[NearMiss, ...]:
    """The names that may be one of the studio: a letter away from it, or with more or fewer of the student's names.

    So may a name that is a student's together with the family's, as of somebody who came for a trial lesson.

    A name in the file may also be misspelled from that of an earlier student of the same family there. A student whose
    row names another family is another one.
    """
    families = {family.id: family.name for family in known.families}
    homed = [(student.name, families[student.family_id]) for student in known.students]
    students, parts = _Names(homed), _NameParts(homed)
    homes = _Names((name, name) for name in families.values())
    known_keys = {name_key(s.name) for s in known.students}, {name_key(name) for name in families.values()}
    whole = {name_key(name): name for name, family in homed if name_key(name) == name_key(family)}
    at_home = {(name_key(name), name_key(family)) for name, family in homed}
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for row in rows:
        home = row.family or row.student
        meant = whole.get(name_key(f"{row.student} {home}"))
        if meant is not None and (name_key(row.student), name_key(home)) not in at_home:
            found["student", row.student] = (meant,)
        if name_key(row.student) not in known_keys[0]:
            near = (name for name, family in students.near(row.student) if _may_be(row, name, family))
            found.setdefault(("student", row.student), tuple(dict.fromkeys((*near, *parts.near(row)))))
            students.add(row.student, home)
        if row.family is not None and name_key(row.family) not in known_keys[1]:
            found.setdefault(("family", row.family), tuple(name for name, _ in homes.near(row.family)))
    return tuple(NearMiss(kind=kind, name=name, near=near) for (kind, name), near in found.items() if near)


def _may_be(row: RosterRow, name: str, family: str) -> bool:
    """Whether a row may mean a student of that name and family; one who is alone has the family's name."""
    is_home = row.family is None or name_key(family) == name_key(name) or is_near(row.family, family)
    return is_home and name_key(row.student) != name_key(name)


class _Names:
    """Names with their families, to be found by others that are a letter away; another number is another name."""

    def __init__(self, names: Iterable[tuple[str, str]]) -> None:
        self._by_spelling: defaultdict[str, list[tuple[str, str]]] = defaultdict(list)
        for name, family in names:
            self.add(name, family)

    def add(self, name: str, family: str) -> None:
        """Adds one; a later one is found after those before it."""
        for spelling in neighborhood(name):
            self._by_spelling[spelling].append((name, family))

    def near(self, wanted: str) -> list[tuple[str, str]]:
        """Those that are a letter away, or spelled alike."""
        found = dict.fromkeys(
            each for spelling in sorted(neighborhood(wanted)) for each in self._by_spelling.get(spelling, ())
        )
        return [each for each in found if is_near(each[0], wanted) and _digits(each[0]) == _digits(wanted)]


class _NameParts:
    """Students by the words of their names and of their families' names: Anna of the Bergs may be "Anna Berg" or "Berg"."""

    def __init__(self, students: Iterable[tuple[str, str]]) -> None:
        self._by_word: defaultdict[str, list[tuple[str, str]]] = defaultdict(list)
        for name, family in students:
            for word in _name_words(name) | _name_words(family):
                self._by_word[word].append((name, family))

    def near(self, row: RosterRow) -> list[str]:
        """The students that a row may mean by more or fewer of their names."""
        words = _name_words(row.student)
        alike = dict.fromkeys(each for word in sorted(words) for each in self._by_word.get(word, ()))
        return [name for name, family in alike if _is_part(row, words, name, family)]


def _is_part(row: RosterRow, words: set[str], name: str, family: str) -> bool:
    own, home = _name_words(name), _name_words(family)
    if row.family is None:
        return words <= own | home and bool(words & own or words == home)
    return name_key(row.family) == name_key(family) and bool(words & own) and (words <= own | home or own <= words)


def _name_words(name: str) -> set[str]:
    return set("".join(sign if sign.isalnum() else " " for sign in name_key(name)).split())


def _digits(name: str) -> str:
    return "".join(filter(str.isdigit, name))


class Homes(Value):
    """The name of each row's family, and what of the studio takes another place.

    `moved` are known students by the keys of their new family and their own name; `renamed` are families that only
    get another name, by its key: theirs are the zone and the address that the file need not repeat.
    """

    family_of: Mapping[RosterRow, str]
    moved: Mapping[tuple[str, str], Student]
    renamed: Mapping[str, Family]


def find_homes(rows: Sequence[RosterRow], roll: Roll) -> Homes:
    """The families of the rows: the one that a row names, else the student's known one, else one named after her.

    A student whose family is named after herself, as it is when nobody has said otherwise, moves to the family that
    the file names. Any other known student stays, and the one in the file is a namesake.

    Raises:
        BadInput: a row names no family, and the studio has the student's name in several.
    """
    named: dict[str, dict[str, str]] = {}
    for row in rows:
        if row.family is not None:
            named.setdefault(name_key(row.student), {}).setdefault(name_key(row.family), row.family)
    family_of = {row: row.family or _unnamed(row, named, roll) for row in rows}
    moved = dict(_moved(named, roll))
    return Homes(family_of=family_of, moved=moved, renamed=_renamed(moved, family_of, roll))


class Enrolled:
    """What the rows of a file make of families, guardians and students, in `edits`: families first, since the others refer to them.

    `rows_of` are the rows of each student.
    """

    def __init__(self, reading: RosterReading, roll: Roll, homes: Homes, new_id: Callable[[], int]) -> None:
        self._roll = roll
        self._homes = homes
        self._new_id = new_id
        self._columns = reading.columns
        self._by_family: dict[str, list[RosterRow]] = {}
        self._by_student: dict[tuple[str, str], list[RosterRow]] = {}
        self._families: dict[str, Family] = {}
        self.rows_of: dict[Student, list[RosterRow]] = {}
        self.edits: list[Edit] = []
        for row in reading.rows:
            family, student = name_key(homes.family_of[row]), name_key(row.student)
            self._by_family.setdefault(family, []).append(row)
            self._by_student.setdefault((family, student), []).append(row)

    def people(self, known: Known) -> tuple[People, People]:
        """Everybody without what the rows change, and with it."""
        after = _people((*known.families, *self._families.values()), (*known.students, *self.rows_of))
        return _people(known.families, known.students), after

    def take_families(self, home_zone: str) -> None:
        """Takes the families in; one that is new and has no zone in the file gets that of `home_zone`."""
        for key, rows in self._by_family.items():
            before = self._roll.families.get(key) or self._homes.renamed.get(key)
            known = before or Family(id=FamilyId(self._new_id()), name=self._homes.family_of[rows[0]], zone=home_zone)
            name = next((row.family for row in rows if row.family is not None), known.name)
            after = self._told(replace(known, name=_kept_name(known.name, name)), OF_FAMILY, rows)
            self._families[key] = after
            self._edit(before, after)

    def take_guardians(self, known: Known) -> list[RosterFault]:
        """Takes the guardians of the families in, after these; returns what cannot be used."""
        faults: list[RosterFault] = []
        columns = [column for column in OF_GUARDIANS if column.name in self._columns]
        by_family: defaultdict[FamilyId, list[Guardian]] = defaultdict(list)
        for guardian in known.guardians:
            by_family[guardian.family_id].append(guardian)
        for key, rows in self._by_family.items() if columns else ():
            family_id = self._families[key].id
            cells = {column.name: _first_cell(rows, column) for column in columns}
            told = GuardiansTold(cells=cells)
            before = {each.id: each for each in by_family[family_id]}
            after = {each.id: each for each in told.merged([*before.values()], family_id, self._new_id)}
            faults += _too_many(rows, told, len(after))
            self.edits += edits_between(before, after)
        return faults

    def take_students(self, known: Known, today: date) -> list[RosterFault]:
        """Takes the students in, after their families, with what may be shown of them and their pauses; returns what cannot be used."""
        for key, rows in self._by_student.items():
            family = self._families[key[0]]
            before = self._roll.students.get((family.id, key[1])) or self._homes.moved.get(key)
            student = before or Student(id=StudentId(self._new_id()), family_id=family.id, name=rows[0].student)
            student = replace(
                student, family_id=family.id, name=rows[0].called or _kept_name(student.name, rows[0].student)
            )
            after = self._told(student, OF_STUDENT, rows)
            self.rows_of[after] = rows
            self._edit(before, after)
        if OF_PERMISSIONS.name in self._columns:
            self._take_permissions(known.permissions, today)
        pauses, faults = pauses_told(self.rows_of, known.pauses, self._columns, self._new_id)
        self.edits += pauses
        return faults

    def _take_permissions(self, known: Sequence[Permission], today: date) -> None:
        by_student: defaultdict[StudentId, list[Permission]] = defaultdict(list)
        for each in known:
            by_student[each.student_id].append(each)
        for student, rows in self.rows_of.items():
            before = {each.what: each for each in by_student[student.id]}
            said = permissions_in(_first_cell(rows, OF_PERMISSIONS) or "")
            kept = [before[each.what] for each in said if each.what in before]
            after = {each.what: each for each in permissions_after(student.id, kept, said, today)}
            self.edits += edits_between(before, after)

    def _told(self, known: Person, table: Iterable[Column], rows: Sequence[RosterRow]) -> Person:
        """A family or a student as the file has them."""
        told = {
            column.field: column.told((value_of(row, column) for row in rows), value_of(known, column), self._columns)
            for column in table
        }
        return with_values(known, told)

    def _edit(self, before: Record | None, after: Record) -> None:
        self.edits.append(Edit(before=before, after=after))


def _first_cell(rows: Sequence[RosterRow], column: Column) -> str | None:
    found = next((value for row in rows if (value := value_of(row, column)) is not None), None)
    return None if found is None else str(found)


def _too_many(rows: Sequence[RosterRow], told: GuardiansTold, guardians: int) -> list[RosterFault]:
    """The fault of a cell that says for more guardians what they get than the family has."""
    cell = told.cells.get("gets")
    if cell is None or len(told.gets) <= max(1, guardians):
        return []
    line = next(row.line for row in rows if row.gets is not None)
    wanted = "Write notes, news with a comma for one guardian; semicolons separate guardians"
    found = (
        f"{quoted(cell)}, for {len(told.gets)} guardians where there {'is 1' if guardians == 1 else f'are {guardians}'}"
    )
    return [RosterFault(line=line, column="gets", found=found, wanted=wanted)]


def _unnamed(row: RosterRow, named: Mapping[str, Mapping[str, str]], roll: Roll) -> str:
    student = name_key(row.student)
    homes = {name_key(family.name): family for family in roll.homes_of(student)}
    if student in named or student in homes or not homes:
        return row.student
    if len(homes) == 1:
        return next(iter(homes.values())).name
    names = " or ".join(quoted(family.name) for family in homes.values())
    wanted = f"Write {names}. The studio has a {row.student} in each of these families"
    raise BadInput(str(RosterFault(line=row.line, column="family", found="nothing", wanted=wanted)))


def _moved(named: Mapping[str, Mapping[str, str]], roll: Roll) -> Iterable[tuple[tuple[str, str], Student]]:
    for student, families in named.items():
        namesakes = roll.namesakes.get(student, [])
        if len(namesakes) == 1 and student not in families:
            home = roll.families_by_id[namesakes[0].family_id]
            if name_key(home.name) == student:
                yield (next(iter(families)), student), namesakes[0]


def _renamed(
    moved: Mapping[tuple[str, str], Student], family_of: Mapping[RosterRow, str], roll: Roll
) -> Mapping[str, Family]:
    still_named = {name_key(name) for name in family_of.values()}
    renamed: dict[str, Family] = {}
    for (family, own_name), student in moved.items():
        is_alone = len(roll.members[student.family_id]) == 1 and own_name not in still_named
        if is_alone and family not in roll.families:
            renamed.setdefault(family, roll.families_by_id[student.family_id])
    return renamed


def _kept_name(known: str, said: str) -> str:
    """The name as the studio has it, where a file has it in other capitals alone; else as the file has it."""
    return known if name_key(known) == name_key(said) else said


def _people(families: Iterable[Family], students: Iterable[Student]) -> People:
    return People(
        families={family.id: family for family in families}, students={student.id: student for student in students}
    )
