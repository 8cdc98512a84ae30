"""What a teacher may set about practice: how a week is planned, on which days, and when it has grown suddenly."""

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType

from cockpit.studio.notes.areas import AnyArea, Area
from cockpit.studio.people.people import PlanForm
from cockpit.studio.values import Value, field

EVERY_DAY = frozenset(range(7))
# Common practice, no source: the minutes that a lesson of half an hour gives to each; the new ones after their like.
WEIGHTS: Mapping[AnyArea, int] = MappingProxyType(
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
        Area.RHYTHM: 2,
        Area.IMPROVISATION: 2,
        Area.OTHER: 4,
    }
)


class PlanRules(Value):
    """What a teacher may set about plans. Every default is common practice or our own choice, without a source.

    `weights` share the minutes that are not typed; an area without one weighs 1. `largest_step` is in metronome marks a
    day. A passage of more than `longest_passage` measures is cut into spans of at most `span_measures`, which share
    `overlap` measures. `turn_minutes` is the length of a turn where pieces are practiced in turns. `review_gaps` are
    the practice days from one coming round of a review piece to the next.
    """

    weights: Mapping[AnyArea, int] = field(default_factory=lambda: WEIGHTS)
    largest_step: int = 2
    longest_passage: int = 16
    span_measures: int = 8
    overlap: int = 1
    turn_minutes: int = 3
    review_gaps: tuple[int, ...] = (1, 2, 3, 4)


class LoadRules(Value):
    """When a week has grown suddenly: by more than `percent` of last week's daily minutes, and by at least `minutes`."""

    percent: int = 50
    minutes: int = 10


class HealthLine(StrEnum):
    """On which sheets of a student the health line is: the first of a month, every one, or none."""

    MONTHLY = "monthly"
    ALWAYS = "always"
    NEVER = "never"


class PracticeRules(Value):
    """Her rules; `form` and `days` (weekdays, Monday is 0) are those of a student of whom none are known."""

    form: PlanForm = PlanForm.CHART
    health_line: HealthLine = HealthLine.MONTHLY
    days: frozenset[int] = EVERY_DAY
    plan: PlanRules = field(default_factory=PlanRules)
    load: LoadRules = field(default_factory=LoadRules)
