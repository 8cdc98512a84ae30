"""Open strings, clefs, and how far written notes are above those that sound."""

from collections.abc import Iterator
from enum import StrEnum

from cockpit.studio.theory.note_names import Pitch, pitch_of
from cockpit.studio.values import Value


class Clef(StrEnum):
    """The clef of a staff; that of the guitar sounds an octave lower than it is written."""

    TREBLE = "treble"
    TREBLE_OCTAVE_LOWER = "treble_octave_lower"
    ALTO = "alto"
    BASS = "bass"


class StaffOfInstrument(Value):
    """How an instrument is written: its clef, and the lowest note on which its scales begin."""

    clef: Clef
    lowest: Pitch


# Common practice; the frequencies of those in facts are checked in tests/outside/test_theory.py.
_STRINGS = {
    "violin": "G3 D4 A4 E5", "viola": "C3 G3 D4 A4", "cello": "C2 G2 D3 A3", "double bass": "E1 A1 D2 G2",
    "bass guitar": "E1 A1 D2 G2", "guitar": "E2 A2 D3 G3 B3 E4", "ukulele": "G4 C4 E4 A4", "mandolin": "G3 D4 A4 E5",
    "banjo": "G4 D3 G3 B3 D4",
}  # fmt: skip
_ALSO = {
    "fiddle": "violin", "bass": "double bass", "contrabass": "double bass", "electric bass": "bass guitar", "uke": "ukulele",
    "acoustic guitar": "guitar", "electric guitar": "guitar", "classical guitar": "guitar", "violoncello": "cello",
    "sax": "alto sax", "saxophone": "alto sax", "alto saxophone": "alto sax", "tenor saxophone": "tenor sax",
    "soprano saxophone": "soprano sax", "baritone saxophone": "baritone sax", "bari sax": "baritone sax", "french horn": "horn",
    "horn in f": "horn", "f horn": "horn", "clarinet in b flat": "clarinet", "clarinet in bb": "clarinet",
    "bb clarinet": "clarinet", "clarinet in a": "a clarinet", "clarinet in eb": "eb clarinet", "bb trumpet": "trumpet",
    "trumpet in bb": "trumpet", "cor anglais": "english horn",
}  # fmt: skip
# Letters and half steps from what sounds up to what is written.
_WRITTEN_ABOVE = {
    "clarinet": (1, 2), "a clarinet": (2, 3), "eb clarinet": (-2, -3), "bass clarinet": (8, 14), "trumpet": (1, 2),
    "cornet": (1, 2), "flugelhorn": (1, 2), "horn": (4, 7), "english horn": (4, 7), "soprano sax": (1, 2), "alto sax": (5, 9),
    "tenor sax": (8, 14), "baritone sax": (12, 21), "piccolo": (-7, -12), "guitar": (7, 12), "bass guitar": (7, 12),
    "double bass": (7, 12), "violin": (0, 0), "viola": (0, 0), "cello": (0, 0), "piano": (0, 0), "flute": (0, 0),
    "oboe": (0, 0), "bassoon": (0, 0), "trombone": (0, 0), "tuba": (0, 0), "recorder": (0, 0), "voice": (0, 0),
    "ukulele": (0, 0), "mandolin": (0, 0), "harp": (0, 0), "c trumpet": (0, 0),
}  # fmt: skip
# Clef and lowest written note on which a scale begins: common practice, no source. In the guitar's clef notes are as they sound.
_STAVES = {
    "violin": (Clef.TREBLE, "G3"), "mandolin": (Clef.TREBLE, "G3"), "recorder": (Clef.TREBLE, "C4"), "oboe": (Clef.TREBLE, "Bb3"),
    "english horn": (Clef.TREBLE, "B3"), "flute": (Clef.TREBLE, "C4"), "piccolo": (Clef.TREBLE, "D4"),
    "clarinet": (Clef.TREBLE, "E3"), "a clarinet": (Clef.TREBLE, "E3"), "eb clarinet": (Clef.TREBLE, "E3"),
    "bass clarinet": (Clef.TREBLE, "E3"), "trumpet": (Clef.TREBLE, "F#3"), "c trumpet": (Clef.TREBLE, "F#3"),
    "cornet": (Clef.TREBLE, "F#3"), "flugelhorn": (Clef.TREBLE, "F#3"), "horn": (Clef.TREBLE, "G3"),
    "soprano sax": (Clef.TREBLE, "Bb3"), "alto sax": (Clef.TREBLE, "Bb3"), "tenor sax": (Clef.TREBLE, "Bb3"),
    "baritone sax": (Clef.TREBLE, "Bb3"), "voice": (Clef.TREBLE, "Bb3"), "harp": (Clef.TREBLE, "C4"), "ukulele": (Clef.TREBLE, "C4"),
    "guitar": (Clef.TREBLE_OCTAVE_LOWER, "E2"), "banjo": (Clef.TREBLE_OCTAVE_LOWER, "C3"), "viola": (Clef.ALTO, "C3"),
    "cello": (Clef.BASS, "C2"), "double bass": (Clef.BASS, "E2"), "bass guitar": (Clef.BASS, "E2"), "bassoon": (Clef.BASS, "Bb1"),
    "trombone": (Clef.BASS, "E2"), "tuba": (Clef.BASS, "F1"), "piano": (Clef.TREBLE, "A3"), "left hand": (Clef.BASS, "G2"),
}  # fmt: skip
_PLAIN = "piano"


def instrument_named(words: str) -> str:
    """The name in the tables of an instrument, as typed: `Horn in F` is `horn`."""
    plain = " ".join(words.lower().replace("♭", "b").replace("-", " ").split()).removeprefix("the ")
    return _ALSO.get(plain, plain)


def open_strings(instrument: str) -> tuple[Pitch, ...] | None:
    """The open strings of an instrument as they sound, in the order of their names; None where it is not known."""
    strings = _STRINGS.get(instrument_named(instrument))
    return tuple(map(pitch_of, strings.split())) if strings is not None else None


def written_above(instrument: str) -> tuple[int, int] | None:
    """How many letters and half steps written notes are above those that sound; None where it is not known."""
    return _WRITTEN_ABOVE.get(instrument_named(instrument))


def staff_of_instrument(instrument: str | None) -> StaffOfInstrument:
    """How an instrument is written; one that is not known is written as a piano is: `Three-quarter cello` as a cello."""
    clef, lowest = next((_STAVES[each] for each in _shorter(instrument or "") if each in _STAVES), _STAVES[_PLAIN])
    return StaffOfInstrument(clef=clef, lowest=pitch_of(lowest))


def is_written_in_octaves(instrument: str) -> bool:
    """Whether an instrument that is known reads the notes that sound, in their own or in another octave."""
    letters, _ = written_above(instrument) or (0, 0)
    return instrument_named(instrument) in _STAVES and letters % 7 == 0


def octaves_written_above(instrument: str) -> int:
    """How many octaves above its sound an instrument is written; none where its clef says so."""
    letters, _ = written_above(instrument) or (0, 0)
    is_in_clef = staff_of_instrument(instrument).clef is Clef.TREBLE_OCTAVE_LOWER
    return letters // 7 - is_in_clef if letters else 0


def _shorter(instrument: str) -> Iterator[str]:
    """The name of an instrument, then without its first word, and so on."""
    words = instrument.lower().replace("-", " ").split()
    for at in range(len(words)):
        yield instrument_named(" ".join(words[at:]))
