"""The values of a week's practice: the rules for planning it, and a plan by day."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date, timedelta
from types import MappingProxyType

from cockpit.studio.assignment import Assignment, Measures, Tempo
from cockpit.studio.notes import Area

EVERY_DAY = frozenset(range(7))
_DAY = timedelta(days=1)
# Common practice, no source: the minutes that a lesson of half an hour gives to each; the new ones after their like.
WEIGHTS: Mapping[Area, int] = MappingProxyType(
    {
        Area.WARM_UP: 2,
        Area.SCALES: 5,
        Area.TECHNIQUE: 5,
        Area.ETUDE: 6,
        Area.METHOD_BOOK: 6,
        Area.PIECE: 10,
        Area.REVIEW: 4,
        Area.THEORY: 2,
        Area.EAR: 2,
        Area.SIGHT_READING: 2,
        Area.LISTENING: 2,
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRules:
    """What a teacher may set about plans. Every default is common practice or our own choice, without a source.

    `weights` share the minutes that are not typed; an area without one weighs 1. `largest_step` is in metronome marks a
    day. A passage of more than `longest_passage` measures is cut into spans of at most `span_measures`, which share
    `overlap` measures. `turn_minutes` is the length of a turn where pieces are practiced in turns. `review_gaps` are
    the practice days from one coming round of a review piece to the next.
    """

    weights: Mapping[Area, int] = field(default_factory=lambda: WEIGHTS)
    largest_step: int = 2
    longest_passage: int = 16
    span_measures: int = 8
    overlap: int = 1
    turn_minutes: int = 3
    review_gaps: tuple[int, ...] = (1, 2, 3, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeWeek:
    """The days that are planned, `first` to `last`, both inclusive; those of `weekdays` (Monday is 0) have practice.

    `daily_minutes` are what the student has each practice day; None where nobody said.
    """

    first: date
    last: date
    weekdays: frozenset[int] = EVERY_DAY
    daily_minutes: int | None = None

    @property
    def days(self) -> tuple[date, ...]:
        """Every day of it, rest days too."""
        return tuple(self.first + n * _DAY for n in range((self.last - self.first).days + 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class Through:
    """How often the measures of an item can be played whole in its minutes; without a meter, 4/4 is assumed."""

    times: int
    is_meter_assumed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanItem:
    """An assignment on one day: its minutes, the measures and the tempo of that day.

    `minutes` are None where there are none to tell. `through` says how often the measures fit into them where that is of
    any use, `turns` how long each turn is where the assignment is practiced in turns with `turns_with`.
    """

    assignment: Assignment
    minutes: int | None
    measures: tuple[Measures, ...]
    tempo: Tempo | None
    through: Through | None = None
    turns: tuple[int, ...] = ()
    turns_with: tuple[Assignment, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One turn: an assignment, for some minutes."""

    assignment: Assignment
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class DayPlan:
    """One day: its items as they were typed, nothing on a rest day.

    `exceeds_by` is by how many minutes the typed ones exceed the daily minutes, `spare` how many of the daily minutes
    nothing is planned for. `turns` is the order of those practiced in turns.
    """

    on: date
    items: tuple[PlanItem, ...] = ()
    exceeds_by: int = 0
    spare: int = 0
    turns: tuple[Turn, ...] = ()

    @property
    def minutes(self) -> int:
        """The minutes of all items."""
        return sum(item.minutes or 0 for item in self.items)


@dataclass(frozen=True, slots=True, kw_only=True)
class WeekPlan:
    """Every day from the lesson to the next one, and the assignments that no practice day is named for."""

    days: tuple[DayPlan, ...]
    never_due: tuple[Assignment, ...] = ()

    @property
    def exceeds_by(self) -> int:
        """By how many minutes the typed ones exceed the daily minutes on the day where it is most."""
        return max((day.exceeds_by for day in self.days), default=0)

    @property
    def fullest(self) -> int:
        """The minutes of the fullest day."""
        return max((day.minutes for day in self.days), default=0)
