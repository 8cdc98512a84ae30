"""What a teacher types in a lesson, line by line, and what of it a family may see."""

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache


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


# Zero widths, joiners, direction marks, soft hyphens: nobody sees them, and pasted text is full of them.
_UNSEEN = r"\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufe0e\ufe0f\ufeff"
_GAP = rf"[\s{_UNSEEN}]*"
_LEAD = rf"[\s{_UNSEEN}•·*–—>-]*"
_COLONS = frozenset(":：﹕∶︓꞉")
_COLON = f"[{''.join(sorted(_COLONS))}]"
_DASH = rf"[\s{_UNSEEN}\u2010-\u2015\u2212_-]*"


def _kept_back(label: str) -> re.Pattern[str]:
    """A label that is kept from families: it counts too when it is numbered, bracketed, quoted or set in stars.

    A rest of the line without a letter or digit is no text, so that the label still stands alone.
    """
    return re.compile(rf"[\W\d_]*{label}[\W_]*?{_COLON}[*_]*(?:[\W_]*$)?", re.IGNORECASE)


def _spelled(word: str) -> str:
    return f"[{_UNSEEN}]*".join(word)


_LABELS: tuple[tuple[Line, re.Pattern[str]], ...] = (
    (Line.PRIVATE, _kept_back(rf"{_spelled('private')}(?:{_GAP}(?:note|remark)s?)?")),
    (Line.FOLLOW_UP, _kept_back(rf"{_spelled('follow')}{_DASH}{_spelled('up')}s?")),
    (Line.NEXT_TIME, _kept_back(rf"{_spelled('next')}{_DASH}{_spelled('time')}")),
)
# Every break that an editor shows as one: a private line must not hide behind a pasted carriage return.
_BREAKS = re.compile("\r\n|[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_KEPT_BACK = frozenset({Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME})
_SPELLINGS: dict[Area, str] = {
    Area.WARM_UP: rf"warm{_DASH}ups?",
    Area.SCALES: "scales?",
    Area.TECHNIQUE: "techniques?",
    Area.ETUDE: "[eé]tudes?",
    Area.METHOD_BOOK: r"method(?:\s+book)?",
    Area.PIECE: "pieces?",
    Area.REVIEW: r"review(?:\s+pieces?)?",
    Area.THEORY: "theory",
    Area.EAR: r"ear(?:\s+training)?",
    Area.SIGHT_READING: rf"sight{_DASH}reading",
    Area.LISTENING: "listening",
}
_AREAS = tuple(
    (area, re.compile(rf"{_LEAD}{spelling}{_GAP}{_COLON}", re.IGNORECASE)) for area, spelling in _SPELLINGS.items()
)


def read_line(typed: str) -> NoteLine:
    """Tells what one typed line is. Without a label it is a remark to the family, kept as typed."""
    if not _COLONS.intersection(typed):  # most lines; this is asked at every key
        return NoteLine(line=Line.REMARK, text=typed.rstrip(), typed=typed)
    for line, pattern in _LABELS:
        if label := pattern.match(typed):
            return NoteLine(line=line, text=typed[label.end() :].strip(), typed=typed)
    for area, pattern in _AREAS:
        if label := pattern.match(typed):
            return NoteLine(line=Line.ASSIGNMENT, area=area, text=typed[label.end() :].strip(), typed=typed)
    return NoteLine(line=Line.REMARK, text=typed.rstrip(), typed=typed)


@lru_cache(maxsize=4)  # within one key the same text is asked about by the pane, the count and the follow-ups
def read_notes(body: str) -> tuple[NoteLine, ...]:
    """The lines of a note, in order.

    A label that is kept from families and stands alone on its line covers the lines below it, up to an empty line or
    another label: a private remark is often begun so, and a private word must not slip out by a line break.
    """
    lines: list[NoteLine] = []
    covered_by: Line | None = None
    for typed in _BREAKS.split(body):
        line = read_line(typed)
        if covered_by is not None and line.line is Line.REMARK and line.text:
            line = NoteLine(line=covered_by, text=line.text.strip(), typed=typed)
        else:
            covered_by = line.line if line.line in _KEPT_BACK and not line.text else None
        lines.append(line)
    return tuple(lines)


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
