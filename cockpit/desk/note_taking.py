"""Notes as they are typed, and the last lesson's assignments as they are heard."""

from cockpit.desk.day import Day
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import Steps
from cockpit.studio.booking import Booking
from cockpit.studio.calendar import local_time
from cockpit.studio.errors import Refused
from cockpit.studio.last_lesson import LastLesson, Sheet, last_lesson
from cockpit.studio.lesson import LessonId
from cockpit.studio.notes import Mark, follow_ups
from cockpit.studio.records import Edit, MarkSet, Note


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

    def mark(self, last: LastLesson, line: str, mark: Mark | None) -> None:
        """Sets how an assignment of the last lesson went, or takes the mark away."""
        before = self._reading.marks(last.lesson_id).get(line)
        after = MarkSet(lesson_id=last.lesson_id, line=line, mark=mark) if mark is not None else None
        if before != after:
            self._steps.take(f"mark {line!r} {mark or 'as open'}", Edit(before=before, after=after))

    def _last(self, booking: Booking) -> LastLesson | None:
        lesson = booking.lesson
        previous = self._reading.last_taught(lesson.student_id, lesson.starts_at, lesson.instrument)
        if previous is None:
            return None
        note = self._reading.notes([previous.id])[previous.id]
        taught_on = local_time(previous.starts_at, self._day.habits.home_zone).date()
        return last_lesson(previous.id, taught_on, note.body, self._reading.marks(previous.id))
