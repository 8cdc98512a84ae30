"""Unsaved notes: kept in a file when the program ends, and put into their lesson when it is opened again."""

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
        """Puts notes that earlier sessions could not save into their lessons, then deletes their files.

        Returns sentences that say what was taken in, and which files stay and why.
        """
        return tuple(self._taken_in()) if self._studio.store.writing is not None else ()

    def keep(self) -> bool:
        """Keeps unsaved notes in a file, and returns whether there were any; any thread may call it.

        Raises:
            NotSaved: no place took it.
        """
        unsaved = self._studio.desk.saving.unsaved
        if unsaved is not None:
            self.rescue.keep(unsaved)
        return unsaved is not None

    def settle(self, say: Callable[[str], None]) -> bool:
        """Tries to save once more after the screen is gone, or says which file has the notes; returns whether any are unsaved."""
        with contextlib.suppress(NotSaved):  # tried again below
            self.keep()  # first: a signal may end the waiting
        saving = self._studio.desk.saving
        self._studio.store.wait_for_others(_PATIENCE)
        with contextlib.suppress(CockpitError):
            saving.retry()
        unsaved = saving.unsaved
        if unsaved is None:
            self.rescue.drop()
            return False
        try:
            where = (
                f"They are in {self.rescue.keep(unsaved)}. The next time you open the cockpit, they go into the lesson."
            )
            said = f"The notes for {unsaved.student} could not be saved. {where}"
        except NotSaved as fault:
            said = str(fault)
        with contextlib.suppress(OSError):  # the terminal may be gone
            say(said)
        return True

    def _taken_in(self) -> Iterator[str]:
        for path, kept in self.rescue.found():
            if kept is None:
                yield f"{path} has unsaved notes and is damaged. Open it in a text editor, copy what you need, and delete it."
                continue
            try:
                said = self._studio.taking_in.take_in(kept.notes)
                self.rescue.settle(path)
            except CockpitError as fault:
                yield f"{path} has notes for {kept.notes.student} that could not be saved: {fault}"
            except OSError as fault:
                yield f"The notes in {path} are in their lesson now. The file could not be deleted ({fault.strerror})."
            else:
                if said is not None:
                    yield said
