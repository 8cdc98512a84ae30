"""What a teacher is told about a plan before the family gets it."""

import pytest
from support.plans import MONDAY, WEDNESDAY, assigned, quarter, week

from cockpit.studio.notes.notes import Area
from cockpit.studio.practice.notices import plan_notices, shared_minutes
from cockpit.studio.practice.plan import week_plan
from cockpit.studio.practice.rules import PlanRules

SCALES = assigned("D major", Area.SCALES, minutes=20)
ETUDE, EAR = assigned("no. 7, slowly", Area.ETUDE), assigned("sing it", Area.EAR)
TWELVE = [assigned(f"no. {number}") for number in range(12)]


def told(*lines, daily=None, heard=None):
    return plan_notices(week_plan(lines, week(daily), PlanRules(), heard or {}))


@pytest.mark.parametrize(
    ("lines", "daily", "sentences"),
    [
        ([SCALES], 20, ()),
        ([SCALES, ETUDE], 30, ()),
        ([SCALES, ETUDE, EAR], 20, ("No minutes are left for Etude: no. 7 and Ear: sing it.",)),
        (
            [SCALES, ETUDE],
            15,
            (
                "The minutes in these notes come to 20 on Wednesday. The student has 15 minutes a day.",
                "No minutes are left for Etude: no. 7.",
            ),
        ),
        ([SCALES, ETUDE, EAR], 23, ("Only 1 minute a day is left for Ear: sing it.",)),
        (
            [*TWELVE[:3]],
            3,
            ("Only 1 minute a day is left for Piece: no. 0, Piece: no. 1, and Piece: no. 2.",),
        ),
        ([assigned("a", minutes=1)], 20, ()),  # hers
        ([SCALES, ETUDE], None, ()),  # nobody said how many a day has
    ],
)
def test_minutes_that_do_not_fit_are_told(lines, daily, sentences):
    assert told(*lines, daily=daily) == sentences


def test_twelve_slots_of_a_minute_are_told():
    (sentence,) = told(*TWELVE, daily=12)
    assert sentence.startswith("Only 1 minute a day is left for Piece: no. 0, ")
    assert sentence.count("Piece:") == 12


def test_an_excess_is_told_for_the_day_where_it_is_most():
    lines = [SCALES, assigned("no. 7", Area.ETUDE, minutes=15, days=frozenset({MONDAY}))]
    assert told(*lines, daily=30)[0] == (
        "The minutes in these notes come to 35 on Monday. The student has 30 minutes a day."
    )


def test_a_goal_out_of_reach_is_told_with_where_the_week_ends():
    line = assigned("Gavotte, q = 60 to 120", tempo=quarter(120, 60))
    assert told(line) == ("Piece: Gavotte: 96 by Monday, 120 is beyond this week.",)
    some = assigned("Gavotte, q = 60 to 120", tempo=quarter(120, 60), days=frozenset({WEDNESDAY}))
    assert told(some) == ("Piece: Gavotte: 66 by Wednesday, 120 is beyond this week.",)
    assert told(assigned("Gavotte", tempo=quarter(120))) == ()
    assert told(assigned("Gavotte", tempo=quarter(72, 60))) == ()


def test_a_line_without_a_practice_day_is_told():
    line = assigned("page 7, Tue only", Area.THEORY, days=frozenset({1}))
    assert told(line) == ("No practice day this week has Theory: page 7.",)


def test_a_long_line_is_named_by_its_beginning():
    (sentence,) = told(assigned("l" + "a" * 60, tempo=quarter(120, 60)))
    assert sentence.startswith("Piece: laaa")
    assert "a…: 96 by Monday" in sentence


@pytest.mark.parametrize(
    ("lines", "daily", "sentence"),
    [
        ([SCALES], 30, None),
        ([SCALES, ETUDE], None, None),
        ([SCALES, ETUDE], 20, None),  # none is left
        ([SCALES, ETUDE], 30, "You typed 20 minutes a day. The plan gives 10 more to Etude: no. 7."),
        (
            [SCALES, ETUDE, EAR],
            31,
            "You typed 20 minutes a day. The plan gives 11 more to Etude: no. 7 and Ear: sing it.",
        ),
        ([ETUDE], 15, "You typed no minutes. The plan gives 15 a day to Etude: no. 7."),
    ],
)
def test_minutes_that_nobody_typed_are_told_beside_those_that_were(lines, daily, sentence):
    assert shared_minutes(week_plan(lines, week(daily), PlanRules(), {})) == sentence
