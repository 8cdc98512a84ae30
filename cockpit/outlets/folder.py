"""Documents into the studio folder: each is there whole, or not at all."""

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
            OSError: the disk refused, or a folder on the way is a link; an earlier one of that name is whole.
        """
        target = self._root / name
        # Made anew, it would hold these papers and nothing else, under the name of the studio that was moved.
        if self._place is None or _place_of(self._root) != self._place:
            raise FileNotFoundError(errno.ENOENT, "the studio folder was renamed, moved or deleted", str(self._root))
        self._make(Path(name).parent)
        place(target, content, mode=0o600)
        return target

    def remove(self, names: Iterable[str]) -> None:
        """Deletes documents, and the folders that are empty then."""
        for name in names:
            if link_above(self._root, name) is not None:
                continue
            target = self._root / name
            target.unlink(missing_ok=True)
            with contextlib.suppress(OSError):  # other documents are still in it
                target.parent.rmdir()

    def _make(self, within: Path) -> None:
        folder = self._root
        for part in within.parts:
            folder /= part
            if folder.is_symlink():  # who can read what lies where it leads is not ours to say
                raise OSError(errno.ELOOP, f"{folder} is a link, and papers go into folders of the studio alone")
            folder.mkdir(exist_ok=True, mode=0o700)
            opened = os.open(folder, os.O_RDONLY | os.O_DIRECTORY | os.O_NOFOLLOW)
            try:
                os.fchmod(opened, 0o700)
            finally:
                os.close(opened)


def _place_of(folder: Path) -> tuple[int, int] | None:
    try:
        found = folder.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino
