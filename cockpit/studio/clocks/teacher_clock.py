"""The teacher's clock: where she is, and how she reads the time."""

from datetime import date, datetime

from cockpit.studio.clocks.moments import WEEKDAYS, Zone, day_bounds, lesson_clock, local_time, zone_at
from cockpit.studio.clocks.words import city, clock_time, short_date
from cockpit.studio.values import Value


class TeacherClock(Value):
    """The clock that the teacher lives by: that of a zone, which moves when she does, with 12 or 24 `hours`.

    All moments are UTC. A family's zone moves when the family does.
    """

    zone: Zone
    hours: int = 12

    @property
    def lesson_clock(self) -> Zone:
        """The clock that weekly times on hers are kept on: a move takes them along, a journey does not."""
        return lesson_clock(self.zone)

    def local(self, at: datetime) -> datetime:
        """The aware local time of a moment."""
        return local_time(at, self.zone)

    def date_of(self, at: datetime) -> date:
        """The date of a moment."""
        return local_time(at, self.zone).date()

    def day_bounds(self, on: date) -> tuple[datetime, datetime]:
        """The moments at which a day begins and ends."""
        return day_bounds(on, self.zone)

    def time(self, at: datetime) -> str:
        """The time of day of a moment in her words: `4:05 pm`, or `16:05`."""
        return clock_time(local_time(at, self.zone), self.hours)

    def time_and_half(self, at: datetime) -> tuple[str, str]:
        """The time of day of a moment, and apart from it the half of the day: `4:05` and `pm`, or `16:05` and nothing."""
        digits, _, half = self.time(at).partition(" ")
        return digits, half

    def date_and_time(self, at: datetime) -> str:
        """The date and the time of a moment in her words: `Tue, December 1, 4:05 pm`."""
        local = local_time(at, self.zone)
        return f"{short_date(local.date())}, {clock_time(local, self.hours)}"

    def there(self, at: datetime, family_zone: Zone) -> str | None:
        """A moment on the family's clock where that shows another time than hers, else None.

        With the city, and with the weekday where the day differs too: `2:00 pm Phoenix`, `Wed 3:30 am Kolkata`.
        """
        ours = local_time(at, self.zone).replace(tzinfo=None)
        theirs = local_time(at, family_zone).replace(tzinfo=None)
        if ours == theirs:
            return None
        day = "" if ours.date() == theirs.date() else f"{WEEKDAYS[theirs.weekday()][:3]} "
        return f"{day}{clock_time(theirs, self.hours)} {city(zone_at(family_zone, at))}"

    def both(self, at: datetime, family_zone: Zone) -> str:
        """The time of day of a moment, and the family's where that differs: `3:30 pm (8:30 pm London)`."""
        there = self.there(at, family_zone)
        return f"{self.time(at)} ({there})" if there else self.time(at)
