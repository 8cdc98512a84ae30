"""Hands over what waits in the outbox, one parcel after another, on a thread that knows nothing of the studio."""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from typing import TYPE_CHECKING

from textual.app import App

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Sender
from cockpit.desk.post.attempt import Attempt
from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import CockpitError
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import Paper, papers_called
from cockpit.studio.post.parcel import Parcel

if TYPE_CHECKING:
    from textual.timer import Timer

_LONGEST_WAIT = 30.0  # seconds: a laptop that slept sends soon after it woke
_UNTIL_THE_DISK_MAY_BE_BACK = 5.0  # seconds


def begun(sender: Sender, parcel: Parcel) -> tuple[Attempt, asyncio.Event]:
    """Begins an attempt, and returns it with an event that is set when it is over; closing the screen does not wait for it."""
    loop, over = asyncio.get_running_loop(), asyncio.Event()

    def tell() -> None:
        with suppress(RuntimeError):  # the screen is gone: the answer is kept when the program ends
            loop.call_soon_threadsafe(over.set)

    return Attempt(sender, parcel, tell), over


class HandingOver:
    """Takes what is due from the desk, has it carried, and takes the answer back to the desk.

    `tell` gets a sentence about what needs the teacher, or None where only the outbox changed.
    """

    def __init__(self, app: App[None], desk: Desk, sender: Sender, tell: Callable[[str | None], None]) -> None:
        self._app = app
        self._desk = desk
        self._sender = sender
        self._tell = tell
        self._attempt: Attempt | None = None
        self._timer: Timer | None = None

    @property
    def is_sending(self) -> bool:
        """Whether something is on its way, or its answer could not be kept yet."""
        return self._attempt is not None

    def look(self) -> None:
        """Hands over what is due, unless something is on its way; looks again when the next thing is."""
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        try:
            self.settle()
            parcel = self._desk.dispatch.next_parcel() if self._attempt is None else None
        except CockpitError as fault:  # the disk refused: what is known is kept, and saved later
            self._tell(str(fault))
            self._timer = self._app.set_timer(_UNTIL_THE_DISK_MAY_BE_BACK, self.look)
            return
        if self._attempt is not None:
            return
        if parcel is not None:
            self._attempt, over = begun(self._sender, parcel)
            self._app.run_worker(self._go_on(over), group="outbox", exit_on_error=False)
            return
        due_at = self._desk.dispatch.due_at()
        if due_at is not None:
            seconds = (due_at - self._desk.clock.now()).total_seconds()
            self._timer = self._app.set_timer(min(max(seconds, 0.1), _LONGEST_WAIT), self.look)

    def settle(self, seconds: float = 0.0) -> None:
        """Saves the answer that has come.

        With `seconds`, at the end of the program, waits that long for the answer, and then gives the attempt up.

        Raises:
            CockpitError: the disk refused; the answer is still there.
        """
        attempt = self._attempt
        if attempt is None or not (attempt.is_over or seconds):
            return
        delivery = attempt.wait(seconds)
        self._desk.dispatch.settle(attempt.parcel, delivery)
        self._attempt = None
        self._tell(_sentence(attempt.parcel, delivery))

    async def _go_on(self, over: asyncio.Event) -> None:
        await over.wait()
        if self._app.is_running:
            self.look()


def _sentence(parcel: Parcel, delivery: Delivery) -> str | None:
    students = listed(list(dict.fromkeys(item.student for item in parcel.items)))
    paper = parcel.items[0].paper
    called = papers_called(paper, students)
    match delivery.answer:
        case Answer.NEVER:
            return (
                f"The {called} {'were' if paper is Paper.NOTES else 'was'} refused: {delivery.reason}. See the outbox."
            )
        case Answer.UNKNOWN:
            return f"Did the {called} arrive? {delivery.reason[:1].upper()}{delivery.reason[1:]}. Answer in the outbox."
        case _:
            return None
