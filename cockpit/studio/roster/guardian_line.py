"""A typed line about the guardians of a family: "ana ana@example.org notes news", "not dad@example.org", "phone ana +1 602 555 0100".

Several stand in one line with commas between them. All of it is common practice, no source.
"""

import re
from collections.abc import Callable, Iterable, Sequence

from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId, Gets, Guardian, GuardianId, name_key, next_position
from cockpit.studio.roster.guardian_cells import NOTHING, read_phones
from cockpit.studio.typed_times.line_parts import address_in, parts_of, refuse_long
from cockpit.studio.typed_times.trial_line import NAME_WORD, with_capitals
from cockpit.studio.values import Value, replace

EXAMPLES = '"ana ana@example.org notes news", "not dad@example.org", or "phone ana +1 602 555 0100"'
_OUT = re.compile(r"(?:not|no longer|no more|without|remove|delete) (?P<whom>.+)", re.IGNORECASE)
_PHONE = re.compile(
    r"(?P<before>[^\d+(]*?)\b(?:phone|telephone|tel|mobile|cell)\b[:.]?(?P<behind>[^\d+(]*?)(?P<number>[+(\d].*|-|none|nothing)",
    re.IGNORECASE,
)
_HOST = re.compile(r"\w{2}\.\w{2}")  # an address without its @
_NONE = frozenset({"nothing", "none"})
_SMALL = frozenset({"gets", "get", "and", "only", "of", "for", "the", "is", "at"})
_NOT_SENT = frozenset({"bill", "bills", "statement", "statements", "invoice", "invoices"})
_LONGEST = 500


class GuardianLine(Value):
    """What a part of a line says of one guardian; None where it does not say it. `phone` may be NOTHING."""

    name: str | None = None
    email: str | None = None
    phone: str | None = None
    gets: frozenset[Gets] | None = None
    is_out: bool = False

    @property
    def called(self) -> str:
        """How the line calls the guardian."""
        return self.name or self.email or "somebody"


def read_guardians(text: str) -> tuple[GuardianLine, ...]:
    """What a line says, part by part.

    Raises:
        BadInput: a part is not understood; the sentence names it.
    """
    refuse_long(text, _LONGEST)
    found: list[GuardianLine] = []
    for part in parts_of(text):
        words = part.casefold().split()
        if found and all(word in {*Gets, *_SMALL} for word in words):  # "ana notes, news"
            found[-1] = replace(
                found[-1], gets=(found[-1].gets or frozenset()) | {Gets(w) for w in words if w in tuple(Gets)}
            )
        else:
            found.append(_read(part))
    if not found:
        raise BadInput(f"Type {EXAMPLES}.")
    return tuple(found)


def _read(part: str) -> GuardianLine:
    if (out := _OUT.fullmatch(part)) is not None:
        read = _read(out["whom"])
        if read.phone is not None or read.gets is not None:
            raise BadInput(f'"{part}" is not understood. Type {EXAMPLES}.')
        return replace(read, is_out=True)
    if (phone := _PHONE.fullmatch(part)) is not None:
        said = phone["number"].strip()
        number = NOTHING if said.casefold() in {NOTHING, *_NONE} else _number(said)
        return GuardianLine(name=_name([*phone["before"].split(), *phone["behind"].split()], part), phone=number)
    words = part.split()
    _check_words(words)
    addresses = [found for word in words if (found := address_in(word)) is not None]
    gets = [word.casefold() for word in words if word.casefold() in {*Gets, *_NONE}]
    others = [word for word in words if address_in(word) is None and word.casefold() not in {*Gets, *_NONE}]
    if len(addresses) > 1:
        raise BadInput(f'"{part}" has two email addresses. Put a comma between two guardians.')
    if _NONE & set(gets) and set(gets) - _NONE:
        raise BadInput(f'"{part}" says nothing and something. Keep one.')
    name = _name(others, part)
    if name is None and not addresses:
        raise BadInput(f'"{part}" says nobody. Type a name or an email address: {EXAMPLES}.')
    return GuardianLine(
        name=name,
        email=addresses[0] if addresses else None,
        gets=frozenset(Gets(word) for word in gets if word not in _NONE) if gets else None,
    )


def _check_words(words: Sequence[str]) -> None:
    """Refuses what no guardian gets, and an `at` without an address: both would be names."""
    for word, following in zip(words, [*words[1:], ""], strict=True):
        if word.casefold() in _NOT_SENT:
            raise BadInput(f'"{word}" is nothing that goes out. A guardian gets {", ".join(Gets)}, or nothing.')
        if word.casefold() == "at" and address_in(following) is None:
            raise BadInput(f'"at {following}" is no email address. Type one such as ana@example.org.')


def _number(said: str) -> str:
    try:
        return read_phones(said)
    except BadInput as fault:
        raise BadInput(f'"{said}" is no phone number. Type one such as "phone ana +1 602 555 0100".') from fault


def _name(words: Iterable[str], part: str) -> str | None:
    said = [word for word in words if word.casefold() not in _SMALL]
    said = [re.sub(r"['’]s$", "", word) if place == len(said) - 1 else word for place, word in enumerate(said)]
    odd = next((word for word in said if not NAME_WORD.fullmatch(word) or _HOST.search(word)), None)
    if odd is not None:
        what = "no email address" if "@" in part or "." in odd else "no name"
        raise BadInput(f'"{odd}" is {what} and nothing else that is known of a guardian. Type {EXAMPLES}.')
    return with_capitals(" ".join(said)) or None


def with_line(
    known: Sequence[Guardian], said: GuardianLine, family_id: FamilyId, new_id: Callable[[], GuardianId]
) -> tuple[Guardian, ...]:
    """The guardians of a family, in their order, as they are after a part of a line. Somebody new gets all there is.

    Raises:
        BadInput: nobody, or more than one, is meant.
    """
    meant = _meant(known, said)
    if meant is None and (said.is_out or (said.gets is not None and said.email is None) or said.phone == NOTHING):
        raise BadInput(f"No guardian of this family is called {said.called}. {_called(known)}")
    if said.is_out:
        return tuple(each for each in known if each is not meant)
    before = meant or Guardian(id=new_id(), family_id=family_id, position=next_position(known))
    after = replace(
        before,
        name=before.name if _is_same(said.name, before.name) else said.name or before.name,
        email=said.email or before.email,
        phone=None if said.phone == NOTHING else said.phone or before.phone,
        gets=before.gets if said.gets is None else said.gets,
    )
    return (*(after if each is meant else each for each in known), *(() if meant is not None else (after,)))


def _meant(known: Sequence[Guardian], said: GuardianLine) -> Guardian | None:
    by_address = [each for each in known if said.email and each.email and name_key(each.email) == name_key(said.email)]
    by_name = [each for each in known if said.name and each.name and name_key(each.name) == name_key(said.name)]
    both = [each for each in by_address if each in by_name]
    found = both or by_address or by_name
    if said.name is None and said.email is None:
        found = list(known)
    if len(found) > 1 or (by_address and by_name and not both):
        raise BadInput(f"More than one guardian may be meant by {said.called}. {_called(known)}")
    return found[0] if found else None


def _is_same(said: str | None, known: str | None) -> bool:
    return said is not None and known is not None and name_key(said) == name_key(known)


def _called(known: Sequence[Guardian]) -> str:
    names = [each.name or each.email or each.phone or "" for each in known]
    return f"There {'is' if len(names) == 1 else 'are'} {listed(names)}." if names else "There is none yet."
