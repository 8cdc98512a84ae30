"""An open studio: its reads, its writes, and the thread that brings committed words to the disk, so that no key waits for it."""

import contextlib
import os
import sqlite3
import threading
from collections.abc import Callable
from pathlib import Path
from typing import IO

from cockpit.store.faults import damaged, translated_errors
from cockpit.store.opening import FolderReadOnly, open_to_read, open_to_write, take_lock
from cockpit.store.reading import SqliteReading
from cockpit.store.schema import NAME
from cockpit.store.writing import SqliteWriting
from cockpit.studio.clocks.home import zone_named
from cockpit.studio.clocks.moves import clock_in, zones_of
from cockpit.studio.errors import StudioDamaged
from cockpit.studio.values import Value, field

_PERIOD = 0.8  # seconds: with the time of a sync, a word is on the disk within a second
_ENOUGH = 4 * 1024 * 1024  # bytes of write-ahead log, from which it is worked into the database


class Keeper:
    """Syncs the write-ahead log once a period while something was written, and keeps it from growing."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._log = path.with_name(path.name + "-wal")
        self._written = threading.Event()
        self._stopped = threading.Event()
        self._thread = threading.Thread(target=self._run, name="keeper", daemon=True)
        self._thread.start()

    def note_write(self) -> None:
        """Says that there is something to sync."""
        self._written.set()

    def stop(self) -> None:
        """Syncs once more and ends the thread."""
        self._stopped.set()
        self._written.set()
        self._thread.join(timeout=5)

    def _run(self) -> None:
        while not self._stopped.is_set():
            self._written.wait()
            self._stopped.wait(_PERIOD)
            self._written.clear()
            with contextlib.suppress(OSError, sqlite3.Error):
                self._sync()

    def _sync(self) -> None:
        if not self._log.exists():
            return
        file = os.open(self._log, os.O_RDONLY)
        try:
            os.fsync(file)
            size = os.fstat(file).st_size
        finally:
            os.close(file)
        if size >= _ENOUGH:
            connection = sqlite3.connect(self._path, timeout=0.1)
            with contextlib.closing(connection):
                connection.execute("PRAGMA wal_checkpoint(PASSIVE)")


class OpenStudio(Value):
    """A studio's database. `writing` is None where this program may only read; `why_read_only` says why.

    `loss` is a sentence where words may be missing, since the program ended suddenly the last time.
    """

    folder: Path
    reading: SqliteReading
    writing: SqliteWriting | None
    why_read_only: str | None
    connection: sqlite3.Connection
    keeper: Keeper | None = None
    lock: IO[str] | None = None
    loss: str | None = None
    _closings: list[Callable[[], None]] = field(default_factory=list[Callable[[], None]])

    def at_close(self, close: Callable[[], None]) -> None:
        """Has something be closed before the database is; what came last goes first."""
        self._closings.insert(0, close)

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
        with translated_errors(path):
            answer = self.connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
            is_torn = self.connection.execute("PRAGMA foreign_key_check").fetchone() is not None
            zones = self.connection.execute("SELECT DISTINCT zone FROM family").fetchall()
        if answer != "ok" or is_torn:
            raise StudioDamaged(damaged(path, answer if answer != "ok" else "records do not match each other"))
        for (clock,) in zones:
            try:
                for zone in zones_of(clock_in(clock)):
                    zone_named(zone)
            except (LookupError, ValueError, OSError) as fault:
                raise StudioDamaged(damaged(path, "a family's time zone does not exist")) from fault

    def close(self) -> None:
        """Brings everything to the disk and lets go of the folder."""
        for close in self._closings:
            close()
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
        return open_studio_to_read(folder, "This studio is open in another cockpit. This cockpit is read-only.")
    try:
        connection, loss = open_to_write(folder)
    except BaseException:
        lock.close()
        raise
    path = folder / NAME
    keeper = Keeper(path)
    return OpenStudio(
        folder=folder,
        reading=SqliteReading(connection, path),
        writing=SqliteWriting(connection, path, keeper.note_write),
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
        reading=SqliteReading(connection, folder / NAME),
        writing=None,
        why_read_only=why,
        connection=connection,
    )
