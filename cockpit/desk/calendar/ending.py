"""Weekly times that end, or end later than they did."""

from datetime import date, timedelta

from cockpit.desk.calendar.afterwards import arranged, left_over
from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import bookings_between
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import grouped, takes_place
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.horizons import A_YEAR
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import long_date, month_and_day, possessive
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.breaks import without_breaks
from cockpit.studio.lessons.lesson import Kind, Lesson, meeting_date
from cockpit.studio.lessons.lineage import origin_of
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, planned
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.values import replace
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)


class Ending:
    """Proposes ends."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines

    def ends(self, standing: StandingTime, booking: ScheduledLesson, until: date) -> Proposal:
        """A weekly time that ends on a date of its clock, or later than it did.

        Raises:
            Refused: another took its place by then.
        """
        refuse_after_what_follows(self._reading, standing, until, until)
        home = self._lines.preferences.home
        after = replace(standing, until_on=until)
        over = left_over(self._reading, standing, self._lines.now().date(), until + _DAY)
        sentences = [
            self.goes_on(standing, booking, until, "end"),
            *self._come_back(standing, booking, until),
            arranged(over, home),
            self._lines.noted(over),
            self._booked(booking, until, over),
            self._lines.still_owed(booking),
        ]
        last = self.last_lesson(Enrollment(standing=after, student=booking.student, family=booking.family), until)
        day = f"on or before {long_date(until)}" if last is None else self._on_both_clocks(last)
        understood = f"{possessive(booking.student.name)} weekly time ends. The last lesson is {day}."
        if last is not None and home.date_of(last.lesson.starts_at).weekday() != until.weekday():
            understood += f" {month_and_day(until)} is a {WEEKDAYS[until.weekday()]}."
        return Proposal(
            understood=understood,
            edits=(Edit(before=standing, after=after),),
            said="ending a weekly time",
            troubles=tuple(each for each in sentences if each is not None),
        )

    def last_lesson(self, enrollment: Enrollment, until: date) -> ScheduledLesson | None:
        """The last lesson of a weekly time that ends; None where none is left."""
        home = self._lines.preferences.home
        meetings = planned([enrollment], home, self._lines.now(), home.day_bounds(until + 2 * _DAY)[1])
        kept, _ = without_breaks(meetings, self._reading.breaks(), home)
        return kept[-1] if kept else None

    def goes_on(self, standing: StandingTime, booking: ScheduledLesson, until: date, verb: str) -> str | None:
        """A sentence on the lessons that there are after an end all the same, by a change to come; None without any.

        `verb` is what she may want to do to those too.
        """
        home = self._lines.preferences.home
        for later in _following(self._reading, standing, until):
            begins, _ = home.day_bounds((later.from_on or until) - _DAY)
            enrollment = Enrollment(standing=later, student=booking.student, family=booking.family)
            kept, _ = without_breaks(
                planned([enrollment], home, begins, begins + A_YEAR), self._reading.breaks(until), home
            )
            if kept:
                at = self._lines.at(kept[0].lesson.starts_at, kept[0])
                return f"Lessons continue from {at}. To {verb} those too, choose one of them."
        return None

    def _come_back(self, standing: StandingTime, booking: ScheduledLesson, until: date) -> list[str]:
        """Lists the problems of lessons that come back when a weekly time ends later."""
        if standing.until_on is None or until <= standing.until_on:
            return []
        home = self._lines.preferences.home
        enrollment = Enrollment(
            standing=replace(standing, until_on=until), student=booking.student, family=booking.family
        )
        begins, ends = home.day_bounds(standing.until_on)[0], home.day_bounds(until + _DAY)[1]
        meetings = [
            each
            for each in planned([enrollment], home, begins, ends)
            if (meeting_date(each.lesson) or date.min) > standing.until_on
        ]
        kept, _ = without_breaks(meetings, self._reading.breaks(), home)
        today = home.date_of(self._lines.now())
        return [group_sentence(group, home, today) for group in grouped(self._ahead.troubles_of(kept))]

    def _on_both_clocks(self, booking: ScheduledLesson) -> str:
        home, at = self._lines.preferences.home, booking.lesson.starts_at
        there = home.there(at, booking.family.zone)
        return f"{long_date(home.date_of(at))}, {home.time(at)}" + (f" · {there}" if there else "")

    def _booked(self, booking: ScheduledLesson, until: date, over: tuple[Lesson, ...]) -> str | None:
        """A sentence on the student's single lessons after an end, which it does not take away; None without any.

        Those of the weekly time itself that were arranged, `over`, are told by themselves.
        """
        home, told = self._lines.preferences.home, {lesson.id for lesson in over}
        begins = home.day_bounds(max(until + _DAY, self._lines.today()))[0]
        single = [
            each
            for each in bookings_between(self._reading, begins, begins + A_YEAR, home, booking.student.id)[0]
            if takes_place(each) and each.lesson.kind is not Kind.WEEKLY and each.lesson.id not in told
        ]
        said = "; ".join(f"{each.lesson.kind}, {self._lines.at(each.lesson.starts_at, each)}" for each in single)
        return f"Lessons after it that you booked by themselves will still take place: {said}." if said else None


def refuse_after_what_follows(reading: Reading, standing: StandingTime, on: date, until: date) -> None:
    """Refuses what is from a date `on` after the end of a weekly time, where another took its place by `until`.

    Raises:
        Refused.
    """
    ends = standing.until_on
    if ends is None or on <= ends:
        return
    if any((each.from_on or date.min) <= until for each in _following(reading, standing, ends)):
        raise Refused(
            f"This weekly time ends on {long_date(ends)}. Choose a lesson after that day and change it there."
        )


def _following(reading: Reading, standing: StandingTime, after: date) -> list[StandingTime]:
    """Those that took the place of a weekly time, or can have, and begin after a date; in order."""
    known = {each.id: each for each in reading.standing_times()}
    followed = {each.id: each.follows for each in known.values()}
    first = origin_of(standing.id, followed.get)
    same = (standing.student_id, standing.instrument)
    found = [
        each
        for each in known.values()
        if each.from_on is not None
        and each.from_on > after
        and each.id != standing.id
        # Where nothing says whose place one took, it may be that of any other of the student's on the instrument.
        and (
            origin_of(each.id, followed.get) == first
            or (each.follows is None and (each.student_id, each.instrument) == same)
        )
    ]
    return sorted(found, key=lambda each: (each.from_on or date.min, each.id))
