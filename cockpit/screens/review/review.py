"""The end of the day on the screen: each line leads back to its lesson, or ticks what is owed."""

from collections.abc import Iterable
from datetime import date, timedelta

from textual.app import ComposeResult
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.desk import Desk
from cockpit.screens.base import CockpitScreen, bindings_for
from cockpit.screens.commands.command import Command, Where
from cockpit.screens.commands.commands import COMMANDS
from cockpit.screens.review.review_rows import follow_up_row, left_out_row, lesson_row, missing_row, tomorrow_row
from cockpit.screens.textual_parts.rows import Rows
from cockpit.screens.textual_parts.widgets import KeyStrip, Notice
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.words import long_date, minutes_of, short_date
from cockpit.studio.day.review import DayReview, attendance
from cockpit.studio.lessons.lesson import LessonId

_LESSON, _OWED, _OUTBOX = "lesson:", "owed:", "outbox"
_STRIP = (
    "review.write_out", "review.close", "review.show_outbox", "review.undo", "review.show_day_before", "review.show_day_after",
    "app.show_help", "app.command_palette", "app.quit",
)  # fmt: skip


class ReviewScreen(CockpitScreen):
    """A day looked back on. Enter goes to a lesson or ticks a follow-up; left and right change the day."""

    BINDINGS = bindings_for(Where.REVIEW)

    def __init__(self, desk: Desk, settings: Settings, on: date, commands: tuple[Command, ...] = COMMANDS) -> None:
        super().__init__()
        self._desk = desk
        self._settings = settings
        self._on = on
        self._commands = {command.id: command for command in commands}
        self._review: DayReview | None = None

    def compose(self) -> ComposeResult:
        """The day in a line, its list, a notice, the keys."""
        yield Static(classes="title", markup=False)
        yield Static(id="sums", markup=False)
        yield Rows(id="review", markup=False)
        yield Notice()
        yield KeyStrip([self._commands[name] for name in _STRIP])

    def on_mount(self) -> None:
        """Shows the day."""
        self.show_review()
        self.query_one(OptionList).focus()

    def commands_here(self) -> Iterable[Command]:
        """What the review can do."""
        return [c for c in self._commands.values() if c.where in {Where.EVERYWHERE, Where.REVIEW}]

    def show_review(self) -> None:
        """Reads the day again and shows it; the cursor stays on its line."""
        review = self._review = self._desk.reviewing.review(self._on)
        self.query_one(".title", Static).update(f"Review of {long_date(self._on)}")
        self.query_one("#sums", Static).update(f"{minutes_of(review.minutes_taught)} taught · {attendance(review)}")
        self.query_one(Rows).show_again(self._options(review))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Opens a lesson, or ticks a follow-up."""
        chosen = event.option_id or ""
        if chosen.startswith(_LESSON):
            _, on, lesson_id = chosen.split(":", 2)
            self.post_message(self.LessonChosen(date.fromisoformat(on[on.index("@") + 1 :]), LessonId(lesson_id)))
        elif chosen == _OUTBOX:
            self.app.call_next(self.run_action, "app.show_outbox")
        elif chosen.startswith(_OWED) and self._review is not None:
            owed = self._review.owed[int(chosen.removeprefix(_OWED))]
            if self.attempt(lambda: self._desk.reviewing.tick(owed.follow_up)):
                self.show_review()
                self.say(f"Ticked: {owed.follow_up.body}")

    def action_write_out(self) -> None:
        """Writes the review into the folder."""

        def write() -> None:
            self.say(f"The review is in {self._desk.reviewing.write_out(self._on).relative_to(self._desk.folder)}")

        self.attempt(write)

    def action_undo(self) -> None:
        """Takes the last tick back."""

        def undo() -> None:
            said = self._desk.reviewing.undo()
            self.show_review()
            self.say(said)

        self.attempt(undo)

    def action_show_day_before(self) -> None:
        """Shows the review of the day before."""
        self._turn(-1)

    def action_show_day_after(self) -> None:
        """Shows the review of the day after."""
        self._turn(1)

    def _turn(self, days: int) -> None:
        self._on += timedelta(days=days)
        self.show_review()

    def action_close(self) -> None:
        """Goes back to the lesson day."""
        self.app.pop_screen()

    def _options(self, review: DayReview) -> list[Option]:
        zone, hours = self._settings.home, self._settings.hours
        options = [_heading(f"Missing: {len(review.missing)}" if review.missing else "Nothing is missing")]
        options += [
            Option(
                missing_row(m), id=f"{_LESSON}m{n}@{review.on}:{m.lesson_id}" if m.lesson_id is not None else _OUTBOX
            )
            for n, m in enumerate(review.missing)
        ]
        options.append(_heading("Lessons · enter opens" if review.lessons else "No lessons"))
        options += [
            Option(lesson_row(x, zone, hours), id=f"{_LESSON}l@{review.on}:{x.booking.lesson.id}")
            for x in review.lessons
        ]
        options.append(_heading("You owe · enter ticks" if review.owed else "You owe nothing"))
        options += [Option(follow_up_row(owed, zone), id=f"{_OWED}{n}") for n, owed in enumerate(review.owed)]
        options.append(
            _heading(f"Tomorrow, {short_date(review.tomorrow_on)}" + ("" if review.tomorrow else ": no lessons"))
        )
        options += [
            Option(tomorrow_row(b, zone, hours), id=f"{_LESSON}t@{review.tomorrow_on}:{b.lesson.id}")
            for b in review.tomorrow
        ]
        if review.left_out:
            options.append(_heading("No lesson, by a break"))
            options += [Option(left_out_row(each, zone, hours), disabled=True) for each in review.left_out]
        return options


def _heading(text: str) -> Option:
    return Option(Content.assemble((text, "bold underline")), disabled=True)
