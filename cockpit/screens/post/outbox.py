"""The outbox on the screen: what went out, what did not and why, and what can be done about it."""

from collections.abc import Callable, Iterable

from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.screens.commands.commands import Command, Place
from cockpit.screens.post.entry import EntryScreen
from cockpit.screens.post.outbox_rows import OutboxView, outbox_options
from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.screen import CockpitScreen, bindings_for
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.words import counted, possessive
from cockpit.studio.errors import Refused
from cockpit.studio.post.outgoing import OutgoingId
from cockpit.wording.outbox import nothing_left, outbox_words


class OutboxScreen(CockpitScreen):
    """Everything open, and what was settled in the last two weeks. Enter shows what the family gets."""

    PLACE = Place.OUTBOX
    BINDINGS = bindings_for(PLACE)
    _has_rows = True

    def body(self) -> Iterable[Widget]:
        """The list."""
        yield Rows(id="outbox", markup=False)

    def on_mount(self) -> None:
        """Shows it."""
        self.show()
        self.query_one(Rows).focus()

    def strip(self) -> list[Command]:
        """The keys of this screen only while it has anything that they could be for."""
        return [
            command
            for command in super().strip()
            if self._has_rows or command.place is not self.PLACE or command.id == "outbox.close"
        ]

    def show(self) -> None:
        """Looks again; the cursor stays on its line."""
        outbox, settings = self.desk.outbox, self.settings
        items = outbox.entries()
        self._has_rows = bool(items)
        self.query_one(KeyStrip).offer(self.strip())
        words = outbox_words(item.fate for item in items)
        waiting, drafts = outbox.drafts_waiting(), outbox.drafts()
        yours = f"{counted(drafts, 'draft')} for you to send" if drafts else ""
        self.entitle(", ".join(filter(None, (words, yours))) or nothing_left(drafts))
        families, now, home = outbox.families(), self.desk.clock.now(), settings.preferences.home
        self.query_one(Rows).lay_out(
            lambda width: outbox_options(
                OutboxView(items=items, drafts=waiting, families=families, now=now, home=home, width=width)
            )
        )

    def outbox_changed(self) -> None:
        """Shows it."""
        self.show()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Shows what the family gets."""
        event.stop()
        self.attempt(self._preview)

    def action_try_again(self) -> None:
        """Sends the chosen notes now."""
        self._settle(lambda: self.desk.outbox.try_again(self._chosen()))

    def action_try_all_again(self) -> None:
        """Sends everything now that waits or was refused."""
        self._settle(self.desk.outbox.try_all_again)

    def action_take_as_sent(self) -> None:
        """Settles a doubt."""
        self._settle(lambda: self.desk.outbox.take_as_sent(self._chosen()))

    def action_copy(self) -> None:
        """Copies a letter that waits for that."""

        def copied() -> str:
            text, sentence = self.desk.outbox.copied(self._chosen())
            copy(self.app, text)
            return sentence

        self._settle(copied)

    def action_withdraw(self) -> None:
        """Does not send the chosen notes."""
        self._settle(lambda: self.desk.outbox.withdraw(self._chosen()))

    def action_change_address(self) -> None:
        """Asks for another address."""
        self.attempt(self._ask_address)

    def _ask_address(self) -> None:
        chosen = self._chosen()
        item = next((each for each in self.desk.outbox.entries() if each.id == chosen), None)
        if item is None:
            raise Refused("Choose notes first.")

        def typed(address: str | None) -> None:
            if address is not None:
                self._settle(lambda: self.desk.outbox.change_address(item.id, address))

        title = f"Replaces {item.address}" if item.address else f"New address for {possessive(item.student)} family"
        there = "in the roster" if item.inquiry_id is None else "with the inquiry"
        self.app.push_screen(EntryScreen(title, f"Press enter to save it {there} and send there  esc to cancel"), typed)

    def _preview(self) -> None:
        self.app.push_screen(PreviewScreen(self.parts, self.desk.previewing.of_entry(self._chosen())))

    def _settle(self, step: Callable[[], str]) -> None:
        if self.step(step):
            self.post_message(self.OutboxChanged())

    def _chosen(self) -> OutgoingId:
        """The entry with the cursor.

        Raises:
            Refused: there is none.
        """
        option = self.query_one(Rows).highlighted_option
        if option is None or not option.id:
            raise Refused("Choose notes first.")
        return OutgoingId(int(option.id))
