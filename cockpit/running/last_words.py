"""What could not be saved: kept in a file at the end, and taken into its lesson at the next opening."""

import contextlib
from collections.abc import Callable, Iterator

from cockpit.outlets.rescue import Rescue
from cockpit.studio.errors import CockpitError, NotSaved
from cockpit.wiring import Studio

_PATIENCE = 2.0  # seconds, for another program that holds the database when nobody waits for a key any more


class LastWords:
    """The unsaved notes of a studio, from one session to the next."""

    def __init__(self, studio: Studio) -> None:
        uid, _ = studio.store.reading.calendar_edition()
        self._studio = studio
        self.rescue = Rescue(studio.desk.folder, uid, studio.desk.notes.check_place)

    def take_in(self) -> tuple[str, ...]:
        """Takes in what earlier sessions could not save; a file is deleted once its notes are on the disk.

        Returns sentences: what was taken in, and which files stay and why.
        """
        return tuple(self._taken_in()) if self._studio.store.writing is not None else ()

    def keep(self) -> bool:
        """Keeps what is not saved in a file, from any thread; whether there was anything.

        Raises:
            NotSaved: no place took it.
        """
        unsaved = self._studio.desk.saving.unsaved
        if unsaved is not None:
            self.rescue.keep(unsaved)
        return unsaved is not None

    def settle(self, say: Callable[[str], None]) -> bool:
        """Tries to save once more when the screen is gone, and says where the notes are otherwise; whether any are left."""
        fault = ""
        try:
            self.keep()  # first: a signal may end the waiting
        except NotSaved as refused:
            fault = str(refused)
        saving = self._studio.desk.saving
        self._studio.store.wait_for_others(_PATIENCE)
        with contextlib.suppress(CockpitError):
            saving.retry()
        unsaved = saving.unsaved
        if unsaved is None:
            self.rescue.drop()
            return False
        where = f"They are in {self.rescue.path}. The next opening of the cockpit puts them into the lesson."
        with contextlib.suppress(OSError):  # the terminal may be gone
            say(fault or f"The notes for {unsaved.student} could not be saved. {where}")
        return True

    def _taken_in(self) -> Iterator[str]:
        for path, kept in self.rescue.found():
            if kept is None:
                yield f"{path} holds notes that could not be saved, and is damaged. Open it as a text, then delete it."
                continue
            try:
                said = self._studio.taking_in.take_in(kept.notes)
                path.unlink()
            except CockpitError as fault:
                yield f"{path} holds notes for {kept.notes.student} that could not be saved: {fault}"
            except OSError as fault:
                yield f"{path} is in the studio now, and could not be deleted ({fault.strerror})."
            else:
                if said is not None:
                    yield said
