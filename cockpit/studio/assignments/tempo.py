"""Tempo marks in a line: `q = 72`, `♩. = 60`, `72 bpm`, `M.M. 72`, `60 -> 92`, `up to 96`, `ca. 80`.

Where no beat is named it is the quarter, but not where the line counts in two ("in 2 at 60", "cut time"): which note that is
only the meter tells. A range that goes down, or a row of tempos (60, 72, 80), is not claimed.
"""

from fractions import Fraction
from typing import NamedTuple

from cockpit.studio.assignments.assignment import Part, Tempo
from cockpit.studio.assignments.tokens import DASHES, Claim, Tokens, words_in

_SLOWEST, _FASTEST = 20, 400
# A number without a beat or a unit is taken for a tempo only where a metronome has it.
_BARE_SLOWEST, _BARE_FASTEST = BARE = 40, 208
_WHOLE, _HALF, _QUARTER, _EIGHTH, _SIXTEENTH = Fraction(4), Fraction(2), Fraction(1), Fraction(1, 2), Fraction(1, 4)
_LETTERS = {"q": _QUARTER, "h": _HALF, "e": _EIGHTH}
_SIGNS = {
    "♩": _QUARTER, "♪": _EIGHTH,
    "\U0001d15d": _WHOLE, "\U0001d15e": _HALF, "\U0001d15f": _QUARTER, "\U0001d160": _EIGHTH, "\U0001d161": _SIXTEENTH,
    "\U0001d157\U0001d165": _HALF, "\U0001d158\U0001d165": _QUARTER,
    "\U0001d158\U0001d165\U0001d16e": _EIGHTH, "\U0001d158\U0001d165\U0001d16f": _SIXTEENTH,
}  # fmt: skip
# These are words of everyday too (half speed, the whole page): they, and plurals, need an equals sign or "note".
_EVERYDAY = {"half": _HALF, "whole": _WHOLE}
_NAMES = {
    "quarter": _QUARTER, "quarters": _QUARTER, "crotchet": _QUARTER, "crotchets": _QUARTER,
    "eighth": _EIGHTH, "eighths": _EIGHTH, "quaver": _EIGHTH, "quavers": _EIGHTH, "minim": _HALF, "minims": _HALF,
    "semibreve": _WHOLE, "sixteenth": _SIXTEENTH, "sixteenths": _SIXTEENTH, "semiquaver": _SIXTEENTH,
}  # fmt: skip
_NUMERALS = {"8": _EIGHTH, "16": _SIXTEENTH}
_FRACTIONS = {"2": _HALF, "4": _QUARTER, "8": _EIGHTH, "16": _SIXTEENTH}
_DOT = "\U0001d16d"
_UNSEEN = frozenset({"\ufe0e", "\ufe0f"})  # says whether a note sign is shown as text or as a picture
_EQUALS = frozenset({"=", "≈", "@", "~"})
_ABOUT = frozenset({"ca", "c", "circa", "about", "around", "approx", "approximately", "roughly", "~", "≈"})
# "Start at 60" may be a measure.
_BEGINNING = words_in("start starts starting begin begins beginning look arrive be stop")
_THEN = frozenset({"then", "and", "or", "later"})
_METRONOME = frozenset({"metronome", "met", "tempo", "bpm"})
_LEARNED = words_in(
    "learn memorize memorise memory play read know finish practice practise through measures pages page bars"
)
BEAT_WORDS = frozenset({*_LETTERS, *_SIGNS, *_EVERYDAY, *_NAMES, "dotted"})
METRONOME_WORDS = frozenset({*_METRONOME, "mm", "m", "@"})
_MOST = frozenset({"max", "maximum"})
BARE_TEMPO_WORDS = frozenset({"up", "ca", "circa", "at", *_MOST})
# "In 2", "in two", "en 2": of a half, a dotted quarter, or a whole measure. "In 3" and "in 4" count quarters nearly always.
_COUNTED_IN = words_in("1 2 6 8 9 12 one two six eight nine twelve eins zwei un deux uno dos")
_IN_QUARTERS = words_in("3 4 5 three four five drei vier trois quatre tres cuatro")
_IN, _OTHER_BEATS = words_in("in en à a"), frozenset({("cut", "time"), ("alla", "breve"), ("cut", "c")})
_OTHER_METERS = frozenset({("2", "2"), ("3", "2"), ("4", "2"), ("3", "8"), ("6", "8"), ("9", "8"), ("12", "8")})
_BEFORE_DATE = words_in("by until till due for on before from since")


class _Beat(NamedTuple):
    value: Fraction
    ends: int
    needs_sign: bool


class _Numbers(NamedTuple):
    start: int | None
    goal: int
    ends: int


def read_beat_tempo(tokens: Tokens, at: int) -> Claim | None:
    """A beat and its tempo: `q = 72`, `dotted quarter = 60`, `♪=144`, `quarter 72 to 88`, `h = up to 60`."""
    beat = _beat_at(tokens, at) if tokens.begins_clean(at) else None
    if beat is None:
        return None
    after = beat.ends
    if tokens.word(after) in _EQUALS:
        is_about = tokens.word(after) in _ABOUT
        return _tempo(tokens, at, after + 1, beat.value, is_about=is_about)
    if beat.needs_sign:
        return None
    return _tempo(tokens, at, after + 1 if tokens.word(after) in {"at", ":"} else after, beat.value)


def read_metronome_tempo(tokens: Tokens, at: int) -> Claim | None:
    """A tempo behind the metronome's name: `M.M. 72`, `MM = 72`, `tempo 60-72`, `@72`."""
    after = _after_metronome(tokens, at) if tokens.begins_clean(at) else None
    if after is None or (tokens.words[at] == "tempo" and tokens.word(at - 1) == "a"):
        return None
    return _plain_tempo(tokens, at, after + 1 if tokens.word(after) in {"=", ":", "at", "of"} else after)


def read_bpm(tokens: Tokens, at: int) -> Claim | None:
    """A tempo that begins with its number: `72 bpm`, `60 to 92 bpm`, `60 -> 92`; also `8th = 120`."""
    if not tokens.begins_clean(at) or tokens.is_second_of_two(at):
        return None
    if tokens.words[at] == "1" and tokens.word(at + 1) == "/":
        return read_beat_tempo(tokens, at)
    if tokens.words[at] in _NUMERALS and tokens.word(at + 1) == "th":
        return read_beat_tempo(tokens, at)
    numbers = _numbers_at(tokens, at, _QUARTER)
    if numbers is None:
        return None
    is_climb = tokens.is_arrow(at + 1) and numbers.start and tokens.goes_on(numbers.ends)
    if tokens.word(numbers.ends) != "bpm" and not is_climb and not _is_bare_row(tokens, at, numbers.ends):
        return None
    return _plain_tempo(tokens, at, at)


def read_bare_tempo(tokens: Tokens, at: int) -> Claim | None:
    """A ceiling or an approximate tempo without a beat: `up to 96`, `ca. 80`; with one, `up to q = 96`."""
    if not tokens.begins_clean(at):
        return None
    is_most = tokens.words[at] in _MOST
    is_ceiling = is_most or tokens.words[at] == "up"
    if is_ceiling and not is_most and tokens.word(at + 1) != "to":
        return None
    is_plain = tokens.words[at] == "at"
    if is_plain and tokens.word(at - 1) in _BEGINNING:
        return None
    after = at + 2 if is_ceiling and not is_most else tokens.past_dot(at + 1)
    if is_ceiling and (beat := _beat_at(tokens, after)):
        begins = beat.ends + 1 if tokens.word(beat.ends) in _EQUALS else beat.ends
        return _tempo(tokens, at, begins, beat.value, is_ceiling=True)
    goal = tokens.number(after, _BARE_SLOWEST, _BARE_FASTEST)
    is_tempo = tokens.word(after + 1) == "bpm" or tokens.goes_on(after + 1)
    if goal is None or not is_tempo or tokens.word(at - 1) in _LEARNED:
        return None
    return _plain_tempo(tokens, at, after, is_about=not (is_ceiling or is_plain), is_ceiling=is_ceiling)


def _plain_tempo(
    tokens: Tokens, at: int, begins: int, *, is_about: bool = False, is_ceiling: bool = False
) -> Claim | None:
    """A tempo without a beat: of quarters, and not clear where the line counts other beats."""
    found = _tempo(tokens, at, begins, _QUARTER, is_about=is_about, is_ceiling=is_ceiling)
    return found._replace(values=()) if found and _counts_other_beats(tokens) else found


def _counts_other_beats(tokens: Tokens) -> bool:
    """Whether a line says that it is counted in something else than quarters: "in 2", "cut time", "6/8"."""
    for at, word in enumerate(tokens.words):
        behind, third = tokens.word(at + 1), tokens.word(at + 2)
        is_counted = is_count_of_beats(tokens, at) and behind not in _IN_QUARTERS
        is_date = tokens.word(at - 1) in _BEFORE_DATE
        if is_counted or ((word, third) in _OTHER_METERS and behind == "/" and not is_date):
            return True
    return False


def is_count_of_beats(tokens: Tokens, at: int) -> bool:
    """Whether it is said at a place how many beats a measure is counted in: "in 2", "in three", "alla breve"."""
    if tokens.words[at] not in _IN:
        return (tokens.words[at], tokens.word(at + 1)) in _OTHER_BEATS
    is_number = tokens.word(at + 1) in _COUNTED_IN | _IN_QUARTERS
    return is_number and tokens.word(at + 2) != "/" and tokens.goes_on(at + 2)


def _tempo(
    tokens: Tokens, at: int, begins: int, beat: Fraction, *, is_about: bool = False, is_ceiling: bool = False
) -> Claim | None:
    """The tempo whose numbers begin at a place, after words such as "about" and "up to"."""
    if tokens.word(begins) == "up" and tokens.word(begins + 1) == "to":
        begins, is_ceiling = begins + 2, True
    if tokens.word(begins) in _ABOUT:
        begins, is_about = tokens.past_dot(begins + 1), True
    numbers = _numbers_at(tokens, begins, beat)
    if numbers is None:
        return None
    ends = numbers.ends
    if tokens.word(ends) == "bpm":
        ends += 1
    elif tokens.counts_something(ends) or _is_row(tokens, ends):
        return None
    if not tokens.ends_clean(ends):
        return None
    if _is_one_of_two(tokens, at, ends):
        return Claim(Part.TEMPO, at, ends)
    tempo = Tempo(beat=beat, goal=numbers.goal, start=numbers.start, is_about=is_about, is_ceiling=is_ceiling)
    return Claim(Part.TEMPO, at, ends, (tempo,))


def _numbers_at(tokens: Tokens, at: int, beat: Fraction) -> _Numbers | None:
    """One tempo, or two that climb: `60-72`, `60 to 92`, `60 -> 92`, `60 up to 92`."""
    first = tokens.number(at, _SLOWEST, _FASTEST)
    if first is None:
        return None
    after = _past_climb(tokens, at + 1)
    if after is None:
        return _Numbers(None, first, at + 1)
    named = _beat_at(tokens, after)
    if named is not None and named.value == beat and tokens.word(named.ends) == "=":
        after = named.ends + 1
    second, after = _end_of_row(tokens, after)
    if second is None:
        is_aside = tokens.is_spaced_dash(at + 1) and not tokens.word(at + 2).isdigit()
        return _Numbers(None, first, at + 1) if is_aside else None
    return _Numbers(first if first < second else None, second, after + 1) if first <= second else None


def _end_of_row(tokens: Tokens, at: int) -> tuple[int | None, int]:
    """The last tempo of a row that climbs, 60-72-80, and its place."""
    last = tokens.number(at, _SLOWEST, _FASTEST)
    while last is not None and tokens.word(at + 1) in DASHES and tokens.is_glued(at + 1):
        higher = tokens.number(at + 2, last + 1, _FASTEST)
        if higher is None:
            break
        last, at = higher, at + 2
    return last, at


def _is_bare_row(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether three numbers or more that a metronome has climb without a unit."""
    numbers = [tokens.number(each, _BARE_SLOWEST, _BARE_FASTEST) for each in range(at, ends, 2)]
    return len(numbers) > 2 and None not in numbers and tokens.goes_on(ends)


def _past_climb(tokens: Tokens, at: int) -> int | None:
    begins = at + 1 if tokens.word(at) == "," else at
    if tokens.word(begins) == "up" and tokens.word(begins + 1) == "to":
        return begins + 2
    return tokens.past_range_sign(at)


def _is_row(tokens: Tokens, at: int) -> bool:
    """Whether another tempo follows a comma: 60, 72, 80."""
    after = at + 2
    is_tempo = tokens.word(at) == "," and tokens.number(at + 1, _SLOWEST, _FASTEST) is not None
    return is_tempo and tokens.past_range_sign(after) is None and tokens.goes_on(after)


def _is_one_of_two(tokens: Tokens, at: int, ends: int) -> bool:
    """Whether a number beside an "and" or a "then" is another tempo: at 60 then 70 bpm."""
    before, after = tokens.number(at - 2, _BARE_SLOWEST, _BARE_FASTEST), tokens.number(ends + 1, _SLOWEST, _FASTEST)
    is_second = before is not None and tokens.word(at - 1) in _THEN and tokens.ends_clean(at - 1)
    is_first = after is not None and tokens.word(ends) in _THEN and tokens.goes_on(ends + 2)
    return is_second or is_first


def _beat_at(tokens: Tokens, at: int) -> _Beat | None:
    """A note value by its letter, its sign or its name, dotted or not."""
    is_dotted = tokens.word(at) == "dotted"
    begins = at + 1 if is_dotted else at
    begins += is_dotted and tokens.word(begins) == "-"
    word = tokens.word(begins)
    if word in _LETTERS or word in _SIGNS:
        return _short_beat(tokens, begins, is_dotted=is_dotted)
    value, ends = _NAMES.get(word) or _EVERYDAY.get(word), begins + 1
    if word == "1" and tokens.word(ends) == "/" and tokens.is_glued(ends):
        value, ends = _FRACTIONS.get(tokens.word(ends + 1)), ends + 2
    if word in _NUMERALS and tokens.word(ends) == "th":
        value, ends = _NUMERALS[word], ends + 1
    if value is None:
        return None
    past_hyphen = ends + 1 if tokens.word(ends) == "-" else ends
    is_note = tokens.word(past_hyphen) in {"note", "notes"}
    needs_sign = word == "1" or ((word in _EVERYDAY or word.endswith("s")) and not is_note and not is_dotted)
    return _Beat(_dotted(value) if is_dotted else value, past_hyphen + 1 if is_note else ends, needs_sign)


def _short_beat(tokens: Tokens, at: int, *, is_dotted: bool) -> _Beat:
    word, ends = tokens.words[at], at + 1
    value = _LETTERS.get(word) or _SIGNS[word]
    ends += tokens.word(ends) in _UNSEEN
    if tokens.word(ends) in {".", _DOT} and not is_dotted:
        is_dotted, ends = True, ends + 1
    return _Beat(_dotted(value) if is_dotted else value, ends, needs_sign=word != "q" or is_dotted)


def _dotted(value: Fraction) -> Fraction:
    return value * 3 / 2


def _after_metronome(tokens: Tokens, at: int) -> int | None:
    """The place behind the metronome's name; "mm" is one only in capitals or before an equals sign."""
    word = tokens.words[at]
    if word == "m":
        is_name = tokens.typed[at : at + 4] == ["M", ".", "M", "."]
        return at + 4 if is_name else None
    after = tokens.past_dot(at + 1)
    is_name = word != "mm" or tokens.typed[at] == "MM" or tokens.word(after) == "="
    return after if is_name else None
