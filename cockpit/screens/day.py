"""The lesson day's keys: each action does one thing at the desk and shows what came of it."""

from cockpit.screens.base import bindings_for
from cockpit.screens.command import Where
from cockpit.screens.day_arranging import DayArranging
from cockpit.screens.sharing import copy, open_call
from cockpit.studio.errors import NotSaved, Refused


class DayScreen(DayArranging):
    """One day of lessons beside the call."""

    BINDINGS = bindings_for(Where.DAY)

    def action_begin(self) -> None:
        """Begins or reopens the lesson that is shown."""
        self.take(self._desk.teaching.begin)
        self.show_pane("notes")

    def action_give_full_length(self) -> None:
        """Moves the end of a lesson that began late."""
        self.take(self._desk.teaching.give_full_length)

    def action_mark_absent(self) -> None:
        """Notes that the student did not come."""
        self.take(self._desk.teaching.mark_absent)

    def action_mark_cancelled(self) -> None:
        """Notes that the lesson was cancelled."""
        self.take(self._desk.teaching.mark_cancelled)
        self.attempt(self.look_ahead)

    def action_undo(self) -> None:
        """Takes the last step back."""
        self.take(self._desk.teaching.undo)
        self.attempt(self.look_ahead)

    def action_go_next(self) -> None:
        """Shows the next lesson of the day."""
        self.take(self._desk.day.go_next)

    def action_show_today(self) -> None:
        """Goes back to today's queue."""
        self.take(self._desk.day.open)

    def action_finish(self) -> None:
        """Finishes the lesson, copies its practice notes, and shows the next one."""
        self.take(self._finish)
        self.show_pane("notes")

    def action_open_link(self) -> None:
        """Opens the call link, and always shows it, since a browser may not be at hand."""
        self.attempt(self._open_link)

    def _finish(self) -> str:
        done = self._desk.teaching.finish()
        if done.fault is not None:
            self.show_lesson()
            raise NotSaved(done.fault)
        if done.path is None or done.markdown is None:
            return f"{done.student} is finished, without notes: nothing was written."
        copy(self.app, done.markdown)
        path = done.path.relative_to(self._desk.folder)
        return f"{done.student}: on the clipboard, and in {path}"

    def _open_link(self) -> None:
        booking = self._desk.day.shown
        if booking is None or booking.call_link is None:
            raise Refused("This lesson has no call link. The roster's column call_link gives it one.")
        self.say(open_call(booking.call_link))
