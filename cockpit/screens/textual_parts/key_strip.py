"""The key strip at the bottom of every screen."""

from rich.cells import cell_len
from textual import events
from textual.content import Content
from textual.message import Message
from textual.widget import Widget

from cockpit.screens.commands.commands import Command, key_name
from cockpit.screens.look.show import placed, role
from cockpit.studio.values import Value

_AT_THE_END = "app.show_help"


class _Item(Value):
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
        """As many commands as fit on the row, in their order of use; Help stands at its end."""
        pieces = [(item.begins, _key_of(item.command), role("text", "bold")) for item in self._items]
        words = [
            (item.begins + cell_len(_key_of(item.command)), item.command.short, role("quiet")) for item in self._items
        ]
        return placed(self.content_size.width, *pieces, *words)

    def on_click(self, event: events.Click) -> None:
        """Does what was tapped."""
        place = event.get_content_offset_capture(self)
        for item in self._items:
            if item.begins <= place.x < item.ends:
                event.stop()
                self.post_message(self.Tapped(item.command.id))

    @property
    def _items(self) -> list[_Item]:
        """Where each command stands; asked again at a tap, since the strip may not have been painted since it changed."""
        width = self.content_size.width
        last = [command for command in self._commands if command.id == _AT_THE_END]
        end = width - sum(map(_length, last))
        items = [_Item(begins=end, ends=width, command=command) for command in last]
        column = 0
        for command in self._commands:
            if command not in last and column + _length(command) + (2 if last else 0) <= end:
                items.append(_Item(begins=column, ends=column + _length(command), command=command))
                column += _length(command) + 2
        return sorted(items, key=lambda item: item.begins)


def _length(command: Command) -> int:
    return cell_len(_key_of(command)) + cell_len(command.short)


def _key_of(command: Command) -> str:
    return f"{key_name(command.keys[0])} " if command.keys else ""
