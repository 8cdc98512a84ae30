"""Changes to a studio's database: each in one transaction, all of it or nothing."""

import os
import sqlite3
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from datetime import datetime, timedelta
from itertools import count, groupby
from pathlib import Path
from typing import TYPE_CHECKING

from cockpit.store.faults import moved, translated_errors
from cockpit.store.tables import LISTED, Cell, key_of, listed, row_of, table_of, text_cell, text_of
from cockpit.studio.changes.records import CalendarTitle, Change, Edit, Note, Record
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.post.outgoing import Outgoing

if TYPE_CHECKING:
    from sqlite_utils import Database

    from cockpit.studio.inquiries.inquiry import Inquiry

_SAVE = """INSERT INTO note (lesson_id, body, changed_at) VALUES (?, ?, ?)
    ON CONFLICT (lesson_id) DO UPDATE SET body = excluded.body, changed_at = excluded.changed_at"""

_DONE_TO = """standing_time_id = ? AND (
    kind <> 'weekly' OR outcome IS NOT NULL OR began_at IS NOT NULL OR finished_at IS NOT NULL OR is_moved
    OR EXISTS (SELECT 1 FROM note WHERE lesson_id = lesson.id AND trim(body) <> '')
    OR EXISTS (SELECT 1 FROM follow_up WHERE lesson_id = lesson.id))"""


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """Surrounds statements of which all are carried out, or none."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


class SqliteWriting:
    """What the desk has the database do. `on_write` is called after each commit."""

    def __init__(self, connection: sqlite3.Connection, path: Path, on_write: Callable[[], None]) -> None:
        self._connection = connection
        self._path = path
        self._on_write = on_write
        self._held: Database | None = None
        self._opened = path.stat()

    def check_place(self) -> None:
        """Makes sure that the database is the file that was opened: SQLite would go on writing into one that was moved or deleted.

        Raises:
            NotSaved: another file is there now, or none.
        """
        try:
            is_there = os.path.samestat(self._path.stat(), self._opened)
        except OSError:
            is_there = False
        if not is_there:
            raise moved(self._path)

    def new_id(self) -> int:
        """A number that no record has had before, and that none will have again."""
        with self._guarded():
            row = self._connection.execute("UPDATE numbering SET last = last + 1 RETURNING last").fetchall()
        return int(row[0][0])

    @contextmanager
    def new_ids(self) -> Iterator[Callable[[], int]]:
        """Gives any number of new numbers, each as `new_id` does, and writes once, at the end of the block."""
        with translated_errors(self._path):
            (last,) = self._connection.execute("SELECT last FROM numbering").fetchone()
        numbers = count(last + 1)
        yield lambda: next(numbers)
        with self._guarded():
            self._connection.execute("UPDATE numbering SET last = max(last, ?)", (next(numbers) - 1,))

    def apply(self, change: Change, *, durable: bool = False) -> None:
        """Carries out a change; `durable` has it on the disk before this returns.

        Raises:
            NotSaved: nothing was changed; the sentence says why.
            Refused: it would delete a lesson that has notes.
        """
        if not change.edits:
            return
        with self._transaction(durable=durable) as database:
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
        with self._guarded(durable=durable):
            if follow_ups is None:
                self._save(note)
            else:
                self._save_with_follow_ups(note, follow_ups)
        self._on_write()

    def settle_titles(self, names: Mapping[str, str]) -> None:
        """Keeps what titles of a calendar stand for, so that it is asked once."""
        titles = (row_of(CalendarTitle(title=title, name=name)) for title, name in names.items())
        with self._transaction() as database:
            database.table(table_of(CalendarTitle).name).upsert_all(titles)
        self._on_write()

    def clear_withdrawn(self, now: datetime) -> None:
        """Deletes what was taken back from the calendar for others, once its date is past by a moment (UTC).

        A weekly lesson that was moved back is in that calendar until its own date, which is in its id. A weekly time
        without an end is there for a year from its first day on. One without a first day gets that of this moment: it
        was handed out until now.
        """
        passed_on = (now - timedelta(days=2)).date().isoformat()  # in every zone
        with self._guarded():
            lessons = (
                "DELETE FROM withdrawn_lesson WHERE starts_at <= ? AND (kind <> 'weekly' OR substr(lesson_id, -10) < ?)"
            )
            self._connection.execute(lessons, (text_of(now), passed_on))
            undated = "UPDATE withdrawn_time SET from_on = ? WHERE from_on IS NULL AND until_on IS NULL"
            self._connection.execute(undated, (now.date().isoformat(),))
            times = "DELETE FROM withdrawn_time WHERE coalesce(until_on, date(from_on, '+366 days')) < ?"
            self._connection.execute(times, (passed_on,))
            # The text of a clock ends with the date of its last move, or of a stay's end.
            clocks = "DELETE FROM withdrawn_clock WHERE coalesce(date(substr(zone, -10), '+366 days'), '') < ?"
            self._connection.execute(clocks, (passed_on,))
        self._on_write()

    def clear_inquiries(self, closed_before: datetime) -> None:
        """Deletes the inquiries that were closed before a moment (UTC), and the age of those that became a student."""
        from cockpit.studio.inquiries.inquiry import CLOSINGS, StepKind  # at the end, which no screen waits for

        last = "SELECT inquiry_id, what, at, max(at || printf('%020d', id)) FROM inquiry_step GROUP BY inquiry_id"
        query = f"DELETE FROM inquiry WHERE id IN (SELECT inquiry_id FROM ({last}) WHERE what IN {LISTED} AND at < ?)"  # noqa: S608 constants
        forget = """UPDATE inquiry SET age = NULL WHERE age IS NOT NULL AND (
            id IN (SELECT inquiry_id FROM inquiry_step WHERE what = ?) OR student_id IN (SELECT student_id FROM standing_time))"""
        with self._guarded():
            self._connection.execute(query, (listed(sorted(CLOSINGS)), text_of(closed_before)))
            self._connection.execute(forget, (StepKind.STUDENT,))
        self._on_write()

    def note_calendar_basis(self, basis: str) -> None:
        """Keeps what the calendar for others hangs on beside the records; where it changed, the calendar's number grows."""
        query = "UPDATE studio_calendar SET revision = revision + 1, basis = ? WHERE basis IS NOT ?"
        with self._guarded():
            changed = self._connection.execute(query, (basis, basis)).rowcount
        if changed:
            self._on_write()

    @contextmanager
    def _guarded(self, *, durable: bool = False) -> Iterator[None]:
        """Surrounds every write: makes sure that the database is where it was, and turns SQLite's errors into ours."""
        self.check_place()
        with translated_errors(self._path):
            if durable:
                self._connection.execute("PRAGMA synchronous = FULL")
            try:
                yield
            finally:
                if durable:
                    self._connection.execute("PRAGMA synchronous = NORMAL")

    def _save(self, note: Note) -> None:
        self._connection.execute(_SAVE, (note.lesson_id, text_cell(note.body), text_of(note.changed_at)))

    @contextmanager
    def _transaction(self, *, durable: bool = False) -> Iterator["Database"]:
        with self._guarded(durable=durable):
            database = self._database()
            with transaction(self._connection):
                yield database

    def _save_with_follow_ups(self, note: Note, follow_ups: tuple[str, ...]) -> None:
        connection = self._connection
        with transaction(connection):
            self._save(note)
            connection.execute("DELETE FROM follow_up WHERE lesson_id = ? AND ticked_at IS NULL", (note.lesson_id,))
            connection.executemany(
                "INSERT INTO follow_up (lesson_id, body) VALUES (?, ?) ON CONFLICT DO NOTHING",
                [(note.lesson_id, text_cell(body)) for body in follow_ups],
            )

    def _database(self) -> "Database":
        if self._held is None:
            from sqlite_utils import Database  # 35 ms, which the first screen does not wait for

            self._held = Database(self._connection, execute_plugins=False)
        return self._held


def _way(edit: Edit) -> tuple[str, bool]:
    """The table of a record, and whether the record is new: what is new to one table goes in together."""
    record = edit.after if edit.after is not None else edit.before
    return table_of(type(record)).name if record is not None else "", edit.before is None and record is not None


def _rows(edits: Iterable[Edit]) -> Iterator[dict[str, Cell]]:
    return (row_of(edit.after) for edit in edits if edit.after is not None)


def _carry_out(database: "Database", edit: Edit) -> None:
    record = edit.after if edit.after is not None else edit.before
    if record is None:
        return
    table = table_of(type(record))
    rows = database.table(table.name)
    if isinstance(edit.before, Outgoing) and not _stands_as(database, edit.before):
        raise Refused(
            f"The {edit.before.called} changed in the outbox since then, so this cannot be undone. See the outbox."
        )
    if edit.after is None:
        _make_way(database, record)
        rows.delete(key_of(record))
    elif edit.before is not None:
        rows.update(key_of(edit.before), row_of(edit.after))


def _stands_as(database: "Database", item: Outgoing) -> bool:
    """Whether nothing has been done with something in the outbox since it was looked at: or it might go twice."""
    query = "SELECT 1 FROM outgoing WHERE id = ? AND fate = ? AND attempts = ?"
    return database.execute(query, (item.id, item.fate, item.attempts)).fetchone() is not None


def _make_way(database: "Database", record: Record) -> None:
    """Refuses the deletion of what has more by now; takes out the bare rows that steps left at a weekly time."""
    from cockpit.studio.inquiries.inquiry import Inquiry  # no screen waits for what is deleted

    if isinstance(record, Lesson) and _has_notes(database, record):
        raise Refused("This lesson has notes now, so it was kept. Mark it canceled instead.")
    if isinstance(record, Note) and _was_typed_on(database, record):
        raise Refused("You have typed more in these notes since then, so they were kept.")
    if isinstance(record, Inquiry) and _has_answers(database, record):
        raise Refused(f"You have answered {record.name} since then, so the inquiry was kept. You can close it.")
    if isinstance(record, StandingTime):
        if _has_lessons(database, record):
            raise Refused(
                "This weekly time has lessons now, so it was kept. You can change it again from a later date."
            )
        database.execute("DELETE FROM lesson WHERE standing_time_id = ?", (record.id,))


def _has_answers(database: "Database", inquiry: "Inquiry") -> bool:
    query = "SELECT 1 FROM outgoing WHERE inquiry_id = ?"
    return database.execute(query, (inquiry.id,)).fetchone() is not None


def _has_notes(database: "Database", lesson: Lesson) -> bool:
    query = "SELECT 1 FROM note WHERE lesson_id = ? AND trim(body) <> ''"
    return database.execute(query, (lesson.id,)).fetchone() is not None


def _was_typed_on(database: "Database", note: Note) -> bool:
    query = "SELECT 1 FROM note WHERE lesson_id = ? AND body <> ?"
    return database.execute(query, (note.lesson_id, note.body)).fetchone() is not None


def _has_lessons(database: "Database", standing: StandingTime) -> bool:
    """Whether anything was done to a lesson of a weekly time: the row alone can be left of a step that was undone."""
    return database.execute(f"SELECT 1 FROM lesson WHERE {_DONE_TO} LIMIT 1", (standing.id,)).fetchone() is not None  # noqa: S608 a constant
