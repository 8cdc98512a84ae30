"""How a terminal's letters look, and the shortest way from one look to another (SGR of ECMA-48, 8.3.117)."""

import re
from functools import lru_cache

from cockpit.studio.values import Value

_PLAIN_SGR = re.compile(r"\x1b\[([\d;]*)m")
_COLORS = {"38": 0, "48": 1}
_PARTS_OF_A_COLOR = {"2": 4, "5": 2}  # of one as red, green, and blue, or as a number
_REVERSE = "7"
# What ends each attribute; bold and faint end together, as both underlines do.
_ENDS = {
    "1": "22",
    "2": "22",
    "3": "23",
    "4": "24",
    "21": "24",
    "5": "25",
    "6": "25",
    "7": "27",
    "8": "28",
    "9": "29",
    "53": "55",
}


class Ink(Value):
    """Attributes by their numbers, and the colors of letters and ground without the number that says which; empty is the terminal's own."""

    attributes: frozenset[str] = frozenset()
    letters: str = ""
    ground: str = ""


PLAIN = Ink()


@lru_cache(maxsize=1024)
def ink_of(sequence: str) -> Ink | None:
    """The look that a sequence asks of a terminal that had none; None where it is more than colors by value and attributes."""
    if not sequence:
        return PLAIN
    found = _PLAIN_SGR.fullmatch(sequence)
    numbers = found.group(1).split(";") if found else [""]
    attributes, colors = set[str](), ["", ""]
    at = 0
    while at < len(numbers):
        length = _PARTS_OF_A_COLOR.get("".join(numbers[at + 1 : at + 2]), 0) if numbers[at] in _COLORS else 0
        color = numbers[at + 1 : at + 1 + length]
        if color and len(color) == length:
            colors[_COLORS[numbers[at]]] = ";".join(color)
        elif numbers[at] in _ENDS:
            attributes.add(numbers[at])
        else:
            return None
        at += 1 + length
    return Ink(attributes=frozenset(attributes), letters=colors[0], ground=colors[1])


@lru_cache(maxsize=4096)
def way(before: Ink, after: Ink) -> tuple[str, Ink]:
    """The fewest bytes that have a terminal go from one look to another, and how it then has that.

    Letters of one color on another look as those of the other on the one, reversed: so the cursor, which is that, costs four bytes.
    """
    codes, ink = min(((_codes(before, ink), ink) for ink in _alike(after)), key=lambda each: len(each[0]))
    return f"\x1b[{codes}m" if before != ink else "", ink


def _alike(ink: Ink) -> list[Ink]:
    if not (ink.letters and ink.ground):
        return [ink]
    return [ink, Ink(attributes=ink.attributes ^ {_REVERSE}, letters=ink.ground, ground=ink.letters)]


def _codes(before: Ink, after: Ink) -> str:
    ends = {_ENDS[each] for each in before.attributes - after.attributes}
    begins = {each for each in after.attributes if each not in before.attributes or _ENDS[each] in ends}
    colors = [
        f"{which}8;{color}" if color else f"{which}9"
        for which, was, color in (("3", before.letters, after.letters), ("4", before.ground, after.ground))
        if was != color
    ]
    from_nothing = [f"38;{after.letters}"] * bool(after.letters) + [f"48;{after.ground}"] * bool(after.ground)
    changed = ";".join([*sorted(ends), *sorted(begins), *colors])
    whole = ";".join(["0", *sorted(after.attributes), *from_nothing]) if before != PLAIN else changed
    return min(changed, whole, key=len)
