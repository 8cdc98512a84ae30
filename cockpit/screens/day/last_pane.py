"""The pane of the last assignments: what was given, how it went, the tempo it was heard at."""

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Blur, Key
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.base import bindings_for
from cockpit.screens.commands.command import Where
from cockpit.screens.day.tempo_entry import TempoEntry
from cockpit.screens.look.show import assignment_row, last_heading, role
from cockpit.screens.textual_parts.kept_rows import KeptRows
from cockpit.studio.assignments.last_lesson import GivenAssignment, LastLesson, Sheet
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.notes.notes import Mark

if TYPE_CHECKING:
    from cockpit.studio.lessons.lesson import LessonId

_HINT = "0–9 or t tempo · r clean · c carry"
_NONE_CHOSEN = "up or down chooses one"

# Each row costs time at every step; those behind it come up when she closes or drops some.
_MOST_EARLIER = 20


class AssignmentList(KeptRows):
    """The assignments that are open; a letter marks the chosen one, a tap goes round its marks.

    Digits, or taps of a key, make a tempo of it, which Enter keeps. `now` (UTC) is asked at each tap.
    """

    BINDINGS = bindings_for(Where.LAST, priority=False)

    class Marked(Message):
        """A mark was chosen for the assignment of an option."""

        def __init__(self, option: str, mark: Mark) -> None:
            super().__init__()
            self.option = option
            self.mark = mark

    class TempoKept(Message):
        """A tempo is to be kept for the chosen assignment."""

        def __init__(self, option: str, tempo: int) -> None:
            super().__init__()
            self.option = option
            self.tempo = tempo

    class CleanRun(Message):
        """A clean run-through of the chosen assignment was heard."""

        def __init__(self, option: str) -> None:
            super().__init__()
            self.option = option

    class Carried(Message):
        """The chosen assignment is to be carried into today's notes."""

        def __init__(self, option: str) -> None:
            super().__init__()
            self.option = option

    class EntryChanged(Message):
        """A tempo is on its way in, or is not any more."""

    def __init__(self, now: Callable[[], datetime]) -> None:
        super().__init__(id="assignments", markup=False)
        self._now = now
        self.asked: Mapping[str, int] = {}
        self.entry = TempoEntry()

    def on_key(self, event: Key) -> None:
        """Takes digits of a tempo."""
        if event.character is not None and event.character in "0123456789" and self.highlighted is not None:
            event.stop()
            self.enter(self.entry.with_digit(event.character))
        elif event.key == "backspace" and not self.entry.is_empty:
            event.stop()
            self.enter(self.entry.shortened())

    @on(Blur)
    @on(OptionList.OptionHighlighted)
    def forget(self) -> None:
        """Forgets a tempo that was not kept, or was meant for another assignment."""
        self.enter(TempoEntry(asked=self.asked.get(self.chosen or "")))

    def action_tap(self) -> None:
        """Takes a tap along with the student's playing."""
        if self.highlighted is not None:
            self.enter(self.entry.with_tap(self._now()))

    def action_count_clean_run(self) -> None:
        """Counts a clean run-through."""
        if (option := self.chosen) is not None:
            self.post_message(self.CleanRun(option))

    def action_carry(self) -> None:
        """Carries the chosen assignment into today's notes."""
        if (option := self.chosen) is not None:
            self.post_message(self.Carried(option))

    def action_select(self) -> None:
        """Keeps the tempo that is on its way in; else what a tap does."""
        option, tempo = self.chosen, self.entry.tempo
        if self.entry.is_empty or option is None:
            super().action_select()
        elif tempo is not None:
            self.post_message(self.TempoKept(option, tempo))
            self.forget()

    def enter(self, entry: TempoEntry) -> None:
        """Goes on with a tempo."""
        if entry != self.entry:
            self.entry = entry
            self.post_message(self.EntryChanged())

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
        if (option := self.chosen) is not None:
            self.post_message(self.Marked(option, mark))


class LastPane(Vertical):
    """What the student was given and is still open, how it went, and what to remember."""

    def __init__(self, now: Callable[[], datetime]) -> None:
        super().__init__(id="last", classes="pane")
        self._now = now
        self.last: LastLesson | None = None
        self._lesson_id: LessonId | None = None
        self._given: dict[str, GivenAssignment] = {}

    def compose(self) -> ComposeResult:
        """A title, what to remember, and the list."""
        yield Static("Last assignments", classes="title", markup=False)
        yield Static(id="remember", markup=False)
        yield AssignmentList(self._now)
        yield Static(_HINT, id="entry", markup=False)

    def show(self, booking: Booking | None, sheet: Sheet | None, on: date) -> None:
        """Shows what a student was given before a lesson on a date of the teacher's clock."""
        self.last = sheet.last if sheet is not None else None
        earlier = self.last.earlier[:_MOST_EARLIER] if self.last is not None else ()
        more = len(self.last.earlier) - len(earlier) if self.last is not None else 0
        heading = last_heading(booking, self.last, more) if booking is not None else Content("")
        self.query_one("#remember", Static).update(heading)
        listing = self.query_one(AssignmentList)
        given = (*self.last.assignments, *earlier) if self.last is not None else ()
        self._given = {f"{each.lesson_id}\n{each.line.typed}": each for each in given}
        tempos = {name: read_assignment(each.line).tempo for name, each in self._given.items()}
        listing.asked = {name: tempo.goal for name, tempo in tempos.items() if tempo is not None}
        options = [Option(assignment_row(each, on), id=name) for name, each in self._given.items()]
        lesson_id = booking.lesson.id if booking is not None else None
        listing.show_rows(options, is_afresh=lesson_id != self._lesson_id)
        self._lesson_id = lesson_id
        self.show_entry()

    @on(AssignmentList.EntryChanged)
    @on(OptionList.OptionHighlighted)
    def show_entry(self) -> None:
        """Shows the tempo that is on its way in, or how one gets in."""
        listing = self.query_one(AssignmentList)
        hint = _NONE_CHOSEN if listing.highlighted is None and listing.option_count else _HINT
        entry = listing.entry
        words = Content(hint) if entry.is_empty else Content.styled(entry.words, role("student", "bold"))
        self.query_one("#entry", Static).update(words, layout=False)

    def given(self, option: str | None = None) -> GivenAssignment | None:
        """The assignment of an option, or the chosen one."""
        chosen = self.query_one(AssignmentList).highlighted_option
        return self._given.get(option or (chosen.id if chosen is not None else None) or "")
