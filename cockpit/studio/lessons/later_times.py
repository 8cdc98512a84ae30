"""A weekly time that becomes another one: from now on, since what was before stays as it was."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta

from cockpit.studio.clocks.horizons import A_MEETING, EVER
from cockpit.studio.clocks.moments import WEEK, Zone, day_bounds, local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import Enrollment
from cockpit.studio.lessons.weekly_times import Occurrence, StandingTime, names_date, occurrences
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)


class Clocks(Value):
    """The clocks that a weekly time can be kept in, and the moment that it is (UTC)."""

    home: TeacherClock
    family_zone: Zone
    now: datetime

    @property
    def today(self) -> date:
        """The teacher's date."""
        return self.home.date_of(self.now)

    def meetings(self, standing: StandingTime, begins: datetime, ends: datetime) -> Iterator[Occurrence]:
        """The meetings of a weekly time that start in [begins, ends), both UTC."""
        return occurrences(standing, self.zone_of(standing), begins, ends)

    def zone_of(self, standing: StandingTime) -> Zone:
        """The zone of the clock that a weekly time is kept in."""
        return standing.clock(self.home, self.family_zone)


class Reshaped(Value):
    """A weekly time as it was, what it became, and the first date, on its own clock, for which it is another one.

    `after` are more than one where an earlier one holds again for some weeks.
    """

    before: StandingTime
    after: tuple[Enrollment, ...]
    since: date


def is_another_time(before: StandingTime, after: StandingTime) -> bool:
    """Whether a change of a weekly time moves its lessons."""
    return _times(before) != _times(after)


def has_begun(standing: StandingTime, clocks: Clocks) -> bool:
    """Whether the weekly time has named a lesson by now."""
    if standing.from_on is None:
        return True
    begins, _ = day_bounds(standing.from_on - _DAY, "UTC")
    return next(clocks.meetings(standing, begins, clocks.now), None) is not None


def first_to_come(standing: StandingTime, begins: date | None, clocks: Clocks) -> date:
    """The first date, from one on or from today on, from which a weekly time has all its lessons still to come.

    Every second week is the same one as before.
    """
    first = _in_turn(standing, max(begins or clocks.today, clocks.today))
    passed = clocks.meetings(replace(standing, from_on=first, until_on=None), clocks.now - WEEK, clocks.now)
    last = max((meeting.taught_on for meeting in passed), default=None)
    return first if last is None else _in_turn(standing, last + _DAY)


def has_met_since(standing: StandingTime, since: date, clocks: Clocks) -> bool:
    """Whether a weekly time has named a lesson on a date or later, by now."""
    begins = day_bounds(since, clocks.zone_of(standing))[0]
    return next(clocks.meetings(standing, begins, clocks.now), None) is not None


def from_now_on(before: StandingTime, wanted: StandingTime, clocks: Clocks) -> tuple[StandingTime, StandingTime | None]:
    """A weekly time with its end, and what it is from then on; None where that names no lesson any more.

    Nobody gets two lessons in this week by it, or none: where the old one has had its lesson, or the new one has none
    left while the old one has, the change begins with the next week. A date to come, in `wanted`, goes before that.
    """
    if wanted.from_on is not None and wanted.from_on > clocks.today:
        return replace(before, until_on=wanted.from_on - _DAY), wanted
    begins = _begins(before, wanted, clocks)
    first = next(clocks.meetings(wanted, begins, begins + A_MEETING), None)
    earliest = local_time(begins, clocks.zone_of(wanted)).date()
    if first is None:
        return _ended(before, begins, earliest, clocks), None
    # From the Monday before its first lesson, where that is not too early: a later change has the whole week then.
    monday = first.taught_on - first.taught_on.weekday() * _DAY
    ended = _ended(before, begins, max(monday, earliest), clocks)
    follows = date.min if ended.until_on is None else ended.until_on + _DAY
    return ended, replace(wanted, from_on=min(max(monday, earliest, follows), first.taught_on))


def ended_now(standing: StandingTime, clocks: Clocks) -> StandingTime:
    """A weekly time that names no lesson from now on."""
    return _ended(standing, clocks.now, local_time(clocks.now, clocks.zone_of(standing)).date(), clocks)


def _ended(standing: StandingTime, at: datetime, since: date, clocks: Clocks) -> StandingTime:
    """A weekly time with its last meeting before a moment (UTC), and its end before a date where that can be."""
    had = [meeting.taught_on for meeting in clocks.meetings(standing, at - A_MEETING, at)]
    to_come = next(clocks.meetings(standing, at, at + EVER), None)
    if to_come is None:
        return standing
    ends = min(since, to_come.taught_on) - _DAY
    return replace(standing, until_on=max(ends, had[-1]) if had else ends)


def _in_turn(standing: StandingTime, begins: date) -> date:
    """The first day, from one on, that a weekly time of every second week names; for every week that is `begins`."""
    if standing.every_weeks == 1:
        return begins
    days = (begins + day * _DAY for day in range(2 * WEEK.days))
    lasting = replace(standing, until_on=None)
    return next((day for day in days if names_date(lasting, day)), begins)


def _begins(before: StandingTime, wanted: StandingTime, clocks: Clocks) -> datetime:
    """The moment from which on the new one holds: now, or the beginning of the teacher's next week."""
    monday = clocks.today - clocks.today.weekday() * _DAY
    begins, ends = clocks.home.day_bounds(monday)[0], clocks.home.day_bounds(monday + WEEK)[0]
    old = [meeting.starts_at for meeting in clocks.meetings(before, begins, ends)]
    has_new = next(clocks.meetings(wanted, clocks.now, ends), None) is not None
    has_had, has_more = any(at < clocks.now for at in old), any(at >= clocks.now for at in old)
    return ends if has_had or (has_more and not has_new) else clocks.now


def _times(standing: StandingTime) -> tuple[object, ...]:
    return standing.weekday, standing.at, standing.minutes, standing.kept_in, standing.every_weeks
