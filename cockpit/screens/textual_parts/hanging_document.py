"""A wrapped text whose lines hang: all rows of a line but the first stand two columns to the right."""

from types import FunctionType

from rich.cells import cell_len
from textual._wrap import compute_wrap_offsets as plain_offsets
from textual.document import _wrapped_document
from textual.document._document import Location
from textual.document._wrapped_document import WrappedDocument
from textual.geometry import Offset

from cockpit.screens.look.show import kept_together

HANG = 2


def hanging_offsets(
    text: str, width: int, tab_size: int, *, precomputed_tab_sections: list[tuple[str, int]] | None = None
) -> list[int]:
    """Where the rows of a line after the first begin, each of them indented; a number keeps its unit.

    A line with tabs is wrapped in one width: how wide a tab is depends on the row that it stands in.
    """
    indented = max(1, width - HANG)
    if "\t" in text:
        return plain_offsets(text, indented, tab_size, precomputed_tab_sections=precomputed_tab_sections)
    if cell_len(text) <= width:
        return []
    joined = kept_together(text, indented)
    first = next(iter(plain_offsets(joined, width, tab_size)), None)
    if first is None:
        return []
    return [first, *(first + each for each in plain_offsets(joined[first:], indented, tab_size))]


def _hanging(name: str) -> FunctionType:
    """A method of Textual's, which asks `hanging_offsets` where rows begin: it takes one width for all rows of a line."""
    method: FunctionType = vars(WrappedDocument)[name]
    names = {**vars(_wrapped_document), "compute_wrap_offsets": hanging_offsets}
    return FunctionType(method.__code__, names, name, method.__defaults__, method.__closure__)


_wrap, _wrap_range = _hanging("wrap"), _hanging("wrap_range")


class HangingDocument(WrappedDocument):
    """Textual's wrapped text; what it says of columns counts the indent, so that cursor, taps and arrows find their place."""

    def wrap(self, width: int, tab_width: int | None = None) -> None:
        """Wraps all lines in rows of a width."""
        _wrap(self, width, tab_width)

    def wrap_range(self, start: Location, old_end: Location, new_end: Location) -> None:
        """Wraps the lines that an edit has touched."""
        _wrap_range(self, start, old_end, new_end)

    def line_and_section(self, row: int) -> tuple[int, int]:
        """The line of the text that is drawn on a row, and which of its own rows that is."""
        return self._offset_to_line_info[row]

    def location_to_offset(self, location: Location) -> Offset:
        """Where a place in the text is drawn."""
        x, y = super().location_to_offset(location)
        _, section = self.line_and_section(y)
        return Offset(x + HANG if section else x, y)

    def get_target_document_column(self, line_index: int, x_offset: int, y_offset: int) -> int:
        """The column of the text that is drawn at a column of a row; rows are counted from 0, or from -1 backward."""
        is_first = y_offset % len(self.get_sections(line_index)) == 0
        return super().get_target_document_column(
            line_index, x_offset if is_first else max(0, x_offset - HANG), y_offset
        )
