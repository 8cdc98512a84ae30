"""How far a command is: one line on stderr that is written anew, on a terminal alone, and ctrl+c between two steps."""

import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType
from typing import TextIO

from cockpit.clock import monotonic
from cockpit.studio.errors import Interrupted
from cockpit.studio.progress import Report, unheard

_PATIENCE = 0.5  # seconds, before which nobody asks how far it is
_EACH = 0.1


class ProgressLine:
    """Writes how many are done of what is counted, in words such as `Comparing: {} rows`; gone when it is wiped."""

    def __init__(self, words: str, stream: TextIO, seconds: Callable[[], float] = monotonic) -> None:
        self._words = words
        self._stream = stream
        self._seconds = seconds
        self._next: float | None = None
        self._width = 0

    def show(self, done: int, of: int) -> None:
        """Writes the line anew, unless the work is short so far or the line is fresh."""
        now = self._seconds()
        if self._next is None:
            self._next = now + _PATIENCE
        if now >= self._next:
            self._next = now + _EACH
            self._write(self._words.format(f"{done:,} of {of:,}"))

    def wipe(self) -> None:
        """Takes the line away."""
        if self._width:
            self._write("")
            self._stream.write("\r")
            self._stream.flush()

    def _write(self, text: str) -> None:
        self._stream.write("\r" + text.ljust(self._width))
        self._stream.flush()
        self._width = len(text)


@contextmanager
def shown_progress(words: str) -> Iterator[Report]:
    """Shows how far the work of the block is, where somebody looks at a terminal."""
    if not sys.stderr.isatty():
        yield unheard
        return
    line = ProgressLine(words, sys.stderr)
    try:
        yield line.show
    finally:
        line.wipe()


@contextmanager
def stoppable(words: str, nothing: str) -> Iterator[Report]:
    """Shows how far the work of the block is, and ends it at ctrl+c between two of its steps; `nothing` says what was not done.

    Raises:
        Interrupted: she pressed ctrl+c; at the end of the block, where its last step was under way.
    """
    came: list[int] = []

    def note(number: int, _: FrameType | None) -> None:
        came.append(number)

    before = signal.signal(signal.SIGINT, note)
    try:
        with shown_progress(words) as show:

            def step(done: int, of: int) -> None:
                if came:
                    raise Interrupted(f"Stopped. {nothing}")
                show(done, of)

            yield step
        if came:
            raise Interrupted(f"Stopped. {nothing}")
    finally:
        signal.signal(signal.SIGINT, before)
