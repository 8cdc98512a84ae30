"""The heading of a pane."""

from textual.content import Content
from textual.widget import Widget

from cockpit.screens.look.show import heading


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
