"""The parts of a lesson, shared out over the minutes that there are."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.lessons.lesson import Lesson, LessonId
from cockpit.studio.lessons.pacing import USUAL, paced, pacing_of
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import replace

STARTS = datetime(2026, 12, 1, 22, tzinfo=UTC)


def lesson(minutes, late=0):
    return Lesson(
        id=LessonId("1"),
        student_id=StudentId(1),
        starts_at=STARTS,
        minutes=minutes,
        began_at=STARTS + timedelta(minutes=late),
    )


# Worked by hand from the rule: the last part keeps its length, the others by the largest remainder, ties to the earlier.
@pytest.mark.parametrize(
    ("length", "left", "shares"),
    [
        (45, 45, [3, 8, 8, 15, 4, 3, 4]),
        (45, 39, [3, 7, 7, 13, 3, 2, 4]),
        (30, 21, [2, 3, 4, 7, 1, 1, 3]),
        (60, 50, [3, 10, 8, 17, 4, 3, 5]),
        (45, 20, [1, 3, 3, 6, 2, 1, 4]),
        (30, 3, [3]),
        (30, 2, [2]),
        (30, 0, []),
    ],
)
def test_what_is_left_is_shared_out_in_whole_minutes(length, left, shares):
    assert [share for _, share in paced(USUAL[length], left)] == shares


@given(st.lists(st.integers(0, 90), min_size=1, max_size=9), st.integers(0, 300))
def test_the_parts_fill_the_minutes_and_the_last_one_keeps_its_length(shares, minutes):
    plan = tuple((str(place), share) for place, share in enumerate(shares))
    found = paced(plan, minutes)
    if sum(shares[:-1]) or minutes <= shares[-1]:
        assert sum(share for _, share in found) == minutes
    assert all(share > 0 for _, share in found)
    assert dict(found).get(plan[-1][0], 0) == min(minutes, shares[-1]) or not sum(shares[:-1])
    assert [name for name, _ in found] == sorted((name for name, _ in found), key=int)


@pytest.mark.parametrize(
    ("begun", "first", "last"),
    [
        (lesson(45), ("hello", 0), ("wrap-up", 41)),
        (lesson(45, late=6), ("hello", 6), ("wrap-up", 41)),
        (replace(lesson(45, late=6), gives_full_length=True), ("hello", 6), ("wrap-up", 47)),
        (lesson(45, late=-3), ("hello", 0), ("wrap-up", 41)),
        (lesson(30, late=29), ("wrap-up", 29), ("wrap-up", 29)),
    ],
)
def test_each_part_begins_when_the_one_before_is_over(begun, first, last):
    parts = [(name, (at - STARTS).total_seconds() // 60) for name, at in pacing_of(begun, USUAL)]
    assert (parts[0], parts[-1]) == (first, last)


def test_a_lesson_of_another_length_takes_the_next_longer_plan():
    parts = pacing_of(lesson(50), USUAL)
    assert [(at - STARTS).total_seconds() // 60 for _, at in parts] == [0, 3, 13, 21, 38, 42, 45]
    assert pacing_of(lesson(20), USUAL)[-1][1] == STARTS + timedelta(minutes=17)
    assert pacing_of(lesson(90), USUAL)[-1][1] == STARTS + timedelta(minutes=85)


def test_a_lesson_that_has_not_begun_or_has_no_plan_has_no_parts():
    assert pacing_of(replace(lesson(45), began_at=None), USUAL) == []
    assert pacing_of(lesson(45), {}) == []
