"""What a teacher types in a lesson, line by line, and what of it a family may see."""

import re
from collections.abc import Mapping
from enum import StrEnum
from functools import lru_cache

from cockpit.studio.notes.areas import AnyArea
from cockpit.studio.notes.areas import Area as Area
from cockpit.studio.notes.kept_back import COLONS, KeptBack, has_sign, label_at_beginning, labels_within
from cockpit.studio.notes.labels import area_label
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels, Meaning
from cockpit.studio.values import Value, replace

MOST_SIGNS = 200_000
"""A hundred pages: more was pasted by mistake, and each key would wait for all of it."""


class Line(StrEnum):
    """What a typed line is."""

    ASSIGNMENT = "assignment"
    TO_GET = "to get"
    GOAL = "goal"
    REMARK = "remark"
    PRIVATE = "private"
    FOLLOW_UP = "follow-up"
    NEXT_TIME = "next time"

    @property
    def is_kept_back(self) -> bool:
        """Whether it is kept from families."""
        return self in _KEPT_BACK

    @property
    def takes_marks(self) -> bool:
        """Whether it is marked in a later lesson: an assignment, a thing to get, a goal."""
        return self in _MARKED


_KEPT_BACK = frozenset({Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME})  # made once: each line is asked, at each key


_MARKED = frozenset({Line.ASSIGNMENT, Line.TO_GET, Line.GOAL})


class Mark(StrEnum):
    """How an assignment went, as heard at the next lesson; of a thing to get, done is got, and dropped not needed; a goal done is met."""

    DONE = "done"
    MORE_WORK = "more work"
    NOT_YET = "not yet"
    DROPPED = "dropped"

    @property
    def is_open(self) -> bool:
        """Whether the assignment is still to be worked on."""
        return self in {Mark.MORE_WORK, Mark.NOT_YET}


class NoteLine(Value):
    """One typed line: what it is, its words without the label, and the whole line as typed.

    `label` is the label as typed: the family reads `own_label`, where it is not just an area's name. `number` is one that
    the label has ("Etude #5:"). `kept_back_by` is a label that is none of the three and was taken for one. What it says
    `begins` at a column of the line as typed.
    """

    line: Line
    text: str
    typed: str
    area: AnyArea | None = None
    label: str | None = None
    own_label: str | None = None
    number: str | None = None
    is_by_heart: bool = False
    kept_back_by: str | None = None
    begins: int = 0

    @property
    def no_label(self) -> str | None:
        """What looks like a label in a line that the family reads, and is none."""
        if self.line.is_kept_back or not self.typed.strip():
            return None
        from cockpit.studio.notes.no_labels import no_label  # 8 ms, which a screen without notes does not need

        return no_label(self.typed, self.begins, is_assigned=self.line is Line.ASSIGNMENT)


class FamilyNotes(Value):
    """What a family may see of a lesson's notes. Remarks keep their empty lines between paragraphs.

    `to_get` has a line for each thing.
    """

    assignments: tuple[NoteLine, ...]
    remarks: tuple[str, ...]
    to_get: tuple[NoteLine, ...] = ()
    goals: tuple[NoteLine, ...] = ()

    @property
    def marked(self) -> tuple[NoteLine, ...]:
        """The lines that are marked in a later lesson: assignments, things to get, and goals."""
        return (*self.assignments, *self.to_get, *self.goals)

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to send."""
        return not self.marked and not self.remarks


_HANGING = " \t([{\"'“‘«-–—·•*_"
# Every break that an editor shows as one: a private line must not hide behind a pasted carriage return.
_BREAKS = re.compile("\r\n|[\n\r\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
# What parts the things of a line, and what keeps a comma from doing so; a bracket that is never closed keeps all behind it.
# All of it has a bound, or a line of a hundred pages would take its length squared. Compiled by `re` at the first such line.
_PIECES = r"""(?xs)[A-Za-z]{2,8}://\S*[^\s,;] | \w+ | \((?:[^()]|\([^()]*\))*\) | \[[^\[\]]*\] | \{[^{}]*\} | [(\[].*
    | (?<![^\s(])"[^"]{0,200}" | “[^”]{0,200}” | „[^“”]{0,200}[“”] | «[^»]{0,200}» | (?<=\d),(?=\d) | (?P<parts>[,;]) | ."""
_AND = re.compile(r"^(?:and|und|et|y|&|\+)\s+(?=\S)")


@lru_cache(maxsize=2000)  # of all lines one changes at a key, and the pane asks for each row that it is shown in
def read_line(typed: str, labels: Labels = BUILT_IN) -> NoteLine:
    """Tells what a line is by its beginning. Without a label it is a remark to the family, kept as typed.

    What is kept from families comes first: no label of hers can change it.
    """
    if has_sign(typed) and (label := label_at_beginning(typed)):
        return _kept_back_line(label, typed)
    area = area_label(typed, labels)
    text = typed[area.ends :].strip() if area is not None else ""
    kind = _kind_of(area.meaning, text) if area is not None else Line.REMARK
    if area is None or kind is Line.REMARK:
        words, begins = (area.typed, area.ends) if area is not None else (None, 0)
        return NoteLine(line=Line.REMARK, text=typed.rstrip(), typed=typed, label=words, begins=begins)
    return NoteLine(
        line=kind,
        text=text,
        typed=typed,
        area=area.meaning.area,
        label=area.typed,
        own_label=area.own,
        number=area.number,
        is_by_heart=area.meaning.is_by_heart,
        begins=area.ends,
    )


def _kind_of(meaning: Meaning, text: str) -> Line:
    if meaning.area is not None:
        return Line.ASSIGNMENT
    if not text:
        return Line.REMARK
    return Line.TO_GET if meaning.is_to_get else Line.GOAL if meaning.is_goal else Line.REMARK


def _kept_back_line(label: KeptBack, typed: str, begins: int = 0, ends: int | None = None) -> NoteLine:
    return NoteLine(
        line=Line[label.name],
        text=typed[label.ends : ends].strip(),
        typed=typed[begins:ends],
        label=label.words,
        kept_back_by=None if label.is_plain else label.words,
    )


def read_notes(body: str, labels: Labels = BUILT_IN) -> tuple[NoteLine, ...]:
    """The lines of a note, in order; one with a label in its middle is two.

    Two things are kept from families with a label of theirs. A label that stands alone on its line covers everything
    below it up to an empty line, but not one right below it: a private remark is often begun so, and a private word must not slip out by a line
    break. And a line that is set in from the margin goes on with the one above it.
    """
    return tuple(part.line for part in _parts_of(body, labels))


def kept_back(body: str) -> Mapping[int, int]:
    """Which lines of a note, counted from 0, are kept from families, and from which column on."""
    found: dict[int, int] = {}
    for part in _parts_of(body, BUILT_IN):  # of which her labels change nothing
        if part.line.line.is_kept_back:
            found.setdefault(part.row, part.column)
    return found


def kept_lines(body: str) -> tuple[str, ...]:
    """The lines of a note that are kept from families, as typed, with what they go on to."""
    parts = _parts_of(body, BUILT_IN)  # of which her labels change nothing
    return tuple(part.line.typed.strip() for part in parts if part.line.line.is_kept_back and part.line.typed.strip())


def no_labels(body: str, labels: Labels = BUILT_IN) -> tuple[str, ...]:
    """What looks like a label in the lines that the family reads, and is none; in order, each once."""
    seen = (part.line.no_label for part in _parts_of(body, labels) if not part.line.line.is_kept_back)
    return tuple(dict.fromkeys(filter(None, seen)))


def read_rows(body: str, labels: Labels = BUILT_IN) -> tuple[tuple[NoteLine, ...], ...]:
    """The same by the rows of the note: a row with a label in its middle has two lines, an empty one has one."""
    parts = _parts_of(body, labels)
    rows: list[list[NoteLine]] = [[] for _ in range(parts[-1].row + 1)]
    for part in parts:
        rows[part.row].append(part.line)
    return tuple(map(tuple, rows))


def line_at(body: str, row: int, column: int, labels: Labels = BUILT_IN) -> NoteLine | None:
    """What stands at a place of a note, as the whole of it makes it: a private word above can cover it; None behind its end."""
    there = [part for part in _parts_of(body, labels) if part.row == row]
    return next((part.line for part in reversed(there) if part.column <= column), None)


class _Part(Value):
    row: int
    column: int
    line: NoteLine


@lru_cache(maxsize=8)  # within one key the same text is asked about by the pane, the count and the follow-ups
def _parts_of(body: str, labels: Labels) -> tuple[_Part, ...]:
    parts: list[_Part] = []
    covered_by: Line | None = None
    has_covered = False
    for row, typed in enumerate(_BREAKS.split(body)):
        if not typed.strip() and has_covered:
            covered_by = None
        above = parts[-1].line.line if parts and typed[:1].isspace() else None
        cover = covered_by or (above if above is not None and above.is_kept_back else None)
        for column, read in _split(typed, labels):
            line = read
            if read.line.is_kept_back:
                covered_by, has_covered = (covered_by, True) if read.text else (read.line, False)
            elif cover is not None and read.text:
                has_covered = True
                line = NoteLine(line=cover, text=typed[column:].strip(), typed=read.typed)
            parts.append(_Part(row=row, column=column, line=line))
    return tuple(parts)


@lru_cache(maxsize=2000)
def _split(typed: str, labels: Labels) -> tuple[tuple[int, NoteLine], ...]:
    """A typed line cut before each label in its middle that is kept from families, with the columns."""
    first = read_line(typed, labels)
    begins = len(typed) - len(first.text) if first.line.is_kept_back else 1
    within = tuple(labels_within(typed, begins)) if has_sign(typed) else ()
    if first.line is Line.ASSIGNMENT and within and _is_title(within[0], typed, first.text):
        within = within[1:]
    if not within:
        return ((0, first),)
    cuts = [0, *(label.begins for label in within)]
    ends = [*cuts[1:], len(typed)]
    parts = [
        read_line(typed[: ends[0]], labels),
        *(_kept_back_line(label, typed, label.begins, end) for label, end in zip(within, ends[1:], strict=True)),
    ]
    return tuple(zip(cuts, (replace(part, text=part.text.rstrip(_HANGING)) for part in parts), strict=True))


def _is_title(label: KeptBack, typed: str, text: str) -> bool:
    """Whether words before a dash are what is played: "Piece: Private Dancer - Tina Turner"."""
    words = label.words.split()
    is_first = text.startswith(label.words) and label.begins == len(typed.rstrip()) - len(text)
    has_colon = not COLONS.isdisjoint(typed[label.begins : label.ends])
    return is_first and not has_colon and len(words) > 1 and all(word[0].isupper() for word in words)


def for_family(body: str, labels: Labels = BUILT_IN) -> FamilyNotes:
    """What a family may see of a note: the one place that decides it. Every document is made from what it returns."""
    lines = read_notes(body, labels)
    remarks: list[str] = []
    is_apart = is_closed = False
    for line in lines:
        if line.line.is_kept_back:  # an empty line above or below it would show that something stood there
            is_apart, is_closed = False, True
        elif line.line is not Line.REMARK:
            is_closed = False
        elif not line.text.strip():
            is_apart = is_apart or not is_closed
        else:
            remarks += ["", line.text] if is_apart and remarks else [line.text]
            is_apart = is_closed = False
    return FamilyNotes(
        assignments=tuple(line for line in lines if line.line is Line.ASSIGNMENT and line.text),
        remarks=tuple(remarks),
        to_get=tuple(dict.fromkeys(thing for line in lines for thing in things_of(line))),
        goals=tuple(dict.fromkeys(line for line in lines if line.line is Line.GOAL)),
    )


def things_of(line: NoteLine) -> tuple[NoteLine, ...]:
    """The things that a line names to get, each as a line of its own; none in any other line.

    Commas and semicolons part them, but not between two numbers, nor in brackets, braces, quotes, or an address:
    `Get: size 3/4 strings (A, D), book 2` is `Get: size 3/4 strings (A, D)` and `Get: book 2`.
    """
    if line.line is not Line.TO_GET or not line.text:
        return ()
    first, *others = _things_in(line.text)
    named = dict.fromkeys([first, *(_AND.sub("", other) for other in others)])
    head = f"{line.label}:"
    return tuple(replace(line, text=thing, typed=f"{head} {thing}", begins=len(head)) for thing in named)


def _things_in(text: str) -> list[str]:
    things = [""]
    for piece in re.finditer(_PIECES, text):
        if piece["parts"]:
            things.append("")
        else:
            things[-1] += piece[0]
    return [thing.strip() for thing in things if thing.strip()] or [text]


def follow_ups(body: str) -> tuple[str, ...]:
    """What the teacher owes, in order, each once."""
    return _texts(body, Line.FOLLOW_UP)


def next_time(body: str) -> tuple[str, ...]:
    """What she wanted to remember for the next lesson."""
    return _texts(body, Line.NEXT_TIME)


def _texts(body: str, wanted: Line) -> tuple[str, ...]:
    found = (line.text for line in read_notes(body) if line.line is wanted and line.text)
    return tuple(dict.fromkeys(found))
