"""Keys, octaves and hands in typed lines: common practice, no source, but for the key signatures."""

import pytest
from support.reading import read

from cockpit.studio.assignments.assignment import Hands, Key
from cockpit.studio.notes.notes import Area


def key_in(text, area=Area.SCALES):
    key = read(text, area).key
    return f"{key.tonic} {key.mode}" if key else None


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("D major", "D major"),
        ("d major", "D major"),
        ("D major,", "D major"),
        ("D MAJOR", "D major"),
        ("D-major", "D major"),
        ("Dmaj", "D major"),
        ("G maj., 2 oct", "G major"),
        ("b minor", "B minor"),
        ("bb minor", "Bb minor"),
        ("Bbm", "Bb minor"),
        ("Bb major", "Bb major"),
        ("B♭ major", "Bb major"),
        ("B-flat major", "Bb major"),
        ("B flat", "Bb major"),
        ("C sharp minor", "C# minor"),
        ("C♯m", "C# minor"),
        ("c# minor", "C# minor"),
        ("Am", "A minor"),
        ("A harm. minor", "A harmonic minor"),
        ("A harmonic", "A harmonic minor"),
        ("A min. harm.", "A harmonic minor"),
        ("F# min mel. 3 octaves", "F# melodic minor"),
        ("E natural minor", "E minor"),
        ("e min nat.", "E minor"),
        ("a minor", "A minor"),
        ("a harmonic minor", "A harmonic minor"),
        ("D", "D major"),
        ("D 2 oct 3x", "D major"),
        ("D HS", "D major"),
        ("F#", "F# major"),
        ("slowly, Bb", "Bb major"),
        ("D major arpeggio", "D major"),
        ("D major, then D major arpeggios", "D major"),
    ],
)
def test_keys(text, wanted):
    assert key_in(text) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("C-Dur", "C major"), ("C-dur", "C major"), ("C Dur", "C major"), ("a-Moll", "A minor"), ("A moll", "A minor"), ("Es-Dur", "Eb major"),
        ("fis-Moll", "F# minor"), ("h-Moll", "B minor"), ("H-Dur", "B major"), ("B-Dur", "Bb major"), ("b-Moll", "Bb minor"),
        ("As-Dur, 2 Oktaven", "Ab major"), ("cis-Moll harmonisch", "C# harmonic minor"), ("a-Moll melodisch, q=60", "A melodic minor"),
        ("D-Dur-Tonleiter", "D major"), ("G-Dur HS", "G major"), ("ré majeur", "D major"), ("Ré majeur", "D major"),
        ("si bémol majeur", "Bb major"), ("fa dièse mineur", "F# minor"), ("la mineur harmonique", "A harmonic minor"),
        ("ut majeur", "C major"), ("re mayor", "D major"), ("mi bemol mayor", "Eb major"), ("la menor armónica", "A harmonic minor"),
        ("do sostenido menor", "C# minor"), ("sol mayor, 2 octavas", "G major"), ("la gamme de ré majeur", "D major"),
        ("Dis-Dur", None), ("C-Dur und G-Dur", None), ("C- und G-Dur", None), ("ré et la majeur", None), ("C-Dur, a-Moll", None),
        ("do it again", None), ("la main droite", None), ("es geht besser", None), ("mi bémol", None), ("D moll-Etüde", None),
        ("C-Dur dann G-Dur", None), ("re majeures", None), ("fa Dur", None), ("C majeur", None),
    ],
)  # fmt: skip
def test_keys_in_german_french_and_spanish(text, wanted):
    assert key_in(text) == wanted
    assert key_in(text, Area.PIECE) is None


@pytest.mark.parametrize(("text", "wanted"), [("C-Dur, 2 Oktaven", 2), ("sol mayor 3 octavas", 3), ("C-Dur 2 okt.", 2)])
def test_octaves_in_german_and_spanish(text, wanted):
    assert read(text, Area.SCALES).octaves == wanted


@pytest.mark.parametrize(
    "text",
    [
        "A little faster",
        "practice a minor scale",
        "a major improvement",
        "a",
        "f#",
        "sul G",
        "G string",
        "D dorian",
        "watch the C#",
        "on F#, slowly",
        "Cm7",
        "Gmaj7",
        "G maj 7",
        "G major7",
        "D3",
        "HB major",
        "Es major",
        "be",
        "mine",
    ],
)
def test_what_is_not_clear_claims_no_key(text):
    assert key_in(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "D major, G major",
        "D, G",
        "D and G major",
        "D, G major",
        "D/G major",
        "D major and G",
        "D major, Bb",
        "D major/minor",
        "D major and harmonic minor",
        "Bb, Eb",
        "D major to A major",
    ],
)
def test_one_of_several_keys_is_not_claimed(text):
    assert key_in(text) is None


@pytest.mark.parametrize(
    "text",
    [
        "C, chromatic, 1 octave",
        "C (chromatic)",
        "chromatic, C, 2 oct",
        "C / chromatic",
        "C; whole-tone",
        "C, whole tone",
        "D, dorian",
        "G, mixolydian",
        "A, minor",
        "A, min, 2 oct",
        "A, harmonic minor",
        "A, mel., 2 oct",
        "A; pentatonic",
        "E, blues",
        "C, diminished",
    ],
)
def test_a_letter_alone_beside_another_kind_of_scale_is_no_major_key(text):
    assert key_in(text) is None


@pytest.mark.parametrize("text", ["D, whole bows, 5 min", "D 2 oct, 5 min.", "D, good tone", "D, dim."])
def test_a_letter_alone_beside_other_words_is_a_major_key(text):
    assert key_in(text) == "D major"


def test_a_key_with_its_mode_is_claimed_beside_another_kind_of_scale():
    assert key_in("C major, chromatic, 1 octave") == "C major"


MAJORS = ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"]
MINORS = ["Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#"]
TONICS = [f"{letter}{sign}" for letter in "ABCDEFG" for sign in ("", "#", "b")]


@pytest.mark.parametrize("tonic", TONICS)
def test_only_keys_with_a_signature_of_up_to_seven_sharps_or_flats_are_claimed(tonic):
    # The circle of fifths from seven flats to seven sharps, as computed with music21 10.5.
    assert key_in(f"{tonic} major") == (f"{tonic} major" if tonic in MAJORS else None)
    assert key_in(f"{tonic} minor") == (f"{tonic} minor" if tonic in MINORS else None)


@pytest.mark.parametrize("area", [Area.PIECE, Area.REVIEW, Area.ETUDE, Area.METHOD_BOOK, Area.LISTENING])
def test_a_key_belongs_to_the_name_of_a_piece(area):
    assignment = read("Minuet in G major, mm. 1-8", area)
    assert (assignment.title, assignment.key) == ("Minuet in G major", None)


@pytest.mark.parametrize("area", [Area.TECHNIQUE, Area.WARM_UP, Area.THEORY, Area.EAR, Area.SIGHT_READING])
def test_a_letter_alone_is_a_key_only_among_scales(area):
    assert key_in("D", area) is None
    assert key_in("Bb", area) is None
    assert read("D major", area).key == Key(tonic="D", mode="major")


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("two octaves", 2),
        ("1 octave", 1),
        ("one octave", 1),
        ("3-octave D major", 3),
        ("2oct", 2),
        ("2 oct. slowly", 2),
        ("D major (2 octs)", 2),
        ("2 8ve", 2),
        ("2 8ves", 2),
        ("8 octaves", 8),
        ("9 octaves", None),
        ("2-3 oct", None),
        ("2 or 3 oct", None),
        ("an octave higher", None),
        ("one octave higher", None),
        ("1 oct. up", None),
        ("two octaves apart", None),
        ("2 8va", None),
        ("in octaves", None),
        ("2 oct, 3 oct", None),
    ],
)
def test_octaves(text, wanted):
    assert read(text, Area.SCALES).octaves == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("hs", Hands.SEPARATELY),
        ("H.S. slowly", Hands.SEPARATELY),
        ("hands separately", Hands.SEPARATELY),
        ("hands sep.", Hands.SEPARATELY),
        ("Hands apart", Hands.SEPARATELY),
        ("hands alone", Hands.SEPARATELY),
        ("separate hands", Hands.SEPARATELY),
        ("hands together", Hands.TOGETHER),
        ("both hands", Hands.TOGETHER),
        ("L.H. only", Hands.LEFT),
        ("left hand", Hands.LEFT),
        ("left-hand alone", Hands.LEFT),
        ("rh, then rest", Hands.RIGHT),
        ("HS mm. 1-8, HS mm. 9-16", Hands.SEPARATELY),
        ("HS then HT", None),
        ("HS/HT", None),
        ("HS before HT", None),
        ("HS until HT is easy", None),
        ("LH pizz.", None),
        ("left hand position", None),
        ("left-hand fingering", None),
        ("hand position", None),
        ("hands", None),
        ("left", None),
        ("HSx", None),
    ],
)
def test_hands(text, wanted):
    assert read(text).hands == wanted
