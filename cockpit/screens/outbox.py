"""The outbox on the screen: what went out, what did not and why, and what can be done about it."""

from collections.abc import Callable, Iterable

from textual.app import ComposeResult
from textual.widgets import OptionList, Static

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Postman
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.command import Command, Where
from cockpit.screens.commands import COMMANDS
from cockpit.screens.entry import EntryScreen
from cockpit.screens.outbox_rows import outbox_options
from cockpit.screens.preview import PreviewScreen
from cockpit.screens.rows import Rows
from cockpit.screens.ways import WaysScreen
from cockpit.screens.widgets import KeyStrip, Notice
from cockpit.settings import Settings
from cockpit.studio.outbox import outbox_words
from cockpit.studio.outgoing import OutgoingId

_STRIP = (
    "outbox.try_again", "outbox.try_all_again", "outbox.take_as_sent", "outbox.change_address", "outbox.withdraw",
    "outbox.show_ways", "outbox.close", "app.show_help", "app.command_palette", "app.quit",
)  # fmt: skip


class OutboxScreen(CockpitScreen):
    """Everything open, and what was settled in the last two weeks. Enter shows what the family gets."""

    BINDINGS = bindings_for(Where.OUTBOX)

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
        listing = self.query_one(OptionList)
        here = listing.highlighted_option.id if listing.highlighted_option is not None else None
        options = outbox_options(
            items, self._desk.outbox.families(), self._desk.clock.now(), self._settings.home, self._settings.hours
        )
        listing.set_options(options)
        ids = [option.id for option in options]
        first = next((place for place, option in enumerate(options) if not option.disabled), None)
        listing.highlighted = ids.index(here) if here is not None and here in ids else first

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Shows what the family gets."""
        event.stop()
        chosen = self._chosen()
        if chosen is not None:
            self.attempt(lambda: self._preview(chosen))

    def action_try_again(self) -> None:
        """Sends the chosen notes now."""
        self._do(self._desk.outbox.try_again)

    def action_try_all_again(self) -> None:
        """Sends everything now that waits or was refused."""
        self._take(self._desk.outbox.try_all_again)

    def action_take_as_sent(self) -> None:
        """Settles a doubt."""
        self._do(self._desk.outbox.take_as_sent)

    def action_withdraw(self) -> None:
        """Does not send the chosen notes."""
        self._do(self._desk.outbox.withdraw)

    def action_change_address(self) -> None:
        """Asks for another address."""
        chosen = self._chosen()
        item = next((each for each in self._desk.outbox.entries() if each.id == chosen), None)
        if item is None:
            self.say("Choose notes first.", is_fault=True)
            return

        def typed(address: str | None) -> None:
            if address is not None:
                self._take(lambda: self._desk.outbox.change_address(item.id, address))

        title = f"In place of {item.address}" if item.address else f"An address for {item.student}'s family"
        self.app.push_screen(EntryScreen(title, "enter puts it into the roster and sends there · esc leaves it"), typed)

    def action_show_ways(self) -> None:
        """Shows the ways to send."""
        self.app.push_screen(WaysScreen(self._desk, self._postman, self._all_commands))

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)

    def _preview(self, item_id: OutgoingId) -> None:
        previewing = self._desk.previewing
        self.app.push_screen(PreviewScreen(previewing.of_entry(item_id), previewing, self._all_commands))

    def _do(self, step: Callable[[OutgoingId], str]) -> None:
        chosen = self._chosen()
        if chosen is None:
            self.say("Choose notes first.", is_fault=True)
            return
        self._take(lambda: step(chosen))

    def _take(self, step: Callable[[], str]) -> None:
        def take() -> None:
            said = step()
            self.show_outbox()
            self.say(said)
            self.post_message(self.OutboxChanged())

        self.attempt(take)

    def _chosen(self) -> OutgoingId | None:
        option = self.query_one(OptionList).highlighted_option
        return OutgoingId(int(option.id)) if option is not None and option.id else None
