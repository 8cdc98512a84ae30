"""The plan that goes with a lesson's notes: when there is one, and from what it is made."""

from datetime import date, timedelta

import pytest
from support.plans import LESSON_ON, NEXT_ON
from support.studio import student

from cockpit.studio.assignments.last_lesson import TaughtNotes
from cockpit.studio.changes.records import Heard
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import for_family
from cockpit.studio.people.people import PlanForm
from cockpit.studio.practice.given_again import Earlier
from cockpit.studio.practice.lesson_plan import lesson_plan
from cockpit.studio.practice.rules import EVERY_DAY, PracticeRules

NOTHING = Earlier(marks={}, heard={})


def plan_of(body, next_on=NEXT_ON, earlier=NOTHING, usual_days=EVERY_DAY, **of_student):
    return lesson_plan(
        for_family(body), student(**of_student), (LESSON_ON, next_on), earlier, PracticeRules(days=usual_days)
    )


def practiced_on(plan):
    return [day.on.day for day in plan.days if day.items]


def test_the_days_between_the_lessons_share_the_daily_minutes():
    plan = plan_of("Scales: D major, 5 min\nPiece: Gavotte", daily_minutes=20)
    assert practiced_on(plan) == [2, 3, 4, 5, 6, 7]
    assert [[item.minutes for item in day.items] for day in plan.days] == [[5, 15]] * 6


@pytest.mark.parametrize(("days", "is_planned"), [(28, True), (29, False), (2, True), (1, False), (None, False)])
def test_there_is_a_plan_when_the_next_lesson_is_within_four_weeks(days, is_planned):
    next_on = LESSON_ON + timedelta(days=days) if days is not None else None
    assert (plan_of("Piece: Gavotte, 5 min", next_on) is not None) == is_planned


@pytest.mark.parametrize(
    ("body", "daily", "is_planned"),
    [
        ("Piece: Gavotte", None, False),  # the list says it all
        ("Piece: Gavotte, q = 72", None, False),
        ("Piece: Gavotte, mm. 1-40", None, True),  # other measures each day
        ("Piece: Gavotte, mm. 1-40, B part 45-60", None, False),  # which measures is not sure: no day tells any
        ("Piece: Gavotte", 20, True),
        ("Piece: Gavotte, 5 min", None, True),
        ("Piece: Gavotte, q = 60 to 72", None, True),  # another tempo each day
        ("Piece: Gavotte\nScales: D major, Mon Wed Fri", None, True),
        ("Well played.\nPrivate: Piece: Gavotte, 5 min", 20, False),
        ("", 20, False),
    ],
)
def test_a_list_that_says_no_more_than_the_assignments_is_left_out(body, daily, is_planned):
    assert (plan_of(body, daily_minutes=daily, plan=PlanForm.LIST) is not None) == is_planned


@pytest.mark.parametrize(
    ("body", "is_planned"),
    [("Piece: Gavotte", True), ("Well played.", False), ("Piece: Gavotte, Tue only", False), ("", False)],
)
def test_a_chart_has_boxes_to_check_off_and_always_says_more(body, is_planned):
    assert (plan_of(body, plan=PlanForm.CHART) is not None) == is_planned
    assert plan_of(body, plan=PlanForm.NONE) is None


def test_a_chart_of_more_than_two_weeks_is_a_list():
    three_weeks = LESSON_ON + timedelta(days=21)
    assert plan_of("Piece: Gavotte", three_weeks) is None
    assert plan_of("Piece: Gavotte, 5 min", three_weeks) is not None
    assert plan_of("Piece: Gavotte", three_weeks, practice_days=frozenset({0, 2})) is not None


def test_the_form_is_the_students_or_else_that_of_the_settings():
    notes, days = for_family("Piece: Gavotte, 5 min"), (LESSON_ON, NEXT_ON)
    none, own = PracticeRules(form=PlanForm.NONE), student(plan=PlanForm.LIST)
    assert lesson_plan(notes, student(), days, NOTHING, none) is None
    assert lesson_plan(notes, own, days, NOTHING, none) is not None


def test_a_student_has_days_of_their_own_or_else_the_usual_ones():
    monday_to_friday = frozenset(range(5))
    assert practiced_on(plan_of("Piece: Gavotte, 5 min", usual_days=monday_to_friday)) == [2, 3, 4, 7]
    own = plan_of("Piece: Gavotte, 5 min", usual_days=monday_to_friday, practice_days=frozenset({5, 6}))
    assert practiced_on(own) == [5, 6]
    assert plan_of("Piece: Gavotte, 5 min", practice_days=frozenset()) is None


def test_no_minutes_a_day_are_none_that_were_said():
    assert plan_of("Piece: Gavotte, 5 min", daily_minutes=0).exceeds_by == 0


def test_a_ladder_begins_where_the_piece_was_heard_and_a_review_piece_goes_on_where_it_was():
    given, lesson_id = "Piece: Gavotte, q = 72\nReview: The Old Mill", LessonId("w1-2026-11-24")
    line = given.split("\n", maxsplit=1)[0]
    known = Earlier(
        taught=[TaughtNotes(lesson_id=lesson_id, taught_on=date(2026, 11, 24), body=given, minutes=45)],
        heard={(lesson_id, line): Heard(lesson_id=lesson_id, line=line, tempo=60)},
        marks={},
    )
    body = "Piece: Gavotte, q = 72\nReview: The Old Mill, 2 min"
    plan = plan_of(body, earlier=known)
    assert [day.items[0].tempo.goal for day in plan.days] == [60, 60, 63, 66, 69, 72]
    # Gaps of 1, 2, 3, 4 bring it on the practice days 0, 1, 3, 6, 10, 14; six of them went by last week.
    assert [day.on.day - 2 for day in plan.days if len(day.items) > 1] == [0, 4]
    assert [day.on.day - 2 for day in plan_of(body).days if len(day.items) > 1] == [0, 1, 3]


def test_the_same_notes_always_give_the_same_plan():
    body = "Scales: D major, q = 60 to 72\nPiece: Gavotte, mm. 1-40\nReview: The Old Mill"
    assert plan_of(body, daily_minutes=31) == plan_of(body, daily_minutes=31)
