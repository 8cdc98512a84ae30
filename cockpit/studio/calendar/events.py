"""What a calendar file that is brought in comes to: weekly lessons, single ones, and what was left out."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from cockpit.studio.clocks.words import counted
from cockpit.studio.roster.columns import NEEDED_COLUMNS, RosterReading, RosterRow, quoted


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
class EndedSeries:
    """A weekly event that is over, or has no meeting, with a date that none is after."""

    uid: str
    until_on: date


@dataclass(frozen=True, slots=True, kw_only=True)
class EventsReading:
    """A calendar file as it was read; `left_out` has a sentence for each event that cannot be taken.

    `called_off` are events that the file marks as cancelled, and `ended` series that have no meeting from the
    date on from which it was read: the studio may have them.
    """

    weekly: tuple[WeeklyEvent, ...] = ()
    lessons: tuple[SingleLesson, ...] = ()
    called_off: tuple[WeeklyEvent | SingleLesson, ...] = ()
    ended: tuple[EndedSeries, ...] = ()
    left_out: tuple[str, ...] = ()

    def of_others(self, studio_uid: str) -> "EventsReading":
        """The events that this studio did not hand out itself: those it has already."""
        own = f"@{studio_uid}"
        weekly = tuple(event for event in self.weekly if not event.uid.endswith(own))
        lessons = tuple(lesson for lesson in self.lessons if not lesson.uid.endswith(own))
        called_off = tuple(event for event in self.called_off if not event.uid.endswith(own))
        passed_over = sum(map(len, (self.weekly, self.lessons, self.called_off)))
        passed_over -= sum(map(len, (weekly, lessons, called_off)))
        told = (f"{counted(passed_over, 'event')} of this studio's own calendar",) if passed_over else ()
        return replace(self, weekly=weekly, lessons=lessons, called_off=called_off, left_out=(*told, *self.left_out))

    def named(self, names: Mapping[str, str | None]) -> "EventsReading":
        """The events under the names of the students that their titles stand for; None leaves a title's events out."""
        said = {title: names.get(title, title) for title in self.titles}
        weekly = tuple(
            replace(event, row=replace(event.row, student=name))
            for event in self.weekly
            if (name := said[event.row.student]) is not None
        )
        lessons = tuple(
            replace(lesson, title=name) for lesson in self.lessons if (name := said[lesson.title]) is not None
        )
        unsaid = (title for title, name in said.items() if name is None)
        told = (f"{quoted(title)}: nobody said which student that is." for title in unsaid)
        return replace(self, weekly=weekly, lessons=lessons, left_out=(*told, *self.left_out))

    @property
    def titles(self) -> tuple[str, ...]:
        """What the events are called, each once."""
        titles = [event.row.student for event in self.weekly] + [lesson.title for lesson in self.lessons]
        return tuple(dict.fromkeys(titles))

    @property
    def roster(self) -> RosterReading:
        """The weekly events as rows of a roster. Only what a calendar knows is said: it clears no other column."""
        columns = frozenset({*NEEDED_COLUMNS, "from", "until", "every_weeks"})
        rows = tuple(replace(each.row, every_weeks=each.every_weeks, event_uid=each.uid) for each in self.weekly)
        return RosterReading(rows=rows, columns=columns)
