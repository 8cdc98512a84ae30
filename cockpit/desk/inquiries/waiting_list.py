"""The waiting list: which places of the week are free, or become free, and whom of those who wait they would suit."""

from collections.abc import Sequence

from cockpit.desk.inquiries.known import KnownInquiries
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.free_places import LATELY, FreeWeeks, free_places
from cockpit.studio.inquiries.inquiry import Inquiry
from cockpit.studio.inquiries.to_do import WhoFits
from cockpit.studio.inquiries.wishes import WantedLesson, fit_of
from cockpit.studio.lessons.breaks import pauses_in
from cockpit.studio.values import Value

_SHORTEST = 30  # where neither a length nor an age was said; common practice, no source


class WaitingList:
    """Looks for weekly places that would suit those who wait; the teacher chooses."""

    def __init__(self, known: KnownInquiries, reading: Reading) -> None:
        self._known = known
        self._reading = reading

    def openings(self, waiting: Sequence[Inquiry]) -> tuple[WhoFits, ...]:
        """The places that are free, with who of the waiting would fit, in the order in which they wait."""
        wanted = [self._wanted(each, each.zone) for each in waiting if each.zone is not None]
        if not wanted:
            return ()
        today, preferences = self._known.today, self._known.preferences
        enrollments = self._reading.enrollments(self._reading.people(), today - LATELY)
        pauses = pauses_in(self._reading.breaks(today))
        places = free_places(enrollments, pauses, today, preferences)
        weeks = {
            every: FreeWeeks(enrollments, pauses, today, preferences, every)
            for every in {each.every_weeks for each in places}
        }
        found: list[WhoFits] = []
        for gap in places:
            fits = tuple(
                (each.inquiry, fit)
                for each in wanted
                if (fit := fit_of(gap, each.lesson, preferences.home.date_of, weeks[gap.every_weeks].holds)) is not None
            )
            if fits:
                found.append(WhoFits(gap=gap, starts_at=gap.starts()[0], fits=fits))
        return tuple(sorted(found, key=lambda each: each.starts_at))

    def _wanted(self, inquiry: Inquiry, zone: str) -> "_Wanted":
        wishes = self._known.wishes(inquiry)
        minutes = wishes.minutes or inquiry.proposed_length(self._known.preferences.inquiry) or _SHORTEST
        return _Wanted(inquiry=inquiry, lesson=WantedLesson(wishes=wishes, minutes=minutes, zone=zone))


class _Wanted(Value):
    inquiry: Inquiry
    lesson: WantedLesson
