"""What of an answer stands on a staff: its clef, its signature, and its notes in their octaves."""

from collections.abc import Iterable, Sequence

from cockpit.studio.theory.chords import Triad, chord
from cockpit.studio.theory.instruments import (
    Clef,
    StaffOfInstrument,
    octaves_written_above,
    staff_of_instrument,
)
from cockpit.studio.theory.note_names import NoteName, Pitch
from cockpit.studio.theory.reading import (
    Answer,
    ArpeggioNotes,
    ChordTones,
    IntervalSize,
    KeyForInstruments,
    KeySignature,
    NotesForInstruments,
    OneNote,
    ScaleNotes,
    StringsOfInstrument,
    TriadsOfKey,
)
from cockpit.studio.theory.scales import Scale, ScaleKind, scale, signature_of
from cockpit.studio.values import Value

_MOST_IN_A_LINE = 29  # four octaves of seven notes; a sheet of paper has room for no more
_OCTAVE = 7  # letters
_SYMBOLS = {Triad.MAJOR: "", Triad.MINOR: "m", Triad.DIMINISHED: "dim", Triad.AUGMENTED: "aug"}

Together = tuple[Pitch, ...]
"""Notes that sound together, the lowest first."""


class StaffLine(Value):
    """A line of a staff: its clef, its signature in sharps, or below 0 in flats, and its notes in their order; none of a signature."""

    clef: Clef
    fifths: int
    notes: tuple[Together, ...] = ()


def staff_lines(answer: Answer, instrument: str | None = None) -> tuple[StaffLine, ...]:
    """The lines of an answer on the staff of an instrument; none where it has no notes. A rhythm has its own line."""
    match answer:
        case KeyForInstruments(keys=keys, is_major=is_major):
            kind = ScaleKind.MAJOR if is_major else ScaleKind.NATURAL_MINOR
            found = [(scale(tonic, kind), staff_of_instrument(name)) for name, tonic, _ in keys]
            return tuple(line for each, staff in found if each is not None for line in _of_scales((each,), staff))
        case NotesForInstruments(notes=notes):
            return tuple(line for name, each in notes for line in _lines(each, staff_of_instrument(name)))
        case OneNote(instrument=str(named)):
            staff = staff_of_instrument(named)
        case StringsOfInstrument(instrument=named):
            staff = staff_of_instrument(named)
        case _:
            staff = staff_of_instrument(instrument)
    return _lines(answer, staff)


def _lines(answer: Answer, staff: StaffOfInstrument) -> tuple[StaffLine, ...]:  # noqa: C901, PLR0911 a line for each kind of answer
    match answer:
        case ScaleNotes(scales=scales, is_downward=is_downward):
            return _of_scales(scales, staff, is_downward=is_downward)
        case ArpeggioNotes(notes=notes, is_downward=is_downward):
            return _in_a_row(notes, staff, is_downward=is_downward)
        case ChordTones(chord=found):
            return (StaffLine(clef=staff.clef, fifths=0, notes=(_upward(found.tones, staff.lowest),)),)
        case TriadsOfKey():
            return (_of_triads(answer, staff),)
        case KeySignature(fifths=fifths):
            return (StaffLine(clef=staff.clef, fifths=fifths),)
        case IntervalSize(lower=lower, upper=upper, interval=interval):
            low = _lowest(lower, staff.lowest)
            return (StaffLine(clef=staff.clef, fifths=0, notes=((low, low.with_note(upper, interval.letters)),)),)
        case OneNote():
            return (StaffLine(clef=staff.clef, fifths=0, notes=tuple((each,) for each in _beside(answer, staff))),)
        case StringsOfInstrument(instrument=instrument, strings=strings):
            higher = octaves_written_above(instrument)
            written = (Pitch(note=each.note, octave=each.octave + higher) for each in strings)
            return (StaffLine(clef=staff.clef, fifths=0, notes=tuple((each,) for each in written)),)
        case _:
            return ()


def _of_scales(
    scales: Iterable[Scale], staff: StaffOfInstrument, *, is_downward: bool = False
) -> tuple[StaffLine, ...]:
    return tuple(line for each in scales for line in _of_scale(each, staff, is_downward=is_downward))


def _of_scale(found: Scale, staff: StaffOfInstrument, *, is_downward: bool) -> tuple[StaffLine, ...]:
    down = found.down or tuple(reversed(found.up))
    fifths = found.fifths or 0
    if is_downward:
        return _in_a_row(down, staff, fifths, is_downward=True)
    up = _in_a_row(found.up, staff, fifths)
    return up if found.down is None else (*up, *_in_a_row(down, staff, fifths, is_downward=True))


def _in_a_row(
    notes: Sequence[NoteName], staff: StaffOfInstrument, fifths: int = 0, *, is_downward: bool = False
) -> tuple[StaffLine, ...]:
    """Notes one after another, cut evenly into lines that a sheet has room for."""
    placed = _upward(tuple(reversed(notes)) if is_downward else notes, staff.lowest)
    row = tuple((each,) for each in (reversed(placed) if is_downward else placed))
    lines = -(-len(row) // _MOST_IN_A_LINE)
    size = -(-len(row) // lines)
    cut = (row[at : at + size] for at in range(0, len(row), size))
    return tuple(StaffLine(clef=staff.clef, fifths=fifths, notes=each) for each in cut)


def _upward(notes: Sequence[NoteName], lowest: Pitch) -> Together:
    """Notes that rise, each the next such note above the one before it."""
    placed = [_lowest(notes[0], lowest)]
    for note in notes[1:]:
        before = placed[-1]
        letters = before.note.letters_up_to(note)
        is_octave = letters == 0 and note.raised_by <= before.note.raised_by
        placed.append(before.with_note(note, _OCTAVE if is_octave else letters))
    return tuple(placed)


def _lowest(note: NoteName, lowest: Pitch) -> Pitch:
    """The lowest such note that is not below a pitch."""
    at = Pitch(note=note, octave=lowest.octave)
    while at.half_steps - 12 >= lowest.half_steps:
        at = Pitch(note=note, octave=at.octave - 1)
    while at.half_steps < lowest.half_steps:
        at = Pitch(note=note, octave=at.octave + 1)
    return at


def _of_triads(answer: TriadsOfKey, staff: StaffOfInstrument) -> StaffLine:
    """The triads over the tonic of their key, each from the next such root above it."""
    tonic = _lowest(answer.triads[0].root, staff.lowest)
    kind = ScaleKind.NATURAL_MINOR if answer.has_raised_fifth else ScaleKind.MAJOR
    spelled = [(each.root, chord(each.root, _SYMBOLS[each.kind])) for each in answer.triads]
    return StaffLine(
        clef=staff.clef,
        fifths=signature_of(tonic.note, kind) or 0,
        notes=tuple(
            _upward(found.tones, tonic.with_note(root, tonic.note.letters_up_to(root)))
            for root, found in spelled
            if found is not None
        ),
    )


def _beside(answer: OneNote, staff: StaffOfInstrument) -> tuple[Pitch, ...]:
    """A note, and before it the one that it is above or below."""
    if answer.start is None:
        return (_lowest(answer.note, staff.lowest),)
    if answer.letters >= 0:
        start = _lowest(answer.start, staff.lowest)
        return start, start.with_note(answer.note, answer.letters)
    note = _lowest(answer.note, staff.lowest)
    return note.with_note(answer.start, -answer.letters), note
