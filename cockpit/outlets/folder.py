"""Documents into the studio folder: each is there whole, or not at all."""

import contextlib
import errno
import os
from collections.abc import Iterable
from pathlib import Path

from cockpit.studio.errors import NotSaved


def place(target: Path, content: bytes, mode: int | None = None) -> None:
    """Writes a file whole or not at all, and has it on the disk: an earlier one of that name stays until then.

    Raises:
        OSError: the disk refused.
    """
    fresh = target.with_name(f".{target.name}.new")
    try:
        # With its mode from the first byte on: names of children may be in it.
        with open(
            fresh, "wb", opener=lambda name, flags: os.open(name, flags, 0o666 if mode is None else mode)
        ) as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            fresh.chmod(mode)
        fresh.replace(target)
    except OSError:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise


class StudioFolder:
    """The folder that practice notes and reviews are put into."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._place = _place_of(root)

    def put(self, name: str, text: str) -> Path:
        """Writes a document under a name relative to the folder, and returns its path.

        Raises:
            NotSaved: the disk refused, with its reason.
        """
        try:
            return self.put_bytes(name, text.encode())
        except OSError as fault:
            target = self._root / name
            raise NotSaved(
                f"{target} could not be written ({fault.strerror}). The notes are safe in the database; "
                "mend that, then Begin reopens the lesson and Finish writes it."
            ) from fault

    def put_bytes(self, name: str, content: bytes) -> Path:
        """Writes a file under a name relative to the folder, for nobody else to read, and returns its path.

        Raises:
            OSError: the disk refused; an earlier one of that name is whole.
        """
        target = self._root / name
        # Made anew, it would hold these papers and nothing else, under the name of the studio that was moved.
        if self._place is None or _place_of(self._root) != self._place:
            raise FileNotFoundError(errno.ENOENT, "the studio folder was renamed, moved or deleted", str(self._root))
        self._make(target.parent)
        place(target, content, mode=0o600)
        return target

    def remove(self, names: Iterable[str]) -> None:
        """Deletes documents, and the folders that are empty then."""
        for name in names:
            target = self._root / name
            target.unlink(missing_ok=True)
            with contextlib.suppress(OSError):  # other documents are still in it
                target.parent.rmdir()

    def _make(self, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        while folder != self._root:
            folder.chmod(0o700)
            folder = folder.parent


def _place_of(folder: Path) -> tuple[int, int] | None:
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
