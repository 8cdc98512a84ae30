"""The four cells of a roster that speak of a family's guardians: addresses, names, phones, and what each gets.

Each has an entry for every guardian, in one order. Semicolons separate them; addresses may have commas or blanks between
them as well. An empty entry, or a hyphen, stands for nothing.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId, Gets, Guardian, GuardianId, name_key
from cockpit.studio.roster.values import read_emails, read_name
from cockpit.studio.values import Value, replace

NOTHING = "-"
_NAMED_ADDRESS = re.compile(r"(?:\"[^\"]*\"|[^<>@,;\"]*)\s*<\s*([^<>\s]+)\s*>")
_ADDRESSES_WANTED = "Write an email address such as name@example.org. Separate several with commas"
_NONE = frozenset(("none", "no", "nothing"))
_FEWEST_DIGITS = 3


def read_addresses(text: str) -> str:
    """The e-mail addresses of guardians, also behind their names: `Anna <a@example.org>, "Berg, Per" <p@example.org>`."""
    said = [part for part in re.split(r"[,;\s]+", _NAMED_ADDRESS.sub(r" \1 ", text)) if part]
    if not said:
        raise BadInput(_ADDRESSES_WANTED)
    return ", ".join(part if part == NOTHING else read_emails(part) for part in said)


def read_names(text: str) -> str:
    """What the guardians are called: `Ana; Per`."""
    if "," in text:
        raise BadInput('Write the name without a comma, and a semicolon between two guardians, such as "Ana; Per"')
    return _joined(map(read_name, text.split(";")))


def read_phones(text: str) -> str:
    """The phone number of each guardian with what she notes beside it: `+1 602 555 0100; 020 7946 0100 (work)`."""
    said = [" ".join(part.split()) for part in text.split(";")]
    if not all(_is_nothing(part) or sum(map(str.isdigit, part)) >= _FEWEST_DIGITS for part in said):
        raise BadInput('Write a phone number such as "+1 602 555 0100", and a semicolon between those of two guardians')
    return _joined(said)


def read_gets(text: str) -> str:
    """What each guardian gets: `notes, news; none`; an empty entry stands for all there is."""
    return "; ".join(gets_words(_gets_of(part)) for part in text.split(";"))


def gets_words(gets: frozenset[Gets]) -> str:
    """What a guardian gets in words that are read as the same again."""
    return ", ".join(each for each in Gets if each in gets) or "none"


def cells_of(guardians: Iterable[Guardian]) -> Mapping[str, str]:
    """The guardians of a family, in their order, as the cells that are read as the same again, by column; empty where all is blank."""
    known = sorted(guardians, key=lambda each: each.position)
    return {
        "email": _cell((each.email for each in known), ", "),
        "guardian": _cell((each.name for each in known), "; "),
        "phone": _cell((each.phone for each in known), "; "),
        "gets": "; ".join(gets_words(each.gets) for each in known),
    }


class GuardiansTold(Value):
    """What the rows of a file say of one family's guardians: a cell by column, None where all its rows leave it blank."""

    cells: Mapping[str, str | None]

    @property
    def most(self) -> int:
        """How many guardians the cells speak of; what they get names none."""
        return max((len(self._entries(column)) for column in ("email", "guardian", "phone")), default=0)

    @property
    def gets(self) -> list[frozenset[Gets]]:
        """What each gets, as far as it is said."""
        cell = self.cells.get("gets")
        return [_gets_of(part) for part in cell.split(";")] if cell is not None else []

    def merged(self, known: Sequence[Guardian], family_id: FamilyId, new_id: Callable[[], int]) -> tuple[Guardian, ...]:
        """The guardians of a family as a file has them, those that are `known` found by address, by name, or by place.

        What the file has no column for stays. One of whom a column that the file has says nothing more is one no longer.
        """
        known = sorted(known, key=lambda each: each.position)
        told = max(self.most, 0 if {"email", "guardian"} & self.cells.keys() else len(known))
        matched = self._matched(known, told)
        found: list[Guardian] = []
        for place in range(told):
            before = matched.get(place)
            new = before or Guardian(id=GuardianId(0), family_id=family_id)
            found.append(self._told(new, place))
        left = [each for each in known if each not in matched.values() and self._still_says(each)]
        return tuple(_placed(_without_repeats((*found, *left)), new_id))

    def _told(self, known: Guardian, place: int) -> Guardian:
        def said(column: str, before: str | None) -> str | None:
            return self._entry(column, place) if column in self.cells else before

        gets = self.gets
        wanted = gets[place] if place < len(gets) else gets[0] if len(gets) == 1 else frozenset(Gets)
        return replace(
            known,
            email=said("email", known.email),
            name=said("guardian", known.name),
            phone=said("phone", known.phone),
            gets=wanted if "gets" in self.cells else known.gets,
        )

    def _matched(self, known: Sequence[Guardian], told: int) -> dict[int, Guardian]:
        """Whom each entry means, by its place: first by address and name, then by either, then that in its place.

        One with another address and another name is somebody else.
        """
        said = [self._told(_NOBODY, place) for place in range(told)]
        free, matched = list(known), dict[int, Guardian]()
        for key in _KEYS:
            for place, entry in enumerate(said):
                meant = next(
                    (each for each in free if place not in matched and key(entry) == key(each) is not None), None
                )
                if meant is not None:
                    matched[place] = meant
                    free.remove(meant)
        for place, (entry, each) in enumerate(zip(said, known, strict=False)):
            if place not in matched and each in free and not _is_another(entry, each):
                matched[place] = each
        return matched

    def _still_says(self, guardian: Guardian) -> bool:
        """Whether a file without an entry of this guardian's own says nothing against it; two may share an address."""
        if guardian.name and "guardian" in self.cells:
            return False
        if guardian.email and "email" in self.cells:
            return "guardian" not in self.cells and name_key(guardian.email) in map(name_key, self._entries("email"))
        return bool(guardian.name or guardian.email) or "phone" not in self.cells

    def _entry(self, column: str, place: int) -> str | None:
        entries = self._entries(column)
        entry = entries[place] if place < len(entries) else ""
        return None if _is_nothing(entry) else entry

    def _entries(self, column: str) -> list[str]:
        cell = self.cells.get(column)
        return [part.strip() for part in cell.split(", " if column == "email" else ";")] if cell else []


def _without_repeats(guardians: Iterable[Guardian]) -> Iterator[Guardian]:
    """Those of whom something is known, and not just an address that another has as well."""
    addresses: set[str] = set()
    for each in guardians:
        if each.name or each.phone or (each.email and each.email not in addresses):
            yield each
        addresses |= {each.email} if each.email else set()


def _placed(guardians: Iterable[Guardian], new_id: Callable[[], int]) -> Iterator[Guardian]:
    """The guardians with a number for each new one, and with places in their order; a place that fits stays."""
    place = -1
    for each in guardians:
        place = max(place + 1, each.position if each.id else 0)
        yield replace(each, id=each.id or GuardianId(new_id()), position=place)


_NOBODY = Guardian(id=GuardianId(0), family_id=FamilyId(0))
_KEYS: tuple[Callable[[Guardian], tuple[str, ...] | None], ...] = (
    lambda one: (name_key(one.email), name_key(one.name)) if one.email and one.name else None,
    lambda one: (name_key(one.email),) if one.email else None,
    lambda one: (name_key(one.name),) if one.name else None,
    lambda one: (one.phone,) if one.phone and not one.email and not one.name else None,
)


def _is_another(one: Guardian, other: Guardian) -> bool:
    pairs = ((one.email, other.email), (one.name, other.name))
    return all(a and b and name_key(a) != name_key(b) for a, b in pairs)


def _gets_of(text: str) -> frozenset[Gets]:
    said = [word for word in re.split(r"[,\s]+|\band\b", text.casefold()) if word]
    if not said:
        return frozenset(Gets)
    if len(said) == 1 and (_is_nothing(said[0]) or said[0] in _NONE):
        return frozenset()
    if not all(word in tuple(Gets) for word in said):
        raise BadInput(f"Write {' or '.join(Gets)}, both with a comma between them, or none")
    return frozenset(map(Gets, said))


def _is_nothing(text: str) -> bool:
    return text.strip() in {"", NOTHING}


def _joined(entries: Iterable[str]) -> str:
    return "; ".join("" if _is_nothing(entry) else entry for entry in entries).strip() or NOTHING


def _cell(entries: Iterable[str | None], between: str) -> str:
    said = list(entries)
    return between.join(entry or NOTHING for entry in said) if any(said) else ""
