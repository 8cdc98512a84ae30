"""The people of a studio, found by their names in a typed line."""

import re
from collections.abc import Iterable
from itertools import chain

from cockpit.studio.errors import BadInput
from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import Family, FamilyId, Student
from cockpit.studio.typed_times.parts import Joint, Link, Named, Part
from cockpit.studio.typed_times.places import place_key, run_ends

_FAMILY = re.compile(r"(?:the )?(?:famil(?:y|ies|ien?|ias?)|familles?|fam[.]?)(?= )")
_BEHIND = re.compile(r"(?:['’]s?)? famil(?:y|ies)(?=[ ,;.]|$)")
_THE = re.compile(r"the ")
_EVERYBODY = re.compile(
    r"(?:(?:all|every)(?: of)?(?: the| my)? (?:students|families)|(?:the )?(?:whole|entire) studio|(?:the )?studio|"
    r"everyone|everybody)(?=[ ,;.]|$)"
)
_SHORTEST_PIECE = 3


class StudioNames:
    """Finds names: a family's, a student's, both together, and each word of a long one that begins with a capital."""

    def __init__(self, families: Iterable[Family], students: Iterable[Student]) -> None:
        self.families = {family.id: family for family in families}
        self.students = tuple(students)
        self._named: dict[str, Named] = {}
        for family in self.families.values():
            for called in (family.name, *_pieces(family.name)):
                self._add(called, families=(family,))
        for student in self.students:
            whose = self.families.get(student.family_id)
            full = (f"{student.name} {whose.name}",) if whose is not None else ()
            for called in (student.name, *full, *_pieces(student.name)):
                self._add(called, students=(student,))
        self.words = frozenset(chain.from_iterable(key.split() for key in self._named))
        for family in self.families.values():
            self._add(f"{family.name}s", families=(family,))

    def find(self, said: str, place: int) -> tuple[tuple[Part, ...], int] | None:
        """Finds the longest name at a place of a line.

        Raises:
            BadInput: "family" stands there, and no family of the studio behind it.
        """
        everybody = _EVERYBODY.match(said, place)
        if everybody is not None:
            return (Named(text=everybody[0]),), everybody.end()
        family = _FAMILY.match(said, place)
        if family is not None:
            return self._family(said, place, family.end() + 1)
        the = _THE.match(said, place)
        begins = the.end() if the is not None else place
        for end in run_ends(said, begins):
            named = self._named.get(place_key(said[begins:end]))
            behind = _BEHIND.match(said, end)
            if named is None or (the is not None and not named.families):
                continue
            if behind is None and said.startswith(("'", "’"), end):
                # "Ilse's concert" is not Ilse.
                own = end + (2 if said.startswith("s", end + 1) else 1)
                return (Link(text=said[begins:own], joint=Joint.PART),), own
            end = behind.end() if behind is not None and named.families else end
            families_only = behind is not None or the is not None
            students = () if families_only and named.families else named.students
            return (Named(text=said[begins:end], families=named.families, students=students),), end
        return None

    def find_long(self, said: str, place: int) -> tuple[tuple[Part, ...], int] | None:
        """The same, for what goes before the words of the calendar: a name of several words, or one behind "family"."""
        found = self.find(said, place)
        return found if found is not None and " " in said[place : found[1]] else None

    def has(self, word: str) -> bool:
        """Whether somebody of the studio is called by a word."""
        return place_key(word) in self._named

    def children(self, family_id: FamilyId) -> tuple[Student, ...]:
        """The students of a family."""
        return tuple(student for student in self.students if student.family_id == family_id)

    def near(self, word: str) -> str | None:
        """The word of a name that a word is, or is one edit away from."""
        key = place_key(word)
        return key if key in self.words else next((each for each in self.words if is_near(key, each)), None)

    def _family(self, said: str, place: int, begins: int) -> tuple[tuple[Part, ...], int]:
        for end in run_ends(said, begins):
            named = self._named.get(place_key(said[begins:end]))
            if named is not None and named.families:
                return (Named(text=said[place:end], families=named.families),), end
        raise BadInput(f'No family in your studio matches "{said[place:]}". Type its name as your roster has it.')

    def _add(self, name: str, families: tuple[Family, ...] = (), students: tuple[Student, ...] = ()) -> None:
        key = place_key(name)
        known = self._named.get(key, Named(text=key))
        self._named[key] = Named(
            text=key,
            families=tuple(dict.fromkeys((*known.families, *families))),
            students=tuple(dict.fromkeys((*known.students, *students))),
        )


def _pieces(name: str) -> tuple[str, ...]:
    words = name.replace("-", " ").split()
    return tuple(word for word in words if len(words) > 1 and len(word) >= _SHORTEST_PIECE and word[0].isupper())
