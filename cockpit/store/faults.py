"""SQLite's errors as sentences that the teacher can act on."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from cockpit.studio.errors import CockpitError, NotSaved, StudioBusy, StudioDamaged

_NO_TEXT = "it holds bytes that are not text"
# What the system refused; everything else that SQLite cannot do with statements of ours is damage.
_REFUSED = frozenset(
    f"SQLITE_{kind}"
    for kind in ("IOERR", "CANTOPEN", "PERM", "NOMEM", "NOLFS", "AUTH", "TOOBIG", "PROTOCOL", "INTERRUPT")
)


@contextmanager
def translated_errors(path: Path) -> Iterator[None]:
    """Turns an error of SQLite about the database at `path` into one of ours.

    Raises:
        StudioDamaged: the file is not, or no longer, a database.
        StudioBusy: another program holds it.
        NotSaved: the disk refused.
    """
    try:
        yield
    except sqlite3.IntegrityError:
        raise
    except sqlite3.DatabaseError as fault:
        raise sentence(fault, path) from fault
    except UnicodeDecodeError as fault:  # a message of SQLite's that repeats damaged bytes
        raise StudioDamaged(damaged(path, _NO_TEXT)) from fault


def sentence(fault: sqlite3.DatabaseError, path: Path) -> CockpitError:
    """The error of ours that says what SQLite's means."""
    # Python 3.11 gives the code only where SQLite raised it.
    code = getattr(fault, "sqlite_errorname", "")
    kind = "_".join(code.split("_")[:2])
    if kind in {"SQLITE_BUSY", "SQLITE_LOCKED"}:
        return StudioBusy(f"Nothing can be saved while another program is using {path}. Close that program.")
    if kind == "SQLITE_FULL":
        return NotSaved(
            "Not saved. The disk is full. Free some space. Your words stay on the screen and are saved as soon as there is room."
        )
    if kind == "SQLITE_READONLY":
        return NotSaved(f"Not saved. {path} is read-only. Make the folder writable. Your words stay on the screen.")
    if kind in _REFUSED or isinstance(fault, sqlite3.ProgrammingError):  # such as a connection that is closed
        return NotSaved(
            f"Not saved. {path} could not be written ({fault}). Your words stay on the screen, and the cockpit keeps trying."
        )
    # SQLite repeats the text that it cannot decode, which can be anybody's notes.
    is_text = str(fault).startswith("Could not decode")
    return StudioDamaged(damaged(path, _NO_TEXT if is_text else str(fault)))


def moved(path: Path) -> NotSaved:
    """The error for a database that is no longer the file that was opened."""
    what = (
        f"{path} was deleted, or another file took its place"
        if path.parent.is_dir()
        else f"The studio folder {path.parent} was renamed, moved, or deleted"
    )
    return NotSaved(f"Not saved. {what}. Put it back. Your words stay on the screen.")


def damaged(path: Path, why: str) -> str:
    """What to say of a damaged database: which file, and the way back to the last backup."""
    from cockpit.store.backups import last_whole_backup  # when something is damaged

    backup = last_whole_backup(path.parent)
    if backup is None:
        return f"{path} is damaged ({why}), and there is no backup. The file was not changed."
    return (
        f"{path} is damaged ({why}) and was not changed. The last backup is {backup.path}. "
        f"To restore it: cockpit restore --folder {path.parent}"
    )
