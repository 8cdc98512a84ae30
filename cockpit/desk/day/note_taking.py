"""Notes as they are typed, and what was given before."""

from cockpit.desk.day.day import Day
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.post.given import earlier_lessons
from cockpit.desk.steps import Steps
from cockpit.studio.assignments.last_lesson import LastLesson, Sheet, last_lesson
from cockpit.studio.changes.records import Note
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import MOST_SIGNS, follow_ups


class NoteTaking:
    """Opens the sheet of a lesson, and saves what is typed on it at every change."""

    def __init__(self, day: Day, reading: Reading, steps: Steps, clock: Clock) -> None:
        self._day = day
        self._reading = reading
        self._steps = steps
        self._clock = clock
        self._owed: dict[LessonId, tuple[str, ...]] = {}
        self._room: dict[LessonId, int] = {}

    def sheet(self, booking: Booking) -> Sheet:
        """What lies before the teacher for a lesson."""
        lesson = booking.lesson
        note = self._reading.notes([lesson.id]).get(lesson.id)
        body = note.body if note is not None else ""
        self._owed[lesson.id] = follow_ups(body)
        self._room[lesson.id] = max(MOST_SIGNS, len(body) + 1)  # the editor may begin on a line of its own
        return Sheet(body=body, last=self._last(booking))

    def check_place(self) -> None:
        """Makes sure that the studio is where it was opened.

        Raises:
            NotSaved: it was moved or deleted.
        """
        if self._steps.can_write:
            self._steps.writing.check_place()

    def write(self, lesson_id: LessonId, body: str) -> None:
        """Saves the text of a lesson.

        Raises:
            Refused: the lesson is finished, this program may only read, or the text is too long; a text that was too long
                when it was opened can be made shorter.
            NotSaved, StudioBusy: the disk refused, or another program holds the database.
        """
        booking = self._day.recorded(lesson_id)
        if not booking.lesson.takes_notes:
            raise Refused("This lesson is finished. Begin reopens it.")
        if len(body) > self._room.get(lesson_id, MOST_SIGNS):
            raise Refused(f"Not saved: {len(body):,} characters. A lesson's notes hold {MOST_SIGNS:,}.")
        owed = follow_ups(body)
        note = Note(lesson_id=lesson_id, body=body, changed_at=self._clock.now())
        self._steps.writing.save_note(note, owed if owed != self._owed.get(lesson_id) else None)
        self._owed[lesson_id] = owed

    def _last(self, booking: Booking) -> LastLesson | None:
        earlier = earlier_lessons(self._reading, booking.lesson, self._day.habits.home_zone)
        return last_lesson(earlier.taught, earlier.marks, earlier.heard)
