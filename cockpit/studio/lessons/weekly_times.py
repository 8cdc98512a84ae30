"""Weekly times, and the lessons that they name.

A weekly time is kept as weekday, local time and clock; never as an offset.
"""

from collections.abc import Iterator
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from typing import NewType

from cockpit.studio.clocks.home import moment_in
from cockpit.studio.clocks.moments import WEEK, Zone, lesson_clock, lesson_zone
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value

StandingTimeId = NewType("StandingTimeId", int)
ROSTER = ""
"""Stands in place of an event's UID for what a roster says."""
_FIRST_WEEK = date(2001, 1, 1)


class KeptIn(StrEnum):
    """Whose clock a weekly time belongs to."""

    TEACHER = "teacher"
    FAMILY = "family"


class StandingTime(Value):
    """A lesson every week, or every second one: Monday is weekday 0.

    `at`, `from_on` and `until_on` are read on the clock it is kept in. Weeks are counted from the first lesson day on
    or after `from_on`; without one, from the week of Monday 1 January 2001. `follows` is the one whose place it took,
    and `is_from_file` says that a file's word made it do so. `event_uid` names the event of a calendar that made it.
    Weekly times with one number in `shares` share their lessons, wherever these are at the same time.
    """

    id: StandingTimeId
    student_id: StudentId
    weekday: int
    at: time
    minutes: int
    kept_in: KeptIn = KeptIn.TEACHER
    instrument: str | None = None
    from_on: date | None = None
    until_on: date | None = None
    call_link: str | None = None
    every_weeks: int = 1
    follows: StandingTimeId | None = None
    is_from_file: bool = False
    event_uid: str | None = None
    shares: int | None = None

    def clock(self, home: TeacherClock, family_zone: Zone) -> Zone:
        """The clock that it is kept on: the teacher's own or the family's; journeys do not count."""
        return home.lesson_clock if self.kept_in is KeptIn.TEACHER else lesson_clock(family_zone)


class ImportedTime(Value):
    """A weekly time as a file had it when it was read last; dates and times on the clock it is kept in.

    The file was a calendar with an event of this `event_uid`, or the `ROSTER`. `standing_time_id` is the one that it
    spoke of first: what that became since, by a change from a date on, follows it.
    """

    student_id: StudentId
    standing_time_id: StandingTimeId
    event_uid: str
    weekday: int
    at: time
    minutes: int
    kept_in: KeptIn = KeptIn.TEACHER
    instrument: str | None = None
    from_on: date | None = None
    until_on: date | None = None
    call_link: str | None = None
    every_weeks: int = 1


class Occurrence(Value):
    """One meeting that a weekly time names: its date on the clock it is kept in, and its moment (UTC)."""

    taught_on: date
    starts_at: datetime


def occurrences(standing: StandingTime, zone: Zone, begins: datetime, ends: datetime) -> Iterator[Occurrence]:
    """The meetings that start in [begins, ends), both UTC, for a weekly time kept in `zone`; in order.

    Each is resolved from its own local date, so that a clock change bends one meeting and not those after it.
    A local time that does not exist still counts, at the moment of RFC 5545 3.3.5.
    """
    # A day on each side covers what a zone's date can differ from UTC's.
    first = begins.date() - timedelta(days=1)
    last = ends.date() + timedelta(days=1)
    if standing.from_on is not None:
        first = max(first, standing.from_on)
    if standing.until_on is not None:
        last = min(last, standing.until_on)
    on = _first_meeting(standing, first)
    step = standing.every_weeks * WEEK
    while on <= last:
        starts_at = moment_in(datetime.combine(on, standing.at), lesson_zone(zone, on))
        if begins <= starts_at < ends:
            yield Occurrence(taught_on=on, starts_at=starts_at)
        on += step


def turn_of(standing: StandingTime) -> int:
    """Which of the weeks, of every second one, a weekly time meets in: 0 or 1; 0 for one of every week."""
    return (_first_meeting(standing, _FIRST_WEEK) - _FIRST_WEEK).days // 7


def ends_before_it_begins(standing: StandingTime) -> bool:
    """Whether a weekly time has its first day behind its last one, so that it never meets."""
    if standing.from_on is None or standing.until_on is None:
        return False
    return _first_meeting(standing, standing.from_on) > standing.until_on


def holds_on(standing: StandingTime, on: date) -> bool:
    """Whether a weekly time has begun by a date of its clock and has not ended before it."""
    return (standing.from_on or date.min) <= on <= (standing.until_on or date.max)


def names_date(standing: StandingTime, on: date) -> bool:
    """Whether a weekly time names a meeting on a date of its clock."""
    return holds_on(standing, on) and _first_meeting(standing, on) == on


def _first_meeting(standing: StandingTime, first: date) -> date:
    anchor = standing.from_on or _FIRST_WEEK
    anchor += timedelta(days=(standing.weekday - anchor.weekday()) % 7)
    cycle = 7 * standing.every_weeks
    return first + timedelta(days=(anchor - first).days % cycle)
