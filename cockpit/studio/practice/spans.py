"""Long passages cut into overlapping spans of measures, spread over the days of a week."""

from collections.abc import Iterable, Sequence
from itertools import pairwise

from cockpit.studio.assignments.assignment import Measures

Passage = tuple[Measures, ...]


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
