"""The files of the studio folder: each is written whole or not at all, found, read and deleted."""

import contextlib
import errno
import os
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import IO

from cockpit.studio.errors import NotSaved


@contextlib.contextmanager
def fresh_file(path: Path, mode: int | None) -> Iterator[IO[bytes]]:
    """A new file to write, which is on the disk afterwards. Whatever has its name gives way, and a link is not followed.

    Raises:
        OSError: the disk refused.
    """
    path.unlink(missing_ok=True)
    # With its mode from the first byte on: names of children may be in it.
    new = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL | os.O_NOFOLLOW, 0o666 if mode is None else mode)
    with os.fdopen(new, "wb") as file:
        yield file
        file.flush()
        if mode is not None:
            os.fchmod(new, mode)
        os.fsync(new)


def link_above(root: Path, name: str) -> Path | None:
    """The first folder between a root and a file below it that is a link to another place; None where none is."""
    above = (root.joinpath(*Path(name).parts[:depth]) for depth in range(1, len(Path(name).parts)))
    return next((folder for folder in above if folder.is_symlink()), None)


def place(target: Path, content: bytes, mode: int | None = None) -> None:
    """Writes a file whole or not at all, and has it on the disk: an earlier one of that name stays until then.

    Raises:
        OSError: the disk refused.
    """
    fresh = target.with_name(f".{target.name}.new")
    try:
        with fresh_file(fresh, mode) as file:
            file.write(content)
        fresh.replace(target)
    except OSError:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise


class StudioFolder:
    """Knows files by their names relative to the studio folder, with `/` between their parts."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._opened = root.stat() if root.exists() else None

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
                f"{target} could not be written ({fault.strerror}). Your notes are safe. "
                "Fix the problem, reopen the lesson (F2), and finish it again (F9)."
            ) from fault

    def put_bytes(self, name: str, content: bytes) -> Path:
        """Writes a file under a name relative to the folder, for nobody else to read, and returns its path.

        Raises:
            OSError: the disk refused, or a folder on the way is a link; an earlier one of that name is whole.
        """
        target = self._root / name
        # Made anew, it would hold these papers and nothing else, under the name of the studio that was moved.
        if not self._is_where_it_was():
            raise FileNotFoundError(errno.ENOENT, "the studio folder was renamed, moved, or deleted", str(self._root))
        self._make(Path(name).parent)
        place(target, content, mode=0o600)
        return target

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
        """Deletes files, and the folders that are empty then. What a link leads to stays."""
        for name in names:
            if link_above(self._root, name) is not None:
                continue
            path = self._root / name
            path.unlink(missing_ok=True)
            with contextlib.suppress(OSError):  # other files are still in it
                while path.parent != self._root:
                    path.parent.rmdir()
                    path = path.parent

    def _make(self, within: Path) -> None:
        folder = self._root
        for part in within.parts:
            folder /= part
            if folder.is_symlink():  # who can read what lies where it leads is not ours to say
                raise OSError(
                    errno.ELOOP, f"{folder} is a link, and notes are saved only in real folders of the studio"
                )
            folder.mkdir(exist_ok=True, mode=0o700)
            opened = os.open(folder, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
            try:
                os.fchmod(opened, 0o700)
            finally:
                os.close(opened)

    def _is_where_it_was(self) -> bool:
        try:
            return self._opened is not None and os.path.samestat(self._root.stat(), self._opened)
        except OSError:
            return False
