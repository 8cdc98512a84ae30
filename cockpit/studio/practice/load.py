"""The minutes that a week asks for: the running sum, and a word when they grow suddenly.

Sources of the wording: the student sheet of NASM and PAMA says to avoid sudden increases in practice time; BAPAM calls
a sudden increase in playing load a common trigger for injury in musicians. Neither gives a number of minutes. The
threshold is ours: common practice, no source. This is general information and never medical advice.
"""

from collections.abc import Iterable, Sequence

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.clocks.words import minutes_of
from cockpit.studio.notes.notes import Line, NoteLine
from cockpit.studio.practice.rules import EVERY_DAY, LoadRules
from cockpit.studio.values import Value, field, replace


class DailySum(Value):
    """The minutes typed for a day, and those that the student has; None where nobody said."""

    typed: int
    of: int | None

    @property
    def words(self) -> str:
        """The sum as the notes pane shows it: `27 of 30 minutes a day`."""
        if self.of is None:
            return f"{minutes_of(self.typed)} a day"
        return f"{self.typed} of {minutes_of(self.of)} a day"


def daily_sum(assignments: Sequence[Assignment], daily_minutes: int | None) -> DailySum:
    """The minutes typed for a day, on the weekday where they are most.

    A line without days counts on every weekday, one with days of its own only on those. A review piece counts as if it
    came every day: on some day it does.
    """
    by_weekday = (sum(each.minutes or 0 for each in assignments if each.is_due_on(weekday)) for weekday in range(7))
    return DailySum(typed=max(by_weekday), of=daily_minutes)


def planned_minutes(
    assignments: Sequence[Assignment], daily_minutes: int | None, weekdays: frozenset[int] = EVERY_DAY
) -> int | None:
    """The minutes that a plan of some assignments asks for on the fullest of the practice days; None where it asks for none.

    They are the typed ones and, where one has none of its own, all that the student has.
    """
    asked = []
    for weekday in weekdays:
        due = [each for each in assignments if each.days is None or weekday in each.days]
        typed = sum(each.minutes or 0 for each in due)
        is_shared = any(each.minutes is None for each in due)
        asked.append(max(typed, daily_minutes or 0) if is_shared else typed)
    return max(asked, default=0) or None


def sudden_increase(last_week: int | None, this_week: int | None, rules: LoadRules) -> str | None:
    """A sentence for the teacher when the daily minutes grow well beyond last week's; None when they do not.

    Both are what a plan asks for on its fullest day. Nothing is said where one of them is not known.
    """
    if last_week is None or this_week is None or not _is_sudden(last_week, this_week, rules):
        return None
    return (
        f"This week's notes ask for {minutes_of(this_week)} a day. Last week's asked for {last_week or 'none'}. "
        "A sudden increase in playing can lead to injury."
    )


def _is_sudden(last_week: int, this_week: int, rules: LoadRules) -> bool:
    grown = this_week - last_week
    return grown >= max(1, rules.minutes) and 100 * grown > rules.percent * last_week


class Budget(Value):
    """The student's daily minutes, None where nobody said, their practice days, and what last week's plan asked for."""

    daily_minutes: int | None = None
    weekdays: frozenset[int] = EVERY_DAY
    last_week: int | None = None
    rules: LoadRules = field(default_factory=LoadRules)

    def asked(self, lines: Iterable[NoteLine]) -> DailySum:
        """The minutes a day that lines ask for."""
        return daily_sum(_assignments(lines), self.daily_minutes)

    def planned(self, lines: Iterable[NoteLine]) -> int | None:
        """The minutes a day that a plan of these lines asks for."""
        return planned_minutes(_assignments(lines), self.daily_minutes, self.weekdays)

    def warning(self, lines: Iterable[NoteLine]) -> str | None:
        """A sentence for the teacher when the minutes grow well beyond last week's."""
        return sudden_increase(self.last_week, self.planned(lines), self.rules)


def budget_after(
    lines: Iterable[NoteLine], daily_minutes: int | None, weekdays: frozenset[int], rules: LoadRules
) -> Budget:
    """What a student has, after a lesson that gave these lines."""
    before = Budget(daily_minutes=daily_minutes, weekdays=weekdays, rules=rules)
    return replace(before, last_week=before.planned(lines))


def _assignments(lines: Iterable[NoteLine]) -> list[Assignment]:
    return [read_assignment(line) for line in lines if line.line is Line.ASSIGNMENT and line.text]
