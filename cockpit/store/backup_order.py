"""Which backup is the last one: by a number in it, since the date in its name is that of a clock that can be wrong."""

import contextlib
import sqlite3
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

_TABLE = "CREATE TABLE backup (number INTEGER NOT NULL, made_at TEXT NOT NULL) STRICT"


@dataclass(frozen=True, slots=True, kw_only=True)
class Backup:
    """A backup that can be read.

    `number` counts the backups in the order in which they were made; it is 0 where an earlier version of the program
    made it. `records` grows with what is recorded, and orders those. `made_at` is on the teacher's clock, without a zone.
    """

    path: Path
    number: int
    records: int
    made_at: datetime | None
    lessons: int


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


def write_number(copy: sqlite3.Connection, number: int, made_at: datetime) -> None:
    """Writes into a fresh copy which backup it is."""
    forget_number(copy)
    copy.execute(_TABLE)
    copy.execute("INSERT INTO backup VALUES (?, ?)", (number, made_at.replace(tzinfo=None).isoformat()))


def forget_number(database: sqlite3.Connection) -> None:
    """Removes the backup number from a copy that is the studio again."""
    database.execute("DROP TABLE IF EXISTS backup")


def _read(path: Path) -> Backup | None:
    # Whatever is raised here, it is no backup that anybody could go on with.
    with contextlib.suppress(sqlite3.Error, ValueError, TypeError, OSError), _opened(path) as connection:
        ((lessons,),) = connection.execute("SELECT count(*) FROM lesson").fetchall()
        ((records,),) = connection.execute("SELECT last FROM numbering").fetchall()
        number, made_at = 0, None
        if connection.execute("SELECT 1 FROM sqlite_master WHERE name = 'backup'").fetchone():
            ((number, text),) = connection.execute("SELECT number, made_at FROM backup").fetchall()
            made_at = datetime.fromisoformat(text)
        return Backup(path=path, number=number, records=records, made_at=made_at, lessons=lessons)
    return None


def _opened(path: Path) -> "contextlib.closing[sqlite3.Connection]":
    # Nobody writes to a backup: it is read alone, also where the folder can only be read.
    return contextlib.closing(sqlite3.connect(f"{path.absolute().as_uri()}?immutable=1", uri=True))
