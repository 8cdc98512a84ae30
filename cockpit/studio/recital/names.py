"""Names of students in words that a family will read: whoever nobody said may be named is told to the teacher."""

import re
from collections.abc import Iterable, Mapping
from datetime import date

from cockpit.studio.changes.recital import RecitalItem
from cockpit.studio.people.people import Family, FamilyId, Student, first_name, name_key
from cockpit.studio.people.permissions import Permission, Shown, allowed
from cockpit.studio.values import Value

_TRACK = "track"


class NameInWords(Value):
    """A student, called by the first name, whom the words of an item name, and what those words are about."""

    called: str
    about: str


class Unnamed(Value):
    """A student of whom nobody said that others may see the name."""

    family_id: FamilyId
    called: str


def unnamed(
    students: Iterable[Student], families: Mapping[FamilyId, Family], permissions: Iterable[Permission], on: date
) -> tuple[Unnamed, ...]:
    """Those who may not be named on a day."""
    said = tuple(permissions)
    return tuple(
        Unnamed(family_id=each.family_id, called=first_name(each, families[each.family_id]))
        for each in students
        if not allowed([one for one in said if one.student_id == each.id], Shown.NAMED, on)
    )


def names_in_words(item: RecitalItem, family_id: FamilyId, people: Iterable[Unnamed]) -> tuple[NameInWords, ...]:
    """Those whom an item names to somebody else than their own family: story and title go to all, the rest to one family."""
    to_one = {"company": item.with_whom, "entry": item.enters, "costume": item.costume, "props": item.props}
    to_all = {"title": item.piece, "composer": item.composer, "story": item.story}
    return tuple(
        NameInWords(called=each.called, about=about)
        for each in people
        for about, words in (*to_all.items(), *(to_one.items() if each.family_id != family_id else ()))
        if has_name(words, each.called)
    )


def names_by_family(
    students: Iterable[Student], families: Mapping[FamilyId, Family]
) -> Mapping[FamilyId, frozenset[str]]:
    """What each family is called, and its students by first name."""
    found = {each.id: {each.name} for each in families.values()}
    for each in students:
        found[each.family_id].add(first_name(each, families[each.family_id]))
    return {number: frozenset(names) for number, names in found.items()}


def strangers_to(family: Family, names: Mapping[FamilyId, Iterable[str]]) -> tuple[str, ...]:
    """The names of other families and of their students, but for one that is the family's own too."""
    own = name_key(family.name)
    others = (name for each, theirs in names.items() if each != family.id for name in theirs)
    return tuple(name for name in others if name_key(name) != own)


def is_track(item: RecitalItem) -> bool:
    """Whether a track plays along."""
    return _TRACK in (item.with_whom or "").casefold()


def company_for(item: RecitalItem, strangers: Iterable[str], *, is_shared: bool) -> str | None:
    """Says with whom a student plays, as the student's family may read it. None for nobody, a track, or words that may be about another family.

    Words may be about another family if they have a name of it, or if two families share the number (`is_shared`).
    """
    said = item.with_whom
    if said is None or is_track(item) or is_shared:
        return None
    return None if any(has_name(said, each) for each in strangers) else said


def has_name(text: str | None, name: str) -> bool:
    """Whether a text has a name, also before an ending: `Ilse`, `Ilse's`, `Ilses`."""
    key = name_key(name)
    return bool(key) and re.search(rf"(?<!\w){re.escape(key)}s?(?!\w)", name_key(text or "")) is not None
