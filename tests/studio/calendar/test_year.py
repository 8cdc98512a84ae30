"""The studio year: what counts toward the number promised, and which make-ups are owed. Common practice, no source."""

from collections import Counter
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import CLOCK, HOME, HOUSEHOLDS, ILSE, NALANI, STARTS_AT, TEODOR, booking, home, lesson, utc

from cockpit.studio.calendar.year import StudentYear, StudioYear, make_ups_owed, months, year_plan
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import WEEK
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, Outcome, begin, close_untaught, finish
from cockpit.studio.lessons.policy import USUAL_POLICY, Policy
from cockpit.studio.people.people import StudentId
from cockpit.studio.values import replace

NOW = home("2026-12-01 12:00")
HALF_AN_HOUR = timedelta(minutes=30)

OWING = USUAL_POLICY.owing


def meeting(name, weeks=0, **values) -> Lesson:
    """A lesson of Ilse's some weeks after that of the day."""
    return lesson(**{"id": LessonId(name), "starts_at": STARTS_AT + weeks * WEEK} | values)


def cancelled(name, weeks=0, **values) -> Lesson:
    return meeting(name, weeks, outcome=Outcome.CANCELLED, **values)


def make_up(name, of, weeks=1, **values) -> Lesson:
    return meeting(name, weeks, kind=Kind.MAKE_UP, standing_time_id=None, makes_up=LessonId(of), **values)


def owed(*lessons) -> list[str]:
    return [each.id for each in make_ups_owed(lessons).get(StudentId(1), ())]


def taught(weeks, who=ILSE, **values):
    """A booking whose lesson was finished on time."""
    booked = booking(who, starts_at=STARTS_AT + weeks * WEEK, **values)
    starts_at = booked.lesson.starts_at
    return replace(booked, lesson=finish(begin(booked.lesson, starts_at), starts_at + HALF_AN_HOUR))


def coming(weeks, who=ILSE, **values):
    return booking(who, starts_at=STARTS_AT + weeks * WEEK, **values)


def closed(weeks, outcome, who=ILSE, **values):
    booked = coming(weeks, who, **values)
    return replace(booked, lesson=close_untaught(booked.lesson, outcome))


def test_a_lesson_cancelled_in_time_is_owed_until_a_make_up_is_booked():
    assert owed(cancelled("a")) == ["a"]
    assert owed(cancelled("a"), make_up("b", "a")) == []


def test_a_lesson_that_she_called_off_is_owed_too_and_her_policy_can_say_otherwise():
    called_off = meeting("a", outcome=Outcome.CALLED_OFF)
    assert owed(called_off) == ["a"]
    assert owed(called_off, make_up("b", "a")) == []
    assert make_ups_owed([called_off, cancelled("c", 1)], Policy(owing={Outcome.CANCELLED}).owes).keys() == {
        StudentId(1)
    }
    assert make_ups_owed([called_off], Policy(owing={Outcome.CANCELLED}).owes) == {}


# 21 days before 12 February is 22 January, which is 42 days after 11 December.
def test_a_make_up_is_promised_for_the_days_of_her_policy():
    assert Policy(within_days=63).expires_on(date(2026, 12, 11)) == date(2027, 2, 12)
    assert (date(2027, 2, 12) - date(2027, 1, 22)).days == 21
    assert Policy().expires_on(date(2026, 12, 11)) is None


@pytest.mark.parametrize("outcome", [None, Outcome.ABSENT, Outcome.CANCELLED_LATE])
def test_no_other_lesson_is_owed(outcome):
    assert make_ups_owed([meeting("a", outcome=outcome)]) == {}


def test_a_make_up_settles_the_lesson_it_points_at_and_no_other():
    assert owed(cancelled("a"), cancelled("b", 1), make_up("c", "b", 2)) == ["a"]


def test_a_make_up_that_is_cancelled_leaves_the_first_lesson_owed_once():
    called_off = make_up("b", "a", outcome=Outcome.CANCELLED)
    assert owed(cancelled("a"), called_off) == ["a"]
    assert owed(called_off, cancelled("a")) == ["a"]


def test_the_make_up_of_a_cancelled_make_up_settles_the_first_lesson():
    chain = cancelled("a"), make_up("b", "a", outcome=Outcome.CANCELLED), make_up("c", "b", 2)
    assert owed(*chain) == []
    assert owed(*chain[:2], make_up("c", "b", 2, outcome=Outcome.CANCELLED)) == ["a"]
    assert owed(*chain[:2], make_up("c", "a", 2)) == []


@pytest.mark.parametrize("outcome", [Outcome.ABSENT, Outcome.CANCELLED_LATE])
def test_a_make_up_that_is_missed_or_cancelled_late_is_forfeited(outcome):
    assert owed(cancelled("a"), make_up("b", "a", outcome=outcome)) == []


def test_a_make_up_may_be_given_before_the_lesson_it_stands_for():
    assert owed(make_up("b", "a", weeks=-1), cancelled("a")) == []


def test_a_lesson_that_takes_place_after_all_is_not_owed_though_its_make_up_was_cancelled():
    assert owed(meeting("a"), make_up("b", "a", outcome=Outcome.CANCELLED)) == []


def test_a_cancelled_make_up_of_a_lesson_before_the_stretch_stands_for_it():
    early, late = (make_up(name, "a", weeks, outcome=Outcome.CANCELLED) for name, weeks in (("c", 1), ("b", 2)))
    assert owed(late, early) == ["c"]
    assert owed(late, early, make_up("d", "a", 3)) == []


def test_lessons_that_make_up_each_other_hold_nobody_up():
    found = owed(make_up("a", "b", outcome=Outcome.CANCELLED), make_up("b", "a", outcome=Outcome.CANCELLED))
    assert set(found) <= {"a", "b"}
    assert owed(make_up("a", "a", outcome=Outcome.CANCELLED)) == ["a"]


def test_make_ups_owed_are_each_students_own_and_in_order():
    theirs = cancelled("t", student_id=TEODOR.id)
    found = make_ups_owed([cancelled("b", 2), theirs, cancelled("a", 1), meeting("c", student_id=NALANI.id)])
    assert {who: [each.id for each in lessons] for who, lessons in found.items()} == {
        ILSE.id: ["a", "b"],
        TEODOR.id: ["t"],
    }


def test_make_ups_owed_are_in_order_though_one_was_called_off_before_its_lesson():
    ahead = make_up("b", "a", 1, outcome=Outcome.CANCELLED)
    assert owed(ahead, cancelled("c", 2), cancelled("a", 3)) == ["c", "a"]


def test_a_year_counts_each_lesson_once_and_says_what_is_missing():
    year = [
        *(taught(weeks) for weeks in (-9, -8, -7)),
        closed(-6, Outcome.CANCELLED),
        closed(-5, Outcome.CANCELLED_LATE),
        closed(-4, Outcome.CANCELLED_LATE),
        closed(-3, Outcome.ABSENT),
        coming(-2),
        *(coming(weeks) for weeks in (1, 2, 3, 4)),
    ]
    assert year_plan(year, NOW, 10) == (
        StudentYear(
            student=ILSE, taught=3, planned=4, cancelled=1, cancelled_late=2, absent=1, unmarked=1, promised=10
        ),
    )
    assert year_plan(year, NOW, 10)[0].difference == -3


@pytest.mark.parametrize(("promised", "difference"), [(1, 1), (2, 0), (3, -1)])
def test_the_difference_is_what_the_year_comes_to_less_what_was_promised(promised, difference):
    (row,) = year_plan([taught(-1), coming(1), closed(2, Outcome.CANCELLED)], NOW, promised)
    assert row.difference == difference


def test_a_student_is_promised_the_number_of_the_roster_and_else_that_of_the_settings():
    own = replace(ILSE, yearly_lessons=3)
    rows = year_plan([replace(taught(-1), student=own), coming(1, TEODOR)], NOW, 36)
    assert [(row.student.name, row.promised, row.difference) for row in rows] == [("Ilse", 3, -2), ("Teodor", 36, -35)]


def test_a_running_lesson_counts_as_taught_and_one_without_times_as_finished():
    running = replace(coming(0), lesson=begin(coming(0).lesson, STARTS_AT))
    untimed = replace(coming(-1), lesson=finish(coming(-1).lesson, NOW))
    (row,) = year_plan([running, untimed], STARTS_AT, 2)
    assert (row.taught, row.planned, row.unmarked) == (2, 0, 0)


def test_a_lesson_is_planned_until_its_time_is_over():
    begins, ends = STARTS_AT, STARTS_AT + HALF_AN_HOUR
    for now, planned in ((begins, 1), (ends - timedelta(seconds=1), 1), (ends, 0)):
        (row,) = year_plan([coming(0)], now, 1)
        assert (row.planned, row.unmarked) == (planned, 1 - planned)


def test_a_trial_is_not_one_of_the_lessons_promised():
    assert year_plan([taught(-1, kind=Kind.TRIAL)], NOW, 1) == ()
    (row,) = year_plan([taught(-2, kind=Kind.TRIAL), taught(-1), coming(1, kind=Kind.TRIAL)], NOW, 1)
    assert (row.taught, row.planned, row.difference) == (1, 0, 0)
    assert by_month([taught(-1, kind=Kind.TRIAL), taught(-1)]) == [("Ilse", "2026-11", 1, 0)]


def test_a_make_up_counts_in_place_of_the_lesson_it_is_given_for():
    off = closed(-2, Outcome.CANCELLED, id=LessonId("a"))
    for instead in (taught, coming):
        given_for = instead(-1 if instead is taught else 1, kind=Kind.MAKE_UP, makes_up=LessonId("a"))
        (row,) = year_plan([off, given_for], NOW, 1)
        assert (row.taught + row.planned, row.cancelled, row.difference) == (1, 1, 0)


def test_students_stand_by_name_whatever_its_case():
    lower = replace(ILSE, id=StudentId(20), name="leopold")
    twin = replace(ILSE, id=StudentId(21))
    bookings = [coming(1, TEODOR), replace(coming(1), student=twin), replace(coming(1), student=lower), coming(1)]
    expected = [("Ilse", 1), ("Ilse", 21), ("leopold", 20), ("Teodor", 2)]
    assert [(row.student.name, row.student.id) for row in year_plan(bookings, NOW, 1)] == expected
    assert [(row.student.name, row.student.id) for row in months(bookings, [], CLOCK)] == expected


def by_month(bookings, on_break=(), clock=CLOCK):
    return [
        (each.student.name, each.first_on.isoformat()[:7], len(each.lessons), len(each.on_break))
        for each in months(bookings, on_break, clock)
    ]


def test_a_month_has_its_lessons_in_order_and_those_that_a_break_takes_away():
    bookings = [taught(-3), taught(-4), closed(-2, Outcome.CANCELLED), coming(1), taught(-1, TEODOR), coming(6)]
    assert by_month(bookings, [coming(2), coming(3), coming(10)]) == [
        ("Ilse", "2026-11", 3, 0),
        ("Ilse", "2026-12", 1, 2),
        ("Ilse", "2027-01", 1, 0),
        ("Ilse", "2027-02", 0, 1),
        ("Teodor", "2026-11", 1, 0),
    ]
    first = months(bookings, [], CLOCK)[0]
    assert list(first.lessons) == sorted(first.lessons, key=lambda each: each.lesson.starts_at)


def test_a_month_begins_at_the_teachers_midnight():
    """1 January 2027 begins in Chicago at 06:00 UTC, and fifteen hours earlier while she is in Tokyo."""
    late = [replace(coming(0), lesson=meeting("a", starts_at=utc("2027-01-01 05:59")))]
    first = [replace(coming(0), lesson=meeting("b", starts_at=utc("2027-01-01 06:00")))]
    found = months([*late, *first], [], CLOCK)
    assert [row.first_on for row in found] == [date(2026, 12, 1), date(2027, 1, 1)]
    away = Home(zone=HOME, stays=(Stay(zone="Asia/Tokyo", from_on=date(2026, 12, 20), until_on=date(2027, 1, 10)),))
    assert [row.first_on for row in months(late, [], TeacherClock(zone=away))] == [date(2027, 1, 1)]


@pytest.mark.parametrize(
    ("first_on", "firsts"),
    [(date(2026, 9, 1), 12), (date(2026, 9, 15), 13), (date(2026, 12, 31), 13), (date(2027, 2, 28), 13)],
)
def test_a_year_that_begins_within_a_month_has_that_month_at_both_ends(first_on, firsts):
    until_on = first_on.replace(year=first_on.year + 1) - timedelta(days=1)
    found = StudioYear(first_on=first_on, until_on=until_on, students=(), months=()).month_firsts
    assert (len(found), found[0], found[-1]) == (firsts, first_on.replace(day=1), until_on.replace(day=1))


some_booking = st.builds(
    lambda who, hours, state, kind: replace(
        booking(who, kind=kind, starts_at=STARTS_AT + timedelta(hours=hours)),
        lesson=replace(
            lesson(student_id=who.id, kind=kind, starts_at=STARTS_AT + timedelta(hours=hours)),
            **state,
        ),
    ),
    st.sampled_from(list(HOUSEHOLDS)),
    st.integers(-3000, 3000),
    st.sampled_from(
        [{}, {"began_at": STARTS_AT}, {"finished_at": STARTS_AT}, *({"outcome": outcome} for outcome in Outcome)]
    ),
    st.sampled_from(Kind),
)


@given(st.lists(some_booking, max_size=30), st.integers(0, 40))
def test_the_counts_of_a_year_add_up_to_its_lessons_and_its_months_to_the_year(bookings, promised):
    promised_ones = Counter(each.student.id for each in bookings if each.lesson.kind is not Kind.TRIAL)
    rows = year_plan(bookings, NOW, promised)
    sums = {
        row.student.id: row.taught
        + row.planned
        + row.cancelled
        + row.cancelled_late
        + row.called_off
        + row.absent
        + row.unmarked
        for row in rows
    }
    assert sums == promised_ones
    found = months(bookings, [], CLOCK)
    for row in rows:
        theirs = [each for each in found if each.student == row.student]
        assert sum(len(each.lessons) for each in theirs) == promised_ones[row.student.id]
        assert [each.first_on for each in theirs] == sorted({each.first_on for each in theirs})


# A make-up points at a lesson of a smaller number, so that none makes up itself; those below zero are not there.
some_lesson = st.integers(0, 9).flatmap(
    lambda number: st.builds(
        lambda of, outcome, weeks: meeting(
            str(number), weeks, outcome=outcome, makes_up=None if of is None else LessonId(str(of))
        ),
        st.none() | st.integers(-2, number - 1),
        st.none() | st.just(Outcome.CANCELLED) | st.sampled_from(Outcome),
        st.integers(-5, 5),
    )
)


@given(st.lists(some_lesson, max_size=10, unique_by=lambda each: each.id))
def test_only_lessons_that_her_policy_makes_up_are_owed_and_none_that_has_its_make_up(lessons):
    found = make_ups_owed(lessons).get(StudentId(1), ())
    made_up = {each.makes_up for each in lessons if each.outcome not in OWING}
    assert all(each.outcome in OWING and each.id not in made_up for each in found)
    assert len({each.id for each in found}) == len(found)
    assert list(found) == sorted(found, key=lambda each: (each.starts_at, each.id))
    alone = [each for each in lessons if each.makes_up is None and each.outcome in OWING]
    pointed_at = {each.makes_up for each in lessons}
    assert {each.id for each in alone} - pointed_at <= {each.id for each in found}


@examples(10, long=50)
@given(st.lists(some_lesson, max_size=10, unique_by=lambda each: each.id), st.randoms())
@pytest.mark.long
def test_the_order_in_which_lessons_come_changes_nothing(lessons, chance):
    shuffled = list(lessons)
    chance.shuffle(shuffled)
    assert make_ups_owed(shuffled) == make_ups_owed(lessons)
