"""The running sum of a day's minutes, and the word about a sudden increase."""

import pytest
from hypothesis import given
from support.plans import LINES, MONDAY, THURSDAY, WEDNESDAY, assigned
from support.reading import read

from cockpit.studio.notes.notes import Area, read_notes
from cockpit.studio.practice.load import budget_after, daily_sum, planned_minutes, sudden_increase
from cockpit.studio.practice.rules import EVERY_DAY, LoadRules

# Thresholds: common practice, no source.
RULES = LoadRules()


def test_the_running_sum_tells_what_is_typed_of_what_the_student_has():
    lines = [assigned(minutes=12), assigned("D major", Area.SCALES, minutes=15), assigned("Minuet")]
    assert daily_sum(lines, 30).words == "27 of 30 minutes a day"
    assert daily_sum(lines, None).words == "27 minutes a day"
    assert daily_sum([], 1).words == "0 of 1 minute a day"


def test_a_line_on_some_days_counts_on_the_fullest_of_them():
    every_day = assigned(minutes=10)
    once = assigned(minutes=8, days=frozenset({MONDAY, WEDNESDAY}))
    twice = assigned(minutes=5, days=frozenset({WEDNESDAY, THURSDAY}))
    assert daily_sum([every_day, once, twice], None).typed == 23
    assert daily_sum([every_day, twice, assigned(minutes=4, days=frozenset({MONDAY}))], None).typed == 15


def test_minutes_twice_a_day_count_twice():
    lines = [read("Gavotte 5 min twice a day"), read("Minuet 10 min x 2"), read("Sonatina, 2 sessions of 5 min")]
    assert daily_sum(lines, None).typed == 40


@given(LINES)
def test_the_sum_is_never_more_than_all_typed_minutes_nor_less_than_the_daily_ones(lines):
    typed = daily_sum(lines, None).typed
    assert (
        sum(each.minutes or 0 for each in lines if each.days is None)
        <= typed
        <= sum(each.minutes or 0 for each in lines)
    )


def test_a_sudden_increase_is_told_in_short_sentences():
    assert sudden_increase(25, 45, RULES) == (
        "This week's notes ask for 45 minutes a day. Last week's asked for 25. A sudden increase in playing can lead to injury."
    )


def test_a_week_after_one_without_minutes_is_told_too():
    assert sudden_increase(0, 30, RULES).startswith(
        "This week's notes ask for 30 minutes a day. Last week's asked for none."
    )


@pytest.mark.parametrize(("last_week", "this_week", "is_told"), [
    (20, 30, False), (20, 31, True), (30, 45, False), (30, 46, True), (5, 14, False), (5, 15, True), (60, 40, False),
    (30, 30, False), (0, 9, False), (0, 10, True), (None, 90, False), (20, None, False),
])  # fmt: skip
def test_it_is_told_from_more_than_half_and_at_least_ten_minutes_on(last_week, this_week, is_told):
    assert (sudden_increase(last_week, this_week, RULES) is not None) == is_told


def test_the_threshold_is_hers_to_set():
    assert sudden_increase(20, 26, LoadRules(percent=20, minutes=5)) is not None
    assert sudden_increase(20, 20, LoadRules(percent=0, minutes=0)) is None


def test_what_a_plan_asks_for_is_all_that_the_student_has_where_a_line_leaves_it_open():
    timed, open_one = assigned(minutes=12), assigned("Minuet")
    assert planned_minutes([timed], 30) == 12
    assert planned_minutes([timed, open_one], 30) == 30
    assert planned_minutes([assigned(minutes=40), open_one], 30) == 40
    assert planned_minutes([timed, open_one], None) == 12
    assert planned_minutes([open_one], None) is None
    assert planned_minutes([], 30) is None


def test_what_a_plan_asks_for_is_that_of_the_fullest_practice_day():
    twice = assigned("Minuet", minutes=20, days=frozenset({WEDNESDAY, THURSDAY}))
    assert planned_minutes([assigned(minutes=10), twice], 25) == 30
    assert planned_minutes([assigned(minutes=10), twice], 25, frozenset({MONDAY})) == 10
    assert planned_minutes([twice], 25, frozenset({MONDAY})) is None


@pytest.mark.parametrize(
    ("before", "now", "is_told"),
    [
        # Minutes that are typed now were shared before: the day is as long.
        ("Piece: Gavotte\nScales: D major, 5 min", "Piece: Gavotte, 25 min\nScales: D major, 5 min", False),
        ("Piece: Gavotte, 10 min", "Piece: Gavotte", True),
        ("Piece: Gavotte, 10 min", "Piece: Gavotte, 18 min", False),
        ("Piece: Gavotte", "Piece: Gavotte, 50 min", True),
    ],
)
def test_a_sudden_increase_is_one_of_what_the_plans_ask_for(before, now, is_told):
    budget = budget_after(read_notes(before), 30, EVERY_DAY, RULES)
    assert (budget.warning(read_notes(now)) is not None) == is_told
