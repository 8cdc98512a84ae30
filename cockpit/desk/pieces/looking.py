"""Reads what a student was given, lesson by lesson, from the index and from notes that the index does not have yet."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime, timedelta
from functools import lru_cache
from typing import Protocol

from cockpit.desk.ports import Clock, Reading
from cockpit.studio.changes.pieces import PieceAlias
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.given import GivenLine, ReadLine, numbers_in, read_lines, with_books
from cockpit.studio.pieces.names_alike import one_name
from cockpit.studio.pieces.search import Search
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value

_MOST_READ = 60
"""Notes that are read for one look: all of a year."""
_LATEST = 100
"""Lessons that a page looks back to: two years."""


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

    def has_all(self) -> bool: ...  # noqa: D102 said where it is done
    def unread(  # noqa: D102 said where it is done
        self, student_id: StudentId, now: datetime, since: datetime = ...
    ) -> tuple[LessonId, ...]: ...
    def lines_since(  # noqa: D102
        self, student_id: StudentId, now: datetime, since: datetime, pieces: Collection[str]
    ) -> Sequence[LineOfLesson]: ...
    def began_at(self, student_id: StudentId, now: datetime) -> datetime | None: ...  # noqa: D102
    def lines_of(  # noqa: D102
        self, student_id: StudentId, now: datetime, pieces: Collection[str] | None = None
    ) -> Sequence[LineOfLesson]: ...
    def lines_of_piece(self, student_id: StudentId, now: datetime, piece: str) -> Sequence[LineOfLesson]: ...  # noqa: D102
    def lately(self, student_id: StudentId, now: datetime, lessons: int) -> frozenset[str]: ...  # noqa: D102
    def areas_given(self, student_id: StudentId, now: datetime) -> Mapping[str, datetime]: ...  # noqa: D102
    def pieces_called(self, search: Search) -> Sequence[PieceCalled]: ...  # noqa: D102
    def notes_with(self, search: Search, most: int) -> Sequence[LessonId]: ...  # noqa: D102


_Line = tuple[datetime, LessonId, ReadLine]
"""When a lesson started, which it is, and a line of it."""


class GivenLately(Value):
    """What a student was given lately, when each area was given last, and the first lesson; dates are the teacher's.

    Some lessons are left out until the index has caught up.
    """

    given: tuple[GivenLine, ...]
    areas: Mapping[str, date]
    first_on: date | None
    left_out: int


class LookingOver:
    """Reads all that a student was given. It never writes."""

    def __init__(self, reading: Reading, index: Index, clock: Clock, preferences: Preferences) -> None:
        self._reading = reading
        self._index = index
        self._clock = clock
        self._preferences = preferences

    def given(self, student_id: StudentId, pieces: Collection[str] | None = None) -> tuple[GivenLine, ...]:
        """The lines of a student's lessons up to this moment, the oldest first, each with its piece.

        All of them, or those of some pieces, by any of their names, and then lines of books that may be of them. Numbers of
        a book have its name, and joined names are one.
        """
        return self._given(student_id, self._index.unread(student_id, self._clock.now()), pieces)

    def look(self, student_id: StudentId) -> GivenLately:
        """All lines of the pieces that a student was given in the last hundred lessons, or of which she said something.

        What was not given since then is looked for in Find.
        """
        now = self._clock.now()
        unread = self._index.unread(student_id, now)
        fresh = [*self._read(unread)]
        said = (each.key for each in self._reading.pieces_said(student_id))
        pieces = {*self._index.lately(student_id, now, _LATEST), *said, *(read.piece for _, _, read in fresh)}
        return self._look(student_id, self._given(student_id, unread, pieces), fresh, len(unread) - _MOST_READ)

    def look_at_weeks(self, student_id: StudentId, weeks: int) -> GivenLately:
        """The lines of a student's last weeks, and all of the pieces of which she said something."""
        now = self._clock.now()
        since = now - timedelta(weeks=weeks)
        aliases = self._reading.piece_aliases(student_id)
        said = _names_of((each.key for each in self._reading.pieces_said(student_id)), aliases)
        unread = self._index.unread(student_id, now, since)
        changed, fresh = set(unread), [*self._read(unread)]
        kept = [
            (each.starts_at, each.lesson_id, each.read)
            for each in self._index.lines_since(student_id, now, since, said)
            if each.lesson_id not in changed
        ]
        read = sorted([*kept, *fresh], key=lambda each: each[0])
        given = tuple(with_books(self._with_marks(read)))
        return self._look(student_id, one_name(given, aliases), fresh, 0)

    def unread(self, student_id: StudentId, weeks: int) -> int:
        """How many lessons before the last weeks are in no look yet, since the index has to catch up."""
        now = self._clock.now()
        recent = self._index.unread(student_id, now, now - timedelta(weeks=weeks))
        return len(self._index.unread(student_id, now)) - len(recent)

    def _look(
        self, student_id: StudentId, given: tuple[GivenLine, ...], fresh: Sequence[_Line], left_out: int
    ) -> GivenLately:
        now, home = self._clock.now(), self._preferences.home
        areas = {area: home.date_of(at) for area, at in self._index.areas_given(student_id, now).items()}
        for at, _, read in fresh:
            areas[read.area] = max(home.date_of(at), areas.get(read.area, date.min))
        began_at = self._index.began_at(student_id, now)
        firsts = [home.date_of(began_at)] if began_at is not None else []
        first_on = min((*firsts, *(each.on for each in given[:1])), default=None)
        return GivenLately(given=given, areas=areas, first_on=first_on, left_out=max(0, left_out))

    def in_index(self, student_id: StudentId, piece: str) -> tuple[GivenLine, ...]:
        """The lines of one piece that the index has, by the key that it has there: what can be told at each key."""
        lines = self._index.lines_of_piece(student_id, self._clock.now(), piece)
        return self._with_marks([(each.starts_at, each.lesson_id, each.read) for each in lines])

    def _given(
        self, student_id: StudentId, unread: Sequence[LessonId], pieces: Collection[str] | None
    ) -> tuple[GivenLine, ...]:
        aliases = self._reading.piece_aliases(student_id)
        wanted = None if pieces is None else _names_of(pieces, aliases)
        read = sorted(self._lines(student_id, unread, wanted), key=lambda each: each[0])
        return one_name(tuple(with_books(self._with_marks(read))), aliases)

    def _lines(
        self, student_id: StudentId, unread: Sequence[LessonId], pieces: Collection[str] | None
    ) -> Iterator[_Line]:
        """The lines, in no order; of notes that the index does not have as they are, the notes' own."""
        changed = set(unread)
        for line in self._index.lines_of(student_id, self._clock.now(), pieces):
            if line.lesson_id not in changed:
                yield line.starts_at, line.lesson_id, line.read
        numbers = numbers_in(pieces or ())
        for at, lesson_id, read in self._read(unread):
            if pieces is None or read.piece in pieces or read.book is not None or read.of_book in numbers:
                yield at, lesson_id, read

    def _read(self, unread: Sequence[LessonId]) -> Iterator[_Line]:
        """The lines of the newest of some notes, which come the newest first."""
        newest = unread[:_MOST_READ]
        if not newest:
            return
        now, notes = self._clock.now(), self._reading.notes(newest)
        for lesson in self._reading.lessons_between(now, now, newest):
            for read in read_lines(notes[lesson.id].body, self._preferences.labels):
                yield lesson.starts_at.replace(microsecond=0), lesson.id, read

    def _with_marks(self, read: Sequence[_Line]) -> tuple[GivenLine, ...]:
        """Lines with how they went."""
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
        return tuple(given)


def _names_of(pieces: Iterable[str], aliases: Iterable[PieceAlias]) -> set[str]:
    """Some pieces with all other names under which they were given, as far as names were joined."""
    names = set(pieces)
    joined = [{each.key, each.piece} for each in aliases if each.is_one]
    while more := {name for pair in joined if names & pair for name in pair} - names:
        names |= more
    return names
