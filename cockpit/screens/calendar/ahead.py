"""What lies ahead on the screen: what will collide, clocks that change, make-ups owed, breaks."""

from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.screens.base import bindings_for
from cockpit.screens.calendar.ahead_view import WEEKS, AheadView
from cockpit.screens.calendar.line import LineScreen
from cockpit.screens.commands.command import Where
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused


class AheadScreen(AheadView):
    """Enter goes to the lesson that collides, or books the make-up that is owed."""

    BINDINGS = bindings_for(Where.AHEAD)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes to the lesson, or books the make-up."""
        event.stop()
        booking, purpose = self.chosen()
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
        kind, number = self.line()
        outlook = self.outlook
        if outlook is None or kind not in {"trouble", "accepted"}:
            self.say("Choose something that collides.", is_fault=True)
            return
        group = (outlook.troubles if kind == "trouble" else outlook.accepted)[number]
        if self.attempt(lambda: self._desk.arranging.accept(group, is_accepted=kind == "trouble")):
            self.changed("It stays as it is." if kind == "trouble" else "It is told of again.")

    def action_write_messages(self) -> None:
        """Writes what the families concerned are to be told."""

        def write() -> None:
            paths = self._desk.ahead.write_messages(WEEKS)
            if not paths:
                raise Refused(f"In the next {WEEKS} weeks no family's time changes: there is nobody to write to.")
            names = counted(len(paths), "message")
            self.say(f"{names} ready to send, in {paths[0].parent.relative_to(self._desk.folder)}")

        self.attempt(write)

    def action_take_out(self) -> None:
        """Takes the chosen break out again."""
        kind, number = self.line()
        if self.outlook is None or kind != "break":
            self.say("Choose a break to take out.", is_fault=True)
            return
        chosen = self.outlook.breaks[number]
        if self.attempt(lambda: self._desk.arranging.take_out(chosen)):
            self.changed("The break is taken out: its lessons take place.")

    def action_undo(self) -> None:
        """Takes the last step back."""

        def undo() -> None:
            said = self._desk.teaching.undo()
            self.changed(said)

        self.attempt(undo)

    def action_close(self) -> None:
        """Goes back to the lesson day."""
        self.dismiss(None)

    def _ask(self, purpose: Purpose) -> None:
        booking, _ = self.chosen()
        if booking is None:
            self.say("Choose a lesson first.", is_fault=True)
            return

        def done(proposal: Proposal | None) -> None:
            if proposal is not None and self.attempt(lambda: self._desk.arranging.do(proposal)):
                self.changed(proposal.understood)

        self.app.push_screen(LineScreen(self._desk.arranging, purpose, booking), done)
