"""The outbox on the screen: what went out, what did not and why, and what can be done about it."""

from collections.abc import Callable

from textual.widgets import OptionList

from cockpit.screens.base import bindings_for
from cockpit.screens.commands.command import Where
from cockpit.screens.post.entry import EntryScreen
from cockpit.screens.post.outbox_view import OutboxView
from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.post.ways import WaysScreen
from cockpit.studio.post.outgoing import OutgoingId


class OutboxScreen(OutboxView):
    """Each key does something about the chosen notes. Enter shows what the family gets."""

    BINDINGS = bindings_for(Where.OUTBOX)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Shows what the family gets."""
        event.stop()
        chosen = self.chosen()
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
        chosen = self.chosen()
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
        chosen = self.chosen()
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
