"""A student who ends: what is the last lesson, and what is left."""

from datetime import date, datetime, timedelta

from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import bookings_of
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import takes_place
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.horizons import EVER, NEXT_LESSON
from cockpit.studio.clocks.moments import lesson_zone, local_time
from cockpit.studio.clocks.words import long_date, month_and_day
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.lesson import Kind, Lesson, meeting_date
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.roster.entries import RosterEntry
from cockpit.studio.typed_times.end_line import read_end
from cockpit.studio.values import replace

_DAY = timedelta(days=1)


class EndingStudents:
    """Proposes the ends of students."""

    def __init__(self, reading: Reading, lines: Lines) -> None:
        self._reading = reading
        self._lines = lines
        self._home = lines.preferences.home

    def propose(self, entry: RosterEntry, line: str) -> Proposal:
        """All weekly times of a student end; so do the lessons after it, unless the line keeps them. Nothing is deleted.

        Raises:
            BadInput: the line is not understood.
            Refused: there is nothing to end.
        """
        name = entry.student.name
        if not entry.times:
            raise Refused(f"{name} has no weekly time that could end.")
        usual = entry.lesson_of(entry.times[0], self._home)
        reference, _ = self._lines.reference(self._lines.today())
        read = read_end(line, reference, usual.lesson.starts_at if usual is not None else self._lines.now())
        theirs = [each for each in self._reading.standing_times() if each.student_id == entry.student.id]
        _refuse_before_it_began(entry, theirs, read.until_on)
        ended = [(each, self._ended(entry, each, read.until_on)) for each in theirs]
        edits = [Edit(before=before, after=after) for before, after in ended if before != after]
        student = replace(entry.student, ended_because=read.reason or None)
        after = [after for _, after in ended]
        single = self._single(entry, after, read.until_on)
        gone = [] if read.keeps_lessons else [each for each in single if self._can_go(each.lesson, read.until_on)]
        if not edits and not gone and student == entry.student:
            raise Refused(f"{name} has ended already.")
        edits += [Edit(before=each.lesson, after=None) for each in gone]
        edits += [Edit(before=entry.student, after=student)] if student != entry.student else []
        said = [
            f"{name} ends. {self._last(entry, after, read.until_on)}",
            self._told("Canceled with it", gone),
            self._told("Still taking place after it", [each for each in single if each not in gone]),
            self._lines.still_owed(entry, sum(each.lesson.makes_up is not None for each in gone)),
            "All notes and open assignments stay.",
            f"Reason, for you alone: {read.reason}." if read.reason else "",
        ]
        return Proposal(
            understood=" ".join(filter(None, said)),
            edits=tuple(edits),
            said=f"ending {name}",
            troubles=tuple(filter(None, [self._noted(entry, theirs, read.until_on)])),
        )

    def _ended(self, entry: RosterEntry, standing: StandingTime, until: date) -> StandingTime:
        """A weekly time whose last day is one of her clock; one that ended before it stays as it was."""
        kept = self._kept_date(entry, standing, until)
        return (
            standing
            if standing.until_on is not None and standing.until_on <= kept
            else replace(standing, until_on=kept)
        )

    def _kept_date(self, entry: RosterEntry, standing: StandingTime, until: date) -> date:
        """The last date on the clock that a weekly time is kept on, of one that is her own."""
        shown = entry.lesson_of(standing, self._home)
        if shown is None:
            return until
        at = shown.lesson.starts_at
        zone = lesson_zone(standing.clock(self._home, entry.family.zone), self._home.date_of(at))
        return until + (local_time(at, zone).date() - self._home.date_of(at))

    def _bookings(
        self, entry: RosterEntry, times: list[StandingTime], begins: datetime, ends: datetime
    ) -> list[ScheduledLesson]:
        since = self._home.date_of(begins) - 2 * _DAY
        enrollments = [
            Enrollment(standing=each, student=entry.student, family=entry.family)
            for each in times
            if (each.until_on or date.max) >= since
        ]
        kept, _ = bookings_of(self._reading, enrollments, entry, begins, ends, self._home)
        return [each for each in kept if takes_place(each)]

    def _single(self, entry: RosterEntry, times: list[StandingTime], until: date) -> list[ScheduledLesson]:
        """The lessons after an end that no weekly time names where they are, and that have not begun."""
        begins = self._home.day_bounds(max(until + _DAY, self._lines.today()))[0]
        return [
            each
            for each in self._bookings(entry, times, max(begins, self._lines.now()), begins + EVER)
            if each.lesson.began_at is None and each.lesson.finished_at is None
        ]

    def _can_go(self, lesson: Lesson, until: date) -> bool:
        """Whether nothing hangs on a lesson: no notes, no letter; and no weekly time would name it again."""
        if lesson.kind is Kind.WEEKLY and (meeting_date(lesson) or date.min) <= until:
            return False
        notes = self._reading.notes([lesson.id])
        has_notes = lesson.id in notes and bool(notes[lesson.id].body.strip())
        return not has_notes and not self._reading.outgoing_about([lesson.id])

    def _last(self, entry: RosterEntry, times: list[StandingTime], until: date) -> str:
        """The last lesson on both clocks; a day that is no lesson's is said, too."""
        ends = self._home.day_bounds(until)[1]
        before = self._bookings(entry, times, ends - NEXT_LESSON, ends)
        if not before:
            return f"There is no lesson in the {NEXT_LESSON.days} days before {long_date(until)}."
        at = before[-1].lesson.starts_at
        there = self._home.there(at, entry.family.zone)
        verb = "was" if before[-1].lesson.planned_end <= self._lines.now() else "is"
        on = self._home.date_of(at)
        said = f"The last lesson {verb} {long_date(on)}, {self._home.time(at)}{f' · {there}' if there else ''}."
        return said if on == until else f"{said} There is none after it through {month_and_day(until)}."

    def _told(self, what: str, lessons: list[ScheduledLesson]) -> str:
        said = "; ".join(
            f"{'moved' if each.lesson.kind is Kind.WEEKLY else each.lesson.kind}, {self._lines.at(each.lesson.starts_at, each)}"
            for each in lessons
        )
        return f"{what}: {said}." if said else ""

    def _noted(self, entry: RosterEntry, times: list[StandingTime], until: date) -> str | None:
        """A sentence on the notes that were typed ahead into weekly lessons after an end; None where there are none."""
        begins = self._home.day_bounds(max(until + _DAY, self._lines.today()))[0]
        return self._lines.noted(each.lesson for each in self._bookings(entry, times, begins, begins + NEXT_LESSON))


def _refuse_before_it_began(entry: RosterEntry, times: list[StandingTime], until: date) -> None:
    firsts = [each.from_on for each in times]
    begun = [each for each in firsts if each is not None]
    if len(begun) == len(firsts) and until < min(begun):
        raise BadInput(
            f"{entry.student.name} begins on {long_date(min(begun))}. Type that day or a later one, or undo what added the weekly time."
        )
