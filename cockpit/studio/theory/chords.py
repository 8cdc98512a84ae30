"""Chords by their symbols, inverted, broken as arpeggios, and the triads of a key."""

import re
from enum import StrEnum

from cockpit.studio.theory.note_names import NoteName, read_note
from cockpit.studio.theory.scales import ScaleKind, scale
from cockpit.studio.values import Value

_TRIAD, _MINOR, _DIM, _AUG = (
    ((0, 0), (2, 4), (4, 7)),
    ((0, 0), (2, 3), (4, 7)),
    ((0, 0), (2, 3), (4, 6)),
    ((0, 0), (2, 4), (4, 8)),
)
_SEVENTH, _MAJOR_SEVENTH, _SIXTH, _NINTH = (6, 10), (6, 11), (5, 9), (8, 14)
# Letters and half steps above the root, by the symbol behind its name.
_TONES = {
    "": _TRIAD, "m": _MINOR, "dim": _DIM, "aug": _AUG, "sus2": ((0, 0), (1, 2), (4, 7)), "sus4": ((0, 0), (3, 5), (4, 7)),
    "6": (*_TRIAD, _SIXTH), "m6": (*_MINOR, _SIXTH), "7": (*_TRIAD, _SEVENTH), "maj7": (*_TRIAD, _MAJOR_SEVENTH),
    "m7": (*_MINOR, _SEVENTH), "mmaj7": (*_MINOR, _MAJOR_SEVENTH), "m7b5": (*_DIM, _SEVENTH), "dim7": (*_DIM, (6, 9)),
    "aug7": (*_AUG, _SEVENTH), "add9": (*_TRIAD, _NINTH), "9": (*_TRIAD, _SEVENTH, _NINTH),
    "maj9": (*_TRIAD, _MAJOR_SEVENTH, _NINTH), "m9": (*_MINOR, _SEVENTH, _NINTH),
}  # fmt: skip
SYMBOLS = tuple(_TONES)
_ALIKE = {
    "maj": "", "major": "", "min": "m", "minor": "m", "-": "m", "°": "dim", "o": "dim", "diminished": "dim", "+": "aug",
    "augmented": "aug", "sus": "sus4", "maj6": "6", "min6": "m6", "dom7": "7", "dominant7": "7", "major7": "maj7", "ma7": "maj7",
    "Δ": "maj7", "Δ7": "maj7", "min7": "m7", "minor7": "m7", "-7": "m7", "minmaj7": "mmaj7", "m7♭5": "m7b5", "min7b5": "m7b5",
    "ø": "m7b5", "ø7": "m7b5", "halfdim": "m7b5", "halfdim7": "m7b5", "halfdiminished7": "m7b5", "°7": "dim7", "o7": "dim7",
    "diminished7": "dim7", "+7": "aug7", "7#5": "aug7", "augmented7": "aug7", "dom9": "9", "min9": "m9", "minor9": "m9", "major9": "maj9",
}  # fmt: skip
_ROOT = re.compile(r"([A-Ga-g](?:##|bb|[#♯x𝄪♭𝄫]|b)?)(.*)", re.DOTALL)


class Triad(StrEnum):
    """What kind of a triad it is."""

    MAJOR = "major"
    MINOR = "minor"
    DIMINISHED = "diminished"
    AUGMENTED = "augmented"


_KINDS = {_TRIAD: Triad.MAJOR, _MINOR: Triad.MINOR, _DIM: Triad.DIMINISHED, _AUG: Triad.AUGMENTED}
_ROMAN = ("I", "II", "III", "IV", "V", "VI", "VII")


class Chord(Value):
    """The tones of a chord from the lowest up; `inversion` is 0 where its root is that, None where a foreign bass is."""

    root: NoteName
    tones: tuple[NoteName, ...]
    inversion: int | None = 0


class KeyTriad(Value):
    """A triad on a degree of a key, with its Roman numeral."""

    root: NoteName
    kind: Triad
    numeral: str


def chord(root: NoteName, symbol: str = "", bass: NoteName | None = None) -> Chord | None:
    """A chord by the symbol behind its root; None where the symbol is not known, or a tone would need three signs."""
    tones = _TONES.get(_ALIKE.get(symbol, symbol))
    notes = tuple(root.moved(*each) for each in tones) if tones is not None else (None,)
    known = tuple(note for note in notes if note is not None)
    if len(known) != len(notes):
        return None
    if bass is None:
        return Chord(root=root, tones=known)
    if bass not in known:
        return Chord(root=root, tones=(bass, *known), inversion=None)
    at = known.index(bass)
    return Chord(root=root, tones=(*known[at:], *known[:at]), inversion=at)


def read_chord(words: str) -> Chord | None:
    """A chord as it is typed: `F#7`, `Bbm7b5`, `C/E`, `B flat minor`; None where it is none."""
    typed, slash, below = words.partition("/")
    bass = read_note(below.strip()) if slash else None
    if slash and bass is None:
        return None
    note, _, symbol = typed.strip().partition(" ")
    if (root := read_note(note)) is not None and (found := chord(root, _symbol(symbol), bass)) is not None:
        return found
    split = _ROOT.fullmatch(typed.strip())
    root = read_note(split[1]) if split is not None else None
    return chord(root, _symbol(split[2]), bass) if split is not None and root is not None else None


def _symbol(words: str) -> str:
    """What stands behind a root, without blanks and capitals, but that a capital M is major."""
    bare = words.replace(" ", "").replace("-dim", "dim").replace("♯", "#").replace("♭", "b")
    if bare[:1] == "M":
        bare = (
            "maj" + bare.lower().removeprefix("maj").removeprefix("m")
            if bare[:3].lower() not in {"min", "maj"}
            else bare
        )
    return bare.replace("M7", "maj7").lower().replace("seventh", "7").replace("mmaj7", "mmaj7")


def arpeggio(found: Chord, octaves: int) -> tuple[NoteName, ...]:
    """The tones of a chord one after another, up to the root."""
    return (*(found.tones * octaves), found.tones[0])


def chords_in(tonic: NoteName, kind: ScaleKind) -> tuple[KeyTriad, ...] | None:
    """The triads of a major or natural minor key; of minor the major one on the fifth degree comes last. None without a signature."""
    notes = scale(tonic, kind)
    if notes is None:
        return None
    degrees = notes.up[:-1]
    triads = tuple(_triad(degrees, at) for at in range(len(degrees)))
    if kind is ScaleKind.MAJOR:
        return triads
    return (*triads, KeyTriad(root=degrees[4], kind=Triad.MAJOR, numeral="V"))


def _triad(degrees: tuple[NoteName, ...], at: int) -> KeyTriad:
    root, third, fifth = (degrees[(at + each) % len(degrees)] for each in (0, 2, 4))
    tones = ((0, 0), (2, root.half_steps_up_to(third)), (4, root.half_steps_up_to(fifth)))
    kind = _KINDS[tones]
    numeral = _ROMAN[at] if kind is Triad.MAJOR else _ROMAN[at].lower()
    return KeyTriad(root=root, kind=kind, numeral=f"{numeral}°" if kind is Triad.DIMINISHED else numeral)
