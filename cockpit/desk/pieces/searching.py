"""A search through all notes: pieces by their names, and lines by their words."""

from collections.abc import Mapping, Sequence
from datetime import date

from cockpit.desk.pieces.looking import Index, LookingOver
from cockpit.desk.ports import Clock, Reading
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import read_line
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.pieces.history import PieceHistory, histories
from cockpit.studio.pieces.search import Search, search_of, words_of
from cockpit.studio.preferences import Preferences
from cockpit.studio.searching import has_words
from cockpit.studio.values import Value


class FoundPiece(Value):
    """A piece that was found, and whose it is."""

    student: Student
    history: PieceHistory


class FoundLine(Value):
    """A line of notes with words that were looked for, the lesson's date on the teacher's clock, and whose lesson it is.

    `is_private` says that it is kept from the family.
    """

    lesson_id: LessonId
    on: date
    student: Student
    line: str
    is_private: bool


class FoundInNotes(Value):
    """What was found: the pieces given last of `all_pieces`, the lines of the newest notes, and whether there are more of them.

    `words` are what is to be marked, and `names` whose notes alone were looked through.
    """

    pieces: tuple[FoundPiece, ...] = ()
    all_pieces: int = 0
    lines: tuple[FoundLine, ...] = ()
    has_more_lines: bool = False
    words: str = ""
    names: tuple[str, ...] = ()


class SearchingNotes:
    """Looks words up in the notes of all students. It never writes."""

    def __init__(
        self, reading: Reading, index: Index, looking: LookingOver, clock: Clock, preferences: Preferences
    ) -> None:
        self._reading = reading
        self._index = index
        self._looking = looking
        self._clock = clock
        self._preferences = preferences

    def search(self, typed: str, most_pieces: int, most_lines: int) -> FoundInNotes:
        """What has the words of a typed line: so many pieces and so many lines at most.

        A single letter is a beginning of nearly everything, and finds nothing.
        """
        home, now = self._preferences.home, self._clock.now()
        students = self._reading.people().students
        names = {number: student.name for number, student in students.items()}
        search = search_of(typed, names, home, home.date_of(now))
        if sum(map(len, search.words)) < 2:
            return FoundInNotes()
        pieces = self._index.pieces_called(search)
        ids = self._index.notes_with(search, most_lines + 1)
        return FoundInNotes(
            pieces=tuple(
                FoundPiece(student=students[each.student_id], history=history)
                for each in pieces[:most_pieces]
                for history in histories(self._looking.in_index(each.student_id, each.piece), {})
            ),
            all_pieces=len(pieces),
            lines=self._lines(ids[:most_lines], search, students),
            has_more_lines=len(ids) > most_lines,
            words=" ".join(words_of(search)),
            names=tuple(names[number] for number in search.students),
        )

    def has_read_all(self) -> bool:
        """Whether all notes are looked through; not where the index is still made, or may not be."""
        return self._index.has_all()

    def _lines(
        self, ids: Sequence[LessonId], search: Search, students: Mapping[StudentId, Student]
    ) -> tuple[FoundLine, ...]:
        """The line of each of some notes that has the most of the words."""
        now, home, words = self._clock.now(), self._preferences.home, words_of(search)
        notes = self._reading.notes(ids)
        lessons = {each.id: each for each in self._reading.lessons_between(now, now, ids)}
        found = []
        for lesson_id in ids:
            if lesson_id not in notes or lesson_id not in lessons:
                continue
            lines = [line for line in notes[lesson_id].body.splitlines() if line.strip()]
            line = max(lines, key=lambda line: sum(has_words((word,), line) for word in words))
            found.append(
                FoundLine(
                    lesson_id=lesson_id,
                    on=home.date_of(lessons[lesson_id].starts_at),
                    student=students[lessons[lesson_id].student_id],
                    line=line.strip(),
                    is_private=read_line(line, self._preferences.labels).line.is_kept_back,
                )
            )
        return tuple(found)
