"""Tables as CSV that a spreadsheet may open: RFC 4180, and no cell of words is ever taken for a formula."""

import csv
import io
from collections.abc import Iterable, Sequence
from datetime import date, time
from decimal import Decimal

from cockpit.studio.cells import guarded

Cell = str | int | Decimal | date | time | None


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
