"""Keeps unsaved notes in files: in the studio folder, or else in the system's temporary folder."""

import contextlib
import os
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

from cockpit.studio.errors import BadInput, CockpitError, NotSaved
from cockpit.studio.lessons.unsaved import KeptNotes, UnsavedNotes, kept_text, read_kept

_BEGINS, _ENDS = "unsaved-notes-", ".txt"


class Rescue:
    """Keeps unsaved notes of one studio in a file that only its owner can read, and finds such files again.

    `check_place` raises if the studio folder is not the one that was opened: then no file is put there.
    """

    def __init__(self, folder: Path, studio: str, check_place: Callable[[], None]) -> None:
        self._folder = folder
        self._studio = studio
        self._check_place = check_place
        self._lock = threading.Lock()  # the end of the program comes from two threads
        self._kept: UnsavedNotes | None = None
        self.path: Path | None = None

    def place(self) -> str:
        """Names the folder that is tried first, for a sentence."""
        first = self._places()[0]
        return "the studio folder" if first == self._folder else f"the folder {first}"

    def keep(self, notes: UnsavedNotes) -> Path:
        """Writes notes into a file, on the disk when this returns; the same notes are written once.

        Raises:
            NotSaved: no place took them.
        """
        with self._lock:
            if self.path is not None and notes == self._kept:
                return self.path
            text = kept_text(KeptNotes(notes=notes, studio=self._studio, folder=str(self._folder)))
            faults = []
            for place in self._places():
                try:
                    fresh = _written(place, text.encode(errors="replace"))
                except OSError as fault:
                    faults.append(f"{place} ({fault.strerror})")
                    continue
                self._remove()
                self._kept, self.path = notes, fresh
                return fresh
            raise NotSaved(
                f"The notes for {notes.student} are not saved and could not be written to {' or '.join(faults)}. "
                "Free some space, or copy the notes from the screen."
            )

    def drop(self) -> None:
        """Deletes the file of this session: its notes are in the database."""
        with self._lock:
            self._remove()

    def settle(self, path: Path) -> None:
        """Deletes a file whose notes are in their lesson; one that nobody may delete is emptied, and holds none any more.

        Raises:
            OSError: it can be neither deleted nor emptied.
        """
        try:
            path.unlink()
        except OSError:
            os.truncate(path, 0)

    def found(self) -> Iterator[tuple[Path, KeptNotes | None]]:
        """The files of this studio, the oldest first, each with its notes, or None if it cannot be read."""
        for path in sorted(self._folder.glob(f"{_BEGINS}*{_ENDS}"), key=_age):
            if _is_empty(path):
                with contextlib.suppress(OSError):
                    path.unlink()
            else:
                yield path, _read(path)
        for path in sorted(_temporary_folder().glob(f"{_BEGINS}*{_ENDS}"), key=_age):
            kept = _read(path) if _is_ours(path) else None
            if kept is not None and kept.studio == self._studio and self._was_here(Path(kept.folder)):
                yield path, kept

    def _was_here(self, folder: Path) -> bool:
        """Whether notes of a folder belong here: it is this folder, or this folder's earlier name. A copy gets no notes."""
        return folder == self._folder or not folder.exists()

    def _places(self) -> list[Path]:
        temporary = _temporary_folder()
        try:
            self._check_place()
        except CockpitError:
            return [temporary]
        return [self._folder, temporary] if os.access(self._folder, os.W_OK) else [temporary]

    def _remove(self) -> None:
        if self.path is not None:
            with contextlib.suppress(OSError):
                self.path.unlink()
        self._kept = self.path = None


def _temporary_folder() -> Path:
    try:
        return Path(tempfile.gettempdir())
    except FileNotFoundError:  # it tries each with a small file, and no disk takes any now
        return Path("/tmp")  # noqa: S108 where a file may be found, or an attempt says why there is none


def _written(place: Path, content: bytes) -> Path:
    handle, name = tempfile.mkstemp(prefix=_BEGINS, suffix=_ENDS, dir=place)  # mode 0600 from the first byte on
    path = Path(name)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    except OSError:
        with contextlib.suppress(OSError):
            path.unlink()
        raise
    return path


def _is_ours(path: Path) -> bool:
    """Whether a file in a place that others write to is the teacher's own."""
    try:
        return path.lstat().st_uid == os.getuid() and not path.is_symlink()
    except OSError:
        return False


def _is_empty(path: Path) -> bool:
    """Whether a file has no notes: it was emptied, or what was to write it was killed before a word was in it."""
    try:
        return path.lstat().st_size == 0
    except OSError:
        return False


def _age(path: Path) -> float:
    try:
        return path.lstat().st_mtime
    except OSError:
        return 0.0


def _read(path: Path) -> KeptNotes | None:
    try:
        with path.open(encoding="utf-8", newline="") as file:
            return read_kept(file.read())
    except (OSError, UnicodeDecodeError, BadInput):
        return None
