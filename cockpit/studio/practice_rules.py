"""What a teacher may set about practice: how a week is planned, on which days, and when it has grown suddenly."""

from dataclasses import dataclass, field

from cockpit.studio.load import LoadRules
from cockpit.studio.practice_week import EVERY_DAY, PlanRules


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeRules:
    """Her rules; `days` are the weekdays of a student of whom none are known, Monday is 0."""

    days: frozenset[int] = EVERY_DAY
    plan: PlanRules = field(default_factory=PlanRules)
    load: LoadRules = field(default_factory=LoadRules)
