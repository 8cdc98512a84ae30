"""Documents into the studio folder: each is there whole, or not at all."""

import contextlib
import os
from collections.abc import Iterable
from pathlib import Path

from cockpit.studio.errors import NotSaved


class StudioFolder:
    """The folder that practice notes and reviews are put into."""

    def __init__(self, root: Path) -> None:
        self._root = root

    def put(self, name: str, text: str) -> Path:
        """Writes a document under a name relative to the folder, and returns its path.

        It is written beside and then put in place, so that a fault leaves an earlier one whole.

        Raises:
            NotSaved: the disk refused, with its reason.
        """
        target = self._root / name
        fresh = target.with_name(f".{target.name}.new")
        try:
            self._make(target.parent)
            with fresh.open("w", encoding="utf-8", newline="\n") as file:
                file.write(text)
                file.flush()
                os.fsync(file.fileno())
            fresh.chmod(0o600)
            fresh.replace(target)
        except OSError as fault:
            with contextlib.suppress(OSError):
                fresh.unlink(missing_ok=True)
            raise NotSaved(
                f"{target} could not be written ({fault.strerror}). The notes are safe in the database; "
                "mend that, then Begin reopens the lesson and Finish writes it."
            ) from fault
        return target

    def names(self, pattern: str) -> list[str]:
        """The documents whose names, relative to the folder, fit a pattern; in order."""
        return sorted(path.relative_to(self._root).as_posix() for path in self._root.glob(pattern))

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
