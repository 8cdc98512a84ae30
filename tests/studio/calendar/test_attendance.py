"""Attendance, always with its denominator."""

from support.studio import home, lesson

from cockpit.studio.calendar.attendance import Attendance, attendance
from cockpit.studio.clocks.moments import WEEK
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome, begin, close_untaught, finish
from cockpit.studio.values import replace
from cockpit.wording.pieces import attendance_words, one_decimal

NOW = home("2026-12-01 12:00")
BEGINS = home("2026-09-15 16:00")


def planned(number, **values):
    return lesson(**{"id": LessonId(f"w1-{number}"), "starts_at": BEGINS + number * WEEK} | values)


def taught(number, **values):
    booked = planned(number, **values)
    return finish(begin(booked, booked.starts_at), booked.planned_end)


def closed(number, outcome):
    return close_untaught(planned(number), outcome)


EIGHT_OF_TEN = [*map(taught, range(8)), closed(8, Outcome.CANCELLED), closed(9, Outcome.ABSENT)]


def test_eight_of_ten_planned_are_80_percent_and_of_those_held_88_9():  # computed by hand
    found = attendance(EIGHT_OF_TEN, NOW)
    assert found == Attendance(planned=10, attended=8, absent=1, cancelled=1)
    assert (one_decimal(found.percent_of_planned), one_decimal(found.percent_of_held)) == ("80.0", "88.9")
    assert attendance_words(found) == "8 of 10 planned lessons taught (80.0 %), 1 absent, 1 canceled in time"


def make_up(of, **values):
    return taught(10, id=LessonId("m1"), kind=Kind.MAKE_UP, standing_time_id=None, makes_up=LessonId(of), **values)


def test_a_lesson_that_was_made_up_counts_once_and_is_attended():
    found = attendance([*EIGHT_OF_TEN, make_up("w1-8")], NOW)
    assert found == Attendance(planned=10, attended=9, made_up=1, absent=1)


def test_a_make_up_that_is_still_to_come_or_was_missed_makes_nothing_up():
    coming = replace(make_up("w1-8"), began_at=None, finished_at=None)
    for other in (coming, replace(coming, outcome=Outcome.ABSENT)):
        assert attendance([*EIGHT_OF_TEN, other], NOW).attended == 8


def test_a_make_up_of_a_make_up_makes_up_the_first_lesson():
    missed = replace(make_up("w1-8"), began_at=None, finished_at=None, outcome=Outcome.CANCELLED)
    second = replace(make_up("m1"), id=LessonId("m2"))
    assert attendance([*EIGHT_OF_TEN, missed, second], NOW).made_up == 1


def test_lessons_to_come_trials_and_extras_are_not_planned_ones():
    others = [planned(11), taught(1, id=LessonId("t"), kind=Kind.TRIAL), taught(1, id=LessonId("e"), kind=Kind.EXTRA)]
    assert attendance(others, NOW) == Attendance(planned=0, attended=0)
    assert attendance_words(attendance([], NOW)) == "no lessons yet"


def test_one_that_nobody_marked_is_told_as_such():
    assert attendance([planned(0), taught(1)], NOW) == Attendance(planned=2, attended=1, unmarked=1)
