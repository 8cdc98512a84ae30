"""The two widgets at the bottom of every screen: a notice, and the key strip."""

from dataclasses import dataclass
from textwrap import wrap

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from cockpit.screens.commands.command import Command, key_name
from cockpit.screens.look.show import cut, role
from cockpit.studio.shown import shown


@dataclass(frozen=True, slots=True)
class _Item:
    row: int
    begins: int
    ends: int
    command: Command


class KeyStrip(Widget):
    """The keys of this moment, each of which can be tapped. What does not fit is left to Help."""

    class Tapped(Message):
        """A command was tapped."""

        def __init__(self, command: str) -> None:
            super().__init__()
            self.command = command

    def __init__(self, commands: list[Command]) -> None:
        super().__init__(id="strip")
        self._commands = commands

    def offer(self, commands: list[Command]) -> None:
        """Shows the keys of another moment; nothing is painted where they are the same."""
        if commands != self._commands:
            self._commands = commands
            self.refresh()

    def render(self) -> Content:
        """As many commands as fit, in their order of use."""
        parts: list[tuple[str, str]] = []
        row = 0
        for item in self._items:
            if item.row > row:
                row = item.row
                parts.append(("\n", ""))
            key = _key_of(item.command)
            parts += [(key, role("key", "bold")), (f"{item.command.short}  ", role("text"))]
        return Content.assemble(*parts)

    def on_click(self, event: events.Click) -> None:
        """Does what was tapped."""
        place = event.get_content_offset_capture(self)
        for item in self._items:
            if item.row == place.y and item.begins <= place.x < item.ends:
                event.stop()
                self.post_message(self.Tapped(item.command.id))

    @property
    def _items(self) -> list[_Item]:
        """Where each command stands; asked again at a tap, since the strip may not have been painted since it changed."""
        width, height = self.size
        items: list[_Item] = []
        row = column = 0
        for command in self._commands:
            length = len(_key_of(command)) + len(command.short) + 2
            if column and column + length - 2 > width:
                row, column = row + 1, 0
            if row >= height:
                break
            items.append(_Item(row, column, column + length - 2, command))
            column += length
        return items


def _key_of(command: Command) -> str:
    return f"{key_name(command.keys[0])} " if command.keys else ""


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
