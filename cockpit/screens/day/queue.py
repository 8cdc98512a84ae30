"""The queue: the lessons of the day in their order, and the letters that arrange the chosen one."""

from collections.abc import Mapping
from datetime import datetime

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import Static
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import Place
from cockpit.screens.look.show import rehearsed_words, role, state_words, status_words
from cockpit.screens.screen import bindings_for
from cockpit.screens.textual_parts.rows import Rows
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.words import short_date
from cockpit.studio.lessons.lesson import LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, called
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.wording.queue import instrument_and_minutes

_LONGEST_NAME = 30


class QueuePane(Vertical):
    """Today's lessons in order. The cursor is kept by lesson, so that it never lands on another one."""

    PLACE = Place.QUEUE
    BINDINGS = bindings_for(PLACE, priority=False)

    class LineAsked(Message):
        """A line about the chosen lesson is to be asked for."""

        def __init__(self, purpose: Purpose) -> None:
            super().__init__()
            self.purpose = purpose

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="queue", classes="pane")
        self._desk = desk
        self._settings = settings

    def compose(self) -> ComposeResult:
        """A title, and the list."""
        yield Static("Queue", classes="title", markup=False)
        yield Rows(id="lessons", markup=False)

    def show(self, fates: Mapping[LessonId, DeliveryStatus]) -> None:
        """Shows the lessons of the day that is open; `fates` are those of notes that have not gone out.

        Nothing is painted where nothing changed.
        """
        day, now = self._desk.day, self._desk.clock.now()
        names = called(day.bookings)
        rows = {
            each.lesson.id: queue_row(
                each,
                names[each.lesson.id],
                now,
                self._settings,
                is_shown=each.lesson.id == day.shown_id,
                fate=fates.get(each.lesson.id),
            )
            for each in day.bookings
        }
        self._entitle(
            f"{short_date(day.on)}{'' if day.on == day.today() else ', not today'}{'' if rows else ': no lessons'}"
        )
        listing = self.query_one(Rows)
        if [option.id for option in listing.options] != list(rows):
            listing.set_options([Option(row, id=lesson_id) for lesson_id, row in rows.items()])
        else:
            for option in listing.options:
                fresh = rows[LessonId(option.id or "")]
                if not isinstance(option.prompt, Content) or option.prompt.markup != fresh.markup:
                    listing.replace_option_prompt(option.id or "", fresh)
        if day.shown_id is not None and (listing.highlighted is None or not listing.has_focus):
            listing.highlighted = list(rows).index(day.shown_id)

    @property
    def chosen(self) -> ScheduledLesson | None:
        """The lesson with the cursor while she is in the queue, else the one that is shown.

        Raises:
            NotFound: it is not on this day any more.
        """
        listing = self.query_one(Rows)
        option = listing.highlighted_option
        if listing.has_focus and option is not None and option.id is not None:
            return self._desk.day.booking(LessonId(option.id))
        return self._desk.day.shown

    def action_move(self) -> None:
        """Moves the chosen lesson."""
        self.post_message(self.LineAsked(Purpose.MOVE))

    def action_make_up(self) -> None:
        """Books a make-up for the chosen student."""
        self.post_message(self.LineAsked(Purpose.MAKE_UP))

    def action_book_extra(self) -> None:
        """Books an extra lesson for the chosen student."""
        self.post_message(self.LineAsked(Purpose.EXTRA))

    def action_book_trial(self) -> None:
        """Books a trial lesson, also for somebody new."""
        self.post_message(self.LineAsked(Purpose.TRIAL))

    def action_change_standing_time(self) -> None:
        """Changes the chosen lesson's weekly time from a date on."""
        self.post_message(self.LineAsked(Purpose.CHANGE))

    def action_add_break(self) -> None:
        """Takes days out, for the studio or a family."""
        self.post_message(self.LineAsked(Purpose.BREAK))

    def _entitle(self, title: str) -> None:
        heading = self.query_one(".title", Static)
        if heading.content != title:
            heading.update(title, layout=False)


def queue_row(
    booking: ScheduledLesson,
    called: str,
    now: datetime,
    settings: Settings,
    *,
    is_shown: bool,
    fate: DeliveryStatus | None = None,
) -> Content:
    """A lesson in the queue, on two lines: when, who and its state; what, and the family's time where it differs.

    `fate` is that of its notes where they have not gone out: once the lesson is finished, that is told instead.
    """
    name = called if len(called) <= _LONGEST_NAME else f"{called[: _LONGEST_NAME - 1]}…"
    lesson, home = booking.lesson, settings.preferences.home
    state = state_of(lesson, now)
    at = home.time(lesson.starts_at)
    there = home.there(lesson.starts_at, booking.family.zone)
    what = instrument_and_minutes(lesson)
    late = "canceled late" if state is State.CANCELLED_LATE else ""
    weight = "bold" if is_shown else ""
    return Content.assemble(
        (f"{'›' if is_shown else ' '}{at:>8}  ", weight),
        (name, weight),
        "  ",
        status_words(fate)
        if fate is not None and state is State.FINISHED
        else state_words(State.CANCELLED if state is State.CANCELLED_LATE else state),
        "\n",
        ("   " + " · ".join(fact for fact in (what, there, late, rehearsed_words(lesson)) if fact), role("quiet")),
    )
