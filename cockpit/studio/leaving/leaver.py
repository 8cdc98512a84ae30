"""A family that leaves, recognized in an older state of the studio: renamed since, moved since, or taken in anew."""

import re
import unicodedata
from collections.abc import Iterable, Mapping

from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.lessons.scheduled import People
from cockpit.studio.people.people import Family, FamilyId, Guardian, Student, StudentId, first_name, name_key
from cockpit.studio.post.outgoing import OutgoingId
from cockpit.studio.values import Value


class Leaver(Value):
    """A family with its students, guardians and inquiries as they are today; `others` and `other_guardians` are everybody else today."""

    family: Family
    students: tuple[Student, ...]
    others: People
    guardians: tuple[Guardian, ...]
    other_guardians: tuple[Guardian, ...]
    inquiries: tuple[Inquiry, ...] = ()

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


def leaver_of(
    people: People, guardians: Iterable[Guardian], family: Family, inquiries: Iterable[Inquiry] = ()
) -> Leaver:
    """The family as one that leaves these people."""
    students, known = people.students.values(), tuple(guardians)
    return Leaver(
        family=family,
        students=tuple(each for each in students if each.family_id == family.id),
        others=People(
            students={each.id: each for each in students if each.family_id != family.id},
            families={each.id: each for each in people.families.values() if each.id != family.id},
        ),
        guardians=tuple(each for each in known if each.family_id == family.id),
        other_guardians=tuple(each for each in known if each.family_id != family.id),
        inquiries=tuple(inquiries),
    )


def names_of(leaver: Leaver) -> tuple[str, ...]:
    """Collects the words that identify a family: names and addresses of its people, and of whoever asked for them. Words that others have too are left out."""
    asked = (word for each in leaver.inquiries for word in (each.name, each.child, each.email) if word)
    theirs = (*words_of([leaver.family], leaver.students, leaver.guardians), *map(name_key, asked))
    others = leaver.others
    shared = {*words_of(others.families.values(), others.students.values(), leaver.other_guardians)}
    return tuple(word for word in dict.fromkeys(theirs) if word not in shared)


def words_of(families: Iterable[Family], students: Iterable[Student], guardians: Iterable[Guardian]) -> tuple[str, ...]:
    """Collects in lowercase the names of families, students (also first names), and guardians, and where guardians are reached."""
    homes = {each.id: each for each in families}
    names = [each.name for each in homes.values()]
    for each in students:
        names += [each.name, *([first_name(each, homes[each.family_id])] if each.family_id in homes else [])]
    names += [word for each in guardians for word in _said_of(each)]
    return tuple(dict.fromkeys(map(name_key, filter(None, names))))


def _said_of(guardian: Guardian) -> Iterable[str]:
    return filter(None, (guardian.name, guardian.email, guardian.phone))


def is_named(words: Iterable[str], text: str) -> bool:
    """Whether one of the words stands in a text, as a word of its own, however it is spelled in case."""
    searched = unicodedata.normalize("NFC", text).casefold()
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", searched) for word in words)


class NamingPaper(Value):
    """A program or a letter to many that is in the outbox for another family and names the one that leaves.

    `about` is what its versions are of; `is_open` says that it has not gone, or that nobody knows.
    """

    id: OutgoingId
    about: str
    is_open: bool


class Forgotten(Value):
    """Files are named relative to the studio folder. `unread` are copies that could not be rewritten, with the reason.

    `still_named` are files, hers to change, in which a name or an address of the family stands. `emptied` counts papers to many that
    went to others and named it.
    """

    papers: tuple[str, ...]
    reviews: tuple[str, ...]
    copies: tuple[str, ...]
    unread: Mapping[str, str]
    still_named: tuple[str, ...]
    emptied: int = 0


def _key(each: Family | Student) -> tuple[int, str]:
    return each.id, name_key(each.name)
