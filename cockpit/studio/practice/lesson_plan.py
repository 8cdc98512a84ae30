"""The practice plan that goes with a lesson's notes: from what the family sees of them, until the next lesson."""

from datetime import date

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import FamilyNotes
from cockpit.studio.people.people import Student
from cockpit.studio.practice.given_again import Earlier, practice_days_passed, tempos_heard
from cockpit.studio.practice.plan import week_between, week_plan
from cockpit.studio.practice.rules import PracticeRules
from cockpit.studio.practice.week import DayPlan, WeekPlan

# A plan for longer than this would be of no use to anyone: a break's notes are the list alone. Our own choice.
LONGEST_WEEK = 28


def lesson_plan(
    notes: FamilyNotes,
    student: Student,
    days: tuple[date, date | None],
    earlier: Earlier,
    rules: PracticeRules,
) -> WeekPlan | None:
    """The plan between two lessons, on whose `days` (dates of the family's clock); None where there is none to tell.

    There is none without an assignment that comes on a practice day, without a next lesson within 28 days, and none
    that would only say the list of assignments again: without any minutes, and the same every day.
    """
    lesson_on, next_on = days
    if next_on is None or (next_on - lesson_on).days > LONGEST_WEEK:
        return None
    weekdays = student.practice_days if student.practice_days is not None else rules.days
    plan = week_plan(
        [read_assignment(line) for line in notes.assignments],
        week_between(lesson_on, next_on, weekdays, student.daily_minutes or None),
        rules.plan,
        tempos_heard(notes.assignments, earlier),
        practice_days_passed(notes.assignments, earlier, lesson_on, weekdays),
    )
    return plan if _tells_something(plan) else None


def _tells_something(plan: WeekPlan) -> bool:
    practice = [day for day in plan.days if day.items]
    return any(_is_timed(day) or day.items != practice[0].items for day in practice)


def _is_timed(day: DayPlan) -> bool:
    return any(item.minutes is not None for item in day.items)
