"""Puts unsaved notes of an earlier session into the lessons that they were typed for."""

from cockpit.desk.lookup import bookings_on
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.changes.records import Note
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.clocks.words import short_date
from cockpit.studio.errors import NotFound, Refused
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.unsaved import UnsavedNotes, put_together
from cockpit.studio.notes.notes import follow_ups


class TakingIn:
    """Puts unsaved notes into their lesson, and keeps what the lesson has by now."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, home_zone: Zone) -> None:
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._home_zone = home_zone

    def take_in(self, unsaved: UnsavedNotes) -> str | None:
        """Saves notes durably, and returns a sentence that says so, or None if the lesson has them already.

        Raises:
            NotFound: the studio has no such lesson any more.
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
            raise Refused("the lesson is finished. Reopen it with Begin, then open the cockpit again.")
        if not booking.is_recorded:
            self._steps.keep(None, lesson)
        fresh = Note(lesson_id=lesson.id, body=body, changed_at=self._clock.now())
        self._steps.writing.save_note(fresh, follow_ups(body), durable=True)
        how = "are in the lesson now" if body == unsaved.body else "are below the lesson's other notes now"
        return f"The notes for {unsaved.student}, {short_date(unsaved.on)}, that could not be saved {how}."

    def _booking(self, unsaved: UnsavedNotes) -> Booking:
        days = [unsaved.on]
        recorded = self._reading.lessons_between(self._clock.now(), self._clock.now(), [unsaved.lesson_id])
        days += [
            local_time(each.starts_at, self._home_zone).date() for each in recorded if each.id == unsaved.lesson_id
        ]
        for on in dict.fromkeys(days):
            for booking in bookings_on(self._reading, on, self._home_zone):
                if booking.lesson.id == unsaved.lesson_id:
                    return booking
        raise NotFound("the studio has no such lesson any more.")
