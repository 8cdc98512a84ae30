"""Seats: how many more weekly lessons fit into the teaching hours of each weekday."""

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from cockpit.studio.calendar.free_times import FreeTimeLimits, Stretch, free_gaps
from cockpit.studio.lessons.breaks import Pause, without_breaks
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import ends_before_it_begins
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value, replace

LENGTHS = (30, 45, 60)
"""The minutes of the lessons that are counted; common practice, no source."""
_DAY = timedelta(days=1)
_MINUTE = timedelta(minutes=1)


class DaySeats(Value):
    """A day with the stretches (UTC) that no weekly time takes; `seats` are how many lessons fit, for each of `LENGTHS`."""

    on: date
    spans: tuple[Stretch, ...]
    seats: tuple[int, ...]


def seats_in(spans: Iterable[Stretch], minutes: int, gap_minutes: int) -> int:
    """How many lessons of so many minutes fit, each a gap from the next; the spans are a gap away from other lessons already."""
    room = timedelta(minutes=gap_minutes)
    return sum((ends - begins + room) // (minutes * _MINUTE + room) for begins, ends in spans)


def week_of_seats(
    enrollments: Sequence[Enrollment], pauses: Sequence[Pause], since: date, preferences: Preferences
) -> tuple[DaySeats, ...]:
    """The seats of the seven days from a date of the teacher's clock on, Monday first; those without teaching hours left out.

    A time of every other week is taken, and so is one that begins later. A pause gives its time away where it does not
    keep it. What is arranged for once, and days off, count for nothing: a seat is for good.
    """
    home = preferences.home
    begins, ends = home.day_bounds(since - _DAY)[0], home.day_bounds(since + 7 * _DAY)[1]
    taken = [_every_week(each, since) for each in enrollments if not ends_before_it_begins(each.standing)]
    booked = planned(taken, home, begins, ends)
    held, _ = without_breaks(booked, [each for each in pauses if not each.keeps_time], home)
    limits = FreeTimeLimits(bookings=held, preferences=preferences)
    days = sorted((since + number * _DAY for number in range(7)), key=date.weekday)
    return tuple(_seats_on(day, limits) for day in days if preferences.teaching_on(day))


def _every_week(enrollment: Enrollment, since: date) -> Enrollment:
    standing = enrollment.standing
    from_on = standing.from_on if standing.from_on is None else min(standing.from_on, since - 7 * _DAY)
    return replace(enrollment, standing=replace(standing, every_weeks=1, from_on=from_on))


def _seats_on(on: date, limits: FreeTimeLimits) -> DaySeats:
    spans = tuple(free_gaps(limits, on))
    gap = limits.preferences.gap_minutes
    return DaySeats(on=on, spans=spans, seats=tuple(seats_in(spans, minutes, gap) for minutes in LENGTHS))
