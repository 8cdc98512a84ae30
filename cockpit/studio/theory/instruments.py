"""Open strings, and how far written notes are above those that sound."""

from math import floor

from cockpit.studio.theory.note_names import NoteName, read_note
from cockpit.studio.values import Value

_A4, _A4_HERTZ = 69, 440  # ISO 16:1975


class OpenString(Value):
    """An open string as it sounds: its note, its octave (middle C begins the fourth), and tenths of hertz."""

    note: NoteName
    octave: int

    @property
    def tenths_of_hertz(self) -> int:
        """Its frequency in tenths of hertz, in equal temperament with the A of 440 hertz (ISO 16), rounded half up."""
        keys = 12 * (self.octave + 1) + self.note.half_steps - _A4
        return floor(10 * _A4_HERTZ * 2 ** (keys / 12) + 0.5)


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


def instrument_named(words: str) -> str:
    """The name in the tables of an instrument, as typed: `Horn in F` is `horn`."""
    plain = " ".join(words.lower().replace("♭", "b").replace("-", " ").split()).removeprefix("the ")
    return _ALSO.get(plain, plain)


def open_strings(instrument: str) -> tuple[OpenString, ...] | None:
    """The open strings of an instrument in the order of their names; None where it is not known."""
    strings = _STRINGS.get(instrument_named(instrument))
    if strings is None:
        return None
    notes = ((read_note(each[:-1]), int(each[-1])) for each in strings.split())
    return tuple(OpenString(note=note, octave=octave) for note, octave in notes if note is not None)


def written_above(instrument: str) -> tuple[int, int] | None:
    """How many letters and half steps written notes are above those that sound; None where it is not known."""
    return _WRITTEN_ABOVE.get(instrument_named(instrument))
