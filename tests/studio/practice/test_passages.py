"""Long passages cut into overlapping spans and spread over days."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from support.plans import BEYOND, MEASURES, mm

from cockpit.studio.practice.passages import passage_by_day, spans

CLOSED = MEASURES.filter(lambda each: each.last is not None)
PASSAGES = st.lists(MEASURES, max_size=4).map(tuple)


def measures_of(passage):
    """Every measure of some ranges, those without an end up to one beyond all others."""
    return {n for each in passage for n in range(each.first, (each.last or BEYOND) + 1)}


def test_32_measures_are_cut_evenly_into_spans_that_share_a_measure():
    assert spans([mm(1, 32)], 8, 1) == (mm(1, 7), mm(7, 13), mm(13, 19), mm(19, 25), mm(25, 32))


def test_two_measures_can_be_shared():
    assert spans([mm(17, 30)], 8, 2) == (mm(17, 24), mm(23, 30))


def test_a_short_range_and_one_without_an_end_stay_whole():
    assert spans([mm(1, 8), mm(20, None)], 8, 1) == (mm(1, 8), mm(20, None))


def test_six_days_have_the_spans_in_order_and_the_whole_on_the_last():
    whole = (mm(1, 32),)
    parts = spans(whole, 8, 1)
    assert passage_by_day(whole, parts, 6) == (*[(part,) for part in parts], whole)


def test_few_days_have_several_spans_each_and_two_days_half_each():
    whole = (mm(1, 32),)
    parts = spans(whole, 8, 1)
    assert passage_by_day(whole, parts, 3) == ((mm(1, 13),), (mm(13, 32),), whole)
    assert passage_by_day(whole, parts, 2) == ((mm(1, 13),), (mm(13, 32),))
    assert passage_by_day(whole, parts, 1) == (whole,)
    assert passage_by_day(whole, parts, 0) == ()


def test_days_to_spare_have_the_spans_again_from_the_first():
    whole = (mm(1, 17),)
    assert passage_by_day(whole, (mm(1, 9), mm(9, 17)), 5) == (
        (mm(1, 9),), (mm(9, 17),), (mm(1, 9),), (mm(9, 17),), whole,
    )  # fmt: skip


def test_ranges_that_lie_apart_are_not_joined():
    whole = (mm(1, 8), mm(20, 27), mm(28, 35))
    assert passage_by_day(whole, whole, 2) == ((mm(1, 8),), (mm(20, 35),))


@given(CLOSED, st.integers(1, 16), st.integers(0, 3))
def test_spans_are_short_enough_cover_a_range_and_share_what_is_asked(measures, longest, overlap):
    cut = spans([measures], longest, overlap)
    assert all(1 <= span.count <= longest for span in cut)
    assert measures_of(cut) == measures_of([measures])
    assert (cut[0].first, cut[-1].last) == (measures.first, measures.last)
    shared = {one.last - other.first + 1 for one, other in pairwise(cut)}
    assert shared <= {min(overlap, longest - 1)}


@given(CLOSED, st.integers(1, 16), st.integers(0, 3))
def test_spans_of_a_range_differ_by_a_measure_at_the_most(measures, longest, overlap):
    lengths = [span.count for span in spans([measures], longest, overlap)]
    assert max(lengths) - min(lengths) <= 1


@given(PASSAGES, st.integers(1, 16), st.integers(0, 3), st.integers(1, 14))
def test_every_measure_of_a_passage_comes_on_one_of_the_days_and_no_other(passage, longest, overlap, days):
    by_day = passage_by_day(passage, spans(passage, longest, overlap), days)
    assert len(by_day) == days
    assert measures_of(part for day in by_day for part in day) == measures_of(passage)
    before_the_last = by_day[:-1] if days > 2 else by_day
    assert measures_of(part for day in before_the_last for part in day) == measures_of(passage)
