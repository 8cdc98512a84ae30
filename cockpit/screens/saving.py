"""What is on the screen against what is in the database."""

from cockpit.desk.note_taking import NoteTaking
from cockpit.studio.errors import NotSaved
from cockpit.studio.lesson import LessonId


class Saving:
    """Knows which text of the open lesson is saved, and keeps what the disk refused until it takes it."""

    def __init__(self, notes: NoteTaking) -> None:
        self._notes = notes
        self._lesson_id: LessonId | None = None
        self._saved = ""
        self.waiting: str | None = None

    def opened(self, lesson_id: LessonId | None, body: str) -> None:
        """A lesson's text was put on the screen as it is in the database."""
        self._lesson_id, self._saved, self.waiting = lesson_id, body, None

    def save(self, lesson_id: LessonId | None, body: str) -> bool:
        """Saves the text of the lesson on the screen, if it is not saved yet; whether something had been waiting.

        Raises:
            NotSaved: the disk refused; the text waits, and no other lesson may take its place.
            Refused: the lesson takes no notes.
        """
        if lesson_id is None or lesson_id != self._lesson_id or body == self._saved:
            return False
        was_waiting = self.waiting is not None
        try:
            self._notes.write(lesson_id, body)
        except NotSaved:
            self.waiting = body
            raise
        self._saved, self.waiting = body, None
        return was_waiting
