"""A roster: the file in which a teacher brings her students, one row a weekly time, and whether its rows agree."""

from collections.abc import Callable, Iterable, Iterator
from datetime import time

from cockpit.studio.cells import unguarded
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import clock_time
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import name_key
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.roster.columns import (
    OF_FAMILY,
    OF_GUARDIANS,
    OF_PERMISSIONS,
    OF_STUDENT,
    PAUSED_FROM,
    PAUSED_UNTIL,
    TABLE,
    Column,
    RosterFault,
    RosterReading,
    RosterRow,
    quoted,
    value_of,
    with_values,
)
from cockpit.studio.roster.dates import DateOrder, order_of, read_shown_date
from cockpit.studio.roster.shared_cell import overlap
from cockpit.studio.roster.table import Header, RosterLine, header_place, is_header_again, read_header, read_text
from cockpit.studio.roster.values import (
    beside_name,
    is_no_name,
    is_of_a_sheet,
    is_of_totals,
    read_date,
    read_name,
    read_person,
    read_weekday,
    split_weekdays,
)
from cockpit.studio.shown import can_be_shown
from cockpit.studio.values import replace

FamilyOf = Callable[[RosterRow], str]
MOST_ROWS = 20_000
"""More than any studio has: what is longer is another table, and would be read for minutes."""


def read_roster(text: str, report: Report = unheard) -> RosterReading:
    """The rows of a roster, or all its faults in the order of their lines.

    Text of comma-, semicolon- or tab-separated values: a row names the columns, in any order; each further row is a
    weekly time, or one for each weekday in it. What stands above the names, and the names once more, are passed over
    and told; rows and columns that are empty are passed over. `report` counts the rows.
    """
    table = read_text(text)
    if not table.lines:
        return RosterReading(rows=(), columns=frozenset(), faults=table.faults)
    place = header_place(table.lines)
    header_line, lines = table.lines[place], table.lines[place + 1 :]
    notices = [_above(line) for line in table.lines[:place]]
    again = [line for line in lines if is_header_again(line, header_line)]
    notices += [f"Line {line.number} has the column names again and was passed over." for line in again]
    lines = tuple(line for line in lines if not is_header_again(line, header_line))
    header = read_header(header_line)
    totals = [line for line in lines if _has_totals(line, header)]
    notices += [f"Line {line.number} has totals and was passed over: {_cells_of(line)}." for line in totals]
    lines = tuple(line for line in lines if line not in totals)
    if len(lines) > MOST_ROWS:
        found = f"{len(lines):,} rows. At most {MOST_ROWS:,} can be read at once"
        fault = RosterFault(line=lines[MOST_ROWS].number, found=found, wanted="Put the rest in a second file")
        return RosterReading(rows=(), columns=frozenset(), faults=(fault,))
    order = order_of(line.cells[place] for place in header.date_places for line in lines if place < len(line.cells))
    notices += header.notices
    read: list[tuple[RosterRow, list[RosterFault]]] = []
    for line in in_steps(lines, report) if header.places else ():
        of_days = _by_weekday(line, header)
        if len(of_days) > 1:
            cell = quoted(line.cells[header.places["weekday"]])
            notices.append(f"Line {line.number}: {cell} was read as {len(of_days)} weekly times.")
        read += [_read_row(each, header, order) for each in of_days]
    faults = [*table.faults, *header.faults, *dict.fromkeys(fault for _, found in read for fault in found)]
    if not lines:
        faults.append(_header_only(header_line))
    rows = [row for row, found in read if not found]
    faults += disagreements([row for row, _ in read if row.student], lambda row: row.family or row.student)
    faults += repetitions(rows, lambda row: row.family or row.student)
    return RosterReading(
        rows=tuple(rows),
        columns=frozenset(header.places),
        faults=tuple(sorted(faults, key=lambda fault: fault.line)),
        notices=(*notices, *_odd_names(rows)),
    )


def _odd_names(rows: Iterable[RosterRow]) -> Iterator[str]:
    """A sentence about each student in whose name there is what may be no part of it."""
    for name in dict.fromkeys(row.student for row in rows if row.student):
        beside = beside_name(name)
        if beside is not None:
            yield f"The student {quoted(name)} is read with {quoted(beside)} in the name. If that is no part of it, take it out."


def _above(line: RosterLine) -> str:
    return f"Line {line.number} stands above the column names and was passed over: {_cells_of(line)}."


def _cells_of(line: RosterLine) -> str:
    return quoted(", ".join(filter(None, line.cells)))


def _has_totals(line: RosterLine, header: Header) -> bool:
    """Whether a row has sums: it begins with their name, and has no weekday."""
    if not is_of_totals(next(filter(None, line.cells), "")):
        return False
    try:
        read_weekday(dict(enumerate(line.cells)).get(header.places.get("weekday", -1), ""))
    except BadInput:
        return True
    return False


def _by_weekday(line: RosterLine, header: Header) -> list[RosterLine]:
    """The line once for each weekday in it."""
    place = header.places.get("weekday")
    if place is None or place >= len(line.cells):
        return [line]
    return [
        replace(line, cells=(*line.cells[:place], word, *line.cells[place + 1 :]))
        for word in split_weekdays(line.cells[place])
    ]


def disagreements(rows: Iterable[RosterRow], family_of: FamilyOf) -> list[RosterFault]:
    """The rows that say of a family or a student something else than an earlier row; `family_of` names a row's family.

    A blank says nothing. But where one row names a student's family and another of that name does not, it could be
    another child: that is a fault too, since the notes of one would go to the family of the other.
    """
    rows = list(rows)
    faults = _unnamed_families(rows)
    said: dict[tuple[str, ...], RosterRow] = {}
    for row in rows:
        family, student = name_key(family_of(row)), name_key(row.student)
        for column in (*OF_FAMILY, *OF_GUARDIANS):
            faults += _against(said, column, (family,), row, f"the family {family_of(row)}")
        for column in (*OF_STUDENT, OF_PERMISSIONS, PAUSED_FROM, PAUSED_UNTIL):
            faults += _against(said, column, (family, student), row, row.student)
    return faults


def repetitions(rows: Iterable[RosterRow], family_of: FamilyOf) -> list[RosterFault]:
    """The rows with a student's weekday and time that an earlier row has for the same dates."""
    faults = []
    earlier: dict[tuple[object, ...], list[RosterRow]] = {}
    for row in rows:
        same = earlier.setdefault((name_key(family_of(row)), name_key(row.student), row.weekday, row.at), [])
        twin = next((other for other in same if overlap(row, other)), None)
        if twin is not None:
            faults.append(_repeated(row, twin.line))
        same.append(row)
    return faults


def _header_only(line: RosterLine) -> RosterFault:
    found = "column names with no rows below them"
    return RosterFault(line=line.number, found=found, wanted="Add a row for each weekly time")


def _read_row(line: RosterLine, header: Header, order: DateOrder) -> tuple[RosterRow, list[RosterFault]]:
    """The row, and its faults: where there is one, a stand-in has the place of the value."""
    cells = _Cells(line, header, order)
    row = RosterRow(line=line.number, student="", weekday=0, at=time(), minutes=0)
    if (fault := _comma_in_name(line, header)) is not None:
        return row, [fault]
    found = {column.field: value for column in TABLE if (value := cells.value(column)) is not None}
    row = with_values(row, found)
    if row.from_on is not None and row.until_on is not None and row.until_on < row.from_on:
        found_end = f'"{row.until_on}", which is before "{row.from_on}" in the column from'
        cells.refuse("until", found_end, "Write a later day or leave it empty")
    return row, cells.faults


def _comma_in_name(line: RosterLine, header: Header) -> RosterFault | None:
    """A name that a comma within it has made into two cells, as far as a space behind the comma tells."""
    columns = {header.places[column.name]: column for column in TABLE if column.name in header.places}
    for place in sorted(line.spaced):
        before, column, cell = columns.get(place - 1), columns.get(place), line.cells[place]
        if before is not None and before.read is read_person and (column is None or not _is_of(column, cell)):
            found = f"{quoted(f'{line.cells[place - 1]}, {cell}')} without quotation marks, which is two cells"
            wanted = "Write the name without a comma, or delete the space if these are two cells"
            return RosterFault(line=line.number, column=before.name, found=found, wanted=wanted)
    return None


def _is_of(column: Column, cell: str) -> bool:
    """Whether a cell can be of no other column than its own: it is no word, and can be read."""
    try:
        return column.read not in {read_person, read_name} and column.read(cell) is not None
    except BadInput:
        return False


class _Cells:
    """The cells of a row by our columns, and the faults that reading them has found so far."""

    def __init__(self, line: RosterLine, header: Header, order: DateOrder) -> None:
        self._order = order
        self._line = line.number
        self._texts = {column: line.cells[place] for column, place in header.places.items() if place < len(line.cells)}
        self._columns = header.places.keys()
        self.faults: list[RosterFault] = []
        for place, cell in enumerate(line.cells[: header.width]):
            if cell and place in header.nameless:
                self.refuse(None, f"{quoted(cell)} in a column without a name", "Name the column or empty the cell")
        for cell in filter(None, line.cells[header.width :]):
            found = f"one cell too many, {quoted(cell)}"
            self.refuse(None, found, "Delete it, or put quotation marks around a cell that contains a comma")

    def value(self, column: Column) -> object:
        """What the cell of a column means; None where it is blank, or has a fault."""
        text = self._texts.get(column.name, "")
        if not text:
            if column.if_blank is not None and column.name in self._columns:
                self.refuse(column.name, "nothing", column.if_blank)
            return None
        if not can_be_shown(text):
            self.refuse(column.name, f"an invisible character in {quoted(text)}", "Retype the cell")
            return None
        if is_of_a_sheet(text):
            what = "a formula" if text.startswith("=") else "an error of the spreadsheet"
            self.refuse(column.name, f"{quoted(text)}, which is {what}", "Write the value itself")
            return None
        text = unguarded(text)
        if column.read in {read_person, read_name} and is_no_name(text):
            self.refuse(
                column.name, quoted(text), column.if_blank or f"Write the {column.label}, or leave the cell empty"
            )
            return None
        try:
            return read_shown_date(text, self._order) if column.read is read_date else column.read(text)
        except BadInput as fault:
            self.refuse(column.name, quoted(text), str(fault))
            return None

    def refuse(self, column: str | None, found: str, wanted: str) -> None:
        self.faults.append(RosterFault(line=self._line, column=column, found=found, wanted=wanted))


def _against(
    said: dict[tuple[str, ...], RosterRow], column: Column, of: tuple[str, ...], row: RosterRow, whose: str
) -> list[RosterFault]:
    """What a row says otherwise in a column than an earlier one of the same family or student."""
    value = value_of(row, column)
    if value is None:
        return []
    earlier = said.setdefault((column.name, *of), row)
    before = value_of(earlier, column)
    if before == value:
        return []
    wanted = (
        f"Line {earlier.line} has {quoted(column.said(before))} for {whose}. "
        "Use the same value in both lines, or fill in only one"
    )
    return [RosterFault(line=row.line, column=column.name, found=quoted(column.said(value)), wanted=wanted)]


def _unnamed_families(rows: list[RosterRow]) -> list[RosterFault]:
    named: dict[str, RosterRow] = {}
    for row in rows:
        if row.family is not None and name_key(row.family) != name_key(row.student):
            named.setdefault(name_key(row.student), row)
    faults = []
    for row in rows:
        other = named.get(name_key(row.student))
        if row.family is None and other is not None:
            wanted = (
                f"Write {quoted(other.family or '')} as in line {other.line}, or {quoted(row.student)} "
                f"if this is another {row.student}"
            )
            faults.append(RosterFault(line=row.line, column="family", found="nothing", wanted=wanted))
    return faults


def _repeated(row: RosterRow, line: int) -> RosterFault:
    found = f"{WEEKDAYS[row.weekday]} {clock_time(row.at, 24)} for {row.student} again"
    wanted = (
        f"Line {line} already has this weekly time. Delete one, or give them dates (from, until) that do not overlap"
    )
    return RosterFault(line=row.line, column="time", found=found, wanted=wanted)
