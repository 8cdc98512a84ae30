"""The lesson day's keys: each action does one thing at the desk and shows what came of it."""

from cockpit.screens.base import bindings_for
from cockpit.screens.commands.command import Where
from cockpit.screens.day.day_arranging import DayArranging
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
        """Notes that the student did not come: the chosen one in the queue, else the one that is shown."""
        self.take(lambda: self.of_chosen(self._desk.teaching.mark_absent))

    def action_mark_cancelled(self) -> None:
        """Notes that the lesson was cancelled: the chosen one in the queue, else the one that is shown."""
        self.take(lambda: self.of_chosen(self._desk.teaching.mark_cancelled))
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

    def action_preview(self) -> None:
        """Shows what the family gets of the notes as they stand."""
        self.attempt(self._preview)

    def action_open_link(self) -> None:
        """Opens the call link, and always shows it, since a browser may not be at hand."""
        self.attempt(self._open_link)

    def _finish(self) -> str:
        done = self._desk.teaching.finish()
        if done.fault is not None:
            self.show_lesson()
            raise NotSaved(done.fault)
        if done.path is None:
            return f"{done.student} is finished, without notes: nothing was written."
        if done.posted:
            self.post_message(self.OutboxChanged())
        if done.for_clipboard is not None:
            copy(self.app, done.for_clipboard)
        places = [
            *(["on the clipboard"] if done.for_clipboard is not None else []),
            *(["in the outbox"] if done.posted else []),
            f"in {done.path.relative_to(self._desk.folder)}",
        ]
        return f"{done.student}: {', '.join(places[:-1])}{', and ' if places[1:] else ''}{places[-1]}"

    def _preview(self) -> None:
        from cockpit.screens.post.preview import PreviewScreen

        booking = self._desk.day.shown
        if booking is None:
            raise Refused("There is no lesson on this day.")
        self.save_typed()
        previewing = self._desk.previewing
        preview = previewing.of_lesson(booking, self._desk.day.habits)
        self.app.push_screen(PreviewScreen(preview, previewing, tuple(self._commands.values())))

    def _open_link(self) -> None:
        booking = self._desk.day.shown
        if booking is None or booking.call_link is None:
            raise Refused("This lesson has no call link. The roster's column call_link gives it one.")
        self.say(open_call(booking.call_link))
