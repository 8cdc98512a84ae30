"""Pieces in turns, and review pieces that come round."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.practice.plan import interleaved, review_days, turn_lengths

MINUTES = st.lists(st.integers(1, 60), min_size=2, max_size=4)
GAPS = st.lists(st.integers(1, 5), max_size=5)


def test_two_pieces_of_12_minutes_alternate_four_times_in_turns_of_three():
    # The layout of Carter and Grahn 2016: 3-minute turns up to 12 minutes for each, 24 in all.
    lengths = turn_lengths([12, 12], 3)
    assert interleaved(lengths) == ((0, 3), (1, 3)) * 4


def test_a_shorter_piece_has_as_many_turns_but_shorter_ones():
    assert turn_lengths([10, 5], 3) == ((3, 3, 2, 2), (2, 1, 1, 1))


def test_a_piece_with_few_minutes_has_a_turn_for_each_and_the_others_longer_ones():
    assert turn_lengths([12, 2], 3) == ((6, 6), (1, 1))


def test_three_pieces_come_round_in_the_order_they_were_typed():
    assert interleaved(turn_lengths([6, 6, 4], 3)) == ((0, 3), (1, 3), (2, 2), (0, 3), (1, 3), (2, 2))


def test_a_slip_of_the_finger_does_not_make_a_million_turns():
    assert len(turn_lengths([10**9, 10**9], 3)[0]) == 40


@given(MINUTES, st.integers(1, 6))
def test_turns_add_up_to_each_piece_and_no_piece_follows_itself(minutes, longest):
    order = interleaved(turn_lengths(minutes, longest))
    for piece, total in enumerate(minutes):
        assert sum(turn for which, turn in order if which == piece) == total
    assert all(turn >= 1 for _, turn in order)
    assert all(one != other for (one, _), (other, _) in pairwise(order))


@given(MINUTES, st.integers(1, 6))
def test_turns_are_within_the_longest_where_the_minutes_allow(minutes, longest):
    lengths = turn_lengths(minutes, longest)
    if min(minutes) >= -(-max(minutes) // longest) <= 40:
        assert max(turn for each in lengths for turn in each) <= longest


def test_a_review_piece_comes_with_widening_gaps():
    assert review_days(11, 0, (1, 2, 3, 4)) == (0, 1, 3, 6, 10)


def test_review_pieces_begin_a_day_after_each_other():
    assert [review_days(6, turn, (1, 2, 3)) for turn in range(3)] == [(0, 1, 3), (1, 2, 4), (2, 3, 5)]


def test_more_review_pieces_than_days_begin_again_on_the_first():
    assert review_days(2, 2, (1, 2, 3)) == (0, 1)
    assert review_days(0, 2, (1, 2, 3)) == ()


def test_the_last_gap_is_used_again_and_without_gaps_a_piece_comes_once():
    assert review_days(10, 0, (1, 3)) == (0, 1, 4, 7)
    assert review_days(10, 3, ()) == (3,)


def test_the_gaps_go_on_from_the_practice_days_that_have_passed():
    # Visits on days 0, 1, 3, 6, 10, 14, 18: the second week of six days has two of them, the third one.
    assert review_days(6, 0, (1, 2, 3, 4), passed=6) == (0, 4)
    assert review_days(6, 0, (1, 2, 3, 4), passed=12) == (2,)


def test_a_piece_whose_next_visit_lies_beyond_the_week_comes_once_all_the_same():
    assert review_days(6, 1, (1, 30), passed=6) == (1,)
    assert review_days(6, 2, (), passed=6) == (2,)


@given(st.integers(1, 10), st.integers(1, 10), st.integers(0, 12))
def test_with_gaps_of_a_day_a_piece_comes_every_day_once_it_has_begun(days, passed, turn):
    assert review_days(days, turn, (1,), passed) == tuple(range(max(0, turn % days - passed), days))


@given(st.integers(1, 30), st.integers(0, 12), GAPS)
def test_a_review_piece_always_comes_and_keeps_the_gaps(days, turn, gaps):
    found = review_days(days, turn, gaps)
    assert found[0] == turn % days
    assert found[-1] < days
    wanted = [*gaps, *gaps[-1:] * days]
    assert [other - one for one, other in pairwise(found)] == wanted[: len(found) - 1]
