"""What lies ahead on the screen: what will collide, clocks that change, make-ups owed, breaks."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widgets import OptionList, Static

from cockpit.desk.desk import Desk
from cockpit.desk.proposals import Proposal, Purpose
from cockpit.screens.ahead_rows import ahead_options
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.command import Command, Where
from cockpit.screens.commands import COMMANDS
from cockpit.screens.line import LineScreen
from cockpit.screens.rows import Rows
from cockpit.screens.widgets import KeyStrip, Notice
from cockpit.settings import Settings
from cockpit.studio.booking import Booking
from cockpit.studio.calendar import local_time
from cockpit.studio.errors import Refused
from cockpit.studio.words import counted

if TYPE_CHECKING:
    from cockpit.desk.ahead import Outlook

_WEEKS = 12
_STRIP = (
    "ahead.move", "ahead.change_standing_time", "ahead.accept", "ahead.write_messages", "ahead.close", "ahead.undo",
    "app.show_help", "app.command_palette", "app.quit",
)  # fmt: skip


class AheadScreen(CockpitScreen):
    """Enter goes to the lesson that collides, or books the make-up that is owed."""

    BINDINGS = bindings_for(Where.AHEAD)

    def __init__(self, desk: Desk, settings: Settings, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._desk = desk
        self._settings = settings
        self._commands = {command.id: command for command in commands}
        self._outlook: Outlook | None = None

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
        outlook = self._outlook = self._desk.ahead.outlook(_WEEKS)
        listing = self.query_one(OptionList)
        here = listing.highlighted_option.id if listing.highlighted_option is not None else None
        options = list(ahead_options(outlook, self._settings.home, self._settings.hours))
        listing.set_options(options)
        ids = [option.id for option in options]
        first = next((place for place, option in enumerate(options) if not option.disabled), None)
        listing.highlighted = ids.index(here) if here is not None and here in ids else first

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes to the lesson, or books the make-up."""
        event.stop()
        booking, purpose = self._chosen()
        if booking is None:
            return
        if purpose is Purpose.MAKE_UP:
            self._ask(Purpose.MAKE_UP)
        else:
            on = local_time(booking.lesson.starts_at, self._settings.home).date()
            self.post_message(self.LessonChosen(on, booking.lesson.id))

    def action_move(self) -> None:
        """Moves the chosen lesson."""
        self._ask(Purpose.MOVE)

    def action_change_standing_time(self) -> None:
        """Changes the chosen lesson's standing time from a date on."""
        self._ask(Purpose.CHANGE)

    def action_accept(self) -> None:
        """Leaves the chosen trouble as it is, or takes that back."""
        kind, number = self._line()
        outlook = self._outlook
        if outlook is None or kind not in {"trouble", "accepted"}:
            self.say("Choose something that collides.", is_fault=True)
            return
        group = (outlook.troubles if kind == "trouble" else outlook.accepted)[number]
        if self.attempt(lambda: self._desk.arranging.accept(group, is_accepted=kind == "trouble")):
            self._changed("It stays as it is." if kind == "trouble" else "It is told of again.")

    def action_write_messages(self) -> None:
        """Writes what the families concerned are to be told."""

        def write() -> None:
            paths = self._desk.ahead.write_messages(_WEEKS)
            if not paths:
                raise Refused(f"In the next {_WEEKS} weeks no family's time changes: there is nobody to write to.")
            names = counted(len(paths), "message")
            self.say(f"{names} ready to send, in {paths[0].parent.relative_to(self._desk.folder)}")

        self.attempt(write)

    def action_take_out(self) -> None:
        """Takes the chosen break out again."""
        kind, number = self._line()
        if self._outlook is None or kind != "break":
            self.say("Choose a break to take out.", is_fault=True)
            return
        chosen = self._outlook.breaks[number]
        if self.attempt(lambda: self._desk.arranging.take_out(chosen)):
            self._changed("The break is taken out: its lessons take place.")

    def action_undo(self) -> None:
        """Takes the last step back."""

        def undo() -> None:
            said = self._desk.teaching.undo()
            self._changed(said)

        self.attempt(undo)

    def action_close(self) -> None:
        """Goes back to the lesson day."""
        self.dismiss(None)

    def _ask(self, purpose: Purpose) -> None:
        booking, _ = self._chosen()
        if booking is None:
            self.say("Choose a lesson first.", is_fault=True)
            return

        def done(proposal: Proposal | None) -> None:
            if proposal is not None and self.attempt(lambda: self._desk.arranging.do(proposal)):
                self._changed(proposal.understood)

        self.app.push_screen(LineScreen(self._desk.arranging, purpose, booking), done)

    def _changed(self, said: str) -> None:
        self._desk.day.reload()
        self.show_ahead()
        self.say(said)

    def _line(self) -> tuple[str, int]:
        """What kind the chosen line is of, and its number."""
        option = self.query_one(OptionList).highlighted_option
        kind, _, number = (option.id if option is not None and option.id else "").partition(":")
        return kind, int(number) if number.isdecimal() else 0

    def _chosen(self) -> tuple[Booking | None, Purpose | None]:
        """The lesson of the chosen line: the later one of two that collide, or the one to make up."""
        kind, number = self._line()
        if self._outlook is None:
            return None, None
        if kind == "trouble":
            first = self._outlook.troubles[number].first
            return first.other or first.booking, Purpose.MOVE
        if kind == "owed":
            return self._outlook.booking_of(self._outlook.owed[number]), Purpose.MAKE_UP
        return None, None
