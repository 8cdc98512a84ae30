"""The header of a roster: which column stands where, and which names are not ours."""

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from cockpit.studio.roster.rows import COLUMNS, NEEDED_COLUMNS, RosterFault, quoted
from cockpit.studio.roster.text import Line

_OTHER_WORDS = {"timezone": "zone", "tz": "zone", "link": "call_link"}  # passed over, they would cost her a lesson
_NEAR = 0.8  # an added, lost or wrong letter in five; "phone" for "zone" has 0.67, "room" for "from" 0.75


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """Where each of our columns stands (0 is the first), what is wrong with the names, and what is not used.

    A misspelled column has its place too, so that the faults in its cells are told in the same go.
    """

    width: int
    places: Mapping[str, int]
    faults: tuple[RosterFault, ...]
    notices: tuple[str, ...]


def read_header(line: Line) -> Header:
    """The header that the first row of a roster is."""
    names = [name for name in line.cells if name]
    places: dict[str, int] = {}
    faults: list[RosterFault] = []
    near: list[tuple[int, str]] = []
    notices: list[str] = []
    for place, name in enumerate(line.cells):
        column = _OURS.get(column_key(name))
        if column is not None and column in places:
            faults.append(_twice(line.number, column, (places[column], place)))
        elif column is not None:
            places[column] = place
        elif (meant := _near(column_key(name))) is not None:
            near.append((place, meant))
        elif name:
            notices.append(f"The column {quoted(name)} is not used.")
    for place, meant in near:
        faults.append(_misspelled(line, place, meant, is_there=meant in places))
        places.setdefault(meant, place)
    faults += [_missing(line.number, column, names) for column in NEEDED_COLUMNS if column not in places]
    return Header(width=_width(line.cells), places=places, faults=tuple(faults), notices=tuple(dict.fromkeys(notices)))


def column_key(name: str) -> str:
    """The form in which two spellings of a column's name are equal: without case, spaces, underscores and hyphens."""
    return "".join(name.casefold().replace("_", " ").replace("-", " ").split())


def known_columns(names: Iterable[str]) -> int:
    """How many of the names are columns of ours."""
    return sum(column_key(name) in _OURS for name in names)


_OURS = {column_key(column): column for column in COLUMNS}


def _near(key: str) -> str | None:
    if key in _OTHER_WORDS:
        return _OTHER_WORDS[key]
    for ours, column in _OURS.items():
        if key and sorted(key) == sorted(ours):  # two letters changed places, which counts for more in a short word
            return column
    return next((_OURS[ours] for ours in difflib.get_close_matches(key, _OURS, n=1, cutoff=_NEAR)), None)


def _width(cells: tuple[str, ...]) -> int:
    return max((place + 1 for place, name in enumerate(cells) if name), default=0)


def _twice(line: int, column: str, places: tuple[int, int]) -> RosterFault:
    first, second = places
    found = f"this column twice, as the {_nth(first)} and the {_nth(second)} of the file"
    return RosterFault(line=line, column=column, found=found, wanted="keep one of them")


def _misspelled(line: Line, place: int, meant: str, *, is_there: bool) -> RosterFault:
    name = line.cells[place]
    wanted = f'did you mean "{meant}"? Write it so, or take the column out'
    if is_there:
        wanted = f'there is a column "{meant}" already, so take this one out or give it quite another name'
    return RosterFault(line=line.number, column=name, found=f"a column {quoted(name)}", wanted=wanted)


def _missing(line: int, column: str, names: list[str]) -> RosterFault:
    return RosterFault(
        line=line,
        column=column,
        found=f"no such column, but {quoted(', '.join(names))}",
        wanted=f'add a column "{column}"; columns are separated by commas, semicolons or tabs',
    )


def _nth(place: int) -> str:
    number = place + 1
    ending = {1: "st", 2: "nd", 3: "rd"}.get(0 if number in {11, 12, 13} else number % 10, "th")
    return f"{number}{ending}"
