"""A tempo from taps: steady ones, missed and doubled ones, half and double of the mark, and no tempo where there is none."""

from itertools import accumulate, pairwise

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from cockpit.studio.practice.tapping import BOUNCE, FEWEST_TAPS, MOST_TAPS, PAUSE, TappedTempo, Taps

JITTER = 0.010
"""Seconds that each tap may be early or late. An interval is then off by twice that, and so is the median of them."""


def taps(moments):
    made = Taps()
    for at in moments:
        made = made.with_tap(at)
    return made


def tapped(*intervals, begins=100.0):
    return taps(accumulate(intervals, initial=begins))


def beats(bpm, count):
    return [100 + 60 * number / bpm for number in range(count)]


def bounds(bpm, jitter):
    """The slowest and fastest tempo that intervals of a tempo give when each is off by twice the jitter, rounded."""
    beat = 60 / bpm
    return int(60 / (beat + 2 * jitter) - 0.5), int(60 / (beat - 2 * jitter) + 0.5) + 1


TEMPOS = st.floats(30, 240)
COUNTS = st.integers(FEWEST_TAPS, 40)


@st.composite
def uneven(draw, jitter=JITTER):
    """A tempo, and moments of taps at it that are each early or late by at most the jitter."""
    bpm = draw(TEMPOS)
    moments = [at + draw(st.floats(-jitter, jitter)) for at in beats(bpm, draw(COUNTS))]
    return bpm, moments


@given(uneven())
def test_taps_at_any_tempo_give_it_within_what_their_unevenness_allows(made):
    bpm, moments = made
    slowest, fastest = bounds(bpm, JITTER)
    tempo = taps(moments).tempo()
    assert tempo is not None
    assert slowest <= tempo.bpm <= fastest
    assert tempo.taps == min(len(moments), MOST_TAPS)


@given(st.integers(30, 240), COUNTS)
def test_steady_taps_at_any_tempo_give_just_it(bpm, count):
    assert taps(beats(bpm, count)).tempo() == TappedTempo(bpm=bpm, as_tapped=bpm, taps=min(count, MOST_TAPS), spread=0)


@given(uneven(), st.data())
def test_one_missed_tap_does_not_move_the_tempo(made, data):
    bpm, moments = made
    assume(len(moments) > FEWEST_TAPS)
    del moments[data.draw(st.integers(1, len(moments) - 2))]
    slowest, fastest = bounds(bpm, JITTER)
    tempo = taps(moments).tempo()
    assert tempo is not None
    assert slowest <= tempo.bpm <= fastest
    assert tempo.taps == min(len(moments), MOST_TAPS)


@given(uneven(), st.data(), st.floats(0.01, 0.99))
@example((60.0, beats(60, FEWEST_TAPS)), None, 0.5)
@example((60.0, beats(60, FEWEST_TAPS)), None, 0.8)
@example((240.0, beats(240, FEWEST_TAPS)), None, 0.7)
@example((240.0, beats(240, FEWEST_TAPS)), None, 0.81)
def test_one_doubled_tap_does_not_move_the_tempo(made, data, share):
    bpm, moments = made
    before = data.draw(st.integers(0, len(moments) - 2)) if data else 1
    moments.insert(before + 1, moments[before] + share * (moments[before + 1] - moments[before]))
    slowest, fastest = bounds(bpm, JITTER)
    tempo = taps(moments).tempo()
    assert tempo is not None
    assert slowest <= tempo.bpm <= fastest


@given(st.lists(st.floats(0, 6), max_size=40), st.none() | st.integers(20, 300))
def test_of_any_taps_what_counts_is_told_honestly(intervals, asked):
    made = tapped(*intervals)
    gaps = [later - earlier for earlier, later in pairwise(made.moments)]
    assert all(BOUNCE <= gap <= PAUSE for gap in gaps)
    assert len(made.moments) <= MOST_TAPS
    tempo = made.tempo(asked)
    if tempo is not None:
        assert len(made.moments) >= FEWEST_TAPS
        assert 3 <= tempo.taps <= len(made.moments)
        assert 0 <= tempo.spread <= 67  # all but one at an end of the limits: (1.25 - 0.75) / 0.75
        assert 60 / max(gaps) - 1 <= tempo.as_tapped <= 120 / min(gaps) + 1


@given(TEMPOS, st.integers(20, 300))
def test_half_or_double_is_taken_only_where_it_is_the_nearest_to_the_mark(bpm, asked):
    tempo = taps(beats(bpm, 8)).tempo(asked)
    nearest = min((bpm / 2, bpm, bpm * 2), key=lambda multiple: max(multiple / asked, asked / multiple))
    if tempo.is_corrected:
        assert tempo.bpm == pytest.approx(nearest, abs=0.51)
        assert tempo.bpm == pytest.approx(asked, abs=0.15 * asked + 1)
    else:
        assert tempo.bpm == pytest.approx(bpm, abs=0.51)


@given(st.integers(40, 120), st.floats(0.9, 1.1))
def test_taps_at_half_or_double_the_mark_are_corrected_toward_it(asked, off):
    for multiple in (1, 2, 0.5):
        tempo = taps(beats(asked * off * multiple, 6)).tempo(asked)
        assert tempo.bpm == pytest.approx(asked * off, abs=0.51)


@given(uneven(), st.integers(30, 240), st.floats(PAUSE + 0.01, 1000))
def test_a_pause_begins_anew(made, bpm, pause):
    _, moments = made
    after = [moments[-1] + pause + at - 100 for at in beats(bpm, 4)]
    assert taps([*moments, *after]) == taps(after)
    assert taps([*moments, *after]).tempo().bpm == bpm


@given(st.lists(st.floats(0.11, 4.4), min_size=MOST_TAPS, max_size=30), st.integers(30, 240))
def test_of_many_taps_only_the_last_count(intervals, bpm):
    steady = [60 / bpm] * (MOST_TAPS - 1)
    assert tapped(*intervals, *steady).tempo().bpm == bpm


# The tempos are 60 / interval, by hand.
@pytest.mark.parametrize(
    ("intervals", "tempo"),
    [
        ((0.5, 0.5, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=4, spread=0)),
        ((1.0, 1.0, 1.0, 1.0), TappedTempo(bpm=60, as_tapped=60, taps=5, spread=0)),
        ((0.8, 0.9, 0.7), TappedTempo(bpm=75, as_tapped=75, taps=4, spread=8)),
        ((0.9, 1.0, 1.1, 1.2), TappedTempo(bpm=57, as_tapped=57, taps=5, spread=10)),
        ((0.5, 1.0, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=4, spread=0)),
        ((0.5, 0.25, 0.25, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=4, spread=0)),
        ((0.5, 0.12, 0.38, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=5, spread=8)),
        ((0.5, 0.03, 0.47, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=4, spread=0)),
        ((0.5, 0.5, 0.8, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=5, spread=0)),
        ((0.5, 0.5, 2.5, 0.5, 0.5), TappedTempo(bpm=120, as_tapped=120, taps=6, spread=0)),
    ],
    ids=[
        *(
            "four taps",
            "five taps",
            "uneven taps",
            "slowing down",
            "a missed tap",
            "a doubled tap",
            "a doubled tap, early",
        ),
        *("a bounced key", "a hesitation", "a breath"),
    ],
)
def test_taps_give_the_tempo_that_was_meant(intervals, tempo):
    assert tapped(*intervals).tempo() == tempo


@pytest.mark.parametrize("intervals", [(), (0.5,), (0.5, 0.5), (0.5, 0.5, 0.04), (0.5, 0.5, 5.0, 0.5, 0.5)])
def test_fewer_than_four_taps_together_give_no_tempo(intervals):
    assert tapped(*intervals).tempo() is None
    assert tapped(*intervals).tempo(120) is None


@pytest.mark.parametrize("intervals", [(0.2, 0.5, 0.8), (0.2, 0.3, 0.5, 0.9, 1.6, 4.0)])
def test_taps_that_agree_on_nothing_give_no_tempo(intervals):
    assert tapped(*intervals).tempo() is None


@pytest.mark.parametrize(
    ("bpm", "asked", "told"),
    [
        (60, 120, 120),
        (66, 120, 132),
        (144, 72, 72),
        (208, 100, 104),
        (120, 120, 120),
        (80, 120, 80),  # a student at two thirds of the mark; 160 would be nearer in ratio, but not clearly
        (72, 120, 72),
        (90, 60, 90),
        (60, 240, 60),  # a quarter of it is neither half nor double
        (60, None, 60),
    ],
)
def test_a_tempo_is_corrected_toward_the_mark_where_that_is_clear(bpm, asked, told):
    tempo = taps(beats(bpm, 5)).tempo(asked)
    assert (tempo.bpm, tempo.as_tapped, tempo.is_corrected) == (told, bpm, told != bpm)


def test_a_tap_leaves_the_taps_before_it_as_they_were():
    before = tapped(0.5, 0.5)
    after = before.with_tap(101.5)
    assert (len(before.moments), len(after.moments)) == (3, 4)
