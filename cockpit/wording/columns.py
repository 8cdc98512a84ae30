"""Rows of text in aligned columns, for a terminal."""

import unicodedata
from collections.abc import Sequence
from itertools import zip_longest


def columns(rows: Sequence[Sequence[str]], right: frozenset[int] = frozenset()) -> str:
    """Rows as lines, two blanks between columns; the columns named in `right` are aligned there, empty ones left out."""
    widths = [max(map(cells, column)) for column in zip_longest(*rows, fillvalue="")]
    lines = (
        "  ".join(
            _padded(text, width, to_the_right=place in right)
            for place, (text, width) in enumerate(zip(row, widths, strict=True))
            if width
        )
        for row in rows
    )
    return "".join(f"{line.rstrip()}\n" for line in lines)


def cells(text: str) -> int:
    """How many cells of a terminal a text takes: two for a wide sign, none for what joins the one before it."""
    return sum(map(_cells_of, text))


def _cells_of(sign: str) -> int:
    if unicodedata.category(sign) in {"Mn", "Me", "Cf"}:
        return 0
    return 2 if unicodedata.east_asian_width(sign) in {"W", "F"} else 1


def _padded(text: str, width: int, *, to_the_right: bool) -> str:
    blanks = " " * (width - cells(text))
    return blanks + text if to_the_right else text + blanks
