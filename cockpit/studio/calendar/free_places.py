"""Places in the week that are free, or become free, for a weekly lesson: what a waiting list is held against."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, datetime, timedelta

from cockpit.studio.calendar.collisions import fits_day
from cockpit.studio.calendar.free_times import FreeTimeLimits, Stretch, free_gaps
from cockpit.studio.calendar.seats import week_of_seats
from cockpit.studio.clocks.moments import WEEK
from cockpit.studio.inquiries.wishes import A_YEAR_OF_WEEKS, WeeklyGap
from cockpit.studio.lessons.breaks import Pause, without_breaks
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, planned
from cockpit.studio.lessons.weekly_times import occurrences
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace

LATELY = timedelta(days=28)
"""How long after its end a weekly time is still told as free."""
_SOON = timedelta(days=84)
_DAY = timedelta(days=1)
_MINUTE = timedelta(minutes=1)
_LONGEST_WAIT = timedelta(days=9)  # a weekly time meets once within it


class FreeWeeks:
    """What no weekly time takes of a year, within her teaching hours; `pauses` give their times away where they do not keep them.

    What is arranged for once, and days off, count for nothing: a weekly place is for good. For a lesson of every week, a
    time of every other week is taken in each; for one of `every_weeks` 2 it is taken in its own.
    """

    def __init__(
        self,
        enrollments: Sequence[Enrollment],
        pauses: Sequence[Pause],
        today: date,
        preferences: Preferences,
        every_weeks: int = 1,
    ) -> None:
        self._preferences = preferences
        home = preferences.home
        begins, _ = home.day_bounds(today - _DAY)
        ends, _ = home.day_bounds(today + _SOON + timedelta(weeks=A_YEAR_OF_WEEKS + 1))
        taken = [
            replace(each, standing=replace(each.standing, every_weeks=min(each.standing.every_weeks, every_weeks)))
            for each in enrollments
        ]
        held, _ = without_breaks(
            planned(taken, home, begins, ends), [each for each in pauses if not each.keeps_time], home
        )
        self._held: dict[date, list[ScheduledLesson]] = defaultdict(list)
        for booking in held:
            self._held[home.date_of(booking.lesson.starts_at)].append(booking)
        self._free: dict[date, list[Stretch]] = {}

    def holds(self, starts_at: datetime, minutes: int, zone: str) -> bool:
        """Whether a lesson at a moment (UTC) would be at nobody else's time, in her hours, and by day on the clock of an IANA zone."""
        ends_at = starts_at + minutes * _MINUTE
        on = self._preferences.home.date_of(starts_at)
        if not any(begins <= starts_at and ends_at <= ends for begins, ends in self._on(on)):
            return False
        return fits_day(starts_at, ends_at, zone, self._preferences)

    def _on(self, on: date) -> list[Stretch]:
        if on not in self._free:
            near = [each for day in (on - _DAY, on, on + _DAY) for each in self._held.get(day, ())]
            self._free[on] = free_gaps(FreeTimeLimits(bookings=near, preferences=self._preferences), on)
        return self._free[on]


def free_places(
    enrollments: Sequence[Enrollment], pauses: Sequence[Pause], today: date, preferences: Preferences
) -> tuple[WeeklyGap, ...]:
    """The places of the week that are free: in her hours, where somebody ends or pauses, between times of every other week.

    Her teaching hours count where these are known. `enrollments` are those that hold from `LATELY` before today on. In hours that are known, what has become free already is a part of what is free
    there.
    """
    knows_hours = bool(preferences.teaching.days)
    since = today if knows_hours else today - LATELY
    places = list(_seats(enrollments, pauses, today, preferences)) if knows_hours else []
    places += _ended(enrollments, since, today, preferences)
    places += _paused(
        enrollments, [each for each in pauses if not knows_hours or each.from_on > today], today, preferences
    )
    places += _between_turns(enrollments, today, preferences)
    return tuple(places)


def _seats(
    enrollments: Sequence[Enrollment], pauses: Sequence[Pause], today: date, preferences: Preferences
) -> Iterator[WeeklyGap]:
    home = preferences.home
    for day in week_of_seats(enrollments, pauses, today, preferences):
        for begins, ends in day.spans:
            at = home.local(begins).time()
            yield WeeklyGap(first=day.on, at=at, minutes=(ends - begins) // _MINUTE, zone=home.zone)


def _ended(
    enrollments: Sequence[Enrollment], since: date, today: date, preferences: Preferences
) -> Iterator[WeeklyGap]:
    for each in enrollments:
        until = each.standing.until_on
        if until is not None and since <= until <= today + _SOON:
            yield from _from(each, max(until, today) + _DAY, preferences)


def _paused(
    enrollments: Sequence[Enrollment], pauses: Sequence[Pause], today: date, preferences: Preferences
) -> Iterator[WeeklyGap]:
    for pause in pauses:
        if pause.keeps_time or pause.last_on < today or pause.from_on > today + _SOON:
            continue
        for each in enrollments:
            if each.student.id == pause.student_id:
                yield from _from(each, max(pause.from_on, today), preferences, is_paused=True)


def _between_turns(enrollments: Sequence[Enrollment], today: date, preferences: Preferences) -> Iterator[WeeklyGap]:
    """The other weeks of each time of every other week that goes on."""
    for each in enrollments:
        standing, zone = each.standing, each.standing.clock(preferences.home, each.family.zone)
        goes_on = standing.until_on is None or standing.until_on > today + _SOON
        if standing.every_weeks == 1 or not goes_on:
            continue
        begins = preferences.home.day_bounds(max(today, standing.from_on or today))[0] - _DAY
        turn = next(occurrences(standing, zone, begins, begins + 2 * _LONGEST_WAIT))
        first = turn.taught_on + (-WEEK if turn.taught_on - WEEK > today else WEEK)
        yield WeeklyGap(
            first=first, at=standing.at, minutes=standing.minutes, zone=zone, every_weeks=standing.every_weeks
        )


def _from(
    enrollment: Enrollment, first_on: date, preferences: Preferences, *, is_paused: bool = False
) -> Iterator[WeeklyGap]:
    """The place of a weekly time from a date of its clock on, on that clock."""
    standing = enrollment.standing
    zone = standing.clock(preferences.home, enrollment.family.zone)
    free = replace(standing, from_on=first_on, until_on=None, every_weeks=1)
    begins = preferences.home.day_bounds(first_on - _DAY)[0]
    first = next(iter(occurrences(free, zone, begins, begins + _LONGEST_WAIT)), None)
    if first is not None:
        was = enrollment.student.name
        yield WeeklyGap(
            first=first.taught_on, at=standing.at, minutes=standing.minutes, zone=zone, was=was, is_paused=is_paused
        )
