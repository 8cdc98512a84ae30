"""An open studio: its reads, its writes, and the thread that keeps them."""

import sqlite3
from dataclasses import dataclass
from pathlib import Path
from typing import IO

from cockpit.store.faults import damaged, told
from cockpit.store.keeper import Keeper
from cockpit.store.opening import NAME, FolderReadOnly, open_to_read, open_to_write, take_lock
from cockpit.store.reading import Reading
from cockpit.store.writing import Writing
from cockpit.studio.clocks.home import zone_named
from cockpit.studio.errors import StudioDamaged


@dataclass(slots=True, kw_only=True)
class OpenStudio:
    """A studio's database. `writing` is None where this program may only read; `why_read_only` says why.

    `loss` is a sentence where words may be missing, since the program ended suddenly the last time.
    """

    folder: Path
    reading: Reading
    writing: Writing | None
    why_read_only: str | None
    connection: sqlite3.Connection
    keeper: Keeper | None = None
    lock: IO[str] | None = None
    loss: str | None = None

    def version(self) -> int:
        """A number that changes when another program has written to the database."""
        return int(self.connection.execute("PRAGMA data_version").fetchone()[0])

    def wait_for_others(self, seconds: float) -> None:
        """Sets how long a write waits for another program that holds the database."""
        self.connection.execute(f"PRAGMA busy_timeout = {round(seconds * 1000)}")

    def check(self) -> None:
        """Looks whether the records are whole and belong together.

        Raises:
            StudioDamaged: they are not.
        """
        path = self.folder / NAME
        with told(path):
            answer = self.connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
            is_torn = self.connection.execute("PRAGMA foreign_key_check").fetchone() is not None
            zones = self.connection.execute("SELECT DISTINCT zone FROM family").fetchall()
        if answer != "ok" or is_torn:
            raise StudioDamaged(damaged(path, answer if answer != "ok" else "records that belong together do not"))
        for (zone,) in zones:
            try:
                zone_named(zone)
            except (LookupError, ValueError, OSError) as fault:
                raise StudioDamaged(damaged(path, "a family's time zone is none")) from fault

    def close(self) -> None:
        """Brings everything to the disk and lets go of the folder."""
        if self.keeper is not None:
            self.keeper.stop()
        self.connection.close()
        if self.lock is not None:
            self.lock.close()


def open_studio(folder: Path) -> OpenStudio:
    """Opens a studio to write, or to read where another cockpit has it open or the folder is read-only.

    Raises:
        StudioDamaged, StudioTooNew, NotSaved, NotFound.
    """
    try:
        lock = take_lock(folder)
    except FolderReadOnly as fault:
        return open_studio_to_read(folder, str(fault))
    if lock is None:
        return open_studio_to_read(folder, "Another cockpit has this studio open: this one only shows it.")
    try:
        connection, loss = open_to_write(folder)
    except BaseException:
        lock.close()
        raise
    path = folder / NAME
    keeper = Keeper(path)
    return OpenStudio(
        folder=folder,
        reading=Reading(connection, path),
        writing=Writing(connection, path, keeper.note_write),
        why_read_only=None,
        connection=connection,
        keeper=keeper,
        lock=lock,
        loss=loss,
    )


def open_studio_to_read(folder: Path, why: str) -> OpenStudio:
    """Opens a studio that this program may only read.

    Raises:
        StudioDamaged, StudioTooNew, NotFound.
    """
    connection = open_to_read(folder)
    return OpenStudio(
        folder=folder,
        reading=Reading(connection, folder / NAME),
        writing=None,
        why_read_only=why,
        connection=connection,
    )
