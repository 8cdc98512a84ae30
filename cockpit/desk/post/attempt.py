"""One attempt to hand a parcel over, on its own thread; the program can end without waiting for it."""

import threading
from collections.abc import Callable

from cockpit.desk.ports import Sender
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.parcel import Parcel

_FAILED = Delivery(answer=Answer.UNKNOWN, reason="the cockpit failed while it was sending them")
_NOT_YET = Delivery(answer=Answer.LATER, reason="the cockpit closed before they were sent")
_IN_DOUBT = Delivery(answer=Answer.UNKNOWN, reason="the cockpit closed before the mail server answered")


class Attempt:
    """Hands a parcel to the sender, and calls `then` on its own thread when that is over."""

    def __init__(self, sender: Sender, parcel: Parcel, then: Callable[[], None] = lambda: None) -> None:
        self.parcel = parcel
        self._sender = sender
        self._then = then
        self._lock = threading.Lock()
        self._over = threading.Event()
        self._delivery: Delivery | None = None
        self._may_have_gone = False
        threading.Thread(target=self._run, name="outbox", daemon=True).start()

    @property
    def is_over(self) -> bool:
        """Whether the result is known."""
        return self._delivery is not None

    def wait(self, seconds: float | None = None) -> Delivery:
        """Waits until the attempt is over, or for some seconds at most, and returns the result.

        An attempt that is not over by then is given up. A mail that has not begun to leave stays here and goes another
        time; whether one that has begun to leave arrives, nobody knows.
        """
        self._over.wait(seconds)
        with self._lock:
            if self._delivery is None:
                self._delivery = _IN_DOUBT if self._may_have_gone else _NOT_YET
            return self._delivery

    def _may_go(self) -> bool:
        with self._lock:
            self._may_have_gone = self._delivery is None
            return self._may_have_gone

    def _run(self) -> None:
        try:
            delivery = self._sender.carry(self.parcel, self._may_go)
        except Exception:  # noqa: BLE001 a fault of ours: a traceback would show the notes on the screen
            delivery = _FAILED
        with self._lock:
            self._delivery = self._delivery or delivery
        self._over.set()
        self._then()
