"""Long passages cut into overlapping sections of near-equal length."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from support.plans import BEYOND, MEASURES, mm

from cockpit.studio.practice.passages import sections, spans

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


def test_sections_are_the_spans_where_those_are_few_enough():
    whole = (mm(1, 32),)
    assert sections(whole, 8, 1, 5) == tuple((part,) for part in spans(whole, 8, 1))


def test_sections_of_few_days_are_longer_and_of_near_equal_length():
    # Five spans on four days were two of seven measures and two of fourteen.
    assert sections((mm(1, 32),), 8, 1, 4) == ((mm(1, 8),), (mm(8, 16),), (mm(16, 24),), (mm(24, 32),))
    assert sections((mm(1, 32),), 8, 1, 2) == ((mm(1, 16),), (mm(16, 32),))
    assert sections((mm(1, 64),), 8, 0, 5)[0] == (mm(1, 12),)


def test_sections_across_a_gap_share_nothing_there():
    passage = (mm(1, 8), mm(20, 27), mm(28, 35))
    assert sections(passage, 8, 1, 3) == ((mm(1, 8),), (mm(20, 27),), (mm(28, 35),))
    assert sections(passage, 8, 1, 2) == ((mm(1, 8), mm(20, 23)), (mm(23, 35),))
    assert sections((mm(1, 12), mm(40, None)), 8, 1, 2) == ((mm(1, 7),), (mm(7, 12), mm(40, None)))


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
def test_every_measure_of_a_passage_is_in_a_section_and_no_other(passage, longest, overlap, most):
    cut = sections(passage, longest, overlap, most)
    assert len(cut) <= max(1, most) or len(cut) == len(passage)
    assert measures_of(part for section in cut for part in section) == measures_of(passage)


@given(CLOSED, st.integers(1, 16), st.integers(0, 3), st.integers(1, 14))
def test_sections_of_a_range_differ_by_a_measure_at_the_most(measures, longest, overlap, most):
    lengths = [sum(part.count for part in section) for section in sections((measures,), longest, overlap, most)]
    assert max(lengths) - min(lengths) <= 1
    assert len(lengths) <= most
