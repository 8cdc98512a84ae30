"""Compares the text on the screen with the database: the one place that knows what is not saved, and why.

Unsaved notes of an earlier session are put into the lessons that they were typed for.
"""

from datetime import date

from cockpit.desk.day.note_taking import NoteTaking
from cockpit.desk.lookup import bookings_on
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Note
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import short_date
from cockpit.studio.errors import CockpitError, NotFound, Refused
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.lessons.unsaved import UnsavedNotes, mark_of, put_together
from cockpit.studio.notes.notes import follow_ups
from cockpit.studio.values import Value, replace


class _OnScreen(Value):
    """A lesson and its text as they are on the screen, and what the database has of it.

    `over` is the text that the database had last, `saved` the one that it is known to have: None while that is none.
    """

    booking: ScheduledLesson | None = None
    on: date = date.min
    text: str = ""
    over: str = ""
    saved: str | None = ""
    fault: CockpitError | None = None

    def with_text(self, text: str) -> "_OnScreen":
        """The same with another text, at every key: `replace` takes three times as long."""
        return _OnScreen(
            booking=self.booking, on=self.on, text=text, over=self.over, saved=self.saved, fault=self.fault
        )

    @property
    def is_unsaved(self) -> bool:
        return self.booking is not None and self.text != self.saved and bool((self.text or self.over).strip())


class Saving:
    """Saves the open lesson's text, and keeps what the disk refuses until the disk takes it.

    A key tries once. After a fault only `retry` tries, once a second, and the teacher is told of each fault once. What is
    on the screen is one value that another one takes the place of: a thread that ends the program may look at any time.
    """

    def __init__(self, notes: NoteTaking) -> None:
        self._notes = notes
        self._now = _OnScreen()

    def open(self, booking: ScheduledLesson | None, on: date, saved: str, text: str) -> None:
        """Notes which lesson is on the screen, which text the database has, and which text is shown.

        A fault that she knows of is over only where the studio is still where it was opened.
        """
        opened = _OnScreen(booking=booking, on=on, text=text, over=saved, saved=saved, fault=self.fault)
        if self.fault is not None and text == saved:
            try:
                self._notes.check_place()
            except CockpitError:
                opened = replace(opened, saved=None)
            else:
                opened = replace(opened, fault=None)
        self._now = opened

    @property
    def fault(self) -> CockpitError | None:
        """Why the text on the screen is not on the disk, where something refused it."""
        return self._now.fault

    @property
    def is_unsaved(self) -> bool:
        """Whether the text on the screen is not on the disk."""
        return self._now.is_unsaved

    @property
    def unsaved(self) -> UnsavedNotes | None:
        """The text on the screen, if it is not on the disk; any thread may ask."""
        now = self._now
        if now.booking is None or not now.is_unsaved:
            return None
        return UnsavedNotes(
            lesson_id=now.booking.lesson.id,
            student=now.booking.student.name,
            on=now.on,
            body=now.text,
            over=mark_of(now.over),
        )

    def type(self, text: str) -> None:
        """Saves the text after a key; after a fault it waits for `retry`, so that no key waits for a disk.

        Raises:
            CockpitError: it was not saved; the sentence says why.
        """
        if self.fault is None:
            self.save(text)
        else:
            self._now = self._now.with_text(text)

    def save(self, text: str) -> bool:
        """Saves the text now, before something else is done; returns whether it had been waiting.

        Raises:
            CockpitError: it was not saved; no other lesson may take its place.
        """
        now = self._now = self._now.with_text(text)
        if text == now.saved and now.fault is None:
            return False
        try:
            if now.booking is not None and text != now.saved:
                self._notes.write(now.booking.lesson.id, text)
            else:
                self._notes.check_place()
        except CockpitError as fault:
            if str(fault) != str(now.fault):  # else it is the one that she knows of
                self._now = replace(now, fault=fault)
            raise
        self._now = _OnScreen(booking=now.booking, on=now.on, text=text, over=text, saved=text)
        return now.fault is not None

    def retry(self) -> bool:
        """Tries once a second to save what waits; returns whether it is saved now.

        Raises:
            CockpitError: something is wrong that she has not been told of.
        """
        now = self._now
        try:
            if now.fault is not None or now.is_unsaved:
                self.save(now.text)
                return True
            self._notes.check_place()
        except CockpitError as fault:
            if now.fault is None and not now.is_unsaved:  # the studio is gone, and with it what had been saved
                self._now = replace(now, fault=fault, saved=None)
            if str(fault) != str(now.fault):
                raise
        return False


class TakingIn:
    """Puts unsaved notes into their lesson, and keeps what the lesson has by now."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, home: TeacherClock) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._home = home

    def take_in(self, unsaved: UnsavedNotes) -> str | None:
        """Saves notes durably, and returns a sentence that says so, or None if the lesson has them already.

        Raises:
            NotFound: the studio no longer has this lesson.
            Refused: the lesson is finished, or this program may only read.
            NotSaved, StudioBusy: the database did not take them.
        """
        booking = self._booking(unsaved)
        lesson = booking.lesson
        note = self._reading.notes([lesson.id]).get(lesson.id)
        saved = note.body if note is not None else ""
        body = put_together(saved, unsaved)
        if body == saved:
            return None
        if not lesson.takes_notes:
            raise Refused("the lesson is finished. Press Begin (F2) to reopen it, then close and open the cockpit.")
        if not booking.is_recorded:
            self._steps.keep(None, lesson)
        fresh = Note(lesson_id=lesson.id, body=body, changed_at=self._clock.now())
        self._steps.writing.save_note(fresh, follow_ups(body), durable=True)
        how = "are in the lesson now" if body == unsaved.body else "are below the lesson's other notes now"
        return f"The notes for {unsaved.student} on {short_date(unsaved.on)}, which could not be saved, {how}."

    def _booking(self, unsaved: UnsavedNotes) -> ScheduledLesson:
        days = [unsaved.on]
        recorded = self._reading.lessons_between(self._clock.now(), self._clock.now(), [unsaved.lesson_id])
        days += [self._home.date_of(each.starts_at) for each in recorded if each.id == unsaved.lesson_id]
        for on in dict.fromkeys(days):
            for booking in bookings_on(self._reading, on, self._home):
                if booking.lesson.id == unsaved.lesson_id:
                    return booking
        raise NotFound("the studio no longer has this lesson.")
