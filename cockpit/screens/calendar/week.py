"""The week on the screen: what stands on each day, what is free; from here a lesson is moved, or opened."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime
from functools import cache, partial
from typing import TYPE_CHECKING

from textual import on
from textual.geometry import Size
from textual.widget import Widget
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Purpose
from cockpit.screens.calendar.week_grid import WeekGrid, grid_view
from cockpit.screens.calendar.week_rows import Looked, cursor_on, week_options, week_sums, week_title
from cockpit.screens.commands.commands import Command, Place
from cockpit.screens.screen import CockpitScreen, Parts, bindings_for
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.rows import Rows, lines_in
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import near_day
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import replace
from cockpit.wording.day_review import asked_words

if TYPE_CHECKING:
    from cockpit.desk.calendar.ahead import DayOfWeek

_WALKED = frozenset({"week.show_before", "week.show_after"})  # their keys walk from day to day in the grid
_AROUND = 5  # rows of a screen above and below its middle
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
        fresh = self.laid_out(lambda width: week_options(self.week, looked, width))
        if [str(option.prompt) for option in fresh] != [str(option.prompt) for option in self.options]:
            self.show(self.week, looked, chosen.lesson.id if chosen is not None else None)

    def on_option_list_option_highlighted(self, event: OptionList.OptionHighlighted) -> None:
        """Shows what stands before the first lesson and after the last one, where no cursor goes."""
        height, place, choosable = self.size.height, event.option_index, self.choosable
        if choosable[:1] == [place] and lines_in(self.options[: place + 1]) <= height:
            self.scroll_home(animate=False, immediate=True)
        elif choosable[-1:] == [place] and lines_in(self.options[place:]) <= height:
            self.scroll_end(animate=False, immediate=True)


class WeekScreen(CockpitScreen):
    """Seven days, Monday to Sunday. Enter goes to the chosen lesson on its day."""

    PLACE = Place.WEEK
    BINDINGS = bindings_for(PLACE)

    def __init__(self, parts: Parts) -> None:
        super().__init__(parts)
        self._on = self.desk.day.on
        self._shown_at = Size()
        self._like = self.desk.day.shown  # the cursor begins on the lesson that she came from

    def body(self) -> Iterable[Widget]:
        """Its days, as a grid or as a list."""
        yield WeekGrid(id="grid")
        yield WeekList(id="week", markup=False)

    def on_mount(self) -> None:
        """Shows the week."""
        self.show()
        self.set_interval(_LOOKED_AGAIN, self._look_again)

    def on_resize(self) -> None:
        """Shows it as a grid or as a list, whichever fits now."""
        if self._shown_at != self.app.size:
            self.show()

    @property
    def chosen(self) -> ScheduledLesson | None:
        """The lesson that the cursor is on."""
        grid = self.query_one(WeekGrid)
        return grid.chosen if grid.display else self.query_one(WeekList).chosen

    def show(self) -> None:
        """Reads the week and shows it, the cursor on its lesson, on that of the same weekly time, or on what comes next."""
        settings, now = self.settings, self.desk.clock.now()
        week = self.desk.ahead.week(self._on)
        looked = Looked(now=now, home=settings.preferences.home)
        self.entitle(week_title(week), week_sums(week, looked.today))
        listing, grid, size = self.query_one(WeekList), self.query_one(WeekGrid), self.app.size
        self._shown_at = size
        bookings = [booking for day in week for booking in day.bookings]
        cursor = cursor_on(bookings, self.chosen or self._like, now)
        is_on_a_lesson = self._like is not None or grid.view is None or grid.chosen is not None
        view = grid_view(week, looked, size.width - 2, size.height - _AROUND)
        if view is not None:  # each lesson is looked up when it is first chosen
            view = replace(view, facts=cache(partial(self._facts, home=looked.home, today=looked.today)))
        grid.show(view, next((b for b in bookings if b.lesson.id == cursor), None) if is_on_a_lesson else None)
        listing.display = not grid.display
        if not grid.display:
            listing.show(week, looked, cursor)
        (grid if grid.display else listing).focus()
        self.query_one(KeyStrip).offer(self.strip())
        self._like = None

    def _facts(self, booking: ScheduledLesson, *, home: TeacherClock, today: date) -> Sequence[tuple[str, str]]:
        """The weekly time of a lesson, and how much the student was asked to do before it."""
        facts: list[tuple[str, str]] = []
        if (weekly := self.desk.ahead.weekly_time(booking)) is not None:
            standing, meets = weekly
            often = "every other " if standing.every_weeks > 1 else ""
            since = f" since {near_day(standing.from_on, today)}" if standing.from_on is not None else ""
            facts.append(("weekly", f"{often}{WEEKDAYS[home.local(meets).weekday()][:3]} {home.time(meets)}{since}"))
        if booking.lesson.is_open:
            brought = self.desk.reviewing.brought_to(booking, home.date_of(booking.lesson.starts_at))
            facts += [("asked", asked_words(brought))] if brought is not None and brought.open else []
        return facts

    def on_option_list_option_selected(self, event: OptionList.OptionSelected) -> None:
        """Goes to the chosen lesson on its day."""
        event.stop()
        self._open(self.query_one(WeekList).chosen)

    @on(WeekGrid.Entered)
    def enter_cell(self) -> None:
        """Goes to the chosen lesson, or asks to move the one that is carried."""
        grid = self.query_one(WeekGrid)
        if grid.carried is not None:
            self.action_move()
        else:
            self._open(grid.chosen)

    @on(WeekGrid.Turned)
    def turn_grid(self, event: WeekGrid.Turned) -> None:
        """Shows the week before or after."""
        self._turn(self._on + event.weeks * WEEK)

    def strip(self) -> list[Command]:
        """The keys of this moment: in the grid the arrows walk."""
        is_grid = any(grid.display for grid in self.query(WeekGrid))
        return [command for command in super().strip() if not is_grid or command.id not in _WALKED]

    def _open(self, booking: ScheduledLesson | None) -> None:
        if booking is not None:
            day = self.settings.preferences.home.date_of(booking.lesson.starts_at)
            self.post_message(self.LessonChosen(day, booking.lesson.id))

    def action_show_before(self) -> None:
        """Shows the week before; in the grid the day before."""
        self._go(-1)

    def action_show_after(self) -> None:
        """Shows the week after; in the grid the day after."""
        self._go(1)

    def action_show_this(self) -> None:
        """Shows the week that it is."""
        self.query_one(WeekList).highlighted = None  # the cursor goes to what comes next
        self.query_one(WeekGrid).view = None
        self._turn(self.desk.day.today())

    def action_move(self) -> None:
        """Moves the chosen lesson; in the grid it is carried to another cell first."""
        grid, booking = self.query_one(WeekGrid), self.chosen
        if grid.carried is not None and grid.begins is not None:
            carried, grid.carried = grid.carried, None
            is_elsewhere = grid.chosen is None or grid.chosen.lesson.id != carried.lesson.id
            at = self.settings.preferences.home.local(grid.begins)
            self.ask_for_line(Purpose.MOVE, carried, f"{at:%Y-%m-%d %H:%M}" if is_elsewhere else "")
        elif grid.display and booking is not None:
            grid.carried = booking
            grid.refresh()
        elif booking is None:
            self.say("There is no lesson to move this week.", is_fault=True)
        else:
            self.ask_for_line(Purpose.MOVE, booking)

    def action_close(self) -> None:
        """Lets go of a lesson that is carried, else goes back."""
        grid = self.query_one(WeekGrid)
        if grid.carried is None:
            super().action_close()
        grid.carried = None
        grid.refresh()

    def _go(self, step: int) -> None:
        grid = self.query_one(WeekGrid)
        if grid.display:
            grid.walk_days(step)
        else:
            self._turn(self._on + step * WEEK)

    def _look_again(self) -> None:
        now, grid = self.desk.clock.now(), self.query_one(WeekGrid)
        if grid.display:
            grid.look_again(Looked(now=now, home=self.settings.preferences.home))
        else:
            self.query_one(WeekList).look_again(now)

    def _turn(self, day: date) -> None:
        self._on = day
        self.step(lambda: None)
