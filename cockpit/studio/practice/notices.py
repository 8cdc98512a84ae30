"""What a teacher is told about a week's plan before the family gets it: minutes that do not fit, goals too far away."""

from collections.abc import Iterator
from itertools import chain

from cockpit.studio.assignments.assignment import Assignment
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import listed, minutes_of
from cockpit.studio.practice.week import PlanItem, WeekPlan

# Common practice, no source: a share of one minute is a place on the list and not practice.
_TOO_SHORT = 1
_LONGEST_NAME = 40


def plan_notices(plan: WeekPlan) -> tuple[str, ...]:
    """Sentences about a plan, the weightiest first; none where everything has its minutes, its day, and its tempo."""
    return tuple(chain(_beyond(plan), _minutes(plan), _days(plan), _tempos(plan)))


def shared_minutes(plan: WeekPlan) -> str | None:
    """Which minutes of a plan's fullest day nobody typed, beside those that were; None where all were."""
    fullest = max(plan.days, key=lambda day: day.minutes, default=None)
    shared = [item for item in fullest.items if item.minutes and item.assignment.minutes is None] if fullest else []
    if fullest is None or not shared:
        return None
    given = sum(item.minutes or 0 for item in shared)
    if typed := fullest.minutes - given:
        return f"You typed {minutes_of(typed)} a day. The plan gives {given} more to {_names(shared)}."
    return f"You typed no minutes. The plan gives {given} a day to {_names(shared)}."


def _beyond(plan: WeekPlan) -> Iterator[str]:
    fullest = max(plan.days, key=lambda day: day.exceeds_by, default=None)
    if fullest is not None and fullest.exceeds_by:
        daily = minutes_of(fullest.minutes - fullest.exceeds_by)
        day = WEEKDAYS[fullest.on.weekday()]
        yield f"The minutes in these notes come to {fullest.minutes} on {day}. The student has {daily} a day."


def _minutes(plan: WeekPlan) -> Iterator[str]:
    if plan.daily_minutes is None:
        return
    shared = [item for day in plan.days for item in day.items if item.assignment.minutes is None]
    if without := [item for item in shared if item.minutes is None]:
        yield f"No minutes are left for {_names(without)}."
    if short := [item for item in shared if item.minutes is not None and item.minutes <= _TOO_SHORT]:
        yield f"Only {minutes_of(_TOO_SHORT)} a day is left for {_names(short)}."


def _days(plan: WeekPlan) -> Iterator[str]:
    if plan.never_due:
        yield f"No practice day this week has {listed([_name(each) for each in plan.never_due])}."


def _tempos(plan: WeekPlan) -> Iterator[str]:
    for each in plan.out_of_reach:
        day = WEEKDAYS[each.last_on.weekday()]
        yield f"{_name(each.assignment)}: {each.reached} by {day}, {each.goal} is beyond this week."


def _names(items: list[PlanItem]) -> str:
    return listed(list(dict.fromkeys(_name(item.assignment) for item in items)))


def _name(assignment: Assignment) -> str:
    """The area and how the line begins: `Piece: Gavotte`."""
    name = assignment.typed.partition(",")[0].strip()
    return name if len(name) <= _LONGEST_NAME else f"{name[: _LONGEST_NAME - 1].rstrip()}…"
