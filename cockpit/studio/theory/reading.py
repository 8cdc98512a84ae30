"""What is typed in braces, understood: an answer as a value, or what would work in its place."""

import re
from collections.abc import Callable, Mapping, Sequence
from functools import cache, lru_cache

from cockpit.studio.notes.spelling import is_near, neighborhood
from cockpit.studio.theory.chords import Chord, KeyTriad, arpeggio, chords_in, read_chord
from cockpit.studio.theory.counting import Counted, read_rhythm
from cockpit.studio.theory.instruments import is_written_in_octaves, open_strings, written_above
from cockpit.studio.theory.intervals import Interval, Quality, interval, interval_between
from cockpit.studio.theory.lesson_theory import ANY_LESSON, CountingSystem, LessonTheory
from cockpit.studio.theory.note_names import NoteName, Pitch, named, on_fifths, read_note
from cockpit.studio.theory.scales import (
    MINORS,
    MOST_OCTAVES,
    Scale,
    ScaleKind,
    same_sound,
    scale,
    signature_of,
    written_tonic,
)
from cockpit.studio.values import Value, replace

MOST_SIGNS = 200
"""The longest that is read in braces; a pasted page of them costs nothing."""


class ScaleNotes(Value):
    """One scale, or the three forms of a minor one."""

    scales: tuple[Scale, ...]
    is_downward: bool = False


class ArpeggioNotes(Value):
    """The notes of an arpeggio, in the order in which they are played."""

    notes: tuple[NoteName, ...]
    is_downward: bool = False


class ChordTones(Value):
    """The tones of a chord."""

    chord: Chord


class TriadsOfKey(Value):
    """The triads on the degrees of a key; `has_raised_fifth` where the last one stands on the fifth degree once more."""

    triads: tuple[KeyTriad, ...]
    has_raised_fifth: bool


class IntervalSize(Value):
    """An interval between two notes."""

    lower: NoteName
    upper: NoteName
    interval: Interval


class OneNote(Value):
    """A note, as the answer to what is so many `letters` above (below 0: below) a `start`, or what an `instrument` reads."""

    note: NoteName
    start: NoteName | None = None
    letters: int = 0
    instrument: str | None = None


class KeySignature(Value):
    """A key signature, with the keys that have it: both, or the one that was asked about."""

    fifths: int
    major: NoteName | None = None
    minor: NoteName | None = None


class FifthsCircle(Value):
    """All fifteen major keys, from seven flats to seven sharps."""

    keys: tuple[NoteName, ...]


class StringsOfInstrument(Value):
    """The open strings of an instrument, as they sound."""

    instrument: str
    strings: tuple[Pitch, ...]


class KeyForInstruments(Value):
    """The key that each instrument reads, by its name as typed, with its signature."""

    is_major: bool
    keys: tuple[tuple[str, NoteName, int], ...]


class NotesForInstruments(Value):
    """The scale or arpeggio that each instrument reads, by its name as typed."""

    notes: tuple[tuple[str, ScaleNotes | ArpeggioNotes], ...]


class KeyboardKeys(Value):
    """An octave of a keyboard from C: the name of each of its twelve keys, and which of them are chosen."""

    keys: tuple[tuple[NoteName, bool], ...]


Answer = (
    ScaleNotes
    | ArpeggioNotes
    | ChordTones
    | TriadsOfKey
    | IntervalSize
    | OneNote
    | KeySignature
    | FifthsCircle
    | StringsOfInstrument
    | KeyForInstruments
    | NotesForInstruments
    | KeyboardKeys
    | Counted
)


class Unclear(Value):
    """What is not understood: the nearest thing that `works`; `unsigned` is a key that has no key signature."""

    works: str
    unsigned: NoteName | None = None
    same_sound: NoteName | None = None
    is_minor: bool = False


_NOTE_WORDS = r"[A-Ga-g](?:##?|♯♯?|bb?|♭♭?|x|𝄪|𝄫|[ -](?:double[ -])?(?:sharp|flat))?"
_KINDS = {
    "major": ScaleKind.MAJOR, "maj": ScaleKind.MAJOR, "ionian": ScaleKind.MAJOR, "minor": ScaleKind.NATURAL_MINOR,
    "min": ScaleKind.NATURAL_MINOR, "natural minor": ScaleKind.NATURAL_MINOR, "aeolian": ScaleKind.NATURAL_MINOR,
    "harmonic minor": ScaleKind.HARMONIC_MINOR, "harmonic": ScaleKind.HARMONIC_MINOR, "minor harmonic": ScaleKind.HARMONIC_MINOR,
    "melodic minor": ScaleKind.MELODIC_MINOR, "melodic": ScaleKind.MELODIC_MINOR, "minor melodic": ScaleKind.MELODIC_MINOR,
    "dorian": ScaleKind.DORIAN, "phrygian": ScaleKind.PHRYGIAN, "lydian": ScaleKind.LYDIAN, "mixolydian": ScaleKind.MIXOLYDIAN,
    "locrian": ScaleKind.LOCRIAN, "major pentatonic": ScaleKind.MAJOR_PENTATONIC, "pentatonic": ScaleKind.MAJOR_PENTATONIC,
    "pentatonic major": ScaleKind.MAJOR_PENTATONIC, "minor pentatonic": ScaleKind.MINOR_PENTATONIC,
    "pentatonic minor": ScaleKind.MINOR_PENTATONIC, "blues": ScaleKind.BLUES, "whole tone": ScaleKind.WHOLE_TONE,
    "whole-tone": ScaleKind.WHOLE_TONE, "chromatic": ScaleKind.CHROMATIC,
}  # fmt: skip
_COUNTS = {"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7}
_COUNT = rf"[1-9]|{'|'.join(_COUNTS)}"
_OCTAVES = re.compile(
    rf"(.+?),? ({_COUNT})[ -]?(?:octaves?|octs?|8ves?)\.?((?:,? (?:up|down|arpeggio|scale))*)", re.IGNORECASE
)
_DOWN = re.compile(r"(.+?),? (?:down(?:ward)?|descending)", re.IGNORECASE)
_UP = re.compile(r"(.+?),? (?:up(?:ward)?|ascending|scale)")
_FORMS = re.compile(rf"({_NOTE_WORDS}) (?:minor|min),? (?:3|three|all) forms")
_SCALE = re.compile(rf"(?:scale (?:of )?)?({_NOTE_WORDS}) ({'|'.join(sorted(_KINDS, key=len, reverse=True))})")
_FROM = re.compile(rf"(chromatic|whole[ -]tone|blues)(?: scale)? (?:from|on) ({_NOTE_WORDS})")
_ARPEGGIO = re.compile(r"(?:(.+?) (?:arpeggio|arp)\.?|(?:arpeggio|arp) (?:of )?(.+))", re.IGNORECASE)
_KEY = re.compile(rf"({_NOTE_WORDS})(?: (major|maj|minor|min)|(m))?")
_SIGNS = re.compile(rf"(?:(no|0|{_COUNT}) (sharps?|flats?))")
_NUMBERS = {
    word: number
    for number, words in enumerate(
        ("unison 1st", "second 2nd", "third 3rd", "fourth 4th", "fifth 5th", "sixth 6th", "seventh 7th", "octave 8th",
         "ninth 9th", "tenth 10th", "eleventh 11th", "twelfth 12th", "thirteenth 13th"), 1
    )
    for word in words.split()
}  # fmt: skip
_QUALITIES = {"perfect": Quality.PERFECT, "major": Quality.MAJOR, "minor": Quality.MINOR, "augmented": Quality.AUGMENTED} | {
    "diminished": Quality.DIMINISHED, "doubly augmented": Quality.DOUBLY_AUGMENTED, "doubly diminished": Quality.DOUBLY_DIMINISHED,
}  # fmt: skip
_BESIDE = re.compile(
    rf"(?:(?:an? )?({'|'.join(_QUALITIES)}) )?({'|'.join(_NUMBERS)}) (above|below|over|under|up from|down from) ({_NOTE_WORDS})"
)
_BETWEEN = re.compile(
    rf"(?:interval )?(?:from )?({_NOTE_WORDS})(?: | ?[-–] ?| to )({_NOTE_WORDS})|interval ({_NOTE_WORDS}) and ({_NOTE_WORDS})"
)
_TRANSPOSED = re.compile(rf"(concert|sounding|written) ({_NOTE_WORDS}) for (.+)")
_FOR = re.compile(rf"({_NOTE_WORDS}) (major|maj|minor|min) for (.+)")
_NOTES_FOR = re.compile(r"(.+?),? for (?:the )?(.+)")
_SPLIT = re.compile(r"(?:,| and |,? & ) *")
_BLANKS = re.compile(r"\s+")
_OF_THE_LESSON = re.compile(rf"(?:concert|sounding|written) {_NOTE_WORDS}", re.IGNORECASE)
_AS_IT_SOUNDS = "piano"
_BY_NUMBERS = re.compile(r"count\b", re.IGNORECASE)
_ON_STAFF = re.compile(
    r"(.+?),? (?:for (?!(?:the )?(?:left|right) hand)(?:the )?(.+)|(?:for |with )?(?:the )?(left|right) hand)",
    re.IGNORECASE,
)
_LONGEST_WORD, _SEVEN = 16, 7

Reader = Callable[[str], "Answer | Unclear | None"]


@lru_cache(maxsize=512)  # of all braces of a note one changes at a key
def read_theory(typed: str, lesson: LessonTheory = ANY_LESSON) -> Answer | Unclear:
    """What is typed in braces in a lesson, worked out; where that cannot be, the nearest thing that would work."""
    words = _words_of(typed)
    found = _answer_in(words, lesson) if words else None
    return found if found is not None else Unclear(works=_nearest(words))


@lru_cache(maxsize=512)
def answer_to(typed: str, lesson: LessonTheory = ANY_LESSON) -> Answer | None:
    """The answer to some words; None where they are not understood, and then nothing near is looked for."""
    words = _words_of(typed)
    found = _answer_in(words, lesson) if words else None
    return None if isinstance(found, Unclear) else found


def staff_asked_for(typed: str, lesson: LessonTheory = ANY_LESSON) -> str | None:
    """The instrument whose staff is asked for: the one at the end of the words, else that of the lesson."""
    named = _staff_named(_words_of(typed))
    return named[1] if named is not None else lesson.instrument


def _words_of(typed: str) -> str:
    return _BLANKS.sub(" ", typed).strip() if len(typed) <= MOST_SIGNS else ""


def _answer_in(words: str, lesson: LessonTheory) -> Answer | Unclear | None:
    """The instrument of the lesson is read where none is named, and its counting where none is."""
    if _OF_THE_LESSON.fullmatch(words):
        return _answer(f"{words} for {lesson.instrument or _AS_IT_SOUNDS}") or _answer(f"{words} for {_AS_IT_SOUNDS}")
    found = _answer(words)
    if found is None and (named := _staff_named(words)) is not None:
        return _answer(named[0])
    if isinstance(found, Counted) and lesson.counting is CountingSystem.TAKADIMI and not _BY_NUMBERS.match(words):
        return replace(found, by_syllables=True)
    return found


def _staff_named(words: str) -> tuple[str, str] | None:
    """Words without the instrument at their end that is to read them, and that; none for one that reads other notes."""
    found = _ON_STAFF.fullmatch(words)
    if found is None:
        return None
    instrument = found[2].lower() if found[2] else "piano" if found[3].lower() == "right" else "left hand"
    return (found[1], instrument) if is_written_in_octaves(instrument) else None


def _answer(words: str) -> Answer | Unclear | None:
    """Capitals tell nothing but in the symbol of a chord."""
    first, _, rest = words.partition(" ")
    if first.lower() == "chord":
        return _chord_of(rest)
    small = words.lower()
    reader = _BY_FIRST_WORD.get(first.lower())
    if reader is not None and (found := reader(small.partition(" ")[2])) is not None:
        return found
    return next((found for read in _READERS if (found := read(small)) is not None), None) or _broken_or_bare(words)


def _broken_or_bare(words: str) -> ArpeggioNotes | ChordTones | None:
    return _arpeggio_of(words) or _bare_chord_of(words)


class _ScaleAsked(Value):
    """A scale that was asked for, whether there is one or not."""

    tonic: NoteName
    kinds: tuple[ScaleKind, ...]
    octaves: int
    is_downward: bool


def _scale_of(words: str) -> ScaleNotes | Unclear | None:
    asked = _scale_asked(words)
    return _scales(asked) if asked is not None else None


def _scale_asked(words: str) -> _ScaleAsked | None:
    octaves, is_down = 1, False
    if (many := _OCTAVES.fullmatch(words)) is not None:
        words, octaves = f"{many[1]}{many[3]}", _count(many[2])
    if (down := _DOWN.fullmatch(words)) is not None:
        words, is_down = down[1], True
    elif (up := _UP.fullmatch(words)) is not None:
        words = up[1]
    named = _kinds_of(words)
    tonic = read_note(named[0]) if named is not None else None
    if named is None or tonic is None or octaves > MOST_OCTAVES:
        return None
    return _ScaleAsked(tonic=tonic, kinds=named[1], octaves=octaves, is_downward=is_down)


def _kinds_of(words: str) -> tuple[str, tuple[ScaleKind, ...]] | None:
    """Splits words into a note and kinds of scale. Octaves and direction are removed before."""
    if (forms := _FORMS.fullmatch(words)) is not None:
        return forms[1], MINORS
    if (found := _SCALE.fullmatch(words)) is not None:
        return found[1], (_KINDS[found[2]],)
    if (found := _FROM.fullmatch(words)) is not None:
        return found[2], (_KINDS[found[1]],)
    return None


def _scales(asked: _ScaleAsked) -> ScaleNotes | Unclear | None:
    kinds = asked.kinds
    found = tuple(each for kind in kinds if (each := scale(asked.tonic, kind, asked.octaves)) is not None)
    if len(found) == len(kinds):
        return ScaleNotes(scales=found, is_downward=asked.is_downward)
    return _unsigned(asked.tonic, is_minor=kinds[0] in MINORS) if kinds[0] in {ScaleKind.MAJOR, *MINORS} else None


def _unsigned(tonic: NoteName, *, is_minor: bool) -> Unclear:
    other = same_sound(tonic)
    return Unclear(
        works=f"{other} {'minor' if is_minor else 'major'}", unsigned=tonic, same_sound=other, is_minor=is_minor
    )


def _arpeggio_of(words: str) -> ArpeggioNotes | None:
    octaves, is_down = 1, False
    if (many := _OCTAVES.fullmatch(words)) is not None:
        words, octaves = f"{many[1]}{many[3]}", _count(many[2])
    if (down := _DOWN.fullmatch(words)) is not None:
        words, is_down = down[1], True
    found = _ARPEGGIO.fullmatch(words)
    broken = read_chord(found[1] or found[2]) if found is not None and octaves <= MOST_OCTAVES else None
    if broken is None:
        return None
    notes = arpeggio(broken, octaves)
    return ArpeggioNotes(notes=tuple(reversed(notes)) if is_down else notes, is_downward=is_down)


def _chord_of(words: str) -> ChordTones | None:
    found = read_chord(words)
    return ChordTones(chord=found) if found is not None else None


def _bare_chord_of(words: str) -> ChordTones | None:
    """A chord without the word before it: not a letter alone, which may be anything."""
    return _chord_of(words) if read_note(words) is None and words[:1].isupper() else None


def _chords_in(words: str) -> TriadsOfKey | Unclear | None:
    key = _key_of(words.removeprefix("in ").removeprefix("of "))
    if key is None:
        return None
    tonic, is_minor = key
    triads = chords_in(tonic, ScaleKind.NATURAL_MINOR if is_minor else ScaleKind.MAJOR)
    return (
        TriadsOfKey(triads=triads, has_raised_fifth=is_minor)
        if triads is not None
        else _unsigned(tonic, is_minor=is_minor)
    )


def _key_of(words: str) -> tuple[NoteName, bool] | None:
    found = _KEY.fullmatch(words)
    tonic = read_note(found[1]) if found is not None else None
    if found is None or tonic is None:
        return None
    return tonic, bool(found[3]) or (found[2] or "").startswith("min")


def _signature_of(words: str) -> KeySignature | Unclear | None:
    words = words.removeprefix("of ").removeprefix("signature ").removeprefix("of ").removeprefix("with ")
    if (signs := _SIGNS.fullmatch(words)) is not None:
        count = 0 if signs[1] in {"no", "0"} else _count(signs[1])
        if count > _SEVEN:
            return None
        fifths = -count if signs[2].startswith("flat") else count
        return KeySignature(fifths=fifths, major=on_fifths(fifths), minor=on_fifths(fifths + 3))
    key = _key_of(words)
    if key is None:
        return None
    tonic, is_minor = key
    signature = signature_of(tonic, ScaleKind.NATURAL_MINOR if is_minor else ScaleKind.MAJOR)
    if signature is None:
        return _unsigned(tonic, is_minor=is_minor)
    return KeySignature(fifths=signature, major=None if is_minor else tonic, minor=tonic if is_minor else None)


def _interval_of(words: str) -> IntervalSize | None:
    found = _BETWEEN.fullmatch(words)
    if found is None:
        return None
    lower, upper = read_note(found[1] or found[3]), read_note(found[2] or found[4])
    if lower is None or upper is None:
        return None
    size = interval_between(lower, upper)
    is_one = size is not None and size.half_steps >= 0
    return IntervalSize(lower=lower, upper=upper, interval=size) if size is not None and is_one else None


def _note_beside(words: str) -> OneNote | None:
    found = _BESIDE.fullmatch(words)
    start = read_note(found[4]) if found is not None else None
    if found is None or start is None:
        return None
    number = _NUMBERS[found[2]]
    quality = _QUALITIES[found[1]] if found[1] else Quality.PERFECT
    wide = interval(number, quality)
    if wide is None:
        return None
    way = 1 if found[3] in {"above", "over", "up from"} else -1
    note = start.moved(way * wide.letters, way * wide.half_steps)
    return OneNote(note=note, start=start, letters=way * wide.letters) if note is not None else None


def _circle(words: str) -> FifthsCircle | None:
    is_circle = words in {"of fifths", "of 5ths"}
    return FifthsCircle(keys=tuple(on_fifths(each) for each in range(-_SEVEN, _SEVEN + 1))) if is_circle else None


def _strings(words: str) -> StringsOfInstrument | None:
    rest = words.removeprefix("strings").strip().removeprefix("of ").removeprefix("for ")
    strings = open_strings(rest) if words.startswith("strings") else None
    return StringsOfInstrument(instrument=rest, strings=strings) if strings is not None else None


def _transposed(words: str) -> OneNote | None:
    found = _TRANSPOSED.fullmatch(words)
    note = read_note(found[2]) if found is not None else None
    above = written_above(found[3]) if found is not None else None
    if found is None or note is None or above is None:
        return None
    way = -1 if found[1] == "written" else 1
    moved = note.moved(way * above[0], way * above[1])
    return OneNote(note=moved, instrument=found[3]) if moved is not None else None


def _key_for(words: str) -> KeyForInstruments | None:
    found = _FOR.fullmatch(words)
    tonic = read_note(found[1]) if found is not None else None
    if found is None or tonic is None:
        return None
    kind = ScaleKind.NATURAL_MINOR if found[2].startswith("min") else ScaleKind.MAJOR
    keys = tuple(_key_read_by(each, tonic, kind) for each in _SPLIT.split(found[3]))
    known = tuple(each for each in keys if each is not None)
    return KeyForInstruments(is_major=kind is ScaleKind.MAJOR, keys=known) if len(known) == len(keys) else None


def _notes_for(words: str) -> NotesForInstruments | Unclear | None:
    """Scales and arpeggios as instruments read them. One that reads what sounds is left to those who choose a staff."""
    found = _NOTES_FOR.fullmatch(words)
    instruments = _SPLIT.split(found[2]) if found is not None else []
    if found is None or (len(instruments) == 1 and is_written_in_octaves(instruments[0])):
        return None
    asked = _scale_asked(found[1])
    if asked is not None and isinstance(unsigned := _scales(asked), Unclear):
        return unsigned
    broken = _arpeggio_of(found[1]) if asked is None else None
    notes = tuple((each, _notes_read_by(each, asked, broken)) for each in instruments)
    known = tuple((each, read) for each, read in notes if read is not None)
    return NotesForInstruments(notes=known) if len(known) == len(notes) else None


def _notes_read_by(
    instrument: str, asked: _ScaleAsked | None, broken: ArpeggioNotes | None
) -> ScaleNotes | ArpeggioNotes | None:
    above = written_above(instrument)
    if above is None:
        return None
    if broken is not None:
        moved = tuple(each for note in broken.notes if (each := note.moved(*above)) is not None)
        return replace(broken, notes=moved) if len(moved) == len(broken.notes) else None
    written = asked.tonic.moved(*above) if asked is not None else None
    if asked is None or written is None:
        return None
    found = _scales(replace(asked, tonic=written_tonic(written, asked.kinds[0])))
    return found if not isinstance(found, Unclear) else None


def _key_read_by(instrument: str, tonic: NoteName, kind: ScaleKind) -> tuple[str, NoteName, int] | None:
    above = written_above(instrument)
    written = tonic.moved(*above) if above is not None else None
    if written is None:
        return None
    written = written_tonic(written, kind)
    fifths = signature_of(written, kind)
    return (instrument, written, fifths) if fifths is not None else None


def _keyboard(words: str) -> KeyboardKeys | None:
    chosen = [read_note(each) for each in words.replace(",", " ").split()]
    known = {note.half_steps % 12: note for note in chosen if note is not None}
    if not known or None in chosen:
        return None
    flats = any(note.raised_by < 0 for note in known.values())
    return KeyboardKeys(keys=tuple((_key_name(each, known, with_flats=flats), each in known) for each in range(12)))


def _key_name(half_steps: int, known: dict[int, NoteName], *, with_flats: bool) -> NoteName:
    return known.get(half_steps) or named(half_steps, with_flats=with_flats)


def _rhythm(words: str) -> Counted | None:
    return read_rhythm(words)


def _takadimi(words: str) -> Counted | None:
    return read_rhythm(words, by_syllables=True)


def _count(words: str) -> int:
    return _COUNTS.get(words.lower()) or int(words)


_BY_FIRST_WORD: dict[str, Reader] = {
    "rhythm": _rhythm, "takadimi": _takadimi, "count": _rhythm, "chords": _chords_in, "interval": _interval_of,
    "key": _signature_of, "circle": _circle, "open": _strings, "keyboard": _keyboard,
}  # fmt: skip
_READERS: tuple[Reader, ...] = (_scale_of, _key_for, _notes_for, _note_beside, _transposed, _interval_of, _rhythm)
_VOCABULARY = frozenset(
    word for words in (*_KINDS, *_NUMBERS, *_QUALITIES, *_BY_FIRST_WORD) for word in words.split()
) | frozenset(
    {"arpeggio", "above", "below", "fifths", "strings", "sharps", "flats", "concert", "written", "octaves", "scale", "forms", "chord"}
    | {"violin", "viola", "cello", "guitar", "clarinet", "trumpet", "horn", "quarter", "eighth", "half", "whole"}
)  # fmt: skip
# The first that is named in the words says what she may have meant.
_MEANT = {
    "rhythm": "rhythm 4/4 q e e h", "takadimi": "takadimi 4/4 q e e h", "count": "rhythm 4/4 q e e h", "chords": "chords in G",
    "chord": "chord F#7", "interval": "interval D F#", "key": "key 3 sharps", "circle": "circle of fifths",
    "open": "open strings violin", "strings": "open strings violin", "keyboard": "keyboard D F# A",
    "concert": "concert Bb for clarinet", "written": "written C for clarinet", "above": "major sixth above Eb",
    "below": "minor third below C", "arpeggio": "D major arpeggio 2 oct", "sharps": "key 3 sharps", "flats": "key 3 flats",
    "for": "Eb major for clarinet", "minor": "A harmonic minor", "octaves": "D major 2 oct", "oct": "D major 2 oct",
    "chromatic": "chromatic from C", "whole": "D whole tone", "blues": "A blues", "pentatonic": "G major pentatonic",
}  # fmt: skip


def _nearest(words: str) -> str:
    """The nearest thing that would work: what was typed with its words spelled right, or an example of what it names."""
    typed = words.split()
    if read_note(words) is not None:
        return f"{words[:1].upper()}{words[1:]} major"
    spelled = " ".join(map(_spelled, typed))
    if spelled != words and not isinstance(_answer(spelled) or Unclear(works=""), Unclear):
        return spelled
    usual = "4/4 q e e h" if words[:1].isdigit() else "D major"
    return next((_MEANT[word] for word in spelled.lower().split() if word in _MEANT), usual)


def _spelled(word: str) -> str:
    if word.lower() in _VOCABULARY or len(word) > _LONGEST_WORD:
        return word
    beside = {known for each in neighborhood(word) for known in _by_neighbor().get(each, ())}
    return next((known for known in sorted(beside) if is_near(word, known)), word)


@cache
def _by_neighbor() -> Mapping[str, Sequence[str]]:
    """The words that are known by what is left of them without each of their letters: near ones are looked up."""
    found: dict[str, list[str]] = {}
    for known in _VOCABULARY:
        for each in neighborhood(known):
            found.setdefault(each, []).append(known)
    return found
