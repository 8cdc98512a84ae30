"""Answers of music theory in words: the teacher's, in English, or a family's, by the phrases of its language."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from fractions import Fraction
from functools import reduce
from typing import Protocol, assert_never

from cockpit.studio.theory.braces import LONGEST_ANSWER, braced_in, with_answer
from cockpit.studio.theory.chords import Chord, KeyTriad
from cockpit.studio.theory.counting import BeatPart, Count, Counted, Sound
from cockpit.studio.theory.intervals import Interval
from cockpit.studio.theory.lesson_theory import ANY_LESSON, LessonTheory
from cockpit.studio.theory.note_names import NoteName, Pitch
from cockpit.studio.theory.reading import (
    Answer,
    ArpeggioNotes,
    ChordTones,
    FifthsCircle,
    IntervalSize,
    KeyboardKeys,
    KeyForInstruments,
    KeySignature,
    NotesForInstruments,
    OneNote,
    ScaleNotes,
    StringsOfInstrument,
    TriadsOfKey,
    Unclear,
)
from cockpit.studio.theory.scales import Scale, signature_notes

ENGLISH = {
    "theory.then": "{first} {next}",
    "theory.no_signs": "no sharps or flats",
    "theory.sharp": "{count} sharp",
    "theory.sharps": "{count} sharps",
    "theory.flat": "{count} flat",
    "theory.flats": "{count} flats",
    "theory.with": "{what}: {notes}",
    "theory.raised": "{note} raised to {raised}",
    "theory.up": "up: {notes}",
    "theory.down": "down: {notes}",
    "theory.major": "{note} major",
    "theory.minor": "{note} minor",
    "theory.natural_minor": "{note} natural minor",
    "theory.harmonic_minor": "{note} harmonic minor",
    "theory.melodic_minor": "{note} melodic minor",
    "theory.triad_major": "{note}",
    "theory.triad_minor": "{note}m",
    "theory.triad_diminished": "{note}dim",
    "theory.triad_augmented": "{note}aug",
    "theory.raised_fifth": "{chord} with the seventh note raised",
    "theory.inversion_1": "root {note}, first inversion",
    "theory.inversion_2": "root {note}, second inversion",
    "theory.inversion_3": "root {note}, third inversion",
    "theory.inversion_4": "root {note}, fourth inversion",
    "theory.half_step": "{count} half step",
    "theory.half_steps": "{count} half steps",
    "theory.inverted": "inversion: {interval}",
    "theory.same_note": "the same note",
    "theory.unison_augmented": "augmented unison",
    "theory.unison_doubly_augmented": "doubly augmented unison",
    "theory.minor_interval": "minor {interval}",
    "theory.major_interval": "major {interval}",
    "theory.perfect_interval": "perfect {interval}",
    "theory.augmented_interval": "augmented {interval}",
    "theory.diminished_interval": "diminished {interval}",
    "theory.doubly_augmented_interval": "doubly augmented {interval}",
    "theory.doubly_diminished_interval": "doubly diminished {interval}",
    "theory.interval_2": "second",
    "theory.interval_3": "third",
    "theory.interval_4": "fourth",
    "theory.interval_5": "fifth",
    "theory.interval_6": "sixth",
    "theory.interval_7": "seventh",
    "theory.interval_8": "octave",
    "theory.black_keys": "black keys: {notes}",
    "theory.white_keys": "white keys: {notes}",
    "theory.octave_of_440": "4",
    "theory.tenths": "{whole}.{tenths}",
    "theory.treble_clef": "treble clef",
    "theory.treble_octave_lower_clef": "treble clef, an octave lower",
    "theory.alto_clef": "alto clef",
    "theory.bass_clef": "bass clef",
    "theory.one_line": "a rhythm on one line",
    "counting.quarter": "e",
    "counting.half": "+",
    "counting.three_quarters": "a",
    "counting.third": "trip",
    "counting.two_thirds": "let",
    "counting.compound_third": "la",
    "counting.compound_two_thirds": "li",
    "counting.pickup": "pickup of {length}",
    "counting.a_whole": "a whole note",
    "counting.a_half": "a half",
    "counting.a_quarter": "a quarter",
    "counting.a_eighth": "an eighth",
    "counting.a_sixteenth": "a sixteenth",
    "counting.a_thirty_second": "a thirty-second",
    "counting.part_of_quarter": "{part} of a quarter",
    "counting.two_lengths": "{first} and {next}",
}
"""The phrases of answers in English; those of papers are the same, which a test holds."""

_TEACHERS = {
    "counting.missing": "measure {measure} is missing {length}",
    "counting.too_long": "measure {measure} is too long by {length}",
}
"""What the teacher alone is told: a family gets no rhythm that is wrong."""
_SIGN_NAMES = {-2: "_double_flat", -1: "_flat", 0: "", 1: "_sharp", 2: "_double_sharp"}
ENGLISH |= {
    f"note_names.{letter}{name}": str(NoteName(letter=letter.upper(), raised_by=raised_by))
    for letter in "abcdefg"
    for raised_by, name in _SIGN_NAMES.items()
}
_TAKADIMI = {
    BeatPart.BEAT: "ta", BeatPart.QUARTER: "ka", BeatPart.HALF: "di", BeatPart.THREE_QUARTERS: "mi", BeatPart.THIRD: "ki", BeatPart.TWO_THIRDS: "da",
    BeatPart.COMPOUND_THIRD: "ki", BeatPart.COMPOUND_TWO_THIRDS: "da",
}  # fmt: skip
_ELSEWHERE = "·"
_LENGTHS = (
    (Fraction(4), "whole"), (Fraction(2), "half"), (Fraction(1), "quarter"), (Fraction(1, 2), "eighth"),
    (Fraction(1, 4), "sixteenth"), (Fraction(1, 8), "thirty_second"),
)  # fmt: skip
_AROUND = {Sound.STRUCK: "{}", Sound.HELD: "({})", Sound.REST: "[{}]"}
_BETWEEN = " · "
_BLACK = frozenset({1, 3, 6, 8, 10})
_MOST_INTERVAL = 8


class Say(Protocol):
    """Says a phrase of a language with its words filled in."""

    def __call__(self, key: str, **words: object) -> str:
        """A phrase by its section and name."""


def say_in_english(key: str, **words: object) -> str:
    """A phrase as the teacher reads it."""
    return (ENGLISH.get(key) or _TEACHERS[key]).format(**words)


def note_words(note: NoteName, say: Say = say_in_english) -> str:
    """The name of a note: `F♯`, in German `Fis`."""
    return say(f"note_names.{note.letter.lower()}{_SIGN_NAMES[note.raised_by]}")


def answer_rows(answer: Answer, say: Say = say_in_english) -> tuple[str, ...]:
    """An answer in words, in the rows in which it is read."""
    return tuple(_rows(answer, say))


def answer_words(answer: Answer) -> str:
    """An answer in one row for the teacher: `D E F♯ G A B C♯ D · 2 sharps: F♯ C♯`."""
    return _BETWEEN.join(answer_rows(answer))


def syllables(counted: Counted, say: Say = say_in_english) -> tuple[tuple[str, ...], ...]:
    """What is counted on each note of a rhythm, by measures: `2 (3)` on one that is held into the third beat."""
    return tuple(
        tuple(" ".join(_count(count, counted, say) for count in note.counts) for note in measure)
        for measure in counted.notes
    )


def told_of(line: str, lesson: LessonTheory = ANY_LESSON) -> Iterator[str]:
    """What the braces of a line are answered, or what would work in their place, part by part; those typed last come first."""
    for each in reversed(braced_in(line, lesson)):
        if isinstance(each.meaning, Unclear):
            yield unclear_words(each.meaning, each.words.strip())
        else:
            yield from answer_rows(each.meaning)


def written_out(
    line: str, lesson: LessonTheory = ANY_LESSON, rows: Callable[[Answer], Sequence[str]] = answer_rows
) -> tuple[int, str] | None:
    """Of a line that ends with braces that are understood, how many signs they are, and what is written in their place.

    `{D major}` is `D major (= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯)`: the words stay what the line is read by, so that
    `rows` may say the answer in any language. An answer that is too long to be known again is not written.
    """
    found = braced_in(line, lesson) if line.endswith("}") else ()
    last = found[-1] if found and found[-1].ends == len(line) else None
    if last is None or last.answer is None:
        return None
    answer = _BETWEEN.join(rows(last.answer))
    return (last.ends - last.begins, with_answer(last.words.strip(), answer)) if len(answer) <= LONGEST_ANSWER else None


def unclear_words(unclear: Unclear, words: str) -> str:
    """What would work in the place of what is not understood: `{D majr} is not read; {D major} works`."""
    if unclear.unsigned is not None and unclear.same_sound is not None:
        mode = "minor" if unclear.is_minor else "major"
        return f"{unclear.unsigned} {mode} has no key signature; {unclear.same_sound} {mode} sounds the same"
    return f"{{{words}}} is not read; {{{unclear.works}}} works"


def _rows(answer: Answer, say: Say) -> Iterator[str]:  # noqa: C901, PLR0912, PLR0915 a line for each kind of answer
    match answer:
        case ScaleNotes(scales=scales, is_downward=is_downward):
            for each in scales:
                yield from _scale_rows(each, say, is_downward=is_downward, is_named=len(scales) > 1)
        case ArpeggioNotes(notes=notes):
            yield _notes(notes, say)
        case ChordTones(chord=chord):
            yield from _chord_rows(chord, say)
        case TriadsOfKey():
            yield from _triad_rows(answer, say)
        case IntervalSize(interval=interval):
            yield f"{_interval(interval, say)}, {_counted('half_step', interval.half_steps, say)}"
            if interval.inversion is not None:
                yield say("theory.inverted", interval=_interval(interval.inversion, say))
        case OneNote(note=note):
            yield note_words(note, say)
        case KeySignature():
            yield _key_row(answer, say)
        case FifthsCircle(keys=keys):
            yield ", ".join(f"{note_words(each, say)} {_short_signature(each.fifths)}" for each in keys)
        case StringsOfInstrument(strings=strings):
            yield _joined((_string(each, say) for each in strings), say)
            yield f"{' '.join(_hertz(each, say) for each in strings)} Hz"
        case KeyForInstruments(is_major=is_major, keys=keys):
            for instrument, tonic, fifths in keys:
                key = say("theory.major" if is_major else "theory.minor", note=note_words(tonic, say))
                yield say("theory.with", what=instrument, notes=f"{key}, {_signature(fifths, say)}")
        case NotesForInstruments(notes=found):
            for instrument, read in found:
                first, *others = _rows(read, say)
                yield from (say("theory.with", what=instrument, notes=first), *others)
        case KeyboardKeys(keys=keys):
            yield from _keyboard_rows(keys, say)
        case Counted():
            yield from _counted_rows(answer, say)
        case _:
            assert_never(answer)


def _joined(words: Iterable[str], say: Say) -> str:
    return reduce(lambda first, other: say("theory.then", first=first, next=other), words)


def _notes(notes: Sequence[NoteName], say: Say) -> str:
    return _joined((note_words(each, say) for each in notes), say)


def _counted(noun: str, count: int, say: Say) -> str:
    return say(f"theory.{noun}" if count == 1 else f"theory.{noun}s", count=count)


def _signature(fifths: int, say: Say) -> str:
    if fifths == 0:
        return say("theory.no_signs")
    count = _counted("sharp" if fifths > 0 else "flat", abs(fifths), say)
    return say("theory.with", what=count, notes=_notes(signature_notes(fifths), say))


def _short_signature(fifths: int) -> str:
    return f"{abs(fifths)}{'♯' if fifths > 0 else '♭' if fifths else ''}"


def _scale_rows(scale: Scale, say: Say, *, is_downward: bool, is_named: bool) -> Iterator[str]:
    up = _scale_notes(scale.up, scale, say)
    if scale.down is not None and not is_downward:
        rows = [say("theory.up", notes=up), say("theory.down", notes=_scale_notes(scale.down, scale, say))]
    else:
        rows = [_scale_notes(scale.down or tuple(reversed(scale.up)), scale, say) if is_downward else up]
    if is_named:
        name = say(f"theory.{scale.kind}", note=note_words(scale.tonic, say))
        rows = [say("theory.with", what=name, notes=rows[0]), *rows[1:]]
    yield from rows
    if scale.fifths is not None and not is_named:
        raised = (
            say("theory.raised", note=note_words(before, say), raised=note_words(after, say))
            for before, after in (scale.raised if scale.down is None or not is_downward else ())
        )
        yield ", ".join((_signature(scale.fifths, say), *raised))


def _scale_notes(notes: Sequence[NoteName], scale: Scale, say: Say) -> str:
    full = {simple: each for each, simple in scale.simplified}
    return _joined(
        (f"{note_words(each, say)} ({note_words(full[each], say)})" if each in full else note_words(each, say) for each in notes),
        say,
    )  # fmt: skip


def _chord_rows(chord: Chord, say: Say) -> Iterator[str]:
    yield _notes(chord.tones, say)
    if chord.inversion:
        yield say(f"theory.inversion_{chord.inversion}", note=note_words(chord.root, say))


def _triad(triad: KeyTriad, say: Say) -> str:
    return say(f"theory.triad_{triad.kind}", note=note_words(triad.root, say))


def _triad_rows(answer: TriadsOfKey, say: Say) -> Iterator[str]:
    triads = answer.triads[:-1] if answer.has_raised_fifth else answer.triads
    yield _joined((_triad(each, say) for each in triads), say)
    yield " ".join(each.numeral for each in triads)
    if answer.has_raised_fifth:
        last = answer.triads[-1]
        chord = say("theory.with", what=last.numeral, notes=_triad(last, say))
        yield say("theory.raised_fifth", chord=chord)


def _interval(interval: Interval, say: Say) -> str:
    octaves_wider = interval.number > _MOST_INTERVAL
    number = (interval.number - 1) % 7 + 1 if octaves_wider else interval.number
    if number == 1:
        return say("theory.same_note" if interval.quality == "perfect" else f"theory.unison_{interval.quality}")
    return say(f"theory.{interval.quality}_interval", interval=say(f"theory.interval_{number}"))


def _key_row(answer: KeySignature, say: Say) -> str:
    if answer.major is None or answer.minor is None:
        return _signature(answer.fifths, say)
    keys = (
        say("theory.major", note=note_words(answer.major, say)),
        say("theory.minor", note=note_words(answer.minor, say)),
    )
    notes = _notes(signature_notes(answer.fifths), say) if answer.fifths else say("theory.no_signs")
    return say("theory.with", what=", ".join(keys), notes=notes)


def _string(string: Pitch, say: Say) -> str:
    octave = string.octave - 4 + int(say("theory.octave_of_440"))
    return f"{note_words(string.note, say)}{octave}"


def _hertz(string: Pitch, say: Say) -> str:
    whole, tenths = divmod(string.tenths_of_hertz, 10)
    return say("theory.tenths", whole=whole, tenths=tenths)


def _keyboard_rows(keys: Sequence[tuple[NoteName, bool]], say: Say) -> Iterator[str]:
    names = [f"[{note_words(note, say)}]" if is_chosen else note_words(note, say) for note, is_chosen in keys]
    yield say("theory.black_keys", notes=_joined((name for at, name in enumerate(names) if at in _BLACK), say))
    yield say("theory.white_keys", notes=_joined((name for at, name in enumerate(names) if at not in _BLACK), say))


def _counted_rows(counted: Counted, say: Say) -> Iterator[str]:
    measures = [" ".join(_count(each, counted, say) for each in counts) for counts in counted.measures]
    if any(measures):
        yield " | ".join(measures)
    if counted.pickup is not None:
        yield say("counting.pickup", length=_length(counted.pickup, say))
    for fault in counted.faults:
        key = "counting.too_long" if fault.quarters > 0 else "counting.missing"
        yield say(key, measure=fault.measure, length=_length(abs(fault.quarters), say))


def _count(count: Count, counted: Counted, say: Say) -> str:
    if count.part is BeatPart.ELSEWHERE:
        said = _ELSEWHERE
    elif counted.by_syllables:
        said = _TAKADIMI[count.part]
    elif count.part is BeatPart.BEAT:
        said = str(count.beat)
    else:
        said = say(f"counting.{count.part}")
    return ("/ " if count.begins_group else "") + _AROUND[count.sound].format(said)


def _length(quarters: Fraction, say: Say) -> str:
    """A length in note values: `a half and an eighth`."""
    left, said = quarters, list[str]()
    for value, name in _LENGTHS:
        while left >= value:
            said.append(say(f"counting.a_{name}"))
            left -= value
    if left:
        return say("counting.part_of_quarter", part=quarters)
    return reduce(lambda first, other: say("counting.two_lengths", first=first, next=other), said)
