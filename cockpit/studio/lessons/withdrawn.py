"""What was in the studio's calendar and is no more: a program that has taken it in is to be told.

Its student is None where somebody new was taken back with it.
"""

from datetime import date, datetime, time

from cockpit.studio.clocks.moments import Zone
from cockpit.studio.lessons.lesson import Kind, LessonId
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import FamilyId, StudentId
from cockpit.studio.values import Value

NOBODY = StudentId(0)
"""The number of no student: they are counted from 1."""


class WithdrawnLesson(Value):
    """A lesson that was booked and taken back, or a weekly one whose move was; `starts_at` (UTC) is where it was last."""

    lesson_id: LessonId
    student_id: StudentId | None
    kind: Kind
    instrument: str | None = None
    starts_at: datetime
    minutes: int


class WithdrawnTime(Value):
    """A weekly time that was taken back, as it was last; dates and times on the clock that it was kept in.

    Others are told of it until its last day, or for a year from its first; one without either gets a first day when it
    is looked through for what is past.
    """

    standing_time_id: StandingTimeId
    student_id: StudentId | None
    weekday: int
    at: time
    minutes: int
    kept_in: KeptIn
    instrument: str | None = None
    from_on: date | None = None
    until_on: date | None = None
    every_weeks: int = 1

    @property
    def standing(self) -> StandingTime:
        """The weekly time that it was."""
        return StandingTime(
            id=self.standing_time_id,
            student_id=self.student_id or NOBODY,
            weekday=self.weekday,
            at=self.at,
            minutes=self.minutes,
            kept_in=self.kept_in,
            instrument=self.instrument,
            from_on=self.from_on,
            until_on=self.until_on,
            every_weeks=self.every_weeks,
        )


class WithdrawnClock(Value):
    """The clock of a family with a move that was taken away again: others may have weekly lessons behind it."""

    family_id: FamilyId
    zone: Zone
