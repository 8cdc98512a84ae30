"""One student pauses: which lessons fall out, what stays, when they go on, and who would be in the way then."""

from collections.abc import Sequence
from datetime import date, timedelta

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import Whose, bookings_between
from cockpit.desk.ports import Reading
from cockpit.studio.calendar.collisions import Trouble, grouped, takes_place
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.clocks.horizons import EVER, NEXT_LESSON
from cockpit.studio.clocks.moments import lesson_zone
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.breaks import LeftOut, Pause, PauseId, break_of, paused_date, without_breaks
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.lessons.scheduled import ScheduledLesson, in_order
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.typed_times.pause_line import read_pause
from cockpit.wording.problems import group_sentence

_DAY = timedelta(days=1)


class Pausing:
    """Proposes pauses."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines

    def propose(self, whose: Whose, line: str) -> Proposal:
        """A pause of a student; one that lies on the same days is replaced by it.

        Raises:
            BadInput: the line is not understood.
            Refused: the student has such a pause already.
        """
        theirs = self._ahead.pauses_of(whose.student.id)
        going_on = next((each for each in theirs if each.last_on >= self._lines.today()), None)
        reference = self._lines.reference(self._lines.today())[0]
        read = read_pause(line, whose.student.name, reference, going_on.from_on if going_on is not None else None)
        last_on = read.until_on or date.max
        replaced = [each for each in theirs if each.from_on <= last_on and read.from_on <= each.last_on]
        before = replaced[0] if replaced else None
        keeps_time = (before is None or before.keeps_time) if read.keeps_time is None else read.keeps_time
        new = Pause(
            id=PauseId(self._lines.id_number()),
            student_id=whose.student.id,
            from_on=read.from_on,
            until_on=read.until_on,
            keeps_time=keeps_time,
            reason=read.reason or (before.reason if before is not None else ""),
        )
        if before is not None and _said(before) == _said(new):
            raise Refused(f"{whose.student.name} is already paused: {self._lines.days_of(new)}.")
        kept, left_out = self._lessons(new, replaced)
        staying = [b for b in kept if takes_place(b) and break_of(b, [new], self._home) is not None]
        after = [b for b in kept if takes_place(b) and paused_date(b.lesson, self._home) > new.last_on]
        return Proposal(
            understood=" ".join(
                filter(
                    None,
                    [
                        f"{whose.student.name} pauses{':' if new.until_on is not None else ''} {self._lines.days_of(new)}"
                        f"{self._on_whose_days(new)}.",
                        f"Reason, for you alone: {new.reason}." if new.reason else "",
                        self._replaces(replaced),
                        self._falling(new, left_out),
                        self._first_after(new, after),
                        self._time(new),
                    ],
                )
            ),
            edits=(*(Edit(before=each, after=None) for each in replaced), *added(new)),
            said=f"pausing {whose.student.name}",
            troubles=(*self._lines.staying(staying, "pause"), *self._at_return(after)),
            whom=whose.student.name,
        )

    @property
    def _home(self) -> TeacherClock:
        return self._lines.preferences.home

    def _lessons(self, new: Pause, replaced: Sequence[Pause]) -> tuple[list[ScheduledLesson], list[LeftOut]]:
        """The student's lessons from the first day of a pause until some time after it, as they would be with it."""
        begins = self._home.day_bounds(new.from_on - _DAY)[0]
        last = min(new.last_on, new.from_on + EVER) if new.until_on is not None else new.from_on + NEXT_LESSON
        ends = self._home.day_bounds(last + _DAY)[1] + NEXT_LESSON
        kept, left_out = bookings_between(self._reading, begins, ends, self._home, new.student_id)
        back = [each.booking for each in left_out if each.because in replaced]
        return without_breaks(in_order([*kept, *back]), [new], self._home)

    def _on_whose_days(self, new: Pause) -> str:
        """Says so where the days are not hers: a weekly time on the family's clock goes by that."""
        people = self._reading.people()
        family = people.families[people.students[new.student_id].family_id]
        is_theirs = any(
            each.student_id == new.student_id and each.kept_in is KeptIn.FAMILY
            for each in self._reading.standing_times(new.from_on)
        )
        is_elsewhere = lesson_zone(family.zone, new.from_on) != lesson_zone(self._home.zone, new.from_on)
        return " (days in the family's time zone)" if is_theirs and is_elsewhere else ""

    def _replaces(self, replaced: Sequence[Pause]) -> str:
        days = "; ".join(self._lines.days_of(each) for each in replaced)
        return f"It replaces the pause {days}." if days else ""

    def _falling(self, new: Pause, left_out: Sequence[LeftOut]) -> str:
        if new.until_on is None:
            if not left_out:
                return "There is no lesson from then on."
            first = left_out[0].booking
            return f"All lessons from {self._lines.at(first.lesson.starts_at, first)}, fall out."
        how_many = counted(len(left_out), "lesson") if left_out else "No lesson"
        return f"{how_many} fall{'' if len(left_out) > 1 else 's'} out."

    def _first_after(self, new: Pause, after: Sequence[ScheduledLesson]) -> str:
        if new.ask_on is not None:
            return f"It has no last day: Coming up asks you about it from {self._lines.day(new.ask_on)}, on."
        weekly = [each for each in after if each.lesson.kind is Kind.WEEKLY]
        if not weekly:
            return "No weekly lesson follows in the four months after it."
        return f"The first lesson after it is {self._lines.at(weekly[0].lesson.starts_at, weekly[0])}."

    def _time(self, new: Pause) -> str:
        if new.keeps_time:
            return "The weekly time is kept."
        return "The weekly time is free until then." if new.until_on is not None else "The weekly time is free."

    def _at_return(self, after: Sequence[ScheduledLesson]) -> list[str]:
        """What two at once there would be, or too close to each other, when the lessons go on."""
        found = [
            each
            for each in self._ahead.troubles_of([b for b in after if b.lesson.kind is Kind.WEEKLY])
            if each.trouble in {Trouble.OVERLAP, Trouble.TOO_CLOSE}
        ]
        return [group_sentence(group, self._home, self._lines.today()) for group in grouped(found)]


def _said(pause: Pause) -> tuple[date, date | None, bool, str]:
    return pause.from_on, pause.until_on, pause.keeps_time, pause.reason
