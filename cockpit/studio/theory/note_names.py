"""Names of notes, and how far they are from each other in letters and in half steps."""

import re
from math import floor

from cockpit.studio.values import Value

_LETTERS = "CDEFGAB"
_NATURAL = (0, 2, 4, 5, 7, 9, 11)  # half steps above C
_BY_FIFTHS = "FCGDAEB"
_MOST_SIGNS = 2
_SIGNS = {-2: "𝄫", -1: "♭", 0: "", 1: "♯", 2: "𝄪"}
_ALTERED = {
    "": 0, "#": 1, "♯": 1, "sharp": 1, "##": 2, "♯♯": 2, "x": 2, "𝄪": 2, "double sharp": 2,
    "b": -1, "♭": -1, "flat": -1, "bb": -2, "♭♭": -2, "𝄫": -2, "double flat": -2,
}  # fmt: skip
_NOTE = re.compile(r"([A-Ga-g])(?:[ -]?((?:double[ -])?(?:sharp|flat))|(##?|♯♯?|bb?|♭♭?|x|𝄪|𝄫|))")
_A4, _A4_HERTZ = 69, 440  # ISO 16:1975
_FLATS_FIRST = {1: "D", 3: "E", 6: "G", 8: "A", 10: "B"}


class NoteName(Value):
    """A note without its octave: a letter, and by how many half steps its sign raises it, from -2 to 2."""

    letter: str
    raised_by: int = 0

    def __str__(self) -> str:
        return f"{self.letter}{_SIGNS[self.raised_by]}"

    @property
    def half_steps(self) -> int:
        """Half steps above the C below it; C flat is -1."""
        return _NATURAL[_LETTERS.index(self.letter)] + self.raised_by

    @property
    def fifths(self) -> int:
        """How many fifths above C it is; that is the number of sharps of its major key, and below 0 that of flats."""
        return _BY_FIFTHS.index(self.letter) - 1 + len(_BY_FIFTHS) * self.raised_by

    def moved(self, letters: int, half_steps: int) -> "NoteName | None":
        """The note so many letters and half steps higher, lower below 0; None where it would need three signs."""
        octave, letter = divmod(_LETTERS.index(self.letter) + letters, len(_LETTERS))
        raised_by = self.half_steps + half_steps - 12 * octave - _NATURAL[letter]
        return NoteName(letter=_LETTERS[letter], raised_by=raised_by) if abs(raised_by) <= _MOST_SIGNS else None

    def letters_up_to(self, other: "NoteName") -> int:
        """How many letters the next such note above is away, from 0 to 6."""
        return (_LETTERS.index(other.letter) - _LETTERS.index(self.letter)) % len(_LETTERS)

    def half_steps_up_to(self, other: "NoteName") -> int:
        """The half steps on the same way."""
        is_next_octave = _LETTERS.index(other.letter) < _LETTERS.index(self.letter)
        return other.half_steps + 12 * is_next_octave - self.half_steps

    def simply(self) -> "NoteName":
        """The same key of a piano without a double sign."""
        return self if abs(self.raised_by) < _MOST_SIGNS else named(self.half_steps, with_flats=self.raised_by > 0)


class Pitch(Value):
    """A note in its octave: middle C begins the fourth. The letter says the octave, so that C flat 4 is below middle C."""

    note: NoteName
    octave: int

    @property
    def half_steps(self) -> int:
        """Half steps above the lowest C of all."""
        return 12 * self.octave + self.note.half_steps

    @property
    def tenths_of_hertz(self) -> int:
        """Its frequency in tenths of hertz, in equal temperament with the A of 440 hertz (ISO 16), rounded half up."""
        return floor(10 * _A4_HERTZ * 2 ** ((self.half_steps + 12 - _A4) / 12) + 0.5)

    def with_note(self, note: NoteName, letters: int) -> "Pitch":
        """The note so many letters above, in its octave; below 0 it is a lower one."""
        octaves = (_LETTERS.index(self.note.letter) + letters) // len(_LETTERS)
        return Pitch(note=note, octave=self.octave + octaves)


def named(half_steps: int, *, with_flats: bool) -> NoteName:
    """The note so many half steps above C, with at most one sign, a flat or a sharp."""
    half_steps %= 12
    if half_steps in _NATURAL:
        return NoteName(letter=_LETTERS[_NATURAL.index(half_steps)])
    if with_flats:
        return NoteName(letter=_FLATS_FIRST[half_steps], raised_by=-1)
    return NoteName(letter=_LETTERS[_NATURAL.index(half_steps - 1)], raised_by=1)


def on_fifths(fifths: int) -> NoteName:
    """The note so many fifths above C: `on_fifths(2)` is D, and `on_fifths(-2)` B flat."""
    raised_by, letter = divmod(fifths + 1, len(_BY_FIFTHS))
    return NoteName(letter=_BY_FIFTHS[letter], raised_by=raised_by)


def pitch_of(words: str) -> Pitch:
    """A pitch as tables have it: `G3`, `Bb3`."""
    note = read_note(words[:-1])
    if note is None:
        raise ValueError(words)
    return Pitch(note=note, octave=int(words[-1]))


def read_note(words: str) -> NoteName | None:
    """A note as it is typed: `F#`, `Bb`, `b flat`, `F𝄪`, `Cx`; None where it is none."""
    found = _NOTE.fullmatch(words)
    if found is None:
        return None
    spoken = (found[2] or "").replace("-", " ")
    return NoteName(letter=found[1].upper(), raised_by=_ALTERED[spoken or found[3] or ""])
