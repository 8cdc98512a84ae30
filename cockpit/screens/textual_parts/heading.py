"""The heading of a pane, and the title of a screen."""

from rich.cells import cell_len
from textual.content import Content
from textual.geometry import Size
from textual.widget import Widget

from cockpit.screens.look.show import cut, heading, placed, role


class Heading(Widget):
    """What a pane shows, in capitals, a rule, and a count at its end; the rule is heavy where the pane has the keys."""

    def __init__(self, words: str = "", count: str = "") -> None:
        super().__init__(classes="heading")
        self.words = words
        self.count = count
        self._style = ""

    def say(self, words: str, count: str = "", style: str = "") -> None:
        """Shows other words; nothing is painted where they are the same."""
        if (words, count, style) != (self.words, self.count, self._style):
            self.words, self.count, self._style = words, count, style
            self.refresh()

    def render(self) -> Content:
        """The heading in its width."""
        pane = self.parent
        has_keys = isinstance(pane, Widget) and pane.has_focus_within
        return heading(self.words, self.content_size.width, self.count, style=self._style, has_keys=has_keys)


class Title(Widget):
    """Which screen this is, in capitals, what it shows, and a count: at the right end, or in a row of its own.

    Where the name does not fit beside the words, it gives way.
    """

    def __init__(self, name: str) -> None:
        super().__init__()
        self.said = ""
        self.count = ""
        self._where = name.upper()

    def say(self, said: str, count: str = "") -> None:
        """Shows other words."""
        self.said, self.count = said, count
        self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 as there
        """One row, or two."""
        return len(self._rows(width))

    def render(self) -> Content:
        """The title in its width."""
        return Content("\n").join(self._rows(self.content_size.width))

    def _rows(self, width: int) -> list[Content]:
        at = cell_len(self._where) + 2
        at = at if at + cell_len(self.said) <= width else 0
        name = (0, self._where if at else "", role("text", "bold"))
        said = (at, cut(self.said, max(0, width - at)), role("text"))
        is_beside = at + cell_len(self.said) + 2 + cell_len(self.count) <= width
        count = (max(0, width - cell_len(self.count)) if is_beside else 0, cut(self.count, width), role("quiet"))
        return [placed(width, name, said, *([count] if is_beside else []))] + [placed(width, count)] * (not is_beside)
