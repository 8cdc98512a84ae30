"""Who is meant by a name in a typed line of an item: who plays, `ilse the old mill 3:00`, or who plays along, `with wren`."""

from collections.abc import Iterable, Mapping

from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, FamilyId, Student, first_name, name_key
from cockpit.studio.values import Value

_EXAMPLE = '"ilse the old mill 3:00, by heart"'
_SHORTEST = 2  # signs of a name that is not typed to its end


class ItemTyped(Value):
    """The student whom a line names first, and what stands behind the name."""

    student: Student
    rest: str


class Company(Value):
    """Who is meant by a name: a student, or nobody of the studio. `instead` are students whose names only begin so."""

    student: Student | None = None
    instead: tuple[str, ...] = ()


class StudentNames:
    """The names of students: the whole one, alone or with the family's, and the first name."""

    def __init__(self, students: Iterable[Student], families: Mapping[FamilyId, Family]) -> None:
        self._families = families
        # Who is called so as a whole goes before those whose first name it is.
        self._whole: dict[str, list[Student]] = {}
        self._first: dict[str, list[Student]] = {}
        for student in students:
            family = families[student.family_id]
            for key in {name_key(student.name), name_key(f"{student.name} {family.name}")}:
                self._whole.setdefault(key, []).append(student)
            self._first.setdefault(name_key(first_name(student, family)), []).append(student)

    def find(self, name: str, where: str) -> Student | None:
        """Finds the student with a name. `where` the name stands is part of the sentence if two students have it.

        Raises:
            BadInput: two are called so.
        """
        key = name_key(name)
        found = self._whole.get(key) or self._first.get(key, [])
        if len(found) > 1:
            full = [f"{each.name} {self._families[each.family_id].name}" for each in found]
            raise BadInput(f"Who is meant? Type {listed(full[:-1])} or {full[-1]} {where}.")
        return found[0] if found else None

    def whom(self, name: str) -> Company:
        """Who is meant by a name of somebody who plays along.

        Raises:
            BadInput: two students are called so.
        """
        student, key = self.find(name, 'behind "with"'), name_key(name)
        if student is not None or len(key) < _SHORTEST:
            return Company(student=student)
        instead = (self._called(each) for first, (each, *_) in self._first.items() if first.startswith(key))
        return Company(instead=tuple(instead))

    def _called(self, student: Student) -> str:
        return first_name(student, self._families[student.family_id])


def item_typed(line: str, students: Iterable[Student], families: Mapping[FamilyId, Family]) -> ItemTyped:
    """Finds the longest name at the beginning of a line.

    Raises:
        BadInput: none is there, or two students are called so.
    """
    words, names = line.split(" "), StudentNames(students, families)
    for count in range(len(words), 0, -1):
        student = names.find(" ".join(words[:count]), "before the piece")
        if student is not None:
            return ItemTyped(student=student, rest=" ".join(words[count:]).strip(" ,"))
    raise BadInput(f"Type a student of yours first, then the piece: {_EXAMPLE}.")
