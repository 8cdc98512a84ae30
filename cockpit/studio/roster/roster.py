"""A roster: the file in which a teacher brings her students, one row a standing time."""

from collections.abc import Callable
from datetime import time
from typing import TypeVar

from cockpit.studio.clocks.zones import find_zone
from cockpit.studio.errors import BadInput
from cockpit.studio.roster import values
from cockpit.studio.roster.agreement import disagreements, repetitions
from cockpit.studio.roster.header import Header, known_columns, read_header
from cockpit.studio.roster.practice_days import read_practice_days
from cockpit.studio.roster.rows import COLUMNS, NEEDED_COLUMNS, RosterFault, RosterReading, RosterRow, quoted
from cockpit.studio.roster.text import Line, read_text
from cockpit.studio.shown import can_be_shown

__all__ = ["COLUMNS", "NEEDED_COLUMNS", "RosterFault", "RosterReading", "RosterRow", "read_roster"]

MOST_ROWS = 20_000
"""More than any studio has: what is longer is another table, and would be read for minutes."""
_IF_BLANK = {
    "student": "write the student's name",
    "weekday": "write the weekday, such as Tue",
    "time": 'write the time, such as "4:30 pm" or "16:30"',
    "minutes": "write the minutes of the lesson, such as 45",
}
Value = TypeVar("Value")


def read_roster(text: str) -> RosterReading:
    """The rows of a roster, or all its faults in the order of their lines.

    Text of comma-, semicolon- or tab-separated values: its first row names the columns, in any order; each further
    row is a standing time. Rows and columns that are empty are passed over.
    """
    table = read_text(text, known_columns)
    if not table.lines:
        return RosterReading(rows=(), columns=frozenset(), faults=table.faults)
    header_line, *lines = table.lines
    if len(lines) > MOST_ROWS:
        found = f"{len(lines):,} rows; {MOST_ROWS:,} can be read at once"
        fault = RosterFault(line=lines[MOST_ROWS].number, found=found, wanted="write the rest into a second file")
        return RosterReading(rows=(), columns=frozenset(), faults=(fault,))
    header = read_header(header_line)
    read = [_read_row(line, header) for line in lines] if header.places else []
    faults = [*table.faults, *header.faults, *(fault for _, found in read for fault in found)]
    if not lines:
        faults.append(_header_only(header_line))
    rows = [row for row, found in read if not found]
    faults += disagreements([row for row, _ in read if row.student], lambda row: row.family or row.student)
    faults += repetitions(rows, lambda row: row.family or row.student)
    return RosterReading(
        rows=tuple(rows),
        columns=frozenset(header.places),
        faults=tuple(sorted(faults, key=lambda fault: fault.line)),
        notices=header.notices,
    )


def _header_only(line: Line) -> RosterFault:
    found = "the names of the columns and nothing below them"
    return RosterFault(line=line.number, found=found, wanted="write one row below them for each standing time")


def _read_row(line: Line, header: Header) -> tuple[RosterRow, list[RosterFault]]:
    """The row, and its faults: where there is one, a stand-in has the place of the value."""
    cells = _Cells(line, header)
    row = RosterRow(
        line=line.number,
        student=cells.needed("student", values.read_name, ""),
        weekday=cells.needed("weekday", values.read_weekday, 0),
        at=cells.needed("time", values.read_time, time()),
        minutes=cells.needed("minutes", values.read_minutes, 0),
        family=cells.optional("family", values.read_name),
        email=cells.optional("email", values.read_emails),
        instrument=cells.optional("instrument", values.read_name),
        zone=cells.optional("zone", find_zone),
        kept_in=cells.optional("kept_in", values.read_kept_in),
        from_on=cells.optional("from", values.read_date),
        until_on=cells.optional("until", values.read_date),
        daily_minutes=cells.optional("daily_minutes", values.read_daily_minutes),
        call_link=cells.optional("call_link", values.read_call_link),
        remark=cells.optional("remark", values.read_remark),
        hours=cells.optional("clock", values.read_clock),
        every_weeks=cells.optional("every_weeks", values.read_every_weeks),
        practice_days=cells.optional("practice_days", read_practice_days),
        send_by=cells.optional("send_by", values.read_send_by),
        language=cells.optional("language", values.read_language),
    )
    if row.from_on is not None and row.until_on is not None and row.until_on < row.from_on:
        found = f'"{row.until_on}", which is before from, "{row.from_on}"'
        cells.refuse("until", found, "write a later day, or leave it empty")
    return row, cells.faults


class _Cells:
    """The cells of a row by our columns, and the faults that reading them has found so far."""

    def __init__(self, line: Line, header: Header) -> None:
        self._line = line.number
        self._texts = {column: line.cells[place] for column, place in header.places.items() if place < len(line.cells)}
        self._columns = header.places.keys()
        self.faults: list[RosterFault] = []
        for cell in filter(None, line.cells[header.width :]):
            found = f"{quoted(cell)}, a cell more than there are columns"
            self.refuse(None, found, "take it out, or put a cell with a separator in it between quotation marks")

    def needed(self, column: str, read: Callable[[str], Value], stand_in: Value) -> Value:
        if column in self._columns and not self._texts.get(column):
            self.refuse(column, "nothing", _IF_BLANK[column])
        value = self.optional(column, read)
        return stand_in if value is None else value

    def optional(self, column: str, read: Callable[[str], Value]) -> Value | None:
        text = self._texts.get(column, "")
        if not text:
            return None
        if not can_be_shown(text):
            self.refuse(column, f"a character that cannot be shown, in {quoted(text)}", "type the cell again")
            return None
        try:
            return read(text)
        except BadInput as fault:
            self.refuse(column, quoted(text), str(fault))
            return None

    def refuse(self, column: str | None, found: str, wanted: str) -> None:
        self.faults.append(RosterFault(line=self._line, column=column, found=found, wanted=wanted))
