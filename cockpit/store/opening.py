"""Opening a studio folder's database: who may write, which version it has, and whether it can be read at all."""

import contextlib
import fcntl
import os
import sqlite3
from pathlib import Path
from typing import IO

from cockpit.store.faults import damaged, translated_errors
from cockpit.store.schema import NAME, VERSION, migrate, version_of
from cockpit.store.write_ahead_log import keep_if_damaged
from cockpit.studio.errors import NotFound, NotSaved, StudioDamaged, StudioTooNew

_NO_FORM = 1000  # far above any form there will be


class FolderReadOnly(NotSaved):
    """The disk or the system lets nobody write in a studio folder."""

    def __init__(self, folder: Path, fault: OSError) -> None:
        super().__init__(f"{folder} is read-only ({fault.strerror}). Nothing you do here is saved.")


def open_to_write(folder: Path) -> tuple[sqlite3.Connection, str | None]:
    """The database of a folder, made or brought up to date where needed; and a sentence if words may be missing.

    Raises:
        StudioDamaged, StudioBusy, StudioTooNew, NotSaved.
    """
    path = folder / NAME
    with translated_errors(path), contextlib.ExitStack() as failed:
        connection = failed.enter_context(contextlib.closing(sqlite3.connect(path, isolation_level=None, timeout=2.0)))
        _prepare(connection)
        version = version_of(connection)
        _refuse_newer(version, path)
        loss = keep_if_damaged(path, connection)
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA synchronous = NORMAL")
        # No fsync may run on the screen's thread: the keeper's thread does the checkpoints.
        connection.execute("PRAGMA wal_autocheckpoint = 0")
        # A forgotten family's words must not stay behind in free pages.
        connection.execute("PRAGMA secure_delete = ON")
        if version < VERSION:
            migrate(connection)
        failed.pop_all()
    return connection, loss


def open_to_read(folder: Path) -> sqlite3.Connection:
    """The database of a folder, which nothing done through this connection can change.

    Raises:
        NotFound: there is no studio in the folder.
        StudioDamaged, StudioTooNew.
    """
    path = folder / NAME
    if not path.exists():
        raise NotFound(f"There is no studio in {folder} yet.")
    with translated_errors(path), contextlib.ExitStack() as failed:
        connection = failed.enter_context(contextlib.closing(_reading(path, "mode=ro")))
        try:
            version = version_of(connection)
        except sqlite3.OperationalError:
            # A read-only folder has no room for SQLite's shared memory: read the file alone.
            connection.close()
            connection = failed.enter_context(contextlib.closing(_reading(path, "immutable=1")))
            version = version_of(connection)
        _prepare(connection)
        _refuse_newer(version, path)
        if 0 < version < VERSION:
            return _brought_up_to_date(connection)
        failed.pop_all()
    return connection


def _reading(path: Path, how: str) -> sqlite3.Connection:
    return sqlite3.connect(f"{path.absolute().as_uri()}?{how}", uri=True, isolation_level=None)


def _brought_up_to_date(connection: sqlite3.Connection) -> sqlite3.Connection:
    """A copy in memory in our form, of a file that an earlier version made and that is only to be read."""
    with contextlib.ExitStack() as failed:
        copy = failed.enter_context(contextlib.closing(sqlite3.connect(":memory:", isolation_level=None)))
        connection.backup(copy)
        _prepare(copy)
        migrate(copy)
        failed.pop_all()
    return copy


def take_lock(folder: Path) -> IO[str] | None:
    """The one permission to write in a folder, held while the file is open; None where another cockpit has it.

    Raises:
        FolderReadOnly: nobody can have it, since no file can be made or locked there.
    """
    try:
        lock = (folder / "studio.lock").open("a")  # whatever it may be a link to is not emptied
    except OSError as fault:
        raise FolderReadOnly(folder, fault) from fault
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        lock.close()
        return None
    except OSError as fault:
        lock.close()
        raise FolderReadOnly(folder, fault) from fault
    return lock


def make_private(folder: Path) -> None:
    """Makes the folder if need be, readable by its owner alone; and every file made from now on.

    A folder that she reaches by a link of her own is as she has made it.
    """
    os.umask(0o077)
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    if folder.is_symlink():
        return
    with contextlib.suppress(OSError):  # on a disk without modes, or one that is not hers, it stays as it is
        folder.chmod(0o700)


def _prepare(connection: sqlite3.Connection) -> None:
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")


def _refuse_newer(version: int, path: Path) -> None:
    if not 0 <= version < _NO_FORM:
        raise StudioDamaged(damaged(path, f"format {version} does not exist"))
    if version > VERSION:
        raise StudioTooNew(
            f"{path} was made by a newer version of the cockpit (format {version}; this version reads format {VERSION}). "
            "Nothing was changed. Install the newer version."
        )
