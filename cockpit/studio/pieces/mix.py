"""The mix of what a student is given: which areas and strands the last eight weeks touched, and for how long one was not.

There are no targets: no published share exists. Limits are the teacher's own.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import date

from cockpit.studio.changes.pieces import Piece, StrandLeft
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.areas import Area
from cockpit.studio.pieces.given import GivenLine
from cockpit.studio.pieces.rules import CHOSEN, ORIGIN, MixRules
from cockpit.studio.values import Value, field

WEEKS = 8
_WEEK = 7
MOST_TOLD = 2
_AREAS = frozenset(map(str, Area))
LinePlace = tuple[LessonId, int]
"""A lesson and the place of a line in it."""


class MixLine(Value):
    """An area or a strand over eight weeks: the `touched` ones by how many weeks ago they are, from 0 to 7.

    `minutes` are those of its lines in these weeks, as far as they are known. `last_on` is when it was last given, and None
    where it never was. `weeks_since` is how many weeks ago that is, or the first lesson, without breaks and pauses; where
    some were taken off, `has_breaks`. One that is not taught, or left for a season, `is_left`.
    """

    name: str
    touched: frozenset[int] = frozenset()
    minutes: int | None = None
    last_on: date | None = None
    weeks_since: int = 0
    has_breaks: bool = False
    is_left: bool = False

    @property
    def cells(self) -> tuple[bool, ...]:
        """Whether each of the eight weeks was touched, the oldest first."""
        return tuple(week in self.touched for week in reversed(range(WEEKS)))


class Mix(Value):
    """The mix of one student on a date: the areas that were ever given, and those with a limit, the most touched first, and all strands in her order."""

    areas: tuple[MixLine, ...]
    strands: tuple[MixLine, ...]

    def line(self, name: str) -> MixLine | None:
        """The area of a name, or else the strand."""
        return next((each for each in (*self.areas, *self.strands) if each.name == name), None)


class StudioStrand(Value):
    """A strand over all students: those whom the last eight weeks touched, and the others who are taught it, the longest ago first."""

    name: str
    touched: tuple[str, ...]
    others: tuple[tuple[str, MixLine], ...]

    @property
    def count(self) -> int:
        """How many students are taught it."""
        return len(self.touched) + len(self.others)


class GivenSoFar(Value):
    """A student's lines, the oldest first, with what is said of the pieces by key, and the minutes of a week by line.

    `first_on` is the student's first lesson, and `off` are the days without lessons, of breaks and pauses. Where the lines do
    not go back to the first lesson, `last_on` says when each area was given last. `left` is what the student is not taught,
    or what is left for a season.
    """

    lines: Sequence[GivenLine]
    said: Mapping[str, Piece] = field(default_factory=dict)
    minutes: Mapping[LinePlace, int] = field(default_factory=dict)
    first_on: date | None = None
    last_on: Mapping[str, date] = field(default_factory=dict)
    off: Collection[date] = ()
    left: Collection[StrandLeft] = ()


def mix_of(given: GivenSoFar, on: date, rules: MixRules) -> Mix:
    """The mix of a student on a date of the teacher's clock."""
    past = [each for each in given.lines if each.on <= on]
    by_area: dict[str, list[GivenLine]] = {}
    for each in past:
        by_area.setdefault(each.read.area, []).append(each)
    for name in rules.limits:
        if name in _AREAS or name not in rules.strands:
            by_area.setdefault(name, [])
    for name in given.last_on:
        by_area.setdefault(name, [])
    areas = [_line(name, lines, (name,), given, on) for name, lines in by_area.items()]
    strands = [
        _line(name, [each for each in past if _is_in(each, words, given.said)], words, given, on)
        for name, words in rules.strands.items()
    ]
    return Mix(areas=tuple(sorted(areas, key=lambda each: -len(each.touched))), strands=tuple(strands))


def is_over(line: MixLine, rules: MixRules) -> bool:
    """Whether an area or a strand is longer ago than its limit, where it has one, is not left, and something is known of it."""
    limit = rules.limits.get(line.name)
    is_known = line.last_on is not None or not rules.is_by_word(line.name)
    return limit is not None and line.weeks_since > limit and not line.is_left and is_known


def to_mention(mix: Mix, rules: MixRules) -> tuple[MixLine, ...]:
    """What is over its limit and is mentioned at the beginning of a lesson: the longest ago first, at most two."""
    lines = (line for name in rules.limits if (line := mix.line(name)) is not None)
    over = [each for each in lines if is_over(each, rules)]
    return tuple(sorted(over, key=lambda each: -each.weeks_since)[:MOST_TOLD])


def by_strand(mixes: Mapping[str, Mix], rules: MixRules) -> tuple[StudioStrand, ...]:
    """The strands of the studio, from the mix of each student by what the student is called; in her order."""
    return tuple(
        StudioStrand(
            name=name,
            touched=tuple(student for student, line in lines.items() if line.touched),
            others=tuple(
                sorted(
                    ((student, line) for student, line in lines.items() if not line.touched and not line.is_left),
                    key=lambda each: (-each[1].weeks_since, each[0]),
                )
            ),
        )
        for name in rules.strands
        if (lines := {student: line for student, mix in mixes.items() for line in mix.strands if line.name == name})
    )


def _line(name: str, lines: Sequence[GivenLine], areas: Iterable[str], given: GivenSoFar, on: date) -> MixLine:
    recent = [each for each in lines if (on - each.on).days // _WEEK < WEEKS]
    known = [given.minutes[place] for each in recent if (place := (each.lesson_id, each.read.place)) in given.minutes]
    earlier = (given.last_on[area] for area in areas if area in given.last_on)
    last_on = max((*(each.on for each in lines), *(each for each in earlier if each <= on)), default=None)
    since = last_on or given.first_on or on
    off = sum(since < each <= on for each in set(given.off))
    return MixLine(
        name=name,
        touched=frozenset((on - each.on).days // _WEEK for each in recent),
        minutes=sum(known) if known else None,
        last_on=last_on,
        weeks_since=((on - since).days - off) // _WEEK,
        has_breaks=off > 0,
        is_left=any(each.strand == name and (each.until_on is None or on <= each.until_on) for each in given.left),
    )


def _is_in(given: GivenLine, words: Collection[str], said: Mapping[str, Piece]) -> bool:
    """Whether a line is of a strand: by its area, or by what is said of its piece."""
    piece = said.get(given.read.piece)
    return (
        given.read.area in words
        or (CHOSEN in words and piece is not None and piece.is_chosen)
        or (ORIGIN in words and piece is not None and bool(piece.origin))
    )
