"""The backups and the databases that were set aside: each written anew without a family, whole or not at all."""

import contextlib
import shutil
import sqlite3
from collections.abc import Iterable
from pathlib import Path

from cockpit.store.family_rows import delete_people, has_table
from cockpit.store.faults import sentence
from cockpit.store.opening import NAME
from cockpit.store.schema import VERSION, version_of
from cockpit.studio.errors import CockpitError, Refused, StudioDamaged, StudioTooNew
from cockpit.studio.leaving.leaver import Leaver
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId

_ASIDE = ".set-aside-"
_LOGS = ("-wal", "-shm")


class OldCopies:
    """The copies of the database in a studio folder, by their names relative to it."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder

    def names(self) -> tuple[str, ...]:
        """Every copy, the oldest backup first."""
        backups = sorted((self._folder / "backups").glob("*.db"))
        aside = sorted(self._folder.glob(f"{NAME}{_ASIDE}*"))
        return tuple(path.relative_to(self._folder).as_posix() for path in (*backups, *aside) if not _is_fresh(path))

    def with_logs(self, names: Iterable[str]) -> tuple[str, ...]:
        """Copies with the logs that lie beside them."""
        return tuple(
            path.relative_to(self._folder).as_posix()
            for name in names
            for path in (self._folder / name, *_logs(self._folder / name).values())
            if path.exists()
        )

    def lone_logs(self) -> tuple[str, ...]:
        """Logs that were set aside without their database: nothing can read them."""
        theirs = self.with_logs(self.names())
        found = (path.name for log in _LOGS for path in self._folder.glob(f"{NAME}{log}{_ASIDE}*"))
        return tuple(sorted(name for name in found if name not in theirs))

    def make(self, name: str, leaver: Leaver) -> bool:
        """Makes a new file beside a copy, without the family; False, and no file, where the copy does not hold it.

        Raises:
            CockpitError: the copy cannot be read or written anew; the sentence says why.
        """
        path = self._folder / name
        fresh = _fresh(path)
        try:
            _copy(path, fresh)
            with contextlib.closing(sqlite3.connect(fresh, isolation_level=None)) as connection:
                has_changed = _without(connection, leaver)
        except sqlite3.DatabaseError as fault:
            self._drop(fresh)
            raise sentence(fault, path) from fault
        except (CockpitError, OSError):
            self._drop(fresh)
            raise
        if not has_changed:
            self._drop(fresh)
            return False
        fresh.chmod(0o600)
        return True

    def put_in_place(self, names: Iterable[str]) -> None:
        """Has the new files take the place of the copies, whose logs are worked into them."""
        for name in names:
            path = self._folder / name
            _fresh(path).replace(path)
            for log in _logs(path).values():
                log.unlink(missing_ok=True)

    def tidy(self) -> None:
        """Deletes what a program that was killed left half-made."""
        for path in (*self._folder.glob(f"{NAME}*.new*"), *(self._folder / "backups").glob("*.new*")):
            path.unlink(missing_ok=True)

    def _drop(self, fresh: Path) -> None:
        for path in (fresh, *(fresh.with_name(fresh.name + log) for log in (*_LOGS, "-journal"))):
            path.unlink(missing_ok=True)


def _is_fresh(path: Path) -> bool:
    return path.suffix == ".new" or ".new-" in path.name


def _fresh(path: Path) -> Path:
    return path.with_name(f"{path.name}.new")


def _logs(path: Path) -> dict[str, Path]:
    name, aside, stamp = path.name.partition(_ASIDE)
    return {log: path.with_name(f"{name}{log}{aside}{stamp}") for log in _LOGS}


def _copy(path: Path, fresh: Path) -> None:
    shutil.copyfile(path, fresh)
    log = _logs(path)["-wal"]
    if log.exists():
        shutil.copyfile(log, fresh.with_name(f"{fresh.name}-wal"))


def _without(connection: sqlite3.Connection, leaver: Leaver) -> bool:
    """Deletes the family in a copy and has it on the disk; whether there was anything to delete."""
    # One file and no log beside it, when it is done.
    connection.execute("PRAGMA journal_mode = DELETE")
    connection.execute("PRAGMA secure_delete = ON")
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA synchronous = FULL")
    if version_of(connection) > VERSION:
        raise StudioTooNew("It was made by a later version of the cockpit.")
    if not has_table(connection, "family"):
        return False
    families, students = _people(connection)
    gone, leaving = leaver.families_among(families, students), leaver.students_among(students)
    if not gone and not leaving:
        return False
    mixed = leaver.others_among(student for student in students if student.family_id in gone)
    if mixed:
        raise Refused(f"{mixed[0].name}, who is another family's today, belonged to it then.")
    connection.execute("BEGIN IMMEDIATE")
    delete_people(connection, gone, leaving)
    connection.execute("COMMIT")
    connection.execute("VACUUM")
    answer = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if answer != "ok":
        raise StudioDamaged(f"It is damaged ({answer}).")
    return True


def _people(connection: sqlite3.Connection) -> tuple[list[Family], list[Student]]:
    families = connection.execute("SELECT id, name FROM family").fetchall()
    students = connection.execute("SELECT id, family_id, name FROM student").fetchall()
    return (
        [Family(id=FamilyId(number), name=name, zone="UTC") for number, name in families],
        [Student(id=StudentId(number), family_id=FamilyId(home), name=name) for number, home, name in students],
    )
