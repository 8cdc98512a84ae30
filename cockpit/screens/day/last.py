"""The pane of the last assignments: what was given, how it went, the tempo it was heard at."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
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

from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.tempo_entry import TempoEntry
from cockpit.screens.look.show import role
from cockpit.screens.screen import Step, bindings_for
from cockpit.screens.textual_parts.kept_rows import KeptRows
from cockpit.studio.assignments.last_lesson import GivenAssignment, LastLesson, Sheet
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.changes.records import Change
from cockpit.studio.clocks.words import counted, short_date
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import Mark

if TYPE_CHECKING:
    from cockpit.studio.lessons.lesson import LessonId

_HINT = "0–9 or t tempo · r clean · c carry"
_NONE_CHOSEN = "up or down to choose one"
# Two different letters within so many seconds are the beginning of a word, and no two commands.
_A_WORD = 0.2

# Each row costs time at every step; those behind it come up when she closes or drops some.
_MOST_EARLIER = 20
_MARK_SIGNS = {
    Mark.DONE: ("■", "$role-finished bold"),
    Mark.MORE_WORK: ("◧", "$role-warning bold"),
    Mark.NOT_YET: ("□", "$role-absent bold"),
    Mark.DROPPED: ("×", "$role-quiet"),
    None: ("·", "$role-quiet"),
}


class AssignmentList(KeptRows):
    """The assignments that are open. Digits, or taps of a key, make a tempo of the chosen one, which enter keeps.

    `now` (UTC) is asked at each tap; `goals` are the tempos that assignments ask for.
    """

    class TempoKept(Message):
        """A tempo is to be kept for the chosen assignment."""

        def __init__(self, option: str, tempo: int) -> None:
            super().__init__()
            self.option = option
            self.tempo = tempo

    class EntryChanged(Message):
        """A tempo is on its way in, or is not any more."""

    def __init__(self, now: Callable[[], datetime]) -> None:
        super().__init__(id="assignments", markup=False)
        self._now = now
        self.goals: Mapping[str, int] = {}
        self.entry = TempoEntry()

    def on_key(self, event: Key) -> None:
        """Takes digits of a tempo."""
        if event.character is not None and event.character in "0123456789" and self.highlighted is not None:
            event.stop()
            self._enter(self.entry.with_digit(event.character))
        elif event.key == "backspace" and not self.entry.is_empty:
            event.stop()
            self._enter(self.entry.shortened())

    def tap(self) -> None:
        """Takes a tap along with the student's playing."""
        if self.highlighted is not None:
            self._enter(self.entry.with_tap(self._now()))

    @on(Blur)
    @on(OptionList.OptionHighlighted)
    def forget(self) -> None:
        """Forgets a tempo that was not kept, or was meant for another assignment."""
        self._enter(TempoEntry(goal=self.goals.get(self.chosen or "")))

    def action_select(self) -> None:
        """Keeps the tempo that is on its way in; else what a tap does."""
        option, tempo = self.chosen, self.entry.tempo
        if self.entry.is_empty or option is None:
            super().action_select()
        elif tempo is not None:
            self.post_message(self.TempoKept(option, tempo))
            self.forget()

    def _enter(self, entry: TempoEntry) -> None:
        if entry != self.entry:
            self.entry = entry
            self.post_message(self.EntryChanged())


@dataclass(slots=True, kw_only=True)
class _Letter:
    """A letter that was typed in the pane, when (seconds of Textual's clock), and the last step before it."""

    letter: str
    typed_at: float
    before: Change | None
    was_carried: bool = False


class LastPane(Vertical):
    """What the student was given and is still open, how it went, and what to remember.

    A letter marks the chosen assignment; a tap on one goes round its marks.
    """

    PLACE = Place.LAST
    BINDINGS = bindings_for(PLACE, priority=False)

    class Carried(Message):
        """The chosen assignment is to be carried into today's notes."""

        def __init__(self, given: GivenAssignment) -> None:
            super().__init__()
            self.given = given

    class WordTyped(Message):
        """Letters were typed here that are words for the notes; what the first of them did is taken back."""

        def __init__(self, letters: str, *, was_carried: bool) -> None:
            super().__init__()
            self.letters = letters
            self.was_carried = was_carried

    def __init__(self, desk: Desk) -> None:
        super().__init__(id="last", classes="pane")
        self._desk = desk
        self._first: _Letter | None = None
        self._lesson_id: LessonId | None = None
        self._given: dict[str, GivenAssignment] = {}

    def compose(self) -> ComposeResult:
        """A title, what to remember, the list, and the tempo that is on its way in."""
        yield Static("Last assignments", classes="title", markup=False)
        yield Static(id="remember", markup=False)
        yield AssignmentList(self._desk.clock.now)
        yield Static(_HINT, id="entry", markup=False)

    def show(self, booking: ScheduledLesson | None, sheet: Sheet | None, on: date) -> None:
        """Shows what a student was given before a lesson on a date of the teacher's clock."""
        last = sheet.last if sheet is not None else None
        earlier = last.earlier[:_MOST_EARLIER] if last is not None else ()
        more = len(last.earlier) - len(earlier) if last is not None else 0
        heading = last_heading(booking, last, more) if booking is not None else Content("")
        self.query_one("#remember", Static).update(heading)
        given = (*last.assignments, *earlier) if last is not None else ()
        self._given = {f"{each.lesson_id}\n{each.line.typed}": each for each in given}
        tempos = {name: read_assignment(each.line).tempo for name, each in self._given.items()}
        self._list.goals = {name: tempo.goal for name, tempo in tempos.items() if tempo is not None}
        options = [Option(assignment_row(each, on), id=name) for name, each in self._given.items()]
        lesson_id = booking.lesson.id if booking is not None else None
        self._list.show_rows(options, is_afresh=lesson_id != self._lesson_id)
        self._lesson_id = lesson_id
        self.show_entry()

    def on_key(self, event: Key) -> None:
        """Gives letters that come as fast as those of a word to the notes: her eyes were not on the pane."""
        letter = event.character if event.character is not None and event.character.isalpha() else None
        first, self._first = self._first, None
        if letter is None:
            return
        if first is None or letter == first.letter or event.time - first.typed_at > _A_WORD:
            self._first = _Letter(letter=letter, typed_at=event.time, before=self._desk.hearing.last_step())
            return
        event.stop()
        self._list.forget()
        self._desk.hearing.take_back(first.before)
        self.post_message(self.WordTyped(first.letter + letter, was_carried=first.was_carried))

    @on(AssignmentList.EntryChanged)
    @on(OptionList.OptionHighlighted)
    def show_entry(self) -> None:
        """Shows the tempo that is on its way in, or how one gets in."""
        listing = self._list
        hint = _NONE_CHOSEN if listing.highlighted is None and listing.option_count else _HINT
        entry = listing.entry
        words = Content(hint) if entry.is_empty else Content.styled(entry.words, role("student", "bold"))
        self.query_one("#entry", Static).update(words, layout=False)

    @on(AssignmentList.TempoKept)
    def keep_tempo(self, event: AssignmentList.TempoKept) -> None:
        """Keeps the tempo that an assignment was heard at."""
        self._step(event.option, lambda given: self._desk.hearing.keep_tempo(given, event.tempo))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes round the marks of the assignment that was tapped."""
        event.stop()
        marks = [None, *Mark]
        self._step(
            event.option_id,
            lambda given: self._desk.hearing.mark(given, marks[(marks.index(given.mark) + 1) % len(marks)]),
        )

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

    def action_tap(self) -> None:
        """Takes a tap along with the student's playing."""
        self._list.tap()

    def action_count_clean_run(self) -> None:
        """Counts a clean run-through."""
        self._step(self._list.chosen, self._desk.hearing.count_clean_run)

    def action_carry(self) -> None:
        """Carries the chosen assignment into today's notes."""
        given = self._given.get(self._list.chosen or "")
        if given is not None:
            if self._first is not None:
                self._first.was_carried = True
            self.post_message(self.Carried(given))

    @property
    def _list(self) -> AssignmentList:
        return self.query_one(AssignmentList)

    def _mark(self, mark: Mark) -> None:
        self._step(self._list.chosen, lambda given: self._desk.hearing.mark(given, mark))

    def _step(self, option: str | None, take: Callable[[GivenAssignment], str]) -> None:
        given = self._given.get(option or "")
        if given is not None:
            self.post_message(Step(lambda: take(given)))


def assignment_row(given: GivenAssignment, on: date) -> Content:
    """An assignment, with its mark in words, what was heard of it, and for how many weeks it has been open by a date."""
    area = given.line.own_label or str(given.line.area or "").capitalize()
    sign, style = _MARK_SIGNS[given.mark]
    mark = f"{sign} {given.mark}  " if given.mark is not None else f"{sign} "
    weeks = given.weeks(on)
    facts = (
        f"heard at {given.tempo}" if given.tempo is not None else "",
        f"{counted(given.clean_runs, 'clean run-through')}" if given.clean_runs else "",
        f"open for {weeks} weeks" if weeks > 1 and given.is_open else "",
    )
    said = " · ".join(fact for fact in facts if fact)
    return Content.assemble(
        (mark, style), (f"{area}: ", "bold"), given.line.text, (f"  {said}" if said else "", role("quiet"))
    )


def last_heading(booking: ScheduledLesson, last: LastLesson | None, more: int = 0) -> Content:
    """What stands above the assignments: what she wanted to remember, her remark, the date, and how many `more` are open."""
    parts: list[tuple[str, str]] = []
    if last is not None and last.next_time:
        parts.extend((f"Remember: {text}\n", role("student")) for text in last.next_time)
    if booking.student.remark:
        parts.append((f"Private: {booking.student.remark}\n", role("private", "italic")))
    if last is None:
        parts.append(("No earlier lesson has notes.", role("quiet")))
    elif not last.assignments:
        parts.append((f"Nothing was assigned on {short_date(last.taught_on)}.", role("quiet")))
    else:
        parts.append((f"Assigned on {short_date(last.taught_on)}", role("quiet")))
    if more:
        parts.append((f"\n{more} older, still open", role("quiet")))
    return Content.assemble(*parts)
