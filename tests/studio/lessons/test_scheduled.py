"""The queue: lessons by rule, overlaid with what is recorded of them."""

from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import (
    CLOCK,
    DAY,
    HOME,
    HOUSEHOLDS,
    ILSE,
    ISHAAN,
    MIREILLE,
    NALANI,
    STARTS_AT,
    TEODOR,
    back_to_back,
    booking,
    enrollment,
    home,
    lesson,
    utc,
)

from cockpit.studio.clocks.moments import day_bounds
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome, begin, close_untaught, finish, weekly_id
from cockpit.studio.lessons.scheduled import (
    People,
    after_finishing,
    gone_along,
    in_order,
    live_one,
    merged,
    opens_on,
    planned,
    told_apart,
    was_taught,
)
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.values import replace

PEOPLE = People(
    students={who.id: who for who in HOUSEHOLDS},
    families={household.id: household for household, _ in HOUSEHOLDS.values()},
)
TUESDAY = day_bounds(DAY, HOME)
NOON = home("2026-12-01 12:00")


def day_of(enrollments, recorded=()):
    """The queue of the day as the program makes it."""
    return merged(planned(enrollments, CLOCK, *TUESDAY), recorded, PEOPLE, enrollments)


def test_a_day_is_planned_in_order_on_both_kinds_of_clock():
    enrollments = [
        enrollment(ILSE, at=time(17)),
        enrollment(TEODOR, at=time(21, 30), kept_in=KeptIn.FAMILY),
        enrollment(ISHAAN, weekday=2, at=time(4, 30), kept_in=KeptIn.FAMILY),
        enrollment(NALANI, weekday=3),
    ]
    queue = planned(enrollments, CLOCK, *TUESDAY)
    assert [(each.student.name, each.lesson.starts_at) for each in queue] == [
        ("Teodor", home("2026-12-01 15:30")),
        ("Ilse", home("2026-12-01 17:00")),
        ("Ishaan", home("2026-12-01 17:00")),
    ]
    assert [each.family.name for each in queue] == ["Okonjo", "Brandvold", "Banerjee"]
    assert not any(each.is_recorded for each in queue)


def test_a_planned_lesson_takes_length_instrument_and_call_link_from_its_standing_time():
    kept = enrollment(MIREILLE, minutes=45, call_link="https://call.example.org/mireille")
    (found,) = planned([kept], CLOCK, *TUESDAY)
    assert (found.lesson.minutes, found.lesson.instrument) == (45, "clarinet")
    assert found.call_link == "https://call.example.org/mireille"
    assert found.lesson.id == "w3-2026-12-01"


def test_a_recorded_lesson_takes_the_place_of_the_one_by_rule():
    kept = enrollment(call_link="https://call.example.org/ilse")
    running = begin(lesson(), STARTS_AT)
    (found,) = day_of([kept], [running])
    assert found.lesson == running
    assert found.is_recorded
    assert found.call_link == "https://call.example.org/ilse"


def test_a_lesson_that_was_begun_stays_where_it_was_taught_when_the_standing_time_moves():
    running = begin(lesson(), STARTS_AT)
    (found,) = day_of([enrollment(at=time(18), minutes=60)], [running])
    assert found.lesson == running


def test_a_lesson_with_nothing_but_notes_follows_its_standing_time():
    (found,) = day_of([enrollment(at=time(18), minutes=60)], [lesson()])
    assert (found.lesson.starts_at, found.lesson.minutes) == (home("2026-12-01 18:00"), 60)
    assert found.is_recorded


def test_a_cancelled_lesson_stays_cancelled_when_its_standing_time_moves():
    (found,) = day_of([enrollment(at=time(18))], [close_untaught(lesson(), Outcome.CANCELLED)])
    assert found.lesson.outcome is Outcome.CANCELLED


def test_a_recorded_lesson_that_no_rule_names_stays_in_the_day():
    extra = lesson(id=LessonId("extra"), standing_time_id=None, kind=Kind.MAKE_UP, student_id=TEODOR.id)
    queue = day_of([enrollment()], [extra])
    assert [each.student.name for each in queue] == ["Ilse", "Teodor"]
    assert [each.call_link for each in queue] == [None, None]


def test_a_lesson_of_a_standing_time_that_was_given_up_is_still_there():
    taught = finish(begin(lesson(), STARTS_AT), STARTS_AT + timedelta(minutes=30))
    (found,) = day_of([], [taught])
    assert (found.lesson, found.student, found.family) == (taught, ILSE, HOUSEHOLDS[ILSE][0])


@given(st.sets(st.sampled_from(list(HOUSEHOLDS)), min_size=1), st.data())
def test_no_lesson_is_ever_in_a_day_twice(students, data):
    enrollments = [enrollment(who, at=time(8 + who.id)) for who in students]
    by_rule = [each.lesson for each in planned(enrollments, CLOCK, *TUESDAY)]
    recorded = data.draw(st.lists(st.sampled_from(by_rule), unique_by=lambda each: each.id))
    began = [begin(each, each.starts_at) if data.draw(st.booleans()) else each for each in recorded]
    queue = day_of(enrollments, began)
    assert sorted(each.lesson.id for each in queue) == sorted(each.id for each in by_rule)
    assert {each.lesson.id for each in queue if each.is_recorded} == {each.id for each in recorded}


@given(st.permutations([*back_to_back(30, 45, 60), booking(NALANI), booking(ISHAAN), booking(ISHAAN, id="extra")]))
def test_the_order_of_a_day_never_flickers(shuffled):
    ordered = in_order(shuffled)
    assert [each.student.name for each in ordered] == ["Ilse", "Ishaan", "Ishaan", "Nalani", "Teodor", "Mireille"]
    assert ordered == in_order(reversed(shuffled))


def test_two_lessons_at_once_stand_by_name():
    at_once = [booking(TEODOR), booking(ILSE), booking(MIREILLE)]
    assert [each.student.name for each in in_order(at_once)] == ["Ilse", "Mireille", "Teodor"]


def test_the_day_opens_on_the_running_lesson():
    first, second, third = back_to_back(30, 30, 30)
    second = replace(second, lesson=begin(second.lesson, NOON))
    assert opens_on([first, second, third], NOON) == second.lesson.id
    assert live_one([first, second, third]) == second


def test_the_day_opens_on_the_next_lesson_that_is_not_over():
    queue = back_to_back(30, 30, 30)
    assert opens_on(queue, NOON) == queue[0].lesson.id
    assert opens_on(queue, STARTS_AT + timedelta(minutes=29)) == queue[0].lesson.id
    assert opens_on(queue, STARTS_AT + timedelta(minutes=30)) == queue[1].lesson.id


def test_the_day_does_not_open_on_a_cancelled_lesson():
    first, second = back_to_back(30, 30)
    first = replace(first, lesson=close_untaught(first.lesson, Outcome.CANCELLED))
    assert opens_on([first, second], NOON) == second.lesson.id


def test_a_day_that_is_over_opens_on_its_last_lesson_and_an_empty_one_on_none():
    queue = back_to_back(30, 30)
    assert opens_on(queue, utc("2026-12-05")) == queue[-1].lesson.id
    assert opens_on([], NOON) is None


def test_after_finishing_comes_the_next_lesson_that_is_still_open():
    first, second, third = back_to_back(30, 30, 30)
    second = replace(second, lesson=close_untaught(second.lesson, Outcome.ABSENT))
    assert after_finishing([first, second, third], first.lesson.id) == third.lesson.id


def test_the_very_next_lesson_comes_first():
    first, second, third = back_to_back(30, 30, 30)
    assert after_finishing([first, second, third], first.lesson.id) == second.lesson.id


def test_after_the_last_lesson_of_the_day_it_stays_on_the_screen():
    queue = back_to_back(30, 30)
    assert after_finishing(queue, queue[-1].lesson.id) == queue[-1].lesson.id


@pytest.mark.parametrize(
    ("it", "taught"),
    [
        (lesson(), False),
        (begin(lesson(), STARTS_AT), True),
        (finish(lesson(), STARTS_AT), True),
        (close_untaught(lesson(), Outcome.ABSENT), False),
        (close_untaught(begin(lesson(), STARTS_AT), Outcome.CANCELLED), False),
    ],
)
def test_a_lesson_counts_as_taught_when_it_took_place(it, taught):
    assert was_taught(it) is taught


def test_a_standing_time_from_a_later_date_plans_nothing_yet():
    assert planned([enrollment(from_on=date(2026, 12, 2))], CLOCK, *TUESDAY) == []


def test_two_students_of_one_name_are_told_apart_by_their_families():
    other = replace(booking(TEODOR), student=replace(TEODOR, name="ilse"))
    told = told_apart([booking(), other, booking(MIREILLE)])
    assert [each.student.name for each in told] == ["Ilse (Brandvold)", "ilse (Okonjo)", "Mireille"]


def test_a_recorded_lesson_that_its_standing_time_names_on_another_day_is_not_of_this_one():
    tuesdays = enrollment(ILSE, kept_in=KeptIn.FAMILY)
    there = lesson(standing_time_id=tuesdays.standing.id, id=weekly_id(tuesdays.standing.id, DAY))
    assert gone_along((), [there], [tuesdays]) == {there.id}
    assert gone_along(planned([tuesdays], CLOCK, *TUESDAY), [there], [tuesdays]) == frozenset()
    cancelled = close_untaught(there, Outcome.CANCELLED)
    assert gone_along((), [cancelled], [tuesdays]) == {there.id}
    taught = finish(begin(there, NOON), NOON)
    assert gone_along((), [taught, replace(there, is_moved=True)], [tuesdays]) == frozenset()
    ended = enrollment(ILSE, kept_in=KeptIn.FAMILY, until_on=DAY - timedelta(days=1))
    assert gone_along((), [there], [ended]) == frozenset()
