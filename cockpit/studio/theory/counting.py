"""Rhythms as they are typed, and how they are counted: `4/4 q e e h` is `1 2 + 3 (4)`.

Beats are counted by numbers with `e + a` and `la li` (Eastman), or by ta ka di mi and ta ki da (Hoffman, Pelto, and White,
Takadimi, Journal of Music Theory Pedagogy 10, 1996, 7-30).
"""

import re
from collections.abc import Iterator, Sequence
from enum import StrEnum
from fractions import Fraction

from cockpit.studio.values import Value, replace

_VALUES = {
    "w": Fraction(4), "h": Fraction(2), "q": Fraction(1), "e": Fraction(1, 2), "s": Fraction(1, 4), "t": Fraction(1, 8),
}  # fmt: skip
_SPOKEN = {
    "whole": "w", "half": "h", "quarter": "q", "eighth": "e", "sixteenth": "s", "16th": "s", "thirty-second": "t", "32nd": "t",
    "𝅝": "w", "𝅗𝅥": "h", "♩": "q", "♪": "e", "𝅘𝅥𝅯": "s",
}  # fmt: skip
_WORDS = re.compile(
    r"(?P<dotted>dotted )?\b(?P<name>whole|half|quarter|eighth|sixteenth|16th|thirty-second|32nd)s?(?: notes?)?(?P<rest> rests?)?\b"
    r"|(?P<sign>𝅝|𝅗𝅥|♩|♪|𝅘𝅥𝅯)"
)
_METER = re.compile(r"([1-9]\d?)/(1|2|4|8|16)(?: (\d(?:\+\d)+))?(?: in ([1-9]))? (.+)")
_TOKEN = re.compile(
    r"\s*(?:(?P<bar>\|+)|(?P<closes>\))|(?P<number>[2-9])(?::(?P<of>[2-9]))?\(|(?P<value>[whqest])(?P<dots>\.{0,2})(?P<rest>r?)(?P<late>\.{0,2})(?P<tie>~?))"
)
_IN = re.compile(r"(.*) in ([1-9])")
_OF = {3: 2, 5: 4, 6: 4, 7: 4, 9: 8}
_OF_COMPOUND = {2: 3, 4: 3}
_MOST_MEASURES = 16


class BeatPart(StrEnum):
    """Where in a beat a note begins."""

    BEAT = "beat"
    QUARTER = "quarter"
    HALF = "half"
    THREE_QUARTERS = "three_quarters"
    THIRD = "third"
    TWO_THIRDS = "two_thirds"
    COMPOUND_THIRD = "compound_third"
    COMPOUND_TWO_THIRDS = "compound_two_thirds"
    ELSEWHERE = "elsewhere"


_PARTS = {
    Fraction(0): BeatPart.BEAT, Fraction(1, 4): BeatPart.QUARTER, Fraction(1, 2): BeatPart.HALF, Fraction(3, 4): BeatPart.THREE_QUARTERS,
    Fraction(1, 3): BeatPart.THIRD, Fraction(2, 3): BeatPart.TWO_THIRDS,
}  # fmt: skip
_COMPOUND_PARTS = {
    Fraction(0): BeatPart.BEAT, Fraction(1, 3): BeatPart.COMPOUND_THIRD, Fraction(2, 3): BeatPart.COMPOUND_TWO_THIRDS,
}  # fmt: skip


class Sound(StrEnum):
    """What is heard where something is counted."""

    STRUCK = "struck"
    HELD = "held"
    REST = "rest"


class Count(Value):
    """A place in a measure: its beat, from 1, the part of it, and what sounds there."""

    beat: int
    part: BeatPart
    sound: Sound
    begins_group: bool = False


class MeasureFault(Value):
    """A measure, from 1, and by how many quarters it is too long; too short below 0."""

    measure: int
    quarters: Fraction


class Meter(Value):
    """A meter as it is written, a measure's length and a beat's in quarters, and the beats, but the first, that begin a group."""

    count: int
    unit: int
    length: Fraction
    beat: Fraction
    is_compound: bool
    is_in_eighths_of_three: bool
    groups: tuple[int, ...] = ()


class RhythmNote(Value):
    """A note or a rest, how many quarters long, how it is written, and whether it goes on from the one before it.

    `value` is a note's length without its `dots`, in quarters. `tuplet` is the number of its tuplet, how many notes it is in the
    time of, and which tuplet of the rhythm it is.
    """

    quarters: Fraction
    is_rest: bool
    is_tied_on: bool
    value: Fraction = Fraction(1)
    dots: int = 0
    tuplet: tuple[int, int, int] | None = None


class CountedNote(Value):
    """A note or a rest with what is counted on it, and where in its measure it begins, in quarters."""

    note: RhythmNote
    begins: Fraction
    counts: tuple[Count, ...]


class Counted(Value):
    """Measures of notes that are counted; `pickup` is the length of a short first one, in quarters."""

    notes: tuple[tuple[CountedNote, ...], ...]
    meter: Meter
    faults: tuple[MeasureFault, ...] = ()
    pickup: Fraction | None = None
    by_syllables: bool = False

    @property
    def measures(self) -> tuple[tuple[Count, ...], ...]:
        """The counts of each measure; none of one that is too long."""
        return tuple(tuple(count for note in each for count in note.counts) for each in self.notes)


def read_rhythm(words: str, *, by_syllables: bool = False) -> Counted | None:
    """A rhythm as it is typed behind its word, counted: `3/4 q. e q`, `6/8 in 2 q e q e`; None where it is none."""
    plain = _WORDS.sub(_sign_of, words)
    if (behind := _IN.fullmatch(plain)) is not None and " in " not in behind[1]:
        meter_words, _, notes = behind[1].partition(" ")
        plain = f"{meter_words} in {behind[2]} {notes}"
    found = _METER.fullmatch(plain)
    meter = _meter(found) if found is not None else None
    if found is None or meter is None:
        return None
    measures = _notes(found[5], is_compound=meter.is_in_eighths_of_three)
    if measures is None or not any(measures):
        return None
    if len(measures) == 1:
        measures = _cut(measures[0], meter.length)
    return _counted(measures, meter, by_syllables=by_syllables) if len(measures) <= _MOST_MEASURES else None


def _sign_of(found: re.Match[str]) -> str:
    if found["sign"]:
        return f" {_SPOKEN[found['sign']]}"
    return _SPOKEN[found["name"]] + ("." if found["dotted"] else "") + ("r" if found["rest"] else "")


def _meter(found: re.Match[str]) -> Meter | None:
    count, unit = int(found[1]), Fraction(4, int(found[2]))
    is_in_three = int(found[2]) >= 8 and count % 3 == 0 and count > 3
    groups = tuple(map(int, found[3].split("+"))) if found[3] else ()
    if groups and sum(groups) != count:
        return None
    beats = int(found[4]) if found[4] else count
    if beats > count or count % beats:
        return None
    heads = tuple(sum(groups[:each]) + 1 for each in range(1, len(groups)))
    is_compound = count // beats == 3
    return Meter(
        count=count,
        unit=int(found[2]),
        length=count * unit,
        beat=count * unit / beats,
        is_compound=is_compound,
        is_in_eighths_of_three=is_in_three,
        groups=heads if beats == count else (),
    )


def _notes(typed: str, *, is_compound: bool) -> list[list[RhythmNote]] | None:
    """The notes of each measure; None where anything else is typed than notes, tuplets, and bars."""
    measures: list[list[RhythmNote]] = [[]]
    at, tuplets, is_tied = 0, 0, False
    tuplet: tuple[int, int, int] | None = None
    typed = typed.strip()
    while at < len(typed):
        token = _TOKEN.match(typed, at)
        if token is None:
            return None
        at = token.end()
        if token["bar"]:
            measures.append([])
        elif token["number"]:
            of = _in_time_of(token, is_compound=is_compound)
            if tuplet is not None or of is None:
                return None
            tuplet, tuplets = (int(token["number"]), of, tuplets), tuplets + 1
        elif token["closes"]:
            if tuplet is None:
                return None
            tuplet = None
        else:
            note = _note(token, tuplet, is_tied=is_tied)
            measures[-1].append(note)
            is_tied = bool(token["tie"]) and not note.is_rest
    return (
        None if tuplet is not None else [each for at, each in enumerate(measures) if each or 0 < at < len(measures) - 1]
    )


def _note(token: re.Match[str], tuplet: tuple[int, int, int] | None, *, is_tied: bool) -> RhythmNote:
    value, dots = _VALUES[token["value"]], len(token["dots"] + token["late"])
    return RhythmNote(
        quarters=value * _dotted(dots) * (Fraction(tuplet[1], tuplet[0]) if tuplet is not None else 1),
        is_rest=bool(token["rest"]),
        is_tied_on=is_tied and not token["rest"],
        value=value,
        dots=dots,
        tuplet=tuplet,
    )


def _in_time_of(token: re.Match[str], *, is_compound: bool) -> int | None:
    if token["of"]:
        return int(token["of"])
    return ({**_OF, **_OF_COMPOUND} if is_compound else _OF).get(int(token["number"]))


def _dotted(dots: int) -> Fraction:
    return 2 - Fraction(1, 2**dots)


def _cut(notes: Sequence[RhythmNote], length: Fraction) -> list[list[RhythmNote]]:
    """Notes without bars cut into measures, as long as they end where the notes do."""
    measures: list[list[RhythmNote]] = [[]]
    filled = Fraction(0)
    for note in notes:
        if filled == length:
            measures.append([])
            filled = Fraction(0)
        measures[-1].append(note)
        filled += note.quarters
    return measures


def _counted(measures: Sequence[Sequence[RhythmNote]], meter: Meter, *, by_syllables: bool) -> Counted:
    lengths = [sum((note.quarters for note in each), Fraction(0)) for each in measures]
    is_made_whole = len(lengths) > 1 and lengths[0] < meter.length and lengths[0] + lengths[-1] == meter.length
    pickup = lengths[0] if is_made_whole else None
    right = {0, len(lengths) - 1} if is_made_whole else set()
    faults = tuple(
        MeasureFault(measure=at + 1, quarters=each - meter.length)
        for at, each in enumerate(lengths)
        if each != meter.length and at not in right
    )
    starts = [meter.length - pickup if pickup is not None and at == 0 else Fraction(0) for at in range(len(lengths))]
    return Counted(
        notes=tuple(
            tuple(_counted_notes(notes, meter, start)) if length <= meter.length else ()
            for notes, length, start in zip(measures, lengths, starts, strict=True)
        ),
        meter=meter,
        faults=faults,
        pickup=pickup,
        by_syllables=by_syllables,
    )


def _counted_notes(notes: Sequence[RhythmNote], meter: Meter, start: Fraction) -> Iterator[CountedNote]:
    at = start
    for note in notes:
        yield CountedNote(note=note, begins=at, counts=tuple(_counts(note, meter, at)))
        at += note.quarters


def _counts(note: RhythmNote, meter: Meter, at: Fraction) -> Iterator[Count]:
    place = _count_at(at, meter)
    if note.is_rest:
        yield replace(place, sound=Sound.REST)
    elif not note.is_tied_on:
        yield place
    elif place.part is BeatPart.BEAT:
        yield replace(place, sound=Sound.HELD)
    beat = (at // meter.beat + 1) * meter.beat
    while beat < at + note.quarters:
        yield replace(_count_at(beat, meter), sound=Sound.REST if note.is_rest else Sound.HELD)
        beat += meter.beat


def _count_at(at: Fraction, meter: Meter) -> Count:
    beat, within = divmod(at, meter.beat)
    parts = _COMPOUND_PARTS if meter.is_compound else _PARTS
    part = parts.get(within / meter.beat, BeatPart.ELSEWHERE)
    number = int(beat) + 1
    is_head = part is BeatPart.BEAT and number in meter.groups
    return Count(beat=number, part=part, sound=Sound.STRUCK, begins_group=is_head)
