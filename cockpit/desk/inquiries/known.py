"""The inquiries that are kept, each with what happened to it, and what a step with one is made of."""

from datetime import date, datetime

from cockpit.desk.ports import Clock, Reading
from cockpit.desk.steps import ReservedNumbers, Steps
from cockpit.studio.changes.records import Edit, added
from cockpit.studio.errors import NotFound
from cockpit.studio.inquiries.inquiry import (
    Inquiry,
    InquiryCourse,
    InquiryId,
    InquiryStep,
    InquiryStepId,
    StepKind,
    courses,
)
from cockpit.studio.inquiries.wishes import Wishes, read_wishes
from cockpit.studio.post.outgoing import answer_name
from cockpit.studio.preferences import Preferences


class KnownInquiries:
    """Looks inquiries up, and makes steps with them, which somebody else takes."""

    def __init__(self, reading: Reading, steps: Steps, clock: Clock, preferences: Preferences) -> None:
        self._reading = reading
        self._clock = clock
        self.preferences = preferences
        self.numbers = ReservedNumbers(steps.new_id)

    @property
    def now(self) -> datetime:
        """This moment (UTC)."""
        return self._clock.now()

    @property
    def today(self) -> date:
        """The date on her clock."""
        return self.preferences.home.date_of(self._clock.now())

    def all(self) -> tuple[InquiryCourse, ...]:
        """Every inquiry with its steps and its trial. An answer that reached nobody, and is not on its way, was none."""
        inquiries = self._reading.inquiries()
        ids = [each.trial_lesson_id for each in inquiries if each.trial_lesson_id is not None]
        now = self._clock.now()
        trials = self._reading.lessons_between(now, now, ids) if ids else ()
        enrolled = {each.student_id for each in self._reading.standing_times()} if ids else set()
        lost = self._reading.undelivered_answers()
        steps = [each for each in self._reading.inquiry_steps() if answer_name(each.id) not in lost]
        return courses(inquiries, steps, trials, enrolled)

    def course(self, number: InquiryId) -> InquiryCourse:
        """One inquiry.

        Raises:
            NotFound: it is not there any more.
        """
        for each in self.all():
            if each.inquiry.id == number:
                return each
        raise NotFound("That inquiry is not there any more.")

    def wishes(self, inquiry: Inquiry) -> Wishes:
        """The times that would suit, as they were meant on the day that it came."""
        came_on = self.preferences.home.date_of(inquiry.came_at)
        return read_wishes(inquiry.wishes, came_on, month_first=self.preferences.month_first)

    @property
    def next_step(self) -> InquiryStepId:
        """The number of the step that is noted next."""
        return InquiryStepId(self.numbers.at(1))

    def step(self, inquiry: Inquiry, what: StepKind) -> tuple[Edit, ...]:
        """The edit that notes what happens to an inquiry now."""
        return added(InquiryStep(id=self.next_step, inquiry_id=inquiry.id, at=self._clock.now(), what=what))
