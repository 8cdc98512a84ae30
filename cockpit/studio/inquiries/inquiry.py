"""An inquiry about lessons, and the steps that were taken with it; what state it is in follows from the steps.

All of it is the teacher's alone: no family ever reads it.
"""

from collections.abc import Sequence, Set
from datetime import datetime
from enum import StrEnum
from typing import assert_never

from cockpit.studio.inquiries.ids import InquiryId as InquiryId
from cockpit.studio.inquiries.ids import InquiryStepId as InquiryStepId
from cockpit.studio.inquiries.rules import ADULT, InquiryRules
from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.people.people import Level, StudentId, name_key
from cockpit.studio.values import Value

MOST_WORDS = 20_000
"""Characters of their words that are kept."""


class Inquiry(Value):
    """Somebody who asked about lessons, as she said it herself.

    `came_at` is UTC. `name` is who asked; `child` is for whom, None where that is the same person. `age` is the number
    that was said on that day; it goes when the inquiry is closed or becomes a student. `instrument` can be several with
    commas. `zone` is an IANA name. `wishes` are the times that would suit, as typed, on their clock. `words` is what
    they wrote. `student_id` is the student that the trial lesson was booked for.
    """

    id: InquiryId
    came_at: datetime
    name: str
    email: str | None = None
    child: str | None = None
    age: int | None = None
    is_adult: bool = False
    instrument: str | None = None
    level: Level | None = None
    zone: str | None = None
    wishes: str = ""
    source: str = ""
    words: str = ""
    trial_lesson_id: LessonId | None = None
    student_id: StudentId | None = None

    @property
    def instruments(self) -> tuple[str, ...]:
        """Each instrument that was named."""
        return tuple(self.instrument.split(", ")) if self.instrument else ()

    @property
    def learner(self) -> str:
        """Who is to take lessons."""
        return self.child or self.name

    @property
    def full_name(self) -> str:
        """The name of who is to take lessons with a last name, that of who asked where the child's has none."""
        if self.child is None or len(self.child.split()) > 1:
            return self.learner
        words = self.name.split()
        return f"{self.child} {words[-1]}" if len(words) > 1 else self.child

    def proposed_length(self, rules: InquiryRules) -> int | None:
        """The minutes of a lesson by age and level; None where no age was said."""
        age = ADULT if self.is_adult else self.age
        return None if age is None else rules.length(age, self.level)


class StepKind(StrEnum):
    """What happened to an inquiry."""

    ANSWERED = "answered"
    BY_PHONE = "answered by phone"
    THEY_WROTE = "they wrote again"
    TRIAL = "trial booked"
    STUDENT = "became a student"
    WAITING = "on the waiting list"
    DECLINED = "closed: they chose somebody else"
    TURNED_DOWN = "closed: no time"
    NO_ANSWER = "closed: no answer"


CLOSINGS = frozenset({StepKind.DECLINED, StepKind.TURNED_DOWN, StepKind.NO_ANSWER})
"""The steps that close an inquiry: by them, by the teacher, or by nobody's word."""
_WRITINGS = frozenset({StepKind.ANSWERED, StepKind.BY_PHONE})
_ANSWERS = _WRITINGS | {StepKind.TRIAL, StepKind.STUDENT, StepKind.WAITING}


class InquiryStep(Value):
    """One thing that happened to an inquiry, at a moment (UTC)."""

    id: InquiryStepId
    inquiry_id: InquiryId
    at: datetime
    what: StepKind


class InquiryState(StrEnum):
    """How far an inquiry has come."""

    NEW = "new"
    ANSWERED = "answered"
    TRIAL_BOOKED = "trial booked"
    TRIED = "tried"
    STUDENT = "student"
    WAITING = "waiting"
    CLOSED = "closed"


class InquiryCourse(Value):
    """An inquiry with its steps in the order of their moments, and the trial lesson that was booked, while it is there.

    `is_enrolled` says that the student of the trial has, or had, a weekly time.
    """

    inquiry: Inquiry
    steps: tuple[InquiryStep, ...] = ()
    trial: Lesson | None = None
    is_enrolled: bool = False

    @property
    def answered_at(self) -> datetime | None:
        """When it was first answered, in whatever way; a trial that is booked is an answer, a closing is none."""
        return next((step.at for step in self.steps if step.what in _ANSWERS), None)

    @property
    def closing(self) -> InquiryStep | None:
        """The step that closed it, which says by whom; None while it is open."""
        last = self.steps[-1] if self.steps else None
        return last if last is not None and last.what in CLOSINGS else None

    @property
    def writings(self) -> tuple[InquiryStep, ...]:
        """The times that the teacher wrote or telephoned."""
        return tuple(step for step in self.steps if step.what in _WRITINGS)

    def has(self, what: StepKind) -> bool:
        """Whether something happened to it at any time."""
        return any(step.what is what for step in self.steps)

    def last(self, what: StepKind) -> InquiryStep | None:
        """The last step of a kind."""
        return next((step for step in reversed(self.steps) if step.what is what), None)

    def state(self, now: datetime) -> InquiryState:
        """The state at a moment (UTC): that of its steps, and a trial counts as taken once its time is over."""
        state = InquiryState.NEW
        for step in self.steps:
            state = _after(state, step.what)
        if state is not InquiryState.TRIAL_BOOKED:
            return state
        if self.trial is None or self.trial.outcome is not None:
            return InquiryState.ANSWERED
        if self.trial.finished_at is None and now < self.trial.planned_end:
            return state
        return InquiryState.STUDENT if self.is_enrolled else InquiryState.TRIED


def _after(state: InquiryState, what: StepKind) -> InquiryState:
    """The state that a step leads to from another one."""
    match what:
        case StepKind.ANSWERED | StepKind.BY_PHONE:
            return InquiryState.ANSWERED if state in {InquiryState.NEW, InquiryState.CLOSED} else state
        case StepKind.THEY_WROTE:
            return InquiryState.ANSWERED if state is InquiryState.CLOSED else state
        case StepKind.TRIAL:
            return InquiryState.TRIAL_BOOKED
        case StepKind.STUDENT:
            return InquiryState.STUDENT
        case StepKind.WAITING:
            return InquiryState.WAITING
        case StepKind.DECLINED | StepKind.TURNED_DOWN | StepKind.NO_ANSWER:
            return InquiryState.CLOSED
        case _ as never:
            assert_never(never)


def courses(
    inquiries: Sequence[Inquiry],
    steps: Sequence[InquiryStep],
    trials: Sequence[Lesson],
    enrolled: Set[StudentId] = frozenset(),
) -> tuple[InquiryCourse, ...]:
    """Each inquiry with its own steps and trial, in the order given; `enrolled` are the students with a weekly time."""
    by_id = {lesson.id: lesson for lesson in trials}
    of_each: dict[InquiryId, list[InquiryStep]] = {}
    for step in sorted(steps, key=lambda step: (step.at, step.id)):
        of_each.setdefault(step.inquiry_id, []).append(step)
    return tuple(
        InquiryCourse(
            inquiry=each,
            steps=tuple(of_each.get(each.id, ())),
            trial=by_id.get(each.trial_lesson_id) if each.trial_lesson_id is not None else None,
            is_enrolled=each.student_id in enrolled,
        )
        for each in inquiries
    )


def same_address(email: str | None, other: str | None) -> bool:
    """Whether two addresses are the same one; none is no other's."""
    return email is not None and other is not None and name_key(email) == name_key(other)
