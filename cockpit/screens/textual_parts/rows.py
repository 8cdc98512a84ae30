"""A list of rows, laid out for its width, in which the chosen one can be read, whatever colors its words have."""

from collections.abc import Callable, Iterable, Sequence
from typing import TYPE_CHECKING

from rich.segment import Segment
from rich.style import Style as RichStyle
from textual.binding import Binding
from textual.content import Content
from textual.geometry import Size
from textual.strip import Strip
from textual.visual import Visual
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.screens.look.show import CHOSEN, heading

if TYPE_CHECKING:
    from textual.css.styles import RulesMap
    from textual.style import Style
    from textual.visual import RenderOptions

_SPACED = 40  # rows of the screen from which on an empty row stands between groups
_BESIDE = 2  # columns: the margins; the scrollbar stands in the right one


class Rows(OptionList):
    """Textual's list; the words of the chosen row give up their own colors, which were made for another ground."""

    is_walked = False  # its cursor is moved from a field that has the keys
    rules_group = False  # the heading of the group with the cursor has the heavy rule, while the keys are here
    _group_at: int | None = None
    _draw: Callable[[int], Sequence[Option]] | None = None
    _drawn_for = Size()

    def lay_out(self, draw: Callable[[int], Sequence[Option]]) -> None:
        """Shows the rows that `draw` makes for so many columns, and makes them anew for a screen of another size."""
        self._draw, self._drawn_for = draw, self.app.size
        self.show_again(self.laid_out(draw))

    def laid_out(self, draw: Callable[[int], Sequence[Option]]) -> Sequence[Option]:
        """The rows that `draw` makes for the screen as it is, with what stands between them."""
        options = draw(self.columns)
        return _spaced(options) if self.app.size.height >= _SPACED else options

    @property
    def columns(self) -> int:
        """How many columns a row has: those of the screen without its margins."""
        return self.app.size.width - _BESIDE

    def on_resize(self) -> None:
        """Lays the rows out anew."""
        if self._draw is not None and self._drawn_for != self.app.size:
            self.lay_out(self._draw)

    @property
    def choosable(self) -> list[int]:
        """The places of the rows that the cursor can be on."""
        return [place for place, option in enumerate(self.options) if not option.disabled]

    def show_again(self, options: Sequence[Option]) -> None:
        """Shows these rows; the cursor stays on the one that it was on, or goes to the first that can be chosen."""
        here = self.highlighted_option.id if self.highlighted_option is not None else None
        self._group_at = None
        self.set_options(options)
        ids = [option.id for option in options]
        first = next((place for place, option in enumerate(options) if not option.disabled), None)
        self.highlighted = ids.index(here) if here is not None and here in ids else first

    def watch_highlighted(self, highlighted: int | None) -> None:
        """Draws the rules of the group that the cursor left and of the one that it came into."""
        super().watch_highlighted(highlighted)
        self._rule_group()

    def watch_has_focus(self, has_focus: bool) -> None:  # noqa: FBT001 as there
        """Draws the rule of the cursor's group anew: it is heavy while the keys are here."""
        super().watch_has_focus(has_focus)
        self._rule_group()

    def _rule_group(self) -> None:
        if not self.rules_group:
            return
        is_here = self.highlighted is not None and (self.has_focus or self.is_walked)
        above = self.options[: self.highlighted] if is_here else []
        here = max((place for place, option in enumerate(above) if isinstance(option, GroupHeading)), default=None)
        before, self._group_at = self._group_at, here
        if before == here:
            return
        for place in (before, here):
            if place is not None and isinstance(option := self.options[place], GroupHeading):
                self.replace_option_prompt_at_index(place, option.drawn(has_keys=place == here))

    def scroll_to_highlight(self, top: bool = False) -> None:  # noqa: FBT001, FBT002 as there
        """Brings the chosen row into sight, and with the first of a group its heading."""
        super().scroll_to_highlight(top)
        first = self.highlighted
        while first and self.get_option_at_index(first - 1).disabled:
            first -= 1
        if first is not None and first != self.highlighted and (line := self._index_to_line.get(first)) is not None:
            self.scroll_to(y=min(self.scroll_offset.y, line), animate=False, force=True, immediate=True)

    def render_line(self, y: int) -> Strip:
        """One line of the list."""
        strip = super().render_line(y)
        if not (self.has_focus or self.is_walked) or self.highlighted is None or not self._is_chosen(strip):
            return strip
        chosen = self.get_component_rich_style("option-list--option-highlighted")
        colors = RichStyle(color=chosen.color, bgcolor=chosen.bgcolor)
        segments = [Segment(part.text, (part.style or RichStyle()) + colors, part.control) for part in strip]
        return Strip(segments, strip.cell_length)

    def _is_chosen(self, strip: Strip) -> bool:
        return any(part.style is not None and part.style.meta.get("option") == self.highlighted for part in strip)


class SeenRow(Visual):
    """A row of one line that is drawn when it is first seen: of thousands, most never are."""

    def __init__(self, draw: Callable[[], Content]) -> None:
        self._draw = draw
        self._drawn: Content | None = None

    @property
    def drawn(self) -> Content:
        """The row."""
        if self._drawn is None:
            self._drawn = self._draw()
        return self._drawn

    def __str__(self) -> str:
        """Its words."""
        return self.drawn.plain

    def render_strips(self, width: int, height: int | None, style: "Style", options: "RenderOptions") -> list[Strip]:
        """Draws it."""
        return self.drawn.render_strips(width, height, style, options)

    def get_optimal_width(self, rules: "RulesMap", container_width: int) -> int:  # noqa: ARG002 as there
        """All there is."""
        return container_width

    def get_height(self, rules: "RulesMap", width: int) -> int:  # noqa: ARG002 as there
        """One line."""
        return 1


WALKING = [
    Binding("up", "walk(-1)", "Up", show=False),
    Binding("down", "walk(1)", "Down", show=False),
    Binding("pageup", "turn(-1)", "Page up", show=False),
    Binding("pagedown", "turn(1)", "Page down", show=False),
    Binding("home", "go('first')", "First", show=False, priority=True),
    Binding("end", "go('last')", "Last", show=False, priority=True),
]
"""The keys of a screen with `WalkedRows`, which hands them on."""


class WalkedRows(Rows):
    """Rows below a field that keeps the keys: its up and down move the cursor here.

    A sign in the margin says where it is, and the heading of its group has the heavy rule.
    """

    is_walked = True
    rules_group = True

    def __init__(self, id: str | None = None) -> None:  # noqa: A002 as there
        super().__init__(id=id, classes="walked", markup=False)
        self.can_focus = False

    def walk(self, step: int) -> None:
        """Moves the cursor to the row before or after."""
        (self.action_cursor_down if step > 0 else self.action_cursor_up)()

    def turn(self, step: int) -> None:
        """Moves the cursor by a page."""
        if step > 0:
            self.action_page_down()  # type: ignore[no-untyped-call]  # Textual's own has no types
        else:
            self.action_page_up()  # type: ignore[no-untyped-call]

    def render_line(self, y: int) -> Strip:
        """One line of the list; the first of the chosen row has the sign in the margin."""
        strip = super().render_line(y)
        if (
            self.highlighted is None
            or not self._is_chosen(strip)
            or (y and self._is_chosen(super().render_line(y - 1)))
        ):
            return strip
        first, *_ = strip
        return Strip.join([Strip([Segment(CHOSEN, first.style)]), strip.crop(1)])


class GroupHeading(Option):
    """The heading of a group of rows behind a margin; where there is room, an empty row stands before it."""

    def __init__(
        self, words: str, width: int, count: str, *, has_keys: bool, margin: int = 0, is_spaced: bool = False
    ) -> None:
        self._words, self._width, self._count = words, width, count
        self._has_keys, self._margin, self._is_spaced = has_keys, margin, is_spaced
        super().__init__(self.drawn(has_keys=has_keys), disabled=True)

    def drawn(self, *, has_keys: bool) -> Content:
        """The heading; its rule is heavy where it `has_keys`."""
        line = heading(self._words, self._width, self._count, has_keys=has_keys).pad_left(self._margin)
        return Content("\n").join([Content(), line]) if self._is_spaced else line

    def spaced(self) -> "GroupHeading":
        """The same with an empty row before it."""
        return GroupHeading(
            self._words, self._width, self._count, has_keys=self._has_keys, margin=self._margin, is_spaced=True
        )


def lines_in(options: Iterable[Option]) -> int:
    """How many lines some rows have, as they are laid out."""
    return sum(str(option.prompt).count("\n") + 1 for option in options)


def group(words: str, width: int, count: object = "", *, has_keys: bool = False, margin: int = 0) -> GroupHeading:
    """Makes the heading of a group of rows, with its count. The `width` does not include the `margin`; the rule is heavy where `has_keys`."""
    return GroupHeading(words.upper(), width, str(count), has_keys=has_keys, margin=margin)


def _spaced(options: Sequence[Option]) -> list[Option]:
    """The rows with an empty one between groups."""
    return [each.spaced() if place and isinstance(each, GroupHeading) else each for place, each in enumerate(options)]
