"""How long measures take, and how often they fit into some minutes."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.assignments.assignment import Measures, Tempo
from cockpit.studio.practice.passages import counted_measures, meter_in, seconds_of, times_through

Q72 = Tempo(beat=Fraction(1), goal=72)
DOTTED_60 = Tempo(beat=Fraction(3, 2), goal=60)


def test_five_minutes_for_16_measures_at_q_72_are_five_times():
    assert times_through(5, 16, Q72, None) == 5
    assert times_through(5, 16, Q72, Fraction(3)) == 7
    assert times_through(1, 24, Q72, None) == 0


def test_under_a_dotted_beat_no_meter_is_assumed():
    assert times_through(5, 24, DOTTED_60, None) is None
    assert times_through(4, 24, DOTTED_60, Fraction(3)) == 5


def test_nothing_is_said_of_no_measures_or_no_tempo():
    assert times_through(5, 0, Q72, None) is None
    assert times_through(5, 16, Tempo(beat=Fraction(1), goal=0), None) is None


def test_measures_are_counted_unless_an_end_is_not_known():
    assert counted_measures([Measures(first=1, last=8), Measures(first=17, last=24)]) == 16
    assert counted_measures([Measures(first=1, last=8), Measures(first=32, last=None)]) is None
    assert counted_measures([]) is None


@given(
    st.integers(1, 120),
    st.integers(1, 400),
    st.integers(20, 300),
    st.sampled_from([Fraction(n, 2) for n in range(2, 13)]),
)
def test_the_times_that_are_counted_fit_and_one_more_does_not(minutes, measures, goal, meter):
    tempo = Tempo(beat=Fraction(1), goal=goal)
    count = times_through(minutes, measures, tempo, meter)
    assert count * seconds_of(measures, tempo, meter) <= 60 * minutes
    assert (count + 1) * seconds_of(measures, tempo, meter) > 60 * minutes


@pytest.mark.parametrize(("text", "quarters"), [
    ("Waltz in 3/4, q = 96", 3), ("6/8 time.", 3), ("Minuet (3/4)", 3), ("4/4.", 4), ("mm. 9-16 in 2/2", 4), ("12/8", 6),
    ("op. 59/2 in 3/4", 3), ("no. 3/4 in 5/8", Fraction(5, 2)), ("3/4 and once more 3/4", 3), ("Gavotte in D 2/4", 2),
    ("3/16 jig", Fraction(3, 4)), ("3/4, then 6/8", 3), ("Waltz, 3/4, slow", 3),
])  # fmt: skip
def test_a_plain_meter_is_read(text, quarters):
    assert meter_in(text) == quarters


@pytest.mark.parametrize("text", [
    "", "no meter at all", "op. 59/2", "Op 3/4", "opus 3/4", "no. 3/4", "#3/4", "ex. 6/8", "BWV 3/4", "1/2 position",
    "3/4 bow", "3/4 of the tempo", "3/4-size", "at 3/4 speed", "by 3/4", "due 3/8", "fingers 2/4", "mm. 1-3/4", "pp. 3/4",
    "6/8/2026", "1/3, 2/4", "3/4, then 4/4", "13/4", "3/40", "3/5", "T/Th", "3x/day", "0/4",
])  # fmt: skip
def test_what_only_looks_like_a_meter_is_none(text):
    assert meter_in(text) is None


@given(st.text(alphabet="0123456789/#. opn-,", max_size=40))
def test_a_meter_is_found_or_not_whatever_stands_in_the_line(text):
    assert meter_in(text) is None or 0 < meter_in(text) <= 8


@pytest.mark.parametrize(
    "nasty", ["3/4 " * 25_000, "#" * 100_000, "1" * 100_000, "1,-" * 33_000, "op." * 33_000, "3/4" + " " * 100_000]
)
def test_a_very_long_line_is_read_in_one_pass(nasty):
    assert meter_in(nasty) in (None, 3)
