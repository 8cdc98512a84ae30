"""The files of a studio folder as bytes: found, read, deleted."""

import contextlib
from collections.abc import Iterable
from pathlib import Path

from cockpit.outlets.folder import link_above


class KeptFiles:
    """Knows files by their names relative to the studio folder, with `/` between their parts."""

    def __init__(self, root: Path) -> None:
        self._root = root

    def below(self, folder: str = "") -> tuple[str, ...]:
        """The files in a folder and in all folders below it, in order; nothing where there is no such folder.

        A link in it is a file of its own; where a link leads is not looked at.
        """
        if link_above(self._root, str(Path(folder, "anything"))) is not None:
            return ()
        found = (self._root / folder).rglob("*")
        return tuple(
            sorted(path.relative_to(self._root).as_posix() for path in found if path.is_symlink() or path.is_file())
        )

    def content(self, name: str) -> bytes | None:
        """What is in a file; None where there is none, or where a link would lead to another."""
        path = self._root / name
        return path.read_bytes() if path.is_file() and not path.is_symlink() else None

    def remove(self, names: Iterable[str]) -> None:
        """Deletes files, and the folders that are empty then."""
        for name in names:
            path = self._root / name
            path.unlink(missing_ok=True)
            with contextlib.suppress(OSError):  # other files are still in it
                while path.parent != self._root:
                    path.parent.rmdir()
                    path = path.parent
