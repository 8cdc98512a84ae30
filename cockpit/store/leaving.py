"""A family that leaves: its rows deleted so that their words are in no page of a file, and put back out of an older copy.

It leaves the open database, and every copy of it: the backups and the databases that were set aside are each written
anew without it, whole or not at all.
"""

import contextlib
import shutil
import sqlite3
from collections.abc import Collection, Iterable, Iterator
from pathlib import Path

from cockpit.store.faults import sentence, translated_errors
from cockpit.store.line_index import delete_index
from cockpit.store.schema import NAME, VERSION, migrate, version_of
from cockpit.store.tables import LISTED, TABLES, Cell, has_table, listed, table_of, text_of
from cockpit.store.writing import transaction
from cockpit.studio.changes.recital import papers_of
from cockpit.studio.errors import CockpitError, NotSaved, Refused, StudioBusy, StudioDamaged, StudioTooNew
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.leaving.family_record import accepted_of, titles_of
from cockpit.studio.leaving.leaver import Leaver, NamingPaper, is_named, names_of, words_of
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, Student, StudentId, name_key
from cockpit.studio.post.outgoing import EMPTIED, OutgoingId, Paper

_TO_MANY = (Paper.PROGRAM, Paper.NEWS)
_ASIDE = ".set-aside-"
_LOGS = ("-wal", "-shm")
# Of a form that had the addresses of guardians with their family.
_BY_ADDRESSES_OF_FAMILY = (
    "student_id IS NULL AND EXISTS (SELECT 1 FROM family WHERE id = :family_id AND "
    "instr(', ' || lower(family.email) || ', ', ', ' || lower(inquiry.email) || ', '))"
)


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
        with translated_errors(self._path):
            is_busy = self._connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
        if is_busy:
            raise StudioBusy(f"Another program is using {self._path}. Close that program and try again.")

    def naming(self, family_id: FamilyId, words: Iterable[str] = ()) -> tuple[NamingPaper, ...]:
        """Finds programs and letters in the outbox that are for others and name a family by one of the words."""
        with translated_errors(self._path):
            leaving = _ids(self._connection, "student", "family_id", [family_id])
            return _naming(self._connection, [family_id], leaving, words)

    def delete(self, family_id: FamilyId, words: Iterable[str] = ()) -> None:
        """Deletes a family with all that hangs on it, in one transaction, and the index of all notes. Papers for others that have one of the words lose theirs.

        Raises:
            NotSaved: nothing was deleted.
        """
        try:
            delete_index(self._path.parent)
        except OSError as fault:
            raise NotSaved(
                f"The family was not deleted: {fault.filename} cannot be deleted ({fault.strerror})."
            ) from fault
        with translated_errors(self._path), transaction(self._connection):
            _delete_people(self._connection, ([family_id], []), words)

    def scrub(self) -> None:
        """Writes the file anew without the pages that are free, and empties the log.

        Raises:
            StudioBusy: another program is reading.
            NotSaved: the disk has no room for it.
        """
        with translated_errors(self._path):
            self._connection.execute("VACUUM")
        self.fold()

    def put_back(self, copy: Path, family_id: FamilyId) -> None:
        """Puts a family back out of a copy of the database, in one transaction; one that is there stays as it is.

        The copy itself stays as it is, and may be of an earlier form.
        """
        old = sqlite3.connect(":memory:")
        with translated_errors(self._path), contextlib.closing(old):
            if self._connection.execute("SELECT 1 FROM family WHERE id = ?", (family_id,)).fetchone():
                return
            with contextlib.closing(sqlite3.connect(f"{copy.absolute().as_uri()}?immutable=1", uri=True)) as kept:
                kept.backup(old)
            migrate(old)
            old.row_factory = sqlite3.Row
            self._insert(old, family_id)

    def texts(self) -> Iterator[tuple[str, str]]:
        """Every text in the database, behind the name of its table."""
        with translated_errors(self._path):
            for table in TABLES:
                for row in self._connection.execute(f"SELECT * FROM {table.name}"):  # noqa: S608 names of ours
                    yield from ((table.name, cell) for cell in row if isinstance(cell, str))

    def _insert(self, old: sqlite3.Connection, family_id: FamilyId) -> None:
        from sqlite_utils import Database  # 35 ms, which nothing else here pays

        database = Database(self._connection, execute_plugins=False)
        with transaction(self._connection):
            for table in TABLES:
                rows = old.execute(f"SELECT * FROM {table.name} WHERE {table.of_family}", {"family_id": family_id})  # noqa: S608 ours
                database.table(table.name).insert_all(map(dict, rows), ignore=True)
            _fill(self._connection, old)


class OldCopies:
    """The copies of the database in a studio folder, by their names relative to it."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def names(self) -> tuple[str, ...]:
        """Every copy, the oldest backup first."""
        backups = sorted((self._folder / "backups").glob("*.db"))
        aside = sorted(self._folder.glob(f"{NAME}{_ASIDE}*"))
        return tuple(path.relative_to(self._folder).as_posix() for path in (*backups, *aside) if not _is_fresh(path))

    def with_logs(self, names: Iterable[str]) -> tuple[str, ...]:
        """Copies with the logs that lie beside them."""
        return tuple(
            path.relative_to(self._folder).as_posix()
            for name in names
            for path in (self._folder / name, *_logs(self._folder / name).values())
            if path.exists()
        )

    def lone_logs(self) -> tuple[str, ...]:
        """Logs that were set aside without their database: nothing can read them."""
        theirs = self.with_logs(self.names())
        found = (path.name for log in _LOGS for path in self._folder.glob(f"{NAME}{log}{_ASIDE}*"))
        return tuple(sorted(name for name in found if name not in theirs))

    def make(self, name: str, leaver: Leaver) -> bool:
        """Makes a new file beside a copy, without the family; False, and no file, where the copy does not hold it.

        Raises:
            CockpitError: the copy cannot be read or written anew; the sentence says why.
        """
        path = self._folder / name
        fresh = _fresh(path)
        try:
            _copy(path, fresh)
            with contextlib.closing(sqlite3.connect(fresh, isolation_level=None)) as connection:
                has_changed = _without(connection, leaver)
        except sqlite3.DatabaseError as fault:
            self._drop(fresh)
            raise sentence(fault, path) from fault
        except (CockpitError, OSError):
            self._drop(fresh)
            raise
        if not has_changed:
            self._drop(fresh)
            return False
        fresh.chmod(0o600)
        return True

    def put_in_place(self, names: Iterable[str]) -> None:
        """Has the new files take the place of the copies, whose logs are worked into them."""
        for name in names:
            path = self._folder / name
            _fresh(path).replace(path)
            for log in _logs(path).values():
                log.unlink(missing_ok=True)

    def tidy(self) -> None:
        """Deletes what a program that was killed left half-made."""
        for path in (*self._folder.glob(f"{NAME}*.new*"), *(self._folder / "backups").glob("*.new*")):
            path.unlink(missing_ok=True)

    def _drop(self, fresh: Path) -> None:
        for path in (fresh, *(fresh.with_name(fresh.name + log) for log in (*_LOGS, "-journal"))):
            path.unlink(missing_ok=True)


def _is_fresh(path: Path) -> bool:
    return path.suffix == ".new" or ".new-" in path.name


def _fresh(path: Path) -> Path:
    return path.with_name(f"{path.name}.new")


def _logs(path: Path) -> dict[str, Path]:
    name, aside, stamp = path.name.partition(_ASIDE)
    return {log: path.with_name(f"{name}{log}{aside}{stamp}") for log in _LOGS}


def _copy(path: Path, fresh: Path) -> None:
    shutil.copyfile(path, fresh)
    log = _logs(path)["-wal"]
    if log.exists():
        shutil.copyfile(log, fresh.with_name(f"{fresh.name}-wal"))


def _without(connection: sqlite3.Connection, leaver: Leaver) -> bool:
    """Deletes the family in a copy and has it on the disk; whether there was anything to delete."""
    # One file and no log beside it, when it is done.
    connection.execute("PRAGMA journal_mode = DELETE")
    connection.execute("PRAGMA secure_delete = ON")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    if version_of(connection) > VERSION:
        raise StudioTooNew("It was made by a newer version of the cockpit.")
    if not has_table(connection, "family"):
        return False
    families, students = _people(connection)
    gone, leaving = leaver.families_among(families, students), leaver.students_among(students)
    asked = _inquiries(connection, leaver)
    if not gone and not leaving and not asked:
        return False
    mixed = leaver.others_among(student for student in students if student.family_id in gone)
    if mixed:
        raise Refused(f"{mixed[0].name} belonged to this family then, and belongs to another today.")
    with transaction(connection):
        if asked:
            connection.execute(f"DELETE FROM inquiry WHERE id IN {LISTED}", (listed(asked),))  # noqa: S608 names of ours
        _delete_people(connection, (gone, leaving), names_of(leaver))
    connection.execute("VACUUM")
    answer = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if answer != "ok":
        raise StudioDamaged(f"It is damaged ({answer}).")
    return True


def _people(connection: sqlite3.Connection) -> tuple[list[Family], list[Student]]:
    families = connection.execute("SELECT id, name FROM family").fetchall()
    students = connection.execute("SELECT id, family_id, name FROM student").fetchall()
    return (
        [Family(id=FamilyId(number), name=name, zone="UTC") for number, name in families],
        [Student(id=StudentId(number), family_id=FamilyId(home), name=name) for number, home, name in students],
    )


def _inquiries(connection: sqlite3.Connection, leaver: Leaver) -> list[int]:
    """The family's inquiries in a copy, also in one of a time before it was a family."""
    if not has_table(connection, "inquiry"):
        return []
    theirs = {(each.id, text_of(each.came_at)) for each in leaver.inquiries}
    return [number for number, at in connection.execute("SELECT id, came_at FROM inquiry") if (number, at) in theirs]


def _delete_people(
    connection: sqlite3.Connection, people: tuple[Iterable[FamilyId], Iterable[StudentId]], words: Iterable[str]
) -> None:
    """Deletes families and students with all that hangs on them, also from a database of an earlier form.

    The connection has foreign keys switched on. What is known of calendar titles and accepted troubles goes where it is
    theirs alone. Of what went to others and names them, which one of the words tells, the words go.
    """
    gone = list(people[0])
    leaving = {*_ids(connection, "student", "family_id", gone), *people[1]}
    _empty(connection, _naming(connection, gone, leaving, words))
    _delete_titles(connection, leaving)
    _delete_accepted(connection, leaving)
    for table in ("withdrawn_lesson", "withdrawn_time"):
        if has_table(connection, table):
            query = f"DELETE FROM {table} WHERE student_id IN {LISTED}"  # noqa: S608 names of ours
            connection.execute(query, (listed(leaving),))
    _delete_inquiries(connection, gone, leaving)
    for table, ids in (("student", leaving), ("family", gone)):
        connection.executemany(f"DELETE FROM {table} WHERE id = ?", [(each,) for each in ids])  # noqa: S608 names of ours


def _naming(
    connection: sqlite3.Connection, gone: Collection[FamilyId], leaving: Collection[Cell], words: Iterable[str]
) -> tuple[NamingPaper, ...]:
    """Finds the papers to many for other families that name those who leave: programs of recitals they play in, and texts with one of the words."""
    if not has_table(connection, "guardian"):  # of a form in which nothing went to many yet
        return ()
    played, shown = _played(connection, leaving)
    told = {*words, *_words_there(connection, gone, leaving, shown)}
    query = f"SELECT id, about, paper, fate, title, text FROM outgoing WHERE paper IN {LISTED} AND text <> ''"  # noqa: S608 names of ours
    theirs = _ids(connection, "outgoing", "family_id", gone)
    return tuple(
        NamingPaper(id=OutgoingId(number), about=about, is_open=fate not in {"sent", "withdrawn"})
        for number, about, paper, fate, title, text in connection.execute(query, (listed(_TO_MANY),))
        if number not in theirs
        and ((paper == Paper.PROGRAM and about.startswith(played)) or is_named(told, f"{title}\n{text}"))
    )


def _played(connection: sqlite3.Connection, students: Collection[Cell]) -> tuple[tuple[str, ...], frozenset[str]]:
    """Finds the recitals in which students play: how the papers of each begin, and how the students are shown in them."""
    if not has_table(connection, "recital_item"):
        return (), frozenset()
    query = f"SELECT recital_id, shown_as FROM recital_item WHERE student_id IN {LISTED}"  # noqa: S608 names of ours
    rows = connection.execute(query, (listed(students),)).fetchall()
    return tuple(papers_of(number) for number, _ in rows), frozenset(name_key(shown) for _, shown in rows if shown)


def _words_there(
    connection: sqlite3.Connection, gone: Collection[FamilyId], leaving: Collection[Cell], shown: Iterable[str]
) -> set[str]:
    """Collects the names and addresses of those who leave from a database, which may be an old one. Names that others have too are left out."""
    families, students = _people(connection)
    guardians = [
        Guardian(id=GuardianId(number), family_id=FamilyId(home), name=name, email=email, phone=phone)
        for number, home, name, email, phone in connection.execute(
            "SELECT id, family_id, name, email, phone FROM guardian"
        )
    ]
    theirs, others = (
        words_of(
            (each for each in families if (each.id in gone) is is_theirs),
            (each for each in students if (each.id in leaving) is is_theirs),
            (each for each in guardians if (each.family_id in gone) is is_theirs),
        )
        for is_theirs in (True, False)
    )
    return {*theirs, *shown} - {*others}


def _empty(connection: sqlite3.Connection, papers: Iterable[NamingPaper]) -> None:
    """Deletes the words of papers. The record that they were sent stays; what was not sent is withdrawn."""
    query = """UPDATE outgoing SET title = '', text = '', page = '', next_lesson = NULL, reason = ?,
        settled_at = coalesce(settled_at, queued_at), fate = iif(fate = 'sent', fate, 'withdrawn') WHERE id = ?"""
    for each in papers:  # where there are none there may be no such table
        connection.execute(query, (EMPTIED, each.id))


def _fill(connection: sqlite3.Connection, old: sqlite3.Connection) -> None:
    """Gives papers their words back out of an older database."""
    empty = [number for (number,) in connection.execute("SELECT id FROM outgoing WHERE text = ''")]
    names = ("title", "text", "page", "next_lesson", "reason", "settled_at", "fate")
    query = f"SELECT {', '.join(names)}, id FROM outgoing WHERE id IN {LISTED} AND text <> ''"  # noqa: S608 names of ours
    rows = [tuple(row) for row in old.execute(query, (listed(empty),))]
    connection.executemany(f"UPDATE outgoing SET {', '.join(f'{name} = ?' for name in names)} WHERE id = ?", rows)  # noqa: S608 names of ours


def _delete_inquiries(connection: sqlite3.Connection, gone: Iterable[FamilyId], leaving: set[Cell]) -> None:
    if not has_table(connection, "inquiry"):
        return
    theirs = table_of(Inquiry).of_family if has_table(connection, "guardian") else _BY_ADDRESSES_OF_FAMILY
    of_family = f"DELETE FROM inquiry WHERE {theirs}"  # noqa: S608 names of ours
    connection.executemany(of_family, [{"family_id": each} for each in gone])
    connection.execute(f"DELETE FROM inquiry WHERE student_id IN {LISTED}", (listed(leaving),))  # noqa: S608 names of ours


def _delete_titles(connection: sqlite3.Connection, leaving: set[Cell]) -> None:
    if not has_table(connection, "calendar_title"):
        return
    names: dict[bool, set[str]] = {True: set(), False: set()}
    for number, name in connection.execute("SELECT id, name FROM student"):
        names[number in leaving].add(name)
    titles = dict(connection.execute("SELECT title, name FROM calendar_title").fetchall())
    theirs = titles_of(titles, names[True], names[False])
    connection.executemany("DELETE FROM calendar_title WHERE title = ?", [(title,) for title in theirs])


def _delete_accepted(connection: sqlite3.Connection, leaving: set[Cell]) -> None:
    if not has_table(connection, "accepted"):
        return
    theirs = [
        str(each) for table in ("standing_time", "lesson") for each in _ids(connection, table, "student_id", leaving)
    ]
    keys = accepted_of((key for (key,) in connection.execute("SELECT key FROM accepted")), theirs)
    connection.executemany("DELETE FROM accepted WHERE key = ?", [(key,) for key in keys])


def _ids(connection: sqlite3.Connection, table: str, column: str, values: Collection[Cell]) -> set[Cell]:
    query = f"SELECT id FROM {table} WHERE {column} IN {LISTED}"  # noqa: S608 names of ours
    return {row[0] for row in connection.execute(query, (listed(values),))}
