"""A thread that brings committed words from the system's memory to the disk, so that no key ever waits for it."""

import contextlib
import os
import sqlite3
import threading
from pathlib import Path

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
