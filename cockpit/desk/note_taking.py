"""Notes as they are typed, and what was given before."""

from cockpit.desk.day import Day
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.booking import Booking
from cockpit.studio.calendar import local_time
from cockpit.studio.errors import Refused
from cockpit.studio.last_lesson import LastLesson, Sheet, TaughtNotes, last_lesson
from cockpit.studio.lesson import LessonId
from cockpit.studio.notes import follow_ups
from cockpit.studio.records import Note

# More than a year of weeks; what is open longer than that is not shown any more.
_LOOKED_BACK = 60


class NoteTaking:
    """Opens the sheet of a lesson, and saves what is typed on it at every change."""

    def __init__(self, day: Day, reading: Reading, steps: Steps, clock: Clock) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._owed: dict[LessonId, tuple[str, ...]] = {}

    def sheet(self, booking: Booking) -> Sheet:
        """What lies before the teacher for a lesson."""
        lesson = booking.lesson
        note = self._reading.notes([lesson.id]).get(lesson.id)
        body = note.body if note is not None else ""
        self._owed[lesson.id] = follow_ups(body)
        return Sheet(body=body, last=self._last(booking))

    def write(self, lesson_id: LessonId, body: str) -> None:
        """Saves the text of a lesson.

        Raises:
            Refused: the lesson is finished, or this program may only read.
            NotSaved: the disk refused.
        """
        booking = self._day.recorded(lesson_id)
        if not booking.lesson.takes_notes:
            raise Refused("This lesson is finished. Begin reopens it.")
        owed = follow_ups(body)
        note = Note(lesson_id=lesson_id, body=body, changed_at=self._clock.now())
        self._steps.writing.save_note(note, owed if owed != self._owed.get(lesson_id) else None)
        self._owed[lesson_id] = owed

    def _last(self, booking: Booking) -> LastLesson | None:
        lesson = booking.lesson
        taught = self._reading.last_taught(lesson.student_id, lesson.starts_at, lesson.instrument, _LOOKED_BACK)
        ids = [each.id for each in taught]
        notes, home_zone = self._reading.notes(ids), self._day.habits.home_zone
        typed = [
            TaughtNotes(
                lesson_id=each.id,
                taught_on=local_time(each.starts_at, home_zone).date(),
                body=notes[each.id].body,
            )
            for each in taught
        ]
        return last_lesson(typed, self._reading.marks(ids), self._reading.heard(ids))
