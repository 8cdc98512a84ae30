"""Whole minutes shared by weight."""

from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.practice.plan import shares

WEIGHTS = st.lists(st.integers(0, 50), max_size=12)


def test_minutes_are_shared_by_weight():
    assert shares(20, [5, 10, 2, 1]) == (6, 11, 2, 1)
    assert shares(30, [1, 2]) == (10, 20)


def test_the_largest_remainders_are_rounded_up_and_of_equal_ones_the_earlier():
    assert shares(10, [1, 1, 1]) == (4, 3, 3)
    assert shares(10, [3, 3, 5]) == (3, 3, 4)  # 2.73, 2.73, 4.55


def test_without_weights_everyone_gets_the_same():
    assert shares(9, [0, 0, 0]) == (3, 3, 3)


def test_nothing_is_shared_of_nothing_or_among_nobody():
    assert shares(0, [1, 2]) == (0, 0)
    assert shares(-5, [1, 2]) == (0, 0)
    assert shares(30, []) == ()


@given(st.integers(0, 500), WEIGHTS.filter(bool))
def test_shares_add_up_exactly_and_are_within_one_of_the_exact_share(total, weights):
    parts = shares(total, weights)
    counted = weights if sum(weights) else [1] * len(weights)
    assert sum(parts) == total
    for part, weight in zip(parts, counted, strict=True):
        assert abs(part * sum(counted) - total * weight) < sum(counted)


@given(st.integers(0, 500), WEIGHTS.filter(bool))
def test_who_weighs_more_never_gets_less(total, weights):
    by_weight = sorted(zip(weights, shares(total, weights), strict=True), key=lambda each: (each[0], each[1]))
    parts = [part for _, part in by_weight]
    assert parts == sorted(parts)
