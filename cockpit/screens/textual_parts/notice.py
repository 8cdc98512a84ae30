"""The notice at the bottom of every screen."""

import re
from textwrap import wrap
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.content import Content
from textual.widget import Widget

from cockpit.screens.look.show import NEEDS_HER, role
from cockpit.studio.shown import shown

if TYPE_CHECKING:
    from textual.timer import Timer

_SECONDS, _SECONDS_OF_MORE = 5.0, 2.0  # to look up, and then to read; she looks already when more comes
_SIGNS_A_SECOND = 15
_SENTENCE_ENDS = re.compile(r"(?<=[.?!]) +")
_COUNT = len("  1/9")  # columns for which part it is


class Notice(Widget):
    """What just happened, in the one row of the key strip, for its time; a fault until the next sentence.

    The row is the whole of its room: any other would hide words of hers. What does not fit comes after it, part by part.
    """

    def __init__(self) -> None:
        super().__init__(id="notice")
        self.display = False
        self.sentence = ""
        self._is_fault = False
        self._place = 0
        self._goes: Timer | None = None
        self._waiting: dict[str, bool] | None = None

    def say(self, sentence: str, *, is_fault: bool = False) -> None:
        """Shows a sentence; it can name what a file or a server says."""
        if self._waiting is not None:
            self._waiting |= {sentence: is_fault} if sentence else {}
            return
        self.sentence, self._is_fault = shown(sentence), is_fault
        self.display = bool(sentence)
        self._show(0)

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
        """Shows the next part at a tap; after the last one it goes: the keys are below it."""
        if self._place + 1 < len(self.parts):
            self._show(self._place + 1)
        else:
            self.go()

    def on_resize(self) -> None:
        """Begins again with the parts that there are now."""
        if self.display and self._place:
            self._show(0)

    @property
    def parts(self) -> list[str]:
        """What is shown one after another; a fault has a sign before it, not only a color."""
        width = max(1, (self.screen.size.width if self.is_attached else 80) - 2)
        return notice_parts(f"{f'{NEEDS_HER} ' if self._is_fault else ''}{self.sentence}", width)

    def render(self) -> Content:
        """The part that is shown now, and at the end which one of how many it is."""
        parts = self.parts
        style = role("error", "bold") if self._is_fault else role("text")
        said = parts[min(self._place, len(parts) - 1)]
        count = f"{self._place + 1}/{len(parts)}" if len(parts) > 1 else ""
        blank = " " * max(0, self.content_size.width - cell_len(said) - len(count))
        return Content.assemble((said, style), blank, (count, role("quiet")))

    def _show(self, place: int) -> None:
        self._place = place
        if self._goes is not None:
            self._goes.stop()
        parts = self.parts
        seconds = (_SECONDS_OF_MORE if place else _SECONDS) + len(parts[place]) / _SIGNS_A_SECOND
        stays = self._is_fault and len(parts) == 1
        self._goes = None if stays or not self.sentence else self.set_timer(seconds, self._turn)
        self.refresh()

    def _turn(self) -> None:
        """Shows the next part; after the last one a fault begins again, and anything else goes."""
        if self._place + 1 < len(self.parts):
            self._show(self._place + 1)
        elif self._is_fault:
            self._show(0)
        else:
            self.go()


def notice_parts(words: str, width: int) -> list[str]:
    """Words in parts of one row each; a sentence begins a part where it does not fit behind the one before."""
    words = " ".join(words.split())  # a name can have a line break
    if cell_len(words) <= width:
        return [words]
    room = max(1, width - _COUNT)
    parts: list[str] = []
    for sentence in _SENTENCE_ENDS.split(words):
        if parts and cell_len(f"{parts[-1]} {sentence}") <= room:
            parts[-1] = f"{parts[-1]} {sentence}"
        else:
            parts += wrap(sentence, room)
    return parts
