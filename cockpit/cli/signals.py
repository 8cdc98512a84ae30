"""Signals that end a command: an interrupt, the end of the terminal or of the session."""

import os
import select
import signal
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from types import FrameType

_SIGNALS = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP)


@dataclass(slots=True)
class Signals:
    """Whether a signal ends the program as an exception does; one that came meanwhile ends it afterwards."""

    raises: bool = True
    came: int | None = None

    def end(self, number: int, _: FrameType | None) -> None:
        """Takes a signal, and has all that come after it ignored."""
        self.came = number
        for each in _SIGNALS:
            signal.signal(each, signal.SIG_IGN)
        if self.raises:
            sys.exit(128 + number)


@contextmanager
def ended_by_signals() -> Iterator[Signals]:
    """Has a signal end the program so that what is begun is put back, and no file is left."""
    signals = Signals()
    before = {each: signal.signal(each, signals.end) for each in _SIGNALS}
    try:
        yield signals
        if signals.came is not None:
            sys.exit(128 + signals.came)
    finally:
        for each, handler in before.items():
            signal.signal(each, handler)


def wait_to_read(file: int) -> None:
    """Waits until something can be read from a file, or a signal comes.

    One that comes just before a read begins would be heard only when the read ends: on a terminal, when somebody types.
    """
    heard, told = os.pipe()
    os.set_blocking(told, False)
    before = signal.set_wakeup_fd(told)
    try:
        select.select([file, heard], [], [])
    finally:
        signal.set_wakeup_fd(before)
        os.close(heard)
        os.close(told)
