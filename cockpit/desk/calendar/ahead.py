"""What lies ahead: the lessons of weeks and of a year, what will go wrong in them, clocks that change, what is owed."""

from collections.abc import Collection, Container, Iterable, Mapping, Sequence, Set
from datetime import date, datetime, time, timedelta
from itertools import islice
from pathlib import Path

from cockpit.desk.lookup import bookings_between, bookings_with, owed_minutes
from cockpit.desk.ports import Clock, Folder, Printer, Reading
from cockpit.studio.calendar.clock_changes import ChangeAhead, FamilyMove, changes_ahead, concerned, reach
from cockpit.studio.calendar.collisions import (
    Group,
    SchedulingProblem,
    Trouble,
    find_troubles,
    grouped,
    lessons_of,
    takes_place,
)
from cockpit.studio.calendar.free_times import FreeTimeLimits, free_gaps, free_times, free_times_by_day
from cockpit.studio.calendar.seats import DaySeats, week_of_seats
from cockpit.studio.calendar.year import StudioYear, make_ups_owed, months, year_plan
from cockpit.studio.clocks.horizons import A_YEAR, EVER, NEXT_LESSON
from cockpit.studio.clocks.moments import WEEK, day_bounds
from cockpit.studio.clocks.zones import changes_of_clock
from cockpit.studio.inquiries.deadline import months_before
from cockpit.studio.lessons.breaks import LeftOut, Pause, TimeOff, break_of, pauses_in, without_breaks
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId
from cockpit.studio.lessons.policy import BeyondLimit, beyond_limit
from cockpit.studio.lessons.scheduled import (
    People,
    ScheduledLesson,
    in_order,
    reads_otherwise,
    told_apart,
    where_it_is,
)
from cockpit.studio.lessons.weekly_times import StandingTime, occurrences
from cockpit.studio.people.people import Family, StudentId
from cockpit.studio.people.permissions import Permission, running_out
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.preferences import Preferences
from cockpit.studio.progress import Report, unheard
from cockpit.studio.roster.long_ended import LongEnded, long_ended
from cockpit.studio.values import Value

_DAY = timedelta(days=1)
# Nobody gives so many lessons in a year: a file with thousands of weekly times brings them, and looking through all of
# their year would take minutes.
_MOST_LESSONS = 30_000
_OFFERED = 2
_FREE_TIMES = 5
_STEP_OFFERED = 30
_TIMES_OFFERED = 3
# Free times take a few thousandths of a second for each; a file with lessons at once can bring thousands of troubles.
_MOST_SHOWN = 100
_SOON_WEEKS = 4
_COMING_UP = 2 * WEEK


class DayOfWeek(Value):
    """One day: its lessons, those that a break takes away, and the stretches (UTC) that are free, within her teaching `hours`."""

    on: date
    bookings: tuple[ScheduledLesson, ...]
    left_out: tuple[LeftOut, ...]
    gaps: tuple[tuple[datetime, datetime], ...]
    hours: tuple[tuple[datetime, datetime], ...] = ()


class MakeUpOwed(Value):
    """A lesson that is to be made up, until when that is promised, and whether it is one too many by her policy."""

    lesson: Lesson
    expires_on: date | None = None
    beyond: BeyondLimit | None = None


class Outlook(Value):
    """All that is to be settled or known ahead of a date: `free` are times (UTC) that would suit, for each trouble.

    `later` is how many troubles come after these, and `let_go` the lessons of this year whose make-up was let go.
    `permissions` are those that end soon, and `ended` the families that ended longer ago than she wants to keep them.
    """

    today: date
    weeks: int
    troubles: tuple[Group, ...]
    free: tuple[tuple[datetime, ...], ...]
    changes: tuple[ChangeAhead, ...]
    owed: tuple[MakeUpOwed, ...]
    let_go: tuple[Lesson, ...] = ()
    owed_minutes: tuple[OwedMinutes, ...] = ()
    breaks: tuple[TimeOff, ...]
    people: People
    permissions: tuple[Permission, ...] = ()
    ended: tuple[LongEnded, ...] = ()
    accepted: tuple[Group, ...] = ()
    later: int = 0
    days: int = A_YEAR.days
    seats: tuple[DaySeats, ...] = ()

    @property
    def to_settle(self) -> int:
        """The number of things to settle: troubles, clock changes that shift a lesson soon, and what she is to be asked about."""
        asks = len(self.permissions) + len(self.ended) + _to_ask(self.breaks, self.today)
        return len(self.troubles) + self.later + _soon(self.changes, self.today) + asks

    def booking_of(self, lesson: Lesson) -> ScheduledLesson:
        """A lesson with its people."""
        student = self.people.students[lesson.student_id]
        return ScheduledLesson(
            lesson=lesson, student=student, family=self.people.families[student.family_id], is_recorded=True
        )


class ComingUp(Value):
    """Scheduling problems of the next `weeks`, all make-ups that are owed, clock changes that shift lessons, and time off."""

    today: date
    weeks: int
    troubles: tuple[Group, ...]
    owed: tuple[MakeUpOwed, ...]
    changes: tuple[ChangeAhead, ...]
    breaks: tuple[TimeOff, ...]
    people: People


class LookingAhead:
    """Looks over the calendar; changes nothing."""

    def __init__(
        self, reading: Reading, clock: Clock, folder: Folder, preferences: Preferences, printer: Printer
    ) -> None:
        self._reading = reading
        self._clock = clock
        self._folder = folder
        self._printer = printer
        self.preferences = preferences

    def outlook(self, weeks: int) -> Outlook:
        """What is to be settled in the next `days`, and the clock changes of the next weeks."""
        found, accepted = self.troubles()
        troubles = found[:_MOST_SHOWN]
        people, closed = self._reading.people(), self._reading.closed_lessons()
        today = self.preferences.home.date_of(self._clock.now())
        wanted = [group.first.other or group.first.booking for group in troubles]
        weeks_of = [self.preferences.home.date_of(booking.lesson.starts_at) for booking in wanted]
        return Outlook(
            today=today,
            weeks=weeks,
            troubles=tuple(troubles),
            free=tuple(tuple(self.free_times(b, on)[:_OFFERED]) for b, on in zip(wanted, weeks_of, strict=True)),
            changes=tuple(self.clock_changes(weeks)),
            owed=self._owed(closed, today),
            let_go=self._let_go(closed, today),
            owed_minutes=owed_minutes(self._reading),
            breaks=self._reading.breaks(today),
            people=people,
            permissions=running_out(self._reading.permissions(), today),
            ended=self._long_ended(today),
            accepted=tuple(accepted[:_MOST_SHOWN]),
            later=len(found) - len(troubles),
            days=self.days(),
            seats=self.seats(today) if self.preferences.teaching.days else (),
        )

    def seats(self, since: date) -> tuple[DaySeats, ...]:
        """The seven days from a date on, each with the number of weekly lessons that still fit."""
        pauses = pauses_in(self._reading.breaks(since))
        enrollments = self._reading.enrollments(self._reading.people(), since)
        return week_of_seats(enrollments, pauses, since, self.preferences)

    def to_settle(self) -> int:
        """The number of things to settle, which the day shows.

        It counts the troubles of the next year, the clock changes of the next four weeks that shift a lesson, the
        permissions that end soon, and the pauses and the ended families that she is to be asked about by now.
        """
        today = self.preferences.home.date_of(self._clock.now())
        asks = _to_ask(self._reading.breaks(today), today) + len(running_out(self._reading.permissions(), today))
        shifted = _soon(self.clock_changes(_SOON_WEEKS + 1), today)
        return len(self.troubles()[0]) + shifted + asks + len(self._long_ended(today))

    def _long_ended(self, today: date) -> tuple[LongEnded, ...]:
        """The families that ended longer ago than she wants to keep them, had no lesson since, and are not asked about yet."""
        preferences = self.preferences
        if not preferences.keep_months:
            return ()
        before = months_before(datetime.combine(today, time()), preferences.keep_months).date()
        since = preferences.home.day_bounds(before)[0]
        found = long_ended(self._reading.people(), self._reading.standing_times(), before)
        accepted = self._reading.accepted() if found else frozenset()
        return tuple(
            each
            for each in found
            if each.key not in accepted
            and not any(self._reading.lessons_of(one.id, since, since + EVER) for one in each.students)
        )

    def troubles(self, report: Report = unheard) -> tuple[list[Group], list[Group]]:
        """All that will go wrong in the `days` from now on, each trouble that comes again as one; and what is accepted.

        `report` counts the lessons.
        """
        return self._troubles_in(timedelta(days=self.days()), report)

    def coming_up(self) -> ComingUp:
        """What comes up in the next two weeks: a look through a year would be felt each time."""
        today = self.preferences.home.date_of(self._clock.now())
        until, people = today + _COMING_UP, self._reading.people()
        return ComingUp(
            today=today,
            weeks=_COMING_UP // WEEK,
            troubles=tuple(self._troubles_in(_COMING_UP)[0]),
            owed=self._owed(self._reading.closed_lessons(), today),
            changes=self._shifting(people),
            breaks=tuple(each for each in self._reading.breaks(today) if each.from_on <= until),
            people=people,
        )

    def _shifting(self, people: People) -> tuple[ChangeAhead, ...]:
        """The clock changes of the next two weeks that shift lessons; where no clock changes, no lesson is looked at."""
        now, home = self._clock.now(), self.preferences.home
        clocks = {home.zone, home.lesson_clock, *(each.zone for each in people.families.values())}
        if not any(changes_of_clock(each, now, now + _COMING_UP) for each in clocks):
            return ()
        return tuple(each for each in self.clock_changes(_COMING_UP // WEEK) if each.shifts)

    def _troubles_in(self, span: timedelta, report: Report = unheard) -> tuple[list[Group], list[Group]]:
        now, accepted = self._clock.now(), self._reading.accepted()
        found = [group.parted(accepted) for group in grouped(self._found(self._between(now, now + span)[0], report))]
        return [news for news, _ in found if news is not None], [kept for _, kept in found if kept is not None]

    def days(self) -> int:
        """How many days ahead troubles are looked for: a year's, or fewer where these have as many lessons as we look at."""
        today = self.preferences.home.date_of(self._clock.now())
        weekly = len(self._reading.standing_times(today))
        return min(A_YEAR.days, max(7, 7 * _MOST_LESSONS // max(1, weekly)))

    def troubles_of(
        self, candidates: Sequence[ScheduledLesson], instead_of: Container[LessonId] = frozenset()
    ) -> list[SchedulingProblem]:
        """What would go wrong with lessons where they are, in order, among all others but those that they come instead of."""
        if not candidates:
            return []
        begins, ends = candidates[0].lesson.starts_at - 2 * _DAY, candidates[-1].lesson.starts_at + 2 * _DAY
        ours = {candidate.lesson.id for candidate in candidates}
        others = [
            b for b in self._between(begins, ends)[0] if b.lesson.id not in ours and b.lesson.id not in instead_of
        ]
        found = self._found(in_order([*others, *candidates]))
        return [finding for finding in found if any(b.lesson.id in ours for b in lessons_of(finding))]

    def troubles_with(self, family: Family, before: Family, since: datetime) -> list[Group]:
        """What would go wrong from a UTC moment on if a family were otherwise than it is, and does not now."""
        ends = since + timedelta(days=self.days())
        was = {each.lesson.id: each.lesson.starts_at for each in self._lessons_of(before, since, ends)}
        found = self.troubles_of(self._lessons_of(family, since, ends))
        return grouped(each for each in found if self._is_new(each, before, was))

    def _is_new(self, finding: SchedulingProblem, before: Family, was: Mapping[LessonId, datetime]) -> bool:
        """Whether something goes wrong by another clock of a family alone: its lessons `was` at those moments (UTC)."""
        theirs = [each.lesson for each in lessons_of(finding) if each.family.id == before.id]
        if any(was.get(lesson.id) != lesson.starts_at for lesson in theirs):
            return True
        # A night that was one is told again where it is at another hour of theirs.
        return finding.trouble is Trouble.NIGHT and reads_otherwise(finding.booking, before.zone)

    def arranged_with(self, family: Family, since: datetime) -> list[ScheduledLesson]:
        """The lessons of a family, as it would be, that she put where they are, in the year from a UTC moment on."""
        found = self._lessons_of(family, since, since + A_YEAR)
        return [each for each in found if each.lesson.is_moved or each.lesson.kind is not Kind.WEEKLY]

    def next_with(self, family: Family) -> ScheduledLesson | None:
        """The next lesson of a family, as it would be; None where there is none in four months."""
        now = self._clock.now()
        return next(iter(self._lessons_of(family, now, now + NEXT_LESSON)), None)

    def moves_of(self, family: Family, days: Collection[date]) -> list[FamilyMove]:
        """The moves of a family on some days, as it would be then, each with what it makes of the lessons."""
        if not days:
            return []
        begins, ends = day_bounds(min(days) - _DAY, "UTC")[0], day_bounds(max(days) + _DAY, "UTC")[1]
        found = changes_ahead(self._lessons_of(family, *reach(begins, ends)), self.preferences.home, begins, ends)
        return [move for each in found for move in each.moves if move.change.local_date in days]

    def _lessons_of(self, family: Family, begins: datetime, ends: datetime) -> list[ScheduledLesson]:
        found = bookings_with(self._reading, family, begins, ends, self.preferences.home)
        return [each for each in found if takes_place(each)]

    def lessons_in(self, each: TimeOff) -> tuple[list[LeftOut], list[ScheduledLesson]]:
        """The lessons that are planned now and fall into a break, and those to be held on its days all the same."""
        home = self.preferences.home
        begins, ends = home.day_bounds(each.from_on - _DAY)[0], home.day_bounds(each.last_on + _DAY)[1]
        kept, left_out = without_breaks(self._between(begins, ends)[0], [each], home)
        return left_out, [b for b in kept if takes_place(b) and break_of(b, [each], home) is not None]

    def pauses_of(self, student_id: StudentId) -> list[Pause]:
        """The pauses of a student, in order."""
        return pauses_in(self._reading.breaks(), student_id)

    def paused_lesson(self, pause: Pause) -> ScheduledLesson | None:
        """The next lesson that a pause takes; None where it takes none in the four months from now or its first day on."""
        home = self.preferences.home
        begins = max(self._clock.now(), home.day_bounds(pause.from_on - _DAY)[0])
        left_out = bookings_between(self._reading, begins, begins + NEXT_LESSON, home, pause.student_id)[1]
        return next((each.booking for each in left_out if each.because == pause), None)

    def kept_for(self, candidates: Sequence[ScheduledLesson]) -> LeftOut | None:
        """The first lesson that a pause takes and keeps the time of, where one of some lessons in order would be then."""
        since = self.preferences.home.date_of(candidates[0].lesson.starts_at) - _DAY if candidates else date.max
        if not any(each.keeps_time for each in pauses_in(self._reading.breaks(since))):
            return None
        begins, ends = candidates[0].lesson.starts_at - _DAY, candidates[-1].lesson.starts_at + _DAY
        for each in self._between(begins, ends)[1]:
            kept = each.booking
            if each.keeps_time and any(
                kept.lesson.starts_at < other.lesson.planned_end and other.lesson.starts_at < kept.lesson.planned_end
                for other in candidates
                if other.student.id != kept.student.id
            ):
                return each
        return None

    def free_times(self, wanted: ScheduledLesson, week_of: date, now_at: Set[datetime] = frozenset()) -> list[datetime]:
        """Some starts (UTC) in the week of a date that suit a lesson and both clocks; the nearest first.

        None is among those of `now_at`, where the lesson to be moved is.
        """
        now = self._clock.now()
        begins, _ = self.preferences.home.day_bounds(week_of - 8 * _DAY)
        timetable = self._timetable(begins, begins + 18 * _DAY)
        found = free_times(timetable, wanted, week_of, now, limit=_FREE_TIMES + len(now_at))
        return [at for at in found if at not in now_at][:_FREE_TIMES]

    def times_for(self, booking: ScheduledLesson) -> list[datetime]:
        """Three starts (UTC) that a lesson could have instead and that suit both clocks, on three days near its own; in order."""
        now, home = self._clock.now(), self.preferences.home
        on = home.date_of(max(booking.lesson.starts_at, now))
        timetable = self._timetable(home.day_bounds(on - 8 * _DAY)[0], home.day_bounds(on + 18 * _DAY)[0])
        monday = on - on.weekday() * _DAY
        days = sorted((monday + number * _DAY for number in range(14)), key=lambda day: (abs(day - on), day))
        found = free_times_by_day(timetable, booking, days, now)
        nearest = (next((at for at in starts if at != booking.lesson.starts_at), None) for starts in found)
        return sorted(islice((at for at in nearest if at is not None), _TIMES_OFFERED))

    def free_times_for(self, wanted: ScheduledLesson, days: Sequence[date]) -> list[list[datetime]]:
        """All starts (UTC) on steps of half an hour that suit a lesson and both clocks, day by day; the nearest times first."""
        begins, ends = self.preferences.home.day_bounds(days[0])[0], self.preferences.home.day_bounds(days[-1])[1]
        timetable = self._timetable(begins - _DAY, ends + _DAY)
        return [list(each) for each in free_times_by_day(timetable, wanted, days, self._clock.now(), _STEP_OFFERED)]

    def week(self, on: date) -> tuple[DayOfWeek, ...]:
        """The seven days, Monday to Sunday on the teacher's clock, around a date."""
        return self.days_from(on - on.weekday() * _DAY, 7)

    def weekly_time(self, booking: ScheduledLesson) -> tuple[StandingTime, datetime] | None:
        """The weekly time that a lesson comes from, and when (UTC) that meets nearest to it; None where it comes from none."""
        at, standing_id = booking.lesson.starts_at, booking.lesson.standing_time_id
        standing = next((each for each in self._reading.standing_times() if each.id == standing_id), None)
        if standing is None:
            return None
        zone, around = standing.clock(self.preferences.home, booking.family.zone), 2 * WEEK
        meets = [each.starts_at for each in occurrences(standing, zone, at - around, at + around)]
        return standing, min(meets, key=lambda each: abs(each - at), default=at)

    def days_from(self, on: date, count: int) -> tuple[DayOfWeek, ...]:
        """So many days of the teacher's clock from a date on."""
        home = self.preferences.home
        begins, ends = home.day_bounds(on)[0], home.day_bounds(on + (count - 1) * _DAY)[1]
        bookings, left_out = self._between(begins, ends)
        timetable = self._timetable(begins - _DAY, ends + _DAY)
        return tuple(
            DayOfWeek(
                on=day,
                bookings=tuple(b for b in bookings if home.date_of(b.lesson.starts_at) == day),
                left_out=tuple(each for each in left_out if home.date_of(each.booking.lesson.starts_at) == day),
                gaps=tuple(free_gaps(timetable, day)),
                hours=self.preferences.hours_on(day),
            )
            for day in (on + number * _DAY for number in range(count))
        )

    def clock_changes(self, weeks: int) -> list[ChangeAhead]:
        """Every change of a clock in the next weeks, the teacher's or a family's, and what it does to lessons."""
        now = self._clock.now()
        begins, ends = now, now + timedelta(weeks=weeks)
        bookings, _ = self._between(*reach(begins, ends))
        return changes_ahead(bookings, self.preferences.home, begins, ends)

    def write_messages(self, weeks: int) -> list[Path]:
        """Puts the messages into the folder, one file for each family concerned.

        Raises:
            NotSaved: the folder refused.
        """
        today = self.preferences.home.date_of(self._clock.now())
        return [
            self._folder.put(
                f"messages/{today.isoformat()} {safe_name(message.family.name)} ({message.family.id}).txt",
                f"{message.subject}\n\n{message.text}\n",
            )
            for message in map(self._printer.clock_message, concerned(self.clock_changes(weeks)))
        ]

    def make_ups_owed(self) -> Mapping[StudentId, tuple[Lesson, ...]]:
        """The lessons that are to be made up by her policy, and are not yet, by student."""
        owed = make_ups_owed(self._reading.closed_lessons(), self.preferences.owes)
        enrollments = self._reading.enrollments(self._reading.people(), date.min) if owed else ()
        return {
            student_id: tuple(where_it_is(lesson, enrollments, self.preferences.home) for lesson in lessons)
            for student_id, lessons in owed.items()
        }

    def _owed(self, closed: Sequence[Lesson], today: date) -> tuple[MakeUpOwed, ...]:
        owed = [lesson for lessons in self.make_ups_owed().values() for lesson in lessons]
        beyond = beyond_limit(closed, self.preferences.policies, self._day_of, today)
        return tuple(
            MakeUpOwed(
                lesson=lesson,
                expires_on=self.preferences.policy_for(lesson).expires_on(self._day_of(lesson)),
                beyond=beyond.get(lesson.id),
            )
            for lesson in owed
        )

    def _let_go(self, closed: Sequence[Lesson], today: date) -> tuple[Lesson, ...]:
        since = self.preferences.year_of(today)
        let_go = (each for each in closed if each.is_let_go and self._day_of(each) >= since)
        return tuple(sorted(let_go, key=lambda each: (each.starts_at, each.id)))

    def _day_of(self, lesson: Lesson) -> date:
        return self.preferences.home.date_of(lesson.starts_at)

    def year(self) -> StudioYear:
        """The studio year that is going on: where each student stands, and the lessons by month."""
        now, home = self._clock.now(), self.preferences.home
        first_on = self.preferences.year_of(home.date_of(now))
        following = date(first_on.year + 1, *self.preferences.year_begins)
        begins, ends = home.day_bounds(first_on)[0], home.day_bounds(following)[0]
        kept, left_out = self._between(begins, ends)
        # One name may be another student's of a break alone: both are told apart together.
        named = {b.lesson.id: b for b in told_apart([*kept, *(each.booking for each in left_out)])}
        bookings = [named[b.lesson.id] for b in kept]
        changes = changes_ahead(bookings, home, begins, ends)
        return StudioYear(
            first_on=first_on,
            until_on=following - _DAY,
            students=year_plan(bookings, now, self.preferences.lesson_times),
            months=months(bookings, [named[each.booking.lesson.id] for each in left_out], home),
            changes=tuple(change for change in changes if change.shifts),
        )

    def _between(self, begins: datetime, ends: datetime) -> tuple[list[ScheduledLesson], list[LeftOut]]:
        return bookings_between(self._reading, begins, ends, self.preferences.home)

    def _found(self, bookings: list[ScheduledLesson], report: Report = unheard) -> list[SchedulingProblem]:
        enrollments = self._reading.enrollments(self._reading.people(), date.min) if bookings else ()
        return find_troubles(bookings, enrollments, self.preferences, report)

    def _timetable(self, begins: datetime, ends: datetime) -> FreeTimeLimits:
        kept, left_out = self._between(begins, ends)
        return FreeTimeLimits(
            # A time that is kept through a pause is nobody else's.
            bookings=[*kept, *(each.booking for each in left_out if each.keeps_time)],
            breaks=self._reading.breaks(),
            preferences=self.preferences,
        )


def _soon(changes: Iterable[ChangeAhead], today: date) -> int:
    """How many clock changes shift a lesson in the next four weeks."""
    return sum(bool(each.shifts) for each in changes if each.changed_on <= today + timedelta(weeks=_SOON_WEEKS))


def _to_ask(time_off: Iterable[TimeOff], today: date) -> int:
    """Count the pauses without an end that the teacher is asked about by a date."""
    return sum(each.ask_on is not None and each.ask_on <= today for each in pauses_in(time_off))
