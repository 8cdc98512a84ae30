"""The end of the day on the screen: each line leads back to its lesson, or ticks what is owed."""

from collections.abc import Iterable
from datetime import date, timedelta
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.day_review_rows import INQUIRIES, LESSON, OUTBOX, OWED, review_options, review_title
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import LessonId, Outcome

if TYPE_CHECKING:
    from cockpit.studio.day.review import DayReview


class DayReviewScreen(CockpitScreen):
    """A day looked back on. Enter goes to a lesson or ticks a follow-up; left and right change the day."""

    PLACE = Place.REVIEW
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._on = self.desk.day.on
        self._review: DayReview | None = None

    def body(self) -> Iterable[Widget]:
        """The list."""
        yield Rows(id="review", markup=False)

    def on_mount(self) -> None:
        """Shows the day."""
        self.show()
        self.query_one(Rows).focus()

    def show(self) -> None:
        """Reads the day again and shows it; the cursor stays on its line."""
        review = self._review = self.desk.reviewing.review(self._on)
        home = self.settings.preferences.home
        self.entitle(long_date(self._on), review_title(review))
        self.query_one(Rows).lay_out(lambda width: review_options(review, home, width))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Opens a lesson or the outbox, or ticks a follow-up."""
        chosen = event.option_id or ""
        if chosen.startswith(LESSON):
            self.post_message(self.LessonChosen(*_lesson_of(chosen)))
        elif chosen == OUTBOX:
            self.call_next(self.do, "review.show_outbox")
        elif chosen.startswith(INQUIRIES):
            self.call_next(self.do, "review.show_inquiries")
        elif chosen.startswith(OWED):
            self._settle(int(chosen.removeprefix(OWED)))

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
        option = self.query_one(Rows).highlighted_option
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
