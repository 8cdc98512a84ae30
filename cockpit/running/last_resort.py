"""A thread that ends the program where its screen cannot: a terminal that takes nothing any more holds it for ever."""

import contextlib
import os
import select
import signal
import termios
import threading
from collections.abc import Callable
from types import FrameType

_PATIENCE = 3.0  # seconds from the beginning of the end; a screen that can end needs a quarter of one


class LastResort:
    """Waits beside the screen for the beginning of its end, and ends the process if the screen does not.

    That is a call of `begin`, a signal, or the terminal's disappearance. `last_words` is called before, and returns
    whether there were any. A pipe wakes the thread, since nothing else is safe within a signal's handler.
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
        """Says that the program ends with a status; from now on it has some seconds. The first status stands."""
        if self._status is None:
            self._status = status
        os.write(self._told, b".")

    def listen(self) -> None:
        """Hears signals also while the screen hangs, beside the screen's own handlers."""
        for number in (signal.SIGHUP, signal.SIGTERM):
            signal.signal(number, self._signaled)

    def disarm(self) -> None:
        """Says that the screen is gone: what comes then is bounded by itself."""
        self._is_over.set()
        os.write(self._told, b".")

    def _signaled(self, number: int, _: FrameType | None) -> None:
        self.begin(128 + number)

    def _watch(self) -> None:
        poll = select.poll()
        poll.register(self._heard, select.POLLIN)
        poll.register(0, 0)  # tells of a terminal that is gone
        while self._heard not in (events := dict(poll.poll())):
            if events[0] & (select.POLLHUP | select.POLLERR):
                self._status = 128 + signal.SIGHUP
                break
            poll.unregister(0)  # a system that cannot tell: the signals and the tick are left
        if self._is_over.wait(_PATIENCE):
            return
        try:
            had_words = self._last_words()
        finally:
            if self._modes is not None:
                with contextlib.suppress(termios.error):
                    termios.tcsetattr(0, termios.TCSANOW, self._modes)  # type: ignore[arg-type]
            os._exit(self._status or int(had_words))
