"""The lesson day's completions: a memory of earlier notes, made when there is time, and the proposals from it."""

from datetime import timedelta
from functools import partial
from typing import TYPE_CHECKING

from cockpit.screens.day.day_panes import DayPanes
from cockpit.screens.day.panes import NotesPane
from cockpit.screens.ending import stay
from cockpit.studio.lessons.lesson import LessonId

if TYPE_CHECKING:
    from cockpit.studio.completion.memory import Memory
    from cockpit.studio.completion.remembered import Remembered

# The next student's notes are painted first; what is proposed in them can wait this long.
_LATER = 0.3
_PAUSE = timedelta(seconds=0.4)


class DayProposing(DayPanes):
    """Proposes in the notes of the lesson that is shown."""

    _remembered_for: LessonId | None = None

    def show_lesson(self) -> None:
        """Shows the lesson that is open; another one's memory is made a moment later."""
        super().show_lesson()
        booking = self._desk.day.shown
        lesson_id = booking.lesson.id if booking is not None else None
        if lesson_id != self._remembered_for:
            self._remembered_for = lesson_id
            self.query_one(NotesPane).text.propose_with(None, None)
            if self._settings.proposals and lesson_id is not None:
                self.set_timer(_LATER, self.remember)

    def remember(self) -> None:
        """Fetches what is remembered for the lesson; the memory is made of it on a thread, which no key waits for."""
        booking = self._desk.day.shown
        if booking is None or booking.lesson.id != self._remembered_for:
            return
        if (
            timedelta() <= self._desk.clock.now() - self.typed_at < _PAUSE
        ):  # she types: no key is to share the processor
            self.set_timer(_LATER, self.remember)
            return
        sheet = self._desk.notes.sheet(booking)
        remembered = self._desk.remembering.remembered(booking, sheet, self._settings.abbreviations)
        self.run_worker(
            partial(self._make, booking.lesson.id, remembered),
            group="memory",
            exclusive=True,
            exit_on_error=False,
            thread=True,
        )

    def _make(self, lesson_id: LessonId, remembered: "Remembered") -> None:
        memory = remembered.memory()
        self.app.call_from_thread(self._propose, lesson_id, memory)

    def _propose(self, lesson_id: LessonId, memory: "Memory") -> None:
        from cockpit.studio.completion.completion import abbreviation, ghost  # loaded with the memory

        if lesson_id == self._remembered_for:
            stay()
            self.query_one(NotesPane).text.propose_with(partial(ghost, memory), partial(abbreviation, memory))
