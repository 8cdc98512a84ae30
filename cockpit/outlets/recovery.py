"""One file that holds other files of the studio folder as they were, until a deletion is final."""

import contextlib
import io
import os
from collections.abc import Iterable
from pathlib import Path
from typing import IO, TYPE_CHECKING

from cockpit.outlets.folder import fresh_file
from cockpit.studio.errors import NotSaved

if TYPE_CHECKING:
    import tarfile

NAME = "family.recovery"
_ABOUT = "about"
_FILES = "files/"


class Recovery:
    """The recovery file of a studio folder. Files are known by their names relative to the folder.

    Opening the cockpit looks for it: what reads and writes it (20 ms) is loaded when there is one.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self.path = folder / NAME
        self._fresh = folder / f".{NAME}.new"

    def keep(self, names: Iterable[str], about: str) -> None:
        """Takes files in, and a text about them: on the disk, whole, when this returns; for nobody else to read.

        Raises:
            NotSaved: the disk refused; nothing is left of it.
        """
        try:
            with fresh_file(self._fresh, 0o600) as file:
                self._write(file, names, about.encode())
            self._fresh.replace(self.path)
        except OSError as fault:
            with contextlib.suppress(OSError):
                self._fresh.unlink(missing_ok=True)
            why = fault.strerror or str(fault)
            raise NotSaved(f"{self.path} could not be written ({why}). Nothing was deleted.") from fault

    def about(self) -> str | None:
        """The text that was taken in; None where there is no recovery file."""
        if not self.path.exists():
            return None
        import tarfile

        with tarfile.open(self.path) as archive:
            return _content(archive, archive.getmember(_ABOUT)).read().decode()

    def put_back(self, but: str) -> None:
        """Puts every file back, whole and as it was, but for one.

        Raises:
            NotSaved: the disk refused one; the recovery file still holds all of them.
        """
        import tarfile

        with tarfile.open(self.path) as archive:
            for member in archive:
                name = member.name.removeprefix(_FILES)
                if member.name != _ABOUT and name != but:
                    self._extract(archive, member, self._folder / name)

    def extract(self, name: str, target: Path) -> None:
        """Writes one of the files under another name.

        Raises:
            NotSaved: the disk refused.
        """
        import tarfile

        with tarfile.open(self.path) as archive:
            self._extract(archive, archive.getmember(_FILES + name), target)

    def remove(self) -> None:
        """Deletes the recovery file, also one that was not finished."""
        for path in (self.path, self._fresh):
            path.unlink(missing_ok=True)

    def _write(self, file: IO[bytes], names: Iterable[str], about: bytes) -> None:
        import tarfile

        with tarfile.open(fileobj=file, mode="w") as archive:
            entry = tarfile.TarInfo(_ABOUT)
            entry.size = len(about)
            archive.addfile(entry, io.BytesIO(about))
            for name in names:
                archive.add(self._folder / name, _FILES + name, recursive=False)

    def _extract(self, archive: "tarfile.TarFile", member: "tarfile.TarInfo", target: Path) -> None:
        import shutil

        fresh = target.with_name(f".{target.name}.back.new")
        try:
            target.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            if member.issym():
                fresh.unlink(missing_ok=True)
                fresh.symlink_to(member.linkname)
            else:
                with fresh_file(fresh, member.mode) as file:
                    shutil.copyfileobj(_content(archive, member), file)
                os.utime(fresh, (member.mtime, member.mtime))
            fresh.replace(target)
        except OSError as fault:
            why = f"{target} could not be put back ({fault.strerror})"
            raise NotSaved(
                f"{why}. Everything is still in {self.path}. Fix the problem, then run `cockpit family` again."
            ) from fault


def _content(archive: "tarfile.TarFile", member: "tarfile.TarInfo") -> IO[bytes]:
    found = archive.extractfile(member)
    if found is None:
        raise OSError(f"{member.name} is no file")
    return found
