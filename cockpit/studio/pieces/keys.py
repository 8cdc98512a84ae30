"""What a line is about, from week to week: the piece, the study, the scale, whatever else it asks of it.

Two lines of one piece have one key, also where one has other measures, another tempo, an article or "by heart". It is
what a search through the lessons of a student goes by; near names are never one in silence.
"""

import re

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.assignments.reading import number_of, read_assignment
from cockpit.studio.notes.areas import Area
from cockpit.studio.notes.notes import NoteLine
from cockpit.studio.people.people import name_key
from cockpit.studio.values import Value

_ARTICLE = re.compile(r"(?:(?:the|an?|le|la|les|der|die|das|el|los|las)\s+|l['’]\s*)(?=\w)", re.IGNORECASE)
_SIGNS = re.compile(r"[^\w\s]+")
_LONGEST_TITLE = 80
_OF_SCALES = frozenset({Area.SCALES, Area.TECHNIQUE, Area.WARM_UP})


class PieceKey(Value):
    """What tells one piece of a student from all others: its name, "old mill", and opus and number, where it has them."""

    name: str
    opus: str | None = None
    number: str | None = None

    def __str__(self) -> str:
        """The key in words: `minuet op. 27 no. 2`."""
        number = f"no. {self.number}" if self.number else None
        return " ".join(filter(None, (self.name, self.opus, number)))


def piece_of(line: NoteLine, book: str | None = None) -> PieceKey:
    """The piece that an assignment's line is about.

    In an area whose lines begin with a title it is the title; a number alone is one of `book`, the book named last in
    that area for this student, or of the area; a scale is its key; pages alone are of the area. Else it is the whole line
    without how fast, how long and how often.
    """
    assignment = read_assignment(line)
    if _is_titled(line, assignment):
        return PieceKey(name=_title_key(assignment.title or ""), opus=assignment.opus, number=assignment.number)
    if is_of_a_book(line, assignment):
        return PieceKey(name=name_key(book or str(assignment.area)), opus=assignment.opus, number=assignment.number)
    if _is_scale(assignment):
        return PieceKey(name=_scale_key(assignment))
    return PieceKey(name=thread_of(line))


def is_of_a_book(line: NoteLine, assignment: Assignment) -> bool:
    """Whether a line has a number, or pages of a method book, and no title: it is of the book that was named last."""
    is_numbered = bool(assignment.opus or assignment.number)
    is_paged = assignment.key is None and bool(assignment.pages) and assignment.area is Area.METHOD_BOOK
    return not _is_titled(line, assignment) and (is_numbered or is_paged)


def title_of(line: NoteLine) -> str:
    """What a line's piece is called on the screen: `The Old Mill`, `Etude no. 7`, `D major scale`, or the words of the line."""
    assignment, key = read_assignment(line), piece_of(line)
    numbered = " ".join(filter(None, (key.opus, f"no. {key.number}" if key.number else None)))
    if _is_titled(line, assignment):
        return f"{assignment.title} {numbered}".strip()
    if is_of_a_book(line, assignment):
        return f"{str(assignment.area).capitalize()} {numbered}".strip()
    if _is_scale(assignment):
        return key.name[:1].upper() + key.name[1:]
    return assignment.text[:_LONGEST_TITLE].strip()


def _is_scale(assignment: Assignment) -> bool:
    """Whether a line has a key to play in; one of theory may only speak of it."""
    return assignment.key is not None and assignment.area in _OF_SCALES


def _is_titled(line: NoteLine, assignment: Assignment) -> bool:
    is_numbered = number_of(line) is not None and not (assignment.title or "")[:1].isupper()  # "Etude #7: slowly"
    return assignment.title is not None and not is_numbered


def _title_key(title: str) -> str:
    """A title without an article, signs and capitals; one that is nothing but an article keeps it."""
    plain = name_key(
        _SIGNS.sub(" ", _ARTICLE.sub("", title.strip(), count=1) if _ARTICLE.match(title.strip()) else title)
    )
    return plain or name_key(title)


def _scale_key(assignment: Assignment) -> str:
    """A scale by its key, mode and kind: "d major scale", "d major arpeggio"; octaves and tempo are not its name."""
    key = assignment.key
    kind = _kind_in(assignment.text) or _kind_in(assignment.own_label or "") or "scale"
    return f"{key.tonic.casefold()} {key.mode} {kind}" if key else str(assignment.area)


def _kind_in(words: str) -> str | None:
    """The one kind that some words name; None where they name none or several."""
    kinds = [kind for kind, begins in _KINDS.items() if re.search(rf"\b(?:{begins})", words, re.IGNORECASE)]
    return kinds[0] if len(kinds) == 1 else None


_KINDS = {
    "scale": "scale|tonleiter|skala|gamme|escala", "arpeggio": "arpeg|arpèg", "chord": "chord|triad|akkord|dreikl|accord|acorde",
    "cadence": "cadenc|kadenz",
}  # fmt: skip
