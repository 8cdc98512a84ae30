"""Finding a student by a part of the name."""

from datetime import date

from textual.app import ComposeResult
from textual.binding import Binding
from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.day.finding import Finding, Found
from cockpit.screens.look.show import role
from cockpit.screens.textual_parts.fast_compositor import FastScreen
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson

_MOST = 30


class FindScreen(ModalScreen[tuple[date, LessonId]], FastScreen[tuple[date, LessonId]]):
    """Dismissed with the day and the lesson of the chosen student, or with nothing."""

    BINDINGS = [
        Binding("escape", "close", "Close", priority=True),
        Binding("down", "move(1)", "Down", show=False),
        Binding("up", "move(-1)", "Up", show=False),
    ]

    def __init__(self, finding: Finding, home: TeacherClock) -> None:
        super().__init__()
        self._finding = finding
        self._home = home
        self._lessons: dict[str, ScheduledLesson | None] = {}

    def compose(self) -> ComposeResult:
        """A line to type in, and who fits."""
        with Vertical(classes="sheet few"):
            yield Static("Find a student", classes="title", markup=False)
            yield Input(placeholder="part of a name")
            yield Rows(markup=False)

    def on_mount(self) -> None:
        """Shows everybody at first."""
        self._list("")

    def on_input_changed(self, event: Input.Changed) -> None:
        """Narrows the list."""
        self._list(event.value)

    def on_input_submitted(self) -> None:
        """Takes the chosen student."""
        option = self.query_one(OptionList).highlighted_option
        if option is not None:
            self._take(option.id)

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Takes the tapped student."""
        self._take(event.option_id)

    def action_move(self, step: int) -> None:
        """Moves the choice while the cursor stays in the line."""
        listing = self.query_one(OptionList)
        if listing.option_count:
            listing.highlighted = ((listing.highlighted or 0) + step) % listing.option_count

    def action_close(self) -> None:
        """Goes back."""
        self.dismiss(None)

    def _list(self, text: str) -> None:
        listing = self.query_one(OptionList)
        self._lessons = {}
        options = []
        for found in self._finding.search(text)[:_MOST]:
            booking = self._finding.next_lesson(found.student)
            self._lessons[str(found.student.id)] = booking
            options.append(Option(self._row(found, booking), id=str(found.student.id)))
        nobody = Option(
            f"No student matches {text.strip()}. Type any part of the student's or the family's name.", disabled=True
        )
        listing.set_options(options or [nobody])
        listing.highlighted = 0 if options else None

    def _row(self, found: Found, booking: ScheduledLesson | None) -> Content:
        when = "no lesson booked"
        if booking is not None:
            when = self._home.date_and_time(booking.lesson.starts_at)
        family = "" if found.family.name == found.student.name else f" · family {found.family.name}"
        return Content.assemble((found.student.name, "bold"), (f"{family} · {when}", role("quiet")))

    def _take(self, student_id: str | None) -> None:
        booking = self._lessons.get(student_id or "")
        if booking is None:
            self.query_one(".title", Static).update(f"This student has no lesson in the next {NEXT_LESSON.days} days")
            return
        starts_at = self._home.local(booking.lesson.starts_at)
        self.dismiss((starts_at.date(), booking.lesson.id))
