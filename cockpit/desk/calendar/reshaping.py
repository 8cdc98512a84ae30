"""Weekly times changed or ended from a date on."""

import re
from dataclasses import replace
from datetime import date, datetime, timedelta

from cockpit.desk.calendar.afterwards import arranged, carried, left_over, same_lessons
from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.ending import Ending, refuse_after_what_follows
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import grouped
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.horizons import A_MEETING, A_YEAR
from cockpit.studio.clocks.moments import WEEK, lesson_zone, local_time
from cockpit.studio.clocks.words import long_date, possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.breaks import without_breaks
from cockpit.studio.lessons.lesson import Lesson, LessonId, meeting_date
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, planned
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId
from cockpit.studio.typed_times.words import NotUnderstood
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)
_FROM = re.compile(r"\s*(?:from|starting|beginning)\s+", re.IGNORECASE)
_LAST = re.compile(r"\s*(?:until|till|through|thru|last|ends?)\s+(?:on\s+)?", re.IGNORECASE)
_WEEKDAY = r"(?=(?:mon|tue|wed|thu|fri|sat|sun))"
_SECOND_WEEK = re.compile(
    r",?\s*every\s+(?:second|other|2nd|2|two)\s+weeks?\b|,?\s*(?:biweekly|fortnightly)\b"
    rf"|,?\s*every\s+(?:second|other|2nd)\s+{_WEEKDAY}",
    re.IGNORECASE,
)
_EVERY_WEEK = re.compile(rf",?\s*every\s+week\b|,?\s*weekly\b|,?\s*every\s+{_WEEKDAY}", re.IGNORECASE)
_DAYS = re.compile(r"\b((?:mon|tues|wednes|thurs|fri|satur|sun)day)s\b", re.IGNORECASE)
_EXAMPLE = 'Try "from jan 12 5 pm 45m", "from jan 12 every other week", or "through dec 18".'


class Reshaping:
    """Proposes what changes many lessons at once."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines
        self._ending = Ending(reading, ahead, lines)

    def change(self, booking: ScheduledLesson, line: str) -> Proposal:
        """A weekly time that is another from a date on, or ends; what was before stays as it was.

        Raises:
            BadInput, Refused.
        """
        standing = next((s for s in self._reading.standing_times() if s.id == booking.lesson.standing_time_id), None)
        if standing is None:
            raise Refused("This lesson is not part of a weekly time. Move it instead.")
        try:
            return self._changed(standing, booking, line)
        except NotUnderstood as fault:
            raise BadInput(f"{fault.found} {_EXAMPLE}") from fault

    def _changed(self, standing: StandingTime, booking: ScheduledLesson, line: str) -> Proposal:
        last = _LAST.match(line)
        if last is None:
            return self._from_a_date(standing, booking, _FROM.sub(" ", line, count=1))
        when = self._lines.when(line[last.end() :], booking)
        return self._ending.ends(standing, booking, self._kept_date(standing, booking, when.starts_at))

    def _from_a_date(self, standing: StandingTime, booking: ScheduledLesson, line: str) -> Proposal:
        every = 2 if _SECOND_WEEK.search(line) else 1 if _EVERY_WEEK.search(line) else standing.every_weeks
        said = _DAYS.sub(r"\1", _EVERY_WEEK.sub(" ", _SECOND_WEEK.sub(" ", line))).strip()
        # "every other week" alone: from the next lesson on, all else as it is.
        when = self._lines.when(said or self._next_of(standing, booking), booking)
        begins = self._kept_date(standing, booking, when.starts_at)
        refuse_after_what_follows(self._reading, standing, begins, date.max)
        if standing.from_on is not None and begins <= standing.from_on:
            raise Refused(
                f"This weekly time starts on {long_date(standing.from_on)}. Change it in the roster, or from a later date."
            )
        is_over = standing.until_on is not None and begins > standing.until_on
        at = local_time(when.starts_at, self._kept_zone(standing, booking, when.starts_at))
        new = replace(
            standing,
            id=StandingTimeId(self._lines.id_number()),
            weekday=at.weekday(),
            at=at.time(),
            minutes=when.minutes or standing.minutes,
            from_on=begins,
            until_on=None if is_over else standing.until_on,
            every_weeks=every,
            follows=standing.id,
            is_from_file=False,
            event_uid=None,
        )
        over = left_over(self._reading, standing, self._lines.now().date(), begins)
        enrollment = Enrollment(standing=new, student=booking.student, family=booking.family)
        home = self._lines.preferences.home
        lesson = replace(
            booking.lesson, id=LessonId("new"), starts_at=when.starts_at, minutes=new.minutes, is_moved=False
        )
        weeks = "every week" if every == 1 else "every other week"
        title = f"New weekly time for {booking.student.name}, {weeks}"
        edits = (
            *(() if is_over else (Edit(before=standing, after=replace(standing, until_on=begins - _DAY)),)),
            *added(new),
            *carried(self._reading, over, standing, [enrollment], home),
        )
        troubles = [
            *self._only_until(new, standing, booking),
            *self._troubles(enrollment, standing, when.starts_at, over),
            *filter(None, [arranged(over, home)]),
        ]
        proposal = self._lines.proposal(replace(booking, lesson=lesson), when, title, edits, troubles)
        return replace(proposal, said=f"changing {possessive(booking.student.name)} weekly time")

    def _only_until(self, new: StandingTime, standing: StandingTime, booking: ScheduledLesson) -> list[str]:
        """What is to be known of the end of a new weekly time, where a change to come stands in for it from then on."""
        if new.until_on is None:
            return []
        goes_on = self._ending.goes_on(standing, booking, new.until_on, "change")
        return [f"This applies through {self._lines.day(new.until_on)}. {goes_on}"] if goes_on is not None else []

    def _next_of(self, standing: StandingTime, booking: ScheduledLesson) -> str:
        """The next meeting of a weekly time after now, and not before a lesson that she stands on, as a line would say it."""
        home = self._lines.preferences.home
        since = max(self._lines.now(), booking.lesson.starts_at)
        enrollment = Enrollment(standing=standing, student=booking.student, family=booking.family)
        meeting = next(iter(planned([enrollment], home, since, since + A_MEETING)), None)
        if meeting is None:
            raise Refused("This weekly time has no lesson in the next three weeks. Add a date.")
        return f"{home.local(meeting.lesson.starts_at):%Y-%m-%d %H:%M}"

    def _troubles(
        self, new: Enrollment, standing: StandingTime, starts_at: datetime, over: tuple[Lesson, ...]
    ) -> list[str]:
        """What is to be known of a new weekly time in the year from a UTC moment on, when it takes the place of another.

        Of the other, those lessons `over` stay that were arranged, also in place of those that the new one names.
        """
        home = self._lines.preferences.home
        same = {each.id for each in same_lessons(over, standing, [new], home).values()}
        meetings = planned([new], home, starts_at - _DAY, starts_at + A_YEAR)
        kept, left_out = without_breaks(meetings, self._reading.breaks(), home)
        before = planned([replace(new, standing=standing)], home, starts_at - WEEK, starts_at + A_YEAR + WEEK)
        begins = new.standing.from_on or date.min
        gone = {each.lesson.id for each in before if (meeting_date(each.lesson) or date.min) >= begins}
        gone -= {lesson.id for lesson in over if not lesson.is_by_rule}
        held = [each for each in kept if each.lesson.id not in same]
        sentences = [group_sentence(group, home) for group in grouped(self._ahead.troubles_of(held, gone))]
        if left_out and left_out[0].booking == meetings[0]:
            sentences.insert(0, self._lines.in_break(left_out[0], self._first_of(kept)))
        return sentences

    def _first_of(self, meetings: list[ScheduledLesson]) -> str:
        if not meetings:
            return "There is no lesson within a year."
        on = self._lines.preferences.home.date_of(meetings[0].lesson.starts_at)
        return f"The first lesson is on {self._lines.day(on)}."

    def _kept_date(self, standing: StandingTime, booking: ScheduledLesson, at: datetime) -> date:
        return local_time(at, self._kept_zone(standing, booking, at)).date()

    def _kept_zone(self, standing: StandingTime, booking: ScheduledLesson, at: datetime) -> str:
        """The zone that the weekly time goes by: while she travels, not the one that her own clock shows."""
        home = self._lines.preferences.home
        return lesson_zone(standing.clock(home, booking.family.zone), home.date_of(at))
