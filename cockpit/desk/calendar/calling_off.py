"""Lessons that the teacher calls off: each family is told alone, and what her policy says is owed."""

from collections.abc import Callable, Sequence
from itertools import count

from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.lookup import bookings_between, sharing
from cockpit.desk.ports import Reading
from cockpit.desk.post.letters import Letters
from cockpit.studio.changes.records import Edit
from cockpit.studio.clocks.words import counted, listed, near_days, possessive
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson, called
from cockpit.studio.post.letters import News
from cockpit.studio.typed_times.call_off_line import CallOffLine, read_call_off
from cockpit.studio.values import replace

_MOST_NAMED = 8


class CallingOff:
    """Proposes that lessons are called off."""

    def __init__(self, reading: Reading, lines: Lines, letters: Callable[[], Letters]) -> None:
        self._reading = reading
        self._lines = lines
        self._letters = letters

    def propose(self, booking: ScheduledLesson | None, line: str) -> Proposal:
        """The lessons that a line names are not held: none of them has begun. A letter waits for each family.

        Raises:
            BadInput: the line is not understood, or there is no such lesson.
            Refused: the chosen lesson has begun, is over, or does not take place.
        """
        read = read_call_off(line, self._lines.names(), self._lines.reference(self._lines.today())[0])
        bookings = self._chosen(booking) if read.days is None else self._of_days(read)
        after = [
            replace(each, lesson=replace(each.lesson, outcome=Outcome.CALLED_OFF, reason=read.reason or None))
            for each in bookings
        ]
        letters, place = self._letters().to_each(News.CALLED_OFF, after), count()
        edits = [
            Edit(before=old.lesson if old.is_recorded else None, after=new.lesson)
            for old, new in zip(bookings, after, strict=True)
        ]
        return Proposal(
            understood=self._understood(after, read, len(letters)),
            edits=(*edits, *self._letters().edits(letters, lambda: self._lines.id_number(next(place)))),
            said=f"calling off {counted(len(after), 'lesson')}"
            if len(after) > 1
            else f"calling off {possessive(after[0].student.name)} lesson",
            shown=tuple(f"{letter.to.name}: {' '.join(letter.text.split())}" for letter in letters),
            whom=read.whom,
        )

    def _chosen(self, booking: ScheduledLesson | None) -> list[ScheduledLesson]:
        if booking is None:
            raise Refused("There are no lessons on this day.")
        lesson = booking.lesson
        if lesson.outcome is not None or lesson.began_at is not None or lesson.finished_at is not None:
            raise Refused(
                f"{possessive(booking.student.name)} lesson has begun or is marked. Only a lesson to come is called off."
            )
        return [booking, *sharing(self._reading, booking, self._lines.preferences.home)]

    def _of_days(self, read: CallOffLine) -> list[ScheduledLesson]:
        home, now = self._lines.preferences.home, self._lines.now()
        first, last = read.days or (self._lines.today(),) * 2
        begins, ends = home.day_bounds(first)[0], home.day_bounds(last)[1]
        found = [
            each
            for each in bookings_between(self._reading, begins, ends, home)[0]
            if each.lesson.is_open and each.lesson.began_at is None and each.lesson.planned_end > now
            if read.family_id is None or each.family.id == read.family_id
            if home.date_of(each.lesson.starts_at) > first or home.local(each.lesson.starts_at).time() >= read.begins
        ]
        if not found:
            days = near_days(first, last, self._lines.today())
            raise BadInput(f"There is no lesson to call off: {days}{f', {read.whom}' if read.whom else ''}.")
        return found

    def _understood(self, lessons: Sequence[ScheduledLesson], read: CallOffLine, letters: int) -> str:
        home, names = self._lines.preferences.home, called(lessons)
        first, last = (home.date_of(lessons[place].lesson.starts_at) for place in (0, -1))
        who = (
            listed([names[each.lesson.id] for each in lessons])
            if len(lessons) <= _MOST_NAMED
            else counted(len(lessons), "lesson")
        )
        owes = sum(self._lines.preferences.owes(each.lesson) for each in lessons)
        owed = counted(owes, "make-up") if owes else "No make-up"
        parts = [
            f"Called off: {who}, {near_days(first, last, self._lines.today())}.",
            f"Reason, for you alone: {read.reason}." if read.reason else "",
            f"{owed} {'are' if owes > 1 else 'is'} owed.",
            "A rehearsal sends no letters."
            if self._lines.is_rehearsal
            else f"{counted(letters, 'letter')} {'waits' if letters == 1 else 'wait'} in the outbox, one a family.",
        ]
        return " ".join(filter(None, parts))
