"""Questions to the database, whose faults are told as sentences."""

import json
import sqlite3
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TypeVar

from cockpit.store.faults import damaged, told
from cockpit.store.rows import Cell
from cockpit.studio.errors import StudioDamaged
from cockpit.studio.lessons.lesson import LessonId

T = TypeVar("T")


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

    def made(self, make: Callable[[sqlite3.Row], T], asked: str, values: tuple[Cell, ...] = ()) -> tuple[T, ...]:
        """The records that `make` makes of the rows of an answer.

        Raises:
            StudioDamaged: also where a row holds what was never put there, such as a date with a letter in it.
        """
        found = self.all(asked, values)
        try:
            return tuple(map(make, found))
        except (ValueError, TypeError, LookupError, OverflowError) as fault:
            raise StudioDamaged(damaged(self._path, "a row holds what was never put there")) from fault

    def only(self, make: Callable[[sqlite3.Row], T], asked: str) -> T:
        """The record of a table that always has one row."""
        for record in self.made(make, asked):
            return record
        raise StudioDamaged(damaged(self._path, "a row is missing"))

    def of_lessons(self, make: Callable[[sqlite3.Row], T], table: str, ids: Iterable[LessonId]) -> tuple[T, ...]:
        """The records of a table that hang on lessons."""
        asked = f"SELECT * FROM {table} WHERE lesson_id IN {LISTED}"  # noqa: S608 a table of ours
        return self.made(make, asked, (listed(ids),))


LISTED = "(SELECT value FROM json_each(?))"
"""The place in a question for values that are `listed`: SQLite takes no more than 32,766 single ones."""


def listed(values: Iterable[Cell]) -> str:
    """Any number of values as the one value that `LISTED` takes."""
    return json.dumps(list(values))


def question_marks(count: int) -> str:
    """As many places for values as a row has."""
    return ",".join("?" * count)
