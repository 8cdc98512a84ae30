"""Her policy on lessons that are not taught: which are made up. As data, since teachers differ in each line of it."""

from collections.abc import Set
from dataclasses import dataclass
from datetime import date, timedelta

from cockpit.studio.lessons.lesson import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Policy:
    """What is owed for a lesson that was not taught: a make-up, or nothing.

    `within_days` is how many days after the lesson a make-up is promised for; None stands for no end. The usual one is
    common practice, no source.
    """

    owing: Set[Outcome] = frozenset({Outcome.CANCELLED, Outcome.CALLED_OFF})
    within_days: int | None = None

    def expires_on(self, taught_on: date) -> date | None:
        """The last day on which the make-up of a lesson of a date is promised; None where it has no end."""
        return None if self.within_days is None else taught_on + timedelta(days=self.within_days)


USUAL_POLICY = Policy()
