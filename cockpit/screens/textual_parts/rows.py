"""A list of rows in which the chosen one can be read, whatever colors its words have."""

from collections.abc import Sequence

from rich.segment import Segment
from rich.style import Style
from textual.strip import Strip
from textual.widgets import OptionList
from textual.widgets.option_list import Option


class Rows(OptionList):
    """Textual's list; the words of the chosen row give up their own colors, which were made for another ground."""

    def show_again(self, options: Sequence[Option]) -> None:
        """Shows these rows; the cursor stays on the one that it was on, or goes to the first that can be chosen."""
        here = self.highlighted_option.id if self.highlighted_option is not None else None
        self.set_options(options)
        ids = [option.id for option in options]
        first = next((place for place, option in enumerate(options) if not option.disabled), None)
        self.highlighted = ids.index(here) if here is not None and here in ids else first

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
