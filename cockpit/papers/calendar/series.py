"""One event of a calendar file with the exceptions to it, as weekly lessons or as a single one."""

from collections.abc import Sequence
from datetime import date, datetime, timedelta
from functools import lru_cache

from icalendar import Event

from cockpit.papers.calendar import entry
from cockpit.papers.calendar.entry import Clocked
from cockpit.papers.calendar.exceptions import EventFound, Series
from cockpit.papers.calendar.rule import repeats, weekly_rule
from cockpit.studio.calendar.events import SingleLesson, WeeklyEvent, beginnings, last_date
from cockpit.studio.clocks.moments import Zone, day_bounds, lesson_zone, local_time
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.roster.columns import RosterRow
from cockpit.studio.values import replace

_COMPARED_WEEKS = 160  # three years: zones that agree as long are one clock


class SeriesReader:
    """Reads events for a teacher who lives in `home_zone`, from the date `begins` on her clock on."""

    def __init__(self, home_zone: Zone, begins: date) -> None:
        self.begins = begins
        self._home_zone = home_zone
        self._begins_at, _ = day_bounds(begins, home_zone)

    def is_past(self, event: Event) -> bool:
        """Whether the event, with all its meetings, lies before the time that is asked for.

        Raises:
            BadInput: its time or its rule cannot be imported.
        """
        value = entry.value_of(event, "DTSTART")
        if repeats(event):
            ends = self.last_date_of(event)
            return ends is not None and ends < self.begins
        on = entry.whole_day(value)
        return on < self.begins if on is not None else entry.clocked(value).at(self._home_zone) < self._begins_at

    def last_date_of(self, event: Event) -> date | None:
        """A date after which an event that repeats has no meeting; None where it has no end.

        Raises:
            BadInput: its time or its rule cannot be imported.
        """
        starts = entry.clocked(entry.value_of(event, "DTSTART"))
        return last_date(weekly_rule(event, starts, self._home_zone))

    def alone(self, event: Event, uid: str) -> SingleLesson:
        """A meeting of a series that has no such meeting, as a lesson by itself."""
        single = self._single(event, f"{uid}/{entry.stamp_of(event, 'RECURRENCE-ID')}")
        entry.refuse_for_all_that_follow(event, None, self._home_zone)
        if repeats(event):
            raise BadInput("it is an exception to a rule but has a rule of its own")
        return single

    def read(self, event: Event, uid: str, number: int, exceptions: Sequence[Event]) -> EventFound:
        """The lessons that an event is, and what became of its exceptions.

        Raises:
            BadInput: why it cannot be taken; then nothing of it is.
        """
        if not repeats(event):
            return EventFound(lessons=self._single(event, uid), alone=[*exceptions])
        starts = entry.clocked(entry.value_of(event, "DTSTART"))
        rule = weekly_rule(event, starts, self._home_zone)
        row = replace(self._row(event, number, starts), event_uid=uid, every_weeks=rule.every_weeks)
        ends = last_date(rule)
        weekly = {
            on.weekday(): WeeklyEvent(row=replace(row, weekday=on.weekday(), from_on=on, until_on=ends))
            for on in beginnings(rule)
            if ends is None or on <= ends
        }
        series = Series(starts=starts, weekly=weekly, home_zone=self._home_zone, begins=self.begins)
        return series.with_exceptions(event, exceptions)

    def _single(self, event: Event, uid: str) -> SingleLesson:
        starts = entry.clocked(entry.value_of(event, "DTSTART"))
        return SingleLesson(
            uid=uid,
            title=entry.lesson_title_of(event),
            starts_at=starts.at(self._home_zone),
            minutes=entry.minutes_of(event, starts, self._home_zone),
            call_link=entry.call_link_of(event),
        )

    def _row(self, event: Event, number: int, starts: Clocked) -> RosterRow:
        """The row of a roster, with the weekday and the dates of the first meeting."""
        on = starts.local.date()
        is_hers = starts.zone is None or _is_one_clock(
            starts.zone, lesson_zone(self._home_zone, max(on, self.begins)), self._begins_at
        )
        if starts.zone == "UTC" and not is_hers:
            raise BadInput("it repeats in UTC, which is no one's clock; give it a time zone")
        return RosterRow(
            line=number,
            student=entry.lesson_title_of(event),
            weekday=on.weekday(),
            at=starts.local.time(),
            minutes=entry.minutes_of(event, starts, self._home_zone),
            zone=None if is_hers else starts.zone,
            kept_in=KeptIn.TEACHER if is_hers else KeptIn.FAMILY,
            call_link=entry.call_link_of(event),
        )


@lru_cache(maxsize=256)
def _is_one_clock(one: str, other: str, begins: datetime) -> bool:
    """Whether two zones show the same time from a moment (UTC) on, for as long as anybody knows."""
    if one == other:
        return True
    weeks = (begins + timedelta(weeks=week) for week in range(_COMPARED_WEEKS))
    return all(local_time(at, one).utcoffset() == local_time(at, other).utcoffset() for at in weeks)
