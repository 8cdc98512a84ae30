"""What a part of a typed line says of a record: about what, in which words, and the record after it."""

import re
from collections.abc import Callable, Sequence
from typing import Generic, NamedTuple, TypeVar

from cockpit.studio.errors import BadInput

Kept = TypeVar("Kept")
_NOTHING = frozenset({"nothing", "none", "-", "–"})
LONGEST_WORDS = 300


class LineFact(NamedTuple, Generic[Kept]):
    """What a part is about, what it says in words, and the change of the record."""

    about: str
    words: str
    change: Callable[[Kept], Kept]


def refuse_twice(facts: Sequence[LineFact[Kept]]) -> None:
    """Refuses a line that says one thing twice.

    Raises:
        BadInput.
    """
    abouts = [fact.about for fact in facts]
    if twice := next((about for about in abouts if abouts.count(about) > 1), None):
        raise BadInput(f"The line says the {twice} twice. Keep one.")


def words_after(part: str, labels: str, most: int = LONGEST_WORDS) -> tuple[str | None] | None:
    """The words behind a label, within a tuple; None in it where the part says that there are none, and None without one.

    Raises:
        BadInput: they are too long.
    """
    match = re.fullmatch(rf"(?:{labels}):? (?P<words>.+)|no (?:{labels})", part, re.IGNORECASE | re.DOTALL)
    return (plain_words(match["words"], most),) if match is not None else None


def plain_words(text: str | None, most: int = LONGEST_WORDS) -> str | None:
    """Typed words without the quotes around all of them; None where they say that there is nothing.

    Raises:
        BadInput: they are too long.
    """
    plain = " ".join((text or "").split())
    if plain[1:-1].strip('" ') and plain[0] == plain[-1] == '"' and '"' not in plain[1:-1]:
        plain = plain[1:-1].strip()
    elif not plain.strip('" '):
        plain = ""
    if len(plain) > most:
        raise BadInput(f"{plain[:20]}… is too long. Use at most {most} characters.")
    return plain if plain and plain.casefold() not in _NOTHING else None
