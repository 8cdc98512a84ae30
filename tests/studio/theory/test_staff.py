"""What stands on a staff: the clef and the octave of the instrument, the signature, and the notes of every kind of answer."""

import itertools

import pytest

from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.instruments import Clef
from cockpit.studio.theory.note_names import Pitch
from cockpit.studio.theory.reading import Unclear, read_theory, staff_asked_for
from cockpit.studio.theory.staff import StaffLine, staff_lines


def lines(words: str, instrument: str | None = None) -> tuple[StaffLine, ...]:
    meaning = read_theory(words)
    assert not isinstance(meaning, Unclear), words
    return staff_lines(meaning, staff_asked_for(words) or instrument)


def named(pitch: Pitch) -> str:
    return f"{pitch.note}{pitch.octave}"


def rows(words: str, instrument: str | None = None) -> list[str]:
    return [" ".join("+".join(map(named, each)) for each in line.notes) for line in lines(words, instrument)]


@pytest.mark.parametrize(
    ("words", "instrument", "expected"),
    [
        ("D major", "violin", ["D4 E4 F♯4 G4 A4 B4 C♯5 D5"]),
        ("D major 2 oct", "cello", ["D2 E2 F♯2 G2 A2 B2 C♯3 D3 E3 F♯3 G3 A3 B3 C♯4 D4"]),
        ("G major down", "violin", ["G4 F♯4 E4 D4 C4 B3 A3 G3"]),
        ("Cb major", "piano", ["C♭4 D♭4 E♭4 F♭4 G♭4 A♭4 B♭4 C♭5"]),
        ("G# melodic minor", "violin", ["G♯3 A♯3 B3 C♯4 D♯4 E♯4 F𝄪4 G♯4", "G♯4 F♯4 E4 D♯4 C♯4 B3 A♯3 G♯3"]),
        ("chromatic from C", "oboe", ["C4 C♯4 D4 D♯4 E4 F4 F♯4 G4 G♯4 A4 A♯4 B4 C5", "C5 B4 B♭4 A4 A♭4 G4 G♭4 F4 E4 E♭4 D4 D♭4 C4"]),
        ("Eb blues", None, ["E♭4 G♭4 A♭4 A4 B♭4 D♭5 E♭5"]),
        ("D whole tone", None, ["D4 E4 F♯4 G♯4 A♯4 C5 D5"]),
        ("D major arpeggio 2 oct", "viola", ["D3 F♯3 A3 D4 F♯4 A4 D5"]),
        ("D major arpeggio down", "viola", ["D4 A3 F♯3 D3"]),
        ("chord F#7", "guitar", ["F♯2+A♯2+C♯3+E3"]),
        ("C/E", "piano", ["E4+G4+C5"]),
        ("C/C#", "piano", ["C♯4+C5+E5+G5"]),
        ("chords in G", "piano", ["G4+B4+D5 A4+C5+E5 B4+D5+F♯5 C5+E5+G5 D5+F♯5+A5 E5+G5+B5 F♯5+A5+C6"]),
        ("interval D F#", None, ["D4+F♯4"]),
        ("C# Bb", None, ["C♯4+B♭4"]),
        ("interval C# C", None, ["C♯4+C5"]),
        ("major sixth above Eb", None, ["E♭4 C5"]),
        ("perfect fifth below A", None, ["A4 D4"]),
        ("major tenth above C", None, ["C4 E5"]),
        ("key 3 sharps", "horn in F", [""]),
        ("open strings violin", None, ["G3 D4 A4 E5"]),
        ("open strings double bass", None, ["E2 A2 D3 G3"]),  # written an octave above the sound
        ("open strings guitar", None, ["E2 A2 D3 G3 B3 E4"]),  # its clef says so
        ("concert Bb for clarinet", "cello", ["C4"]),
        ("Eb major for clarinet and cello", None, ["F3 G3 A3 B♭3 C4 D4 E4 F4", "E♭2 F2 G2 A♭2 B♭2 C3 D3 E♭3"]),
        ("D dorian for clarinet and cello", None, ["E3 F♯3 G3 A3 B3 C♯4 D4 E4", "D2 E2 F2 G2 A2 B2 C3 D3"]),
        ("D major arpeggio for horn", "cello", ["A3 C♯4 E4 A4"]),
        ("circle of fifths", None, []),
        ("keyboard D F# A", None, []),
    ],
)  # fmt: skip
def test_each_answer_has_its_notes_in_their_octaves(words, instrument, expected):
    assert rows(words, instrument) == expected


@pytest.mark.parametrize(
    ("instrument", "clef"),
    [
        ("violin", Clef.TREBLE), ("recorder", Clef.TREBLE), ("oboe", Clef.TREBLE), ("guitar", Clef.TREBLE_OCTAVE_LOWER),
        ("clarinet", Clef.TREBLE), ("horn in F", Clef.TREBLE), ("saxophone", Clef.TREBLE), ("trumpet", Clef.TREBLE),
        ("viola", Clef.ALTO), ("Cello", Clef.BASS), ("three-quarter cello", Clef.BASS), ("double bass", Clef.BASS),
        ("bassoon", Clef.BASS), ("trombone", Clef.BASS), ("piano", Clef.TREBLE), ("ocarina", Clef.TREBLE), (None, Clef.TREBLE),
    ],
)  # fmt: skip
def test_the_instrument_of_the_lesson_chooses_the_clef(instrument, clef):
    assert [line.clef for line in lines("D major", instrument)] == [clef]


def test_an_instrument_or_a_hand_in_the_braces_goes_before_that_of_the_lesson():
    assert [line.clef for line in lines("D dorian for viola", "piano")] == [Clef.ALTO]
    for words in ("D major left hand", "D major, left hand", "D major for the left hand"):
        assert rows(words, "piano") == ["D3 E3 F♯3 G3 A3 B3 C♯4 D4"]
        assert [line.clef for line in lines(words, "piano")] == [Clef.BASS]
    assert [line.clef for line in lines("chord C right hand", "cello")] == [Clef.TREBLE]


def test_signatures_are_those_of_the_keys():
    assert [line.fifths for line in lines("G# melodic minor")] == [5, 5]
    assert [line.fifths for line in lines("Eb lydian")] == [-2]
    assert [line.fifths for line in lines("chords in B minor")] == [2]
    assert [line.fifths for line in lines("A blues")] == [0]
    assert [line.fifths for line in lines("Eb major for clarinet and horn")] == [-1, -2]
    assert [line.fifths for line in lines("D dorian for clarinet and horn")] == [2, 1]


def test_no_line_is_longer_than_a_sheet_is_wide():
    long = lines("chromatic from C 4 oct")
    assert [len(line.notes) for line in long] == [25, 24, 25, 24]


def test_every_scale_rises_by_its_half_steps_wherever_it_begins():
    for words in EXAMPLES["Scales and arpeggios"]:
        for instrument in ("violin", "cello", "guitar", "left hand"):
            for line in lines(words, instrument):
                heights = [each.half_steps for (each,) in line.notes]
                assert heights in (sorted(heights), sorted(heights, reverse=True)), words
                assert all(abs(after - before) <= 5 for before, after in itertools.pairwise(heights)), words
