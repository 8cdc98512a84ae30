"""What is in a studio folder, so that two moments of it can be compared and words be searched for."""

import contextlib
import sqlite3
from pathlib import Path

Snapshot = dict[str, object]
_LIVE = ("studio.db", "studio.db-wal", "studio.db-shm", "studio.lock")
_MADE_AGAIN = ("index.db", "index.db-wal", "index.db-shm")


def files_holding(folder: Path, words: tuple[str, ...]) -> dict[str, list[str]]:
    """Every file below a folder, hidden ones too, that has one of the words in its bytes or in its name."""
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_file():
            whole = path.read_bytes() + str(path.relative_to(folder)).encode()
            held = [word for word in words if word.encode() in whole]
            if held:
                found[path.relative_to(folder).as_posix()] = held
    return found


def snapshot(folder: Path) -> Snapshot:
    """The bytes and the mode of every file, and of the database the rows.

    The number that counts changes of the calendar is left out, for it never goes back, and the index of notes, for it is
    made again.
    """
    files: Snapshot = {
        path.relative_to(folder).as_posix(): (path.read_bytes(), path.stat().st_mode)
        for path in folder.rglob("*")
        if path.is_file() and path.name not in (*_LIVE, *_MADE_AGAIN)
    }
    return {**files, "studio.db": rows_of(folder / "studio.db")}


def rows_of(database: Path) -> dict[str, list[tuple[object, ...]]]:
    """All rows of a database by table, in an order of their own."""
    with contextlib.closing(sqlite3.connect(f"file:{database}?mode=ro", uri=True)) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
        tables = [name for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'table'")]
        return {
            table: sorted(connection.execute(f"SELECT * FROM {table}").fetchall(), key=repr)
            for table in tables
            if table != "studio_calendar"
        }
