"""Breaks: days without lessons, proposed from a typed line."""

from cockpit.desk.calendar.ahead import LookingAhead
from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import added
from cockpit.studio.clocks.moments import lesson_zone, local_time
from cockpit.studio.clocks.words import clock_time, counted, near_days
from cockpit.studio.lessons.booking import Booking, People, called
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Kind
from cockpit.studio.typed_times.break_line import read_break


class Pausing:
    """Proposes breaks."""

    def __init__(self, reading: Reading, ahead: LookingAhead, lines: Lines) -> None:
        self._reading = reading
        self._ahead = ahead
        self._lines = lines

    def pause(self, line: str) -> Proposal:
        """Days without lessons, and what was arranged on them and stays.

        Raises:
            BadInput: the line names none.
        """
        people = self._reading.people()
        practice = self._lines.practice
        read = read_break(
            line,
            people.families.values(),
            now=self._lines.now(),
            home_zone=practice.home_zone,
            month_first=practice.month_first,
        )
        new = Break(
            id=BreakId(self._lines.id_number()),
            family_id=read.family_id,
            from_on=read.from_on,
            until_on=read.until_on,
            reason=read.reason,
        )
        days = near_days(new.from_on, new.until_on, self._lines.today())
        falling, staying = self._ahead.lessons_in(new)
        count = counted(len(falling), "lesson") if falling else "No lesson"
        understood = f"No lessons for {self._whose(new, people)}: {days}" + (f", {new.reason}" if new.reason else "")
        return Proposal(
            understood=f"{understood}. {count} fall{'' if len(falling) > 1 else 's'} into it.",
            edits=added(new),
            said="break",
            troubles=self._staying(staying),
        )

    def _whose(self, new: Break, people: People) -> str:
        if new.family_id is None:
            return "the whole studio"
        family = people.families[new.family_id]
        is_elsewhere = family.zone != lesson_zone(self._lines.practice.home_zone, new.from_on)
        return f"family {family.name}" + (" (days on their own calendar)" if is_elsewhere else "")

    def _staying(self, lessons: list[Booking]) -> tuple[str, ...]:
        """A sentence on the lessons that were put on the days of a break, and that it does not take away."""
        if not lessons:
            return ()
        practice, names = self._lines.practice, called(lessons)
        said = []
        for each in lessons:
            at = local_time(each.lesson.starts_at, practice.home_zone)
            what = "moved" if each.lesson.kind is Kind.WEEKLY else each.lesson.kind
            said.append(
                f"{names[each.lesson.id]}, {what}, {self._lines.day(at.date())}, {clock_time(at, practice.hours)}"
            )
        return (f"Arranged on these days, and held all the same: {'; '.join(said)}.",)
