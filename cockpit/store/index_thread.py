"""The thread that brings the index of notes up to date, while keys come."""

import threading
from collections.abc import Callable

from cockpit.store.line_index import LineIndex

_PAUSE = 0.002  # seconds after each note, in which a key that came has its turn
_SECONDS_TO_STOP = 5.0


class IndexThread:
    """Catches up when it is asked to, and is no thread in between."""

    def __init__(self, index: LineIndex) -> None:
        self._index = index
        self._lock = threading.Lock()
        self._asked: list[Callable[[], None]] = []
        self._thread: threading.Thread | None = None
        self._stopped = threading.Event()

    def catch_up_soon(self, then: Callable[[], None]) -> None:
        """Begins to catch up, and calls `then` on the thread when that is done; asked meanwhile, it looks once more."""
        with self._lock:
            self._asked.append(then)
            if self._thread is None and not self._stopped.is_set():
                self._thread = threading.Thread(target=self._run, name="index of notes", daemon=True)
                self._thread.start()

    def wait(self) -> None:
        """Waits until everything that was asked is done."""
        while (thread := self._thread) is not None:
            thread.join()

    def stop(self) -> None:
        """Ends after the note that is being read."""
        self._stopped.set()
        thread = self._thread
        if thread is not None:
            thread.join(timeout=_SECONDS_TO_STOP)

    def _run(self) -> None:
        try:
            while asked := self._next():
                self._index.catch_up(self._pause, self._stopped.is_set)
                for then in asked:
                    if not self._stopped.is_set():
                        then()
        finally:
            with self._lock:
                if self._thread is threading.current_thread():  # or whatever ended it would end it for good
                    self._thread = None

    def _next(self) -> list[Callable[[], None]]:
        """What was asked since the last look; nothing where the thread ends."""
        with self._lock:
            asked, self._asked = self._asked, []
            if not asked or self._stopped.is_set():
                self._thread = None
                return []
            return asked

    def _pause(self) -> None:
        self._stopped.wait(_PAUSE)
