"""What her policy owes for lessons that were not taught, how many a term, and until when. Common practice, no source."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import STARTS_AT, lesson

from cockpit.studio.calendar.year import make_ups_owed
from cockpit.studio.clocks.moments import WEEK
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome, begin, close_untaught
from cockpit.studio.lessons.policy import MONTHLY, BeyondLimit, Policies, Policy, beyond_limit, is_sickness
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import replace

TODAY = STARTS_AT.date()  # Tuesday, December 1
LATE_TOO = Policy(owing={Outcome.CANCELLED, Outcome.CANCELLED_LATE, Outcome.CALLED_OFF})


def untaught(name, weeks=0, outcome=Outcome.CANCELLED, **values):
    """A lesson of Ilse's some weeks after December 1 that was not taught."""
    return lesson(**{"id": LessonId(name), "starts_at": STARTS_AT + weeks * WEEK, "outcome": outcome} | values)


def beyond(policy, *lessons, today=TODAY):
    policies = policy if isinstance(policy, Policies) else Policies(each=(policy,))
    return beyond_limit(lessons, policies, lambda each: each.starts_at.date(), today)


@pytest.mark.parametrize(
    ("outcome", "reason", "is_owed"),
    [
        (Outcome.CANCELLED, None, True),
        (Outcome.CALLED_OFF, None, True),
        (Outcome.CANCELLED_LATE, None, False),
        (Outcome.CANCELLED_LATE, "trip", False),
        (Outcome.CANCELLED_LATE, "Sick, fever", True),
        (Outcome.ABSENT, "sick", False),
        (None, "sick", False),
    ],
)
def test_a_late_cancellation_of_somebody_sick_is_in_time_where_she_forgives_it(outcome, reason, is_owed):
    assert Policy(forgives_sick=True).owes(untaught("a", outcome=outcome, reason=reason)) is is_owed
    if reason is not None:
        assert not Policy().owes(untaught("a", outcome=outcome, reason=reason))


def test_what_she_forgives_is_not_owed_where_nothing_is_owed_for_a_lesson_canceled_in_time():
    sick = untaught("a", outcome=Outcome.CANCELLED_LATE, reason="sick")
    assert not Policy(forgives_sick=True, owing={Outcome.CALLED_OFF}).owes(sick)


@pytest.mark.parametrize(
    ("reason", "is_sick"),
    [("ill", True), ("krank", True), ("sick", True), ("hill walk", False), ("", False), (None, False)],
)
def test_a_word_says_that_somebody_was_sick(reason, is_sick):
    assert is_sickness(reason) is is_sick


def test_a_make_up_that_was_missed_or_canceled_late_is_lost_also_where_such_lessons_are_made_up():
    first = untaught("a", outcome=Outcome.CANCELLED_LATE)
    assert make_ups_owed([first], LATE_TOO.owes).keys() == {StudentId(1)}
    late = untaught("b", 1, Outcome.CANCELLED_LATE, kind=Kind.MAKE_UP, makes_up=LessonId("a"))
    assert make_ups_owed([first, late], LATE_TOO.owes) == {}
    in_time = replace(late, outcome=Outcome.CANCELLED)
    assert make_ups_owed([first, in_time], LATE_TOO.owes) == {StudentId(1): (first,)}


def test_a_make_up_that_she_let_go_is_owed_no_more_until_the_lesson_is_marked_anew():
    let_go = untaught("a", is_let_go=True)
    assert make_ups_owed([let_go]) == {}
    assert not begin(let_go, STARTS_AT).is_let_go
    assert not close_untaught(let_go, Outcome.CANCELLED_LATE).is_let_go


def test_the_third_of_a_term_with_two_is_one_too_many_and_is_owed_all_the_same():
    three = [untaught("a", -8), untaught("b", -4), untaught("c")]
    two = Policy(most_a_term=2)
    assert beyond(two, *three) == {"c": BeyondLimit(nth=3, most=2, term=date(2026, 9, 1), is_now=True)}
    assert [each.id for each in make_ups_owed(three, two.owes)[StudentId(1)]] == ["a", "b", "c"]
    assert not beyond(two, *three, today=date(2027, 1, 1))["c"].is_now


def test_a_new_term_and_another_student_count_anew():
    lessons = [
        untaught("a"),
        untaught("b", 1),
        untaught("c", 5),
        untaught("d", 6),
        untaught("e", student_id=StudentId(2)),
    ]
    assert beyond(Policy(most_a_term=2), *lessons) == {}
    assert beyond(Policy(most_a_term=1), *lessons).keys() == {"b", "d"}


def test_one_a_month_is_a_limit_too():
    monthly = Policy(most_a_term=1, terms_begin=MONTHLY)
    assert beyond(monthly, untaught("a"), untaught("b", 4), untaught("c", 5)).keys() == {
        "b"
    }  # December 1, 29, January 5


def test_of_a_kind_that_is_made_up_once_a_term_the_second_is_one_too_many():
    once = Policy(
        owing=frozenset(Outcome),
        once_a_term={Outcome.ABSENT, Outcome.CANCELLED_LATE},
        forgives_sick=True,
        most_a_term=4,
    )
    lessons = [
        untaught("a", -6, Outcome.ABSENT),
        untaught("b", -5, Outcome.CANCELLED_LATE),
        untaught("c", -4),
        untaught("d", -3, Outcome.CANCELLED_LATE, reason="sick"),  # in time
        untaught("e", -2, Outcome.ABSENT),
        untaught("f", -1),
        untaught("g", 6, Outcome.ABSENT),  # of the next term: what nobody used is not carried over
        untaught("h", 7, Outcome.ABSENT),
    ]
    found = beyond(once, *lessons)
    autumn, spring = date(2026, 9, 1), date(2027, 1, 1)
    assert found == {
        "e": BeyondLimit(nth=2, most=1, term=autumn, is_now=True, outcome=Outcome.ABSENT),
        "f": BeyondLimit(nth=6, most=4, term=autumn, is_now=True),
        "h": BeyondLimit(nth=2, most=1, term=spring, is_now=False, outcome=Outcome.ABSENT),
    }


@pytest.mark.parametrize(
    ("on", "ends"),
    [
        ("2026-12-31", "2026-12-31"),
        ("2026-09-01", "2026-12-31"),
        ("2027-06-01", "2027-08-31"),
        ("2027-05-31", "2027-05-31"),
    ],
)
def test_a_make_up_can_be_promised_through_the_last_day_of_its_term(on, ends):
    assert Policy(ends_with_term=True).expires_on(date.fromisoformat(on)) == date.fromisoformat(ends)


def test_what_she_called_off_or_let_go_and_make_ups_themselves_are_not_counted():
    called_off = untaught("a", outcome=Outcome.CALLED_OFF)
    make_up = untaught("c", 1, makes_up=LessonId("b"), kind=Kind.MAKE_UP)
    lessons = called_off, untaught("b"), make_up, untaught("d", 1, is_let_go=True), untaught("e", 1, Outcome.ABSENT)
    assert beyond(Policy(most_a_term=1), *lessons) == {}


def test_a_policy_from_a_date_changes_no_earlier_lesson():
    january = Policy(from_on=date(2027, 1, 1), owing={Outcome.CALLED_OFF}, within_days=60)
    policies = Policies(each=(Policy(), january))
    assert policies.on(date(2026, 12, 31)) == Policy()
    assert policies.on(date(2027, 1, 1)) == january
    assert Policies(each=(january,)).on(date(2026, 12, 31)) == Policy(), "before the first date the usual one"


@given(
    st.dates(date(1950, 1, 1), date(2150, 1, 1)), st.lists(st.dates(date(2001, 1, 1), date(2001, 12, 31)), min_size=1)
)
def test_a_term_begins_on_a_day_that_she_named_and_no_other_lies_between(on, firsts):
    policy = Policy(terms_begin=tuple((first.month, first.day) for first in firsts))
    begins = policy.term_of(on)
    assert begins <= on
    assert (begins.month, begins.day) in policy.terms_begin
    between = (begins + timedelta(days=number) for number in range(1, (on - begins).days + 1))
    assert not any((day.month, day.day) in policy.terms_begin for day in between)


some_untaught = st.builds(
    lambda number, weeks, outcome, student: untaught(str(number), weeks, outcome, student_id=StudentId(student)),
    st.integers(0, 40), st.integers(-30, 30), st.sampled_from([None, *Outcome]), st.integers(1, 2),
)  # fmt: skip


@given(st.lists(some_untaught, unique_by=lambda each: each.id), st.integers(1, 4))
def test_in_each_term_all_but_the_limit_are_beyond_it_and_the_earliest_are_not(lessons, most):
    policy = Policy(most_a_term=most)
    found = beyond(policy, *lessons)
    counted = [each for each in lessons if each.outcome is Outcome.CANCELLED]
    for each in counted:
        term = policy.term_of(each.starts_at.date())
        earlier = [
            other
            for other in counted
            if other.student_id == each.student_id
            and policy.term_of(other.starts_at.date()) == term
            and (other.starts_at, other.id) < (each.starts_at, each.id)
        ]
        assert (each.id in found) == (len(earlier) >= most)
        if each.id in found:
            assert (found[each.id].nth, found[each.id].term) == (len(earlier) + 1, term)
    assert found.keys() <= {each.id for each in counted}
