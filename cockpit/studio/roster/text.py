"""The text of a roster as rows of cells: which separator, which cells, on which line of the file."""

import csv
import io
import re
from collections.abc import Callable, Generator, Iterable, Iterator
from dataclasses import dataclass

from cockpit.studio.clocks.words import counted
from cockpit.studio.roster.rows import NEEDED_COLUMNS, RosterFault, quoted

_SEPARATORS = (",", ";", "\t")
_SEPARATOR_LINE = re.compile(r"sep=[,;\t]\s*", re.IGNORECASE)  # what a spreadsheet puts before the header


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """The cells of a row, stripped, and the line of the file on which it begins (the first is 1)."""

    number: int
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterText:
    """The rows of a file that are not empty, the header among them, and the faults of its form."""

    lines: tuple[Line, ...]
    faults: tuple[RosterFault, ...]


def read_text(text: str, fit: Callable[[Iterable[str]], int]) -> RosterText:
    """The rows of a text separated by commas, semicolons or tabs, with a byte-order mark or not.

    Of the three separators it is the one whose header has the best `fit`, then the most cells.
    """
    physical = list(io.StringIO(text.removeprefix("\ufeff"), newline=""))  # ends lines where the csv module does
    faults = _no_text(physical)
    physical = [line.replace("\0", "") for line in physical]
    if physical and _SEPARATOR_LINE.fullmatch(physical[0]):
        physical[0] = "\n"
    if not any("".join(line.split()).strip(',;"') for line in physical):
        return RosterText(lines=(), faults=(*faults, _empty_file()))
    separator = max(_SEPARATORS, key=lambda candidate: _fit(physical, candidate, fit))
    lines: list[Line] = []
    for found in _rows(physical, separator):
        if isinstance(found, RosterFault):
            faults.append(found)
        elif any(found.cells):
            lines.append(found)
    return RosterText(lines=tuple(lines), faults=tuple(faults))


def _fit(physical: list[str], separator: str, fit: Callable[[Iterable[str]], int]) -> tuple[int, int]:
    for found in _rows(physical, separator):
        if isinstance(found, Line) and any(found.cells):
            return fit(found.cells), len(found.cells)
    return 0, 0


def _rows(physical: list[str], separator: str) -> Iterator[Line | RosterFault]:
    begins = 0
    while begins < len(physical):
        begins = yield from _rows_to_bad_quote(physical, begins, separator)


def _rows_to_bad_quote(physical: list[str], begins: int, separator: str) -> Generator[Line | RosterFault, None, int]:
    """The rows from a line on (0 is the first), and the line to go on with.

    A quotation mark out of place swallows the lines down to the next one; they are read again, for their own faults.
    """
    rest = (physical[place] for place in range(begins, len(physical)))
    reader = csv.reader(rest, delimiter=separator, skipinitialspace=True, strict=True)
    while (place := begins + reader.line_num) < len(physical):
        try:
            cells = next(reader)
        except csv.Error as fault:
            yield _bad_quote(place + 1, physical[place], is_closed="expected after" in str(fault))
            return place + 1
        else:
            yield Line(number=place + 1, cells=tuple(cell.strip() for cell in cells))
    return len(physical)


def _no_text(physical: list[str]) -> list[RosterFault]:
    numbers = [number for number, line in enumerate(physical, start=1) if "\0" in line]
    if not numbers:
        return []
    more = f" (and in {counted(len(numbers) - 1, 'more line')})" if len(numbers) > 1 else ""
    found = f"a NUL character, which no text has{more}"
    return [RosterFault(line=numbers[0], found=found, wanted="save the file again as CSV, in UTF-8")]


def _empty_file() -> RosterFault:
    wanted = f"write a first line with the names of the columns, such as {','.join(NEEDED_COLUMNS)}"
    return RosterFault(line=1, found="an empty file", wanted=wanted)


def _bad_quote(number: int, line: str, *, is_closed: bool) -> RosterFault:
    found = "a quotation mark that opens a cell and is never closed"
    if is_closed:
        found = "a quotation mark that opens a cell, and more text behind the one that closes it"
    wanted = 'put one at each end of the cell, and write one that belongs to the text twice ("")'
    return RosterFault(line=number, found=f"{found}, in {quoted(line)}", wanted=wanted)
