"""Passages: cut into overlapping spans over the days of a week, how long they take at a tempo, and how often they fit."""

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from itertools import pairwise

from cockpit.studio.assignments.assignment import Measures, Tempo

Passage = tuple[Measures, ...]
COMMON_TIME = Fraction(4)
_BEATS_OVER = {"2": (2, 3, 4), "4": range(2, 8), "8": range(2, 13), "16": (3, 6, 9, 12)}
_METERS = frozenset(f"{beats}/{value}" for value, counts in _BEATS_OVER.items() for beats in counts)
# Works and exercises are numbered with a stroke too: op. 59/2 is a work's number, and says nothing of its meter.
_NUMBERED = re.compile(
    r"(?:#|(?<![^\W\d_])(?:op(?:us)?|nos?|nr|number|ex|exercise|study|[ée]tude|bwv|kv?|hob|rv|woo|wq)\b)\W{0,3}\d{1,4}/\d{1,3}",
    re.IGNORECASE,
)
_FRACTION = re.compile(r"(?<![\d.,–-])[\d.,–-]*\d/\d[\d/.,–-]*")
# Three quarters of the bow, the size or the tempo are no meter; nor is a day of the calendar.
_PART_OF = re.compile(r"\s*-?(?:of\b|bow|size|speed|tempo|pos|length|full|cup|volume)", re.IGNORECASE)
_DATED = re.compile(r"\b(?:by|until|till|due|since|from|on|finger\w*|pages?|pp?|pg|mm?|bars?|measures?)\W{0,3}$", re.I)
_LONGEST_WORD_BEFORE = 16


def spans(passage: Iterable[Measures], longest: int, overlap: int) -> Passage:
    """A passage in spans of at most `longest` measures, in order, every measure in at least one of them.

    Neighbors within a range share `overlap` measures, so that the seam is practiced too; a range is cut as evenly as
    whole measures allow. A range that is short enough stays whole, and so does one whose end is not known. `longest`
    is at least 1; as much as that cannot be shared, so an `overlap` that is not less than it counts as one less.
    """
    return tuple(span for each in passage for span in _cut(each, longest, min(overlap, longest - 1)))


def _cut(measures: Measures, longest: int, overlap: int) -> Passage:
    count = measures.count
    if measures.last is None or count is None or count <= longest:
        return (measures,)
    pieces = -(-(count - overlap) // (longest - overlap))
    begins = [measures.first + (count - overlap) * piece // pieces for piece in range(pieces + 1)]
    return tuple(Measures(first=begin, last=end + overlap - 1) for begin, end in pairwise(begins))


def passage_by_day(passage: Passage, parts: Passage, days: int) -> tuple[Passage, ...]:
    """What of a passage belongs to each day on which it is due; every measure comes on one of them.

    The last of three or more days has the whole passage, the days before have its spans in order: several that follow
    each other where there are more spans than days, and the spans once more from the first where there are fewer. Two
    days have half each, and a single day the whole.
    """
    if days < 2 or len(parts) < 2:
        return (passage,) * days
    apart = days if days == 2 else days - 1
    grouped = [_joined(group) for group in _groups(parts, min(apart, len(parts)))]
    each_day = [grouped[day % len(grouped)] for day in range(apart)]
    return (*each_day, *[passage] * (days - apart))


def _groups(parts: Passage, count: int) -> list[Passage]:
    return [parts[len(parts) * each // count : len(parts) * (each + 1) // count] for each in range(count)]


def _joined(parts: Sequence[Measures]) -> Passage:
    """Spans that overlap or touch as one range."""
    joined: list[Measures] = []
    for part in parts:
        before = joined[-1] if joined else None
        if before is not None and before.last is not None and before.first <= part.first <= before.last + 1:
            joined[-1] = Measures(first=before.first, last=_later(before.last, part.last))
        else:
            joined.append(part)
    return tuple(joined)


def _later(one: int, other: int | None) -> int | None:
    return None if other is None else max(one, other)


def meter_in(text: str) -> Fraction | None:
    """The length of a measure in quarters, from a meter such as 3/4 or 6/8 in a text; None where none is clear.

    A number of a work ("op. 59/2") is passed over. Where any other fraction stands beside the meter, or one reads like
    a part of something ("3/4 bow"), a day or a fingering, nothing is claimed.
    """
    if "/" not in text:
        return None
    rest = _NUMBERED.sub(" ", text)
    found = {_meter_at(rest, fraction) for fraction in _FRACTION.finditer(rest)}
    return found.pop() if len(found) == 1 else None


def _meter_at(text: str, fraction: re.Match[str]) -> Fraction | None:
    typed = fraction[0].rstrip(".,")
    begins = fraction.start()
    is_something_else = _PART_OF.match(text, fraction.end()) or _DATED.search(
        text, max(0, begins - _LONGEST_WORD_BEFORE), begins
    )
    if typed not in _METERS or is_something_else:
        return None
    beats, value = typed.split("/")
    return Fraction(4 * int(beats), int(value))


def seconds_of(measures: int, tempo: Tempo, meter: Fraction) -> Fraction:
    """The seconds that a number of measures take at the tempo's goal; `meter` is a measure's length in quarters."""
    return measures * meter * 60 / (tempo.goal * tempo.beat)


def counted_measures(ranges: Iterable[Measures]) -> int | None:
    """How many measures some ranges are in all; None where there are none, or one goes to an end that is not known."""
    counts = [each.count for each in ranges]
    known = [count for count in counts if count is not None]
    return sum(known) if counts and len(known) == len(counts) else None


def times_through(minutes: int, measures: int, tempo: Tempo, meter: Fraction | None) -> int | None:
    """How often measures can be played whole in some minutes; None where that cannot be said.

    Without a meter it is 4/4, save under a dotted beat: 6/8, 9/8 and 12/8 are as likely, and nothing is claimed.
    """
    seconds = _seconds(measures, tempo, meter)
    return int(minutes * 60 // seconds) if seconds is not None else None


def _seconds(measures: int, tempo: Tempo, meter: Fraction | None) -> Fraction | None:
    if min(measures, tempo.goal) < 1 or (meter is None and _is_dotted(tempo)):
        return None
    return seconds_of(measures, tempo, meter or COMMON_TIME)


def _is_dotted(tempo: Tempo) -> bool:
    return tempo.beat.numerator % 3 == 0
