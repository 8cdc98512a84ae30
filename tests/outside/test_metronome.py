"""The marks of traditional metronomes against published lists.

Source: the steps 40 to 208 as printed on metronomes, in the archive of the horn list of music.memphis.edu, message 29183
(mail-archive.com/horn@music.memphis.edu/msg29183.html), by 2 to 60, by 3 to 72, by 4 to 120, by 6 to 144, by 8 to 208.
What follows from the steps (counts, doubles, shares) was computed from them.
"""

from itertools import pairwise

import pytest

from cockpit.studio.practice.metronome import MARKS, is_mark

PUBLISHED = (
    "40 42 44 46 48 50 52 54 56 58 60 63 66 69 72 76 80 84 88 92 96 100 104 108 112 116 120 "
    "126 132 138 144 152 160 168 176 184 192 200 208"
)


def test_the_marks_are_those_printed_on_metronomes():
    assert tuple(int(mark) for mark in PUBLISHED.split()) == MARKS
    assert len(MARKS) == 39


@pytest.mark.parametrize(
    ("slowest", "fastest", "step"), [(40, 60, 2), (60, 72, 3), (72, 120, 4), (120, 144, 6), (144, 208, 8)]
)
def test_each_stretch_of_the_scale_has_its_step(slowest, fastest, step):
    marks = [mark for mark in MARKS if slowest <= mark <= fastest]
    assert marks == list(range(slowest, fastest + 1, step))


def test_56_is_a_mark_though_one_published_list_omits_it():
    assert is_mark(56)
    assert tuple(int(mark) for mark in PUBLISHED.split() if mark != "56") != MARKS


def test_every_mark_up_to_104_doubled_is_a_mark():
    assert all(is_mark(2 * mark) for mark in MARKS if mark <= 104)


def test_from_60_to_its_double_there_are_17_marks():
    assert len([mark for mark in MARKS if 60 <= mark <= 120]) == 17


def test_neighboring_marks_differ_by_3_448_to_5_556_percent():
    shares = {pair: round(100 * (pair[1] / pair[0] - 1), 3) for pair in pairwise(MARKS)}
    assert min(shares.values()) == 3.448
    assert max(shares.values()) == 5.556
    assert [pair for pair, share in shares.items() if share == 3.448] == [(58, 60), (116, 120)]
    assert [pair for pair, share in shares.items() if share == 5.556] == [(72, 76), (144, 152)]
