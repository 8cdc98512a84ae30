"""What is typed in braces, and what it is answered: every row of the tables of examples."""

import pytest

from cockpit.studio.theory.counting import Counted
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.instruments import written_above
from cockpit.studio.theory.lesson_theory import CountingSystem, LessonTheory
from cockpit.studio.theory.reading import (
    KeyForInstruments,
    NotesForInstruments,
    ScaleNotes,
    Unclear,
    answer_to,
    read_theory,
)
from cockpit.wording.theory import answer_words, unclear_words

# Each was worked out by hand or held against music21 (tests/outside/test_theory.py). Where a spelling is common practice
# without a source, the row says CP.
ROWS = {
    "D major": "D E F♯ G A B C♯ D · 2 sharps: F♯ C♯",
    "D major 2 oct": "D E F♯ G A B C♯ D E F♯ G A B C♯ D · 2 sharps: F♯ C♯",
    "D major down": "D C♯ B A G F♯ E D · 2 sharps: F♯ C♯",
    "F# major": "F♯ G♯ A♯ B C♯ D♯ E♯ F♯ · 6 sharps: F♯ C♯ G♯ D♯ A♯ E♯",
    "Cb major": "C♭ D♭ E♭ F♭ G♭ A♭ B♭ C♭ · 7 flats: B♭ E♭ A♭ D♭ G♭ C♭ F♭",
    "A minor": "A B C D E F G A · no sharps or flats",
    "A natural minor": "A B C D E F G A · no sharps or flats",
    "A harmonic minor": "A B C D E F G♯ A · no sharps or flats, G raised to G♯",
    "G# harmonic minor": "G♯ A♯ B C♯ D♯ E F𝄪 G♯ · 5 sharps: F♯ C♯ G♯ D♯ A♯, F♯ raised to F𝄪",
    "G# melodic minor": "up: G♯ A♯ B C♯ D♯ E♯ F𝄪 G♯ · down: G♯ F♯ E D♯ C♯ B A♯ G♯ · "
    "5 sharps: F♯ C♯ G♯ D♯ A♯, E raised to E♯, F♯ raised to F𝄪",
    "D# harmonic minor": "D♯ E♯ F♯ G♯ A♯ B C𝄪 D♯ · 6 sharps: F♯ C♯ G♯ D♯ A♯ E♯, C♯ raised to C𝄪",
    "A minor, 3 forms": (
        "A natural minor: A B C D E F G A · A harmonic minor: A B C D E F G♯ A · "
        "A melodic minor: up: A B C D E F♯ G♯ A · down: A G F E D C B A"
    ),
    "D dorian": "D E F G A B C D · no sharps or flats",
    "E phrygian": "E F G A B C D E · no sharps or flats",
    "F lydian": "F G A B C D E F · no sharps or flats",
    "G mixolydian": "G A B C D E F G · no sharps or flats",
    "B locrian": "B C D E F G A B · no sharps or flats",
    "Eb lydian": "E♭ F G A B♭ C D E♭ · 2 flats: B♭ E♭",
    "G major pentatonic": "G A B D E G",
    "E minor pentatonic": "E G A B D E",
    "A blues": "A C D E♭ E G A",
    "Eb blues": "E♭ G♭ A♭ A (B𝄫) B♭ D♭ E♭",  # CP
    "chromatic from C": "up: C C♯ D D♯ E F F♯ G G♯ A A♯ B C · down: C B B♭ A A♭ G G♭ F E E♭ D D♭ C",  # CP
    "D whole tone": "D E F♯ G♯ A♯ C D",  # CP
    "Db whole tone": "D♭ E♭ F G A B D♭",  # CP
    "D major arpeggio 2 oct": "D F♯ A D F♯ A D",
    "E dom7 arpeggio": "E G♯ B D E",
    "chord D": "D F♯ A",
    "chord F#7": "F♯ A♯ C♯ E",
    "Bbm7b5": "B♭ D♭ F♭ A♭",
    "G#dim7": "G♯ B D F",
    "Ebmaj7": "E♭ G B♭ D",
    "Cadd9": "C E G D",
    "Dsus4": "D G A",
    "C/E": "E G C · root C, first inversion",
    "chords in G": "G Am Bm C D Em F♯dim · I ii iii IV V vi vii°",
    "chords in B minor": "Bm C♯dim D Em F♯m G A · i ii° III iv v VI VII · V: F♯ with the seventh note raised",
    "interval D F#": "major third, 4 half steps · inversion: minor sixth",
    "B F": "diminished fifth, 6 half steps · inversion: augmented fourth",
    "F B": "augmented fourth, 6 half steps · inversion: diminished fifth",
    "C# Bb": "diminished seventh, 9 half steps · inversion: augmented second",
    "G E#": "augmented sixth, 10 half steps · inversion: diminished third",
    "major sixth above Eb": "C",
    "minor third below C": "A",
    "perfect fifth below A": "D",
    "major seventh above F#": "E♯",
    "key 3 sharps": "A major, F♯ minor: F♯ C♯ G♯",
    "key Ab": "4 flats: B♭ E♭ A♭ D♭",
    "key f# minor": "3 sharps: F♯ C♯ G♯",
    "circle of fifths": (
        "C♭ 7♭, G♭ 6♭, D♭ 5♭, A♭ 4♭, E♭ 3♭, B♭ 2♭, F 1♭, C 0, G 1♯, D 2♯, A 3♯, E 4♯, B 5♯, F♯ 6♯, C♯ 7♯"
    ),
    "open strings violin": "G3 D4 A4 E5 · 196.0 293.7 440.0 659.3 Hz",
    "open strings guitar": "E2 A2 D3 G3 B3 E4 · 82.4 110.0 146.8 196.0 246.9 329.6 Hz",
    "concert Bb for clarinet": "C",
    "concert Bb for clarinet in a": "D♭",
    "concert Bb for horn": "F",
    "concert Bb for alto sax": "G",
    "concert Bb for tenor sax": "C",
    "written C for clarinet": "B♭",
    "Eb major for clarinet and horn": "clarinet: F major, 1 flat: B♭ · horn: B♭ major, 2 flats: B♭ E♭",
    "D dorian for clarinet": "clarinet: E F♯ G A B C♯ D E · 2 sharps: F♯ C♯",
    "A blues for horn and clarinet": "horn: E G A B♭ B D E · clarinet: B D E F F♯ A B",
    "keyboard D F# A": "black keys: C♯ D♯ [F♯] G♯ A♯ · white keys: C [D] E F G [A] B",
    "rhythm 4/4 q e e h": "1 2 + 3 (4)",
    "4/4 qeeh": "1 2 + 3 (4)",
    "rhythm 2/4 e e q": "1 + 2",
    "rhythm 3/4 h. | q q q": "1 (2) (3) | 1 2 3",
    "rhythm 3/4 q. e q": "1 (2) + 3",
    "rhythm 4/4 q. e~ e e q": "1 (2) + (3) + 4",
    "rhythm 4/4 e s s s s e 3(e e e) q": "1 + a 2 e + 3 trip let 4",
    "rhythm 4/4 s s s s e. s q er e": "1 e + a 2 a 3 [4] +",
    "rhythm 4/4 3(q q q) h": "1 let (2) trip 3 (4)",
    "rhythm 4/4 q.. s h": "1 (2) a 3 (4)",
    "rhythm 2/2 h q q": "1 2 +",
    "rhythm 6/8 q e q e": "1 (2) 3 4 (5) 6",
    "rhythm 6/8 in 2 q e q e": "1 li 2 li",
    "rhythm 6/8 e. s e q.": "1 (2) + 3 4 (5) (6)",
    "rhythm 6/8 in 2 e. s e q.": "1 · li 2",
    "rhythm 9/8 q. q e e e e": "1 (2) (3) 4 (5) 6 7 8 9",
    "rhythm 9/8 in 3 q. q e e e e": "1 2 li 3 la li",
    "rhythm 12/8 q e q e q. q.": "1 (2) 3 4 (5) 6 7 (8) (9) 10 (11) (12)",
    "rhythm 12/8 in 4 q e q e q. q.": "1 li 2 li 3 4",
    "rhythm 5/8 q e q": "1 (2) 3 4 (5)",
    "rhythm 5/8 3+2 q e q": "1 (2) 3 / 4 (5)",
    "rhythm 7/8 q q q e": "1 (2) 3 (4) 5 (6) 7",
    "rhythm 3/4 q | h q | h": "3 | 1 (2) 3 | 1 (2) · pickup of a quarter",
    "rhythm 4/4 quarter eighth eighth half": "1 2 + 3 (4)",
    "takadimi 4/4 q s s s s e e q": "ta ta ka di mi ta di ta",
}
OTHERS = {
    "F# Major": ROWS["F# major"],
    "f sharp major": ROWS["F# major"],
    "scale of E♭ lydian": ROWS["Eb lydian"],
    "D major scale 2 octaves": ROWS["D major 2 oct"],
    "two octaves": None,
    "CM7": "C E G B",
    "Cm7": "C E♭ G B♭",
    "B flat minor 7": None,
    "chord B dim7": "B D F A♭",
    "C/D": "D C E G",
    "C to G": "perfect fifth, 7 half steps · inversion: perfect fourth",
    "C C": "the same note, 0 half steps · inversion: perfect octave",
    "C# C": "diminished octave, 11 half steps · inversion: augmented unison",
    "A melodic minor": "up: A B C D E F♯ G♯ A · down: A G F E D C B A · "
    "no sharps or flats, F raised to F♯, G raised to G♯",
    "A melodic minor down": "A G F E D C B A · no sharps or flats",
    "Eb blues down": "E♭ D♭ B♭ A (B𝄫) A♭ G♭ E♭",
    "keyboard Bb Eb": "black keys: D♭ [E♭] G♭ A♭ [B♭] · white keys: C D E F G A B",
    "F# major for clarinet": "clarinet: A♭ major, 4 flats: B♭ E♭ A♭ D♭",
    "concert F# for clarinet": "G♯",
    "F# dorian for clarinet": "clarinet: G♯ A♯ B C♯ D♯ E♯ F♯ G♯ · 6 sharps: F♯ C♯ G♯ D♯ A♯ E♯",
    "D# dorian for clarinet": "clarinet: F G A♭ B♭ C D E♭ F · 3 flats: B♭ E♭ A♭",
    "G# minor pentatonic for alto sax": "alto sax: F A♭ B♭ C E♭ F",
    "D# major pentatonic for clarinet": "clarinet: F G A C D F",
    "D major 2 oct down for the horn in F": "horn in f: A G♯ F♯ E D C♯ B A G♯ F♯ E D C♯ B A · 3 sharps: F♯ C♯ G♯",
    "G harmonic minor for clarinet": "clarinet: A B C D E F G♯ A · no sharps or flats, G raised to G♯",
    "C minor, 3 forms for clarinet": "clarinet: D natural minor: D E F G A B♭ C D · D harmonic minor: D E F G A B♭ C♯ D · "
    "D melodic minor: up: D E F G A B C♯ D · down: D C B♭ A G F E D",
    "D major arpeggio for clarinet and violin": "clarinet: E G♯ B E · violin: D F♯ A D",
    "D major 2 oct for viola": ROWS["D major 2 oct"],
    "concert F# for horn": "C♯",
    "concert F# for alto sax": "D♯",
    "rhythm 6/8 q e q e in 2": "1 li 2 li",
    "rhythm 4/4 hr ♩. ♪": "[1] [2] 3 (4) +",
    "rhythm 4/4 q q q q h h": "1 2 3 4 | 1 (2) 3 (4)",
    "rhythm 4/4 q q q": "1 2 3 · measure 1 is missing a quarter",
    "rhythm 3/4 q q h": "measure 1 is too long by a quarter",
    "rhythm 4/4 q | h q | h": "1 | 1 (2) 3 | 1 (2) · measure 1 is missing a half and a quarter · "
    "measure 2 is missing a quarter · measure 3 is missing a half",
}


def answered(words: str) -> str | None:
    meaning = read_theory(words)
    return None if isinstance(meaning, Unclear) else answer_words(meaning)


@pytest.mark.parametrize("words", [*ROWS, *OTHERS])
def test_words_in_braces_have_their_answer(words):
    assert answered(words) == {**ROWS, **OTHERS}[words]


def test_every_example_of_the_guide_is_a_row_here():
    assert {each for group in EXAMPLES.values() for each in group} == set(ROWS)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("D", "{D} is not read; {D major} works"),
        ("G# major", "G♯ major has no key signature; A♭ major sounds the same"),
        ("Fb minor", "F♭ minor has no key signature; E minor sounds the same"),
        ("key D# major", "D♯ major has no key signature; E♭ major sounds the same"),
        ("D majr", "{D majr} is not read; {D major} works"),
        ("rythm 4/4 q q h", "{rythm 4/4 q q h} is not read; {rhythm 4/4 q q h} works"),
        ("D major 5 oct", "{D major 5 oct} is not read; {D major 2 oct} works"),
        ("rhythm q q h", "{rhythm q q h} is not read; {rhythm 4/4 q e e h} works"),
        ("chord Hm", "{chord Hm} is not read; {chord F#7} works"),
        ("perfect third above C", "{perfect third above C} is not read; {major sixth above Eb} works"),
        ("key 8 sharps", "{key 8 sharps} is not read; {key 3 sharps} works"),
        ("open strings kazoo", "{open strings kazoo} is not read; {open strings violin} works"),
        ("milk and eggs", "{milk and eggs} is not read; {D major} works"),
    ],
)
def test_what_is_not_understood_is_told_with_what_would_work(words, told):
    meaning = read_theory(words)
    assert isinstance(meaning, Unclear)
    assert unclear_words(meaning, words) == told
    assert answered(meaning.works) is not None


@pytest.mark.parametrize(
    "words",
    ["rhythm 4/4 q( e e)", "rhythm 4/4 3(q q", "rhythm 4/4 )", "rhythm 0/4 q", "rhythm 5/8 3+3 q", "rhythm 4/4 in 3 w"],
)
def test_a_rhythm_that_is_none_is_not_counted(words):
    assert not isinstance(read_theory(words), Counted)


@pytest.mark.parametrize(
    ("words", "instrument", "said"),
    [
        ("concert Bb", "clarinet", "C"),
        ("Concert Bb", "Horn in F", "F"),
        ("written C", "alto sax", "E♭"),
        ("concert Bb", "cello", "B♭"),
        ("concert Bb", "kazoo", "B♭"),
        ("concert Bb", None, "B♭"),
        ("concert Bb for horn", "clarinet", "F"),
        ("D dorian for viola", "piano", "D E F G A B C D · no sharps or flats"),
        ("chord C, left hand", "piano", "C E G"),
        ("D major for the left hand", None, ROWS["D major"]),
    ],
)
def test_the_lesson_says_which_instrument_reads_unless_the_braces_do(words, instrument, said):
    answer = answer_to(words, LessonTheory(instrument=instrument))
    assert answer is not None
    assert answer_words(answer) == said


def test_an_instrument_that_reads_other_notes_is_no_staff_for_what_is_spelled_as_it_sounds():
    assert answer_to("chord C for clarinet") is None
    assert answer_to("D dorian for milk") is None
    assert answer_to("D dorian for clarinet and milk") is None


KINDS = (
    "major", "minor", "natural minor", "harmonic minor", "melodic minor", "dorian", "phrygian", "lydian", "mixolydian", "locrian",
    "major pentatonic", "minor pentatonic", "blues", "whole tone", "chromatic", "minor, 3 forms", "major 2 oct", "minor down",
    "major arpeggio", "m7 arpeggio 2 oct",
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_every_scale_of_the_table_is_read_for_instruments_that_transpose(kind):
    """Each note that is written is the one that sounds, moved up by the instrument's interval."""
    sounds = read_theory(f"Bb {kind}")
    for instrument in (
        "clarinet",
        "horn in F",
        "alto sax",
        "the tenor sax",
        "double bass and horn",
        "clarinet in a, trumpet",
    ):
        found = read_theory(f"Bb {kind} for {instrument}")
        if isinstance(found, KeyForInstruments):
            assert kind in {"major", "maj", "minor", "min"}
            continue
        assert isinstance(found, NotesForInstruments), (kind, instrument)
        for name, read in found.notes:
            above = written_above(name)[1]
            assert [(note.half_steps - above) % 12 for note in heard(read)] == [
                note.half_steps % 12 for note in heard(sounds)
            ]


def heard(answer):
    rows = (
        (each for found in answer.scales for each in (found.up, found.down or ()))
        if isinstance(answer, ScaleNotes)
        else (answer.notes,)
    )
    return [note for row in rows for note in row]


TAKADIMI = {  # Hoffman, Pelto, and White: the beat is ta, its half di, its quarters ka and mi; a beat in three is ta ki da
    "rhythm 4/4 q e e h": "ta ta di ta (ta)",
    "rhythm 2/4 s s s s q": "ta ka di mi ta",
    "rhythm 2/4 e. s q": "ta mi ta",
    "rhythm 2/4 3(e e e) q": "ta ki da ta",
    "rhythm 6/8 in 2 q e q e": "ta da ta da",
    "rhythm 6/8 in 2 e e e q.": "ta ki da ta",
    "rhythm 4/4 hr q q": "[ta] [ta] ta ta",
    "4/4 q e e h": "ta ta di ta (ta)",
}


@pytest.mark.parametrize("words", TAKADIMI)
def test_rhythms_are_counted_as_the_studio_counts_them(words):
    by_syllables = LessonTheory(counting=CountingSystem.TAKADIMI)
    assert answer_words(read_theory(words, by_syllables)) == TAKADIMI[words]
    assert answer_words(read_theory(words)) != TAKADIMI[words]
    numbers = f"count {words.removeprefix('rhythm ')}"
    assert answer_words(read_theory(numbers, by_syllables)) == answer_words(read_theory(numbers))
