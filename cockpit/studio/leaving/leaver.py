"""A family that leaves, recognized in an older state of the studio: renamed since, moved since, or taken in anew."""

from collections.abc import Iterable
from dataclasses import dataclass

from cockpit.studio.lessons.booking import People
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Leaver:
    """A family and its students as they are today; `others` is everybody else in the studio today."""

    family: Family
    students: tuple[Student, ...]
    others: People

    def students_among(self, students: Iterable[Student]) -> frozenset[StudentId]:
        """Those of an older state who are the family's today, by number and name: a number alone may be somebody else's.

        After a backup was put back, numbers are given a second time.
        """
        return frozenset(each.id for each in students if _key(each) in {_key(student) for student in self.students})

    def families_among(self, families: Iterable[Family], students: Iterable[Student]) -> frozenset[FamilyId]:
        """The families of an older state that are this one: its number, and its name or a student of it.

        Also one of its name that today's studio does not know, and one that had no student but theirs.
        """
        known = tuple(students)
        theirs = self.students_among(known)
        members: dict[FamilyId, set[StudentId]] = {}
        for student in known:
            members.setdefault(student.family_id, set()).add(student.id)
        strangers = {_key(family) for family in self.others.families.values()}
        return frozenset(
            family.id
            for family in families
            if _key(family) not in strangers
            and (
                name_key(family.name) == name_key(self.family.name)
                or bool(family.id == self.family.id and members.get(family.id, set()) & theirs)
                or bool(members.get(family.id) and members[family.id] <= theirs)
            )
        )

    def others_among(self, students: Iterable[Student]) -> tuple[Student, ...]:
        """Those of an older state who are another family's today."""
        strangers = {_key(student) for student in self.others.students.values()}
        return tuple(each for each in students if _key(each) in strangers)


def leaver_of(people: People, family: Family) -> Leaver:
    """The family as one that leaves these people."""
    students = people.students.values()
    return Leaver(
        family=family,
        students=tuple(each for each in students if each.family_id == family.id),
        others=People(
            students={each.id: each for each in students if each.family_id != family.id},
            families={each.id: each for each in people.families.values() if each.id != family.id},
        ),
    )


def _key(each: Family | Student) -> tuple[int, str]:
    return each.id, name_key(each.name)
