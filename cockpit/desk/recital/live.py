"""A recital on its day: each step is kept at once, so that a killed program goes on where it was."""

from collections.abc import Callable
from datetime import datetime

from cockpit.desk.ports import Clock
from cockpit.desk.recital.recitals import Recitals
from cockpit.desk.steps import Steps
from cockpit.studio.changes.recital import (
    Recital,
    RecitalId,
    RecitalItem,
)
from cockpit.studio.changes.records import Edit
from cockpit.studio.errors import Refused
from cockpit.studio.recital.live import RecitalNow, move_to_end, skip, step_back, step_on


class LiveRecital:
    """Runs a recital."""

    def __init__(self, clock: Clock, steps: Steps, recitals: Recitals) -> None:
        self._clock = clock
        self._steps = steps
        self._recitals = recitals

    def go_on(self, recital_id: RecitalId) -> RecitalNow:
        """Begins the recital, begins the next item, ends what is played, or ends the recital: whichever comes next."""
        return self._step(recital_id, "a step of the recital", step_on)

    def go_back(self, recital_id: RecitalId) -> RecitalNow:
        """Takes the last step of a recital back."""
        return self._step(recital_id, "a step back in the recital", lambda recital, items, _: step_back(recital, items))

    def skip(self, recital_id: RecitalId) -> RecitalNow:
        """Passes over the next item."""
        return self._step(recital_id, "skipping an item", lambda recital, items, _: skip(recital, items))

    def move_to_end(self, recital_id: RecitalId) -> RecitalNow:
        """Moves the next item behind all others."""
        return self._step(
            recital_id, "moving an item to the end", lambda recital, items, _: move_to_end(recital, items)
        )

    def _step(
        self,
        recital_id: RecitalId,
        said: str,
        step: Callable[[Recital, tuple[RecitalItem, ...], datetime], tuple[Edit, ...]],
    ) -> RecitalNow:
        recital = self._recitals.recital(recital_id)
        if recital.is_rehearsal:
            raise Refused("A rehearsal is not run here. Note who attended.")
        edits = step(recital, self._recitals.items(recital_id), self._clock.now())
        self._steps.take(said, *edits, durable=True)
        return self._recitals.now(recital_id)
