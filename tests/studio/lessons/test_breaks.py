"""Days without lessons, of the whole studio and of one family."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import (
    BRANDVOLD,
    CLOCK,
    DAY,
    HOME,
    HOUSEHOLDS,
    ILSE,
    ISHAAN,
    NALANI,
    OKONJO,
    STARTS_AT,
    TEODOR,
    back_to_back,
    booking,
    enrollment,
    home,
    utc,
)

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId, LeftOut, break_of, without_breaks
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome, begin, close_untaught, finish
from cockpit.studio.lessons.scheduled import ScheduledLesson, in_order, planned
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.people.people import FamilyId
from cockpit.studio.values import replace

ONE_DAY = timedelta(days=1)


def pause(from_on: date = DAY, until_on: date | None = None, **values: object) -> Break:
    """A break of the whole studio on the day, or what `values` make of it."""
    return Break(**{"id": BreakId(1), "from_on": from_on, "until_on": until_on or from_on} | values)


def names(bookings: list[ScheduledLesson]) -> list[str]:
    return [each.student.name for each in bookings]


def test_nobody_is_taught_on_a_day_that_the_whole_studio_has_free():
    queue = back_to_back(30, 45, 60)
    kept, left_out = without_breaks(queue, [pause(reason="Travel")], CLOCK)
    assert kept == []
    assert left_out == [LeftOut(booking=each, because=pause(reason="Travel")) for each in queue]


def test_without_a_break_every_lesson_takes_place():
    queue = back_to_back(30, 45, 60)
    assert without_breaks(queue, [], CLOCK) == (queue, [])
    assert without_breaks(iter(queue), [pause(DAY + ONE_DAY)], CLOCK) == (queue, [])


@pytest.mark.parametrize(
    ("days_from", "days_until", "free"),
    [(0, 0, True), (-3, 0, True), (0, 3, True), (-3, 3, True), (1, 5, False), (-5, -1, False), (1, -1, False)],
)
def test_the_first_and_the_last_day_of_a_break_are_free(days_from, days_until, free):
    stretch = pause(DAY + days_from * ONE_DAY, DAY + days_until * ONE_DAY)
    assert (break_of(booking(), [stretch], CLOCK) == stretch) is free


def test_a_break_ends_at_the_teachers_midnight():
    """17 December begins in Chicago at 06:00 UTC."""
    last, first = booking(starts_at=utc("2026-12-17 05:59")), booking(starts_at=utc("2026-12-17 06:00"))
    assert break_of(last, [pause(date(2026, 12, 16))], CLOCK)
    assert break_of(first, [pause(date(2026, 12, 16))], CLOCK) is None
    assert break_of(last, [pause(date(2026, 12, 17))], CLOCK) is None
    assert break_of(first, [pause(date(2026, 12, 17))], CLOCK)


def test_the_studios_break_is_of_the_teachers_days_and_a_familys_of_its_own():
    """Ishaan's lesson of Tuesday 16:00 in Chicago is on Wednesday, 03:30, in Kolkata."""
    his, wednesday = booking(ISHAAN), DAY + ONE_DAY
    family_id = ISHAAN.family_id
    assert local_time(STARTS_AT, "Asia/Kolkata").date() == wednesday
    assert break_of(his, [pause(DAY)], CLOCK)
    assert break_of(his, [pause(wednesday)], CLOCK) is None
    assert break_of(his, [pause(DAY, family_id=family_id)], CLOCK) is None
    assert break_of(his, [pause(wednesday, family_id=family_id)], CLOCK)


def test_a_familys_break_west_of_the_teacher_is_of_the_day_before():
    """00:30 of Wednesday in Chicago is Tuesday, 20:30, in Honolulu."""
    hers = booking(NALANI, starts_at=home("2026-12-02 00:30"))
    assert break_of(hers, [pause(DAY, family_id=NALANI.family_id)], CLOCK)
    assert break_of(hers, [pause(DAY + ONE_DAY, family_id=NALANI.family_id)], CLOCK) is None
    assert break_of(hers, [pause(DAY)], CLOCK) is None


def test_a_familys_break_is_that_familys_alone():
    queue = [booking(ILSE), booking(TEODOR)]
    kept, left_out = without_breaks(queue, [pause(family_id=BRANDVOLD.id)], CLOCK)
    assert names(kept) == ["Teodor"]
    assert names([each.booking for each in left_out]) == ["Ilse"]


def test_a_familys_break_is_all_its_students():
    sister = replace(booking(TEODOR), student=replace(TEODOR, family_id=BRANDVOLD.id), family=BRANDVOLD)
    kept, left_out = without_breaks([booking(ILSE), sister], [pause(family_id=BRANDVOLD.id)], CLOCK)
    assert kept == []
    assert len(left_out) == 2


def test_the_studios_break_is_named_before_a_familys():
    theirs, ours = pause(id=BreakId(1), family_id=BRANDVOLD.id), pause(id=BreakId(2))
    assert break_of(booking(), [theirs, ours], CLOCK) is ours
    assert break_of(booking(), [ours, theirs], CLOCK) is ours


def test_of_two_breaks_of_one_kind_the_first_is_named():
    first, second = pause(id=BreakId(1), reason="Travel"), pause(id=BreakId(2), reason="Illness")
    assert break_of(booking(), [first, second], CLOCK) is first
    theirs = [replace(each, family_id=BRANDVOLD.id) for each in (first, second)]
    assert break_of(booking(), theirs, CLOCK) is theirs[0]


@pytest.mark.parametrize("kind", [Kind.TRIAL, Kind.MAKE_UP, Kind.EXTRA])
@pytest.mark.parametrize("family_id", [None, BRANDVOLD.id])
def test_what_she_booked_by_hand_takes_place(kind, family_id):
    queue = [booking(kind=kind, standing_time_id=None, id=LessonId("x1"))]
    assert without_breaks(queue, [pause(family_id=family_id)], CLOCK) == (queue, [])


def test_a_lesson_that_she_moved_into_a_break_takes_place():
    queue = [booking(is_moved=True)]
    assert without_breaks(queue, [pause()], CLOCK) == (queue, [])


def test_a_lesson_that_she_began_stays_and_so_does_one_that_she_finished():
    running = begin(booking().lesson, STARTS_AT)
    over = finish(running, STARTS_AT + timedelta(minutes=30))
    unbegun = finish(booking().lesson, STARTS_AT)
    reopened = begin(over, STARTS_AT + ONE_DAY)
    queue = [replace(booking(), lesson=each) for each in (running, over, unbegun, reopened)]
    assert without_breaks(queue, [pause()], CLOCK) == (queue, [])


@pytest.mark.parametrize("outcome", Outcome)
def test_a_lesson_that_she_closed_stays_closed(outcome):
    queue = [replace(booking(), lesson=close_untaught(booking().lesson, outcome))]
    assert without_breaks(queue, [pause()], CLOCK) == (queue, [])


def test_a_break_is_of_the_days_of_the_clock_that_she_travels_with():
    """On 1 December at 16:00 in Chicago it is 2 December in Tokyo."""
    away = Home(zone=HOME, stays=(Stay(zone="Asia/Tokyo", from_on=date(2026, 11, 20), until_on=date(2026, 12, 20)),))
    assert break_of(booking(), [pause(DAY)], TeacherClock(zone=away)) is None
    assert break_of(booking(), [pause(DAY + ONE_DAY)], TeacherClock(zone=away))
    assert break_of(booking(), [pause(DAY, family_id=BRANDVOLD.id)], TeacherClock(zone=away))


def test_two_weeks_of_december_leave_the_lessons_before_and_after_them():
    """A break whose days straddle the year's end; lessons are on Tuesdays, and Teodor's on Thursdays in London."""
    lessons = planned(
        [enrollment(ILSE), enrollment(TEODOR, weekday=3, kept_in=KeptIn.FAMILY)],
        CLOCK,
        utc("2026-12-14"),
        utc("2027-01-16"),
    )
    both = [pause(date(2026, 12, 21), date(2027, 1, 3)), pause(date(2027, 1, 5), date(2027, 1, 7), family_id=OKONJO.id)]
    kept, left_out = without_breaks(lessons, both, CLOCK)
    assert [local_time(each.lesson.starts_at, HOME).strftime("%m-%d") for each in kept] == [
        "12-15",
        "12-17",
        "01-05",
        "01-12",
        "01-14",
    ]
    assert [(local_time(each.booking.lesson.starts_at, HOME).strftime("%m-%d"), each.because) for each in left_out] == [
        ("12-22", both[0]),
        ("12-24", both[0]),
        ("12-29", both[0]),
        ("12-31", both[0]),
        ("01-07", both[1]),
    ]


some_hour = st.integers(-24 * 30, 24 * 30).map(lambda hours: STARTS_AT + timedelta(hours=hours))
some_booking = st.builds(
    lambda who, number, **values: booking(who, id=LessonId(f"x{number}"), **values),
    st.sampled_from(list(HOUSEHOLDS)),
    st.integers(0, 10**6),
    starts_at=some_hour,
    kind=st.sampled_from(Kind),
    outcome=st.none() | st.sampled_from(Outcome),
    is_moved=st.booleans(),
    began_at=st.none() | some_hour,
)
some_break = st.builds(
    lambda family_id, days, length: pause(
        DAY + days * ONE_DAY, DAY + (days + length) * ONE_DAY, family_id=FamilyId(family_id) if family_id else None
    ),
    st.none() | st.integers(1, 6),
    st.integers(-30, 30),
    st.integers(0, 20),
)
some_bookings = st.lists(some_booking, max_size=12, unique_by=lambda each: each.lesson.id)
some_breaks = st.lists(some_break, max_size=4)
some_zone = st.sampled_from([HOME, "Asia/Kolkata", "Pacific/Kiritimati"])


@given(some_bookings, some_breaks, some_zone)
def test_every_lesson_is_kept_or_left_out_and_both_are_in_order(bookings, breaks, zone):
    kept, left_out = without_breaks(bookings, breaks, TeacherClock(zone=zone))
    out = [each.booking for each in left_out]
    assert in_order([*kept, *out]) == in_order(bookings)
    assert kept == [each for each in bookings if each in kept]
    assert out == [each for each in bookings if each in out]


@given(some_bookings, some_breaks, some_zone)
def test_what_is_left_out_lies_in_the_break_that_is_named_and_what_is_kept_in_none(bookings, breaks, zone):
    kept, left_out = without_breaks(bookings, breaks, TeacherClock(zone=zone))
    for each in left_out:
        lesson, because = each.booking.lesson, each.because
        on = local_time(lesson.starts_at, zone if because.family_id is None else each.booking.family.zone).date()
        assert because in breaks
        assert because.from_on <= on <= because.until_on
        assert because.family_id in (None, each.booking.family.id)
        assert (lesson.kind, lesson.outcome, lesson.began_at, lesson.is_moved) == (Kind.WEEKLY, None, None, False)
    for each in kept:
        lesson = each.lesson
        is_hers = lesson.kind is not Kind.WEEKLY or lesson.outcome or lesson.began_at or lesson.is_moved
        assert is_hers or break_of(each, breaks, TeacherClock(zone=zone)) is None


@given(some_bookings, some_breaks, some_zone)
def test_leaving_out_twice_leaves_out_no_more(bookings, breaks, zone):
    kept, _ = without_breaks(bookings, breaks, TeacherClock(zone=zone))
    assert without_breaks(kept, breaks, TeacherClock(zone=zone)) == (kept, [])
