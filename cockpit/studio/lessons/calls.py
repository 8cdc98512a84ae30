"""Calls that were lost during a lesson: the minutes that they cost, and what becomes of those."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from enum import StrEnum

from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.people.people import Student, StudentId
from cockpit.studio.values import Value, replace


class Settled(StrEnum):
    """What became of lost minutes that are not owed: they were given, or nobody asks for them."""

    GIVEN = "given"
    LET_BE = "let be"


class CallLoss(Value):
    """A call that was lost in a lesson, from a moment to another (both UTC); `back_at` is None while it is lost.

    Minutes that were given to a running lesson name it: `given_in`. All of it is for the teacher alone.
    """

    lesson_id: LessonId
    lost_at: datetime
    back_at: datetime | None = None
    settled: Settled | None = None
    given_in: LessonId | None = None


class LostMinutes(Value):
    """Losses of one student that are not settled, each with its lesson; the oldest first."""

    losses: tuple[tuple[CallLoss, Lesson], ...]

    @property
    def minutes(self) -> int:
        """How many minutes they cost."""
        return sum(minutes_lost(loss, lesson.ends_at) for loss, lesson in self.losses)

    @property
    def lessons(self) -> tuple[Lesson, ...]:
        """The lessons that they were in, each once."""
        return tuple({lesson.id: lesson for _, lesson in self.losses}.values())

    def settled(self, how: Settled, given_in: LessonId | None = None) -> tuple[tuple[CallLoss, CallLoss], ...]:
        """Each loss as it is and as it is once it is settled."""
        return tuple((loss, replace(loss, settled=how, given_in=given_in)) for loss, _ in self.losses)


class OwedMinutes(Value):
    """What a student is owed for lost calls."""

    student: Student
    lost: LostMinutes

    @property
    def minutes(self) -> int:
        """How many minutes."""
        return self.lost.minutes


def minutes_lost(loss: CallLoss, until: datetime) -> int:
    """The whole minutes from the one in which a call was lost to the one in which it was back, as a clock shows them.

    They are counted on the UTC clock. A call that is still lost, or that never came back, is lost `until` a moment (UTC).
    """
    ends = until if loss.back_at is None else loss.back_at
    return max(0, _minute(ends) - _minute(loss.lost_at))


def open_loss(losses: Iterable[CallLoss]) -> CallLoss | None:
    """The loss of a lesson whose call is lost now."""
    return next((each for each in losses if each.back_at is None), None)


def lost_in(lesson: Lesson, losses: Iterable[CallLoss]) -> LostMinutes | None:
    """What a lesson lost and nothing became of yet; None where that is less than a minute."""
    found = LostMinutes(losses=tuple((each, lesson) for each in losses if each.settled is None))
    return found if found.minutes else None


def owed_by_student(
    unsettled: Iterable[tuple[CallLoss, Lesson]], students: Mapping[StudentId, Student]
) -> tuple[OwedMinutes, ...]:
    """What is owed of losses that are not settled, in order, by student; who has waited longest comes first."""
    found: dict[StudentId, list[tuple[CallLoss, Lesson]]] = {}
    for loss, lesson in unsettled:
        found.setdefault(lesson.student_id, []).append((loss, lesson))
    owed = (OwedMinutes(student=students[of], lost=LostMinutes(losses=tuple(each))) for of, each in found.items())
    return tuple(each for each in owed if each.minutes)


def _minute(at: datetime) -> int:
    return int(at.timestamp() // 60)
