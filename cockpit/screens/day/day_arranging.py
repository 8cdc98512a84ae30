"""The lesson day's arranging: each key asks for a line about the lesson that is chosen in the queue."""

from collections.abc import Callable

from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.screens.day.day_proposing import DayProposing
from cockpit.screens.day.panes import QueueList
from cockpit.studio.errors import CockpitError
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.lesson import LessonId


class DayArranging(DayProposing):
    """Moves, make-ups, extra and trial lessons, standing times and breaks."""

    def action_move(self) -> None:
        """Moves the chosen lesson."""
        self._ask(Purpose.MOVE)

    def action_make_up(self) -> None:
        """Books a make-up for the chosen student."""
        self._ask(Purpose.MAKE_UP)

    def action_book_extra(self) -> None:
        """Books an extra lesson for the chosen student."""
        self._ask(Purpose.EXTRA)

    def action_book_trial(self) -> None:
        """Books a trial lesson, also for somebody new."""
        self._ask(Purpose.TRIAL)

    def action_change_standing_time(self) -> None:
        """Changes the chosen lesson's standing time from a date on."""
        self._ask(Purpose.CHANGE)

    def action_add_break(self) -> None:
        """Takes days out, for the studio or a family."""
        self._ask(Purpose.BREAK)

    def look_ahead(self) -> None:
        """Counts what is to be settled in the calendar; the key strip says how much that is."""
        self.to_settle = self._desk.ahead.to_settle()
        self.show_time()

    def of_chosen(self, step: Callable[[], str]) -> str:
        """Shows the chosen lesson and does a step to it; a step that is refused leaves what is shown."""
        day, chosen = self._desk.day, self._chosen()
        before = day.shown_id
        if chosen is not None:
            day.go_to(chosen.lesson.id)
        try:
            return step()
        except CockpitError:
            day.shown_id = before
            raise

    def _ask(self, purpose: Purpose) -> None:
        from cockpit.screens.calendar.line import (
            LineScreen,  # with all its rules, which the first screen does not wait for
        )

        booking = self._chosen()

        def done(proposal: Proposal | None) -> None:
            if proposal is not None:
                self.take(lambda: self._arranged(proposal))

        self.app.push_screen(LineScreen(self._desk.arranging, purpose, booking), done)

    def _arranged(self, proposal: Proposal) -> str:
        said = self._desk.arranging.do(proposal)
        self._desk.day.reload()
        self.look_ahead()
        return said

    def _chosen(self) -> Booking | None:
        """The lesson that is highlighted in the queue while she is there, else the one that is shown."""
        listing = self.query_one(QueueList)
        option = listing.highlighted_option
        if listing.has_focus and option is not None and option.id is not None:
            return self._desk.day.booking(LessonId(option.id))
        return self._desk.day.shown
