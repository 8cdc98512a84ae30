"""What forgetting a family needs of the store and the folder, without knowing them."""

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path
from typing import Protocol

from cockpit.desk.leaving.leaving import Files
from cockpit.studio.leaving.leaver import Leaver
from cockpit.studio.people.people import FamilyId


class Rows(Protocol):
    """The rows of the open database."""

    def fold(self) -> None: ...  # noqa: D102 said where it is done
    def delete(self, family_id: FamilyId) -> None: ...  # noqa: D102
    def scrub(self) -> None: ...  # noqa: D102
    def put_back(self, copy: Path, family_id: FamilyId) -> None: ...  # noqa: D102
    def texts(self) -> Iterable[str]: ...  # noqa: D102


class Copies(Protocol):
    """The backups and the databases that were set aside."""

    def names(self) -> tuple[str, ...]: ...  # noqa: D102 said where it is done
    def with_logs(self, names: Iterable[str]) -> tuple[str, ...]: ...  # noqa: D102
    def lone_logs(self) -> tuple[str, ...]: ...  # noqa: D102
    def make(self, name: str, leaver: Leaver) -> bool: ...  # noqa: D102
    def put_in_place(self, names: Iterable[str]) -> None: ...  # noqa: D102
    def tidy(self) -> None: ...  # noqa: D102


class RecoveryFile(Protocol):
    """The file that holds others as they were."""

    path: Path

    def keep(self, names: Iterable[str], about: str) -> None: ...  # noqa: D102 said where it is done
    def about(self) -> str | None: ...  # noqa: D102
    def put_back(self, but: str) -> None: ...  # noqa: D102
    def extract(self, name: str, target: Path) -> None: ...  # noqa: D102
    def remove(self) -> None: ...  # noqa: D102


class RemovableFiles(Files, Protocol):
    """The files of the studio folder."""

    def remove(self, names: Iterable[str]) -> None: ...  # noqa: D102 said where it is done


@dataclass(frozen=True, slots=True, kw_only=True)
class Keepers:
    """All that holds words of a family. `database` is the path of the open one."""

    rows: Rows
    copies: Copies
    recovery: RecoveryFile
    files: RemovableFiles
    database: Path
