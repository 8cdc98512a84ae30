"""Which family each row of a roster belongs to."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from cockpit.studio.enrolling.roll import Roll
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.roster.columns import RosterFault, RosterRow, quoted


@dataclass(frozen=True, slots=True, kw_only=True)
class Homes:
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


def _unnamed(row: RosterRow, named: Mapping[str, Mapping[str, str]], roll: Roll) -> str:
    student = name_key(row.student)
    homes = {name_key(family.name): family for family in roll.homes_of(student)}
    if student in named or student in homes or not homes:
        return row.student
    if len(homes) == 1:
        return next(iter(homes.values())).name
    names = " or ".join(quoted(family.name) for family in homes.values())
    wanted = f"write {names}: the studio has a {row.student} in each of these families"
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
