"""Free times: where in a week a lesson could be, so that it suits both clocks and lies near no other."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, time, timedelta
from itertools import chain, islice

from cockpit.studio.calendar.collisions import fits_day, takes_place
from cockpit.studio.clocks.moments import moment
from cockpit.studio.lessons.breaks import TimeOff, break_of, is_for_all
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import Value, replace

Stretch = tuple[datetime, datetime]
_DAY = timedelta(days=1)
_DAY_MINUTES = 24 * 60
_MIDNIGHT = time()


class FreeTimeLimits(Value):
    """What a free time has to respect: the lessons that are booked, the breaks, and the teacher's preferences.

    `bookings` hold every lesson of the days that are asked about, in any order; none is longer than a day.
    """

    bookings: Sequence[ScheduledLesson]
    breaks: Sequence[TimeOff] = ()
    preferences: Preferences


def free_times(
    timetable: FreeTimeLimits,
    wanted: ScheduledLesson,
    week_of: date,
    now: datetime,
    limit: int = 5,
    step_minutes: int = 15,
) -> list[datetime]:
    """Up to `limit` UTC starts for a lesson in the week, Monday to Sunday on the teacher's clock, around a date.

    Each is on a step of her clock, or at the time of day that `wanted` has now; lies in her teaching hours on her clock and
    on the family's, in no break of either, and not before `now` (UTC); and keeps the gap that she wants to every other lesson.
    Those on the weekday that it has now come first, then the days next to it; on one day the nearest times.
    """
    weekday = timetable.preferences.home.local(wanted.lesson.starts_at).weekday()
    monday = week_of - week_of.weekday() * _DAY
    days = [monday + number * _DAY for number in range(7)]
    days.sort(key=lambda on: abs(on.weekday() - weekday))
    found = free_times_by_day(timetable, wanted, days, now, step_minutes)
    return list(islice(chain.from_iterable(found), limit))


def free_times_by_day(
    timetable: FreeTimeLimits, wanted: ScheduledLesson, days: Iterable[date], now: datetime, step_minutes: int = 15
) -> Iterator[Iterator[datetime]]:
    """The same for each of some days of her clock, in the order given: all of its starts (UTC), the nearest times first."""
    others = [booking for booking in timetable.bookings if booking.lesson.id != wanted.lesson.id]
    timetable = replace(timetable, bookings=others)
    at = timetable.preferences.home.local(wanted.lesson.starts_at).time()
    length = wanted.lesson.planned_end - wanted.lesson.starts_at
    for on in days:
        starts = _fitting(_steps(on, at, timetable, step_minutes), free_gaps(timetable, on), length)
        yield (each for each in starts if each >= now and _suits(each, wanted, timetable))


def free_gaps(timetable: FreeTimeLimits, on: date) -> list[Stretch]:
    """The stretches of a day, as UTC moments in order, in which a lesson could lie.

    They are within her teaching hours on her clock and keep the gap that she wants to the lessons around them. A break of
    the whole studio leaves none.
    """
    if any(is_for_all(each) and each.from_on <= on <= each.last_on for each in timetable.breaks):
        return []
    return [gap for hours in timetable.preferences.hours_on(on) for gap in _gaps_in(hours, timetable)]


def _gaps_in(hours: Stretch, timetable: FreeTimeLimits) -> list[Stretch]:
    """The stretches of some hours that no lesson is in or near."""
    free_from, ends = hours
    found: list[Stretch] = []
    for taken_from, taken_until in _taken(timetable, free_from, ends):
        if free_from < taken_from:
            found.append((free_from, taken_from))
        free_from = max(free_from, taken_until)
    if free_from < ends:
        found.append((free_from, ends))
    return found


def _taken(timetable: FreeTimeLimits, begins: datetime, ends: datetime) -> list[Stretch]:
    gap = timedelta(minutes=timetable.preferences.gap_minutes)
    busy = (booking.lesson for booking in timetable.bookings if takes_place(booking))
    near = (lesson for lesson in busy if begins - _DAY - gap < lesson.starts_at < ends + gap)
    return sorted((lesson.starts_at - gap, lesson.ends_at + gap) for lesson in near)


def _steps(on: date, at: time, timetable: FreeTimeLimits, step_minutes: int) -> list[datetime]:
    """The UTC moments of a day's steps, and of `at`, that nearest on the clock to `at` first."""
    midnight = datetime.combine(on, _MIDNIGHT)
    locals_ = {midnight + timedelta(minutes=minutes) for minutes in range(0, _DAY_MINUTES, step_minutes)}
    wanted = datetime.combine(on, at)
    nearest = sorted(locals_ | {wanted}, key=lambda local: (abs(local - wanted), local))
    return [moment(local, timetable.preferences.home.zone) for local in nearest]


def _fitting(starts: Sequence[datetime], gaps: Sequence[Stretch], length: timedelta) -> Iterator[datetime]:
    seen: set[datetime] = set()
    for starts_at in starts:
        fits = any(begins <= starts_at and starts_at + length <= ends for begins, ends in gaps)
        # In the hour that the clock skips, two local times are one moment.
        if fits and starts_at not in seen:
            seen.add(starts_at)
            yield starts_at


def _suits(starts_at: datetime, wanted: ScheduledLesson, timetable: FreeTimeLimits) -> bool:
    moved = replace(wanted, lesson=replace(wanted.lesson, starts_at=starts_at, is_moved=True))
    if not fits_day(starts_at, moved.lesson.planned_end, wanted.family.zone, timetable.preferences):
        return False
    return break_of(moved, timetable.breaks, timetable.preferences.home) is None
