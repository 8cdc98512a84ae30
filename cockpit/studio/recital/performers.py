"""Who plays, by the name that a typed line of an item begins with: `ilse the old mill 3:00`."""

from collections.abc import Iterable, Mapping

from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, FamilyId, Student, first_name, name_key
from cockpit.studio.values import Value

_EXAMPLE = '"ilse the old mill 3:00, by heart"'


class ItemTyped(Value):
    """The student whom a line names first, and what stands behind the name."""

    student: Student
    rest: str


def item_typed(line: str, students: Iterable[Student], families: Mapping[FamilyId, Family]) -> ItemTyped:
    """Finds the longest name at the beginning of a line.

    Raises:
        BadInput: none is there, or two students are called so.
    """
    words = line.split(" ")
    # Who is called so as a whole goes before those whose first name it is.
    whole: dict[str, list[Student]] = {}
    first: dict[str, list[Student]] = {}
    for student in students:
        family = families[student.family_id]
        for key in {name_key(student.name), name_key(f"{student.name} {family.name}")}:
            whole.setdefault(key, []).append(student)
        first.setdefault(name_key(first_name(student, family)), []).append(student)
    for count in range(len(words), 0, -1):
        key = name_key(" ".join(words[:count]))
        found = whole.get(key) or first.get(key, [])
        if len(found) > 1:
            full = [f"{each.name} {families[each.family_id].name}" for each in found]
            raise BadInput(f"Who is meant? Type {listed(full[:-1])} or {full[-1]} before the piece.")
        if found:
            return ItemTyped(student=found[0], rest=" ".join(words[count:]).strip(" ,"))
    raise BadInput(f"Type a student of yours first, then the piece: {_EXAMPLE}.")
