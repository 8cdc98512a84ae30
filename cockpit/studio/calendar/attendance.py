"""Attendance: how many of the weekly lessons that were to be by now the student came to."""

from collections.abc import Iterable
from datetime import datetime
from fractions import Fraction

from cockpit.studio.lessons.lesson import Kind, Lesson, Outcome
from cockpit.studio.lessons.lineage import origin_of
from cockpit.studio.lessons.scheduled import was_taught
from cockpit.studio.values import Value


class Attendance(Value):
    """Of so many weekly lessons `planned`, how many were `attended`, `made_up` ones among them, and what became of others.

    The others are those that were not made up. Of `unmarked` ones nobody said how they went.
    """

    planned: int
    attended: int
    made_up: int = 0
    absent: int = 0
    cancelled: int = 0
    cancelled_late: int = 0
    called_off: int = 0
    unmarked: int = 0

    @property
    def held(self) -> int:
        """The planned ones without those that were canceled in time or called off."""
        return self.planned - self.cancelled - self.called_off

    @property
    def percent_of_planned(self) -> Fraction | None:
        """How many percent of those that were planned were attended; None where none was."""
        return Fraction(100 * self.attended, self.planned) if self.planned else None

    @property
    def percent_of_held(self) -> Fraction | None:
        """How many percent of those that were not called off were attended; None where none was."""
        return Fraction(100 * self.attended, self.held) if self.held else None


def attendance(lessons: Iterable[Lesson], now: datetime) -> Attendance:
    """The attendance of one student's lessons at `now` (UTC); lessons that breaks and pauses take away are not among them.

    A lesson that was moved is one; one that was made up is attended when the make-up, or the make-up of that, was taught.
    """
    known = {each.id: each for each in lessons}
    made_up = {each.id: each.makes_up for each in known.values()}
    taught_for = {origin_of(each.id, made_up.get) for each in known.values() if each.makes_up and was_taught(each)}
    planned = [
        each for each in known.values() if each.kind is Kind.WEEKLY and (each.planned_end <= now or was_taught(each))
    ]
    missed = [each for each in planned if not was_taught(each) and each.id not in taught_for]
    return Attendance(
        planned=len(planned),
        attended=len(planned) - len(missed),
        made_up=sum(each.id in taught_for and not was_taught(each) for each in planned),
        absent=_with(missed, Outcome.ABSENT),
        cancelled=_with(missed, Outcome.CANCELLED),
        cancelled_late=_with(missed, Outcome.CANCELLED_LATE),
        called_off=_with(missed, Outcome.CALLED_OFF),
        unmarked=_with(missed, None),
    )


def _with(lessons: Iterable[Lesson], outcome: Outcome | None) -> int:
    return sum(each.outcome is outcome for each in lessons)
