"""The rows of the board on the curtain: the chosen thing first and largest, then the others; or the lines that a family will read."""

from collections.abc import Iterator, Sequence

from rich.cells import cell_len
from textual.content import Content

from cockpit.screens.lessons.figures import big_notes
from cockpit.screens.look.show import CHOSEN, Piece, hung, lines_of, role
from cockpit.studio.day.board import BoardEntry
from cockpit.studio.shown import shown
from cockpit.studio.values import Value

_MARGIN = 3  # columns before the words, with the sign of the chosen one in the first of them
_WIDEST_GAP, _USUAL_GAP = 7, 3  # blanks between two notes of the chosen thing, and of another
_LONGEST = 3  # signs of a note's name, as it is on average: Fis
_HIGH = 14  # rows from which on empty ones part the things

Row = list[Piece]


class BoardRow(Value):
    """A row of the board: what is in it, and the thing that a tap on it chooses."""

    pieces: Row
    entry: BoardEntry | None = None


def board_rows(entries: Sequence[BoardEntry], chosen: int, width: int, height: int) -> list[BoardRow]:
    """Lays out the board in so many columns and rows. Only whole things are shown; the last row counts those without room.

    That last row belongs to the first of those. A low room has no empty rows, unless all things have room with them.
    """
    ordered = (entries[chosen], *entries[:chosen], *entries[chosen + 1 :])
    airy = _things(ordered, width, [[]])
    things = airy if height >= _HIGH or sum(map(len, airy)) <= height else _things(ordered, width, [])
    rows = things[0][:height]
    for place, more in enumerate(things[1:], 1):
        is_last = place == len(things) - 1
        if len(rows) + len(more) + (not is_last) > height:
            left = [(_MARGIN, f"{len(things) - place} more", role("quiet"))]
            return [*rows[: height - 1], BoardRow(pieces=left, entry=ordered[place])]
        rows += more
    return rows


def _things(entries: Sequence[BoardEntry], width: int, blank: list[Row]) -> list[list[BoardRow]]:
    """The rows of each thing, the chosen one first, with a `blank` row between them or none."""
    room = width - _MARGIN
    first, *others = entries
    drawn = [(each, list(_other_rows(each, room))) for each in others]
    return [
        [BoardRow(pieces=row, entry=first) for row in (*blank, *_chosen_rows(first, room, blank))],
        *(
            [*(BoardRow(pieces=row) for row in blank), *(BoardRow(pieces=row, entry=each) for row in rows)]
            for each, rows in drawn
        ),
    ]


def family_rows(lines: Sequence[str], width: int, height: int) -> list[Row]:
    """The lines that a family will read, the last of them where not all have room: those are being written."""
    room = width - 2 * _MARGIN
    folded = [row for line in lines for row in hung(Content(shown(line)), room)]
    return [[(_MARGIN, row.plain, role("text"))] for row in folded[-height:]]


def _chosen_rows(entry: BoardEntry, room: int, blank: list[Row]) -> Iterator[Row]:
    words = shown(entry.words)
    apart = " ".join(words)
    for number, row in enumerate([apart] if cell_len(apart) < room else _wide(words, room, _USUAL_GAP)):
        sign: Row = [(1, CHOSEN, role("text", "bold"))] if number == 0 else []
        yield [*sign, (_MARGIN, row, role("text", "bold"))]
    yield from blank
    for each in entry.rows:
        large = _large(shown(each), room) if blank else None
        yield from ([(_MARGIN, row, role("text", "bold"))] for row in large or _wide(shown(each), room, _WIDEST_GAP))
        yield from blank if large else []
    yield from blank


def _large(words: str, room: int) -> list[str] | None:
    """Notes or counts out of blocks, where each sign has a drawing and all have room in a row."""
    found = (big_notes(words, gap) for gap in range(_WIDEST_GAP, _USUAL_GAP - 1, -1))
    return next((rows for rows in found if rows is not None and cell_len(rows[0]) < room), None)


def _other_rows(entry: BoardEntry, room: int) -> Iterator[Row]:
    yield from ([(_MARGIN, row, role("quiet"))] for row in _wide(shown(entry.words), room, 1))
    for each in entry.rows:
        yield from ([(_MARGIN, row, role("text"))] for row in _wide(shown(each), room, _USUAL_GAP))


def _is_notes(parts: Sequence[str]) -> bool:
    """Whether these are names of notes or counts, three signs each or fewer: a sentence is not spread."""
    return sum(map(len, parts)) <= _LONGEST * len(parts)


def _wide(words: str, room: int, widest: int) -> list[str]:
    """Notes with the widest gaps between them that have room in one row; in several rows where not even one blank has."""
    label, colon, rest = words.rpartition(":")
    parts = [*([label + colon] if colon else []), *rest.split()]
    if not _is_notes(rest.split()):
        return [row.plain for row in lines_of(Content(words), room - 1)]
    for gap in range(widest, 0, -1):
        if cell_len(row := (" " * gap).join(parts)) < room:
            return [row]
    return [row.plain for row in lines_of(Content("  ".join(parts)), room - 1)]
