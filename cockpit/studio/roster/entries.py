"""The roster as it is looked at: each student with a status, the weekly times that say it, and the group in which it is shown."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime, timedelta
from enum import StrEnum

from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Pause
from cockpit.studio.lessons.lesson import NOT_HELD, Kind, Lesson
from cockpit.studio.lessons.lineage import origin_of
from cockpit.studio.lessons.scheduled import Enrollment, People, ScheduledLesson, planned
from cockpit.studio.lessons.status import Status, status_of
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId, ends_before_it_begins, holds_on
from cockpit.studio.people.people import Family, Student, StudentId, name_key
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)
_TURNS = timedelta(weeks=2, days=1)  # one of every other week meets within it


class EntryGroup(StrEnum):
    """Where a student is in the roster: what needs her, what waits, what goes by itself, what is over."""

    TO_DO = "to do"
    WAITING = "waiting"
    GOING_ON = "every week"
    OVER = "ended"


class RosterEntry(Value):
    """A student on a day of her clock. `times` are the weekly times that hold, else those that begin next, else the last ones.

    `later` are those that begin after the day and are not among them. `since` is the first day of the times and of those
    whose place they took; None where one has no first day. `pause` is the one that lasts on the day, `trial` the last
    trial lesson of somebody who never had a weekly time. `called` has the family's name too, where two have one name.
    """

    student: Student
    family: Family
    called: str
    on: date
    status: Status
    group: EntryGroup = EntryGroup.GOING_ON
    times: tuple[StandingTime, ...] = ()
    later: tuple[StandingTime, ...] = ()
    since: date | None = None
    pause: Pause | None = None
    trial: Lesson | None = None

    @property
    def ended_on(self) -> date | None:
        """The last day of the weekly times of a student who has none any more."""
        return max((each.until_on or date.max for each in self.times), default=None) if self.is_ended else None

    @property
    def is_ended(self) -> bool:
        """Whether the student has no weekly time any more, and had one."""
        return self.status is Status.ENDED

    @property
    def is_to_be_asked(self) -> bool:
        """Whether the teacher is to ask by now if the student comes back."""
        asked_on = self.pause.ask_on if self.pause is not None else None
        return asked_on is not None and asked_on <= self.on

    def lesson_of(self, standing: StandingTime, home: TeacherClock) -> ScheduledLesson | None:
        """A lesson that shows when a weekly time is: the next from the day on, else the last before it; None if it never meets."""
        enrollment = Enrollment(standing=standing, student=self.student, family=self.family)
        on = max(self.on, standing.from_on or self.on)
        begins = home.day_bounds(on - (_DAY if on != self.on else timedelta()))[0]
        following = planned([enrollment], home, begins, begins + _TURNS + _DAY)
        if following:
            return following[0]
        ends = home.day_bounds(min(standing.until_on or on, on) + _DAY)[1]
        return next(reversed(planned([enrollment], home, ends - _TURNS - 2 * _DAY, ends)), None)


def roster_entries(
    people: People,
    standing_times: Iterable[StandingTime],
    pauses: Iterable[Pause],
    lessons_of: Callable[[StudentId], Sequence[Lesson]],
    today: date,
    now: datetime,
) -> tuple[RosterEntry, ...]:
    """All students on a date of the teacher's clock, which it is at `now` (UTC); by name.

    `lessons_of` is asked for the lessons of those alone who never had a weekly time.
    """
    return _RosterDay(standing_times, pauses, today, now).entries(people, lessons_of)


class _RosterDay:
    """What is known of all students on a date of the teacher's clock."""

    def __init__(
        self, standing_times: Iterable[StandingTime], pauses: Iterable[Pause], today: date, now: datetime
    ) -> None:
        self._today = today
        self._now = now
        self._known = {each.id: each for each in standing_times}
        self._times = defaultdict[StudentId, list[StandingTime]](list)
        for each in self._known.values():
            if not ends_before_it_begins(each):
                self._times[each.student_id].append(each)
        self._pauses = defaultdict[StudentId, list[Pause]](list)
        for pause in pauses:
            self._pauses[pause.student_id].append(pause)

    def entries(self, people: People, lessons_of: Callable[[StudentId], Sequence[Lesson]]) -> tuple[RosterEntry, ...]:
        alike = Counter(name_key(each.name) for each in people.students.values())
        entries = []
        for student in people.students.values():
            family = people.families[student.family_id]
            called = f"{student.name} ({family.name})" if alike[name_key(student.name)] > 1 else student.name
            lessons = () if self._times[student.id] else lessons_of(student.id)
            entries.append(self._entry(student, family, called, lessons))
        return tuple(sorted(entries, key=lambda each: (name_key(each.called), each.student.id)))

    def _entry(self, student: Student, family: Family, called: str, lessons: Sequence[Lesson]) -> RosterEntry:
        today, times, pauses = self._today, self._times[student.id], self._pauses[student.id]
        status = status_of(today, times, pauses, lessons)
        held, later = _shown(times, today)
        trials = [each for each in lessons if each.kind is Kind.TRIAL and each.outcome not in NOT_HELD]
        entry = RosterEntry(
            student=student,
            family=family,
            called=called,
            on=today,
            status=status,
            times=held,
            later=later,
            since=_since(held, self._known),
            pause=next((each for each in pauses if each.from_on <= today <= each.last_on), None)
            if status is Status.PAUSED
            else None,
            trial=max(trials, key=lambda each: each.starts_at, default=None) if status is Status.TRIAL else None,
        )
        return replace(entry, group=_group(entry, self._now))


def _shown(times: Sequence[StandingTime], today: date) -> tuple[tuple[StandingTime, ...], tuple[StandingTime, ...]]:
    """The weekly times that say what a student has on a day, and those that begin after them."""

    def in_order(found: Iterable[StandingTime]) -> tuple[StandingTime, ...]:
        return tuple(sorted(found, key=lambda each: (each.from_on or date.min, each.weekday, each.at, each.id)))

    holding = [each for each in times if holds_on(each, today)]
    to_come = in_order(each for each in times if each.from_on is not None and each.from_on > today)
    if holding:
        return in_order(holding), to_come
    if to_come:
        return to_come, ()
    last = max((each.until_on or date.max for each in times), default=None)
    return in_order(each for each in times if each.until_on == last), ()


def _since(times: Iterable[StandingTime], known: Mapping[StandingTimeId, StandingTime]) -> date | None:
    def before(number: StandingTimeId) -> StandingTimeId | None:
        follows = known[number].follows if number in known else None
        return follows if follows in known else None

    firsts = [known[origin_of(each.id, before)].from_on for each in times]
    begun = [each for each in firsts if each is not None]
    return min(begun) if begun and len(begun) == len(firsts) else None


def _group(entry: RosterEntry, now: datetime) -> EntryGroup:
    ends_at = entry.trial.planned_end if entry.trial is not None else now + _DAY
    match entry.status:
        case Status.ENDED:
            return EntryGroup.OVER
        case Status.ACTIVE:
            return EntryGroup.GOING_ON
        case Status.ASKED:
            return EntryGroup.TO_DO
        case Status.TRIAL if ends_at <= now:
            # After so long nothing came of it, and nobody is to be reminded for ever.
            return EntryGroup.OVER if ends_at <= now - NEXT_LESSON else EntryGroup.TO_DO
        case Status.PAUSED if entry.is_to_be_asked:
            return EntryGroup.TO_DO
        case _:
            return EntryGroup.WAITING
