"""Answers of music theory as music notation: MEI 4, an open format, of no more than what a staff of them needs."""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from html import escape
from itertools import groupby

from cockpit.studio.theory.counting import Counted, CountedNote, Meter
from cockpit.studio.theory.instruments import Clef
from cockpit.studio.theory.note_names import NoteName, Pitch
from cockpit.studio.theory.scales import signature_notes
from cockpit.studio.theory.staff import StaffLine

_WHOLE = """\
<?xml version="1.0" encoding="UTF-8"?>
<mei xmlns="http://www.music-encoding.org/ns/mei" meiversion="4.0.1">
<meiHead><fileDesc><titleStmt><title/></titleStmt><pubStmt/></fileDesc></meiHead>
<music><body><mdiv><score>
{staff}
<section>
{measures}
</section>
</score></mdiv></body></music>
</mei>
"""
_STAFF = '<scoreDef><staffGrp><staffDef n="1" {}/></staffGrp></scoreDef>'
_MEASURE = '<measure right="{right}"><staff n="1"><layer n="1">{notes}</layer>{below}</staff></measure>'
_CLEFS = {
    Clef.TREBLE: 'clef.shape="G" clef.line="2"',
    Clef.TREBLE_OCTAVE_LOWER: 'clef.shape="G" clef.line="2" clef.dis="8" clef.dis.place="below"',
    Clef.ALTO: 'clef.shape="C" clef.line="3"',
    Clef.BASS: 'clef.shape="F" clef.line="4"',
}
_SIGNS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
_DURATIONS = {
    Fraction(4): "1", Fraction(2): "2", Fraction(1): "4", Fraction(1, 2): "8", Fraction(1, 4): "16", Fraction(1, 8): "32",
}  # fmt: skip
_HEAD = 'dur="4" stem.visible="false"'  # a black head alone: nobody is told a length
_UNSEEN = 'head.visible="false" stem.visible="false"'
_UNSEEN_TUPLET = 'num.visible="false" bracket.visible="false"'
_ON_ONE_LINE = 'lines="1" clef.shape="perc"'
_ON_LINE = 'pname="b" oct="4" loc="0"'
_EIGHTHS = 8


def staff_mei(lines: Sequence[StaffLine]) -> str:
    """Lines of a staff, one below the other."""
    first, *others = (_staff(each) for each in lines)
    measures = [_MEASURE.format(right="invis", notes=_line(each), below="") for each in lines]
    below = "".join(
        f"\n{staff if staff != before else ''}<sb/>\n{measure}"
        for before, staff, measure in zip((first, *others), others, measures[1:], strict=False)
    )
    return _WHOLE.format(staff=first, measures=measures[0] + below)


def _staff(line: StaffLine) -> str:
    return _STAFF.format(f'lines="5" {_CLEFS[line.clef]} key.sig="{_signature(line.fifths)}"')


def rhythm_mei(counted: Counted, syllables: Sequence[Sequence[str]]) -> str:
    """A rhythm on one line, with the `syllables` of each of its notes below it, by measures."""
    meter = f'meter.count="{counted.meter.count}" meter.unit="{counted.meter.unit}"'
    ties = _ties([each.note.is_tied_on for measure in counted.notes for each in measure])
    last = len(counted.notes) - 1
    measures = "\n".join(
        _MEASURE.format(
            right="end" if at == last else "single",
            notes=_rhythm([_note(*each, next(ties)) for each in zip(notes, below, strict=True)], notes, counted.meter),
            below=_below_rests(notes, below),
        )
        for at, (notes, below) in enumerate(zip(counted.notes, syllables, strict=True))
    )
    return _WHOLE.format(staff=_STAFF.format(f"{_ON_ONE_LINE} {meter}"), measures=measures)


def _signature(fifths: int) -> str:
    return f"{abs(fifths)}{'s' if fifths > 0 else 'f' if fifths else ''}"


def _line(line: StaffLine) -> str:
    """Its notes; a sign is written where it is another than the signature's, or than the last one's in its place."""
    by_signature = {note.letter: note.raised_by for note in signature_notes(line.fifths)}
    written: dict[tuple[str, int], int] = {}
    if not line.notes:
        return '<space dur="2"/>'
    return "".join(_together(each, by_signature, written) for each in line.notes)


def _together(notes: Sequence[Pitch], by_signature: dict[str, int], written: dict[tuple[str, int], int]) -> str:
    if len(notes) == 1:
        return f"<note {_pitch(notes[0], by_signature, written)} {_HEAD}/>"
    within = "".join(f"<note {_pitch(each, by_signature, written)}/>" for each in notes)
    return f"<chord {_HEAD}>{within}</chord>"


def _pitch(pitch: Pitch, by_signature: dict[str, int], written: dict[tuple[str, int], int]) -> str:
    note, place = pitch.note, (pitch.note.letter, pitch.octave)
    is_clear = written.get(place, by_signature.get(note.letter, 0)) == note.raised_by
    written[place] = note.raised_by
    return f'pname="{note.letter.lower()}" oct="{pitch.octave}"{_accidental(note, is_written=not is_clear)}'


def _accidental(note: NoteName, *, is_written: bool) -> str:
    if is_written:
        return f' accid="{_SIGNS[note.raised_by]}"'
    return f' accid.ges="{_SIGNS[note.raised_by]}"' if note.raised_by else ""


def _ties(are_tied_on: Sequence[bool]) -> Iterator[str]:
    """How each note is tied: it begins a tie, goes on, or ends one."""
    for before, after in zip(are_tied_on, (*are_tied_on[1:], False), strict=True):
        yield {(True, True): ' tie="m"', (True, False): ' tie="t"', (False, True): ' tie="i"'}.get((before, after), "")


def _note(counted: CountedNote, syllable: str, tie: str) -> str:
    note = counted.note
    length = f'dur="{_DURATIONS[note.value]}"' + (f' dots="{note.dots}"' if note.dots else "")
    if note.is_rest:
        return f'<rest {length} loc="0"/>'
    return f'<note {_ON_LINE} stem.dir="up" {length}{tie}>{_verse(syllable)}</note>'


def _verse(syllable: str) -> str:
    return f'<verse n="1"><syl>{escape(syllable)}</syl></verse>' if syllable else ""


def _below_rests(notes: Sequence[CountedNote], syllables: Sequence[str]) -> str:
    """Writes the counts of rests as a second layer. MEI allows no verse below a rest, so each count hangs on an invisible note."""
    if not any(each.note.is_rest and syllable for each, syllable in zip(notes, syllables, strict=True)):
        return ""
    pairs = zip(notes, syllables, strict=True)
    written = (
        _in_tuplet(tuplet, "".join(_beside(*pair) for pair in within), _UNSEEN_TUPLET)
        for tuplet, within in groupby(pairs, key=lambda pair: pair[0].note.tuplet)
    )
    return f'<layer n="2">{"".join(written)}</layer>'


def _beside(counted: CountedNote, syllable: str) -> str:
    """Fills the time of a note in the second layer: with space or, for a rest, with an invisible note. Dots become spaces, since a dot would be seen."""
    value = counted.note.value
    first = f'<space dur="{_DURATIONS[value]}"/>'
    if counted.note.is_rest:
        first = f'<note {_ON_LINE} {_UNSEEN} dur="{_DURATIONS[value]}">{_verse(syllable)}</note>'
    dots = (f'<space dur="{4 / (value / 2**dot)}"/>' for dot in range(1, counted.note.dots + 1))
    return f"{first}{''.join(dots)}"


def _rhythm(written: Sequence[str], notes: Sequence[CountedNote], meter: Meter) -> str:
    """Notes in their tuplets and, within a beat, under their beams."""
    pairs = zip(notes, written, strict=True)
    return "".join(
        _in_tuplet(tuplet, "".join(_beamed(list(within), meter)))
        for tuplet, within in groupby(pairs, key=lambda pair: pair[0].note.tuplet)
    )


def _in_tuplet(tuplet: tuple[int, int, int] | None, within: str, look: str = "") -> str:
    if tuplet is None:
        return within
    return f'<tuplet num="{tuplet[0]}" numbase="{tuplet[1]}" {look}>{within}</tuplet>'


def _beamed(pairs: Iterable[tuple[CountedNote, str]], meter: Meter) -> Iterator[str]:
    for beam, within in groupby(pairs, key=lambda pair: _beam_of(pair[0], meter)):
        notes = [written for _, written in within]
        yield f"<beam>{''.join(notes)}</beam>" if beam is not None and len(notes) > 1 else "".join(notes)


def _beam_of(counted: CountedNote, meter: Meter) -> int | None:
    """Which beam of its measure a note is under; None where it is under none."""
    if counted.note.is_rest or counted.note.value >= 1:
        return None
    if meter.groups:
        return sum(counted.begins >= (each - 1) * meter.beat for each in meter.groups)
    is_in_threes = meter.unit >= _EIGHTHS and meter.count % 3 == 0
    wide = 3 * Fraction(4, meter.unit) if is_in_threes else max(meter.beat, Fraction(1))
    return int(counted.begins // wide)
