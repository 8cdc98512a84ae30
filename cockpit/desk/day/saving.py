"""Compares the text on the screen with the database: the one place that knows what is not saved, and why."""

from datetime import date

from cockpit.desk.day.note_taking import NoteTaking
from cockpit.studio.errors import CockpitError
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.unsaved import UnsavedNotes, mark_of


class Saving:
    """Saves the open lesson's text, and keeps what the disk refuses until the disk takes it.

    A key tries once. After a fault only `retry` tries, once a second, and the teacher is told of each fault once.
    """

    def __init__(self, notes: NoteTaking) -> None:
        self._notes = notes
        self._booking: Booking | None = None
        self._on = date.min
        self._text = self._over = ""
        self._saved: str | None = ""  # None while nothing is known to be on the disk
        self.fault: CockpitError | None = None

    def open(self, booking: Booking | None, on: date, saved: str, text: str) -> None:
        """Notes which lesson is on the screen, which text the database has, and which text is shown."""
        self._booking, self._on = booking, on
        self._text, self._saved, self._over = text, saved, saved
        if text == saved:
            self.fault = None

    @property
    def is_unsaved(self) -> bool:
        """Whether the text on the screen is not on the disk."""
        return self._booking is not None and self._text != self._saved and bool((self._text or self._over).strip())

    @property
    def unsaved(self) -> UnsavedNotes | None:
        """The text on the screen, if it is not on the disk."""
        if self._booking is None or not self.is_unsaved:
            return None
        return UnsavedNotes(
            lesson_id=self._booking.lesson.id,
            student=self._booking.student.name,
            on=self._on,
            body=self._text,
            over=mark_of(self._over),
        )

    def type(self, text: str) -> None:
        """Saves the text after a key; after a fault it waits for `retry`, so that no key waits for a disk.

        Raises:
            CockpitError: it was not saved; the sentence says why.
        """
        self._text = text
        if self.fault is None:
            self.save(text)

    def save(self, text: str) -> bool:
        """Saves the text now, before something else is done; returns whether it had been waiting.

        Raises:
            CockpitError: it was not saved; no other lesson may take its place.
        """
        self._text = text
        was_waiting = self.fault is not None
        if text == self._saved and not was_waiting:
            return False
        try:
            if self._booking is not None and text != self._saved:
                self._notes.write(self._booking.lesson.id, text)
            else:
                self._notes.check_place()
        except CockpitError as fault:
            if str(fault) != str(self.fault):  # else it is the one that she knows of
                self.fault = fault
            raise
        self._saved, self._over, self.fault = text, text, None
        return was_waiting

    def retry(self) -> bool:
        """Tries once a second to save what waits; returns whether it is saved now.

        Raises:
            CockpitError: something is wrong that she has not been told of.
        """
        known = str(self.fault)
        try:
            if self.fault is not None:
                return self.save(self._text)
            self._notes.check_place()
        except CockpitError as fault:
            if self.fault is None:  # the studio is gone, and with it what had been saved
                self.fault, self._saved = fault, None
            if str(fault) != known:
                raise
        return False
