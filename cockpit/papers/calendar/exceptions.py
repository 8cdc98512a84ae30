"""The exceptions to a weekly event of a calendar file: meetings that are left out, cancelled or moved."""

from collections.abc import Iterable, Mapping
from datetime import date, datetime

from icalendar import Event

from cockpit.papers.calendar import entry
from cockpit.papers.calendar.entry import Clocked
from cockpit.studio.calendar.events import MovedMeeting, SingleLesson, WeeklyEvent
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import name_key
from cockpit.studio.values import Value, field, replace


class EventFound(Value):
    """The lessons that an event is, and what became of its exceptions.

    `taken` are those of meetings to come, and `alone` those that name none of its meetings. `bad` says of each that
    cannot be read what is wrong, and `idle` which dates are left out that have no meeting.
    """

    lessons: SingleLesson | list[WeeklyEvent]
    taken: list[Event] = field(default_factory=list)
    alone: list[Event] = field(default_factory=list)
    bad: list[str] = field(default_factory=list)
    idle: list[str] = field(default_factory=list)


class Series(Value):
    """A weekly event: its first start, and what it is on each of its weekdays (Monday is 0).

    `begins` is the date from which on exceptions count.
    """

    starts: Clocked
    weekly: Mapping[int, WeeklyEvent]
    home_zone: Zone
    begins: date

    def with_exceptions(self, event: Event, exceptions: Iterable[Event]) -> EventFound:
        """The weekly events with their exceptions.

        A meeting whose exception cannot be read stays as the rule has it, and that is told.

        Raises:
            BadInput: an exception changes all meetings after it.
        """
        title = entry.title_of(event)
        left_out = {each: self._meeting(each) for each in entry.left_out_of(event)}
        cancelled = {on for on in left_out.values() if on is not None}
        idle = {self._day(each) for each, on in left_out.items() if on is None}
        found = EventFound(
            lessons=[],
            idle=[
                f"it leaves out {long_date(on)}, but it has no lesson then" for on in sorted(idle) if on >= self.begins
            ],
        )
        moved: dict[date, MovedMeeting] = {}
        for exception in exceptions:
            entry.refuse_for_all_that_follow(exception, self.starts.zone, self.home_zone)
            try:
                on = self._meeting(entry.meeting_of(exception))
                if on is None:
                    found.alone.append(exception)
                elif entry.is_cancelled(exception):
                    cancelled.add(on)
                else:
                    meeting = self._moved(exception, on, title)
                    moved |= {} if meeting is None else {on: meeting}
                    found.taken.extend([exception] if meeting is not None or on >= self.begins else [])
            except BadInput as fault:
                found.bad.append(f"{fault}. That lesson stays as the rule has it")
        return replace(found, lessons=[self._excepted(each, cancelled, moved) for each in self.weekly.values()])

    def _day(self, named: Clocked | date) -> date:
        return entry.day_of(named, self.starts.zone, self.home_zone)

    def _meeting(self, named: Clocked | date) -> date | None:
        """The date of the meeting of the rule that an exception names; None if the rule has none there."""
        on = self._day(named)
        if isinstance(named, Clocked):
            local = named.on_clock(self.starts.zone, self.home_zone)
            if local.time() != self.starts.local.time():
                return None
        event = self.weekly.get(on.weekday())
        if event is None or event.row.from_on is None:
            return None
        is_met = on >= event.row.from_on and (on - event.row.from_on).days % (7 * event.every_weeks) == 0
        return on if is_met and (event.row.until_on is None or on <= event.row.until_on) else None

    def _moved(self, exception: Event, on: date, title: str) -> MovedMeeting | None:
        """The meeting at its other time or with its other title; None if it is over, or as the rule has it."""
        by_rule = self._moment(datetime.combine(on, self.starts.local.time()))
        own = entry.text_of(exception, "SUMMARY")
        is_other = bool(own) and name_key(own) != name_key(title)
        try:
            starts_at, minutes = self._new_time(exception)
            new_title = entry.lesson_title_of(exception) if is_other else None
        except BadInput as fault:
            if on < self.begins:
                return None
            raise BadInput(f"its lesson on {long_date(on)} cannot be imported: {fault}") from fault
        is_over = on < self.begins and starts_at < self._moment(datetime.combine(self.begins, datetime.min.time()))
        is_as_usual = (starts_at, minutes) == (by_rule, self.weekly[on.weekday()].row.minutes)
        if is_over or (is_as_usual and not is_other):
            return None
        return MovedMeeting(
            taught_on=on,
            starts_at=starts_at,
            minutes=minutes,
            title=new_title,
            is_at_its_time=is_as_usual,
        )

    def _new_time(self, exception: Event) -> tuple[datetime, int]:
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
