"""A roster into the studio: looked at first, then taken in, all of it or nothing."""

from collections.abc import Callable
from dataclasses import replace
from itertools import count

from cockpit.desk.calendar.afterwards import follow
from cockpit.desk.ports import Clock, Reading, Writing
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.enrolling.enrolling import RosterPlan, plan_roster
from cockpit.studio.enrolling.roll import Known
from cockpit.studio.roster.roster import read_roster


class Enrolling:
    """Takes rosters in."""

    def __init__(self, reading: Reading, writing: Writing | None, clock: Clock, home_zone: Zone, hours: int) -> None:
        self._reading = reading
        self._writing = writing
        self._clock = clock
        self._home_zone = home_zone
        self._hours = hours

    def look_at(self, text: str) -> RosterPlan:
        """What a roster would change. Nothing is written.

        Raises:
            BadInput: one line for each fault.
        """
        numbers = count(-1, -1)
        return self._plan(text, lambda: next(numbers))

    def take_in(self, text: str) -> RosterPlan:
        """Takes a roster in, and returns what it changed.

        Raises:
            BadInput: one line for each fault; nothing was taken in.
        """
        if self._writing is None:
            return self.look_at(text)
        with self._writing.new_ids() as new_id:
            plan = self._plan(text, new_id)
        self._writing.apply(plan.change, durable=True)
        return plan

    def _plan(self, text: str, new_id: Callable[[], int]) -> RosterPlan:
        reading = read_roster(text)
        people = self._reading.people()
        known = Known(
            families=tuple(people.families.values()),
            students=tuple(people.students.values()),
            standing_times=self._reading.standing_times(),
            file_rows=self._reading.file_rows(),
        )
        now = self._clock.now()
        plan = plan_roster(reading, known, self._home_zone, new_id, self._hours, now)
        edits, said = follow(self._reading, plan.reshaped, now, self._home_zone, self._hours)
        change = replace(plan.change, edits=(*plan.change.edits, *plan.remembered, *edits))
        return replace(plan, change=change, left_alone=(*said, *plan.left_alone))
