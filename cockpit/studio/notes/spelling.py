"""How the words of a label are compared: without capitals, accents, spaces and hyphens, and within one edit."""

import re
import unicodedata

# Zero widths, joiners, direction marks, fillers, variation selectors, soft hyphens: nobody sees them, and pasted text is
# full of them.
_UNSEEN = re.compile(
    "[\u00ad\u034f\u061c\u115f\u1160\u17b4\u17b5\u180b-\u180f\u200b-\u200f\u202a-\u202e\u2060-\u206f\u3164\ufe00-\ufe0f"
    "\ufeff\uffa0\U000e0000-\U000e0fff]"
)
# Letters that are no other one with an accent.
_SPELLED = str.maketrans({"ı": "i", "œ": "oe", "Œ": "oe", "æ": "ae", "Æ": "ae", "ø": "o", "Ø": "o"})


def folded(words: str) -> str:
    """The letters and digits of some words, small and without accents: `Follow–Up` is `followup`, `Privé` `prive`."""
    plain = words if words.isascii() else "".join(map(_plain, words.translate(_SPELLED)))
    return "".join(sign for sign in plain.casefold() if sign.isalnum())


def _plain(sign: str) -> str:
    """A sign without its accents; a ligature is one letter, as it is one to type: the first of those that it joins."""
    parts = unicodedata.normalize("NFKD", sign)
    letters = [part for part in parts if part.isalnum()]
    return letters[0] if len(letters) > 1 else parts


def is_within_one_edit(word: str, other: str) -> bool:
    """Whether a letter added, left out, changed, or two beside each other swapped makes one of the other.

    That is a distance of 0 or 1 by optimal string alignment.
    """
    if abs(len(word) - len(other)) > 1:
        return False
    begins = 0
    while begins < min(len(word), len(other)) and word[begins] == other[begins]:
        begins += 1
    one, two = word[begins:], other[begins:]
    return one[1:] == two[1:] or one[1:] == two or one == two[1:] or (one[1::-1] + one[2:] == two and len(one) > 1)


def without_unseen(typed: str) -> tuple[str, list[int] | None]:
    """A line without letters that nobody sees, and the column of each that is left; None where they are the same."""
    if typed.isascii() or not _UNSEEN.search(typed):
        return typed, None
    columns = [at for at, sign in enumerate(typed) if not _UNSEEN.match(sign)]
    return "".join(typed[at] for at in columns), columns


def column_of(columns: list[int] | None, at: int, typed: str) -> int:
    """Where a column of a line without unseen letters stands in the line as typed."""
    if columns is None:
        return at
    return columns[at] if at < len(columns) else len(typed)
