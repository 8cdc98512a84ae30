"""The rows of a family: deleted so that their words are in no page of the file, and put back out of an older copy."""

import contextlib
import sqlite3
from collections.abc import Collection, Iterable, Iterator
from pathlib import Path

from cockpit.store.asking import LISTED, listed, question_marks
from cockpit.store.faults import told
from cockpit.store.rows import Cell
from cockpit.store.schema import migrate
from cockpit.studio.calendar.collisions import parts_of
from cockpit.studio.errors import StudioBusy
from cockpit.studio.people.people import FamilyId, StudentId, name_key

_STUDENTS = "student_id IN (SELECT id FROM student WHERE family_id = ?1)"
_LESSONS = f"lesson_id IN (SELECT id FROM lesson WHERE {_STUDENTS})"  # noqa: S608 a constant
# In this order each row finds what it refers to. The last two are of no family: what is missing of them comes back.
_TABLES = (
    ("family", "id = ?1"),
    ("student", "family_id = ?1"),
    ("standing_time", _STUDENTS),
    ("imported_time", _STUDENTS),
    ("lesson", _STUDENTS),
    *((table, _LESSONS) for table in ("note", "mark", "heard", "follow_up", "export")),
    ("break", "family_id = ?1"),
    ("outgoing", f"family_id = ?1 OR {_LESSONS}"),
    ("calendar_title", "?1 IS NOT NULL"),
    ("accepted", "?1 IS NOT NULL"),
)


@contextlib.contextmanager
def _transaction(connection: sqlite3.Connection) -> Iterator[None]:
    connection.execute("BEGIN IMMEDIATE")
    try:
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


class FamilyRows:
    """Deletes a family from an open database, and puts it back."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def fold(self) -> None:
        """Works the write-ahead log into the file, so that the file alone is the whole studio.

        Raises:
            StudioBusy: another program is reading.
        """
        with told(self._path):
            is_busy = self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
        if is_busy:
            raise StudioBusy(f"Another program is reading {self._path}. Close it and try again.")

    def delete(self, family_id: FamilyId) -> None:
        """Deletes a family with all that hangs on it, in one transaction.

        Raises:
            NotSaved: nothing was deleted.
        """
        with told(self._path), _transaction(self._connection):
            delete_people(self._connection, [family_id], [])

    def scrub(self) -> None:
        """Writes the file anew without the pages that are free, and empties the log.

        Raises:
            StudioBusy: another program is reading.
            NotSaved: the disk has no room for it.
        """
        with told(self._path):
            self._connection.execute("VACUUM")
        self.fold()

    def put_back(self, copy: Path, family_id: FamilyId) -> None:
        """Puts a family back out of a copy of the database, in one transaction; one that is there stays as it is.

        The copy itself stays as it is, and may be of an earlier form.
        """
        old = sqlite3.connect(":memory:")
        with told(self._path), contextlib.closing(old):
            if self._connection.execute("SELECT 1 FROM family WHERE id = ?", (family_id,)).fetchone():
                return
            with contextlib.closing(sqlite3.connect(f"{copy.absolute().as_uri()}?immutable=1", uri=True)) as kept:
                kept.backup(old)
            migrate(old)
            self._insert(old, family_id)

    def texts(self) -> Iterator[str]:
        """Every text in the database."""
        with told(self._path):
            for table, _ in _TABLES:
                for row in self._connection.execute(f"SELECT * FROM {table}"):  # noqa: S608 names of ours
                    yield from (cell for cell in row if isinstance(cell, str))

    def _insert(self, old: sqlite3.Connection, family_id: FamilyId) -> None:
        with _transaction(self._connection):
            for table, which in _TABLES:
                found = old.execute(f"SELECT * FROM {table} WHERE {which}", (family_id,))  # noqa: S608 names of ours
                columns = [column[0] for column in found.description]
                into = f"INSERT OR IGNORE INTO {table} ({', '.join(columns)})"
                self._connection.executemany(f"{into} VALUES ({question_marks(len(columns))})", found)


def delete_people(connection: sqlite3.Connection, families: Iterable[FamilyId], students: Iterable[StudentId]) -> None:
    """Deletes families and students with all that hangs on them, also from a database of an earlier form.

    The connection has foreign keys switched on. What is known of calendar titles and accepted troubles goes where it is
    theirs alone.
    """
    gone = list(families)
    leaving = {*_ids(connection, "student", "family_id", gone), *students}
    _delete_titles(connection, leaving)
    _delete_accepted(connection, leaving)
    for table, ids in (("student", leaving), ("family", gone)):
        connection.executemany(f"DELETE FROM {table} WHERE id = ?", [(each,) for each in ids])  # noqa: S608 names of ours


def _delete_titles(connection: sqlite3.Connection, leaving: set[Cell]) -> None:
    if not has_table(connection, "calendar_title"):
        return
    names: dict[bool, set[str]] = {True: set(), False: set()}
    for number, name in connection.execute("SELECT id, name FROM student"):
        names[number in leaving].add(name_key(name))
    theirs = names[True] - names[False]
    titles = [
        (title,) for title, name in connection.execute("SELECT * FROM calendar_title") if name_key(name) in theirs
    ]
    connection.executemany("DELETE FROM calendar_title WHERE title = ?", titles)


def _delete_accepted(connection: sqlite3.Connection, leaving: set[Cell]) -> None:
    if not has_table(connection, "accepted"):
        return
    named = {
        str(each) for table in ("standing_time", "lesson") for each in _ids(connection, table, "student_id", leaving)
    }
    keys = [(key,) for (key,) in connection.execute("SELECT key FROM accepted") if parts_of(key) & named]
    connection.executemany("DELETE FROM accepted WHERE key = ?", keys)


def _ids(connection: sqlite3.Connection, table: str, column: str, values: Collection[Cell]) -> set[Cell]:
    asked = f"SELECT id FROM {table} WHERE {column} IN {LISTED}"  # noqa: S608 names of ours
    return {row[0] for row in connection.execute(asked, (listed(values),))}


def has_table(connection: sqlite3.Connection, name: str) -> bool:
    """Whether a database, maybe of an earlier form, has a table."""
    asked = "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?"
    return connection.execute(asked, (name,)).fetchone() is not None
