"""Our music notation (MEI) read back by music21 (BSD-3-Clause), which has its own reader of it: the notes that are meant."""

from fractions import Fraction

import pytest

from cockpit.papers.notes.mei import rhythm_mei, staff_mei
from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.instruments import Clef
from cockpit.studio.theory.note_names import Pitch
from cockpit.studio.theory.reading import read_theory
from cockpit.studio.theory.staff import StaffLine, staff_lines
from cockpit.wording.theory import syllables

pytestmark = pytest.mark.long  # music21 alone takes two seconds to import

SIGNS = {-2: "--", -1: "-", 0: "", 1: "#", 2: "##"}
CLEFS = {
    Clef.TREBLE: "TrebleClef", Clef.TREBLE_OCTAVE_LOWER: "Treble8vbClef", Clef.ALTO: "AltoClef", Clef.BASS: "BassClef",
}  # fmt: skip
ALL = [words for group in EXAMPLES.values() for words in group]
SCORES = ["violin", "viola", "cello", "guitar", "left hand", "three-quarter cello"]


def read(mei: str):
    from music21 import converter

    return converter.parse(mei, format="mei")


def theirs(pitch: Pitch) -> str:
    return f"{pitch.note.letter}{SIGNS[pitch.note.raised_by]}{pitch.octave}"


def ours(line: StaffLine) -> list[list[str]]:
    return [[theirs(each) for each in together] for together in line.notes]


@pytest.mark.parametrize("instrument", SCORES)
def test_every_example_with_notes_is_read_back_as_it_is_meant(instrument):
    seen = 0
    for words in ALL:
        answer = read_theory(words)
        lines = staff_lines(answer, instrument)
        if not lines:
            continue
        score = read(staff_mei(lines))
        measures = list(score.recurse().getElementsByClass("Measure"))
        for line, measure in zip(lines, measures, strict=True):
            found = [[each.nameWithOctave for each in note.pitches] for note in measure.recurse().notes]
            assert found == ours(line), words
        clef = next(iter(score.recurse().getElementsByClass("Clef")))
        assert type(clef).__name__ == CLEFS[lines[0].clef]
        signs = [each.sharps for each in score.recurse().getElementsByClass("KeySignature")]
        assert (signs or [0])[0] == lines[0].fifths, words
        seen += 1
    assert seen == 60  # all but the circle of fifths, the keyboard, and the rhythms


def lengths(counted: Counted) -> list[list[tuple[Fraction, bool]]]:
    return [[(each.note.quarters, each.note.is_rest) for each in measure] for measure in counted.notes]


RESTS = (
    "4/4 q qr e e q",
    "4/4 q..r s 3(e er e) q",
    "6/8 er e er q.",
    "3/4 hr. | q hr",
    "2/4 5(s sr s s sr) q",
    "4/4 t. tr.. q. h",
)


def test_every_rhythm_is_read_back_with_its_lengths_its_rests_its_ties_and_its_counts():
    for words in (*EXAMPLES["Rhythms"], *RESTS):
        counted = read_theory(words)
        assert isinstance(counted, Counted)
        below = syllables(counted)
        score = read(rhythm_mei(counted, below))
        measures = list(score.recurse().getElementsByClass("Measure"))
        assert len(measures) == len(counted.notes)
        for notes, said, measure in zip(counted.notes, below, measures, strict=True):
            voices = list(measure.getElementsByClass("Voice")) or [measure]
            found = list(voices[0].recurse().notesAndRests)
            assert [(Fraction(each.quarterLength), each.isRest) for each in found] == [
                (each.note.quarters, each.note.is_rest) for each in notes
            ], words
            assert [each.lyric for each in found if not each.isRest] == [
                each or None for each, note in zip(said, notes, strict=True) if not note.note.is_rest
            ], words
            below_rests = {
                Fraction(each.offset): each.lyric
                for voice in voices[1:]
                for each in voice.recurse().notesAndRests
                if not each.isRest
            }
            assert below_rests == {
                note.begins: each for each, note in zip(said, notes, strict=True) if note.note.is_rest
            }, words
            tied_on = [
                not each.isRest and each.tie is not None and each.tie.type in {"stop", "continue"} for each in found
            ]
            assert tied_on == [each.note.is_tied_on for each in notes], words
        time = next(iter(score.recurse().getElementsByClass("TimeSignature")))
        assert time.ratioString == f"{counted.meter.count}/{counted.meter.unit}"
