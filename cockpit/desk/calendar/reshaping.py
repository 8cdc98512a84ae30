"""Weekly times changed, shared, or ended from a date on."""

import re
from datetime import date, datetime, time, timedelta

from cockpit.desk.calendar.afterwards import arranged, carried, left_over, same_lessons
from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.ending import Ending, refuse_after_what_follows
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import grouped, lessons_of
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.horizons import A_YEAR
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS, Zone, lesson_zone, local_time, moment
from cockpit.studio.clocks.words import city, long_date, month_and_day, possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.breaks import without_breaks
from cockpit.studio.lessons.lesson import Lesson, LessonId, meeting_date
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId, turn_of
from cockpit.studio.people.people import Student, name_key
from cockpit.studio.typed_times.weekly_line import WeeklyLine, read_weekly
from cockpit.studio.typed_times.when import When
from cockpit.studio.values import replace
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)
_WITH = re.compile(r"with +(?P<name>.+?)(?:[ ,]+(?P<rest>from .+))?", re.IGNORECASE)


class Reshaping:
    """Proposes what changes many lessons at once."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines
        self._ending = Ending(reading, ahead, lines)

    def change(self, booking: ScheduledLesson, line: str, instrument: str | None = None) -> Proposal:
        """A weekly time that is another from a date on, also of another `instrument`, or ends; what was before stays as it was.

        Raises:
            BadInput, Refused.
        """
        standing = next((s for s in self._reading.standing_times() if s.id == booking.lesson.standing_time_id), None)
        if standing is None:
            raise Refused("This lesson is not part of a weekly time. Move it instead.")
        if (said := _WITH.fullmatch(line.strip())) is not None:
            return self._sharing(standing, booking, said["name"], said["rest"] or "")
        home, meeting, usual = (
            self._lines.preferences.home,
            self._next_of(standing, booking),
            self._usual(standing, booking),
        )
        around = home.date_of(meeting) if meeting is not None else self._lines.today()
        reference, also = self._lines.reference(around, home.local(usual).time(), booking)
        read = read_weekly(line, reference, usual=usual, also=also)
        if read.when is None:
            until = self._kept_until(standing, booking, read.until_on or around, home.local(usual).time(), home.zone)
            return self._ending.ends(standing, booking, until)
        if read.since is None and read.keeps_weekday and meeting is None:
            raise Refused("This weekly time has no lesson in the next three weeks. Add a date.")
        when = self._kept(read.when, standing, booking) if read.keeps_time else read.when
        self._lines.refuse_past(when)
        return self._from_a_date(standing, booking, replace(read, when=when), when, instrument)

    def _sharing(self, standing: StandingTime, booking: ScheduledLesson, name: str, rest: str) -> Proposal:
        """Another student who shares the lessons of a weekly time, from a date on, with a weekly time at the same time.

        Raises:
            BadInput: no student, or several, are called so.
            Refused: the two weekly times could not stay at the same time.
        """
        other = self._student(name, booking)
        family = self._reading.people().families[other.family_id]
        if standing.kept_in is KeptIn.FAMILY and family.zone != booking.family.zone:
            raise Refused(
                f"This weekly time is on the clock of the {booking.family.name} family, and {other.name} lives by another. "
                "Choose the lesson of a student whose weekly time is on your clock."
            )
        both = replace(standing, shares=standing.shares or int(standing.id))
        mine = () if both == standing else (Edit(before=standing, after=both),)
        today = self._lines.today()
        theirs = [s for s in self._reading.standing_times(today) if s.student_id == other.id]
        if (there := next((s for s in theirs if _is_at(s, standing)), None)) is not None and not rest:
            return Proposal(
                understood=f"{booking.student.name} and {other.name} share their lessons.",
                edits=(*mine, Edit(before=there, after=replace(there, shares=both.shares))),
                said=f"{booking.student.name} and {other.name} share their lessons",
            )
        when = self._first_shared(standing, booking, other, rest)
        home = self._lines.preferences.home
        begins = self._kept_date(standing, booking, when.starts_at)
        before = next((s for s in theirs if (s.from_on or date.min) < begins <= (s.until_on or date.max)), None)
        new = replace(
            both,
            id=StandingTimeId(self._lines.id_number()),
            student_id=other.id,
            instrument=before.instrument if before is not None else None,
            from_on=begins,
            call_link=before.call_link if before is not None else standing.call_link,
            follows=before.id if before is not None else None,
            is_from_file=False,
            event_uid=None,
        )
        over = left_over(self._reading, before, self._lines.now().date(), begins) if before is not None else ()
        enrollment = Enrollment(standing=new, student=other, family=family)
        ended = () if before is None else (Edit(before=before, after=replace(before, until_on=begins - _DAY)),)
        lesson = replace(
            booking.lesson, id=LessonId("new"), student_id=other.id, starts_at=when.starts_at, is_moved=False
        )
        edits = (
            *mine,
            *ended,
            *added(new),
            *(carried(self._reading, over, before, [enrollment], home) if before else ()),
        )
        troubles = [
            *self._troubles(enrollment, before or new, when.starts_at, over, beside=standing.id),
            *filter(None, [arranged(over, home)]),
        ]
        shared = ScheduledLesson(lesson=lesson, student=other, family=family)
        title = f"{other.name} shares the lessons of {booking.student.name}"
        proposal = self._lines.proposal(shared, when, title, edits, troubles)
        instead = f" {possessive(other.name)} own weekly time ends the day before." if before is not None else ""
        return replace(
            proposal,
            understood=f"{proposal.understood}{instead}",
            said=f"{booking.student.name} and {other.name} share their lessons",
        )

    def _first_shared(self, standing: StandingTime, booking: ScheduledLesson, other: Student, rest: str) -> When:
        """The first lesson of a weekly time that another student shares: from the day that the line says on, or the next one."""
        home, meeting = self._lines.preferences.home, self._next_of(standing, booking)
        usual = self._usual(standing, booking)
        around = home.date_of(meeting) if meeting is not None else self._lines.today()
        reference, also = self._lines.reference(around, home.local(usual).time(), booking)
        read = read_weekly(rest or f"from {around.isoformat()}", reference, usual=usual, also=also)
        if read.when is None or not (read.keeps_time and read.keeps_weekday) or read.until_on or read.every:
            raise BadInput(f'After a name only a first day works: "with {other.name.casefold()} from jan 12".')
        when = replace(self._kept(read.when, standing, booking), minutes=standing.minutes)
        self._lines.refuse_past(when)
        return when

    def _student(self, name: str, booking: ScheduledLesson) -> Student:
        """The student of a name; of several, the one of the same family."""
        people = self._reading.people().students.values()
        found = [each for each in people if name_key(each.name) == name_key(name) and each.id != booking.student.id]
        found = [each for each in found if each.family_id == booking.family.id] or found
        if len(found) == 1:
            return found[0]
        several = f"{len(found)} students are called {name}." if found else f'No student is called "{name}".'
        raise BadInput(f'{several} Type the name as it is in the roster, such as "with tobin from jan 12".')

    def _kept(self, when: When, standing: StandingTime, booking: ScheduledLesson) -> When:
        """A first lesson whose time the line leaves as it is: on the clock that the weekly time is kept on."""
        on = when.local.date()
        for kept_on in (on, on - _DAY, on + _DAY):
            zone = self._clock_on(standing, booking, kept_on)
            starts_at = moment(datetime.combine(kept_on, standing.at), zone)
            if self._lines.preferences.home.date_of(starts_at) == on:
                return replace(when, starts_at=starts_at)
        return when

    def _kept_until(self, standing: StandingTime, booking: ScheduledLesson, until: date, at: time, zone: Zone) -> date:
        """The last day on the clock that the weekly time is kept on, of one that was said on a zone's."""
        return self._kept_date(standing, booking, moment(datetime.combine(until, at), zone))

    def _from_a_date(
        self, standing: StandingTime, booking: ScheduledLesson, read: WeeklyLine, when: When, instrument: str | None
    ) -> Proposal:
        every = read.every or standing.every_weeks
        begins = self._kept_date(standing, booking, when.starts_at)
        until = (
            self._kept_until(standing, booking, read.until_on, when.local.time(), when.zone)
            if read.until_on is not None
            else None
        )
        if until is not None:
            refuse_after_what_follows(self._reading, standing, until, until)
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
            until_on=until or (None if is_over else standing.until_on),
            every_weeks=every,
            instrument=instrument or standing.instrument,
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
        ending = self._ending.last_lesson(enrollment, until) if until is not None else None
        last = home.date_of(ending.lesson.starts_at) if ending is not None else None
        stays = self._stays_on(standing, booking, when)
        told = " ".join(filter(None, [stays, self._told(read, when, self._usual(standing, booking), every, last)]))
        return replace(
            proposal,
            understood=f"{proposal.understood} {told}".strip(),
            said=f"changing {possessive(booking.student.name)} weekly time",
        )

    def _stays_on(self, standing: StandingTime, booking: ScheduledLesson, when: When) -> str:
        """A sentence on the clock that a weekly time goes on by, where the family's is another: a line does not change that."""
        kept, home = self._kept_zone(standing, booking, when.starts_at), self._lines.preferences.home
        is_on_hers = standing.kept_in is KeptIn.TEACHER
        if not when.is_away and (is_on_hers or home.there(when.starts_at, booking.family.zone) is None):
            return ""
        whose = "your clock" if is_on_hers else "the family's clock"
        return f"The weekly time stays on {whose}, {city(kept)}."

    def _only_until(self, new: StandingTime, standing: StandingTime, booking: ScheduledLesson) -> list[str]:
        """What is to be known of the end of a new weekly time, where a change to come stands in for it from then on."""
        if new.until_on is None:
            return []
        goes_on = self._ending.goes_on(standing, booking, new.until_on, "change")
        return [f"This applies through {self._lines.day(new.until_on)}. {goes_on}"] if goes_on is not None else []

    def _next_of(self, standing: StandingTime, booking: ScheduledLesson) -> datetime | None:
        """The next meeting (UTC) of a weekly time after now, and not before a lesson that she stands on."""
        since = max(self._lines.now(), booking.lesson.starts_at)
        enrollment = Enrollment(standing=standing, student=booking.student, family=booking.family)
        meeting = next(iter(planned([enrollment], self._lines.preferences.home, since, since + 3 * WEEK)), None)
        return meeting.lesson.starts_at if meeting is not None else None

    def _usual(self, standing: StandingTime, booking: ScheduledLesson) -> datetime:
        """The moment (UTC) of a weekly time in the seven days from today on, also where it has ended."""
        on = self._lines.today()
        on += (standing.weekday - on.weekday()) % 7 * _DAY
        return moment(datetime.combine(on, standing.at), self._clock_on(standing, booking, on))

    def _told(self, read: WeeklyLine, when: When, usual: datetime, every: int, last: date | None) -> str:
        """What is to be said of a first day: of another weekday, of a date that is none, of an end."""
        first, day = when.local.date(), WEEKDAYS[when.local.weekday()]
        said = []
        if not read.keeps_weekday:
            before = WEEKDAYS[local_time(usual, when.zone).weekday()]
            said.append(f"The lessons move from {before}s to {day}s.")
        if read.since is not None and read.since != first:
            since = read.since
            said.append(
                f"{month_and_day(since)}, {since.year} is a {WEEKDAYS[since.weekday()]}; the first {day} from then on is "
                f"{month_and_day(first)}."
            )
        if read.since is None and every > 1 and read.every is not None:
            after = self._lines.day(first + every * WEEK)
            said.append(f"Every other week counts from {self._lines.day(first)}; the next is {after}.")
        if last is not None:
            said.append(f"The last lesson is {self._lines.day(last)}; there are no weekly lessons after it.")
        return " ".join(said)

    def _troubles(
        self,
        new: Enrollment,
        standing: StandingTime,
        starts_at: datetime,
        over: tuple[Lesson, ...],
        beside: StandingTimeId | None = None,
    ) -> list[str]:
        """What is to be known of a new weekly time in the year from a UTC moment on, when it takes the place of another.

        Of the other, those lessons `over` stay that were arranged, also in place of those that the new one names. It shares
        the lessons of the one that it is `beside`.
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
        today = home.date_of(self._lines.now())
        groups = grouped(self._ahead.troubles_of(held, gone))
        groups = [each for each in groups if beside is None or beside not in map(_weekly_time, lessons_of(each.first))]
        sentences = [group_sentence(group, home, today) for group in groups]
        sentences += self._lines.of_pauses(groups, held, new.student)
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
        return self._clock_on(standing, booking, self._lines.preferences.home.date_of(at))

    def _clock_on(self, standing: StandingTime, booking: ScheduledLesson, on: date) -> str:
        """The zone that the weekly time goes by: while she travels, not the one that her own clock shows."""
        return lesson_zone(standing.clock(self._lines.preferences.home, booking.family.zone), on)


def _is_at(one: StandingTime, other: StandingTime) -> bool:
    """Whether two weekly times name the same days and times for as long, on one kind of clock."""
    return (one.weekday, one.at, one.minutes, one.kept_in, one.every_weeks, turn_of(one)) == (
        other.weekday,
        other.at,
        other.minutes,
        other.kept_in,
        other.every_weeks,
        turn_of(other),
    )


def _weekly_time(booking: ScheduledLesson) -> StandingTimeId | None:
    return booking.lesson.standing_time_id
