"""The minutes that a lesson's notes ask for, beside those that the student has and those of the week before."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import Line, NoteLine
from cockpit.studio.practice.load import DailySum, daily_sum, sudden_increase
from cockpit.studio.practice.rules import LoadRules


@dataclass(frozen=True, slots=True, kw_only=True)
class Budget:
    """The student's daily minutes, None where nobody said, and those typed last week, None where there were none."""

    daily_minutes: int | None = None
    last_week: int | None = None
    rules: LoadRules = field(default_factory=LoadRules)

    def asked(self, lines: Iterable[NoteLine]) -> DailySum:
        """The minutes a day that lines ask for."""
        return daily_sum(_assignments(lines), self.daily_minutes)

    def warning(self, lines: Iterable[NoteLine]) -> str | None:
        """A sentence for the teacher when the minutes grow well beyond last week's."""
        return sudden_increase(self.last_week, self.asked(lines).typed or None, self.rules)


def typed_minutes(lines: Iterable[NoteLine]) -> int | None:
    """The minutes a day that the lines of an earlier lesson asked for; None where no minutes were typed."""
    return daily_sum(_assignments(lines), None).typed or None


def _assignments(lines: Iterable[NoteLine]) -> list[Assignment]:
    return [read_assignment(line) for line in lines if line.line is Line.ASSIGNMENT and line.text]
