"""How the words of a label are compared: without capitals, accents, spaces and hyphens, and within one edit."""

import unicodedata
from collections.abc import Sequence
from itertools import chain

# Zero widths, joiners, direction marks, fillers, variation selectors, soft hyphens: nobody sees them, and pasted text is
# full of them. A set, since a pattern of as many takes ten times as long to make.
_RANGES = (
    (0xAD, 0xAD), (0x34F, 0x34F), (0x61C, 0x61C), (0x115F, 0x1160), (0x17B4, 0x17B5), (0x180B, 0x180F), (0x200B, 0x200F),
    (0x202A, 0x202E), (0x2060, 0x206F), (0x3164, 0x3164), (0xFE00, 0xFE0F), (0xFEFF, 0xFEFF), (0xFFA0, 0xFFA0),
    (0xE0000, 0xE0FFF),
)  # fmt: skip
_UNSEEN = frozenset(chain.from_iterable(map(chr, range(first, last + 1)) for first, last in _RANGES))
OTHER_COLONS, OTHER_DASHES = "：﹕∶︓꞉ː", "‐‑‒–—―−"
_PLAIN_SIGNS = {
    ord(other): plain
    for others, plain in ((OTHER_COLONS, ":"), (OTHER_DASHES, "-"), ("’", "'"), ("“”", '"'), ("🔐🤫🤐🙊", "🔒"))
    for other in others
}
# Letters that are no other one with an accent.
_SPELLED = str.maketrans({"ı": "i", "œ": "oe", "Œ": "oe", "æ": "ae", "Æ": "ae", "ø": "o", "Ø": "o"})


_SHORTEST_NEAR = 4  # a word of three letters is one edit from many others


def folded(words: str) -> str:
    """The letters and digits of some words, small and without accents: `Follow–Up` is `followup`, `Privé` `prive`."""
    plain = words if words.isascii() else unicodedata.normalize("NFKD", words.translate(_SPELLED))
    small = plain.casefold()
    return small if small.isalnum() else "".join(filter(str.isalnum, small))


def letters(words: str) -> Sequence[str]:
    """The same sign by sign: one that is spelled with two letters, such as a ligature, is one to type and to leave out."""
    return folded(words) if words.isascii() else [plain for sign in words if (plain := folded(sign))]


def is_within_one_edit(typed: Sequence[str], known: str) -> bool:
    """Whether a letter added, left out, changed, or two beside each other swapped makes one of the other.

    That is a distance of 0 or 1 by optimal string alignment.
    """
    if abs(len(typed) - len(known)) > 1:
        return False
    word, other = tuple(typed), tuple(known)
    begins = 0
    while begins < min(len(word), len(other)) and word[begins] == other[begins]:
        begins += 1
    one, two = word[begins:], other[begins:]
    return one[1:] == two[1:] or one[1:] == two or one == two[1:] or (one[1::-1] + one[2:] == two and len(one) > 1)


def is_near(word: str, other: str) -> bool:
    """Whether two words are one edit apart, without capitals and accents; short ones only where they are equal."""
    one, two = folded(word), folded(other)
    return one == two or (min(len(one), len(two)) >= _SHORTEST_NEAR and is_within_one_edit(one, two))


def neighborhood(word: str) -> set[str]:
    """A word and what is left of it without each of its letters, without capitals and accents.

    Of two words that are one edit apart, the neighborhoods meet: so near ones are looked up, not compared one by one.
    """
    plain = folded(word)
    return {plain, *(plain[:at] + plain[at + 1 :] for at in range(len(plain)))}


def without_unseen(typed: str) -> tuple[str, list[int] | None]:
    """A line without letters that nobody sees, and the column of each that is left; None where they are the same."""
    if typed.isascii() or _UNSEEN.isdisjoint(typed):
        return typed, None
    columns = [at for at, sign in enumerate(typed) if sign not in _UNSEEN]
    return "".join(typed[at] for at in columns), columns


def with_plain_signs(line: str) -> str:
    """A line with the plain colon, dash, quote, or lock in the place of each other one; every sign keeps its column."""
    return line if line.isascii() else line.translate(_PLAIN_SIGNS)


def column_of(columns: list[int] | None, at: int, typed: str) -> int:
    """Where a column of a line without unseen letters stands in the line as typed."""
    if columns is None:
        return at
    return columns[at] if at < len(columns) else len(typed)
