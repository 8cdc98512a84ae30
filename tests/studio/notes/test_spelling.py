"""Words that are one edit apart."""

from hypothesis import example, given
from hypothesis import strategies as st

from cockpit.studio.notes.spelling import is_near, neighborhood

WORDS = st.text("aábB-1 ", max_size=6)


@given(WORDS, WORDS)
@example("abab", "baab")
@example("Mirielle", "Mireille")
def test_the_neighborhoods_of_two_near_words_meet(one, two):
    if is_near(one, two):
        assert neighborhood(one) & neighborhood(two)
