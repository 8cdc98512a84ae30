"""What lies ahead as it is shown, without its keys."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widgets import OptionList, Static

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.desk import Desk
from cockpit.screens.base import CockpitScreen
from cockpit.screens.calendar.ahead_rows import ahead_options
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.settings.settings import Settings
from cockpit.studio.lessons.booking import Booking

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import Outlook

WEEKS = 12
_STRIP = (
    "ahead.move", "ahead.change_standing_time", "ahead.accept", "ahead.write_messages", "ahead.close", "ahead.undo",
    "app.show_help", "app.command_palette", "app.quit",
)  # fmt: skip


class AheadView(CockpitScreen):
    """The list, and what its chosen line is about."""

    def __init__(self, desk: Desk, settings: Settings, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._desk = desk
        self._settings = settings
        self._commands = {command.id: command for command in commands}
        self.outlook: Outlook | None = None

    def compose(self) -> ComposeResult:
        """The list, a notice, the keys."""
        yield Static("What lies ahead", classes="title", markup=False)
        yield Rows(id="ahead", markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """Shows it."""
        self.show_ahead()
        self.query_one(OptionList).focus()

    def commands_here(self) -> Iterable[Command]:
        """What can be done here."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.AHEAD}]

    def show_ahead(self) -> None:
        """Looks again; the cursor stays on its line."""
        outlook = self.outlook = self._desk.ahead.outlook(WEEKS)
        options = ahead_options(outlook, self._settings.home, self._settings.hours)
        self.query_one(Rows).show_again(list(options))

    def changed(self, said: str) -> None:
        """Shows what came of a step."""
        self._desk.day.reload()
        self.show_ahead()
        self.say(said)

    def line(self) -> tuple[str, int]:
        """What kind the chosen line is of, and its number."""
        option = self.query_one(OptionList).highlighted_option
        kind, _, number = (option.id if option is not None and option.id else "").partition(":")
        return kind, int(number) if number.isdecimal() else 0

    def chosen(self) -> tuple[Booking | None, Purpose | None]:
        """The lesson of the chosen line: the later one of two that collide, or the one to make up."""
        kind, number = self.line()
        if self.outlook is None:
            return None, None
        if kind == "trouble":
            first = self.outlook.troubles[number].first
            return first.other or first.booking, Purpose.MOVE
        if kind == "owed":
            return self.outlook.booking_of(self.outlook.owed[number]), Purpose.MAKE_UP
        return None, None
