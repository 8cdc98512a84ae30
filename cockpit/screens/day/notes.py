"""The notes of the lesson that is shown: typed, saved at once, proposed in, counted."""

from collections.abc import Iterable, Sequence
from datetime import UTC, datetime, timedelta
from functools import partial
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from cockpit.desk.day.board import with_line
from cockpit.desk.desk import Desk
from cockpit.screens.day.proposing import ProposingText
from cockpit.screens.day.understood import understood_rows
from cockpit.screens.ending import stay
from cockpit.screens.look.show import NEEDS_HER, PRIVATE, role
from cockpit.screens.textual_parts.heading import Heading
from cockpit.settings.settings import Settings
from cockpit.studio.assignments.carrying import carried_on, given_again
from cockpit.studio.assignments.goals import TypedOn
from cockpit.studio.assignments.last_lesson import GivenAssignment, Sheet
from cockpit.studio.assignments.telling import LabelOffer, label_offer
from cockpit.studio.clocks.words import counted, minutes_of, possessive
from cockpit.studio.errors import CockpitError, Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import Line, NoteLine, line_at, no_labels, read_notes, things_of
from cockpit.studio.practice.load import Budget, budget_after
from cockpit.studio.values import Value

if TYPE_CHECKING:
    from cockpit.studio.completion.memory import Memory
    from cockpit.studio.completion.remembered import Remembered
    from cockpit.studio.notes.areas import AnyArea

# The next student's notes are painted first; what is proposed in them can wait this long.
_LATER = 0.3
_PAUSE = timedelta(seconds=0.4)
# A plan is made when she has stopped typing for so many seconds: no key waits for it, and half a line has none.
_PLANNED = 2.0
_MARGINS = 4  # columns beside the rows below the text


class NotesPane(Vertical):
    """The notes of the lesson that is shown: what is typed here is saved at once."""

    class Said(Message):
        """Something is to be told about what is typed."""

        def __init__(self, sentence: str, *, is_fault: bool = False) -> None:
            super().__init__()
            self.sentence = sentence
            self.is_fault = is_fault

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="notes", classes="pane")
        self._desk = desk
        self._settings = settings
        self._saving = desk.saving
        self._budget = Budget()
        self._lesson_id: LessonId | None = None
        self._remembered_for: LessonId | None = None
        self._warned_of: LessonId | None = None
        self.changes = 0
        self._changes_when_waited: int | None = None
        self._plan_told: set[str] = set()
        self._shows_unsaved = False
        self._after_carrying: str | None = None
        self._typed_on: TypedOn | None = None
        self.text = ProposingText(
            id="text",
            soft_wrap=True,
            highlight_cursor_line=False,  # it would take their colors from a private line and from a label
            max_checkpoints=500,
        )
        self.is_ready = False
        self.area_typed_last: AnyArea | None = None
        self.typed_at = datetime.min.replace(tzinfo=UTC)

    def compose(self) -> ComposeResult:
        """A title, the text, and a count of what it holds."""
        yield Heading("NOTES")
        yield self.text
        yield Static(id="understood-line", markup=False)
        yield Static(id="count", markup=False)

    def on_mount(self) -> None:
        """A still cursor: no repainting while nothing happens."""
        self.text.on_typed = self._keep_typed
        self.text.labeled = self._labeled
        self.text.labels = self._settings.preferences.labels
        self.text.cursor_blink = False
        self.text.match_cursor_bracket = False

    def show(self, booking: ScheduledLesson | None, sheet: Sheet | None) -> None:
        """Shows the notes of a lesson. The same lesson's text is left alone: what is on the screen is the newest.

        Notes that can be typed on begin with the cursor on a line of its own: a `Private:` typed at once must not
        become the end of a line that the family gets.
        """
        self.is_ready = True
        lesson_id = booking.lesson.id if booking is not None else None
        if booking is not None:
            preferences = self._settings.preferences
            on = preferences.home.date_of(booking.lesson.starts_at)
            self._typed_on = TypedOn(on=on, month_first=preferences.month_first)
        is_open = booking is not None and booking.lesson.takes_notes and self._desk.why_read_only is None
        body = sheet.body if sheet is not None else ""
        self._budget = _budget(booking, sheet, self._settings)
        self._entitle()
        self.text.answers = partial(self._desk.board.answer_rows, booking) if booking is not None else None
        opens = is_open and self.text.read_only
        if lesson_id != self._lesson_id or opens or (not is_open and body != self.text.text):
            self._lesson_id = lesson_id
            self.text.theory = self._settings.preferences.theory_for(booking.lesson.instrument if booking else None)
            self._plan_told.clear()
            self.text.load_text(_on_a_fresh_line(body) if is_open else body)
            self.text.move_cursor(self.text.document.end)
        self.text.read_only = not is_open
        self.count()
        # The line that the cursor is on is no change of hers: looking at notes must not save them.
        saved = self.text.text if self.text.text == _on_a_fresh_line(body) else body
        self._saving.open(booking if is_open else None, self._desk.day.on, saved, self.text.text)
        self._shows_unsaved = False
        self._show_unsaved()
        self._remember_later(lesson_id)

    def so_far(self) -> str:
        """What the notes on the screen hold, in words."""
        lines = read_notes(self.text.text, self._settings.preferences.labels)
        counts, asked = counts_of(lines), self._budget.asked(lines)
        minutes = [asked.words] if asked.typed else []
        said = [counted(counts.given, "assignment"), *counts.lasting, counted(counts.remarks, "remark"), *minutes]
        return f"practice notes: {', '.join(said)}"

    def count(self) -> None:
        """Says what is understood of the line with the cursor, and what the text holds; paints only what is another."""
        text, labels = self.text, self._settings.preferences.labels
        room, sums = self.query_one("#understood-line", Static), self.query_one("#count", Static)
        line = None if text.read_only else line_at(text.text, *text.cursor_location, labels)
        offer = None if text.suggestion else self._offer(text.cursor_location[0])
        lines = read_notes(text.text, labels)
        self.area_typed_last = next((each.area for each in reversed(lines) if each.area is not None), None)
        slip = slip_in(lines, no_labels(text.text, labels), self._budget)
        width, most = self.size.width - _MARGINS, room.content_size.height
        said = (
            understood_rows(line, offer, width, most - bool(slip), labels, self._typed_on, text.theory)
            if line is not None
            else ""
        )
        rows = Content.assemble(said, "\n" if said and slip else "", (slip, role("warning", "bold")))
        for shown, fresh in ((room, rows), (sums, notes_count(lines, self._budget, width))):
            if str(shown.content) != str(fresh):
                shown.update(fresh, layout=False)

    def save(self) -> bool:
        """Saves the text on the screen if it is not saved yet; whether it had been waiting.

        Raises:
            CockpitError: it was not saved; the text stays where it is.
        """
        return self.is_ready and self._saving.save(self.text.text)

    def retry(self) -> bool:
        """Tries again to save what waits; whether it is saved now.

        Raises:
            CockpitError: something is wrong that she has not been told of.
        """
        try:
            return self._saving.retry()
        finally:
            self._show_unsaved()

    def carry(self, given: GivenAssignment) -> str:
        """Puts an open assignment into the notes, with the tempo heard last as its new start; returns a sentence.

        Raises:
            Refused: the notes are closed, or have it, or it is a thing to get or a goal, which goes along by itself.
        """
        if not given.is_assignment:
            raise Refused(f"{given.line.text} stays on the sheet by itself until it is marked done or dropped.")
        return self._add(given.line, given.tempo)

    def review(self, title: str) -> str:
        """Gives a piece that is kept alive again: `Review: Little Canoe`; returns a sentence.

        Raises:
            Refused: the notes are closed, or have it.
        """
        from cockpit.studio.pieces.kept_alive import review_line  # its row is shown, and so it is loaded

        return self._add(review_line(title, self._settings.preferences.labels), None)

    def _add(self, asked: NoteLine, tempo: int | None) -> str:
        text, self._after_carrying = self._open_text(), None
        if (there := given_again(asked, text.text, self._settings.preferences.labels)) is not None:
            raise Refused(f"Already in today's notes: {there}")
        line = carried_on(asked, tempo)
        end = text.document.end
        fresh = "" if end[1] == 0 else "\n"
        text.history.checkpoint()  # undoing it takes back nothing that was typed before
        text.insert(f"{fresh}{line}\n", location=end, maintain_selection_offset=False)
        text.move_cursor(text.document.end)
        self._after_carrying = text.text
        return f"Added to today's notes: {line}"

    def write_below(self, line: str) -> None:
        """Writes a line that the family reads below the text; the cursor stays in a line that has words.

        Raises:
            BadInput: the family would not read it there.
            Refused: the notes are closed.
        """
        text = self._open_text()
        above = text.text.rstrip("\n")
        longer = with_line(text.text, line, self._settings.preferences.labels)
        row, column = text.cursor_location
        text.history.checkpoint()  # undoing it takes back nothing that was typed before
        text.replace(longer[len(above) :], _place_in(above), text.document.end)
        if text.text != longer:
            raise Refused("These notes have no room for another line.")
        text.move_cursor((row, column) if row <= above.count("\n") and above else text.document.end)

    @property
    def lesson_id(self) -> LessonId | None:
        """The lesson whose notes these are."""
        return self._lesson_id

    def _open_text(self) -> ProposingText:
        if self.text.read_only:
            raise Refused("This lesson is finished. Press Begin (F2) to reopen its notes.")
        return self.text

    def type_on(self, letters: str, *, was_carried: bool) -> None:
        """Puts letters on a line of their own; `was_carried` says that a line was carried over by the first, by mistake.

        Raises:
            Refused: the notes are closed.
        """
        text = self._open_text()
        if was_carried and text.text == self._after_carrying:
            text.undo()
        row, _ = text.cursor_location
        line = text.document.get_line(row)
        fresh = "\n" if line.strip() else ""
        text.insert(f"{fresh}{letters}", location=(row, len(line)), maintain_selection_offset=False)
        text.move_cursor((row + bool(fresh), len(letters) if fresh else len(line) + len(letters)))

    def _offer(self, row: int) -> LabelOffer | None:
        """The label that a line would take, if it looks like an assignment and has none."""
        line = None if self.text.read_only else line_at(self.text.text, row, 0, self._settings.preferences.labels)
        is_whole = line is not None and line.typed == self.text.document.get_line(row)
        return label_offer(line, self._settings.preferences.labels) if line is not None and is_whole else None

    def _labeled(self, row: int) -> str | None:
        offer = self._offer(row)
        return offer.line if offer is not None else None

    def on_resize(self) -> None:
        """Says it anew in the room that there is now."""
        self.count()

    def on_click(self) -> None:
        """A tap anywhere in the pane takes the cursor into the text."""
        self.text.focus()

    def _keep_typed(self) -> None:
        self.typed_at = self._desk.clock.now()
        if not self.is_ready:
            return
        try:
            self._saving.type(self.text.text)
        except CockpitError as fault:
            self.post_message(self.Said(str(fault), is_fault=True))
        self._show_unsaved()
        self.count()
        # Once: she may have good reasons.
        if self._saving.fault is None and self._warned_of != self._lesson_id:
            warning = self._budget.warning(read_notes(self.text.text, self._settings.preferences.labels))
            if warning is not None:
                self._warned_of = self._lesson_id
                self.post_message(self.Said(warning))
        self.changes += 1
        if self._changes_when_waited is None:
            self._wait_for_plan()

    def _wait_for_plan(self) -> None:
        self._changes_when_waited = self.changes
        self.set_timer(_PLANNED, self.tell_of_plan)

    def tell_of_plan(self) -> None:
        """Says what of the plan she would not expect, each thing once a lesson, when she has typed nothing for a while."""
        if self._changes_when_waited != self.changes:
            self._wait_for_plan()
            return
        self._changes_when_waited = None
        if self._saving.fault is not None or self.text.read_only:
            return
        fresh = [each for each in self._desk.teaching.plan_notices(self.text.text) if each not in self._plan_told]
        if fresh:
            self._plan_told.update(fresh)
            self.post_message(self.Said(" ".join(fresh)))

    def _show_unsaved(self) -> None:
        is_unsaved = self._saving.is_unsaved
        if is_unsaved != self._shows_unsaved:
            self._shows_unsaved = is_unsaved
            self._entitle(is_unsaved=is_unsaved)

    def _entitle(self, *, is_unsaved: bool = False) -> None:
        self.query_one(Heading).say(*_title(self._desk, is_unsaved=is_unsaved))

    def _remember_later(self, lesson_id: LessonId | None) -> None:
        """Proposes nothing for another lesson until its memory is made, a moment later."""
        if lesson_id != self._remembered_for:
            self._remembered_for = lesson_id
            self.text.propose_with(None, None)
            if self._settings.proposals and lesson_id is not None:
                self.set_timer(_LATER, self._remember)

    def _remember(self) -> None:
        """Fetches what is remembered for the lesson; the memory is made of it on a thread, which no key waits for."""
        booking = self._desk.day.shown
        if booking is None or booking.lesson.id != self._remembered_for:
            return
        if (
            timedelta() <= self._desk.clock.now() - self.typed_at < _PAUSE
        ):  # she types: no key is to share the processor
            self.set_timer(_LATER, self._remember)
            return
        sheet = self._desk.notes.sheet(booking)
        remembered = self._desk.remembering.remembered(
            booking, sheet, self._settings.abbreviations, self._settings.preferences.labels
        )
        self.run_worker(
            partial(self._make, booking, remembered),
            group="memory",
            exclusive=True,
            exit_on_error=False,
            thread=True,
        )

    def _make(self, booking: ScheduledLesson, remembered: "Remembered") -> None:
        self._desk.board.prepare_answers(booking)
        memory = remembered.memory()
        self.app.call_from_thread(self._propose, booking.lesson.id, memory)

    def _propose(self, lesson_id: LessonId, memory: "Memory") -> None:
        from cockpit.studio.completion.completion import abbreviation, ghost  # loaded with the memory

        if lesson_id == self._remembered_for:
            stay()
            self.text.propose_with(partial(ghost, memory), partial(abbreviation, memory))


def _place_in(above: str) -> tuple[int, int]:
    """The row and the column behind a text."""
    return above.count("\n"), len(above) - above.rfind("\n") - 1


def _on_a_fresh_line(body: str) -> str:
    """A text with an empty last line."""
    return body if not body or body.endswith("\n") else f"{body}\n"


def _budget(booking: ScheduledLesson | None, sheet: Sheet | None, settings: Settings) -> Budget:
    given = sheet.last.assignments if sheet is not None and sheet.last is not None else ()
    daily = booking.student.daily_minutes if booking is not None else None
    days = booking.student.practice_days if booking is not None else None
    usual = settings.preferences.practice
    return budget_after((each.line for each in given), daily, usual.days if days is None else days, usual.load)


def _title(desk: Desk, *, is_unsaved: bool) -> tuple[str, str, str]:
    """The heading of the notes, what is to be known of them, and its style."""
    booking, running = desk.day.shown, desk.day.running
    if booking is None:
        return "NOTES", "", ""
    words, warning = f"NOTES FOR {booking.student.name.upper()}", role("warning")
    if is_unsaved:
        return words, "not saved", role("error", "bold")
    if desk.why_read_only is not None:
        return words, "read-only", warning
    if not booking.lesson.takes_notes:
        return words, "finished, F2 reopens", role("quiet")
    if running is not None and running.lesson.id != booking.lesson.id:
        return words, f"{possessive(running.student.name)} lesson runs", warning
    return words, "", ""


class LineCounts(Value):
    """How many lines are assignments, goals, remarks, and kept from the family, and how many things there are to get."""

    given: int
    to_get: int
    goals: int
    remarks: int
    private: int

    @property
    def lasting(self) -> list[str]:
        """In words, what stays on the sheet until it is marked: `2 to get`, `1 goal`."""
        to_get = [f"{self.to_get} to get"] if self.to_get else []
        return [*to_get, *([counted(self.goals, "goal")] if self.goals else [])]


def counts_of(lines: Iterable[NoteLine]) -> LineCounts:
    """What there is in some lines."""
    lines = [line for line in lines if line.text]
    return LineCounts(
        given=sum(line.line is Line.ASSIGNMENT for line in lines),
        to_get=sum(len(things_of(line)) for line in lines),
        goals=sum(line.line is Line.GOAL for line in lines),
        remarks=sum(line.line is Line.REMARK for line in lines),
        private=sum(line.line.is_kept_back for line in lines),
    )


def slip_in(lines: Sequence[NoteLine], unknown: Sequence[str], budget: Budget) -> str:
    """Names what may be a slip: an `unknown` label without its colon, or many more minutes than last week; else nothing."""
    if bare := next((words for words in unknown if not words.endswith(":")), None):
        return f"{NEEDS_HER} " + (f"Put a colon after {bare}" if bare[0].isalnum() else f"{bare} keeps nothing back")
    if budget.warning(lines) is None:
        return ""
    planned, asked = budget.planned(lines), budget.asked(lines)
    words = asked.words if planned == asked.typed else f"{minutes_of(planned or 0)} a day"
    return f"{NEEDS_HER} {words}, up from {budget.last_week}"


def notes_count(lines: Sequence[NoteLine], budget: Budget, width: int) -> Content:
    """What the typed lines are so far, on one row: `2 assignments  1 remark  ▒ 1 private`, at its end the minutes a day.

    Where there is no room, shorter words say the same.
    """
    counts, asked = counts_of(lines), budget.asked(lines)
    given, private = counts.given, counts.private
    told = "".join(f"  {words}" for words in (*counts.lasting, counted(counts.remarks, "remark"))) + "  "
    of = f" of {asked.of}" if asked.of is not None else ""
    long = counted(given, "assignment") + told, f"{PRIVATE} {private} private"
    short = f"{given} asked" + told, f"{PRIVATE} {private}"
    ways = ((*long, asked.words), (*long, f"{asked.typed}{of} min"), (*short, f"{asked.typed}{of} min"))
    said, kept, minutes = next((way for way in ways if _fits(way, width, asked.typed)), ways[-1])
    minutes = minutes if asked.typed else ""
    blank = " " * max(2 * bool(minutes), width - sum(map(cell_len, (said, kept, minutes))))
    is_more = asked.of is not None and asked.typed > asked.of
    return Content.assemble(
        (said, role("quiet")),
        (kept, role("private" if private else "quiet")),
        blank,
        (minutes, role("warning", "bold") if is_more else role("quiet")),
    )


def _fits(way: tuple[str, str, str], width: int, minutes: int) -> bool:
    said, kept, asked = map(cell_len, way)
    return said + kept + (asked + 2 if minutes else 0) <= width
