"""Clock changes ahead: when clocks of the teacher and her families change, which lessons shift, and who is told.

Only families whose own time changes are told, and only about their lessons.
"""

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from datetime import date, datetime, time, timedelta
from enum import StrEnum

from cockpit.studio.clocks.home import moment_in
from cockpit.studio.clocks.moments import Zone, lesson_clock, local_time, zone_at
from cockpit.studio.clocks.moves import clock_text
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.zones import ClockChange, changes_of_clock
from cockpit.studio.lessons.lesson import NOT_HELD, Kind
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.lessons.weekly_times import StandingTimeId
from cockpit.studio.people.people import Family, FamilyId, Student
from cockpit.studio.values import Value, replace

_DAY = timedelta(days=1)
# The nearest meeting can lie behind a summer's break.
_REACH = timedelta(weeks=13)


class Whom(StrEnum):
    """On whose clock a lesson shifts."""

    TEACHER = "teacher"
    FAMILY = "family"
    BOTH = "both"


class Meeting(Value):
    """When a lesson starts, as an aware local time on the teacher's clock and on the family's; `zone` is what this shows then."""

    ours: datetime
    theirs: datetime
    zone: str


class Shift(Value):
    """A weekly time that reads otherwise after a change: its last meeting before and its first one after."""

    standing_time_id: StandingTimeId
    student: Student
    family: Family
    instrument: str | None
    before: Meeting
    after: Meeting

    @property
    def title(self) -> str:
        """Whose lesson it is, and on what: `Ilse, cello`."""
        return f"{self.student.name}, {self.instrument}" if self.instrument else self.student.name

    @property
    def whom(self) -> Whom | None:
        """On whose clock the weekday or the time of day is another; None where it is the same on both."""
        ours = _in_week(self.before.ours) != _in_week(self.after.ours)
        theirs = _in_week(self.before.theirs) != _in_week(self.after.theirs)
        if ours and theirs:
            return Whom.BOTH
        if ours:
            return Whom.TEACHER
        return Whom.FAMILY if theirs else None


class FamilyMove(Value):
    """A family comes to another zone. `lessons` are its weekly times that meet before and after, whether they shift or not."""

    family: Family
    change: ClockChange
    lessons: tuple[Shift, ...] = ()

    @property
    def kept(self) -> tuple[Shift, ...]:
        """Those that read the same on both clocks."""
        return tuple(each for each in self.lessons if each.whom is None)


class ChangeAhead(Value):
    """All that changes at one moment (UTC): the teacher's clock, families' clocks, and the lessons that shift by it.

    `moves` are the families that come to another zone. `unaffected` are the weekly times that meet before and after, at the same time on both clocks.
    """

    at: datetime
    own: ClockChange | None = None
    others: tuple[ClockChange, ...] = ()
    moves: tuple[FamilyMove, ...] = ()
    shifts: tuple[Shift, ...] = ()
    unaffected: frozenset[StandingTimeId] = frozenset()

    @property
    def changes(self) -> tuple[ClockChange, ...]:
        """Her own change, where there is one, then the others, and then those of families that move."""
        return (*self.clocks, *(move.change for move in self.moves))

    @property
    def clocks(self) -> tuple[ClockChange, ...]:
        """Her own change, where there is one, and then those of whole zones."""
        return self.others if self.own is None else (self.own, *self.others)

    @property
    def changed_on(self) -> date:
        """The day of it in the first place that changes."""
        return self.changes[0].local_date

    def is_move_for(self, family: FamilyId) -> bool:
        """Whether the teacher comes to another zone, or this family does."""
        is_hers = self.own is not None and self.own.left_zone is not None
        return is_hers or any(move.family.id == family for move in self.moves)


class _Series(Value):
    id: StandingTimeId
    bookings: tuple[ScheduledLesson, ...]
    starts: tuple[datetime, ...]

    @property
    def zone(self) -> Zone:
        return self.family.zone

    @property
    def family(self) -> Family:
        return self.bookings[-1].family

    def meets_around(self, at: datetime) -> bool:
        return self.starts[0] < at <= self.starts[-1]

    def shift(self, place: int, home: TeacherClock) -> Shift:
        """What becomes of it between two of its meetings, of which the later one is at a place in their order."""
        earlier, later = self.bookings[place - 1], self.bookings[place]
        return Shift(
            standing_time_id=self.id,
            student=later.student,
            family=later.family,
            instrument=later.lesson.instrument,
            before=_meeting(earlier.lesson.starts_at, home, self.zone),
            after=_meeting(later.lesson.starts_at, home, self.zone),
        )


def reach(begins: datetime, ends: datetime) -> tuple[datetime, datetime]:
    """The stretch, both UTC, whose lessons `changes_ahead` has to know: the nearest ones may lie beyond a break."""
    return begins - _REACH, ends + _REACH


def changes_ahead(
    bookings: Iterable[ScheduledLesson], home: TeacherClock, begins: datetime, ends: datetime
) -> list[ChangeAhead]:
    """Every change in [begins, ends), both UTC, of the teacher's clock or of a family's that still has lessons; in order.

    `bookings` are the lessons of `reach(begins, ends)`, without those that a break leaves out. Only weekly ones that
    are neither moved nor cancelled are looked at: each change stands between the nearest two of a weekly time. Where
    these lie on both sides of several changes, what remains of them all is a shift at the last.
    """
    series = _series(bookings)
    own = {change.at: change for change in changes_of_clock(home.zone, begins, ends)}
    lessons = changes_of_clock(home.lesson_clock, begins, ends)
    clocks = sorted({each.zone for each in series}, key=clock_text)
    theirs = {zone: changes_of_clock(zone, begins, ends) for zone in clocks}
    others = _others(own, [*lessons, *_concerning(theirs, series)])
    moves = _moves(theirs, series, home)
    hers = [*((at, at) for at in own), *((_turns_at(change), change.at) for change in lessons)]
    turns: dict[Zone, list[tuple[datetime, datetime]]] = {}
    for zone, changes in theirs.items():
        of_lessons = () if isinstance(zone, str) else changes_of_clock(lesson_clock(zone), begins, ends)
        there = [*((change.at, change.at) for change in changes), *((_turns_at(c), c.at) for c in of_lessons)]
        turns[zone] = sorted([*hers, *there])
    shifts: dict[datetime, list[Shift]] = defaultdict(list)
    for each in series:
        for at, shift in _shifts(each, turns[each.zone], home):
            shifts[at].append(shift)
    every = sorted(own.keys() | others.keys() | moves.keys())
    bare = (
        ChangeAhead(
            at=at,
            own=own.get(at),
            others=tuple(others.get(at, ())),
            moves=tuple(moves.get(at, ())),
            shifts=tuple(shifts[at]),
        )
        for at in every
    )
    return [_ahead(each, series) for each in bare]


def _in_week(local: datetime) -> tuple[int, time]:
    return local.weekday(), local.time()


def _turns_at(change: ClockChange) -> datetime:
    """The moment from which the lessons on a clock follow a change of it: after a move, midnight in the new place."""
    if change.left_zone is None:
        return change.at
    midnight = datetime.combine(local_time(change.at, change.left_zone).date(), time())
    return moment_in(midnight, change.zone)


def _concerning(theirs: dict[Zone, list[ClockChange]], series: Sequence[_Series]) -> Iterator[ClockChange]:
    until = {each.zone: each.starts[-1] for each in sorted(series, key=lambda each: each.starts[-1])}
    for zone, changes in theirs.items():
        yield from (change for change in changes if change.left_zone is None and change.at <= until[zone])


def _moves(
    theirs: dict[Zone, list[ClockChange]], series: Sequence[_Series], home: TeacherClock
) -> dict[datetime, list[FamilyMove]]:
    """The moves of families that still have lessons then, by their moment."""
    found: dict[datetime, list[FamilyMove]] = defaultdict(list)
    own: dict[FamilyId, list[_Series]] = defaultdict(list)
    for each in series:
        own[each.family.id].append(each)
    for those in own.values():
        for change in theirs[those[0].zone]:
            if change.left_zone is not None and any(change.at <= each.starts[-1] for each in those):
                turn = _turns_at(change)
                places = [(each, bisect_left(each.starts, turn)) for each in those]
                lessons = (each.shift(place, home) for each, place in places if 0 < place < len(each.starts))
                ordered = tuple(sorted(lessons, key=lambda each: (each.after.ours, each.student.name)))
                found[change.at].append(FamilyMove(family=those[0].family, change=change, lessons=ordered))
    return found


def _others(own: dict[datetime, ClockChange], changes: Iterable[ClockChange]) -> dict[datetime, list[ClockChange]]:
    found: dict[datetime, list[ClockChange]] = defaultdict(list)
    for change in changes:
        listed = [*found[change.at], own.get(change.at)]
        if all(each is None or each.zone != change.zone for each in listed):
            found[change.at].append(change)
    return {at: listed for at, listed in found.items() if listed}


def _series(bookings: Iterable[ScheduledLesson]) -> list[_Series]:
    by_standing: dict[StandingTimeId, list[ScheduledLesson]] = defaultdict(list)
    for booking in bookings:
        lesson = booking.lesson
        if (
            lesson.standing_time_id is None
            or lesson.kind is not Kind.WEEKLY
            or lesson.is_moved
            or lesson.outcome in NOT_HELD
        ):
            continue
        by_standing[lesson.standing_time_id].append(booking)
    found = []
    for standing_id, same in by_standing.items():
        same.sort(key=lambda booking: booking.lesson.starts_at)
        found.append(
            _Series(id=standing_id, bookings=tuple(same), starts=tuple(booking.lesson.starts_at for booking in same))
        )
    return found


def _shifts(
    series: _Series, turns: Iterable[tuple[datetime, datetime]], home: TeacherClock
) -> Iterator[tuple[datetime, Shift]]:
    """The shifts of a weekly time, each with the moment of the change that it belongs to.

    `turns` are the moments that its meetings may read otherwise from, each with the moment of its change; in order.
    """
    at_meeting: dict[int, datetime] = {}
    for turns_at, at in turns:
        first = bisect_left(series.starts, turns_at)
        places = [first]
        # A time that the change leaves out is read an hour later that day, and as usual at the next meeting.
        if first < len(series.starts) and series.starts[first] < turns_at + _DAY:
            places.append(first + 1)
        at_meeting |= {place: at for place in places if 0 < place < len(series.starts)}
    for place, at in at_meeting.items():
        shift = series.shift(place, home)
        if shift.whom is not None:
            yield at, shift


def _meeting(starts_at: datetime, home: TeacherClock, family_zone: Zone) -> Meeting:
    return Meeting(
        ours=home.local(starts_at), theirs=local_time(starts_at, family_zone), zone=zone_at(family_zone, starts_at)
    )


def _ahead(ahead: ChangeAhead, series: Iterable[_Series]) -> ChangeAhead:
    shifted = {shift.standing_time_id for shift in ahead.shifts}
    around = {each.id for each in series if each.meets_around(ahead.at)}
    shifts = sorted(ahead.shifts, key=lambda shift: (shift.after.ours, shift.student.name))
    return replace(ahead, shifts=tuple(shifts), unaffected=frozenset(around - shifted))


class Concerned(Value):
    """A family whose own time changes, with what of its lessons shifts; `is_move` where it or the teacher moves or travels."""

    family: Family
    shifts: tuple[Shift, ...]
    is_move: bool


class FamilyMessage(Value):
    """What to send to one family: a subject of one line, and a plain text."""

    family: Family
    subject: str
    text: str


def concerned(ahead: Iterable[ChangeAhead]) -> list[Concerned]:
    """Each family whose own time changes, all of its students in one; the first concerned goes first."""
    shifts: dict[FamilyId, list[Shift]] = {}
    moved: set[FamilyId] = set()
    for each in ahead:
        for shift in each.shifts:
            if shift.whom is not Whom.TEACHER:
                shifts.setdefault(shift.family.id, []).append(shift)
                moved |= {shift.family.id} if each.is_move_for(shift.family.id) else set()
    return [
        Concerned(family=theirs[-1].family, shifts=tuple(theirs), is_move=family in moved)
        for family, theirs in shifts.items()
    ]
