"""Her policy on lessons that are not taught: which are made up, how many, until when. As data, since teachers differ in each line of it."""

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping, Set
from datetime import date, timedelta

from cockpit.studio.lessons.lesson import Lesson, LessonId, Outcome
from cockpit.studio.people.people import StudentId, name_key
from cockpit.studio.values import Value

MONTHLY = tuple((month, 1) for month in range(1, 13))
_SICK = frozenset({"sick", "sickness", "ill", "illness", "krank", "malade", "enferma", "enfermo"})


class Policy(Value):
    """What is owed for a lesson that was not taught, a make-up or nothing; in force from a date on, or from the first lesson.

    Of outcomes in `once_a_term`, which are owed too, one a term is made up. `within_days` is how many days after the lesson a
    make-up is promised for, and with `ends_with_term` it is through the last day of its term; neither stands for no end. `most_a_term` is how
    many a family may have in a term for lessons that did not take place because of it; a term begins on each month and day of
    `terms_begin`. With `forgives_sick`, a late cancellation of somebody who is sick is in time. All of it is common practice,
    no source.
    """

    from_on: date | None = None
    owing: Set[Outcome] = frozenset({Outcome.CANCELLED, Outcome.CALLED_OFF})
    once_a_term: Set[Outcome] = frozenset()
    forgives_sick: bool = False
    within_days: int | None = None
    ends_with_term: bool = False
    most_a_term: int | None = None
    terms_begin: tuple[tuple[int, int], ...] = ((9, 1), (1, 1), (6, 1))

    def owes(self, lesson: Lesson) -> bool:
        """Whether a lesson is to be made up. A make-up that was missed or canceled late is not made up again."""
        outcome = self.counted_as(lesson)
        is_lost = lesson.makes_up is not None and outcome in {Outcome.ABSENT, Outcome.CANCELLED_LATE}
        return outcome in self.owing and not lesson.is_let_go and not is_lost

    def counted_as(self, lesson: Lesson) -> Outcome | None:
        """The outcome of a lesson as the policy has it: somebody who was sick may have canceled in time."""
        is_forgiven = self.forgives_sick and lesson.outcome is Outcome.CANCELLED_LATE and is_sickness(lesson.reason)
        return Outcome.CANCELLED if is_forgiven else lesson.outcome

    def expires_on(self, taught_on: date) -> date | None:
        """The last day on which the make-up of a lesson of a date is promised; None where it has no end."""
        if self.ends_with_term:
            return self.next_term(taught_on) - timedelta(days=1)
        return None if self.within_days is None else taught_on + timedelta(days=self.within_days)

    def term_of(self, on: date) -> date:
        """The first day of the term that a date lies in."""
        firsts = (date(year, *first) for year in (on.year - 1, on.year) for first in self.terms_begin)
        return max(first for first in firsts if first <= on)

    def next_term(self, on: date) -> date:
        """The first day of the term after the one that a date lies in."""
        firsts = (date(year, *first) for year in (on.year, on.year + 1) for first in self.terms_begin)
        return min(first for first in firsts if first > on)


USUAL_POLICY = Policy()


class Policies(Value):
    """Her policy as it changed, in the order of the dates from which each is in force."""

    each: tuple[Policy, ...] = (USUAL_POLICY,)

    def on(self, day: date) -> Policy:
        """The policy for a lesson of a date: what changed later changes no earlier lesson."""
        held = (each for each in reversed(self.each) if each.from_on is None or each.from_on <= day)
        return next(held, USUAL_POLICY)


class BeyondLimit(Value):
    """That a make-up is one too many: the `nth` of a term where `most` are the limit. `term` is its first day; it may be going on.

    With an `outcome` the limit is that of such lessons alone.
    """

    nth: int
    most: int
    term: date
    is_now: bool
    outcome: Outcome | None = None


def is_sickness(reason: str | None) -> bool:
    """Whether a reason that she typed has a word for being sick."""
    return reason is not None and not _SICK.isdisjoint(name_key(reason).replace(",", " ").split())


def beyond_limit(
    lessons: Iterable[Lesson], policies: Policies, date_of: Callable[[Lesson], date], today: date
) -> Mapping[LessonId, BeyondLimit]:
    """The lessons that a family may not have made up any more in their term, as far as her policy has a limit.

    `lessons` are those that were not taught, with their make-ups, and `date_of` is the day of one on her clock. What she
    called off herself, and what she let go, counts for nothing; a make-up counts with the lesson that it is for.
    """
    terms: defaultdict[tuple[StudentId, date], list[Lesson]] = defaultdict(list)
    for lesson in sorted(lessons, key=lambda each: (each.starts_at, each.id)):
        policy = policies.on(date_of(lesson))
        if lesson.makes_up is None and lesson.outcome is not Outcome.CALLED_OFF and policy.owes(lesson):
            terms[lesson.student_id, policy.term_of(date_of(lesson))].append(lesson)
    found: dict[LessonId, BeyondLimit] = {}
    for (_, term), theirs in terms.items():
        seen = Counter[Outcome | None]()
        for nth, lesson in enumerate(theirs, start=1):
            policy = policies.on(date_of(lesson))
            outcome = policy.counted_as(lesson)
            seen[outcome] += 1
            is_now = policy.term_of(today) == term
            if outcome in policy.once_a_term and seen[outcome] > 1:
                found[lesson.id] = BeyondLimit(nth=seen[outcome], most=1, term=term, is_now=is_now, outcome=outcome)
            elif policy.most_a_term is not None and nth > policy.most_a_term:
                found[lesson.id] = BeyondLimit(nth=nth, most=policy.most_a_term, term=term, is_now=is_now)
    return found
