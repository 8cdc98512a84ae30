"""The text of a roster as a table: which separator, which cells, on which line, and which column stands where."""

import csv
import difflib
import io
import re
from collections.abc import Generator, Iterator, Mapping, Sequence
from itertools import islice

from cockpit.studio.clocks.words import counted
from cockpit.studio.roster.columns import COLUMNS, NEEDED_COLUMNS, RosterFault, quoted
from cockpit.studio.values import Value

_SEPARATORS = (",", ";", "\t")
_SEPARATOR_LINE = re.compile(r"sep=[,;\t]\s*", re.IGNORECASE)  # what a spreadsheet puts before the header
# Passed over, they would cost her a lesson.
_OTHER_WORDS = {
    "tz": "zone",
    "link": "call_link",
    **dict.fromkeys(("lastday", "lastdate", "lastlesson", "stopdate", "through", "thru", "untildate"), "until"),
    **dict.fromkeys(("begins", "firstday", "firstdate", "firstlesson", "since"), "from"),
    **dict.fromkeys(("cycle", "frequency", "howoften", "interval", "recurrence", "repeat", "repeats", "rhythm"), "every_weeks"),
}  # fmt: skip
_ENDS = frozenset(["end", "ends", "endsat", "endtime", "finish", "finishes", "finishtime", "stop", "to"])
# The names that sheets have for our columns; each is told as what it was read as.
_SAME = {
    "day": "weekday",
    "dayofweek": "weekday",
    "duration": "minutes",
    "emailaddress": "email",
    "enddate": "until",
    "familyname": "family",
    "guardianname": "guardian",
    "guardians": "guardian",
    "length": "minutes",
    "lessonlength": "minutes",
    "name": "student",
    "phonenumber": "phone",
    "start": "time",
    "startdate": "from",
    "starttime": "time",
    "studentname": "student",
    "telephone": "phone",
    "timezone": "zone",
}
_SEARCHED = 10  # lines for the column names; what stands above them is a title
_ENOUGH = 2  # names of columns in a line that is one of column names
_NEAR = 0.8  # an added, lost or wrong letter in five; "phone" for "zone" has 0.67, "room" for "from" 0.75


class RosterLine(Value):
    """The cells of a row, stripped, and the line of the file on which it begins (the first is 1).

    `spaced` are the places of cells behind a comma and a space, in a row in which other cells are behind a comma alone.
    """

    number: int
    cells: tuple[str, ...]
    spaced: frozenset[int] = frozenset()


class RosterText(Value):
    """The rows of a file that are not empty, the header among them, and the faults of its form."""

    lines: tuple[RosterLine, ...]
    faults: tuple[RosterFault, ...]


def read_text(text: str) -> RosterText:
    """The rows of a text separated by commas, semicolons or tabs, with a byte-order mark or not.

    Of the three separators it is the one whose header has the most columns of ours, then the most cells.
    """
    physical = list(io.StringIO(text.removeprefix("\ufeff"), newline=""))  # ends lines where the csv module does
    faults = _no_text(physical)
    physical = [line.replace("\0", "") for line in physical]
    if physical and _SEPARATOR_LINE.fullmatch(physical[0]):
        physical[0] = "\n"
    if not any("".join(line.split()).strip(',;"') for line in physical):
        return RosterText(lines=(), faults=(*faults, _empty_file()))
    separator = max(_SEPARATORS, key=lambda candidate: _fit(physical, candidate))
    lines: list[RosterLine] = []
    for found in _rows(physical, separator):
        if isinstance(found, RosterFault):
            faults.append(found)
        elif any(found.cells):
            lines.append(found)
    return RosterText(lines=tuple(lines), faults=tuple(faults))


def _fit(physical: list[str], separator: str) -> tuple[int, int]:
    rows = (found for found in _rows(physical, separator) if isinstance(found, RosterLine) and any(found.cells))
    first = list(islice(rows, _SEARCHED))
    if not first:
        return 0, 0
    header = first[header_place(first)]
    return sum(_ours(name) is not None for name in header.cells), len(header.cells)


def header_place(lines: Sequence[RosterLine]) -> int:
    """Which of the lines has the column names (0 is the first): the first one, unless only a later one has several."""
    found = (place for place, line in enumerate(lines[:_SEARCHED]) if sum(map(bool, map(_ours, line.cells))) >= _ENOUGH)
    return next(found, 0)


def is_header_again(line: RosterLine, header: RosterLine) -> bool:
    """Whether a row says the column names once more, as a sheet does on each of its pages."""
    return [*map(column_key, line.cells)] == [*map(column_key, header.cells)]


def _rows(physical: list[str], separator: str) -> Iterator[RosterLine | RosterFault]:
    begins = 0
    while begins < len(physical):
        begins = yield from _rows_to_bad_quote(physical, begins, separator)


def _rows_to_bad_quote(
    physical: list[str], begins: int, separator: str
) -> Generator[RosterLine | RosterFault, None, int]:
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
            spaced = _spaced(physical[place]) if separator == "," else frozenset()
            yield RosterLine(number=place + 1, cells=tuple(cell.strip() for cell in cells), spaced=spaced)
    return len(physical)


def _spaced(line: str) -> frozenset[int]:
    """The places of cells behind a comma and a space, where not all are; of a row with quotation marks nothing is said."""
    cells = line.split(",") if ", " in line and '"' not in line else []
    found = frozenset(place for place, cell in enumerate(cells) if place and cell.startswith(" ") and cell.strip())
    return found if len(found) < len(cells) - 1 else frozenset()


def _no_text(physical: list[str]) -> list[RosterFault]:
    numbers = [number for number, line in enumerate(physical, start=1) if "\0" in line]
    if not numbers:
        return []
    more = f" (and in {counted(len(numbers) - 1, 'more line')})" if len(numbers) > 1 else ""
    found = f"a NUL character, which a text file cannot have{more}"
    return [RosterFault(line=numbers[0], found=found, wanted="Save the file again as CSV in UTF-8")]


def _empty_file() -> RosterFault:
    wanted = f"Start the file with a line of column names, such as {','.join(NEEDED_COLUMNS)}"
    return RosterFault(line=1, found="an empty file", wanted=wanted)


def _bad_quote(number: int, line: str, *, is_closed: bool) -> RosterFault:
    found = "an opening quotation mark with no closing one"
    if is_closed:
        found = "text after a closing quotation mark"
    wanted = 'Put a quotation mark at each end of the cell, and double any that belong to the text ("")'
    return RosterFault(line=number, found=f"{found}, in {quoted(line)}", wanted=wanted)


class Header(Value):
    """Where each of our columns stands (0 is the first), what is wrong with the names, and what is not used.

    A misspelled column has its place too, so that the faults in its cells are told in the same go.
    """

    width: int
    places: Mapping[str, int]
    faults: tuple[RosterFault, ...]
    notices: tuple[str, ...]
    nameless: frozenset[int] = frozenset()

    @property
    def date_places(self) -> tuple[int, ...]:
        """Where the columns of dates stand."""
        return tuple(self.places[name] for name in ("from", "until") if name in self.places)


def read_header(line: RosterLine) -> Header:
    """The header that the first row of a roster is."""
    names = [name for name in line.cells if name]
    places: dict[str, int] = {}
    faults: list[RosterFault] = []
    near: list[tuple[int, str]] = []
    notices: list[str] = []
    for place, name in enumerate(line.cells):
        column = _ours(name)
        if column is not None and column in places:
            faults.append(_twice(line, column, (places[column], place)))
        elif column is not None:
            places[column] = place
        elif column_key(name) in _ENDS:
            faults.append(_of_ends(line, place))
        elif (meant := _near(column_key(name))) is not None:
            near.append((place, meant))
        elif name:
            notices.append(f"The column {quoted(name)} is not used.")
    notices += _renamed(line, places)
    for place, meant in near:
        faults.append(_misspelled(line, place, meant, is_there=meant in places))
        places.setdefault(meant, place)
    faults += [_missing(line.number, column, names) for column in NEEDED_COLUMNS if column not in places]
    return Header(
        width=_width(line.cells),
        places=places,
        faults=tuple(faults),
        notices=tuple(dict.fromkeys(notices)),
        nameless=frozenset(place for place, name in enumerate(line.cells) if not name),
    )


def column_key(name: str) -> str:
    """The form in which two spellings of a column's name are equal: without case, spaces, underscores and hyphens."""
    return "".join(name.casefold().replace("_", " ").replace("-", " ").split())


_OURS = {column_key(column): column for column in COLUMNS}


def _ours(name: str) -> str | None:
    key = column_key(name)
    return _OURS.get(key) or _SAME.get(key)


def _renamed(line: RosterLine, places: Mapping[str, int]) -> list[str]:
    """A sentence about each column that has another name in the file than with us."""
    names = {
        line.cells[place]: column for column, place in places.items() if column_key(line.cells[place]) not in _OURS
    }
    return [f"The column {quoted(name)} was read as {column}." for name, column in names.items()]


def _near(key: str) -> str | None:
    if key in _OTHER_WORDS:
        return _OTHER_WORDS[key]
    names = _OURS | _SAME
    for ours, column in names.items():
        if key and sorted(key) == sorted(ours):  # two letters changed places, which counts for more in a short word
            return column
    return next((names[ours] for ours in difflib.get_close_matches(key, names, n=1, cutoff=_NEAR)), None)


def _width(cells: tuple[str, ...]) -> int:
    return max((place + 1 for place, name in enumerate(cells) if name), default=0)


def _twice(line: RosterLine, column: str, places: tuple[int, int]) -> RosterFault:
    first, second = places
    found = f"this column twice ({_nth(first)} and {_nth(second)} in the file)"
    names = [line.cells[place] for place in places]
    if not all(column_key(name) in _OURS for name in names):
        found = f"{quoted(names[0])} and {quoted(names[1])} ({_nth(first)} and {_nth(second)} in the file)"
    return RosterFault(line=line.number, column=column, found=found, wanted="Keep one of them")


def _misspelled(line: RosterLine, place: int, meant: str, *, is_there: bool) -> RosterFault:
    name = line.cells[place]
    wanted = f'Did you mean "{meant}"? Rename the column or delete it'
    if is_there:
        wanted = f'The file already has a column "{meant}". Delete this one or rename it'
    return RosterFault(line=line.number, column=name, found=f"a column {quoted(name)}", wanted=wanted)


def _of_ends(line: RosterLine, place: int) -> RosterFault:
    name = line.cells[place]
    wanted = (
        'Rename it "until" if it has the last day. If it has the time when a lesson ends, write the length in a column '
        '"minutes" and delete this one'
    )
    return RosterFault(line=line.number, column=name, found=f"a column {quoted(name)}", wanted=wanted)


def _missing(line: int, column: str, names: list[str]) -> RosterFault:
    return RosterFault(
        line=line,
        column=column,
        found=f"no such column; the file has {quoted(', '.join(names))}",
        wanted=f'Add a column "{column}". Separate columns with commas, semicolons, or tabs',
    )


def _nth(place: int) -> str:
    number = place + 1
    ending = {1: "st", 2: "nd", 3: "rd"}.get(0 if number in {11, 12, 13} else number % 10, "th")
    return f"{number}{ending}"
