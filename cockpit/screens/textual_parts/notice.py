"""The notice at the bottom of every screen."""

from textwrap import wrap

from textual.content import Content
from textual.widget import Widget

from cockpit.screens.look.show import cut, role
from cockpit.studio.shown import shown


class Notice(Widget):
    """One sentence about what just happened; it stays until the next one."""

    def __init__(self) -> None:
        super().__init__(id="notice")
        self.sentence = ""
        self._is_fault = False

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence; it can name what a file or a server says."""
        sentence = shown(sentence)
        if (sentence, is_fault) != (self.sentence, self._is_fault):
            self.sentence, self._is_fault = sentence, is_fault
            self.refresh()

    def render(self) -> Content:
        """The sentence; a fault has a sign before it, not only a color."""
        if not self.sentence:
            return Content("")
        style = role("error", "bold") if self._is_fault else role("text")
        lines = wrap(f"{'! ' if self._is_fault else ''}{self.sentence}", max(1, self.content_size.width))
        room = max(1, self.content_size.height)
        if len(lines) > room:
            lines = [*lines[: room - 1], cut(" ".join(lines[room - 1 :]), self.content_size.width)]
        return Content.styled("\n".join(lines), style)
