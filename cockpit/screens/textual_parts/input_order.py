"""Handles keys, pastes and taps one at a time, in the order in which they came."""

import asyncio
from collections import deque
from collections.abc import Callable

from textual.app import App
from textual.events import Event
from textual.message_pump import MessagePump

_PATIENCE = 5.0  # seconds, after which a key is let in in any case: one too early is better than a deaf program
_SPINS = 100  # looks without a pause; what a key sets in motion takes far fewer
_PAUSE = 0.001  # seconds
_UNPAINTED = 0.1  # seconds for which keys that came together are handled before the screen is painted again


class InputOrder:
    """Lets each input event into the program once everything that the event before it set in motion is done.

    Textual hands a key from queue to queue: bindings with priority act in the app's task, letters wait for the editor's,
    a list posts a message that closes a screen later. Several keys in one read overtook one another, and letters went
    into the next student's notes. A key that comes alone, as nearly all do, is let in at once: the look at some twenty
    queues takes 10 microseconds.

    A message pump has nothing to do when it waits for its queue's event. That, the app's registry of its pumps and the
    screen's need of a layout are private names of Textual (and one of asyncio); `tests/screens/textual_parts/test_keys_in_order.py`
    fails on another version.
    """

    def __init__(self, app: App[None], let_in: Callable[[Event], bool]) -> None:
        self._app = app
        self._let_in = let_in
        self._waiting: deque[Event] = deque()
        self._feeding: asyncio.Task[None] | None = None

    def is_busy(self) -> bool:
        """Whether the program still works on an earlier input event."""
        return bool(self._waiting) or self._is_at_work() or self._is_to_be_laid_out()

    def take(self, event: Event) -> bool:
        """Lets an input event in, now or when its turn comes."""
        if not self.is_busy():
            return self._let_in(event)
        self._waiting.append(event)
        if self._feeding is None:
            self._feeding = asyncio.get_running_loop().create_task(self._feed())
        return True

    async def _feed(self) -> None:
        """Lets events in until none waits. Where many wait, the screen is not painted for each."""
        try:
            while self._waiting:
                await self._wait_while(lambda: self._is_at_work() or self._is_to_be_laid_out())
                with self._app.batch_update():
                    await self._let_some_in()
                self._app.screen.check_idle()
        finally:
            self._feeding = None  # or no later event would start another

    async def _let_some_in(self) -> None:
        """Lets in the first event that waits, and more until the screen must be painted or laid out."""
        now = asyncio.get_running_loop().time
        begins = now()
        while True:
            self._let_in(self._waiting.popleft())
            await self._wait_while(self._is_at_work)
            if not self._waiting or now() - begins >= _UNPAINTED or self._is_to_be_laid_out():
                return

    async def _wait_while(self, is_busy: Callable[[], bool]) -> None:
        now = asyncio.get_running_loop().time
        begins, spins = now(), 0
        while is_busy() and now() - begins < _PATIENCE:
            spins += 1
            await asyncio.sleep(0 if spins < _SPINS else _PAUSE)

    def _is_at_work(self) -> bool:
        return _is_at_work(self._app) or any(map(_is_at_work, self._app._registry))  # noqa: SLF001 see the class

    def _is_to_be_laid_out(self) -> bool:
        stack = self._app.screen_stack
        return bool(stack) and stack[-1]._layout_required  # noqa: SLF001 see the class


def _is_at_work(pump: MessagePump) -> bool:
    arrival: asyncio.Event = pump._message_queue.ready_event  # noqa: SLF001 see the class
    return not pump._closing and (arrival.is_set() or not arrival._waiters)  # noqa: SLF001 see the class
