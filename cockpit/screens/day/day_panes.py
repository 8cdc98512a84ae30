"""The lesson day's panes: going from one to another, choosing in them, marking what was given."""

from collections.abc import Callable
from datetime import date

from textual import on
from textual.widgets import OptionList

from cockpit.screens.base import action_of
from cockpit.screens.commands.command import Where
from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.day.day_view import PANES, DayView
from cockpit.screens.day.last_pane import AssignmentList, LastPane
from cockpit.screens.day.panes import NotesPane
from cockpit.screens.textual_parts.lean_text import NotesText
from cockpit.studio.assignments.carrying import carried_on, given_again
from cockpit.studio.assignments.last_lesson import GivenAssignment
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark


class DayPanes(DayView):
    """What is chosen and tapped in the panes, and how a step is taken."""

    def take(self, step: Callable[[], str | None]) -> None:
        """Saves what is on the screen, does a step, and shows the lesson that is open then."""

        def saved_first() -> None:
            self.save_typed()
            sentence = step()
            self.show_lesson()
            self.say(sentence or "")

        self.attempt(saved_first)

    def show_other_day(self, on_day: date, lesson_id: LessonId) -> None:
        """Shows a lesson of this or of another day."""
        self.take(lambda: self._desk.day.open(on_day, lesson_id))
        self.show_pane("notes")

    def action_show_next(self) -> None:
        """Goes to the next pane."""
        here = next((name for name in PANES if self.has_class(f"show-{name}")), PANES[0])
        focused = next((name for name in PANES if self.query_one(f"#{name}").has_focus_within), here)
        self.show_pane(PANES[(PANES.index(focused) + 1) % len(PANES)])

    def action_show_notes(self) -> None:
        """Goes back to the notes."""
        self.show_pane("notes")

    @on(OptionList.OptionSelected, "#lessons")
    def go_to_chosen(self, event: OptionList.OptionSelected) -> None:
        """Shows the lesson that was chosen in the queue."""
        if event.option_id is not None:
            chosen = LessonId(event.option_id)
            self.take(lambda: self._desk.day.go_to(chosen))
            self.show_pane("notes")

    @on(OptionList.OptionSelected, "#assignments")
    def go_round_marks(self, event: OptionList.OptionSelected) -> None:
        """A tap on an assignment goes round its marks."""
        given = self.query_one(LastPane).given(event.option_id)
        if given is not None:
            marks = [None, *Mark]
            mark = marks[(marks.index(given.mark) + 1) % len(marks)]
            self.take(lambda: self._desk.hearing.mark(given, mark))

    @on(AssignmentList.Marked)
    def set_mark(self, event: AssignmentList.Marked) -> None:
        """Sets how an assignment of an earlier lesson went."""
        given = self.query_one(LastPane).given(event.option)
        if given is not None:
            self.take(lambda: self._desk.hearing.mark(given, event.mark))

    @on(AssignmentList.TempoKept)
    def keep_tempo(self, event: AssignmentList.TempoKept) -> None:
        """Keeps the tempo that an assignment was heard at."""
        given = self.query_one(LastPane).given(event.option)
        if given is not None:
            self.take(lambda: self._desk.hearing.keep_tempo(given, event.tempo))

    @on(AssignmentList.CleanRun)
    def count_clean_run(self, event: AssignmentList.CleanRun) -> None:
        """Counts a clean run-through of an assignment."""
        given = self.query_one(LastPane).given(event.option)
        if given is not None:
            self.take(lambda: self._desk.hearing.count_clean_run(given))

    @on(NotesText.TooLong)
    def tell_too_long(self, event: NotesText.TooLong) -> None:
        """Says that a paste or a carried line does not fit."""
        self.say(event.sentence, is_fault=True)

    @on(AssignmentList.Carried)
    def carry(self, event: AssignmentList.Carried) -> None:
        """Puts an open assignment into today's notes, with the tempo heard last as its new start."""
        given = self.query_one(LastPane).given(event.option)
        if given is not None:
            self.attempt(lambda: self._carry(given))

    def _carry(self, given: GivenAssignment) -> None:
        text = self.query_one(NotesPane).text
        if text.read_only:
            raise Refused("These notes are closed: Begin opens them.")
        if (there := given_again(given.line, text.text)) is not None:
            raise Refused(f"In today's notes already: {there}")
        line = carried_on(given.line, given.tempo)
        end = text.document.end
        fresh = "" if end[1] == 0 else "\n"
        text.insert(f"{fresh}{line}\n", location=end, maintain_selection_offset=False)
        text.move_cursor(text.document.end)
        self.say(f"In today's notes: {line}")

    async def do(self, command_id: str) -> None:
        """Does a command that was searched for: a mark goes to the chosen assignment, whichever pane she is in."""
        command = BY_ID[command_id]
        if command.where is Where.NOTES:
            await self.query_one(NotesPane).text.run_action(action_of(command))
        elif command.where is Where.LAST:
            await self.query_one(AssignmentList).run_action(action_of(command))
        else:
            await super().do(command_id)
