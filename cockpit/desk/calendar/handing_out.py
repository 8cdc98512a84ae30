"""The calendar that is handed out, of the studio or of one family, as values."""

from datetime import date, timedelta

from cockpit.desk.lookup import family_named
from cockpit.desk.ports import Clock, Reading
from cockpit.studio.calendar.basis import calendar_basis
from cockpit.studio.calendar.shared import Edition, SharedCalendar, Timetable, shared_calendar
from cockpit.studio.clocks.horizons import A_YEAR, EVER
from cockpit.studio.people.people import Family
from cockpit.studio.preferences import Preferences

_DAY = timedelta(days=1)


class HandingOut:
    """Hands the calendar out, from the beginning of the studio year on."""

    def __init__(self, reading: Reading, clock: Clock, preferences: Preferences) -> None:
        self._reading = reading
        self._clock = clock
        self._preferences = preferences

    def calendar(self, weeks: int | None, family: str | Family | None) -> SharedCalendar:
        """The lessons of the studio, or of a family or its name; up to so many weeks from now on, or without an end.

        It begins with the studio year, so that the series in it begin at the same lesson for a year.

        Raises:
            NotFound: there is no such family.
        """
        home = self._preferences.home
        now = self._clock.now()
        today = home.date_of(now)
        begins_on = self._preferences.year_of(today)
        begins, _ = home.day_bounds(begins_on)
        ends = None if weeks is None else home.day_bounds(today + weeks * 7 * _DAY)[0]
        people = self._reading.people()
        timetable = Timetable(
            enrollments=self._reading.enrollments(people, date.min),
            recorded=self._reading.lessons_between(begins - A_YEAR, now + EVER),
            people=people,
            breaks=self._reading.breaks(),
            withdrawn_lessons=self._reading.withdrawn_lessons(),
            withdrawn_times=self._reading.withdrawn_times(),
            withdrawn_clocks=self._reading.withdrawn_clocks(),
            home=home,
        )
        uid, revision = self._reading.calendar_edition()
        # A cockpit that writes counts this one when it is opened next.
        is_newer = self._reading.calendar_basis() != calendar_basis(home.zone, begins_on)
        edition = Edition(
            uid=uid,
            revision=revision + is_newer,
            made_at=now.replace(microsecond=0),
            begins=begins,
            ends=ends,
            family=family_named(people, family) if isinstance(family, str) else family,
        )
        return shared_calendar(timetable, edition)
