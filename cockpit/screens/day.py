"""The lesson day's keys: each action does one thing at the desk and shows what came of it."""

from collections.abc import Callable
from datetime import date

from textual import on
from textual.widgets import OptionList

from cockpit.screens.base import bindings_for
from cockpit.screens.commands import Where
from cockpit.screens.day_view import PANES, DayView
from cockpit.screens.panes import AssignmentList, LastPane
from cockpit.screens.sharing import copy, open_call
from cockpit.screens.widgets import KeyStrip
from cockpit.studio.errors import NotSaved, Refused
from cockpit.studio.lesson import LessonId
from cockpit.studio.notes import Mark


class DayScreen(DayView):
    """One day of lessons beside the call."""

    BINDINGS = bindings_for(Where.DAY)

    def action_begin(self) -> None:
        """Begins or reopens the lesson that is shown."""
        self._step(self._desk.teaching.begin)
        self.show_pane("notes")

    def action_give_full_length(self) -> None:
        """Moves the end of a lesson that began late."""
        self._step(self._desk.teaching.give_full_length)

    def action_mark_absent(self) -> None:
        """Notes that the student did not come."""
        self._step(self._desk.teaching.mark_absent)

    def action_mark_cancelled(self) -> None:
        """Notes that the lesson was cancelled."""
        self._step(self._desk.teaching.mark_cancelled)

    def action_undo(self) -> None:
        """Takes the last step back."""
        self._step(self._desk.teaching.undo)

    def action_go_next(self) -> None:
        """Shows the next lesson of the day."""
        self._step(self._desk.day.go_next)

    def action_show_today(self) -> None:
        """Goes back to today's queue."""
        self._step(self._desk.day.open)

    def action_finish(self) -> None:
        """Finishes the lesson, copies its practice notes, and shows the next one."""
        self._step(self._finish)
        self.show_pane("notes")

    def action_open_link(self) -> None:
        """Opens the call link, and always shows it, since a browser may not be at hand."""
        self.attempt(self._open_link)

    def action_show_next(self) -> None:
        """Goes to the next pane."""
        here = next((name for name in PANES if self.has_class(f"show-{name}")), PANES[0])
        focused = next((name for name in PANES if self.query_one(f"#{name}").has_focus_within), here)
        self.show_pane(PANES[(PANES.index(focused) + 1) % len(PANES)])

    def action_show_notes(self) -> None:
        """Goes back to the notes."""
        self.show_pane("notes")

    def show_other_day(self, on_day: date, lesson_id: LessonId) -> None:
        """Shows a lesson of this or of another day."""
        self._step(lambda: self._desk.day.open(on_day, lesson_id))
        self.show_pane("notes")

    @on(OptionList.OptionSelected, "#lessons")
    def go_to_chosen(self, event: OptionList.OptionSelected) -> None:
        """Shows the lesson that was chosen in the queue."""
        if event.option_id is not None:
            chosen = LessonId(event.option_id)
            self._step(lambda: self._desk.day.go_to(chosen))
            self.show_pane("notes")

    @on(OptionList.OptionSelected, "#assignments")
    def go_round_marks(self, event: OptionList.OptionSelected) -> None:
        """A tap on an assignment goes round its marks."""
        last = self.query_one(LastPane).last
        given = {a.line.typed: a.mark for a in last.assignments} if last is not None else {}
        if event.option_id is not None:
            marks = [None, *Mark]
            mark = marks[(marks.index(given.get(event.option_id)) + 1) % len(marks)]
            self.set_mark(AssignmentList.Marked(event.option_id, mark))

    @on(AssignmentList.Marked)
    def set_mark(self, event: AssignmentList.Marked) -> None:
        """Sets how an assignment of last time went."""
        last = self.query_one(LastPane).last
        if last is not None:
            self._step(lambda: self._desk.notes.mark(last, event.line, event.mark))

    @on(KeyStrip.Tapped)
    async def do_tapped(self, event: KeyStrip.Tapped) -> None:
        """Does a command that was tapped."""
        event.stop()
        await self.do(event.command)

    def _step(self, step: Callable[[], str | None]) -> None:
        """Saves what is on the screen, does a step, and shows the lesson that is open then."""

        def saved_first() -> None:
            self.save_typed()
            sentence = step()
            self.show_lesson()
            if sentence:
                self.say(sentence)

        self.attempt(saved_first)

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
