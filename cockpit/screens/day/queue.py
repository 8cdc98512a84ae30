"""The queue: the lessons of the day in their order, and the letters that arrange the chosen one."""

from collections.abc import Mapping, Sequence

from rich.cells import cell_len
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.events import Click
from textual.geometry import Size
from textual.message import Message
from textual.widget import Widget
from textual.widgets.option_list import Option

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.desk import Desk
from cockpit.screens.commands.commands import Place
from cockpit.screens.day.queue_rows import FREE_ROW, DayAfter, QueueView, queue_count, queue_rows
from cockpit.screens.look.show import NEEDS_HER, placed, role
from cockpit.screens.screen import bindings_for
from cockpit.screens.textual_parts.heading import Heading
from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.screens.textual_parts.rows import Rows
from cockpit.settings.settings import Settings
from cockpit.studio.clocks.words import short_date
from cockpit.studio.lessons.lesson import LessonId, Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.values import Value

INQUIRIES = "app.show_inquiries"
"""The command that opens them."""

_SIGN = 10  # the column of the signs, where halves of the day are named


class Waiting(Value):
    """Something that waits for her, in words, with the command that opens it, and its key, if it has one."""

    command: str
    words: str
    key: str = ""


class WaitingRows(Widget):
    """What waits for her, a row each below the queue; a tap opens it."""

    def __init__(self) -> None:
        super().__init__(id="waiting")
        self._waits: Sequence[Waiting] = ()

    def show(self, waits: Sequence[Waiting]) -> None:
        """Shows what waits now; nothing is painted where that is the same."""
        if waits != self._waits:
            self._waits = waits
            self.refresh(layout=True)

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:  # noqa: ARG002 as there
        """As many rows as things."""
        return len(self._waits)

    def render(self) -> Content:
        """Each with the sign, below the signs of the lessons."""
        width = self.content_size.width
        return Content("\n").join(
            placed(
                width,
                (_SIGN, f"{NEEDS_HER} {each.words}", role("warning", "bold")),
                (_SIGN + 4 + cell_len(each.words), each.key, role("quiet")),
            )
            for each in self._waits
        )

    def on_click(self, event: Click) -> None:
        """Opens what was tapped."""
        at = event.get_content_offset_capture(self).y
        if at < len(self._waits):
            event.stop()
            self.post_message(KeyStrip.Tapped(self._waits[at].command))


class QueuePane(Vertical):
    """Today's lessons in order. The cursor is kept by lesson, so that it never lands on another one."""

    PLACE = Place.QUEUE
    BINDINGS = bindings_for(PLACE, priority=False)

    class LineAsked(Message):
        """A line about the chosen lesson is to be asked for."""

        def __init__(self, purpose: Purpose) -> None:
            super().__init__()
            self.purpose = purpose

    class MarkAsked(Message):
        """The chosen lesson is to be marked: absent, or canceled in time or late."""

        def __init__(self, outcome: Outcome) -> None:
            super().__init__()
            self.outcome = outcome

    class LetterAsked(Message):
        """The family of the chosen lesson is to be written to."""

    def __init__(self, desk: Desk, settings: Settings) -> None:
        super().__init__(id="queue", classes="pane")
        self._desk = desk
        self._settings = settings
        self._fates: Mapping[str, DeliveryStatus] = {}
        self._waits: Sequence[Waiting] = ()
        self._after: DayAfter | None = None

    def compose(self) -> ComposeResult:
        """A title, the list, and what waits."""
        yield Heading("TODAY")
        yield Rows(id="lessons", markup=False)
        yield WaitingRows()

    def show(
        self, fates: Mapping[str, DeliveryStatus], waits: Sequence[Waiting] = (), after: DayAfter | None = None
    ) -> None:
        """Shows the lessons of the day that is open; `fates` are those of notes that have not gone out.

        Where the screen is wide, all that `waits` and the day `after` stand below them. Elsewhere what waits is in the key
        strip, and the first of it, where it is an inquiry, here too, in place of the count of the lessons.

        Nothing is painted where nothing changed.
        """
        self._fates, self._waits, self._after = fates, waits, after
        is_wide = self.screen.has_class("-three")
        self.query_one(WaitingRows).show(waits if is_wide else ())
        day, listing = self._desk.day, self.query_one(Rows)
        view = QueueView(
            bookings=day.bookings,
            now=self._desk.clock.now(),
            home=self._settings.preferences.home,
            wrap_up_minutes=self._settings.wrap_up_minutes,
            shown_id=day.shown_id,
            fates=fates,
            width=listing.scrollable_content_region.width,
            height=listing.size.height,
            after=after if is_wide else None,
            hours=self._settings.preferences.hours_on(day.on),
        )
        rows = queue_rows(view)
        words = "TODAY" if day.on == day.today() else short_date(day.on).upper()
        inquiries = next((each.words for each in waits if each.command == INQUIRIES), "")
        if inquiries and not is_wide:
            self.query_one(Heading).say(words, f"{NEEDS_HER} {inquiries}", role("warning", "bold"))
        else:
            self.query_one(Heading).say(words, queue_count(view))
        if [option.id for option in listing.options] != list(rows):
            options = [Option(row, id=name, disabled=name.startswith(FREE_ROW)) for name, row in rows.items()]
            listing.set_options(options)
        else:
            for option in listing.options:
                fresh = rows[option.id or ""]
                if not isinstance(option.prompt, Content) or option.prompt.markup != fresh.markup:
                    listing.replace_option_prompt(option.id or "", fresh)
        if day.shown_id is not None and (listing.highlighted is None or not listing.has_focus):
            listing.highlighted = list(rows).index(day.shown_id)

    def on_resize(self) -> None:
        """Shows them anew in the room that there is now."""
        self.show(self._fates, self._waits, self._after)

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

    def action_mark_absent(self) -> None:
        """Notes that the chosen student did not come."""
        self.post_message(self.MarkAsked(Outcome.ABSENT))

    def action_mark_cancelled(self) -> None:
        """Notes that the chosen lesson was cancelled."""
        self.post_message(self.MarkAsked(Outcome.CANCELLED))

    def action_say_why(self) -> None:
        """Says why the chosen lesson was not taught."""
        self.post_message(self.LineAsked(Purpose.REASON))

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

    def action_add_student(self) -> None:
        """Adds a student; on a trial lesson, the one who had it."""
        self.post_message(self.LineAsked(Purpose.STUDENT))

    def action_change_details(self) -> None:
        """Changes what is known of the chosen student and the family."""
        self.post_message(self.LineAsked(Purpose.DETAILS))

    def action_call_off(self) -> None:
        """Calls lessons off, the chosen one or those of days."""
        self.post_message(self.LineAsked(Purpose.CALL_OFF))

    def action_pause(self) -> None:
        """Lets the chosen student pause."""
        self.post_message(self.LineAsked(Purpose.PAUSE))

    def action_write(self) -> None:
        """Writes to the family of the chosen lesson."""
        self.post_message(self.LetterAsked())

    def action_add_break(self) -> None:
        """Takes days out, for the studio or a family."""
        self.post_message(self.LineAsked(Purpose.BREAK))
