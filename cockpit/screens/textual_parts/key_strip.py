"""The key strip at the bottom of every screen."""

from dataclasses import dataclass

from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from cockpit.screens.commands.commands import Command, key_name
from cockpit.screens.look.show import role


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
