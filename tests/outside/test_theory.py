"""Scales, chords, intervals, keys, transpositions, and rhythms against music21 (BSD-3-Clause), which works them out by itself.

Frequencies of open strings: equal temperament with A = 440 (ISO 16:1975), and the table of engineeringtoolbox.com
(note-frequencies-d_520). Where music21 has none of a kind (pentatonic, blues), the degrees are common practice, no source.
"""

from fractions import Fraction
from itertools import product

import pytest

from cockpit.studio.theory.chords import chord, chords_in
from cockpit.studio.theory.counting import BeatPart, Sound, read_rhythm
from cockpit.studio.theory.instruments import open_strings, written_above
from cockpit.studio.theory.intervals import Interval, Quality, interval_between
from cockpit.studio.theory.note_names import NoteName, on_fifths, read_note
from cockpit.studio.theory.scales import ScaleKind, scale, signature_notes, signature_of

pytestmark = pytest.mark.long  # music21 alone takes two seconds to import

TONICS = [NoteName(letter=letter, raised_by=raised) for letter in "CDEFGAB" for raised in (-1, 0, 1)]
SCALES = {
    ScaleKind.MAJOR: "MajorScale", ScaleKind.NATURAL_MINOR: "MinorScale", ScaleKind.HARMONIC_MINOR: "HarmonicMinorScale",
    ScaleKind.MELODIC_MINOR: "MelodicMinorScale", ScaleKind.DORIAN: "DorianScale", ScaleKind.PHRYGIAN: "PhrygianScale",
    ScaleKind.LYDIAN: "LydianScale", ScaleKind.MIXOLYDIAN: "MixolydianScale", ScaleKind.LOCRIAN: "LocrianScale",
}  # fmt: skip
CHORDS = {
    "": "", "m": "m", "dim": "dim", "aug": "+", "7": "7", "maj7": "maj7", "m7": "m7", "m7b5": "ø7", "dim7": "dim7",
    "mmaj7": "mM7", "6": "6", "m6": "m6", "sus2": "sus2", "sus4": "sus4", "9": "9", "maj9": "M9",
}  # fmt: skip
QUALITIES = {
    Quality.DOUBLY_DIMINISHED: "dd", Quality.DIMINISHED: "d", Quality.MINOR: "m", Quality.PERFECT: "P", Quality.MAJOR: "M",
    Quality.AUGMENTED: "A", Quality.DOUBLY_AUGMENTED: "AA",
}  # fmt: skip
SIGNS = {-2: "--", -1: "-", 0: "", 1: "#", 2: "##"}


def theirs(note: NoteName) -> str:
    return f"{note.letter}{SIGNS[note.raised_by]}"


def names(pitches) -> list[str]:
    return [each.name for each in pitches]


def test_189_scales_are_spelled_as_theirs_up_and_down():
    from music21 import scale as their_scale

    seen, unsigned = 0, 0
    for tonic, (kind, name) in product(TONICS, SCALES.items()):
        other = getattr(their_scale, name)(theirs(tonic))
        ours = scale(tonic, kind)
        if ours is None:  # major and natural minor keys that no signature has
            assert signature_of(tonic, kind) is None
            unsigned += 1
            continue
        low, high = f"{theirs(tonic)}4", f"{theirs(tonic)}5"
        assert [theirs(note) for note in ours.up] == names(
            other.getPitches(low, high, direction=their_scale.Direction.ASCENDING)
        )
        down = ours.down or tuple(reversed(ours.up))
        downward = sorted(
            other.getPitches(low, high, direction=their_scale.Direction.DESCENDING), key=lambda each: -each.ps
        )
        assert [theirs(note) for note in down] == names(downward)
        seen += 1
    assert seen + unsigned == 189
    assert unsigned == 12


def test_chromatic_and_whole_tone_scales_have_their_pitches():
    from music21 import scale as their_scale

    for tonic in TONICS:
        for kind, name in ((ScaleKind.CHROMATIC, "ChromaticScale"), (ScaleKind.WHOLE_TONE, "WholeToneScale")):
            ours = scale(tonic, kind)
            other = getattr(their_scale, name)(theirs(tonic))
            assert [note.half_steps % 12 for note in ours.up] == [
                each.pitchClass for each in other.getPitches(f"{theirs(tonic)}4", f"{theirs(tonic)}5")
            ]


def test_336_chords_are_spelled_as_theirs():
    from music21 import harmony

    for root, (ours, symbol) in product(TONICS, CHORDS.items()):
        other = harmony.ChordSymbol(f"{theirs(root)}{symbol}")
        found = chord(root, ours)
        if found is None:  # a tone with three signs, which nobody writes
            assert any("---" in name or "###" in name for name in names(other.pitches))
            continue
        assert sorted(map(theirs, found.tones)) == sorted(names(other.pitches)), (root, ours)


def test_chords_of_all_keys_stand_on_their_degrees():
    from music21 import key, roman

    for fifths, kind in product(range(-7, 8), (ScaleKind.MAJOR, ScaleKind.NATURAL_MINOR)):
        is_major = kind is ScaleKind.MAJOR
        tonic = on_fifths(fifths if is_major else fifths + 3)
        other = key.Key(theirs(tonic) if is_major else theirs(tonic).lower())
        for triad in chords_in(tonic, kind):
            numeral = roman.RomanNumeral(triad.numeral.replace("°", "o"), other)
            assert numeral.root().name == theirs(triad.root), (tonic, triad)
            assert numeral.quality == triad.kind


def test_439_of_441_intervals_are_theirs_and_the_others_are_refused():
    from music21 import interval, pitch

    equal = refused = 0
    for lower, upper in product(TONICS, TONICS):
        ours = interval_between(lower, upper)
        low, high = pitch.Pitch(f"{theirs(lower)}4"), pitch.Pitch(f"{theirs(upper)}4")
        is_next = (high.diatonicNoteNum, high.ps) < (low.diatonicNoteNum, low.ps)
        high.octave += is_next
        other = interval.Interval(low, high)
        if ours is None:
            refused += 1
            assert other.simpleName in {"AAA4", "ddd5"}
            continue
        equal += 1
        assert f"{QUALITIES[ours.quality]}{ours.number}" == other.name
        assert ours.half_steps == other.semitones
    assert (equal, refused) == (439, 2)


def test_inversions_of_intervals_are_theirs():
    from music21 import interval

    for number, quality in product(range(1, 9), Quality):
        ours = interval_between_or_none(number, quality)
        if ours is None:
            continue
        turned = interval.Interval(f"{QUALITIES[quality]}{number}").complement
        assert f"{QUALITIES[ours.inversion.quality]}{ours.inversion.number}" == turned.name.replace(
            "P1", "P8" if number == 1 else "P1"
        )


def interval_between_or_none(number: int, quality: Quality) -> Interval | None:
    from cockpit.studio.theory.intervals import interval

    is_odd = number in {1, 8} and quality is not Quality.PERFECT  # music21 keeps an altered octave an octave
    return None if is_odd else interval(number, quality)


def test_notes_above_and_below_are_theirs():
    from music21 import interval as their_interval
    from music21 import pitch

    from cockpit.studio.theory.intervals import interval

    for start, number, quality in product(TONICS, range(2, 9), Quality):
        wide = interval(number, quality)
        for way in (1, -1) if wide is not None else ():
            ours = start.moved(way * wide.letters, way * wide.half_steps)
            name = f"{QUALITIES[quality]}{way * number}"
            other = their_interval.Interval(name).transposePitch(pitch.Pitch(f"{theirs(start)}4"))
            if ours is None:
                assert abs(other.accidental.alter) > 2
            else:
                assert theirs(ours) == other.name


def test_signatures_of_all_keys_are_theirs():
    from music21 import key

    for fifths in range(-7, 8):
        other = key.KeySignature(fifths)
        assert [theirs(each) for each in signature_notes(fifths)] == names(other.alteredPitches)
        assert theirs(on_fifths(fifths)) == other.asKey("major").tonic.name
        assert theirs(on_fifths(fifths + 3)) == other.asKey("minor").tonic.name
        assert signature_of(on_fifths(fifths), ScaleKind.MAJOR) == fifths


@pytest.mark.parametrize(
    ("ours", "name"),
    [
        ("clarinet", "Clarinet"), ("horn", "Horn"), ("trumpet", "Trumpet"), ("alto sax", "AltoSaxophone"),
        ("tenor sax", "TenorSaxophone"), ("soprano sax", "SopranoSaxophone"), ("baritone sax", "BaritoneSaxophone"),
        ("bass clarinet", "BassClarinet"), ("english horn", "EnglishHorn"), ("piccolo", "Piccolo"),
        ("double bass", "Contrabass"),
    ],
)  # fmt: skip
def test_instruments_transpose_as_theirs(ours, name):
    from music21 import instrument

    sounds = getattr(instrument, name)().transposition
    steps, half_steps = written_above(ours)
    assert (-steps, -half_steps) == (sounds.generic.staffDistance, sounds.semitones)


def test_the_clarinet_in_a_sounds_a_minor_third_lower():
    from music21 import interval

    other = interval.Interval("m3")
    assert written_above("clarinet in a") == (other.generic.staffDistance, other.semitones)


@pytest.mark.parametrize(
    ("instrument", "hertz"),
    [
        ("violin", "196.0 293.7 440.0 659.3"), ("viola", "130.8 196.0 293.7 440.0"), ("cello", "65.4 98.0 146.8 220.0"),
        ("double bass", "41.2 55.0 73.4 98.0"), ("guitar", "82.4 110.0 146.8 196.0 246.9 329.6"),
    ],
)  # fmt: skip
def test_open_strings_have_their_frequencies(instrument, hertz):
    from music21 import pitch

    strings = open_strings(instrument)
    assert [each.tenths_of_hertz for each in strings] == [round(float(each) * 10) for each in hertz.split()]
    for each in strings:
        other = pitch.Pitch(f"{theirs(each.note)}{each.octave}").frequency
        assert abs(each.tenths_of_hertz / 10 - other) <= 0.0501


RHYTHMS = [
    "4/4 q e e h", "2/4 e e q", "3/4 q. e q", "4/4 q. e e e q", "4/4 e s s s s e 3(e e e) q", "4/4 s s s s e. s q e e",
    "4/4 3(q q q) h", "4/4 q.. s h", "2/2 h q q", "6/8 q e q e", "6/8 e. s e q.", "9/8 q. q e e e e", "12/8 q e q e q. q.",
    "5/8 q e q", "7/8 q q q e",
]  # fmt: skip
LENGTHS = {"h": 2, "q": 1, "e": Fraction(1, 2), "s": Fraction(1, 4)}
WITHIN = {
    BeatPart.BEAT: Fraction(0), BeatPart.QUARTER: Fraction(1, 4), BeatPart.HALF: Fraction(1, 2), BeatPart.THREE_QUARTERS: Fraction(3, 4),
    BeatPart.THIRD: Fraction(1, 3), BeatPart.TWO_THIRDS: Fraction(2, 3),
}  # fmt: skip


def onsets(notes: str) -> list[Fraction]:
    """Where each note begins, in quarters, read in another way than ours."""
    found, at, factor = [], Fraction(0), Fraction(1)
    for each in notes.replace("3(", "3( ").replace(")", " )").split():
        if each == "3(":
            factor = Fraction(2, 3)
        elif each == ")":
            factor = Fraction(1)
        else:
            found.append(at)
            dots = each.count(".")
            at += LENGTHS[each[0]] * (2 - Fraction(1, 2**dots)) * factor
    return found


def test_notes_are_counted_where_music21_has_them_in_the_measure():
    from music21 import meter

    seen = 0
    for each in RHYTHMS:
        signature, _, notes = each.partition(" ")
        time = meter.TimeSignature(signature)
        struck = [count for count in read_rhythm(each).measures[0] if count.sound is Sound.STRUCK]
        assert not read_rhythm(each).faults
        beat = Fraction(4, int(signature.split("/")[1]))
        # music21 counts 6/8 in dotted quarters: its proportion is made eighths
        wide = Fraction(time.beatDuration.quarterLength).limit_denominator(64) if signature[0] not in "57" else beat
        assert Fraction(time.barDuration.quarterLength) == beat * int(signature.split("/")[0])
        for count, at in zip(struck, onsets(notes), strict=True):
            whole, within = divmod(at, beat)
            assert (count.beat, WITHIN[count.part]) == (whole + 1, within / beat)
            if signature[0] not in "57":
                number = Fraction(time.getBeatProportion(float(at)) - 1).limit_denominator(96)
                assert abs(float(number * wide) - float((count.beat - 1 + WITHIN[count.part]) * beat)) < 1e-6
            seen += 1
    assert seen >= 71


def test_three_eighths_are_three_beats_here_and_one_there():
    from music21 import meter

    assert meter.TimeSignature("3/8").beatCount == 1
    assert [count.beat for count in read_rhythm("3/8 e e e").measures[0]] == [1, 2, 3]  # common practice, no source


def test_note_names_are_read_back():
    assert all(read_note(str(note)) == note for note in TONICS)


@pytest.mark.parametrize(("language", "name"), [("de", "german"), ("fr", "french"), ("es", "spanish")])
def test_notes_are_called_in_each_language_as_there(language, name):
    from music21 import pitch
    from support.phrases import SPOKEN

    from cockpit.wording.theory import note_words

    for letter, raised in product("ABCDEFG", range(-2, 3)):
        note = NoteName(letter=letter, raised_by=raised)
        assert note_words(note, SPOKEN[language].say) == getattr(pitch.Pitch(theirs(note)), name)
