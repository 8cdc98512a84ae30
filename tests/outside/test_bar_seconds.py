"""The seconds of a measure against published values, and against an independent library of music theory.

The arithmetic is common practice: seconds of a measure = its beats * 60 / the mark, with the beat that the mark names.
Two values are printed in the documentation of the Haskell library hmt (hackage.haskell.org/package/hmt, Music.Theory.Tempo):
3/4 at q = 90 is 2 s, 6/8 at q = 120 is 3/2 s. The others were computed by hand once; all of them again by music21 10.5.
"""

from fractions import Fraction

import pytest

from cockpit.studio.assignments.assignment import Tempo
from cockpit.studio.practice.passages import meter_in, seconds_of

WHOLE, HALF, QUARTER, DOTTED_QUARTER, EIGHTH = Fraction(4), Fraction(2), Fraction(1), Fraction(3, 2), Fraction(1, 2)
DOTTED_HALF = Fraction(3)
ONE_MEASURE = [
    ("3/4", QUARTER, 90, Fraction(2)),  # hmt
    ("6/8", QUARTER, 120, Fraction(3, 2)),  # hmt
    ("4/4", QUARTER, 60, Fraction(4)),
    ("4/4", QUARTER, 72, Fraction(10, 3)),
    ("4/4", QUARTER, 120, Fraction(2)),
    ("3/4", QUARTER, 72, Fraction(5, 2)),
    ("3/4", QUARTER, 96, Fraction(15, 8)),
    ("4/4", QUARTER, 96, Fraction(5, 2)),  # 96 measures last 240 s
    ("6/8", DOTTED_QUARTER, 60, Fraction(2)),
    ("2/2", HALF, 60, Fraction(2)),
    ("4/4", QUARTER, 40, Fraction(6)),
    ("4/4", QUARTER, 208, Fraction(15, 13)),
    ("7/8", EIGHTH, 144, Fraction(35, 12)),
    ("9/8", DOTTED_QUARTER, 66, Fraction(30, 11)),
    ("12/8", DOTTED_QUARTER, 50, Fraction(24, 5)),
    ("3/4", DOTTED_HALF, 50, Fraction(6, 5)),
]


@pytest.mark.parametrize(("meter", "beat", "mark", "seconds"), ONE_MEASURE)
def test_a_measure_takes_the_seconds_that_are_published(meter, beat, mark, seconds):
    assert seconds_of(1, Tempo(beat=beat, goal=mark), meter_in(meter)) == seconds


def test_16_measures_of_4_4_at_q_72_are_53_and_a_third_seconds():
    assert round(float(seconds_of(16, Tempo(beat=QUARTER, goal=72), meter_in("4/4"))), 3) == 53.333


def test_24_measures_of_6_8_at_a_dotted_quarter_of_60_are_48_seconds():
    assert seconds_of(24, Tempo(beat=DOTTED_QUARTER, goal=60), meter_in("6/8")) == 48


@pytest.mark.parametrize(("beat", "mark"), [(DOTTED_QUARTER, 60), (QUARTER, 90), (EIGHTH, 180)])
def test_the_same_speed_named_by_another_beat_takes_as_long(beat, mark):
    assert seconds_of(1, Tempo(beat=beat, goal=mark), meter_in("6/8")) == 2


@pytest.mark.parametrize(("meter", "beat", "mark"), [each[:3] for each in ONE_MEASURE])
def test_music21_gives_the_same_seconds(meter, beat, mark):
    tempo = pytest.importorskip("music21.tempo", reason="music21 is not installed; it comes with the extra test")
    from music21 import duration
    from music21.meter import TimeSignature

    told = tempo.MetronomeMark(number=mark, referent=duration.Duration(beat))
    length = TimeSignature(meter).barDuration.quarterLength
    assert meter_in(meter) == Fraction(length)
    assert float(seconds_of(1, Tempo(beat=beat, goal=mark), meter_in(meter))) == pytest.approx(
        told.durationToSeconds(length)
    )
