"""The ways to send on the screen: what is settled about each, and a test of each before it is used."""

import asyncio
from collections.abc import Iterable

from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.desk.post.attempt import Attempt
from cockpit.desk.post.trying_channels import ChannelFacts
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import role
from cockpit.screens.post.entry import EntryScreen
from cockpit.screens.post.handing_over import begun
from cockpit.screens.screen import CockpitScreen, bindings_for
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.errors import Refused
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.parcel import Parcel

_WORDS = {Channel.CLIPBOARD: "Clipboard", Channel.FOLDER: "Folder", Channel.DRAFT: "Draft", Channel.MAIL: "Email"}


class WaysScreen(CockpitScreen):
    """Each way with its families and what it needs. Enter tests it."""

    PLACE = Place.WAYS
    BINDINGS = bindings_for(PLACE)

    def body(self) -> Iterable[Widget]:
        """The ways."""
        ways = self.desk.trying_channels.ways()
        yield Rows(*(Option(_row(facts), id=facts.way) for facts in ways), id="ways", markup=False)

    def on_mount(self) -> None:
        """Says where it is changed."""
        self.entitle("How notes are sent")
        self.query_one(Rows).focus()
        self.say(f"Set in {self.desk.folder / 'settings.toml'}, or for one family in the roster column send_by.")

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Tests the way that was chosen."""
        event.stop()
        self.action_test()

    def action_test(self) -> None:
        """Tests the chosen way."""
        self.attempt(self._test)

    def action_keep_password(self) -> None:
        """Asks for the mail password, and gives it to the system's keyring."""
        self.attempt(self._ask_password)

    def _test(self) -> None:
        option = self.query_one(Rows).highlighted_option
        if option is None or option.id is None:
            return
        way = Channel(option.id)
        if way is Channel.CLIPBOARD:
            copy(self.app, self.desk.trying_channels.clipboard_test())
            self.say("A test is on the clipboard. Paste it somewhere to check it.")
            return
        if self.parts.sender is None:
            raise Refused("This is a rehearsal. Nothing is sent.")
        parcel = self.desk.trying_channels.parcel(way)
        self.say("Trying...")
        self.run_worker(self._carry(*begun(self.parts.sender, parcel)), group="test", exclusive=True)

    async def _carry(self, attempt: Attempt, over: asyncio.Event) -> None:
        await over.wait()
        self._tell(attempt.parcel, attempt.wait())

    def _tell(self, parcel: Parcel, delivery: Delivery) -> None:
        if delivery.answer is not Answer.TAKEN:
            self.say(f"{_WORDS[parcel.way]}: {delivery.reason}.", is_fault=True)
            return
        gone = (
            f"test sent to {parcel.address}" if parcel.way is Channel.MAIL else (f"{parcel.documents[0].name} is saved")
        )
        self.say(f"{_WORDS[parcel.way]}: {gone}.")

    def _ask_password(self) -> None:
        from cockpit.outlets.passwords import keep_password  # with the keyring, which no other screen needs

        account = self.desk.trying_channels.account()
        if account.password_from != "keyring":  # noqa: S105 where it is, not what it is
            raise Refused("In settings.toml, password_from does not say keyring, so no password can be saved here.")

        def typed(password: str | None) -> None:
            if password is not None and self.attempt(lambda: keep_password(account, password)):
                self.say("Password saved in the system's keyring.")

        title = f"Password for {account.user or account.sender}"
        self.app.push_screen(
            EntryScreen(title, "Press enter to save it in the keyring  esc to cancel", is_secret=True), typed
        )


def _row(facts: ChannelFacts) -> Content:
    wanted = [("\n    still needed: " + facts.wanted, role("warning", "bold"))] if facts.wanted else []
    settled = f"\n    {facts.settled}" if facts.settled else ""
    return Content.assemble((_WORDS[facts.way], "bold"), f"  {facts.families}", (settled, role("quiet")), *wanted)
