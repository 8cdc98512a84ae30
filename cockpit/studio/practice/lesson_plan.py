"""The practice plan that goes with a lesson's notes: from what the family sees of them, until the next lesson."""

from datetime import date

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import FamilyNotes
from cockpit.studio.people.people import PlanForm, Student
from cockpit.studio.practice.given_again import Earlier, practice_days_passed, tempos_heard
from cockpit.studio.practice.plan import week_between, week_plan
from cockpit.studio.practice.rules import PracticeRules
from cockpit.studio.practice.week import DayPlan, WeekPlan, fits_a_chart

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

    There is none where the student or the studio wants none, without an assignment that comes on a practice day, or
    without a next lesson within 28 days; and no list that would only say the assignments again: without any minutes,
    and the same every day. A chart has boxes to check off, and always says more.
    """
    form = student.plan or rules.form
    if form is PlanForm.NONE:
        return None
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
    is_chart = form is PlanForm.CHART and fits_a_chart(plan)
    return plan if is_chart or _tells_something(plan) else None


def _tells_something(plan: WeekPlan) -> bool:
    practice = [day for day in plan.days if day.items]
    return any(_is_timed(day) or day.items != practice[0].items for day in practice)


def _is_timed(day: DayPlan) -> bool:
    return any(item.minutes is not None for item in day.items)
