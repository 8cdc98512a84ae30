"""A copy of the database at the first opening of each day, and the way back to it."""

import contextlib
import os
import sqlite3
from datetime import date
from pathlib import Path

from cockpit.store.opening import NAME
from cockpit.studio.errors import NotFound, StudioDamaged

KEPT = 14


def back_up(folder: Path, on: date) -> Path | None:
    """Copies the database to backups/ unless that was done today, and keeps the last 14; the path of a new copy.

    The copy is checked before it counts, so that a damaged database never pushes out a good backup.

    Raises:
        StudioDamaged: the database cannot be copied, or its copy does not pass SQLite's check.
    """
    backups = folder / "backups"
    target = backups / f"studio-{on.isoformat()}.db"
    if target.exists() or not (folder / NAME).exists():
        return None
    backups.mkdir(exist_ok=True, mode=0o700)
    fresh = target.with_suffix(".new")
    fresh.unlink(missing_ok=True)
    try:
        _copy(folder / NAME, fresh)
    except sqlite3.DatabaseError as fault:
        fresh.unlink(missing_ok=True)
        raise StudioDamaged(
            f"{folder / NAME} could not be backed up ({fault}); the earlier backups are kept."
        ) from fault
    fresh.chmod(0o600)
    fresh.replace(target)
    for old in sorted(backups.glob("studio-*.db"))[:-KEPT]:
        old.unlink()
    return target


def restore(folder: Path, stamp: str) -> tuple[Path, Path | None]:
    """Puts the last backup in the database's place; the database is kept beside it under a name with `stamp`.

    Returns the backup that is now in use, and where the old database lies (None if there was none).

    Raises:
        NotFound: there is no backup.
    """
    backups = sorted((folder / "backups").glob("studio-*.db"))
    if not backups:
        raise NotFound(f"There is no backup in {folder / 'backups'}.")
    fresh = folder / f"{NAME}.new"
    fresh.unlink(missing_ok=True)
    _copy(backups[-1], fresh)
    _doubt_what_waited(fresh)
    kept = None
    for name in (NAME, f"{NAME}-wal", f"{NAME}-shm"):
        if (folder / name).exists():
            aside = folder / f"{name}.set-aside-{stamp}"
            (folder / name).rename(aside)
            kept = kept or aside
    fresh.chmod(0o600)
    fresh.replace(folder / NAME)
    return backups[-1], kept


def _doubt_what_waited(database: Path) -> None:
    """What waited when the backup was made may have gone since: nobody knows, and the outbox asks."""
    asked = """UPDATE outgoing SET fate = 'unsure', reason = 'the studio went on from a backup'
        WHERE way = 'mail' AND fate IN ('waiting', 'going')"""
    with contextlib.closing(sqlite3.connect(database)) as connection, connection:
        if connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'outgoing'").fetchone():
            connection.execute(asked)


def _copy(source: Path, target: Path) -> None:
    with (
        contextlib.closing(sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)) as origin,
        contextlib.closing(sqlite3.connect(target)) as copy,
    ):
        origin.backup(copy)
        answer = copy.execute("PRAGMA quick_check(1)").fetchone()[0]
        if answer != "ok":
            raise sqlite3.DatabaseError(answer)
    file = os.open(target, os.O_RDONLY)
    try:
        os.fsync(file)
    finally:
        os.close(file)
