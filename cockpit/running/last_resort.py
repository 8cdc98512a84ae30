"""A thread that ends the program when its screen cannot, such as when the terminal takes no more output."""

import contextlib
import os
import select
import signal
import termios
import threading
from collections.abc import Callable
from types import FrameType
from typing import NoReturn

_PATIENCE = 3.0  # seconds from the beginning of the end; a screen that can end needs a quarter of one


class LastResort:
    """Ends the process when the screen has been told to end and does not.

    A call of `begin`, a signal or a vanished terminal tells it to end. `last_words` is called before the process ends, and
    returns whether anything was unsaved. A pipe wakes the thread, since a signal handler may safely do little else.
    """

    def __init__(self, last_words: Callable[[], bool]) -> None:
        self._last_words = last_words
        self._heard, self._told = os.pipe()
        self._is_over = threading.Event()
        self._status: int | None = None
        self._modes: list[object] | None = None
        with contextlib.suppress(termios.error):
            self._modes = termios.tcgetattr(0)
        threading.Thread(target=self._watch, name="last resort", daemon=True).start()

    def begin(self, status: int) -> None:
        """Gives the screen a few seconds to end by itself. The first status given is the exit status."""
        if self._status is None:
            self._status = status
        os.write(self._told, b".")

    def listen(self) -> None:
        """Hears signals even while the screen hangs; the screen's own handlers hear them too."""
        for number in (signal.SIGHUP, signal.SIGTERM):
            signal.signal(number, self._signaled)

    def disarm(self) -> None:
        """Stops the watch: the screen is gone, and what follows has limits of its own."""
        self._is_over.set()
        os.write(self._told, b".")

    def _signaled(self, number: int, _: FrameType | None) -> None:
        self.begin(128 + number)

    def _watch(self) -> None:
        poll = select.poll()
        poll.register(self._heard, select.POLLIN)
        poll.register(0, 0)  # reports a terminal that is gone
        while self._heard not in (events := dict(poll.poll())):
            if events[0] & (select.POLLHUP | select.POLLERR):
                self._status = 128 + signal.SIGHUP
                break
            poll.unregister(0)  # a system that cannot tell: the signals and the tick are left
        if self._is_over.wait(_PATIENCE):
            return
        had_words = True  # unless they are found to be saved
        try:
            had_words = self._last_words()
        finally:
            if not self._is_over.is_set():  # the screen may have ended meanwhile
                self._exit(self._status or int(had_words))

    def _exit(self, status: int) -> NoReturn:
        if self._modes is not None:
            with contextlib.suppress(termios.error):
                termios.tcsetattr(0, termios.TCSANOW, self._modes)  # type: ignore[arg-type]
        os._exit(status)
