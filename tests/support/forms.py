"""Databases of every form of the schema, gone through step by step once in a process, and copied from then on.

All steps take 50 ms, and more than a thousand tests begin a studio.
"""

import functools
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from sqlite_utils import Database

from cockpit.store import opening
from cockpit.store.schema import VERSION, migrate, migrations, version_of

CALENDARS = 2
"""The version from which on each studio has a number of its own, which its steps draw."""


def write_form(connection: sqlite3.Connection, form: int) -> None:
    """Makes an empty database one of a form, with no row of hers in it, and a calendar that is no other studio's."""
    _of_form(form).backup(connection)
    if form >= CALENDARS:
        connection.execute("UPDATE studio_calendar SET uid = lower(hex(randomblob(16)))")


@functools.cache
def _of_form(form: int) -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
    if form > 1:
        write_form(connection, form - 1)
    after = f"m{form + 1:03d}" if form < VERSION else None
    migrations().apply(Database(connection, execute_plugins=False), stop_before=after)
    return connection


@contextmanager
def begun_by_copy() -> Iterator[None]:
    """Has the program begin its new databases so; one that an earlier version left goes through its steps."""

    def begin(connection: sqlite3.Connection) -> None:
        if version_of(connection) == 0:
            write_form(connection, VERSION)
        else:
            migrate(connection)

    opening.migrate = begin
    try:
        yield
    finally:
        opening.migrate = migrate
