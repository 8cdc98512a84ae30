"""The end of the program: what holds it open once, the ways it ends that nobody pressed a key for, what keeps it quick until then."""

import asyncio
import gc
import os
import select
import signal
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from textual.app import App

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
            then = (
                f" and save them in a file in {place}. They will be back when you open the cockpit again"
                if place
                else ""
            )
            whose = possessive(unsaved.student)
            return f"{whose} notes are not saved. Press {key} again to close{then}. {self._saving.fault or ''}"
        try:
            if self._rescue is not None:
                self._rescue.keep(unsaved)
        except NotSaved as fault:
            if self._told_of_loss is not self._saving.fault:  # then it is for her to say, not for a disk
                self._told_of_loss = self._saving.fault
                return f"{fault} Press {key} again to close without saving these notes."
        return None


def listen(loop: asyncio.AbstractEventLoop, end: Callable[[int], None]) -> None:
    """Calls `end` with the signal when the terminal closes or the system asks to stop, instead of dying at once."""
    for number in (signal.SIGHUP, signal.SIGTERM):
        loop.add_signal_handler(number, end, number)


def listen_for_stops(loop: asyncio.AbstractEventLoop, app: App[None]) -> None:
    """Gives the terminal back while the program is stopped (SIGTSTP), and takes it again when it goes on.

    In the loop, and not in Textual's own handler: that one runs in the middle of anything, a lock that it then waits for
    included, and was seen to hang with the studio's lock held.
    """

    def stop() -> None:
        with app.suspend():
            os.kill(os.getpid(), signal.SIGSTOP)

    loop.add_signal_handler(signal.SIGTSTP, stop)


def is_terminal_gone() -> bool:
    """Whether the terminal vanished without a signal (nohup, a dropped line), which would leave the program spinning."""
    poll = select.poll()
    poll.register(0, 0)
    return any(event & (select.POLLHUP | select.POLLERR | select.POLLNVAL) for _, event in poll.poll(0))


def stay() -> None:
    """Takes what was made now and stays, such as a memory of notes, out of the collector's way; it goes with its last user."""
    gc.freeze()


def settle() -> None:
    """Takes what is in memory after the start out of the collector's way: 15 ms every 30 keys otherwise."""
    gc.collect()
    gc.freeze()
    gc.enable()
