"""The end of the day on the screen: each line leads back to its lesson, or ticks what is owed."""

from collections.abc import Iterable
from datetime import date, timedelta

from textual.content import Content
from textual.widget import Widget
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from cockpit.screens.commands.commands import Place
from cockpit.screens.day.day_review_rows import follow_up_row, left_out_row, lesson_row, missing_row, tomorrow_row
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.words import long_date, minutes_of, short_date
from cockpit.studio.day.review import DayReview, Missing
from cockpit.studio.lessons.lesson import LessonId
from cockpit.wording.day_review import attendance

_LESSON, _OWED, _OUTBOX = "lesson:", "owed:", "outbox"


class DayReviewScreen(CockpitScreen):
    """A day looked back on. Enter goes to a lesson or ticks a follow-up; left and right change the day."""

    PLACE = Place.REVIEW
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._on = self.desk.day.on
        self._review: DayReview | None = None

    def body(self) -> Iterable[Widget]:
        """The day's sums, and its list."""
        yield Static(id="sums", markup=False)
        yield Rows(id="review", markup=False)

    def on_mount(self) -> None:
        """Shows the day."""
        self.show()
        self.query_one(Rows).focus()

    def show(self) -> None:
        """Reads the day again and shows it; the cursor stays on its line."""
        review = self._review = self.desk.reviewing.review(self._on)
        self.entitle(f"End of the day: {long_date(self._on)}")
        self.query_one("#sums", Static).update(
            f"{minutes_of(review.minutes_taught)} of teaching · {attendance(review)}"
        )
        self.query_one(Rows).show_again(self._options(review))

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Opens a lesson or the outbox, or ticks a follow-up."""
        chosen = event.option_id or ""
        if chosen.startswith(_LESSON):
            _, on, lesson_id = chosen.split(":", 2)
            self.post_message(self.LessonChosen(date.fromisoformat(on[on.index("@") + 1 :]), LessonId(lesson_id)))
        elif chosen == _OUTBOX:
            self.call_next(self.do, "review.show_outbox")
        elif chosen.startswith(_OWED):
            self.step(lambda: self._tick(int(chosen.removeprefix(_OWED))))

    def action_write_out(self) -> None:
        """Writes the review into the folder."""
        self.attempt(self._write_out)

    def action_undo(self) -> None:
        """Takes the last tick back."""
        self.step(self.desk.reviewing.undo)

    def action_show_day_before(self) -> None:
        """Shows the review of the day before."""
        self._turn(-1)

    def action_show_day_after(self) -> None:
        """Shows the review of the day after."""
        self._turn(1)

    def _turn(self, days: int) -> None:
        self._on += timedelta(days=days)
        self.show()

    def _tick(self, number: int) -> str:
        if self._review is None:
            return ""
        owed = self._review.owed[number]
        self.desk.reviewing.tick(owed.follow_up)
        return f"Checked off: {owed.follow_up.body}"

    def _write_out(self) -> None:
        self.say(f"Saved in {self.desk.reviewing.write_out(self._on).relative_to(self.desk.folder)}")

    def _options(self, review: DayReview) -> list[Option]:
        home = self.settings.preferences.home
        options = [_heading(f"Missing: {len(review.missing)}" if review.missing else "Nothing missing")]
        options += [
            Option(missing_row(m), id=f"{_LESSON}m{n}@{review.on}:{m.lesson_id}" if isinstance(m, Missing) else _OUTBOX)
            for n, m in enumerate(review.missing)
        ]
        options.append(_heading("Lessons · press enter to open one" if review.lessons else "No lessons"))
        options += [
            Option(lesson_row(x, home), id=f"{_LESSON}l@{review.on}:{x.booking.lesson.id}") for x in review.lessons
        ]
        options.append(_heading("You owe · press enter to check one off" if review.owed else "You owe nothing"))
        options += [Option(follow_up_row(owed, home), id=f"{_OWED}{n}") for n, owed in enumerate(review.owed)]
        options.append(
            _heading(f"Tomorrow, {short_date(review.tomorrow_on)}" + ("" if review.tomorrow else ": no lessons"))
        )
        options += [
            Option(tomorrow_row(b, home), id=f"{_LESSON}t@{review.tomorrow_on}:{b.lesson.id}") for b in review.tomorrow
        ]
        if review.left_out:
            options.append(_heading("On break"))
            options += [Option(left_out_row(each, home), disabled=True) for each in review.left_out]
        return options


def _heading(text: str) -> Option:
    return Option(Content.assemble((text, "bold underline")), disabled=True)
