"""The waiting list: which weekly times are free, or become free, and whom of those who wait they would suit."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.inquiries.known import KnownInquiries
from cockpit.desk.ports import Reading
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.inquiries.to_do import WhoFits
from cockpit.studio.inquiries.wishes import Fit, WeeklyGap, fit_of
from cockpit.studio.lessons.weekly_times import occurrences

_LATELY = timedelta(days=28)
_SOON = timedelta(days=84)
_WEEKS_FREE = 4


class WaitingList:
    """Looks for weekly times that would suit those who wait; the teacher chooses."""

    def __init__(self, known: KnownInquiries, reading: Reading, ahead: LookingAhead) -> None:
        self._known = known
        self._reading = reading
        self._ahead = ahead

    def openings(self, waiting: Sequence[Inquiry]) -> tuple[WhoFits, ...]:
        """The weekly times that have ended lately or end soon, and are nobody's then, with who of the waiting would fit."""
        known = [each for each in waiting if each.zone is not None]
        if not known:
            return ()
        found: list[WhoFits] = []
        today, home = self._known.today, self._known.preferences.home
        for enrollment in self._reading.enrollments(self._reading.people(), today - _LATELY):
            standing = enrollment.standing
            until = standing.until_on
            if until is None or until > today + _SOON or standing.every_weeks != 1:
                continue
            zone = standing.clock(home, enrollment.family.zone)
            after = replace(standing, from_on=max(until, today) + timedelta(days=1), until_on=None)
            begins = home.day_bounds(max(until, today))[0]
            first = next(iter(occurrences(after, zone, begins, begins + timedelta(days=9))), None)
            if first is None:
                continue
            gap = WeeklyGap(first=first.taught_on, at=standing.at, minutes=standing.minutes, zone=zone)
            fits = tuple((each, fit) for each in known if (fit := self._fit(gap, each)) is not None)
            if fits and self._ahead.is_free(gap.starts()[:_WEEKS_FREE], gap.minutes):
                found.append(WhoFits(gap=gap, starts_at=first.starts_at, was=enrollment.student.name, fits=fits))
        return tuple(sorted(found, key=lambda each: each.starts_at))

    def _fit(self, gap: WeeklyGap, inquiry: Inquiry) -> Fit | None:
        if inquiry.zone is None:
            return None
        return fit_of(gap, self._known.wishes(inquiry), inquiry.zone, self._known.preferences.home.date_of)
