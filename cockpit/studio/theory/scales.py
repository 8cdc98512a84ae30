"""Scales of all kinds, spelled, with their key signatures."""

from collections.abc import Sequence
from enum import StrEnum

from cockpit.studio.theory.note_names import NoteName, named, on_fifths
from cockpit.studio.values import Value

MOST_OCTAVES = 4
_LETTERS = tuple(range(7))
_MOST_SIGNS = 7  # no key signature has more
_SHARPS_IN_ORDER = tuple(on_fifths(each) for each in range(6, 13))
_FLATS_IN_ORDER = tuple(on_fifths(each) for each in range(-2, -9, -1))


class ScaleKind(StrEnum):
    """What kind of a scale it is."""

    MAJOR = "major"
    NATURAL_MINOR = "natural_minor"
    HARMONIC_MINOR = "harmonic_minor"
    MELODIC_MINOR = "melodic_minor"
    DORIAN = "dorian"
    PHRYGIAN = "phrygian"
    LYDIAN = "lydian"
    MIXOLYDIAN = "mixolydian"
    LOCRIAN = "locrian"
    MAJOR_PENTATONIC = "major_pentatonic"
    MINOR_PENTATONIC = "minor_pentatonic"
    BLUES = "blues"
    WHOLE_TONE = "whole_tone"
    CHROMATIC = "chromatic"


MINORS = (ScaleKind.NATURAL_MINOR, ScaleKind.HARMONIC_MINOR, ScaleKind.MELODIC_MINOR)
_STEPS = {
    ScaleKind.MAJOR: (0, 2, 4, 5, 7, 9, 11),
    ScaleKind.NATURAL_MINOR: (0, 2, 3, 5, 7, 8, 10),
    ScaleKind.HARMONIC_MINOR: (0, 2, 3, 5, 7, 8, 11),
    ScaleKind.MELODIC_MINOR: (0, 2, 3, 5, 7, 9, 11),
    ScaleKind.DORIAN: (0, 2, 3, 5, 7, 9, 10),
    ScaleKind.PHRYGIAN: (0, 1, 3, 5, 7, 8, 10),
    ScaleKind.LYDIAN: (0, 2, 4, 6, 7, 9, 11),
    ScaleKind.MIXOLYDIAN: (0, 2, 4, 5, 7, 9, 10),
    ScaleKind.LOCRIAN: (0, 1, 3, 5, 6, 8, 10),
}
# Letters and half steps above the tonic. Common practice, no source.
_FEWER = {
    ScaleKind.MAJOR_PENTATONIC: ((0, 0), (1, 2), (2, 4), (4, 7), (5, 9)),
    ScaleKind.MINOR_PENTATONIC: ((0, 0), (2, 3), (3, 5), (4, 7), (6, 10)),
    ScaleKind.BLUES: ((0, 0), (2, 3), (3, 5), (4, 6), (4, 7), (6, 10)),
}
# How many fifths the signature's major key is above the tonic.
_PARENT = {
    ScaleKind.MAJOR: 0, ScaleKind.NATURAL_MINOR: -3, ScaleKind.HARMONIC_MINOR: -3, ScaleKind.MELODIC_MINOR: -3,
    ScaleKind.DORIAN: -2, ScaleKind.PHRYGIAN: -4, ScaleKind.LYDIAN: 1, ScaleKind.MIXOLYDIAN: -1, ScaleKind.LOCRIAN: -5,
}  # fmt: skip
# Whose keys those scales stand beside that have no signature.
_BESIDE = {ScaleKind.MINOR_PENTATONIC: ScaleKind.NATURAL_MINOR, ScaleKind.BLUES: ScaleKind.NATURAL_MINOR}
_WITH_A_SIGNATURE = frozenset({ScaleKind.MAJOR, ScaleKind.NATURAL_MINOR})


class Scale(Value):
    """The notes of a scale upward, and downward where those are others.

    `fifths` is its signature, the number of sharps, or below 0 of flats; None where it has none. `raised` are notes of the
    signature with what they become. `simplified` are those that would have a double sign, with what is written instead.
    """

    tonic: NoteName
    kind: ScaleKind
    up: tuple[NoteName, ...]
    down: tuple[NoteName, ...] | None = None
    fifths: int | None = None
    raised: tuple[tuple[NoteName, NoteName], ...] = ()
    simplified: tuple[tuple[NoteName, NoteName], ...] = ()


def signature_notes(fifths: int) -> tuple[NoteName, ...]:
    """The sharps or flats of a signature in their order."""
    return _SHARPS_IN_ORDER[:fifths] if fifths > 0 else _FLATS_IN_ORDER[:-fifths]


def signature_of(tonic: NoteName, kind: ScaleKind) -> int | None:
    """The signature of a key or a mode; None where no signature has so many signs, or the scale goes by none."""
    fifths = tonic.fifths + _PARENT[kind] if kind in _PARENT else None
    return fifths if fifths is not None and abs(fifths) <= _MOST_SIGNS else None


def same_sound(tonic: NoteName) -> NoteName:
    """The tonic on the same key of a piano whose key has a signature: A flat for G sharp."""
    return on_fifths(tonic.fifths - 12 if tonic.fifths > 0 else tonic.fifths + 12)


def written_tonic(tonic: NoteName, kind: ScaleKind) -> NoteName:
    """Chooses the tonic that a transposing instrument reads: its enharmonic equal where the key has no signature."""
    key = kind if kind in _PARENT else _BESIDE.get(kind, ScaleKind.MAJOR)
    return tonic if signature_of(tonic, key) is not None else same_sound(tonic)


def scale(tonic: NoteName, kind: ScaleKind, octaves: int = 1) -> Scale | None:
    """A scale; None where it cannot be spelled, or is a major or natural minor one without a key signature."""
    fifths = signature_of(tonic, kind)
    if kind in _WITH_A_SIGNATURE and fifths is None:
        return None
    if kind is ScaleKind.CHROMATIC:
        return _chromatic(tonic, octaves)
    if kind is ScaleKind.WHOLE_TONE:
        return Scale(tonic=tonic, kind=kind, up=_upward(_whole_tones(tonic), octaves))
    if kind in _FEWER:
        full = _spelled(tonic, _FEWER[kind])
        if full is None:
            return None
        simple = tuple(each.simply() for each in full)
        simplified = tuple((each, other) for each, other in zip(full, simple, strict=True) if each != other)
        return Scale(tonic=tonic, kind=kind, up=_upward(simple, octaves), simplified=simplified)
    return _of_seven(tonic, kind, octaves, fifths)


def _of_seven(tonic: NoteName, kind: ScaleKind, octaves: int, fifths: int | None) -> Scale | None:
    notes = _spelled(tonic, tuple(zip(_LETTERS, _STEPS[kind], strict=True)))
    if notes is None:
        return None
    if kind not in MINORS:
        return Scale(tonic=tonic, kind=kind, up=_upward(notes, octaves), fifths=fifths)
    natural = _spelled(tonic, tuple(zip(_LETTERS, _STEPS[ScaleKind.NATURAL_MINOR], strict=True)))
    if natural is None:
        return None
    raised = tuple((before, after) for before, after in zip(natural, notes, strict=True) if before != after)
    down = _downward(natural, octaves) if kind is ScaleKind.MELODIC_MINOR else None
    return Scale(tonic=tonic, kind=kind, up=_upward(notes, octaves), down=down, fifths=fifths, raised=raised)


def _spelled(tonic: NoteName, steps: Sequence[tuple[int, int]]) -> tuple[NoteName, ...] | None:
    notes = tuple(tonic.moved(*step) for step in steps)
    known = tuple(note for note in notes if note is not None)
    return known if len(known) == len(notes) else None


def _upward(notes: tuple[NoteName, ...], octaves: int) -> tuple[NoteName, ...]:
    return (*(notes * octaves), notes[0])


def _downward(notes: tuple[NoteName, ...], octaves: int) -> tuple[NoteName, ...]:
    return tuple(reversed(_upward(notes, octaves)))


def _whole_tones(tonic: NoteName) -> tuple[NoteName, ...]:
    others = (named(tonic.half_steps + each, with_flats=tonic.raised_by < 0) for each in range(2, 12, 2))
    return tonic, *others


def _chromatic(tonic: NoteName, octaves: int) -> Scale:
    """Sharps upward and flats downward: common practice, no source."""
    up = (tonic, *(named(tonic.half_steps + each, with_flats=False) for each in range(1, 12)))
    down = (tonic, *(named(tonic.half_steps + each, with_flats=True) for each in range(1, 12)))
    return Scale(tonic=tonic, kind=ScaleKind.CHROMATIC, up=_upward(up, octaves), down=_downward(down, octaves))
