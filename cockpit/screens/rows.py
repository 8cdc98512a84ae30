"""A list of rows in which the chosen one can be read, whatever colors its words have."""

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widgets import OptionList


class Rows(OptionList):
    """Textual's list; the words of the chosen row give up their own colors, which were made for another ground."""

    def render_line(self, y: int) -> Strip:
        """One line of the list."""
        strip = super().render_line(y)
        if not self.has_focus or self.highlighted is None or not self._is_chosen(strip):
            return strip
        chosen = self.get_component_rich_style("option-list--option-highlighted")
        colors = Style(color=chosen.color, bgcolor=chosen.bgcolor)
        segments = [Segment(part.text, (part.style or Style()) + colors, part.control) for part in strip]
        return Strip(segments, strip.cell_length)

    def _is_chosen(self, strip: Strip) -> bool:
        return any(part.style is not None and part.style.meta.get("option") == self.highlighted for part in strip)
