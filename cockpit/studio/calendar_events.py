"""What a calendar file that is brought in comes to: weekly lessons, single ones, and what was left out."""

from dataclasses import dataclass, replace
from datetime import date, datetime

from cockpit.studio.roster_rows import NEEDED_COLUMNS, RosterReading, RosterRow


@dataclass(frozen=True, slots=True, kw_only=True)
class MovedMeeting:
    """A meeting of a weekly event at another time: the date by the rule, and the new start (UTC)."""

    taught_on: date
    starts_at: datetime
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeklyEvent:
    """A standing time as a calendar has it; `row.line` is the number of the event in the file.

    `cancelled` and the dates of `moved` are meetings of the rule, on the clock that the row is kept in.
    """

    uid: str
    row: RosterRow
    every_weeks: int = 1
    cancelled: tuple[date, ...] = ()
    moved: tuple[MovedMeeting, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SingleLesson:
    """A lesson by itself. `title` is what the calendar calls it; `starts_at` is UTC; `uid` is its lasting name."""

    uid: str
    title: str
    starts_at: datetime
    minutes: int
    call_link: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class EventsReading:
    """A calendar file as it was read; `left_out` has a sentence for each event that cannot be taken."""

    weekly: tuple[WeeklyEvent, ...] = ()
    lessons: tuple[SingleLesson, ...] = ()
    left_out: tuple[str, ...] = ()

    @property
    def roster(self) -> RosterReading:
        """The weekly events as rows of a roster. Only what a calendar knows is said: it clears no other column."""
        columns = frozenset({*NEEDED_COLUMNS, "from", "until", "every_weeks"})
        rows = tuple(replace(each.row, every_weeks=each.every_weeks, event_uid=each.uid) for each in self.weekly)
        return RosterReading(rows=rows, columns=columns)
