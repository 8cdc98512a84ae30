"""What a teacher prefers, as her settings say it."""

from datetime import date, datetime, time

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.teaching_hours import TeachingHours, TeachingSpan
from cockpit.studio.inquiries.rules import InquiryRules
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.lessons.policy import Policies, Policy
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.pieces.rules import PieceRules
from cockpit.studio.post.channels import SendingRules
from cockpit.studio.practice.rules import PracticeRules
from cockpit.studio.theory.lesson_theory import CountingSystem, LessonTheory
from cockpit.studio.values import Value, field


class Preferences(Value):
    """Her clock, and all that rules and desk go by and that differs between teachers.

    `family_hours` are 12 or 24, on the clock of families of which the roster says nothing. A lesson canceled at least
    `notice_hours` ahead is canceled in time; a finish with more than `early_minutes` left is asked about. She wants
    `gap_minutes` between two lessons, and lessons between `day_begins` and `day_ends`, on whichever clock is asked
    about: a day that ends at 0:00 ends at the midnight after it; one from 0:00 to 0:00 leaves no night. Where she says on
    which weekdays and when she is `teaching`, that is for her own clock instead. With `month_first`, 12/3 is December 3. A
    student of whom the roster says nothing is given `lesson_times` in a year, which begins on the month and the day of
    `year_begins`. A family that ended `keep_months` ago is asked about, with 0 none. `policies` say what she owes for lessons that are not taught. `labels` are those of her notes. Rhythms are counted by `counting`.
    """

    home: TeacherClock
    family_hours: int = 12
    notice_hours: int = 24
    early_minutes: int = 10
    gap_minutes: int = 0
    day_begins: time = time(7)
    day_ends: time = time(21)
    teaching: TeachingHours = field(default_factory=TeachingHours)
    month_first: bool = True
    lesson_times: int = 36
    year_begins: tuple[int, int] = (9, 1)
    keep_months: int = 24
    practice: PracticeRules = field(default_factory=PracticeRules)
    policies: Policies = field(default_factory=Policies)
    sending: SendingRules = field(default_factory=SendingRules)
    labels: Labels = BUILT_IN
    inquiry: InquiryRules = field(default_factory=InquiryRules)
    pieces: PieceRules = field(default_factory=PieceRules)
    counting: CountingSystem = CountingSystem.NUMBERS

    def theory_for(self, instrument: str | None) -> LessonTheory:
        """What the theory of a lesson on an instrument goes by."""
        return LessonTheory(instrument=instrument, counting=self.counting)

    def policy_for(self, lesson: Lesson) -> Policy:
        """The policy in force on the day of a lesson, on her clock."""
        return self.policies.on(self.home.date_of(lesson.starts_at))

    def owes(self, lesson: Lesson) -> bool:
        """Whether a lesson is to be made up by the policy of its day."""
        return self.policy_for(lesson).owes(lesson)

    @property
    def mix_names(self) -> tuple[str, ...]:
        """The areas and the strands of the mix, each name once."""
        return tuple(dict.fromkeys((*map(str, self.practice.plan.weights), *self.pieces.mix.strands)))

    def teaching_on(self, on: date) -> tuple[TeachingSpan, ...]:
        """The hours in which she teaches on a date of her clock."""
        if not self.teaching.days:
            return (TeachingSpan(begins=self.day_begins, ends=self.day_ends),)
        return self.teaching.on(on)

    def hours_on(self, on: date) -> tuple[tuple[datetime, datetime], ...]:
        """The moments (UTC) between which she teaches on a date of her clock: nothing else is free anywhere."""
        return tuple(span.moments(on, self.home) for span in self.teaching_on(on))

    def year_of(self, on: date) -> date:
        """The first day of the studio year that a date lies in."""
        first = date(on.year, *self.year_begins)
        return first if first <= on else date(on.year - 1, *self.year_begins)
