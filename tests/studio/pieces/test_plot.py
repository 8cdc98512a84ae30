"""The small plot of the tempos that a piece was heard at."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.pieces.plot import heights
from cockpit.wording.pieces import plot_words

TEMPOS = st.lists(st.integers(20, 240).map(Fraction), max_size=30)


def test_each_cell_is_as_high_as_its_tempo_between_the_lowest_and_the_goal():  # computed by hand
    heard = [Fraction(each) for each in (60, 63, 66, 72, 72)]
    assert heights(heard, Fraction(92)) == (1, 1, 2, 3, 3)
    assert plot_words(heights(heard, Fraction(92))) == "▁▁▂▃▃"
    assert plot_words(heights(heard, Fraction(92)), is_ascii=True) == "11233"


def test_without_a_goal_the_highest_tempo_is_the_top():
    assert heights([Fraction(60), Fraction(66), Fraction(72)]) == (1, 4, 8)


def test_equal_tempos_are_in_the_middle_and_none_have_no_plot():
    assert heights([Fraction(72)] * 3, Fraction(72)) == (4, 4, 4)
    assert heights([]) == heights([], Fraction(72)) == ()


def test_the_last_sixteen_are_shown():
    assert heights([Fraction(200), *map(Fraction, range(60, 76))]) == heights([*map(Fraction, range(60, 76))])


@given(TEMPOS, st.none() | st.integers(20, 240).map(Fraction))
def test_a_plot_has_sixteen_cells_at_most_from_1_to_8_and_a_faster_tempo_is_never_lower(heard, goal):
    found = heights(heard, goal)
    assert len(found) == min(len(heard), 16)
    assert all(1 <= each <= 8 for each in found)
    by_tempo = sorted(zip(heard[-16:], found, strict=True))
    assert [height for _, height in by_tempo] == sorted(found)
