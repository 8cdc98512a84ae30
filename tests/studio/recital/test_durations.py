"""How long an item lasts by its measures, its meter, and its tempo; the arithmetic is common practice, no source."""

from fractions import Fraction

import pytest
from support.pieces import given_line

from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.pieces.history import histories
from cockpit.studio.practice.passages import meter_in
from cockpit.studio.recital.durations import computed_length, tempo_to_play

QUARTER, DOTTED = Fraction(1), Fraction(3, 2)


@pytest.mark.parametrize(
    ("measures", "beat", "mark", "meter", "seconds"),
    [
        (96, QUARTER, 96, "4/4", 240),
        (24, DOTTED, 60, "6/8", 50),  # 48 exactly
        (16, QUARTER, 72, "4/4", 55),  # 53 and a third
        (1, QUARTER, 240, "4/4", 5),
        (25, QUARTER, 60, "4/4", 100),
    ],
)
def test_measures_at_a_tempo_last_so_many_seconds_rounded_up_to_five(measures, beat, mark, meter, seconds):
    length = computed_length(measures, Tempo(beat=beat, goal=mark), meter_in(meter))
    assert (length.seconds, length.is_computed) == (seconds, True)


def test_without_a_meter_it_is_4_4_but_under_a_dotted_beat_nothing_is_claimed():
    assert computed_length(96, Tempo(beat=QUARTER, goal=96), None).seconds == 240
    assert computed_length(96, Tempo(beat=DOTTED, goal=60), None) is None
    assert computed_length(0, Tempo(beat=QUARTER, goal=96), None) is None


def test_a_piece_is_played_as_it_was_heard_last_else_as_it_is_to_be():
    line = "Piece: Paper Boats q=60 to 80"
    (asked,) = histories([given_line("11-17", line)], {})
    (heard,) = histories([given_line("11-17", line, heard=66), given_line("11-24", line, heard=72)], {})
    (neither,) = histories([given_line("11-17", "Piece: Paper Boats")], {})
    assert tempo_to_play(asked.now) == Tempo(beat=QUARTER, goal=80)
    assert tempo_to_play(heard.now) == Tempo(beat=QUARTER, goal=72)
    assert tempo_to_play(neither.now) is None
