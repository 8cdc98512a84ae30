"""What a teacher types in a lesson, line by line, and what of it a family may see."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from cockpit.studio.notes.labels import area_label, begins_private, has_colon, kept_back_label, labels_within

MOST_SIGNS = 200_000
"""A hundred pages: more was pasted by mistake, and each key would wait for all of it."""


class Area(StrEnum):
    """What an assignment works on."""

    WARM_UP = "warm-up"
    SCALES = "scales"
    TECHNIQUE = "technique"
    ETUDE = "etude"
    METHOD_BOOK = "method book"
    PIECE = "piece"
    REVIEW = "review"
    THEORY = "theory"
    EAR = "ear"
    SIGHT_READING = "sight-reading"
    LISTENING = "listening"


class Line(StrEnum):
    """What a typed line is."""

    ASSIGNMENT = "assignment"
    REMARK = "remark"
    PRIVATE = "private"
    FOLLOW_UP = "follow-up"
    NEXT_TIME = "next time"


class Mark(StrEnum):
    """How an assignment went, as heard at the next lesson."""

    DONE = "done"
    MORE_WORK = "more work"
    NOT_YET = "not yet"
    DROPPED = "dropped"

    @property
    def is_open(self) -> bool:
        """Whether the assignment is still to be worked on."""
        return self in {Mark.MORE_WORK, Mark.NOT_YET}


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteLine:
    """One typed line: what it is, its words without the label, and the whole line as typed."""

    line: Line
    text: str
    typed: str
    area: Area | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyNotes:
    """What a family may see of a lesson's notes. Remarks keep their empty lines between paragraphs."""

    assignments: tuple[NoteLine, ...]
    remarks: tuple[str, ...]

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to send."""
        return not self.assignments and not self.remarks


_HANGING = " \t([{\"'“‘«-–—·•*_"
# Every break that an editor shows as one: a private line must not hide behind a pasted carriage return.
_BREAKS = re.compile("\r\n|[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_KEPT_BACK = frozenset({Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME})


def read_line(typed: str) -> NoteLine:
    """Tells what a line is by its beginning. Without a label it is a remark to the family, kept as typed."""
    if label := kept_back_label(typed):
        name, ends = label
        return NoteLine(line=Line[name], text=typed[ends:].strip(), typed=typed)
    if label := area_label(typed):
        name, ends = label
        return NoteLine(line=Line.ASSIGNMENT, area=Area[name], text=typed[ends:].strip(), typed=typed)
    return NoteLine(line=Line.REMARK, text=typed.rstrip(), typed=typed)


def read_notes(body: str) -> tuple[NoteLine, ...]:
    """The lines of a note, in order; one with a label in its middle is two.

    Two things are kept from families with a label of theirs. A label that stands alone on its line covers everything
    below it up to an empty line: a private remark is often begun so, and a private word must not slip out by a line
    break. And a line that is set in from the margin goes on with the one above it.
    """
    return tuple(part.line for part in _parts_of(body))


def kept_back(body: str) -> Mapping[int, int]:
    """Which lines of a note, counted from 0, are kept from families, and from which column on."""
    found: dict[int, int] = {}
    for part in _parts_of(body):
        if part.line.line in _KEPT_BACK:
            found.setdefault(part.row, part.column)
    return found


def has_private_without_colon(body: str) -> bool:
    """Whether a line that the family gets begins with the word Private: a colon may have been forgotten."""
    return any(part.line.line is Line.REMARK and begins_private(part.line.typed) for part in _parts_of(body))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    row: int
    column: int
    line: NoteLine


@lru_cache(maxsize=4)  # within one key the same text is asked about by the pane, the count and the follow-ups
def _parts_of(body: str) -> tuple[_Part, ...]:
    parts: list[_Part] = []
    covered_by: Line | None = None
    for row, typed in enumerate(_BREAKS.split(body)):
        if not typed.strip():
            covered_by = None
        above = parts[-1].line.line if parts and typed[:1].isspace() else None
        cover = covered_by or (above if above in _KEPT_BACK else None)
        for column, read in _split(typed):
            line = read
            if read.line in _KEPT_BACK:
                covered_by = covered_by if read.text else read.line
            elif cover is not None and read.text:
                line = NoteLine(line=cover, text=typed[column:].strip(), typed=read.typed)
            parts.append(_Part(row=row, column=column, line=line))
    return tuple(parts)


@lru_cache(maxsize=2000)  # of all lines one changes at a key
def _split(typed: str) -> tuple[tuple[int, NoteLine], ...]:
    """A typed line cut before each label in its middle that is kept from families, with the columns."""
    first = read_line(typed)
    begins = len(typed) - len(first.text) if first.line in _KEPT_BACK else 1
    cuts = [0, *_cuts(typed, begins)] if has_colon(typed) else [0]
    if len(cuts) == 1:
        return ((0, first),)
    ends = [*cuts[1:], len(typed)]
    parts = (read_line(typed[begin:end]) for begin, end in zip(cuts, ends, strict=True))
    return tuple(zip(cuts, (replace(part, text=part.text.rstrip(_HANGING)) for part in parts), strict=True))


def _cuts(typed: str, begins: int) -> Iterator[int]:
    """Where the labels stand in the middle of a line. Each looks back to the one before it, and no further."""
    behind = 0
    for label in labels_within(typed, begins):
        if _is_label(typed[behind : label.start()].rstrip(), label[0]):
            yield label.start()
        behind = label.end()


def _is_label(before: str, label: str) -> bool:
    """Whether a label behind some words of its line is one, and not a sentence that speaks of the next time."""
    if label[0] in "pP":
        return not before.lower().endswith(" in")
    return label[0].isupper() or not before or not before[-1].isalnum()


def for_family(body: str) -> FamilyNotes:
    """What a family may see of a note: the one place that decides it. Every document is made from what it returns."""
    lines = read_notes(body)
    remarks = [line.text for line in lines if line.line is Line.REMARK]
    paragraphs: list[str] = []
    for remark in remarks:
        if remark.strip() or (paragraphs and paragraphs[-1]):
            paragraphs.append(remark if remark.strip() else "")
    while paragraphs and not paragraphs[-1]:
        paragraphs.pop()
    return FamilyNotes(
        assignments=tuple(line for line in lines if line.line is Line.ASSIGNMENT and line.text),
        remarks=tuple(paragraphs),
    )


def follow_ups(body: str) -> tuple[str, ...]:
    """What the teacher owes, in order, each once."""
    return _texts(body, Line.FOLLOW_UP)


def next_time(body: str) -> tuple[str, ...]:
    """What she wanted to remember for the next lesson."""
    return _texts(body, Line.NEXT_TIME)


def _texts(body: str, wanted: Line) -> tuple[str, ...]:
    found = (line.text for line in read_notes(body) if line.line is wanted and line.text)
    return tuple(dict.fromkeys(found))
