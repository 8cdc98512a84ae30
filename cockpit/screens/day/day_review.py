"""The end of the day on the screen: each line leads back to its lesson, or ticks what is owed."""

from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from typing import TYPE_CHECKING

from textual.containers import Horizontal
from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.day_review_rows import (
    COMING,
    INQUIRIES,
    LESSON,
    OFF,
    OUTBOX,
    OWED,
    all_coming,
    coming_up_options,
    day_line,
    review_options,
    review_title,
    tomorrow_beside,
)
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows, lines_in
from cockpit.studio.calendar.collisions import Group
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import LessonId, Outcome

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import ComingUp
    from cockpit.studio.day.review import DayReview

_WIDE = 130  # columns from which on tomorrow stands beside the day
_BETWEEN = 4  # columns between them
_AROUND = 10  # rows above and below them, and one before what comes up


class ReviewRows(Rows):
    """Rows that take their share of the screen; the cursor walks off their end into those beside them."""

    rules_group = True
    before: "ReviewRows | None" = None
    following: "ReviewRows | None" = None

    @property
    def columns(self) -> int:
        """How many columns a row has, beside the others where the screen is wide."""
        both = super().columns
        if self.app.size.width < _WIDE:
            return both
        tomorrow = (both - _BETWEEN) * 2 // 5
        return both - _BETWEEN - tomorrow if self.before is None else tomorrow

    def action_cursor_down(self) -> None:
        """Goes to the row below, or to the first one beside these."""
        self._walk(super().action_cursor_down, self.choosable[-1:], self.following or self.before, last=False)

    def action_cursor_up(self) -> None:
        """Goes to the row above, or to the last one beside these."""
        self._walk(super().action_cursor_up, self.choosable[:1], self.before or self.following, last=True)

    def _walk(self, step: Callable[[], None], ends: Sequence[int], beside: "ReviewRows | None", *, last: bool) -> None:
        to = beside.choosable if beside is not None and beside.display else []
        if beside is not None and to and self.highlighted in [*ends, None]:
            beside.highlighted = to[-1 if last else 0]
            beside.focus()
        else:
            step()


class DayReviewScreen(CockpitScreen):
    """A day looked back on. Enter goes to a lesson or ticks a follow-up; left and right change the day."""

    PLACE = Place.REVIEW
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._on = self.desk.day.on
        self._review: DayReview | None = None
        self._coming: ComingUp | None = None
        self._is_wide = False

    def body(self) -> Iterable[Widget]:
        """The day, and where the screen is wide the next one beside it."""
        yield Static(id="day-line", markup=False)
        with Horizontal(id="days"):
            yield ReviewRows(id="review", markup=False)
            yield ReviewRows(id="tomorrow", markup=False)

    def on_mount(self) -> None:
        """Shows the day."""
        self._rows, self._tomorrow = self.query_one("#review", ReviewRows), self.query_one("#tomorrow", ReviewRows)
        self._rows.following, self._tomorrow.before = self._tomorrow, self._rows
        self.show()
        self._rows.focus()

    def on_resize(self) -> None:
        """Puts tomorrow beside the day, or below it, whichever fits now."""
        if self._is_wide != (self.app.size.width >= _WIDE):
            self._draw()

    def show(self) -> None:
        """Reads the day again and shows it; the cursor stays on its line."""
        review = self._review = self.desk.reviewing.review(self._on)
        self._coming = self.desk.ahead.coming_up()
        self.entitle(long_date(self._on), review_title(review))
        self._draw()

    def _draw(self) -> None:
        review, coming, preferences = self._review, self._coming, self.settings.preferences
        if review is None or coming is None:
            return
        is_wide = self._is_wide = self.app.size.width >= _WIDE
        line, rows, tomorrow = self.query_one("#day-line", Static), self._rows, self._tomorrow
        line.display, tomorrow.display = is_wide and bool(review.lessons), is_wide
        tomorrow.styles.width = tomorrow.columns + 2
        if line.display:
            line.update(Content("\n").join(day_line(review.lessons, self.app.size.width - 2)))
        rows.lay_out(lambda width: review_options(review, preferences.home, width, coming, is_beside=is_wide))
        height = self.app.size.height

        def beside(width: int) -> list[Option]:
            if not is_wide:
                return []
            below = coming_up_options(coming, preferences.home, width, 1)
            rows = height - _AROUND - lines_in(below)
            return [*tomorrow_beside(review, preferences, width, rows), *below]

        tomorrow.lay_out(beside)
        if tomorrow.has_focus and not is_wide:
            rows.focus()

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Opens a lesson or the outbox, or ticks a follow-up."""
        chosen = event.option_id or ""
        if chosen.startswith(LESSON):
            self.post_message(self.LessonChosen(*_lesson_of(chosen)))
        elif chosen == OUTBOX:
            self.call_next(self.do, "review.show_outbox")
        elif chosen.startswith(INQUIRIES):
            self.call_next(self.do, "review.show_inquiries")
        elif chosen.startswith((COMING, OFF)):
            self._open_coming(chosen)
        elif chosen.startswith(OWED):
            self._settle(int(chosen.removeprefix(OWED)))

    def _open_coming(self, chosen: str) -> None:
        """Opens the later lesson of a problem, as Coming up does. For any other row, opens Coming up with that row chosen."""
        kind, _, number = chosen.partition(":")
        if self._review is None or self._coming is None:
            return
        if f"{kind}:" == OFF:
            self.post_message(self.ComingUpAsked(self._review.left_out[int(number)].because))
            return
        about = all_coming(self._coming)[int(number)]
        if isinstance(about, Group):
            booking = about.first.other or about.first.booking
            on = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(on, booking.lesson.id))
        else:
            self.post_message(self.ComingUpAsked(about))

    def action_mark_taught(self) -> None:
        """Finishes the chosen lesson."""
        self.step(lambda: self.finished(self.desk.teaching.mark_taught(*self._chosen_lesson())))

    def action_mark_absent(self) -> None:
        """Marks the student of the chosen lesson absent."""
        self.step(lambda: self._mark(Outcome.ABSENT))

    def action_mark_cancelled(self) -> None:
        """Marks the chosen lesson canceled, in time or late."""
        self.step(lambda: self._mark(Outcome.CANCELLED))

    def action_add_owed(self) -> None:
        """Asks for something that she owes."""
        self.attempt(lambda: self.ask_for_line(Purpose.DUTY, None))

    def action_write_out(self) -> None:
        """Writes the review into the folder."""
        self.attempt(self._write_out)

    def action_show_day_before(self) -> None:
        """Shows the review of the day before."""
        self._turn(-1)

    def action_show_day_after(self) -> None:
        """Shows the review of the day after."""
        self._turn(1)

    def _mark(self, outcome: Outcome) -> str:
        return self.desk.teaching.mark(*self._chosen_lesson(), outcome)

    def _chosen_lesson(self) -> tuple[date, LessonId]:
        rows = self._tomorrow if self._tomorrow.has_focus else self._rows
        option = rows.highlighted_option
        chosen = option.id if option is not None and option.id is not None else ""
        if not chosen.startswith(LESSON):
            raise Refused("Choose a lesson first.")
        return _lesson_of(chosen)

    def _turn(self, days: int) -> None:
        self._on += timedelta(days=days)
        self.show()

    def _settle(self, number: int) -> None:
        if self._review is None:
            return
        owed = self._review.owed[number]
        if isinstance(owed, OwedMinutes):
            from cockpit.screens.lost_minutes import ask_to_settle  # when something is owed

            ask_to_settle(self, owed)
        else:
            self.step(lambda: f"Checked off: {self.desk.reviewing.tick(owed)}")

    def _write_out(self) -> None:
        self.say(f"Saved in {self.desk.reviewing.write_out(self._on).relative_to(self.desk.folder)}")


def _lesson_of(chosen: str) -> tuple[date, LessonId]:
    """The day and the lesson of a row, by its id."""
    _, on, lesson_id = chosen.split(":", 2)
    return date.fromisoformat(on[on.index("@") + 1 :]), LessonId(lesson_id)
