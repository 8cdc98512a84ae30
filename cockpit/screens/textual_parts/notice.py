"""The notice at the bottom of every screen."""

from textwrap import wrap
from typing import TYPE_CHECKING

from textual.content import Content
from textual.widget import Widget

from cockpit.screens.look.show import NEEDS_HER, cut, role
from cockpit.studio.shown import shown

if TYPE_CHECKING:
    from textual.timer import Timer

_MOST_ROWS = 4
_SECONDS = 5.0  # to look up, and then to read
_SIGNS_A_SECOND = 15


class Notice(Widget):
    """One sentence about what just happened. It lies over the key strip for its time, a fault until the next sentence."""

    def __init__(self) -> None:
        super().__init__(id="notice")
        self.sentence = ""
        self._is_fault = False
        self._goes: Timer | None = None
        self._waiting: dict[str, bool] | None = None

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence; it can name what a file or a server says."""
        if self._waiting is not None:
            self._waiting |= {sentence: is_fault} if sentence else {}
            return
        self.sentence, self._is_fault = shown(sentence), is_fault
        if self._goes is not None:
            self._goes.stop()
        self._goes = None if is_fault else self.set_timer(_SECONDS + len(sentence) / _SIGNS_A_SECOND, self.go)
        self._fit()

    def wait(self) -> None:
        """Keeps what is said from now on, and what is shown now, until she can see it."""
        self._waiting = {}
        if self._goes is not None:
            self._goes.stop()

    def come(self) -> None:
        """Shows what was kept, each sentence once, and gives it its time from now on."""
        kept, self._waiting = self._waiting, None
        if kept:
            self.say(" ".join(kept), is_fault=any(kept.values()))
        elif self.display:
            self.say(self.sentence, is_fault=self._is_fault)

    def go(self) -> None:
        """Gives the keys their place again."""
        self.display = False

    def on_click(self) -> None:
        """Goes at a tap: the keys are below it."""
        self.go()

    def on_resize(self) -> None:
        """Takes the rows that the sentence needs now."""
        if self.display:
            self._fit()

    def render(self) -> Content:
        """The sentence; a fault has a sign before it, not only a color."""
        style = role("error", "bold") if self._is_fault else role("text")
        return Content.styled("\n".join(self._lines()), style)

    def _fit(self) -> None:
        self.display = bool(self.sentence)
        self.styles.height = len(self._lines())
        self.refresh()

    def _lines(self) -> list[str]:
        width = max(1, (self.screen.size.width if self.is_attached else 80) - 2)
        lines = wrap(f"{f'{NEEDS_HER} ' if self._is_fault else ''}{self.sentence}", width)
        if len(lines) > _MOST_ROWS:
            lines = [*lines[: _MOST_ROWS - 1], cut(" ".join(lines[_MOST_ROWS - 1 :]), width)]
        return lines
