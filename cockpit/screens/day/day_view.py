"""The lesson day as it is shown: the clock, the queue, the last assignments and the notes."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Container
from textual.content import Content

from cockpit.desk.day.day import Day
from cockpit.desk.desk import Desk
from cockpit.screens.base import CockpitScreen
from cockpit.screens.commands.command import DAY_AND_ITS_PANES, Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.day.last_pane import LastPane
from cockpit.screens.day.panes import NotesPane, QueuePane, on_a_fresh_line, queue_rows
from cockpit.screens.look.show import role
from cockpit.screens.look.styles import TALL
from cockpit.screens.textual_parts.widgets import ClockBar, KeyStrip, Notice
from cockpit.settings.settings import Settings
from cockpit.studio.assignments.last_lesson import Sheet
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.words import clock_time, possessive, short_date
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.countdown import read_clock
from cockpit.studio.practice.budget import Budget, typed_minutes

if TYPE_CHECKING:
    from cockpit.studio.lessons.lesson import LessonId
    from cockpit.studio.post.outgoing import Fate

_STRIP = (
    "lesson.finish", "lesson.begin", "app.show_help", "app.show_ahead", "lesson.go_next", "pane.show_next", "app.undo",
    "lesson.give_full_length", "lesson.mark_absent", "lesson.mark_cancelled", "student.find", "lesson.open_link",
    "app.show_review", "app.show_week", "lesson.preview", "app.command_palette", "app.quit",
)  # fmt: skip
PANES = ("notes", "last", "queue")
_SAVED_AGAIN = "The notes are saved again."


class DayView(CockpitScreen):
    """One day of lessons beside the call, without its keys."""

    HORIZONTAL_BREAKPOINTS = [(0, "-one"), (70, "-two"), (130, "-three")]
    VERTICAL_BREAKPOINTS = TALL
    AUTO_FOCUS = ""  # else the cursor goes into the queue first, and each way styles and paints anew

    def __init__(
        self, desk: Desk, settings: Settings, commands: tuple[Command, ...] = COMMANDS, greeting: str = ""
    ) -> None:
        super().__init__(classes="show-notes")
        self._greeting = greeting
        self._is_ready = False
        self._warned_of: str | None = None
        self.to_settle = 0
        self.unsent: dict[LessonId, Fate] = {}
        self.typed_at = datetime.min.replace(tzinfo=UTC)
        self._desk = desk
        self._settings = settings
        self._commands = {command.id: command for command in commands}
        self._saving = desk.saving
        self._shows_unsaved = False

    def compose(self) -> ComposeResult:
        """The clock above, three panes, a notice, the keys."""
        # Before there is anything to style: each of these classes styles the whole screen once more.
        self._fit(self.app.size.width, self.app.size.height)
        settings = self._settings
        yield ClockBar(settings.home, settings.hours, settings.wait_minutes)
        with Container(id="body"):
            yield QueuePane()
            yield NotesPane(self._keep_typed)
            yield LastPane(self._desk.clock.now)
        yield Notice()
        yield KeyStrip(_strip_of(self._desk.day, self._commands, self.to_settle, len(self.unsent)))

    def on_mount(self) -> None:
        """Opens on the running lesson, or the next one."""
        self.say(self._greeting, is_fault=self._desk.why_read_only is not None)
        self._is_ready = True
        self.show_lesson()
        self.show_pane("notes")

    def _fit(self, width: int, height: int) -> None:
        # Textual sets these classes at the first resize, when a first picture with all panes has been painted.
        for size, breakpoints in ((width, self.HORIZONTAL_BREAKPOINTS), (height, self.VERTICAL_BREAKPOINTS)):
            self.add_class([name for least, name in breakpoints if least <= size][-1])

    def commands_here(self) -> Iterable[Command]:
        """Everything but what belongs to the screens that open over the day."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, *DAY_AND_ITS_PANES}]

    def show_lesson(self) -> None:
        """Shows the lesson that the desk has open: its notes, what came before, and the time."""
        booking = self._desk.day.shown
        sheet = self._desk.notes.sheet(booking) if booking is not None else None
        pane = self.query_one(NotesPane)
        lesson_id = booking.lesson.id if booking is not None else None
        is_open = booking is not None and booking.lesson.takes_notes and self._desk.why_read_only is None
        body = sheet.body if sheet is not None else ""
        pane.budget = _budget(booking, sheet, self._settings)
        pane.show(lesson_id, body, _notes_title(self._desk), is_open=is_open)
        # The line that the cursor stands on is no change of hers: looking at notes must not save them.
        saved = pane.text.text if pane.text.text == on_a_fresh_line(body) else body
        self._saving.open(booking if is_open else None, self._desk.day.on, saved, pane.text.text)
        self._shows_unsaved = False
        self._show_unsaved()
        self.query_one(LastPane).show(booking, sheet, self._desk.day.on)
        self.unsent = self._desk.outbox.unsent()
        self.show_time()

    def show_outbox(self) -> None:
        """Shows in the queue what has not gone out."""
        self.unsent = self._desk.outbox.unsent()
        self.show_time()

    def show_time(self) -> None:
        """Shows what depends on the time of day; called once a second, and after each step."""
        now, day = self._desk.clock.now(), self._desk.day
        time_of_day = clock_time(local_time(now, self._settings.home), self._settings.hours)
        self.query_one(ClockBar).show(
            read_clock(day.bookings_going_on, now, self._settings.wrap_up_minutes), time_of_day
        )
        self.query_one(KeyStrip).offer(_strip_of(self._desk.day, self._commands, self.to_settle, len(self.unsent)))
        rows = queue_rows(day.bookings, now, day.shown_id, self._settings, self.unsent)
        title = short_date(day.on) + ("" if day.on == day.today() else ", not today") + ("" if rows else ": no lessons")
        self.query_one(QueuePane).show(title, rows, day.shown_id)

    def show_pane(self, name: str) -> None:
        """Takes the cursor into a pane; on a narrow screen it is then the one that is shown."""
        for pane in PANES:
            self.set_class(pane == name, f"show-{pane}")
        inner = {"notes": "#text", "last": "#assignments", "queue": "#lessons"}[name]
        self.query_one(inner).focus()

    def tick(self) -> None:
        """Once a second: the time, what could not be saved before, the drafts, and the next day after midnight."""
        if not self._is_ready:
            return
        self.attempt(self._retry_saving)
        if self._saving.fault is None:
            self.attempt(self.turn_over)
            self.attempt(self._desk.teaching.keep_drafts)
        self.show_time()
        self.query_one(NotesPane).count()

    def save_typed(self) -> None:
        """Saves the text on the screen if it is not saved yet.

        Raises:
            CockpitError: it was not saved; the text stays where it is.
        """
        if self._is_ready and self._saving.save(self.query_one(NotesPane).text.text):
            self.say(_SAVED_AGAIN)

    def read_again(self) -> None:
        """Shows what another cockpit has changed."""
        self._desk.day.reload()
        self.show_lesson()

    def turn_over(self) -> None:
        """Goes on with the next day, if one has begun."""
        if self._desk.day.is_over():
            self.save_typed()
            self._desk.day.turn()
            self.show_lesson()

    def _retry_saving(self) -> None:
        try:
            if self._saving.retry():
                self.say(_SAVED_AGAIN)
        finally:
            self._show_unsaved()

    def _show_unsaved(self) -> None:
        is_unsaved = self._saving.is_unsaved
        if is_unsaved != self._shows_unsaved:
            self._shows_unsaved = is_unsaved
            self.query_one(NotesPane).retitle(_notes_title(self._desk, is_unsaved=is_unsaved))

    def _keep_typed(self) -> None:
        self.typed_at = self._desk.clock.now()
        if not self._is_ready:
            return
        pane = self.query_one(NotesPane)
        self.attempt(lambda: self._saving.type(pane.text.text))
        self._show_unsaved()
        pane.count()
        # Once: she may have good reasons.
        if self._saving.fault is None and pane.warning is not None and self._warned_of != pane.lesson_id:
            self._warned_of = pane.lesson_id
            self.say(pane.warning)


def _budget(booking: Booking | None, sheet: Sheet | None, settings: Settings) -> Budget:
    given = sheet.last.assignments if sheet is not None and sheet.last is not None else ()
    return Budget(
        daily_minutes=booking.student.daily_minutes if booking is not None else None,
        last_week=typed_minutes(each.line for each in given),
        rules=settings.practice.load,
    )


def _strip_of(day: Day, commands: Mapping[str, Command], to_settle: int, unsent: int) -> list[Command]:
    """The key strip; two of its commands say how much there is to do."""
    words = {"app.show_ahead": f"Ahead: {to_settle}"} if to_settle else {}
    names = list(_STRIP)
    if day.running is None:  # what comes next then is to begin
        names[:2] = reversed(names[:2])
    if day.on != day.going_on:
        names.insert(0, "day.show_today")
    if unsent:  # what has not gone out is not to be overlooked
        words["app.show_outbox"] = f"Outbox: {unsent}"
        names.insert(2, "app.show_outbox")
    return [replace(commands[name], short=words[name]) if name in words else commands[name] for name in names]


def _notes_title(desk: Desk, *, is_unsaved: bool = False) -> Content:
    booking, running = desk.day.shown, desk.day.running
    if booking is None:
        return Content("Notes")
    name = booking.student.name
    if is_unsaved:
        return Content.assemble((f"Notes for {name}", "bold"), (", not saved", role("error", "bold")))
    if desk.why_read_only is not None:
        return Content.assemble((name, "bold"), (", only to read", role("warning")))
    if not booking.lesson.takes_notes:
        return Content.assemble((name, "bold"), (", finished: Begin reopens", role("quiet")))
    if running is not None and running.lesson.id != booking.lesson.id:
        return Content.assemble(
            (name, "bold"), (f", while {possessive(running.student.name)} lesson runs", role("warning"))
        )
    return Content.assemble((f"Notes for {name}", "bold"))
