"""The exceptions to a weekly event of a calendar file: meetings that are left out, cancelled or moved."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime

from icalendar import Event

from cockpit.papers.calendar import entry
from cockpit.papers.calendar.entry import Clocked
from cockpit.studio.calendar.events import MovedMeeting, WeeklyEvent
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import name_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """A weekly event: its first start, and what it is on each of its weekdays (Monday is 0).

    `begins` is the date from which on exceptions count.
    """

    starts: Clocked
    weekly: Mapping[int, WeeklyEvent]
    home_zone: Zone
    begins: date

    def with_exceptions(
        self, event: Event, exceptions: Iterable[Event]
    ) -> tuple[list[WeeklyEvent], list[Event], list[str]]:
        """The weekly events with their exceptions, those exceptions that name no meeting of theirs, and what is wrong.

        A meeting whose exception cannot be read stays as the rule has it, and that is told.

        Raises:
            BadInput: an exception changes all meetings after it.
        """
        title = entry.title_of(event)
        bad: list[str] = []
        cancelled = {on for left_out in entry.left_out_of(event) if (on := self._meeting(left_out)) is not None}
        moved: dict[date, MovedMeeting] = {}
        alone: list[Event] = []
        for exception in exceptions:
            try:
                on = self._meeting(entry.meeting_of(exception))
                if on is None:
                    alone.append(exception)
                elif entry.is_cancelled(exception):
                    cancelled.add(on)
                elif (meeting := self._moved(exception, on, title)) is not None:
                    moved[on] = meeting
            except BadInput as fault:
                if entry.is_for_all_that_follow(exception):
                    raise
                bad.append(f"{fault}. That lesson stays as the rule has it")
        return [self._excepted(each, cancelled, moved) for each in self.weekly.values()], alone, bad

    def _meeting(self, named: Clocked | date) -> date | None:
        """The date of the meeting of the rule that an exception names; None if the rule has none there."""
        if isinstance(named, Clocked):
            local = named.on_clock(self.starts.zone, self.home_zone)
            if local.time() != self.starts.local.time():
                return None
            on = local.date()
        else:
            on = named
        event = self.weekly.get(on.weekday())
        if event is None or event.row.from_on is None:
            return None
        is_met = on >= event.row.from_on and (on - event.row.from_on).days % (7 * event.every_weeks) == 0
        return on if is_met and (event.row.until_on is None or on <= event.row.until_on) else None

    def _moved(self, exception: Event, on: date, title: str) -> MovedMeeting | None:
        """The meeting at its other time or with its other title; None if it is over, or as the rule has it."""
        by_rule = self._moment(datetime.combine(on, self.starts.local.time()))
        try:
            starts_at, minutes = self._new_time(exception)
        except BadInput as fault:
            if on < self.begins and not entry.is_for_all_that_follow(exception):
                return None
            raise BadInput(f"its lesson on {long_date(on)} cannot be imported: {fault}") from fault
        is_over = on < self.begins and starts_at < self._moment(datetime.combine(self.begins, datetime.min.time()))
        own = entry.text_of(exception, "SUMMARY")
        is_other = bool(own) and name_key(own) != name_key(title)
        is_as_usual = (starts_at, minutes) == (by_rule, self.weekly[on.weekday()].row.minutes)
        if is_over or (is_as_usual and not is_other):
            return None
        return MovedMeeting(
            taught_on=on,
            starts_at=starts_at,
            minutes=minutes,
            title=entry.title_of(exception) if is_other else None,
            is_at_its_time=is_as_usual,
        )

    def _new_time(self, exception: Event) -> tuple[datetime, int]:
        if entry.is_for_all_that_follow(exception):
            raise BadInput("it changes all later lessons")
        starts = entry.clocked(entry.value_of(exception, "DTSTART"))
        return starts.at(self.home_zone), entry.minutes_of(exception, starts, self.home_zone)

    def _moment(self, local: datetime) -> datetime:
        return Clocked(local=local, zone=self.starts.zone).at(self.home_zone)

    def _excepted(
        self, event: WeeklyEvent, cancelled: Iterable[date], moved: Mapping[date, MovedMeeting]
    ) -> WeeklyEvent:
        gone = {on for on in cancelled if on.weekday() == event.row.weekday}
        return replace(
            event,
            cancelled=tuple(sorted(on for on in gone if on >= self.begins)),
            moved=tuple(moved[on] for on in sorted(moved) if on.weekday() == event.row.weekday and on not in gone),
        )
