"""The ways a program ends that nobody pressed a key for, and what keeps it quick until then."""

import asyncio
import gc
import os
import select
import signal
from collections.abc import Callable

from textual.app import App


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
