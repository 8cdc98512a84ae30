"""What is to be done with an inquiry next, which is the most urgent, and how many came of which something became.

When somebody is asked again, and when nothing more is expected, is common practice, no source.
"""

from collections.abc import Iterable, Sequence
from datetime import date, datetime, timedelta
from enum import Enum, auto
from fractions import Fraction

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.inquiries.deadline import Deadline, TeachingDay, deadline
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryCourse, InquiryState, InquiryStep, StepKind
from cockpit.studio.inquiries.rules import InquiryRules
from cockpit.studio.inquiries.wishes import Fit, WeeklyGap
from cockpit.studio.values import Value, replace

_AFTER_TRIAL = timedelta(days=2)
_DAY = timedelta(days=1)


class InquiryTask(Enum):
    """What the teacher does next with an inquiry."""

    ANSWER = auto()
    REPLY = auto()
    ASK_AGAIN = auto()
    ASK_ABOUT_TRIAL = auto()
    BOOK_AGAIN = auto()
    CLOSE = auto()


class InquiryToDo(Value):
    """What is to be done next, and from which date of her clock on."""

    task: InquiryTask
    on: date


class InquiryStanding(Value):
    """Where an inquiry stands on a moment: its state, until when it is to be answered, and what is to be done next.

    `to_do` may lie ahead; None where nothing is expected of her.
    """

    course: InquiryCourse
    state: InquiryState
    deadline: Deadline
    to_do: InquiryToDo | None
    today: date

    @property
    def is_due(self) -> bool:
        """Whether there is something to do today."""
        return self.to_do is not None and self.to_do.on <= self.today

    @property
    def urgency(self) -> tuple[int, datetime, int]:
        """What sorts the most urgent first: to be answered, to be done, a trial that comes, and what is for later."""
        number = self.course.inquiry.id
        if self.to_do is not None and self.to_do.task is InquiryTask.ANSWER:
            return 0, self.deadline.due_at, number
        since = self.course.steps[-1].at if self.course.steps else self.course.inquiry.came_at
        if self.is_due:
            return 1, since, number
        if self.state is InquiryState.TRIAL_BOOKED and self.course.trial is not None:
            return 2, self.course.trial.starts_at, number
        return 3, since, number


def standing_of(course: InquiryCourse, now: datetime, rules: InquiryRules, day: TeachingDay) -> InquiryStanding:
    """Where an inquiry stands at a moment (UTC)."""
    return InquiryStanding(
        course=course,
        state=course.state(now),
        deadline=deadline(course.inquiry.came_at, rules, day),
        to_do=_to_do(course, now, rules.follow_up_days, day.home),
        today=day.home.date_of(now),
    )


def _to_do(course: InquiryCourse, now: datetime, days: Sequence[int], home: TeacherClock) -> InquiryToDo | None:
    state = course.state(now)
    if state is InquiryState.NEW:
        return InquiryToDo(task=InquiryTask.ANSWER, on=home.date_of(course.inquiry.came_at))
    if state in {InquiryState.CLOSED, InquiryState.STUDENT, InquiryState.TRIAL_BOOKED}:
        return None
    last = course.steps[-1]
    if last.what is StepKind.THEY_WROTE:
        return InquiryToDo(task=InquiryTask.REPLY, on=home.date_of(last.at))
    return None if state is InquiryState.WAITING else _after_step(course, last, state, days, home)


def _after_step(
    course: InquiryCourse, last: InquiryStep, state: InquiryState, days: Sequence[int], home: TeacherClock
) -> InquiryToDo | None:
    """What comes after a step of hers: she asks how the trial was, books it again, or asks again."""
    if state is InquiryState.TRIED and course.trial is not None:
        return _after_trial(course, course.trial.planned_end, days, home)
    if last.what is StepKind.TRIAL:  # it was booked, and did not take place
        on = course.trial.starts_at if course.trial is not None else last.at
        return InquiryToDo(task=InquiryTask.BOOK_AGAIN, on=home.date_of(on))
    return _after_answer(course, days, home)


def _after_answer(course: InquiryCourse, days: Sequence[int], home: TeacherClock) -> InquiryToDo | None:
    """She asks again so many days after the answer, once for each number; then nothing more is expected of them."""
    heard = course.last(StepKind.THEY_WROTE)
    written = [step.at for step in course.writings if heard is None or step.at >= heard.at]
    if not written:
        return None
    asked = len(written) - 1
    if asked < len(days):
        on = home.date_of(written[0]) + days[asked] * _DAY
        return InquiryToDo(task=InquiryTask.ASK_AGAIN, on=on)
    return InquiryToDo(task=InquiryTask.CLOSE, on=home.date_of(written[-1]) + days[0] * _DAY)


def _after_trial(course: InquiryCourse, ended_at: datetime, days: Sequence[int], home: TeacherClock) -> InquiryToDo:
    asked = [step.at for step in course.writings if step.at >= ended_at]
    if not asked:
        return InquiryToDo(task=InquiryTask.ASK_ABOUT_TRIAL, on=home.date_of(ended_at) + _AFTER_TRIAL)
    return InquiryToDo(task=InquiryTask.CLOSE, on=home.date_of(asked[-1]) + days[0] * _DAY)


class WhoFits(Value):
    """A weekly place that is or becomes free, and who of the waiting list it would suit from when until when."""

    gap: WeeklyGap
    starts_at: datetime
    fits: tuple[tuple[Inquiry, Fit], ...]


class InquiryCounts(Value):
    """How many inquiries came in a span of days, and of how many of them something became.

    `by_source` are the same counts of those that came from each place, the most frequent one first; those of which it is not known are in none.
    """

    came: int
    answered: int
    in_time: int
    trials: int
    students: int
    by_source: "tuple[tuple[str, InquiryCounts], ...]" = ()


def counted_inquiries(
    standings: Iterable[InquiryStanding], first_on: date, last_on: date, home: TeacherClock
) -> InquiryCounts:
    """The counts of the inquiries that came on the days of her clock from one date through another."""
    found = [each for each in standings if first_on <= home.date_of(each.course.inquiry.came_at) <= last_on]
    by_source: dict[str, list[InquiryStanding]] = {}
    for each in found:
        by_source.setdefault(each.course.inquiry.source, []).append(each)
    ordered = sorted(by_source.items(), key=lambda item: (-len(item[1]), item[0]))
    return replace(_counts(found), by_source=tuple((source, _counts(those)) for source, those in ordered if source))


def _counts(found: Sequence[InquiryStanding]) -> InquiryCounts:
    answers = [(each.course.answered_at, each.deadline.due_at) for each in found]
    return InquiryCounts(
        came=len(found),
        answered=sum(at is not None for at, _ in answers),
        in_time=sum(at is not None and at <= due_at for at, due_at in answers),
        trials=sum(each.course.has(StepKind.TRIAL) for each in found),
        students=sum(each.course.has(StepKind.STUDENT) or each.state is InquiryState.STUDENT for each in found),
    )


def percent(part: int, whole: int) -> str:
    """A part of a whole as a percentage with one decimal, half up: `75.0 %`."""
    tenths = int(Fraction(part * 1000, whole) + Fraction(1, 2))
    return f"{tenths // 10}.{tenths % 10} %"
