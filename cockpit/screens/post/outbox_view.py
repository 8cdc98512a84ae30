"""The outbox as it is shown, without its keys."""

from collections.abc import Iterable

from textual.app import ComposeResult
from textual.widgets import OptionList, Static

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Postman
from cockpit.screens.base import CockpitScreen
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.post.outbox_rows import outbox_options
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.settings.settings import Settings
from cockpit.studio.post.outbox import outbox_words
from cockpit.studio.post.outgoing import OutgoingId

_STRIP = (
    "outbox.try_again", "outbox.try_all_again", "outbox.take_as_sent", "outbox.change_address", "outbox.withdraw",
    "outbox.show_ways", "outbox.close", "app.show_help", "app.command_palette", "app.quit",
)  # fmt: skip


class OutboxView(CockpitScreen):
    """Everything open, and what was settled in the last two weeks."""

    def __init__(
        self, desk: Desk, settings: Settings, postman: Postman | None, commands: tuple[Command, ...] = COMMANDS
    ) -> None:
        super().__init__()
        self._desk = desk
        self._settings = settings
        self._postman = postman
        self._all_commands = commands
        self._commands = {command.id: command for command in commands}

    def compose(self) -> ComposeResult:
        """A sum, the list, a notice, the keys."""
        yield Static("Outbox", classes="title", markup=False)
        yield Rows(id="outbox", markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """Shows it."""
        self.show_outbox()
        self.query_one(OptionList).focus()

    def commands_here(self) -> Iterable[Command]:
        """What can be done here."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.OUTBOX}]

    def show_outbox(self) -> None:
        """Looks again; the cursor stays on its line."""
        items = self._desk.outbox.entries()
        words = outbox_words(item.fate for item in items)
        self.query_one(".title", Static).update(f"Outbox: {words}" if words else "Outbox: everything is out")
        options = outbox_options(
            items, self._desk.outbox.families(), self._desk.clock.now(), self._settings.home, self._settings.hours
        )
        self.query_one(Rows).show_again(options)

    def chosen(self) -> OutgoingId | None:
        """The entry with the cursor."""
        option = self.query_one(OptionList).highlighted_option
        return OutgoingId(int(option.id)) if option is not None and option.id else None
