"""Every row that a step of the teacher can change, to see that undo leaves nothing behind."""

import contextlib
import sqlite3
from pathlib import Path

# A lesson is written down before the first thing happens to it, and stays so after undo: it says what its rule says.
_AS_PLANNED = """kind = 'weekly' AND outcome IS NULL AND NOT is_moved AND reason IS NULL AND began_at IS NULL
    AND finished_at IS NULL AND more_minutes = 0 AND NOT gives_full_length AND NOT is_let_go"""
_NOT_UNDONE = ("numbering", "studio_calendar", "withdrawn_lesson", "withdrawn_time", "withdrawn_clock")


def everything(folder: Path) -> dict[str, list[str]]:
    """The rows of a studio, by table; without weekly lessons that are as their weekly times have them."""
    found: dict[str, list[str]] = {}
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        names = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE '%sqlite%'")
        for (name,) in names.fetchall():
            if name not in _NOT_UNDONE:
                where = f" WHERE NOT ({_AS_PLANNED})" if name == "lesson" else ""
                found[name] = sorted(map(repr, connection.execute(f"SELECT * FROM {name}{where}")))
    return found
