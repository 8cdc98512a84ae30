"""The hours in which a teacher teaches, weekday by weekday, on her own clock."""

from collections.abc import Mapping
from datetime import date, datetime, time

from cockpit.studio.clocks.moments import moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.values import Value, field

MIDNIGHT = time()


class TeachingSpan(Value):
    """A stretch of a day on a clock; one that ends at 0:00 ends at the midnight after it."""

    begins: time
    ends: time

    def moments(self, on: date, home: TeacherClock) -> tuple[datetime, datetime]:
        """When it begins and ends on a date of her clock (UTC)."""
        # Where the zone leaves out the date, these bounds are one moment, and the hours would be another day's.
        midnight, next_midnight = home.day_bounds(on)
        begins = max(midnight, moment(datetime.combine(on, self.begins), home.zone))
        if self.ends == MIDNIGHT:
            return begins, next_midnight
        return begins, min(next_midnight, moment(datetime.combine(on, self.ends), home.zone))

    def holds(self, begins: time, last: time) -> bool:
        """Whether it holds what begins, and has its last instant, at two times of one day."""
        return self.begins <= begins and (self.ends == MIDNIGHT or last < self.ends)


class TeachingHours(Value):
    """The spans of each weekday (Monday is 0) in their order. A day that is missing is not taught on.

    Without any day, nothing is said of them.
    """

    days: Mapping[int, tuple[TeachingSpan, ...]] = field(default_factory=dict)

    def on(self, day: date) -> tuple[TeachingSpan, ...]:
        """The spans of a date."""
        return self.days.get(day.weekday(), ())
