"""A copy of the database at the first opening of each day, and the way back to the last one.

Which one is the last is told by a number in it, since the date in its name is that of a clock that can be wrong.
"""

import contextlib
import os
import sqlite3
from datetime import datetime
from itertools import chain, count
from pathlib import Path

from cockpit.store.schema import NAME
from cockpit.store.tables import has_table
from cockpit.studio.errors import Interrupted, NotFound, NotSaved, StudioDamaged
from cockpit.studio.progress import Report, unheard
from cockpit.studio.values import Value

KEPT = 14
_PAGES = 1000  # copied at a time: 4 MB
_LOGS = ("-wal", "-shm", "-journal")
_TABLE = "CREATE TABLE backup (number INTEGER NOT NULL, made_at TEXT NOT NULL) STRICT"


class Backup(Value):
    """A backup that can be read.

    `number` counts the backups in the order in which they were made; it is 0 where an earlier version of the program
    made it. `records` grows with what is recorded, and orders those. `made_at` is on the teacher's clock, without a zone.
    """

    path: Path
    number: int
    records: int
    made_at: datetime | None
    lessons: int


class Restored(Value):
    """The backup that is in use again, where the old database lies, and the damaged backups that were passed over."""

    backup: Backup
    kept: Path | None
    passed_over: tuple[Path, ...]


def backup_files(folder: Path) -> list[Path]:
    """Every backup of a studio folder, by name, whether it can be read or not."""
    return sorted((folder / "backups").glob("studio-*.db"))


def backups_in(folder: Path) -> list[Backup]:
    """The backups of a studio folder that can be read, the last one at the end."""
    found = filter(None, map(_read, backup_files(folder)))
    return sorted(found, key=lambda each: (each.number, each.records, each.path.name))


def last_whole_backup(folder: Path) -> Backup | None:
    """The last backup that passes SQLite's check; None where there is none."""
    return next(filter(is_whole, reversed(backups_in(folder))), None)


def is_whole(backup: Backup) -> bool:
    """Whether a backup passes SQLite's check."""
    try:
        with _opened(backup.path) as connection:
            return bool(connection.execute("PRAGMA quick_check(1)").fetchone()[0] == "ok")
    except (sqlite3.Error, ValueError):
        return False


def back_up(folder: Path, at: datetime) -> Path | None:
    """Copies the database to backups/ unless that was done today, and keeps the last 14; the path of a new copy.

    `at` is now on the teacher's clock. The copy is checked before it counts, so that a damaged database never pushes out
    a good backup. It gets a number above all others: after a restore, what is made then comes after what was given up.

    Raises:
        StudioDamaged: the database cannot be copied, or its copy does not pass SQLite's check.
    """
    backups = folder / "backups"
    earlier = backups_in(folder)
    stem = f"studio-{at.date().isoformat()}"
    if (earlier and earlier[-1].path.name.startswith(stem)) or not (folder / NAME).exists():
        return None
    backups.mkdir(exist_ok=True, mode=0o700)
    unread = len(backup_files(folder)) - len(earlier)  # each may have a number above those that can be read
    number = (earlier[-1].number if earlier else 0) + unread + 1
    # The name can be taken: by one of a day on which the clock was wrong, or by one that cannot be read.
    names = chain([stem], (f"{stem}-{each}" for each in count(number)))
    target = next(path for name in names if not (path := backups / f"{name}.db").exists())
    fresh = target.with_suffix(".new")
    _drop(fresh)
    try:
        _copy(folder / NAME, fresh)
        with contextlib.closing(sqlite3.connect(fresh)) as copy, copy:
            _write_number(copy, number, at)
    except sqlite3.DatabaseError as fault:
        _drop(fresh)
        raise StudioDamaged(f"{folder / NAME} could not be backed up ({fault}). Earlier backups are kept.") from fault
    _sync(fresh)
    fresh.chmod(0o600)
    fresh.replace(target)
    _prune(folder)
    return target


def restore(folder: Path, stamp: str, report: Report = unheard) -> Restored:
    """Puts the last backup in the database's place; the database is kept beside it under a name with `stamp`.

    `report` counts the pages that are copied; nothing is changed before all of them are.

    Raises:
        NotFound: there is no backup.
        StudioDamaged: there is none that can be read.
        NotSaved: the disk refused; the database is still in its place.
    """
    files = backup_files(folder)
    if not files:
        raise NotFound(f"There is no backup in {folder / 'backups'}.")
    readable = backups_in(folder)
    passed_over = [path for path in files if path not in {backup.path for backup in readable}]
    while readable and not is_whole(readable[-1]):
        passed_over.append(readable.pop().path)
    if not readable:
        raise StudioDamaged(f"All backups in {folder / 'backups'} are damaged. Nothing was changed.")
    backup = readable[-1]
    fresh = folder / f"{NAME}.new"
    _drop(fresh)
    try:
        _copy(backup.path, fresh, report)
        _make_studio(fresh)
        _sync(fresh)
        fresh.chmod(0o600)
        kept = _exchange(folder, fresh, stamp)
    except Interrupted:
        _drop(fresh)
        raise
    except (sqlite3.DatabaseError, OSError) as fault:
        _drop(fresh)
        why = fault.strerror if isinstance(fault, OSError) else fault
        raise NotSaved(
            f"The studio could not be restored from {backup.path} ({why}). Nothing was changed. "
            "Free some disk space and try again."
        ) from fault
    return Restored(backup=backup, kept=kept, passed_over=tuple(passed_over))


def _exchange(folder: Path, fresh: Path, stamp: str) -> Path | None:
    """Sets the database aside and puts a fresh one in its place, or leaves all as it is; where the old one lies."""
    moved: list[tuple[Path, Path]] = []
    try:
        for path in (folder / NAME, folder / f"{NAME}-wal", folder / f"{NAME}-shm"):
            if path.exists():
                aside = folder / f"{path.name}.set-aside-{stamp}"
                path.rename(aside)
                moved.append((path, aside))
        fresh.replace(folder / NAME)
    except OSError:
        for path, aside in reversed(moved):
            aside.rename(path)
        raise
    return moved[0][1] if moved else None


def _make_studio(database: Path) -> None:
    """Makes a copy of a backup the studio again.

    What waited when the backup was made may have gone since: nobody knows, and the outbox asks.
    """
    query = """UPDATE outgoing SET fate = 'unsure', reason = 'the studio was restored from a backup'
        WHERE way = 'mail' AND fate IN ('waiting', 'going')"""
    with contextlib.closing(sqlite3.connect(database)) as connection, connection:
        _forget_number(connection)
        if has_table(connection, "outgoing"):
            connection.execute(query)


def _prune(folder: Path) -> None:
    """Deletes what is more than the last 14 backups; what cannot be read goes first."""
    kept = {backup.path for backup in backups_in(folder)[-KEPT:]}
    files = backup_files(folder)
    for path in sorted(files, key=lambda path: path in kept)[: max(len(files) - KEPT, 0)]:
        path.unlink()


def copy_database(folder: Path, target: Path) -> None:
    """Copies the database of a studio folder into another one, where nobody has it open.

    Raises:
        StudioDamaged: it cannot be copied.
    """
    try:
        _copy(folder / NAME, target / NAME)
    except sqlite3.DatabaseError as fault:
        raise StudioDamaged(f"{folder / NAME} could not be copied ({fault}). Nothing was changed.") from fault


def _copy(source: Path, target: Path, report: Report = unheard) -> None:
    with (
        contextlib.closing(sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)) as origin,
        contextlib.closing(sqlite3.connect(target)) as copy,
    ):
        origin.backup(copy, pages=_PAGES, progress=lambda _, left, of: report(of - left, of))
        # One file and no log beside it, which can be read alone.
        copy.execute("PRAGMA journal_mode = DELETE")
        answer = copy.execute("PRAGMA quick_check(1)").fetchone()[0]
        if answer != "ok":
            raise sqlite3.DatabaseError(answer)


def _sync(path: Path) -> None:
    file = os.open(path, os.O_RDONLY)
    try:
        os.fsync(file)
    finally:
        os.close(file)


def _drop(path: Path) -> None:
    for each in (path, *(path.with_name(path.name + log) for log in _LOGS)):
        each.unlink(missing_ok=True)


def _write_number(copy: sqlite3.Connection, number: int, made_at: datetime) -> None:
    """Writes into a fresh copy which backup it is."""
    _forget_number(copy)
    copy.execute(_TABLE)
    copy.execute("INSERT INTO backup VALUES (?, ?)", (number, made_at.replace(tzinfo=None).isoformat()))


def _forget_number(database: sqlite3.Connection) -> None:
    """Removes the backup number from a copy that is the studio again."""
    database.execute("DROP TABLE IF EXISTS backup")


def _read(path: Path) -> Backup | None:
    # Whatever is raised here, it is no backup that anybody could go on with.
    with contextlib.suppress(sqlite3.Error, ValueError, TypeError, OSError), _opened(path) as connection:
        ((lessons,),) = connection.execute("SELECT count(*) FROM lesson").fetchall()
        ((records,),) = connection.execute("SELECT last FROM numbering").fetchall()
        number, made_at = 0, None
        if has_table(connection, "backup"):
            ((number, text),) = connection.execute("SELECT number, made_at FROM backup").fetchall()
            made_at = datetime.fromisoformat(text)
        return Backup(path=path, number=number, records=records, made_at=made_at, lessons=lessons)
    return None


def _opened(path: Path) -> "contextlib.closing[sqlite3.Connection]":
    # Nobody writes to a backup: it is read alone, also where the folder can only be read.
    return contextlib.closing(sqlite3.connect(f"{path.absolute().as_uri()}?immutable=1", uri=True))
