"""Ladders of tempos that climb on metronome marks."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.practice.metronome import MARKS, is_mark, ladder, nearest_mark, next_mark, previous_mark

TEMPOS = st.integers(20, 300)
DAYS = st.integers(0, 14)
STEPS = st.integers(1, 6)


def marks_apart(slower: int, faster: int) -> int:
    """How many steps lie between two tempos: the marks above the slower up to the faster, and the faster if off them."""
    return sum(slower < mark <= faster for mark in MARKS) + (faster > slower and not is_mark(faster))


def test_a_week_climbs_from_the_tempo_heard_to_the_tempo_asked():
    assert ladder(60, 88, 6, 2) == (60, 63, 69, 72, 80, 88)


def test_a_goal_too_far_for_the_largest_step_is_approached():
    assert ladder(60, 120, 6, 2) == (60, 66, 72, 80, 88, 96)
    assert ladder(60, 120, 6, 1) == (60, 63, 66, 69, 72, 76)


def test_a_goal_near_by_is_climbed_to_slowly():
    assert ladder(60, 66, 6, 2) == (60, 60, 60, 63, 63, 66)


def test_a_goal_off_the_marks_stays_as_it_was_typed():
    assert ladder(76, 85, 4, 2) == (76, 80, 84, 85)
    assert ladder(76, 85, 2, 2) == (76, 84)


def test_a_tempo_heard_between_two_marks_begins_at_the_faster_one():
    assert ladder(74, 88, 4, 2) == (76, 80, 84, 88)


def test_a_tempo_heard_at_the_goal_or_above_it_stays_at_the_goal():
    assert ladder(88, 88, 3, 2) == (88, 88, 88)
    assert ladder(96, 85, 3, 2) == (85, 85, 85)


def test_a_single_day_goes_one_largest_step_up():
    assert ladder(60, 88, 1, 2) == (66,)
    assert ladder(61, 88, 1, 2) == (66,)
    assert ladder(60, 63, 1, 2) == (63,)


def test_no_day_has_no_tempo():
    assert ladder(60, 88, 0, 2) == ()


def test_where_there_are_no_marks_a_climb_begins_at_the_first_or_goes_from_the_last_to_the_goal():
    assert ladder(30, 44, 3, 1) == (40, 42, 44)
    assert ladder(30, 36, 3, 1) == (36, 36, 36)
    assert ladder(200, 224, 3, 1) == (200, 208, 224)


@given(TEMPOS, TEMPOS, DAYS, STEPS)
def test_a_ladder_climbs_and_never_falls(start, goal, days, largest_step):
    tempos = ladder(start, goal, days, largest_step)
    assert len(tempos) == days
    assert list(tempos) == sorted(tempos)
    assert all(min(start, goal) <= tempo <= goal for tempo in tempos)


@given(TEMPOS, TEMPOS, DAYS, STEPS)
def test_a_ladder_stays_on_marks_save_for_the_goal_as_typed(start, goal, days, largest_step):
    assert all(is_mark(tempo) or tempo == goal for tempo in ladder(start, goal, days, largest_step))


@given(TEMPOS, TEMPOS, DAYS, STEPS)
def test_no_day_is_more_than_the_largest_step_above_the_one_before(start, goal, days, largest_step):
    tempos = ladder(start, goal, days, largest_step)
    assert all(marks_apart(one, other) <= largest_step for one, other in pairwise(tempos))


@given(st.sampled_from(MARKS), TEMPOS, st.integers(2, 14), STEPS)
def test_the_last_day_is_at_the_goal_or_as_near_as_the_largest_step_allows(start, goal, days, largest_step):
    last = ladder(start, goal, days, largest_step)[-1]
    if start >= goal or marks_apart(start, goal) <= largest_step * (days - 1):
        assert last == goal
    else:
        assert marks_apart(start, last) == largest_step * (days - 1)


@pytest.mark.parametrize(("tempo", "near", "faster", "slower"), [
    (72, 72, 76, 69), (73, 72, 76, 72), (74, 72, 76, 72), (75, 76, 76, 72), (30, 40, 40, 30), (40, 40, 42, 40),
    (208, 208, 208, 200), (230, 208, 230, 208),
])  # fmt: skip
def test_the_marks_around_a_tempo(tempo, near, faster, slower):
    assert nearest_mark(tempo) == near
    assert next_mark(tempo) == faster
    assert previous_mark(tempo) == slower


@given(st.sampled_from(MARKS[:-1]))
def test_up_one_mark_and_down_again_is_the_same_mark(mark):
    assert previous_mark(next_mark(mark)) == mark
