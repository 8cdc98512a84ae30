"""What a student was given, lesson by lesson: out of the index, and out of the notes that are not in it yet."""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from functools import lru_cache
from typing import Protocol

from cockpit.desk.ports import Clock, Reading
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.given import GivenLine, ReadLine, read_lines, with_books
from cockpit.studio.pieces.names_alike import one_name
from cockpit.studio.pieces.search import Search
from cockpit.studio.preferences import Preferences

_MOST_READ = 60
"""Notes that are read for one look: all of a year."""


class LineOfLesson(Protocol):
    """A line that was read, and when its lesson started (UTC)."""

    @property
    def lesson_id(self) -> LessonId: ...  # noqa: D102 said where it is done
    @property
    def starts_at(self) -> datetime: ...  # noqa: D102
    @property
    def read(self) -> ReadLine: ...  # noqa: D102


class PieceCalled(Protocol):
    """A piece of a student, and what it is called in one of its lines."""

    @property
    def student_id(self) -> StudentId: ...  # noqa: D102 said where it is done
    @property
    def piece(self) -> str: ...  # noqa: D102
    @property
    def title(self) -> str: ...  # noqa: D102


class Index(Protocol):
    """The index of all notes."""

    def unread(self, student_id: StudentId, now: datetime) -> tuple[LessonId, ...]: ...  # noqa: D102 said where it is done
    def lines_of(  # noqa: D102
        self, student_id: StudentId, now: datetime, pieces: Collection[str] | None = None
    ) -> Sequence[LineOfLesson]: ...
    def pieces_called(self, search: Search, most_titles: int) -> Sequence[PieceCalled]: ...  # noqa: D102
    def notes_with(self, search: Search, most: int) -> Sequence[LessonId]: ...  # noqa: D102


class LookingOver:
    """Reads all that a student was given. It never writes."""

    def __init__(self, reading: Reading, index: Index, clock: Clock, preferences: Preferences) -> None:
        self._reading = reading
        self._index = index
        self._clock = clock
        self._preferences = preferences

    def given(self, student_id: StudentId, pieces: Collection[str] | None = None) -> tuple[GivenLine, ...]:
        """The lines of a student's lessons up to this moment, the oldest first, each with its piece; or those of some pieces.

        Numbers of a book have its name, and joined names are one; some `pieces` alone are found by their own keys.
        """
        read = sorted(self._lines(student_id, pieces), key=lambda each: each[0])
        ids = dict.fromkeys(lesson_id for _, lesson_id, _ in read)
        marks, heard = self._reading.marks(ids), self._reading.heard(ids)
        date_of = lru_cache(maxsize=1)(self._preferences.home.date_of)  # a lesson has several lines
        given = []
        for at, lesson_id, line in read:
            mark, sound = marks.get((lesson_id, line.line)), heard.get((lesson_id, line.line))
            given.append(
                GivenLine(
                    lesson_id=lesson_id,
                    on=date_of(at),
                    read=line,
                    mark=mark.mark if mark is not None else None,
                    heard=sound.tempo if sound is not None else None,
                    clean_runs=sound.clean_runs if sound is not None else 0,
                )
            )
        return one_name(tuple(with_books(given)), self._reading.piece_aliases(student_id))

    def unread(self, student_id: StudentId) -> int:
        """How many lessons are left out of a look until the index has caught up."""
        return max(0, len(self._index.unread(student_id, self._clock.now())) - _MOST_READ)

    def _lines(
        self, student_id: StudentId, pieces: Collection[str] | None
    ) -> Iterator[tuple[datetime, LessonId, ReadLine]]:
        """The lines with the moments of their lessons; of notes that the index does not have as they are, the notes' own."""
        now = self._clock.now()
        unread = self._index.unread(student_id, now)
        changed = set(unread)
        for line in self._index.lines_of(student_id, now, pieces):
            if line.lesson_id not in changed:
                yield line.starts_at, line.lesson_id, line.read
        newest = unread[:_MOST_READ]
        notes = self._reading.notes(newest)
        for lesson in self._reading.lessons_between(now, now, newest) if newest else ():
            for read in read_lines(notes[lesson.id].body, self._preferences.labels):
                if pieces is None or read.piece in pieces:
                    yield lesson.starts_at.replace(microsecond=0), lesson.id, read
