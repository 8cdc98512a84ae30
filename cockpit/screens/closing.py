"""Decides whether the program may close: unsaved notes keep it open once, and are then kept in a file."""

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from cockpit.desk.day.saving import Saving
from cockpit.studio.clocks.words import possessive
from cockpit.studio.errors import NotSaved
from cockpit.studio.lessons.unsaved import UnsavedNotes


class Rescuing(Protocol):
    """Keeps unsaved notes in a file."""

    def place(self) -> str: ...  # noqa: D102 said where it is done
    def keep(self, notes: UnsavedNotes) -> Path: ...  # noqa: D102


class Ends(Protocol):
    """Ends the program when the screen cannot."""

    def begin(self, status: int) -> None: ...  # noqa: D102 said where it is done
    def listen(self) -> None: ...  # noqa: D102


class Closing:
    """Holds the program open once while something is not saved."""

    def __init__(self, saving: Saving, rescue: Rescuing | None, save: Callable[[], object]) -> None:
        self._saving = saving
        self._rescue = rescue
        self._save = save
        self._told_of: object = self
        self._told_of_loss: object = self

    def held_back(self, key: str) -> str | None:
        """Returns why the program stays open and which key closes it anyway, or None if it may close."""
        self._save()
        unsaved = self._saving.unsaved
        if unsaved is None:
            return None
        if self._told_of is not self._saving.fault:
            self._told_of = self._saving.fault
            place = self._rescue.place() if self._rescue is not None else None
            then = f" and keeps them in a file in {place}; the next opening brings them back" if place else ""
            whose = possessive(unsaved.student)
            return f"{whose} notes are not saved. {key} again closes{then}. {self._saving.fault or ''}"
        try:
            if self._rescue is not None:
                self._rescue.keep(unsaved)
        except NotSaved as fault:
            if self._told_of_loss is not self._saving.fault:  # then it is for her to say, not for a disk
                self._told_of_loss = self._saving.fault
                return f"{fault} {key} again closes without them."
        return None
