"""What forgetting a family did, and what it could not do."""

import re
import unicodedata
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from cockpit.studio.leaving.leaver import Leaver
from cockpit.studio.people.people import name_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Forgotten:
    """Files are named relative to the studio folder. `unread` are copies that could not be rewritten, with the reason.

    `still_named` are files, hers to change, in which a name or an address of the family stands.
    """

    papers: tuple[str, ...]
    reviews: tuple[str, ...]
    copies: tuple[str, ...]
    unread: Mapping[str, str]
    still_named: tuple[str, ...]


def names_of(leaver: Leaver) -> tuple[str, ...]:
    """The words that tell the family: its name, its students' and its addresses, as far as nobody else has them."""
    families, students = leaver.others.families.values(), leaver.others.students.values()
    shared = {name_key(each.name) for each in families} | {name_key(each.name) for each in students}
    shared |= {name_key(address) for each in families for address in each.addresses}
    wanted = (leaver.family.name, *(each.name for each in leaver.students), *leaver.family.addresses)
    return tuple(dict.fromkeys(name_key(word) for word in wanted if name_key(word) not in shared))


def is_named(words: Iterable[str], text: str) -> bool:
    """Whether one of the words stands in a text, as a word of its own, however it is spelled in case."""
    searched = unicodedata.normalize("NFC", text).casefold()
    return any(re.search(rf"(?<!\w){re.escape(word)}(?!\w)", searched) for word in words)
