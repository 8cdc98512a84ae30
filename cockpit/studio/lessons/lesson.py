"""A lesson: one meeting, its states, and what may happen to it."""

from datetime import UTC, date, datetime, timedelta
from enum import StrEnum
from typing import NewType

from cockpit.studio.errors import Refused
from cockpit.studio.lessons.weekly_times import StandingTimeId
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import Value, replace

LessonId = NewType("LessonId", str)
_MINUTE = timedelta(minutes=1)


class Kind(StrEnum):
    """Why a lesson is there."""

    WEEKLY = "weekly"
    TRIAL = "trial"
    MAKE_UP = "make-up"
    EXTRA = "extra"


class Outcome(StrEnum):
    """Why a lesson was not taught: the student did not come, the family canceled it, or the teacher called it off."""

    ABSENT = "absent"
    CANCELLED = "cancelled"
    CANCELLED_LATE = "cancelled late"
    CALLED_OFF = "called off"


class State(StrEnum):
    """What a lesson is at a moment. NOT_MARKED is over, and nobody said what became of it."""

    BOOKED = "booked"
    NOT_MARKED = "not marked"
    RUNNING = "running"
    OVER_TIME = "over time"
    FINISHED = "finished"
    ABSENT = "absent"
    CANCELLED = "cancelled"
    CANCELLED_LATE = "cancelled late"
    CALLED_OFF = "called off"


NOT_HELD = frozenset({Outcome.CANCELLED, Outcome.CANCELLED_LATE, Outcome.CALLED_OFF})
"""The outcomes of a lesson that does not take place, as its student knows beforehand."""


class Lesson(Value):
    """One meeting. All moments are UTC; `starts_at` and `minutes` are as planned, the others as they happened.

    One that is moved keeps its own time whatever becomes of its weekly time. `makes_up` is the cancelled lesson that
    a make-up is given for. One that was finished in a rehearsal stays marked: nothing of it is ever sent. `reason` is why it
    was not taught, and `more_minutes` were given for a call that was lost, in it or before: both for the teacher alone. Where `is_let_go`, no
    make-up is owed for it any more, whatever her policy says.
    """

    id: LessonId
    student_id: StudentId
    standing_time_id: StandingTimeId | None = None
    kind: Kind = Kind.WEEKLY
    instrument: str | None = None
    starts_at: datetime
    minutes: int
    began_at: datetime | None = None
    finished_at: datetime | None = None
    outcome: Outcome | None = None
    gives_full_length: bool = False
    is_reopened: bool = False
    is_moved: bool = False
    makes_up: LessonId | None = None
    is_rehearsed: bool = False
    reason: str | None = None
    more_minutes: int = 0
    is_let_go: bool = False

    @property
    def planned_end(self) -> datetime:
        """When the booked time is over."""
        return self.starts_at + self.minutes * _MINUTE

    @property
    def ends_at(self) -> datetime:
        """When it is to end: a late start keeps the planned end, unless the full length is given."""
        more = self.more_minutes * _MINUTE
        if self.gives_full_length and self.began_at is not None:
            return self.began_at + timedelta(minutes=self.minutes) + more
        return self.planned_end + more

    @property
    def all_minutes(self) -> int:
        """Its minutes as planned, and those that it was given more."""
        return self.minutes + self.more_minutes

    @property
    def is_open(self) -> bool:
        """Whether its notes may still change."""
        return self.outcome is None and (self.finished_at is None or self.is_reopened)

    @property
    def takes_notes(self) -> bool:
        """Whether its text may change: until it is finished, and again while it is reopened."""
        return self.finished_at is None or self.is_reopened

    @property
    def follows_its_rule(self) -> bool:
        """Whether its weekly time says when it is: a weekly one that was neither moved nor begun."""
        is_weekly = self.standing_time_id is not None and self.kind is Kind.WEEKLY and not self.is_moved
        return is_weekly and self.began_at is None and self.finished_at is None

    @property
    def is_by_rule(self) -> bool:
        """Whether it is a weekly one that nothing was done to: its weekly time alone says when it is, and if."""
        return self.follows_its_rule and self.outcome is None

    @property
    def is_live(self) -> bool:
        """Whether it is being taught: begun and not yet finished. A lesson reopened after the fact is not."""
        return self.began_at is not None and self.finished_at is None and self.outcome is None


def in_words(state: State | Outcome) -> str:
    """What the teacher reads for a state or an outcome; what is stored, and what scripts read, keeps its older spelling."""
    return state.replace("cancelled", "canceled")


def weekly_id(standing_id: StandingTimeId, taught_on: date) -> LessonId:
    """The lasting id of the meeting that a weekly time names on a date of its own clock."""
    return LessonId(f"w{standing_id}-{taught_on.isoformat()}")


def meeting_date(lesson: Lesson) -> date | None:
    """The date, on its weekly time's clock, of the meeting that a weekly lesson is, also where it was moved."""
    try:
        return date.fromisoformat(lesson.id.removeprefix(f"w{lesson.standing_time_id}-"))
    except ValueError:
        return None


def state_of(lesson: Lesson, now: datetime) -> State:
    """The lesson's state at `now` (UTC)."""
    if lesson.outcome is not None:
        return State(lesson.outcome.value)
    if not lesson.is_open:
        return State.FINISHED
    if lesson.began_at is None and not lesson.is_reopened:
        return State.BOOKED if now < lesson.planned_end else State.NOT_MARKED
    return State.OVER_TIME if now >= lesson.ends_at else State.RUNNING


def begin(lesson: Lesson, now: datetime) -> Lesson:
    """Begins a booked lesson at `now`, or takes a closed one up again.

    Raises:
        Refused: it is running already.
    """
    if lesson.outcome is not None:
        return replace(lesson, outcome=None, reason=None, is_let_go=False)
    if lesson.is_live or lesson.is_reopened:
        raise Refused("This lesson is already running.")
    if lesson.finished_at is None:
        return replace(lesson, began_at=now)
    if lesson.began_at is not None and lesson.began_at <= now < lesson.ends_at:
        return replace(lesson, finished_at=None)
    return replace(lesson, is_reopened=True)


def finish(lesson: Lesson, now: datetime, *, is_rehearsal: bool = False) -> Lesson:
    """Finishes a lesson at `now`; one that was reopened after the fact keeps the times it was taught at.

    What is finished in a rehearsal is marked for good.

    Raises:
        Refused: it is finished, absent or cancelled.
    """
    if not lesson.is_open:
        raise Refused(f"This lesson is {in_words(state_of(lesson, now))}. Press Begin (F2) to reopen it first.")
    finished_at = lesson.finished_at if lesson.is_reopened else now
    is_rehearsed = lesson.is_rehearsed or is_rehearsal
    return replace(lesson, finished_at=finished_at, is_reopened=False, is_rehearsed=is_rehearsed)


def taught_as_planned(lesson: Lesson, *, is_rehearsal: bool = False) -> Lesson:
    """Notes of a lesson that is over that it took place; when it really began is not known.

    Raises:
        Refused: it is finished, absent or cancelled, or was begun.
    """
    if lesson.began_at is not None:
        raise Refused("This lesson was begun. Press Finish (F9) in it.")
    return finish(lesson, lesson.planned_end, is_rehearsal=is_rehearsal)


def close_untaught(lesson: Lesson, outcome: Outcome) -> Lesson:
    """Notes that a lesson did not take place. One that was begun, or finished and reopened, forgets its times.

    Raises:
        Refused: it is finished, or closed so already.
    """
    if lesson.outcome == outcome:
        raise Refused(f"This lesson is already marked {in_words(outcome)}.")
    if lesson.finished_at is not None and not lesson.is_reopened:
        raise Refused(
            f"This lesson was taught. If it was {in_words(outcome)} after all, press Begin (F2) to reopen it first."
        )
    return replace(
        lesson,
        outcome=outcome,
        began_at=None,
        finished_at=None,
        gives_full_length=False,
        is_reopened=False,
        more_minutes=0,
        is_let_go=False,
    )


def began_late(lesson: Lesson) -> bool:
    """Whether a lesson began late and does not get its full length."""
    return lesson.began_at is not None and lesson.began_at > lesson.starts_at and not lesson.gives_full_length


def give_full_length(lesson: Lesson) -> Lesson:
    """Ends the lesson its full length after it began, instead of at its planned end.

    Raises:
        Refused: it is not running, has its full length already, or began on time.
    """
    if not lesson.is_live or lesson.began_at is None:
        raise Refused("Begin the lesson first. Only a running lesson can be given all its minutes.")
    if lesson.gives_full_length:
        raise Refused("This lesson already gets all its minutes.")
    if lesson.began_at <= lesson.starts_at:
        raise Refused("This lesson began on time, so it already gets all its minutes.")
    return replace(lesson, gives_full_length=True)


def give_more(lesson: Lesson, minutes: int) -> Lesson:
    """Ends a running lesson so many minutes later.

    Raises:
        Refused: it is not running.
    """
    if not lesson.is_live:
        raise Refused("Begin the lesson first. Only a running lesson can be given more minutes.")
    return replace(lesson, more_minutes=lesson.more_minutes + minutes)


def last_free_moment(starts_at: datetime, notice_hours: int) -> datetime:
    """The UTC moment up to and at which a lesson can still be cancelled in time. `starts_at` is aware.

    The hours of notice really pass: 24 hours before a lesson on the Sunday of a clock change, the wall clock shows an hour
    more or less than at the lesson.
    """
    return starts_at.astimezone(UTC) - timedelta(hours=notice_hours)


def is_late(starts_at: datetime, now: datetime, notice_hours: int) -> bool:
    """Whether a cancellation at `now` comes with less than the notice; both moments are aware."""
    return now > last_free_moment(starts_at, notice_hours)
