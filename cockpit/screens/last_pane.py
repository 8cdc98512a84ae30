"""The pane of the last assignments: what was given, how it went, the tempo it was heard at."""

from datetime import date

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.widgets.option_list import Option

from cockpit.screens.base import bindings_for
from cockpit.screens.command import Where
from cockpit.screens.rows import Rows
from cockpit.screens.show import assignment_row, last_heading
from cockpit.studio.booking import Booking
from cockpit.studio.last_lesson import GivenAssignment, LastLesson, Sheet
from cockpit.studio.notes import Mark


class AssignmentList(Rows):
    """The assignments that are open; a letter marks the chosen one, a tap goes round its marks."""

    BINDINGS = bindings_for(Where.LAST, priority=False)

    class Marked(Message):
        """A mark was chosen for the assignment of an option."""

        def __init__(self, option: str, mark: Mark) -> None:
            super().__init__()
            self.option = option
            self.mark = mark

    def action_mark_done(self) -> None:
        """Marks the chosen assignment as done."""
        self._mark(Mark.DONE)

    def action_mark_more_work(self) -> None:
        """Marks the chosen assignment as needing more work."""
        self._mark(Mark.MORE_WORK)

    def action_mark_not_yet(self) -> None:
        """Marks the chosen assignment as not practiced yet."""
        self._mark(Mark.NOT_YET)

    def action_drop(self) -> None:
        """Drops the chosen assignment: it is not worked on any more."""
        self._mark(Mark.DROPPED)

    def _mark(self, mark: Mark) -> None:
        option = self.highlighted_option
        if option is not None and option.id is not None:
            self.post_message(self.Marked(option.id, mark))
            if self.highlighted is not None and self.highlighted + 1 < self.option_count:
                self.highlighted += 1


class LastPane(Vertical):
    """What the student was given and is still open, how it went, and what to remember."""

    def __init__(self) -> None:
        super().__init__(id="last", classes="pane")
        self.last: LastLesson | None = None
        self._given: dict[str, GivenAssignment] = {}

    def compose(self) -> ComposeResult:
        """A title, what to remember, and the list."""
        yield Static("Last assignments", classes="title", markup=False)
        yield Static(id="remember", markup=False)
        yield AssignmentList(id="assignments", markup=False)

    def show(self, booking: Booking | None, sheet: Sheet | None, on: date) -> None:
        """Shows what a student was given before a lesson on a date of the teacher's clock."""
        self.last = sheet.last if sheet is not None else None
        heading = last_heading(booking, self.last) if booking is not None else Content("")
        self.query_one("#remember", Static).update(heading)
        listing = self.query_one(AssignmentList)
        given = (*self.last.assignments, *self.last.earlier) if self.last is not None else ()
        self._given = {f"{each.lesson_id}\n{each.line.typed}": each for each in given}
        options = [Option(assignment_row(each, on), id=name) for name, each in self._given.items()]
        if [option.id for option in listing.options] != [option.id for option in options]:
            listing.set_options(options)
            listing.highlighted = 0 if options else None
        else:
            for option in options:
                listing.replace_option_prompt(option.id or "", option.prompt)

    def given(self, option: str | None = None) -> GivenAssignment | None:
        """The assignment of an option, or the chosen one."""
        chosen = self.query_one(AssignmentList).highlighted_option
        return self._given.get(option or (chosen.id if chosen is not None else None) or "")
