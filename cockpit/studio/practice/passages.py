"""Passages: cut into overlapping sections, how long they take at a tempo, and how often they fit."""

import re
from collections.abc import Iterable, Iterator, Sequence
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


def sections(passage: Passage, longest: int, overlap: int, most: int) -> tuple[Passage, ...]:
    """A passage in `most` sections at the most, in order, which are of near-equal length; every measure is in one.

    They are its spans where those are few enough. Else the measures are laid end to end and cut into `most` stretches
    whose lengths differ by one, so that no day has twice what another has; neighbors share `overlap` measures, but not
    across a gap in the passage.
    """
    parts = spans(passage, longest, overlap)
    if len(parts) <= most:
        return tuple((part,) for part in parts)
    laid = [(number, each) for number, ranged in enumerate(passage) for each in _one_by_one(ranged)]
    shared = min(overlap, max(0, len(laid) // max(1, most) - 1))
    begins = [(len(laid) - shared) * each // most for each in range(most + 1)]
    return tuple(_cut_out(laid, begin, end, shared) for begin, end in pairwise(begins))


def _one_by_one(measures: Measures) -> Iterator[Measures]:
    """The measures of a range each by itself; one without an end stays in one piece."""
    if measures.last is None:
        yield measures
        return
    yield from (Measures(first=each, last=each) for each in range(measures.first, measures.last + 1))


def _cut_out(laid: Sequence[tuple[int, Measures]], begin: int, end: int, shared: int) -> Passage:
    """A stretch of measures that are laid end to end, with those that it shares of the range in which it ends."""
    last = laid[end - 1][0]
    is_last = end + shared >= len(laid)
    beyond = [each for number, each in laid[end : end + shared] if is_last or number == last]
    return _joined([*(each for _, each in laid[begin:end]), *beyond])


def _joined(parts: Iterable[Measures]) -> Passage:
    """Ranges, those that touch as one."""
    joined: list[Measures] = []
    for part in parts:
        before = joined[-1] if joined else None
        if before is not None and before.last is not None and part.first == before.last + 1:
            joined[-1] = Measures(first=before.first, last=part.last)
        else:
            joined.append(part)
    return tuple(joined)


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
    """How often measures can be played whole in some minutes; None where that cannot be said."""
    seconds = seconds_through(measures, tempo, meter)
    return int(minutes * 60 // seconds) if seconds is not None else None


def seconds_through(measures: int, tempo: Tempo, meter: Fraction | None) -> Fraction | None:
    """The seconds that measures take at the tempo's goal; None where that cannot be said.

    Without a meter it is 4/4, save under a dotted beat: 6/8, 9/8 and 12/8 are as likely, and nothing is claimed.
    """
    if min(measures, tempo.goal) < 1 or (meter is None and _is_dotted(tempo)):
        return None
    return seconds_of(measures, tempo, meter or COMMON_TIME)


def _is_dotted(tempo: Tempo) -> bool:
    return tempo.beat.numerator % 3 == 0
