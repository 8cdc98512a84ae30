"""Changes to a studio's database: each in one transaction, all of it or nothing."""

import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from itertools import count, groupby
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.store.faults import moved, told
from cockpit.store.rows import TABLES, Cell, row_of
from cockpit.studio.changes.records import Change, Edit, Note, Record
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.post.outgoing import Outgoing

if TYPE_CHECKING:
    from sqlite_utils import Database

_SAVE = """INSERT INTO note (lesson_id, body, changed_at) VALUES (:lesson_id, :body, :changed_at)
    ON CONFLICT (lesson_id) DO UPDATE SET body = excluded.body, changed_at = excluded.changed_at"""

_DONE_TO = """standing_time_id = ? AND (
    kind <> 'weekly' OR outcome IS NOT NULL OR began_at IS NOT NULL OR finished_at IS NOT NULL OR is_moved
    OR EXISTS (SELECT 1 FROM note WHERE lesson_id = lesson.id AND trim(body) <> '')
    OR EXISTS (SELECT 1 FROM follow_up WHERE lesson_id = lesson.id))"""


class Writing:
    """What the desk has the database do. `on_write` is called after each commit."""

    def __init__(self, connection: sqlite3.Connection, path: Path, on_write: Callable[[], None]) -> None:
        self._connection = connection
        self._path = path
        self._on_write = on_write
        self._held: Database | None = None
        self._place = _place_of(path)

    def check_place(self) -> None:
        """Makes sure that the database is the file that was opened: SQLite would go on writing into one that was moved or deleted.

        Raises:
            NotSaved: another file is there now, or none.
        """
        if _place_of(self._path) != self._place:
            raise moved(self._path)

    def new_id(self) -> int:
        """A number that no record has had before, and that none will have again."""
        with self._told():
            row = self._connection.execute("UPDATE numbering SET last = last + 1 RETURNING last").fetchall()
        return int(row[0][0])

    @contextmanager
    def new_ids(self) -> Iterator[Callable[[], int]]:
        """Gives any number of new numbers, each as `new_id` does, and writes once, at the end of the block."""
        with told(self._path):
            (last,) = self._connection.execute("SELECT last FROM numbering").fetchone()
        numbers = count(last + 1)
        yield lambda: next(numbers)
        with self._told():
            self._connection.execute("UPDATE numbering SET last = max(last, ?)", (next(numbers) - 1,))

    def apply(self, change: Change, *, durable: bool = False) -> None:
        """Carries out a change; `durable` has it on the disk before this returns.

        Raises:
            NotSaved: nothing was changed; the sentence says why.
            Refused: it would delete a lesson that has notes.
        """
        if not change.edits:
            return
        with self._told(durable=durable):
            database = self._database()
            with database.atomic():
                for (table, is_new), edits in groupby(change.edits, _way):
                    if is_new:
                        database.table(table).insert_all(_rows(edits))
                    else:
                        for edit in edits:
                            _carry_out(database, edit)
        self._on_write()

    def save_note(self, note: Note, follow_ups: tuple[str, ...] | None, *, durable: bool = False) -> None:
        """Saves the text of a lesson, at every key; `follow_ups` are its open ones if they changed, else None.

        Plain SQL: this is the one write that a key waits for. `durable` has it on the disk before this returns.

        Raises:
            NotSaved: nothing was changed; the sentence says why.
        """
        with self._told(durable=durable):
            if follow_ups is None:
                self._connection.execute(_SAVE, row_of(note))
            else:
                self._save_with_follow_ups(note, follow_ups)
        self._on_write()

    def settle_titles(self, names: Mapping[str, str]) -> None:
        """Keeps what titles of a calendar stand for, so that it is asked once."""
        asked = "INSERT INTO calendar_title VALUES (?, ?) ON CONFLICT (title) DO UPDATE SET name = excluded.name"
        with self._told():
            self._connection.executemany(asked, names.items())
        self._on_write()

    def note_calendar_basis(self, basis: str) -> None:
        """Keeps what the calendar for others hangs on beside the records; where it changed, the calendar's number grows."""
        asked = "UPDATE studio_calendar SET revision = revision + 1, basis = ? WHERE basis IS NOT ?"
        with self._told():
            changed = self._connection.execute(asked, (basis, basis)).rowcount
        if changed:
            self._on_write()

    @contextmanager
    def _told(self, *, durable: bool = False) -> Iterator[None]:
        """Surrounds every write: makes sure that the database is where it was, and turns SQLite's errors into ours."""
        self.check_place()
        with told(self._path):
            if durable:
                self._connection.execute("PRAGMA synchronous = FULL")
            try:
                yield
            finally:
                if durable:
                    self._connection.execute("PRAGMA synchronous = NORMAL")

    def _save_with_follow_ups(self, note: Note, follow_ups: tuple[str, ...]) -> None:
        connection = self._connection
        connection.execute("BEGIN IMMEDIATE")
        try:
            connection.execute(_SAVE, row_of(note))
            connection.execute("DELETE FROM follow_up WHERE lesson_id = ? AND ticked_at IS NULL", (note.lesson_id,))
            connection.executemany(
                "INSERT INTO follow_up (lesson_id, body) VALUES (?, ?) ON CONFLICT DO NOTHING",
                [(note.lesson_id, body) for body in follow_ups],
            )
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise

    def _database(self) -> "Database":
        if self._held is None:
            from sqlite_utils import Database  # 35 ms, which the first screen does not wait for

            self._held = Database(self._connection, execute_plugins=False)
        return self._held


def _place_of(path: Path) -> tuple[int, int] | None:
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _way(edit: Edit) -> tuple[str, bool]:
    """The table of a record, and whether the record is new: what is new to one table goes in together."""
    record = edit.after if edit.after is not None else edit.before
    return TABLES[type(record)].name if record is not None else "", edit.before is None and record is not None


def _rows(edits: Iterable[Edit]) -> Iterator[dict[str, Cell]]:
    return (row_of(edit.after) for edit in edits if edit.after is not None)


def _carry_out(database: "Database", edit: Edit) -> None:
    record = edit.after if edit.after is not None else edit.before
    if record is None:
        return
    table = TABLES[type(record)]
    rows = database.table(table.name)
    if isinstance(edit.before, Outgoing) and not _stands_as(database, edit.before):
        raise Refused(f"The notes for {edit.before.student} have gone on in the outbox: that stays. Look there.")
    if edit.after is None:
        _make_way(database, record)
        rows.delete(_key(record))
    elif edit.before is not None:
        rows.update(_key(edit.before), row_of(edit.after))


def _stands_as(database: "Database", item: Outgoing) -> bool:
    """Whether nothing has been done with something in the outbox since it was looked at: or it might go twice."""
    asked = "SELECT 1 FROM outgoing WHERE id = ? AND fate = ? AND attempts = ?"
    return database.execute(asked, (item.id, item.fate, item.attempts)).fetchone() is not None


def _make_way(database: "Database", record: Record) -> None:
    """Refuses the deletion of what has more by now; takes out the bare rows that steps left at a standing time."""
    if isinstance(record, Lesson) and _has_notes(database, record):
        raise Refused("This lesson has notes by now: it stays. Mark it cancelled instead.")
    if isinstance(record, Note) and _was_typed_on(database, record):
        raise Refused("These notes have more words by now: they stay.")
    if isinstance(record, StandingTime):
        if _has_lessons(database, record):
            raise Refused("This standing time has lessons by now: it stays. It can be changed again from a date on.")
        database.execute("DELETE FROM lesson WHERE standing_time_id = ?", (record.id,))


def _has_notes(database: "Database", lesson: Lesson) -> bool:
    asked = "SELECT 1 FROM note WHERE lesson_id = ? AND trim(body) <> ''"
    return database.execute(asked, (lesson.id,)).fetchone() is not None


def _was_typed_on(database: "Database", note: Note) -> bool:
    asked = "SELECT 1 FROM note WHERE lesson_id = ? AND body <> ?"
    return database.execute(asked, (note.lesson_id, note.body)).fetchone() is not None


def _has_lessons(database: "Database", standing: StandingTime) -> bool:
    """Whether anything was done to a lesson of a standing time: the row alone can be left of a step that was undone."""
    return database.execute(f"SELECT 1 FROM lesson WHERE {_DONE_TO} LIMIT 1", (standing.id,)).fetchone() is not None  # noqa: S608 a constant


def _key(record: Record) -> tuple[Cell, ...]:
    row = row_of(record)
    return tuple(row[name] for name in TABLES[type(record)].keys)
