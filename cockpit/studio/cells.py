"""Words as they may stand in a table: no cell of them can command a spreadsheet."""

import re

from cockpit.studio.shown import shown

# The first characters that OWASP's ASVS 1.2.10 (= + - @ TAB NUL) and lists after it (CR, LF, the full-width signs) name.
# Some programs drop blanks before a cell, and nobody sees a zero-width sign: behind those they count as well. So does
# an apostrophe, or a cell that has one of its own before such a sign would be read as guarded.
_A_FORMULA = re.compile("'*(?:[\\s\x00\u200b-\u200f\u2060\ufeff]*[=+\\-@\uff1d\uff0b\uff0d\uff20]|[\\t\\r\\n\x00])")


def guarded(text: str) -> str:
    """Words as a cell that no spreadsheet computes: what would begin a formula has an apostrophe before it.

    A control character in them is shown and not obeyed.
    """
    return shown(f"'{text}" if _A_FORMULA.match(text) else text)


def unguarded(cell: str) -> str:
    """The words of a cell that was `guarded`."""
    return cell[1:] if cell.startswith("'") and _A_FORMULA.match(cell) else cell
