"""Tables as CSV that a spreadsheet may open: RFC 4180, and no cell of words is ever taken for a formula."""

import csv
import io
import re
from collections.abc import Iterable, Sequence
from datetime import date, time
from decimal import Decimal

from cockpit.studio.shown import shown

Cell = str | int | Decimal | date | time | None

# The first characters that OWASP's ASVS 1.2.10 (= + - @ TAB NUL) and lists after it (CR, LF, the full-width signs) name.
# Some programs drop blanks before a cell, and nobody sees a zero-width sign: behind those they count as well.
_A_FORMULA = re.compile("[\\s\x00\u200b-\u200f\u2060\ufeff]*[=+\\-@\uff1d\uff0b\uff0d\uff20]|[\\t\\r\\n\x00]")


def csv_text(header: Sequence[str], rows: Iterable[Sequence[Cell]]) -> str:
    """A table as CSV with lines that end in CR and LF; a line break within a cell stays as it is.

    Only words are guarded: a number stays a number, so that -5 can be added up. None is an empty cell; days, times and
    moments are ISO 8601.
    """
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow([guarded(name) for name in header])
    writer.writerows([_written(cell) for cell in row] for row in rows)
    return written.getvalue()


def guarded(text: str) -> str:
    """Words as a cell that no spreadsheet computes: what would begin a formula has an apostrophe before it.

    A control character in them is shown and not obeyed.
    """
    return shown(f"'{text}" if _A_FORMULA.match(text) else text)


def _written(cell: Cell) -> str:
    match cell:
        case None:
            return ""
        case str():
            return guarded(cell)
        case date() | time():
            return cell.isoformat()
        case _:
            return str(cell)
