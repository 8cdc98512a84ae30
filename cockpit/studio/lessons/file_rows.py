"""What a file said of a standing time when it was read last.

By this a file that is read again changes what it says otherwise than the last time, and nothing else: whatever was
changed in the studio since stays.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, time

from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import StudentId

ROSTER = 0  # in place of an event, for a row of a roster


@dataclass(frozen=True, slots=True, kw_only=True)
class FileRow:
    """A row of a roster, or an event of a calendar, as it was read last; dates and times on the clock it is kept in.

    `standing_time_id` is the one that it spoke of first: what that became since, by a change from a date on, follows
    it. `event` is the number of an event's lasting name, or `ROSTER`.
    """

    student_id: StudentId
    standing_time_id: StandingTimeId
    event: int
    weekday: int
    at: time
    minutes: int
    kept_in: KeptIn = KeptIn.TEACHER
    instrument: str | None = None
    from_on: date | None = None
    until_on: date | None = None
    call_link: str | None = None
    every_weeks: int = 1

    @property
    def is_of_roster(self) -> bool:
        """Whether a roster said it, and not a calendar."""
        return self.event == ROSTER


def followed_up(ids: Iterable[StandingTimeId], known: Iterable[StandingTime]) -> set[StandingTimeId]:
    """Standing times by their ids, and all that took their place, one after the other."""
    found, others = set(ids), tuple(known)
    while more := {each.id for each in others if each.follows in found} - found:
        found |= more
    return found


def made_another(known: Iterable[StandingTime]) -> set[StandingTimeId]:
    """Those that a file itself let become another: they can only be meant as what they became."""
    return {each.follows for each in known if each.is_from_file and each.follows is not None}


def spoken_of(row: FileRow, known: Iterable[StandingTime]) -> tuple[StandingTime, ...]:
    """What a row of a file speaks of: its standing time and all that it became, the one that lasts at the end."""
    others = tuple(known)
    ids = followed_up([row.standing_time_id], others)
    found = (standing for standing in others if standing.id in ids)
    return tuple(sorted(found, key=lambda standing: (_begins(standing), standing.id)))


def _begins(standing: StandingTime) -> date:
    # One that was ended before its first day comes before what took its place.
    return min(standing.from_on or date.min, standing.until_on or date.max)
