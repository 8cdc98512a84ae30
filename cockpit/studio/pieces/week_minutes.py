"""How many minutes a lesson's assignments were given, in all, over the days to the next lesson."""

from collections import Counter
from collections.abc import Iterable, Mapping
from datetime import date

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import NoteLine
from cockpit.studio.people.people import Student
from cockpit.studio.practice.plan import week_between, week_plan
from cockpit.studio.practice.rules import PracticeRules


def week_minutes(
    lines: Iterable[NoteLine], student: Student, days: tuple[date, date | None], rules: PracticeRules
) -> Mapping[str, int]:
    """The minutes of a lesson's assignments by line as typed: those of the plan until the next lesson, by its rules.

    `days` are the dates of both lessons. What has neither minutes of its own nor a share of daily minutes is not in it.
    """
    weekdays = student.practice_days if student.practice_days is not None else rules.days
    week = week_between(*days, weekdays, student.daily_minutes or None)
    plan = week_plan([read_assignment(line) for line in lines], week, rules.plan)
    found: Counter[str] = Counter()
    for item in (item for day in plan.days for item in day.items if item.minutes):
        found[item.assignment.typed] += item.minutes or 0
    return found
