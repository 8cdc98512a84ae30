"""The index of all notes: what each assignment's line says, and every word. It lies in a file of its own.

It is derived: it can be deleted at any time, is made again on a thread, is in no backup and in no export, and a family that
is deleted takes the whole file along. A file of its own is what lets the thread write while a key is saved, for SQLite has
one writer a file. Nothing in it is believed that the notes do not say today: each question joins it with them.
"""

import contextlib
import hashlib
import json
import sqlite3
from collections.abc import Callable, Collection, Mapping
from datetime import UTC, datetime, timedelta
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

from cockpit.store.schema import NAME
from cockpit.store.tables import LISTED, listed, text_of
from cockpit.store.writing import transaction
from cockpit.studio.assignments.assignment import Measures, Tempo
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.vocabulary import Labels
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.given import ReadLine, numbers_in, read_lines
from cockpit.studio.pieces.search import Search

NAME_OF_INDEX = "index.db"
_EPOCH = datetime(1970, 1, 1, tzinfo=UTC)
_READING = 2  # another number has every note read again
_LOGS = ("", "-wal", "-shm")
# The number of a note is the second in which its lesson starts, and a number among those of that second: the newest
# notes are those of the highest numbers, which a search gives first without having to sort.
_AMONG = 1 << 12
_AT_ONCE = 50  # notes in a transaction: one for each takes three times as long
_SHAPE = (
    """CREATE TABLE noted (
        id INTEGER PRIMARY KEY, lesson_id TEXT NOT NULL UNIQUE, student_id INTEGER NOT NULL, reading TEXT NOT NULL) STRICT""",
    """CREATE INDEX noted_by_student ON noted(student_id)""",
    """CREATE TABLE title (
        id INTEGER PRIMARY KEY, words TEXT NOT NULL, is_named INTEGER NOT NULL, UNIQUE (words, is_named)) STRICT""",
    """CREATE TABLE line_given (
        noted_id INTEGER NOT NULL REFERENCES noted(id) ON DELETE CASCADE, place INTEGER NOT NULL,
        student_id INTEGER NOT NULL, line TEXT NOT NULL, area TEXT NOT NULL, piece TEXT NOT NULL,
        title_id INTEGER NOT NULL REFERENCES title(id), book TEXT, of_book TEXT, measures TEXT NOT NULL, tempo TEXT,
        minutes INTEGER, by_heart INTEGER NOT NULL, PRIMARY KEY (noted_id, place)) STRICT, WITHOUT ROWID""",
    """CREATE INDEX line_by_student ON line_given(student_id, piece)""",
    """CREATE INDEX line_by_area ON line_given(student_id, area)""",
    """CREATE INDEX line_by_title ON line_given(title_id, student_id, piece)""",
    """CREATE VIRTUAL TABLE note_words USING fts5(body, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')""",
    """CREATE VIRTUAL TABLE title_words USING fts5(words, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')""",
)
_FORM = int.from_bytes(hashlib.sha256("".join(_SHAPE).encode()).digest()[:3], "big")
_STARTS = f"(unixepoch(lesson.starts_at) * {_AMONG})"
_AS_NOTED = f"""note.body = note_words.body AND noted.student_id = lesson.student_id AND noted.reading = :reading
    AND noted.id >= {_STARTS} AND noted.id < {_STARTS} + {_AMONG}"""
_NOTES = """studio.note JOIN studio.lesson ON lesson.id = note.lesson_id
    LEFT JOIN noted ON noted.lesson_id = note.lesson_id LEFT JOIN note_words ON note_words.rowid = noted.id"""
_STALE = f"SELECT note.lesson_id FROM {_NOTES} WHERE trim(note.body) <> '' AND ({_AS_NOTED}) IS NOT 1"  # noqa: S608 constants
_GONE = "SELECT id FROM noted WHERE lesson_id NOT IN (SELECT lesson_id FROM studio.note WHERE trim(body) <> '')"
_OF_PIECES = f"""(line_given.piece IN {LISTED.replace("?", ":pieces")} OR book IS NOT NULL
    OR of_book IN {LISTED.replace("?", ":numbers")})"""
# As in `SqliteReading.last_taught`: what was taught, or is.
_THEIRS = "line_given.student_id = :student AND noted.student_id = :student"
_IS_AS_READ = """EXISTS (SELECT 1 FROM studio.note JOIN note_words ON note_words.rowid = noted_id
    WHERE note.lesson_id = lesson.id AND note.body = note_words.body)"""
_BY_LINES = "line_given JOIN noted ON noted.id = noted_id"
# In this order a student's notes come by their numbers, and the lines of each as they stand: nothing is sorted.
_BY_NOTES = "noted CROSS JOIN line_given ON noted_id = noted.id"
_TAUGHT = "lesson.outcome IS NULL AND (lesson.starts_at <= :now OR lesson.began_at IS NOT NULL)"


class PieceOfStudent(NamedTuple):
    """A piece that a student was given, by its key, and what it is called in one of its lines."""

    student_id: StudentId
    piece: str
    title: str


class IndexedLine(NamedTuple):
    """A line of a lesson that started at a moment, to the second, in UTC."""

    lesson_id: LessonId
    starts_at: datetime
    read: ReadLine


class LineIndex:
    """Reads the index of a studio folder, and brings it up to date where that may be written.

    What it reads is asked on the thread that made it; `catch_up` may run on another one.
    """

    def __init__(self, folder: Path, labels: Labels, *, may_write: bool) -> None:
        self._path = folder / NAME_OF_INDEX
        self._studio = folder / NAME
        self._labels = labels
        self._reading = f"{_READING} {hashlib.sha256(labels.spelled.encode()).hexdigest()}"
        self._may_write = may_write
        self._connection: sqlite3.Connection | None = None
        self._number_of_file: int | None = None

    def catch_up(self, pause: Callable[[], None], is_stopped: Callable[[], bool]) -> None:
        """Reads every note that is not in the index as it stands today, one after another.

        `pause` is called after each, so that a thread which does this takes no time from the keys. An index that is no
        database any more is made anew.
        """
        if not self._may_write:
            return
        try:
            self._catch_up(pause, is_stopped)
        except sqlite3.DatabaseError as fault:
            if getattr(fault, "sqlite_errorname", "").startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
                return  # whoever has it is done soon, and the next call goes on
            with contextlib.suppress(OSError):  # a folder that refuses: the notes are read without an index then
                delete_index(self._path.parent)

    def has_all(self) -> bool:
        """Whether there is an index that has as many notes as there are."""
        notes = "SELECT count(*) FROM studio.note WHERE trim(body) <> ''"
        return any(is_whole for (is_whole,) in self._rows(f"SELECT (SELECT count(*) FROM noted) >= ({notes})"))  # noqa: S608 constants

    def unread(self, student_id: StudentId, now: datetime, since: datetime = _EPOCH) -> tuple[LessonId, ...]:
        """The taught lessons of a student, from a moment on, whose notes are not in the index as they stand; the newest first."""
        whose = "lesson.student_id = :student AND lesson.starts_at >= :since"
        query = f"{_STALE} AND {whose} AND {_TAUGHT} ORDER BY lesson.starts_at DESC"
        rows = self._rows(query, student=student_id, now=text_of(now), since=text_of(since), reading=self._reading)
        return tuple(LessonId(row["lesson_id"]) for row in rows)

    def lines_of(
        self, student_id: StudentId, now: datetime, pieces: Collection[str] | None = None
    ) -> tuple[IndexedLine, ...]:
        """The lines of a student's lessons that were taught, the oldest first.

        All of them, or those of some pieces, and then those that name a book, or a number in one with which the name of
        one of these pieces ends: it may be of that piece.
        """
        if pieces is None:
            return self._lines(student_id, now, _BY_NOTES, "TRUE")
        numbers = listed(numbers_in(pieces))
        return self._lines(student_id, now, _BY_NOTES, _OF_PIECES, pieces=listed(pieces), numbers=numbers)

    def lines_since(
        self, student_id: StudentId, now: datetime, since: datetime, pieces: Collection[str]
    ) -> tuple[IndexedLine, ...]:
        """The lines of a student's lessons from a moment on (UTC), and all that may be of some pieces; the oldest first."""
        recent = self._lines(student_id, now, _BY_NOTES, "noted.id >= :since", since=_numbered(since))
        if not pieces:
            return recent
        of_these = f"line_given.piece IN {LISTED.replace('?', ':pieces')}"
        theirs = self._lines(student_id, now, _BY_LINES, of_these, pieces=listed(pieces))
        if set(pieces) - {each.read.piece for each in theirs}:  # it may be of a book, which its lines do not name
            theirs = self.lines_of(student_id, now, pieces)
        # Of each question alone SQLite finds the way by an index.
        return tuple(sorted(dict.fromkeys((*theirs, *recent)), key=lambda each: (each.starts_at, each.read.place)))

    def began_at(self, student_id: StudentId, now: datetime) -> datetime | None:
        """When the first of a student's lessons that were taught, and have notes, started (UTC, to the second)."""
        query = f"""SELECT noted.id FROM noted JOIN studio.lesson ON lesson.id = noted.lesson_id
            WHERE noted.student_id = :student AND lesson.student_id = :student AND {_TAUGHT} ORDER BY noted.id LIMIT 1"""  # noqa: S608 constants
        rows = self._rows(query, student=student_id, now=text_of(now))
        return next((_started(number) for (number,) in rows), None)

    def lines_of_piece(self, student_id: StudentId, now: datetime, piece: str) -> tuple[IndexedLine, ...]:
        """Those lines of a student alone that are of one piece, by notes that are as they were read; the oldest first."""
        return self._lines(student_id, now, _BY_LINES, f"line_given.piece = :piece AND {_IS_AS_READ}", piece=piece)

    def _lines(
        self, student_id: StudentId, now: datetime, tables: str, which: str, **values: str | int
    ) -> tuple[IndexedLine, ...]:
        query = f"""SELECT noted_id, noted.lesson_id, place, line, area, piece, title.words, book, of_book, measures, tempo,
                line_given.minutes, by_heart FROM {tables} CROSS JOIN title ON title.id = title_id
            CROSS JOIN studio.lesson ON lesson.id = noted.lesson_id AND lesson.student_id = :student
            WHERE {_THEIRS} AND {_TAUGHT} AND {which} ORDER BY noted.id, place"""  # noqa: S608 constants
        rows = self._rows(query, student=student_id, now=text_of(now), **values)
        return tuple(map(_indexed, rows))

    def lately(self, student_id: StudentId, now: datetime, lessons: int) -> frozenset[str]:
        """The pieces that a student was given in so many of the latest lessons that were taught."""
        query = f"""SELECT DISTINCT piece FROM line_given WHERE noted_id IN (
            SELECT noted.id FROM noted JOIN studio.lesson ON lesson.id = noted.lesson_id
            WHERE noted.student_id = :student AND lesson.student_id = :student AND {_TAUGHT}
            ORDER BY noted.id DESC LIMIT :lessons)"""  # noqa: S608 constants
        rows = self._rows(query, student=student_id, now=text_of(now), lessons=lessons)
        return frozenset(row["piece"] for row in rows)

    def areas_given(self, student_id: StudentId, now: datetime) -> dict[str, datetime]:
        """When each area was given a student last (UTC, to the second), by the notes of taught lessons that are as they were read."""
        newest = f"""SELECT noted_id FROM line_given JOIN noted ON noted.id = noted_id
            JOIN studio.lesson ON lesson.id = noted.lesson_id AND lesson.student_id = :student
            WHERE line_given.student_id = :student AND line_given.area = each.area AND {_TAUGHT} AND {_IS_AS_READ}
            ORDER BY noted_id DESC LIMIT 1"""  # noqa: S608 constants
        areas = "SELECT DISTINCT area FROM line_given WHERE student_id = :student"
        rows = self._rows(f"SELECT area, ({newest}) FROM ({areas}) AS each", student=student_id, now=text_of(now))  # noqa: S608 constants
        return {area: _started(number) for area, number in rows if number is not None}

    def pieces_called(self, search: Search) -> tuple[PieceOfStudent, ...]:
        """The pieces whose name has the words of a search, of all students or of those that it names; given last, first."""
        if not search.has_words:
            return ()
        titles = "SELECT rowid FROM title_words WHERE title_words MATCH :words"
        whose = f" AND line_given.student_id IN {LISTED.replace('?', ':students')}" if search.students else ""
        when = _limits("noted_id", search)
        query = f"""SELECT student_id, piece, max(noted_id) AS newest, title.words
            FROM line_given JOIN title ON title.id = title_id
            WHERE title_id IN ({titles}){when}{whose} GROUP BY student_id, piece ORDER BY newest DESC"""  # noqa: S608 constants
        rows = self._rows(query, words=_match(search), students=listed(search.students))
        return tuple(PieceOfStudent(StudentId(row["student_id"]), row["piece"], row["words"]) for row in rows)

    def notes_with(self, search: Search, most: int) -> tuple[LessonId, ...]:
        """The lessons whose notes, as they stand, have the words of a search, the newest first; so many at most."""
        if not search.has_words:
            return ()
        limits = _limits("note_words.rowid", search)
        whose = f" AND noted.student_id IN {LISTED.replace('?', ':students')}" if search.students else ""
        query = f"""SELECT noted.lesson_id FROM note_words JOIN noted ON noted.id = note_words.rowid
            JOIN studio.lesson ON lesson.id = noted.lesson_id AND lesson.student_id = noted.student_id
            JOIN studio.note ON note.lesson_id = lesson.id AND note.body = note_words.body
            WHERE note_words MATCH :words{limits}{whose} ORDER BY note_words.rowid DESC LIMIT :most"""  # noqa: S608 constants
        rows = self._rows(query, words=_match(search), most=most, students=listed(search.students))
        return tuple(LessonId(row["lesson_id"]) for row in rows)

    def close(self) -> None:
        """Lets go of the file."""
        if self._connection is not None:
            self._connection.close()
            self._connection = None

    def _rows(self, query: str, **values: str | int) -> list[sqlite3.Row]:
        """The rows of an answer; those of an empty index where there is none that can be read, and none without a studio."""
        try:
            return self._kept_rows(query, values)
        except sqlite3.DatabaseError:
            self.close()
        try:
            with contextlib.closing(self._beside_studio(None, "")) as connection:
                return connection.execute(query, values).fetchall()
        except sqlite3.DatabaseError:
            return []

    def _kept_rows(self, query: str, values: Mapping[str, str | int]) -> list[sqlite3.Row]:
        number = _number_of(self._path)
        if number != self._number_of_file:  # it was made anew, or there is one now
            self.close()
        if self._connection is None:
            self._connection = self._opened()
            self._number_of_file = _number_of(self._path)
        return self._connection.execute(query, values).fetchall()

    def _opened(self) -> sqlite3.Connection:
        """The index with the studio beside it, which nothing done through this connection can change.

        Where it may not be written and there is none of this form, one without notes: all of them are unread then.
        """
        if self._may_write:
            return self._beside_studio(self._path, "rwc")
        try:
            connection = self._beside_studio(self._path, "ro")
        except sqlite3.DatabaseError:
            return self._beside_studio(None, "")
        if _form_of(connection) != _FORM:
            connection.close()
            return self._beside_studio(None, "")
        return connection

    def _beside_studio(self, path: Path | None, how: str) -> sqlite3.Connection:
        with contextlib.ExitStack() as failed:
            uri = f"{path.absolute().as_uri()}?mode={how}" if path is not None else ":memory:"
            connection = failed.enter_context(
                contextlib.closing(sqlite3.connect(uri, uri=True, isolation_level=None, timeout=0.05))
            )
            connection.row_factory = sqlite3.Row
            connection.execute("PRAGMA foreign_keys = ON")
            connection.execute("PRAGMA synchronous = OFF")  # what a flat battery breaks is made anew
            if how != "ro":
                _shape(connection)
            studio = self._studio.absolute().as_uri()
            try:
                connection.execute("ATTACH ? AS studio", (f"{studio}?mode=ro",))
                connection.execute("SELECT 1 FROM studio.lesson LIMIT 1")
            except sqlite3.OperationalError:
                # A read-only folder has no room for SQLite's shared memory: read the file alone.
                connection.execute("DETACH studio")
                connection.execute("ATTACH ? AS studio", (f"{studio}?immutable=1",))
            failed.pop_all()
        return connection

    def _catch_up(self, pause: Callable[[], None], is_stopped: Callable[[], bool]) -> None:
        with contextlib.closing(self._opened()) as connection:
            gone = [number for (number,) in connection.execute(_GONE)]
            with transaction(connection):
                _forget(connection, gone)
            stale = [lesson_id for (lesson_id,) in connection.execute(_STALE, {"reading": self._reading})]
            for first in range(0, len(stale), _AT_ONCE):
                with transaction(connection):
                    for lesson_id in stale[first : first + _AT_ONCE]:
                        if is_stopped():
                            return
                        self._note(connection, lesson_id)
                        pause()

    def _note(self, connection: sqlite3.Connection, lesson_id: str) -> None:
        """Reads the notes of one lesson into the index, in the place of what was read of them before."""
        query = f"SELECT body, student_id, {_STARTS} FROM studio.note JOIN studio.lesson ON lesson.id = lesson_id WHERE lesson_id = ?"  # noqa: S608 constants
        row = connection.execute(query, (lesson_id,)).fetchone()
        if row is None:
            return
        body, student_id, first = row
        _forget(
            connection,
            [number for (number,) in connection.execute("SELECT id FROM noted WHERE lesson_id = ?", (lesson_id,))],
        )
        (last,) = connection.execute(
            "SELECT max(id) FROM noted WHERE id >= ? AND id < ?", (first, first + _AMONG)
        ).fetchone()
        number = first if last is None else last + 1
        connection.execute("INSERT INTO noted VALUES (?, ?, ?, ?)", (number, lesson_id, student_id, self._reading))
        connection.execute("INSERT INTO note_words (rowid, body) VALUES (?, ?)", (number, body))
        for line in read_lines(body, self._labels):
            values = (number, line.place, student_id, line.line, line.area, line.piece, _title(connection, line))
            more = (line.book, line.of_book, _measures_text(line.measures), _tempo_text(line.tempo), line.minutes)
            connection.execute(
                "INSERT INTO line_given VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)", (*values, *more, line.by_heart)
            )


def delete_index(folder: Path) -> None:
    """Deletes the index of a studio folder, where there is one."""
    for log in _LOGS:
        (folder / f"{NAME_OF_INDEX}{log}").unlink(missing_ok=True)


def _shape(connection: sqlite3.Connection) -> None:
    """Makes the tables of a file that has none, or those of another form."""
    if _form_of(connection) == _FORM:
        return
    connection.execute("PRAGMA journal_mode = WAL")
    with transaction(connection):
        for name in ("note_words", "title_words", "line_given", "title", "noted"):
            connection.execute(f"DROP TABLE IF EXISTS {name}")
        for statement in _SHAPE:
            connection.execute(statement)
        connection.execute(f"PRAGMA user_version = {_FORM}")


def _number_of(path: Path) -> int | None:
    """What tells a file from another one of its name; None where there is none."""
    try:
        return path.stat().st_ino
    except OSError:
        return None


def _form_of(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _forget(connection: sqlite3.Connection, numbers: list[int]) -> None:
    for number in numbers:
        connection.execute("DELETE FROM note_words WHERE rowid = ?", (number,))
        connection.execute("DELETE FROM noted WHERE id = ?", (number,))


def _title(connection: sqlite3.Connection, line: ReadLine) -> int:
    """The number of a line's title; its words are in the index of titles where it is the name of a piece."""
    values = (line.title, line.is_named)
    found = connection.execute("SELECT id FROM title WHERE words = ? AND is_named = ?", values).fetchone()
    if found is not None:
        return int(found[0])
    insert = "INSERT INTO title (words, is_named) VALUES (?, ?) RETURNING id"
    number = connection.execute(insert, values).fetchall()[0][0]
    if line.is_named:
        connection.execute("INSERT INTO title_words (rowid, words) VALUES (?, ?)", (number, line.title))
    return int(number)


def _match(search: Search) -> str:
    """A search as the index takes it: each word in quotes, so that no sign of it is an operator; the last may go on."""
    texts = [f'"{each.replace(chr(34), " ")}"' for each in search.words]
    return " ".join(texts) + ("*" if search.goes_on else "")


def _limits(column: str, search: Search) -> str:
    """That the number of a note is of the time that a search names."""
    limits = ((">=", search.since), ("<", search.before))
    return "".join(f" AND {column} {which} {_numbered(at)}" for which, at in limits if at is not None)


def _numbered(at: datetime) -> int:
    return int(at.timestamp()) * _AMONG


def _measures_text(measures: tuple[Measures, ...]) -> str:
    return json.dumps([(each.first, each.last) for each in measures])


def _tempo_text(tempo: Tempo | None) -> str | None:
    if tempo is None:
        return None
    return json.dumps([str(tempo.beat), tempo.goal, tempo.start, tempo.is_about, tempo.is_ceiling])


def _indexed(row: sqlite3.Row) -> IndexedLine:
    number, lesson_id, place, line, area, piece, title, book, of_book, measures, tempo, minutes, by_heart = row
    read = ReadLine(
        place=place,
        line=line,
        area=area,
        piece=piece,
        title=title,
        book=book,
        of_book=of_book,
        measures=_measures_in(measures),
        tempo=_tempo_in(tempo),
        minutes=minutes,
        by_heart=bool(by_heart),
    )
    return IndexedLine(LessonId(lesson_id), _started(number), read)


@lru_cache(maxsize=64)  # of the lines of a lesson
def _started(number: int) -> datetime:
    return _EPOCH + timedelta(seconds=number // _AMONG)


@lru_cache(maxsize=500)  # of a student's thousand lines few say other measures than the week before
def _measures_in(text: str) -> tuple[Measures, ...]:
    return tuple(Measures(first=first, last=last) for first, last in json.loads(text))


@lru_cache(maxsize=500)
def _tempo_in(text: str | None) -> Tempo | None:
    if text is None:
        return None
    beat, goal, start, is_about, is_ceiling = json.loads(text)
    return Tempo(beat=Fraction(beat), goal=goal, start=start, is_about=is_about, is_ceiling=is_ceiling)
