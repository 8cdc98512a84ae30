"""Questions to the database, whose faults are told as sentences."""

import sqlite3
from collections.abc import Iterable
from pathlib import Path

from cockpit.store.faults import told
from cockpit.store.rows import Cell
from cockpit.studio.lesson import LessonId


class Asking:
    """Asks one database."""

    def __init__(self, connection: sqlite3.Connection, path: Path) -> None:
        self._connection = connection
        self._path = path

    def all(self, asked: str, values: tuple[Cell, ...] = ()) -> list[sqlite3.Row]:
        """Every row of an answer.

        Raises:
            StudioDamaged: the file is no longer a database.
        """
        with told(self._path):
            return self._connection.execute(asked, values).fetchall()

    def one(self, asked: str, values: tuple[Cell, ...] = ()) -> sqlite3.Row | None:
        """The first row of an answer, if it has one."""
        return next(iter(self.all(asked, values)), None)

    def of_lessons(self, table: str, ids: Iterable[LessonId]) -> list[sqlite3.Row]:
        """The rows of a table that hang on lessons."""
        wanted = tuple(ids)
        asked = f"SELECT * FROM {table} WHERE lesson_id IN ({question_marks(len(wanted))})"  # noqa: S608 a table of ours
        return self.all(asked, wanted)


def question_marks(count: int) -> str:
    """As many places for values as asked for."""
    return ",".join("?" * count)
