"""Hands over what waits in the outbox, one parcel after another, on a thread that knows nothing of the studio."""

from collections import deque
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from typing import TYPE_CHECKING

from textual.app import App

from cockpit.desk.desk import Desk
from cockpit.desk.ports import Postman
from cockpit.studio.delivery import Answer, Delivery
from cockpit.studio.errors import CockpitError
from cockpit.studio.parcel import Parcel

if TYPE_CHECKING:
    from textual.timer import Timer

_LONGEST_WAIT = 30.0  # seconds: a laptop that slept sends soon after it woke
_UNTIL_THE_DISK_MAY_BE_BACK = 5.0  # seconds
_FAILED = Delivery(answer=Answer.UNKNOWN, reason="the cockpit failed while it was handing them over")


class HandingOver:
    """Takes what is due from the desk, has it carried, and takes the answer back to the desk.

    `tell` gets a sentence about what needs the teacher, or None where only the outbox changed.
    """

    def __init__(self, app: App[None], desk: Desk, postman: Postman, tell: Callable[[str | None], None]) -> None:
        self._app = app
        self._desk = desk
        self._postman = postman
        self._tell = tell
        self._answers: deque[tuple[Parcel, Delivery]] = deque()
        self._carried: Parcel | None = None
        self._timer: Timer | None = None

    def look(self) -> None:
        """Hands over what is due, unless something is on its way; looks again when the next thing is."""
        if self._timer is not None:
            self._timer.stop()
            self._timer = None
        try:
            self.settle()
            parcel = self._desk.dispatch.next_parcel() if self._carried is None else None
        except CockpitError as fault:  # the disk refused: what is known is kept, and saved later
            self._tell(str(fault))
            self._timer = self._app.set_timer(_UNTIL_THE_DISK_MAY_BE_BACK, self.look)
            return
        if self._carried is not None:
            return
        if parcel is not None:
            self._carried = parcel
            self._app.run_worker(partial(self._carry, parcel), group="outbox", thread=True, exit_on_error=False)
            return
        due_at = self._desk.dispatch.due_at()
        if due_at is not None:
            seconds = (due_at - self._desk.clock.now()).total_seconds()
            self._timer = self._app.set_timer(min(max(seconds, 0.1), _LONGEST_WAIT), self.look)

    def settle(self) -> None:
        """Keeps the answers that have come, also after the screen is gone.

        Raises:
            CockpitError: the disk refused; the answer is still there.
        """
        while self._answers:
            parcel, delivery = self._answers[0]
            self._desk.dispatch.settle(parcel, delivery)
            self._answers.popleft()
            self._carried = None
            self._tell(_sentence(parcel, delivery))

    def _carry(self, parcel: Parcel) -> None:
        delivery = _FAILED
        try:
            delivery = self._postman.carry(parcel)
        finally:
            self._answers.append((parcel, delivery))
            with suppress(RuntimeError):  # the screen is gone: the answer is kept when the program ends
                self._app.call_from_thread(self._go_on)

    def _go_on(self) -> None:
        if self._app.is_running:
            self.look()


def _sentence(parcel: Parcel, delivery: Delivery) -> str | None:
    students = " and ".join(dict.fromkeys(item.student for item in parcel.items))
    match delivery.answer:
        case Answer.NEVER:
            return f"The notes for {students} were refused: {delivery.reason}. See the outbox."
        case Answer.UNKNOWN:
            return f"Did the notes for {students} arrive? {delivery.reason.capitalize()}. The outbox asks."
        case _:
            return None
