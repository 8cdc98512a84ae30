"""What the terminal shows, cell by cell, so that only cells that changed are written to it."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import groupby
from operator import itemgetter
from typing import TYPE_CHECKING

from rich.cells import get_character_cell_size
from rich.color import ColorSystem
from rich.control import Control
from textual.strip import Strip

from cockpit.screens.textual_parts.ink import PLAIN, ink_of, way

if TYPE_CHECKING:
    from rich.console import Console
    from rich.style import Style

Part = tuple[int, int, Strip]
"""A column, a row, and what stands there from that column on."""

_Style = tuple[str, str]  # what is written before and after
_Cell = tuple[str, str, _Style]  # a character, what is seen of its style, and its style
_PLAIN: _Style = ("", "")
_NEAR = 4  # cells that did not change are written again where a way over them would take as many bytes


class ChangedCells:
    """The cells of a screen as they were written last. A row with a character of another width than one is not known."""

    def __init__(self) -> None:
        self._rows: dict[int, list[_Cell] | None] = {}

    def forget(self) -> None:
        """Knows nothing any more: something else may have been written over it."""
        self._rows.clear()

    def written(self, console: "Console", parts: Iterable[Part]) -> str:
        """The bytes that have the terminal show the parts, of which it shows all that is not written here."""
        color_system = console._color_system or ColorSystem.TRUECOLOR  # noqa: SLF001 as Strip.render
        pen = _Pen()
        for x, y, strip in parts:
            cells = _cells_of(strip, color_system)
            row = self._rows.setdefault(y, [] if x == 0 else None)
            if row is None or cells is None or len(row) < x:
                self._rows[y] = None
                pen.move(x, y)
                pen.leave(strip.render(console))
                continue
            for first, last in _changed(row[x : x + len(cells)], cells):
                pen.move(x + first, y)
                pen.write(cells[first:last])
            row[x : x + len(cells)] = cells
        return pen.all_written()


class _Pen:
    """Writes cells, and neither a way nor a style that the last one left there."""

    def __init__(self) -> None:
        self._written: list[str] = []
        self._at = (-1, -1)
        self._style = _PLAIN
        self._ink = PLAIN
        self._closing = ""

    def move(self, x: int, y: int) -> None:
        column, row = self._at
        if self._at != (x, y):
            is_ahead = row == y and column < x
            self._written.append(f"\x1b[{x - column}C" if is_ahead else Control.move_to(x, y).segment.text)
        self._at = (x, y)

    def write(self, cells: list[_Cell]) -> None:
        for style, run in groupby(cells, key=itemgetter(2)):
            self._use(style)
            self._written.append("".join(map(itemgetter(0), run)))
        self._at = (self._at[0] + len(cells), self._at[1])

    def leave(self, text: str) -> None:
        """Writes what has its own styles, and does not know where that ends."""
        self._use(_PLAIN)
        self._written.append(text)
        self._at = (-1, -1)

    def all_written(self) -> str:
        self._use(_PLAIN)
        return "".join(self._written)

    def _use(self, style: _Style) -> None:
        if style == self._style:
            return
        ink = ink_of(style[0])
        codes, self._ink = way(self._ink, ink or PLAIN)
        self._written += [self._closing, codes, "" if ink else style[0]]
        self._closing = "" if ink else style[1]
        self._style = style


def _cells_of(strip: Strip, color_system: ColorSystem) -> list[_Cell] | None:
    cells: list[_Cell] = []
    for text, style, _ in strip:
        if not (text.isascii() or all(get_character_cell_size(character) == 1 for character in text)):
            return None
        written, of_a_blank = (_PLAIN, "") if style is None else _written(style, color_system)
        cells += [(sign, of_a_blank if sign == " " else written[0], written) for sign in text]
    return cells


@lru_cache(maxsize=1024)
def _written(style: "Style", color_system: ColorSystem) -> tuple[_Style, str]:
    """A style as it is written, and what of it is seen of a blank: the ground, unless there is more than letters to it."""
    before, _, after = Strip.render_style(style, "\0", color_system).partition("\0")
    has_more = style.reverse or style.underline or style.underline2 or style.strike or style.overline or style.link
    return (before, after), before if has_more else str(style.bgcolor)


def _changed(before: list[_Cell], after: list[_Cell]) -> Iterator[tuple[int, int]]:
    """The runs of cells that are others than before; near ones are one. What was not there is another one."""
    if not before:  # as in the whole of the first picture
        yield 0, len(after)
        return
    first = last = -1
    for place, cell in enumerate(after):
        if place < len(before) and before[place][:2] == cell[:2]:
            continue
        if first < 0:
            first = place
        elif place - last > _NEAR or any(each[2] != after[last][2] for each in after[last:place]):
            yield first, last + 1
            first = place
        last = place
    if first >= 0:
        yield first, last + 1
