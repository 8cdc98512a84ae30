"""Tempo marks in typed lines: common practice, no source."""

import pytest
from support.reading import read, tempo

from cockpit.studio.notes.notes import Area


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("Q = 72", tempo(72)),
        ("q72", tempo(72)),
        ("q 72", tempo(72)),
        ("q=72, 5 min", tempo(72)),
        ("q=72 bpm", tempo(72)),
        ("q = 72 - HS", tempo(72)),
        ("(q=72)", tempo(72)),
        ("q=72 q=72", tempo(72)),
        ("quarter = 72", tempo(72)),
        ("quarter at 72", tempo(72)),
        ("quarter 72 to 88", tempo(88, 72)),
        ("half note 60", tempo(60, beat="2")),
        ("minim 60", tempo(60, beat="2")),
        ("eighths = 60", tempo(60, beat="1/2")),
        ("8th = 120", tempo(120, beat="1/2")),
        ("16th note = 80", tempo(80, beat="1/4")),
        ("whole = 40", tempo(40, beat="4")),
        ("dotted quarter = 60", tempo(60, beat="3/2")),
        ("dotted-quarter = 60", tempo(60, beat="3/2")),
        ("dotted q = 60", tempo(60, beat="3/2")),
        ("q.=60", tempo(60, beat="3/2")),
        ("6/8 e. = 60", tempo(60, beat="3/4")),
        ("E = 144", tempo(144, beat="1/2")),
    ],
)
def test_a_beat_and_its_tempo(text, wanted):
    assert read(text).tempo == wanted


@pytest.mark.parametrize(
    ("sign", "beat"),
    [
        ("♩", "1"),
        ("♪", "1/2"),
        ("♩.", "3/2"),
        ("♩ .", "3/2"),
        ("♩\ufe0e", "1"),
        ("\U0001d15d", "4"),
        ("\U0001d15e", "2"),
        ("\U0001d15f", "1"),
        ("\U0001d160", "1/2"),
        ("\U0001d161", "1/4"),
        ("\U0001d15f\U0001d16d", "3/2"),
        ("\U0001d157\U0001d165", "2"),
        ("\U0001d158\U0001d165", "1"),
        ("\U0001d158\U0001d165\U0001d16e", "1/2"),
        ("\U0001d158\U0001d165\U0001d16f", "1/4"),
        ("\U0001d157\U0001d165\U0001d16d", "3"),
    ],
)
def test_note_signs(sign, beat):
    assert read(f"{sign} = 72").tempo == tempo(72, beat=beat)
    assert read(f"mm. 1-8 {sign}=72").tempo == tempo(72, beat=beat)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("M.M.=72", tempo(72)),
        ("MM. 72", tempo(72)),
        ("MM 60-72", tempo(72, 60)),
        ("mm=72", tempo(72)),
        ("M.M. ♩. = 72", tempo(72, beat="3/2")),
        ("metronome 60-72", tempo(72, 60)),
        ("met. 72", tempo(72)),
        ("tempo: 72", tempo(72)),
        ("tempo up to 96", tempo(96, ceiling=True)),
        ("tempo ca. 80", tempo(80, about=True)),
        ("bpm 72", tempo(72)),
        ("72bpm", tempo(72)),
        ("60-72 bpm", tempo(72, 60)),
        ("60 to 92 bpm", tempo(92, 60)),
        ("@72", tempo(72)),
        ("@ 72 HS", tempo(72)),
    ],
)
def test_a_tempo_without_a_beat_counts_quarters(text, wanted):
    assert read(text).tempo == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("q=72 to 88", tempo(88, 72)),
        ("q=60→92", tempo(92, 60)),
        ("q=60 to q=72", tempo(72, 60)),
        ("q = 60 up to 96", tempo(96, 60)),
        ("q = 60, up to 96", tempo(96, 60)),
        ("q. = 60 at first, then up to 96", tempo(96, 60, beat="3/2")),
        ("q = up to 60", tempo(60, ceiling=True)),
        ("up to q. = 96", tempo(96, beat="3/2", ceiling=True)),
        ("work up to 96 bpm", tempo(96, ceiling=True)),
        ("q = ca. 80", tempo(80, about=True)),
        ("q ≈ 80", tempo(80, about=True)),
        ("q=~80", tempo(80, about=True)),
        ("h = about 60-72", tempo(72, 60, beat="2", about=True)),
        ("q=72-72", tempo(72)),
        ("20 -> 400", tempo(400, 20)),
    ],
)
def test_climbs_ceilings_and_approximate_tempos(text, wanted):
    assert read(text).tempo == wanted


@pytest.mark.parametrize(
    "text",
    [
        "q=19",
        "q=401",
        "q=072x",
        "q=72.5",
        "q=72-",
        "q=72-8",
        "q=88-72",
        "q=72/80",
        "q=60, 72, 84",
        "q=60 then q=72",
        "q=72 to full tempo",
        "q=72%",
        "q. 72",
        "q",
        "q=",
        "♩=♪",
        "h 60",
        "half 60",
        "half speed 60",
        "whole 60",
        "slurred eighths 60",
        "eighth 20 times",
        "a tempo 72",
        "m.m. 72",
        "72",
        "60-72",
        "60 to 92",
        "20 -> 30 min",
        "92 -> 60",
        "up to 24",
        "up to 10 min",
        "up to 60 times",
        "up to m. 96",
        "up to 100%",
        "up to tempo",
        "learn up to 64",
        "ca. 80 measures",
        "ca. 80 strokes",
        "ca. 5",
        "q\u0301=72",
        "q=72\u0301",
    ],
)
def test_what_is_not_clear_claims_no_tempo(text):
    assert read(text).tempo is None


def test_a_small_e_with_a_number_is_a_tempo_in_scales_too():
    assert read("e = 144", Area.SCALES).tempo == tempo(144, beat="1/2")
    assert read("e = 144", Area.SCALES).key is None
