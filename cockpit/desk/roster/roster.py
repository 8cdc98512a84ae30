"""The roster at the desk: all students with what they are on this day, and everything that is known of one."""

import re
from collections.abc import Mapping
from datetime import date, datetime, timedelta

from cockpit.desk.calendar.calendar import CalendarDesk
from cockpit.desk.calendar.details import UnknownDetail
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.day.finding import Finding
from cockpit.desk.lookup import bookings_of, guardians_of
from cockpit.desk.ports import Clock, Reading
from cockpit.desk.roster.ending import EndingStudents
from cockpit.desk.roster.guardians import ChangingGuardians
from cockpit.studio.calendar.year import StudentYear, make_ups_owed, year_plan
from cockpit.studio.clocks.horizons import EVER, NEXT_LESSON
from cockpit.studio.clocks.words import listed
from cockpit.studio.errors import BadInput, NotFound, Refused
from cockpit.studio.lessons.breaks import Pause, pauses_in
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, where_it_is
from cockpit.studio.lessons.status import Status
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import FamilyId, Guardian, StudentId
from cockpit.studio.people.permissions import Permission
from cockpit.studio.roster.entries import EntryGroup, RosterEntry, roster_entries
from cockpit.studio.roster.values import read_name
from cockpit.studio.values import Value, field

_DAY = timedelta(days=1)
_INSTRUMENT_FROM = re.compile(r"instrument:? (?P<instrument>[^,]+?) from (?P<since>[^,]+)", re.IGNORECASE)
_OF_STUDENTS = frozenset({Status.BEGINS, Status.ACTIVE, Status.PAUSED})


class RosterView(Value):
    """All students on a day, by name, each once; the studio year began on `since`."""

    entries: tuple[RosterEntry, ...]
    on: date
    since: date
    now: datetime
    _times: tuple[StandingTime, ...] = ()
    _by_id: Mapping[StudentId, RosterEntry] = field(default_factory=dict)

    def of(self, group: EntryGroup) -> list[RosterEntry]:
        """Those of a group."""
        return [each for each in self.entries if each.group is group]

    def entry(self, student_id: StudentId) -> RosterEntry:
        """The line of one student.

        Raises:
            NotFound: the student is not there any more.
        """
        if student_id not in self._by_id:
            raise NotFound("This student is not in the roster any more.")
        return self._by_id[student_id]

    def siblings(self, entry: RosterEntry) -> list[RosterEntry]:
        """The others of the family."""
        return [each for each in self.entries if each.family.id == entry.family.id and each is not entry]

    def enrollments(self, entry: RosterEntry, since: date) -> list[Enrollment]:
        """All weekly times of a student that hold on a date or later."""
        return [
            Enrollment(standing=each, student=entry.student, family=entry.family)
            for each in self._times
            if each.student_id == entry.student.id and (each.until_on or date.max) >= since
        ]

    @property
    def students(self) -> int:
        """How many have a weekly time now or to come."""
        return sum(each.status in _OF_STUDENTS for each in self.entries)

    @property
    def trials(self) -> int:
        """How many have had a trial lesson lately, or have one to come, and no weekly time."""
        return sum(each.status is Status.TRIAL and each.group is not EntryGroup.OVER for each in self.entries)

    @property
    def paused(self) -> int:
        """How many pause on this day."""
        return sum(each.status is Status.PAUSED for each in self.entries)

    @property
    def ended(self) -> int:
        """How many ended in this studio year."""
        return sum(each.ended_on is not None and each.ended_on >= self.since for each in self.entries)


class StudentDetail(Value):
    """What is known of one student besides the line: `pauses` last or are to come, `following` is the next lesson.

    `year` counts the lessons of the studio year; None where there is none.
    """

    entry: RosterEntry
    siblings: tuple[RosterEntry, ...]
    guardians: tuple[Guardian, ...]
    permissions: tuple[Permission, ...]
    pauses: tuple[Pause, ...]
    owed: tuple[Lesson, ...]
    following: ScheduledLesson | None
    year: StudentYear | None


class StudioRoster:
    """Looks the students over, and reads lines about one of them."""

    def __init__(self, reading: Reading, clock: Clock, calendar: CalendarDesk) -> None:
        self._reading = reading
        self._clock = clock
        self._arranging = calendar.arranging
        self._ending = EndingStudents(reading, calendar.lines)
        self._guardians = ChangingGuardians(reading, calendar.lines)
        self.preferences = calendar.lines.preferences

    def view(self) -> RosterView:
        """All students at this moment."""
        now, reading, home = self._clock.now(), self._reading, self.preferences.home
        today = home.date_of(now)
        times = reading.standing_times()
        pauses = pauses_in(reading.breaks(today))
        entries = roster_entries(
            reading.people(),
            times,
            pauses,
            lambda student_id: reading.lessons_of(student_id, now - EVER, now + EVER),
            today,
            now,
        )
        return RosterView(
            entries=entries,
            on=today,
            since=self.preferences.year_of(today),
            now=now,
            _times=times,
            _by_id={each.student.id: each for each in entries},
        )

    def detail(self, view: RosterView, entry: RosterEntry) -> StudentDetail:
        """All that is known of a student of a view."""
        now, home, student = view.now, self.preferences.home, entry.student
        following = date(view.since.year + 1, *self.preferences.year_begins)
        begins, year_ends = home.day_bounds(view.since)[0], home.day_bounds(following)[0]
        enrollments = view.enrollments(entry, view.since - 2 * _DAY)
        ends = max(year_ends, now + NEXT_LESSON)
        kept, _ = bookings_of(self._reading, enrollments, entry, begins, ends, home)
        of_year = [each for each in kept if each.lesson.starts_at < year_ends]
        pauses = pauses_in(self._reading.breaks(view.on), student.id)
        return StudentDetail(
            entry=entry,
            siblings=tuple(view.siblings(entry)),
            guardians=self.guardians(entry.family.id),
            permissions=tuple(each for each in self._reading.permissions() if each.student_id == student.id),
            pauses=tuple(pauses),
            owed=self._owed(view, entry),
            following=next((b for b in kept if b.lesson.is_open and b.lesson.planned_end > now), None),
            year=next(iter(year_plan(of_year, now, self.preferences.lesson_times)), None),
        )

    def propose(self, purpose: Purpose, entry: RosterEntry | None, line: str) -> Proposal:
        """Reads a line about a student; one for somebody new needs none.

        Raises:
            BadInput: the line is not understood; the sentence says what would work.
            Refused: it cannot be done.
        """
        if entry is None:
            return self._arranging.propose(purpose, None, line)
        if purpose is Purpose.END:
            return self._ending.propose(entry, line)
        if purpose is Purpose.GUARDIANS:
            return self._guardians.propose(entry, line)
        if purpose is Purpose.DETAILS:
            return self._details(entry, line)
        if purpose is Purpose.CHANGE:
            return self._change(entry, line)
        return self._arranging.propose_of(purpose, entry, line)

    def _change(self, entry: RosterEntry, line: str) -> Proposal:
        """Another weekly time from a date on; also the instrument alone: "instrument guitar from jan 12"."""
        standing, rest = _meant(entry, line)
        booking = entry.lesson_of(standing, self.preferences.home)
        if booking is None:
            raise Refused("This weekly time has no lesson.")
        if (other := _INSTRUMENT_FROM.fullmatch(rest.strip())) is not None:
            return self._arranging.propose_instrument(booking, read_name(other["instrument"]), other["since"])
        return self._arranging.propose(Purpose.CHANGE, booking, rest)

    def _details(self, entry: RosterEntry, line: str) -> Proposal:
        """Details, and what changes a weekly time from a date on where a line is that alone."""
        if _INSTRUMENT_FROM.fullmatch(line.strip()) is not None:
            return self._change(entry, line)
        try:
            return self._arranging.propose_of(Purpose.DETAILS, entry, line)
        except UnknownDetail as unknown:
            try:
                return self._change(entry, line)
            except (BadInput, Refused) as fault:
                # A number is a time, a length, or a date, which the other reader knows.
                raise (fault if any(map(str.isdigit, line)) else unknown) from None

    def lesson_to_open(self, entry: RosterEntry) -> ScheduledLesson | None:
        """Today's lesson of a student, else the next one, else the last one that is recorded; None where there is none."""
        now, home = self._clock.now(), self.preferences.home
        following = Finding(self._reading, self._clock, home).next_lesson(entry.student)
        if following is not None:
            return following
        last = next(reversed(self._reading.lessons_of(entry.student.id, now - EVER, now)), None)
        if last is None:
            return None
        return ScheduledLesson(lesson=last, student=entry.student, family=entry.family, is_recorded=True)

    def _owed(self, view: RosterView, entry: RosterEntry) -> tuple[Lesson, ...]:
        """The lessons of a student that are to be made up, and are not yet."""
        closed = self._reading.closed_lessons(entry.student.id)
        owed = make_ups_owed(closed, self.preferences.owes).get(entry.student.id, ())
        enrollments = view.enrollments(entry, date.min) if owed else []
        return tuple(where_it_is(lesson, enrollments, self.preferences.home) for lesson in owed)

    def guardians(self, family_id: FamilyId) -> tuple[Guardian, ...]:
        """The guardians of a family, in their order."""
        return guardians_of(self._reading, family_id)


def _meant(entry: RosterEntry, line: str) -> tuple[StandingTime, str]:
    """The weekly time of a student that a line is about, and the rest of the line: of several, it begins with the instrument.

    Raises:
        BadInput: it does not say which.
        Refused: there is none.
    """
    times = [*entry.times, *(each for each in entry.later if each.follows not in {time.id for time in entry.times})]
    if not times:
        raise Refused(f"{entry.student.name} has no weekly time yet. Press n to add one.")
    if len(times) == 1:
        return times[0], line
    taught = {each.instrument.casefold(): each for each in times if each.instrument}
    word, _, rest = line.strip().partition(" ")
    named = taught.get(word.casefold().rstrip(":,"))
    if len(taught) < len(times):
        raise BadInput(
            f"{entry.student.name} has {len(times)} weekly times. Choose a lesson of the one that you mean in the queue, and press s there."
        )
    if named is None:
        names = listed([each.instrument or "" for each in times])
        raise BadInput(
            f'{entry.student.name} has {len(times)} weekly times: {names}. Begin with the instrument, such as "{times[0].instrument} from jan 12 5 pm".'
        )
    return named, rest
