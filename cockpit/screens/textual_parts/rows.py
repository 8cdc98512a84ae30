"""A list of rows, laid out for its width, in which the chosen one can be read, whatever colors its words have."""

from collections.abc import Callable, Sequence

from rich.segment import Segment
from rich.style import Style
from textual.content import Content
from textual.geometry import Size
from textual.strip import Strip
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.screens.look.show import heading

_SPACED = 40  # rows of the screen from which on an empty row stands between groups
_BESIDE = 3  # columns: the padding of a list, and its scrollbar


class Rows(OptionList):
    """Textual's list; the words of the chosen row give up their own colors, which were made for another ground."""

    _draw: Callable[[int], Sequence[Option]] | None = None
    _drawn_for = Size()

    def lay_out(self, draw: Callable[[int], Sequence[Option]]) -> None:
        """Shows the rows that `draw` makes for so many columns, and makes them anew for a screen of another size."""
        self._draw, self._drawn_for = draw, self.app.size
        self.show_again(self.laid_out(draw))

    def laid_out(self, draw: Callable[[int], Sequence[Option]]) -> Sequence[Option]:
        """The rows that `draw` makes for the screen as it is, with what stands between them."""
        options = draw(self.app.size.width - _BESIDE)
        return _spaced(options) if self.app.size.height >= _SPACED else options

    def on_resize(self) -> None:
        """Lays the rows out anew."""
        if self._draw is not None and self._drawn_for != self.app.size:
            self.lay_out(self._draw)

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


class GroupHeading(Option):
    """The heading of a group of rows; where there is room, an empty row stands before it."""


def group(words: str, width: int, count: object = "", *, has_keys: bool = False) -> GroupHeading:
    """The heading of a group of rows, with its count; its rule is heavy where `has_keys`."""
    return GroupHeading(heading(words.upper(), width, str(count), has_keys=has_keys), disabled=True)


def _spaced(options: Sequence[Option]) -> list[Option]:
    """The rows with an empty one between groups."""
    return [
        GroupHeading(Content("\n").join([Content(), each.prompt]), disabled=True)
        if place and isinstance(each, GroupHeading) and isinstance(each.prompt, Content)
        else each
        for place, each in enumerate(options)
    ]
