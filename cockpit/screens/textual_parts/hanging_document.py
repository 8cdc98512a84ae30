"""A wrapped text whose lines hang: all rows of a line but the first stand two columns to the right."""

from textual.document._document import Location
from textual.document._wrapped_document import WrappedDocument
from textual.geometry import Offset

HANG = 2


class HangingDocument(WrappedDocument):
    """Textual's wrapped text; what it says of columns counts the indent, so that cursor, taps and arrows find their place.

    It is wrapped in rows that leave room for the indent, the first rows too: Textual wraps in one width.
    """

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
