"""The week on the screen: what stands on each day, what is free; from here a lesson is moved, or opened."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date, datetime
from typing import TYPE_CHECKING

from textual.widget import Widget
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.week_rows import Looked, cursor_on, week_options, week_sums, week_title
from cockpit.screens.commands.commands import Place
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.studio.clocks.moments import WEEK
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import DayOfWeek

# Seconds after which what time alone has changed is shown: a lesson that is over time.
_LOOKED_AGAIN = 5.0


class WeekList(Rows):
    """The seven days, laid out for the width that there is; the cursor goes from lesson to lesson."""

    week: tuple["DayOfWeek", ...] = ()
    looked: Looked | None = None

    def show(self, week: tuple["DayOfWeek", ...], looked: Looked, cursor: LessonId | None) -> None:
        """Shows a week, with the cursor on a lesson of it."""
        self.week, self.looked = week, looked
        self.lay_out(lambda width: week_options(week, looked, width))
        self.highlighted = next((place for place, option in enumerate(self.options) if option.id == cursor), None)

    @property
    def chosen(self) -> ScheduledLesson | None:
        """The lesson that the cursor is on."""
        chosen = self.highlighted_option.id if self.highlighted_option is not None else None
        return next((b for day in self.week for b in day.bookings if b.lesson.id == chosen), None)

    def look_again(self, now: datetime) -> None:
        """Shows the same week at another moment (UTC); paints only where a line is another then."""
        if self.looked is None:
            return
        looked, chosen = replace(self.looked, now=now), self.chosen
        before = [str(option.prompt) for option in week_options(self.week, self.looked, self._drawn_for)]
        if [str(option.prompt) for option in week_options(self.week, looked, self._drawn_for)] != before:
            self.show(self.week, looked, chosen.lesson.id if chosen is not None else None)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Shows what stands before the first lesson and after the last one, where no cursor goes."""
        height, place = self.size.height, event.option_index
        choosable = [number for number, option in enumerate(self.options) if not option.disabled]
        if choosable[:1] == [place] and _lines(self.options[: place + 1]) <= height:
            self.scroll_home(animate=False, immediate=True)
        elif choosable[-1:] == [place] and _lines(self.options[place:]) <= height:
            self.scroll_end(animate=False, immediate=True)


class WeekScreen(CockpitScreen):
    """Seven days, Monday to Sunday. Enter goes to the chosen lesson on its day."""

    PLACE = Place.WEEK
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._on = self.desk.day.on
        self._like = self.desk.day.shown  # the cursor begins on the lesson that she came from

    def body(self) -> Iterable[Widget]:
        """Its days."""
        yield WeekList(id="week", markup=False)

    def on_mount(self) -> None:
        """Shows the week."""
        self.show()
        self.query_one(WeekList).focus()
        self.set_interval(_LOOKED_AGAIN, lambda: self.query_one(WeekList).look_again(self.desk.clock.now()))

    def show(self) -> None:
        """Reads the week and shows it, the cursor on its lesson, on that of the same weekly time, or on what comes next."""
        settings, now = self.settings, self.desk.clock.now()
        week = self.desk.ahead.week(self._on)
        looked = Looked(now=now, home=settings.preferences.home)
        self.entitle(week_title(week), week_sums(week, looked.today))
        listing = self.query_one(WeekList)
        bookings = [booking for day in week for booking in day.bookings]
        listing.show(week, looked, cursor_on(bookings, listing.chosen or self._like, now))
        self._like = None

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes to the chosen lesson on its day."""
        event.stop()
        booking = self.query_one(WeekList).chosen
        if booking is not None:
            on = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(on, booking.lesson.id))

    def action_show_before(self) -> None:
        """Shows the week before."""
        self._turn(self._on - WEEK)

    def action_show_after(self) -> None:
        """Shows the week after."""
        self._turn(self._on + WEEK)

    def action_show_this(self) -> None:
        """Shows the week that it is."""
        self.query_one(WeekList).highlighted = None  # the cursor goes to what comes next
        self._turn(self.desk.day.today())

    def action_move(self) -> None:
        """Moves the chosen lesson."""
        booking = self.query_one(WeekList).chosen
        if booking is None:
            self.say("There is no lesson to move this week.", is_fault=True)
        else:
            self.ask_for_line(Purpose.MOVE, booking)

    def _turn(self, on: date) -> None:
        self._on = on
        self.step(lambda: None)


def _lines(options: Iterable[Option]) -> int:
    return sum(str(option.prompt).count("\n") + 1 for option in options)
