"""The ways to send on the screen: what is settled about each, and a test of each before it is used."""

import asyncio
from collections.abc import Iterable

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Postman
from cockpit.desk.post.attempt import Attempt
from cockpit.desk.post.trying_ways import WayFacts
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.look.show import role
from cockpit.screens.post.entry import EntryScreen
from cockpit.screens.post.handing_over import begun
from cockpit.screens.sharing import copy
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.studio.errors import Refused
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.parcel import Parcel
from cockpit.studio.post.ways import Way

_STRIP = ("ways.test", "ways.keep_password", "ways.close", "app.show_help", "app.command_palette", "app.quit")
_WORDS = {Way.CLIPBOARD: "Clipboard", Way.FOLDER: "Folder", Way.DRAFT: "Draft", Way.MAIL: "Mail"}


class WaysScreen(CockpitScreen):
    """Each way with its families and what it needs. Enter tests it."""

    BINDINGS = bindings_for(Where.WAYS)

    def __init__(self, desk: Desk, postman: Postman | None, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._ways = desk.trying_ways
        self._folder = desk.folder
        self._postman = postman
        self._commands = {command.id: command for command in commands}

    def compose(self) -> ComposeResult:
        """The ways, where they are settled, the keys."""
        yield Static("Ways to send", classes="title", markup=False)
        yield Rows(*(Option(_row(facts), id=facts.way) for facts in self._ways.ways()), id="ways", markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """Says where it is changed."""
        self.query_one(OptionList).focus()
        self.say(f"Settled in {self._folder / 'settings.toml'}; for one family in the roster's column send_by.")

    def commands_here(self) -> Iterable[Command]:
        """What can be done here."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.WAYS}]

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

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)

    def _test(self) -> None:
        option = self.query_one(OptionList).highlighted_option
        if option is None or option.id is None:
            return
        way = Way(option.id)
        if way is Way.CLIPBOARD:
            copy(self.app, self._ways.clipboard_test())
            self.say("A test is on the clipboard: paste it somewhere.")
            return
        if self._postman is None:
            raise Refused("This is a rehearsal: nothing is sent.")
        parcel = self._ways.parcel(way)
        self.say("Trying...")
        self.run_worker(self._carry(*begun(self._postman, parcel)), group="test", exclusive=True)

    async def _carry(self, attempt: Attempt, over: asyncio.Event) -> None:
        await over.wait()
        self._tell(attempt.parcel, attempt.wait())

    def _tell(self, parcel: Parcel, delivery: Delivery) -> None:
        if delivery.answer is not Answer.TAKEN:
            self.say(f"{_WORDS[parcel.way]}: {delivery.reason}.", is_fault=True)
            return
        gone = (
            f"a test is on its way to {parcel.address}"
            if parcel.way is Way.MAIL
            else (f"{parcel.documents[0].name} is written")
        )
        self.say(f"{_WORDS[parcel.way]}: {gone}.")

    def _ask_password(self) -> None:
        from cockpit.outlets.passwords import keep_password  # with the keyring, which no other screen needs

        account = self._ways.account()
        if account.password_from != "keyring":  # noqa: S105 where it is, not what it is
            raise Refused("settings.toml has the password come from elsewhere: password_from.")

        def typed(password: str | None) -> None:
            if password is not None and self.attempt(lambda: keep_password(account, password)):
                self.say("The password is in the system's keyring.")

        title = f"Password of {account.user or account.sender}"
        self.app.push_screen(EntryScreen(title, "enter keeps it in the keyring · esc leaves it", is_secret=True), typed)


def _row(facts: WayFacts) -> Content:
    wanted = [("\n    still wanted: " + facts.wanted, role("warning", "bold"))] if facts.wanted else []
    settled = f"\n    {facts.settled}" if facts.settled else ""
    return Content.assemble((_WORDS[facts.way], "bold"), f"  {facts.families}", (settled, role("quiet")), *wanted)
