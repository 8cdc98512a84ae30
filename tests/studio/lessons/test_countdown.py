"""The lesson's clock: what is left, the cue to wrap up, and what running over does to the lessons after it."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import (
    CUES,
    HOME,
    ILSE,
    MIREILLE,
    STARTS_AT,
    TEODOR,
    back_to_back,
    booking,
    home,
    utc,
)

from cockpit.studio.lessons.countdown import LateStart, Phase, late_starts, read_clock, wrap_up_minutes
from cockpit.studio.lessons.lesson import Outcome, begin, close_untaught, finish, give_full_length
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import replace

MINUTE = timedelta(minutes=1)
SECOND = timedelta(seconds=1)


def begun(each: ScheduledLesson, at: datetime | None = None, *, full: bool = False) -> ScheduledLesson:
    """The booking with its lesson begun, on time unless `at` says otherwise."""
    lesson = begin(each.lesson, at or each.lesson.starts_at)
    return replace(each, lesson=give_full_length(lesson) if full else lesson)


def read(at: datetime, *bookings: ScheduledLesson):
    """The clock with the cues of common practice (no source): 3, 4 and 5 minutes for 30, 45 and 60."""
    return read_clock(bookings, at, CUES)


@pytest.mark.parametrize(("minutes", "cue"), [(30, 3), (45, 4), (60, 5)])
def test_the_cue_comes_as_many_minutes_before_the_end_as_the_length_asks(minutes, cue):
    running = begun(booking(minutes=minutes))
    cue_at = STARTS_AT + (minutes - cue) * MINUTE
    assert read(cue_at - SECOND, running).phase is Phase.RUNNING
    assert read(cue_at, running).phase is Phase.WRAP_UP
    assert read(cue_at, running).seconds == cue * 60
    assert read(cue_at, running).share == pytest.approx(read(cue_at, running).wrap_up_share)
    assert read(STARTS_AT + minutes * MINUTE - SECOND, running).phase is Phase.WRAP_UP
    assert read(STARTS_AT + minutes * MINUTE, running).phase is Phase.OVER


@pytest.mark.parametrize(("minutes", "cue"), [(20, 3), (40, 3), (50, 4), (90, 5)])
def test_another_length_has_the_cue_of_the_nearest_one_not_above_it(minutes, cue):
    assert wrap_up_minutes(minutes, CUES) == cue


def test_without_cues_there_is_none():
    assert wrap_up_minutes(30, {}) == 0
    assert read_clock([begun(booking())], STARTS_AT + 30 * MINUTE - SECOND, {}).phase is Phase.RUNNING


def test_the_clock_counts_down_to_the_second_and_up_past_the_end():
    running = begun(booking())
    ends_at = STARTS_AT + 30 * MINUTE
    assert read(STARTS_AT, running).seconds == 1800
    assert read(ends_at - SECOND, running).seconds == 1
    assert (read(ends_at, running).phase, read(ends_at, running).seconds) == (Phase.OVER, 0)
    assert read(ends_at + SECOND, running).seconds == 1
    assert read(ends_at + 95 * MINUTE, running).seconds == 95 * 60


def test_a_started_second_still_counts_as_left_but_not_as_over():
    running = begun(booking())
    ends_at = STARTS_AT + 30 * MINUTE
    assert read(ends_at - 0.4 * SECOND, running).seconds == 1
    assert read(ends_at + 0.9 * SECOND, running).seconds == 0


def test_a_computer_that_slept_through_the_lesson_shows_the_truth_when_it_wakes():
    running, following = begun(booking()), booking(TEODOR, starts_at=STARTS_AT + 30 * MINUTE, minutes=45)
    read(STARTS_AT + 5 * MINUTE, running, following)
    face = read(STARTS_AT + 52 * MINUTE, running, following)
    assert (face.phase, face.seconds, face.share) == (Phase.OVER, 22 * 60, 1.0)
    assert face.late == (LateStart(student="Teodor", minutes=22),)


@pytest.mark.parametrize(
    ("starts", "read_at", "left"),
    [
        # 01:45 CST to 03:30 CDT: the hour from 02:00 does not exist.
        ("2026-03-08 07:45", "2026-03-08 08:10", 20 * 60),
        # 01:30 CDT to 01:15 CST: the hour from 01:00 comes twice.
        ("2026-11-01 06:30", "2026-11-01 07:05", 10 * 60),
    ],
)
def test_a_clock_change_in_the_lesson_does_not_bend_the_countdown(starts, read_at, left):
    running = begun(booking(starts_at=utc(starts), minutes=45))
    assert read(utc(read_at), running).seconds == left
    assert read(utc(read_at).astimezone(ZoneInfo(HOME)), running).seconds == left


@given(
    start=st.datetimes(datetime(2026, 1, 1), datetime(2028, 1, 1)),
    minutes=st.sampled_from([30, 45, 60]),
    ran=st.floats(0, 7200),
    zone=st.sampled_from([HOME, "Europe/London", "Australia/Lord_Howe", "Asia/Kolkata"]),
)
def test_what_is_left_is_a_difference_of_moments_in_every_zone(start, minutes, ran, zone):
    starts_at = utc(start.isoformat())
    running = begun(booking(starts_at=starts_at, minutes=minutes))
    face = read((starts_at + ran * SECOND).astimezone(ZoneInfo(zone)), running)
    signed = -face.seconds if face.phase is Phase.OVER else face.seconds
    assert abs(minutes * 60 - ran - signed) <= 1
    assert 0 <= face.share <= 1


@given(
    minutes=st.integers(10, 120),
    late=st.integers(-10, 60),
    moments=st.lists(st.floats(-900, 9000), min_size=2).map(sorted),
)
def test_the_bar_only_grows(minutes, late, moments):
    running = begun(booking(minutes=minutes), STARTS_AT + late * MINUTE)
    shares = [read(STARTS_AT + at * SECOND, running).share for at in moments]
    assert shares == sorted(shares)
    assert all(0 <= share <= 1 for share in shares)


def test_a_late_start_has_only_the_rest_of_the_planned_time():
    assert read(STARTS_AT + 8 * MINUTE, begun(booking(), STARTS_AT + 8 * MINUTE)).seconds == 22 * 60


def test_the_full_length_is_counted_from_the_late_start():
    face = read(STARTS_AT + 8 * MINUTE, begun(booking(), STARTS_AT + 8 * MINUTE, full=True))
    assert (face.seconds, face.share) == (30 * 60, 0.0)


def test_a_late_start_without_full_length_makes_nobody_late():
    first, *others = back_to_back(30, 45, 60)
    assert read(STARTS_AT + 20 * MINUTE, begun(first, STARTS_AT + 8 * MINUTE), *others).late == ()


def test_a_full_length_makes_the_next_late_and_not_those_after_it():
    first, *others = back_to_back(30, 45, 60)
    face = read(STARTS_AT + 20 * MINUTE, begun(first, STARTS_AT + 8 * MINUTE, full=True), *others)
    assert face.late == (LateStart(student="Teodor", minutes=8),)


def test_running_over_the_full_length_counts_from_now():
    first, *others = back_to_back(30, 45, 60)
    face = read(STARTS_AT + 41 * MINUTE, begun(first, STARTS_AT + 8 * MINUTE, full=True), *others)
    assert (face.phase, face.seconds) == (Phase.OVER, 3 * 60)
    assert face.late == (LateStart(student="Teodor", minutes=11),)


@pytest.mark.parametrize(("over", "minutes"), [(1, 1), (60, 1), (61, 2), (600, 10)])
def test_the_minutes_late_are_rounded_up(over, minutes):
    first, second = back_to_back(30, 45)
    late = read(STARTS_AT + 30 * MINUTE + over * SECOND, begun(first), second).late
    assert late == (LateStart(student="Teodor", minutes=minutes),)


def test_nobody_is_late_at_the_very_end_of_a_lesson():
    first, second = back_to_back(30, 45)
    assert read(STARTS_AT + 30 * MINUTE, begun(first), second).late == ()


def test_a_pause_between_two_lessons_takes_up_the_overrun():
    running, later = begun(booking()), booking(TEODOR, starts_at=STARTS_AT + 40 * MINUTE)
    assert read(STARTS_AT + 40 * MINUTE, running, later).late == ()
    assert read(STARTS_AT + 42 * MINUTE, running, later).late == (LateStart(student="Teodor", minutes=2),)


@pytest.mark.parametrize("outcome", Outcome)
def test_a_lesson_that_is_not_taught_cannot_be_late(outcome):
    first, second = back_to_back(30, 45)
    second = replace(second, lesson=close_untaught(second.lesson, outcome))
    assert read(STARTS_AT + 35 * MINUTE, begun(first), second).late == ()


def test_a_lesson_whose_whole_time_is_gone_is_told_as_such():
    running, short = begun(booking(minutes=60)), booking(TEODOR, starts_at=STARTS_AT + 30 * MINUTE)
    longer = booking(MIREILLE, starts_at=STARTS_AT + 30 * MINUTE, minutes=31)
    assert read(STARTS_AT + 10 * MINUTE, running, longer, short).late == (
        LateStart(student="Mireille", minutes=30),
        LateStart(student="Teodor", minutes=30, has_time=False),
    )


def test_of_two_lessons_at_once_the_other_waits_for_the_end_of_the_running_one():
    running, other = begun(booking(ILSE)), booking(TEODOR, minutes=45)
    face = read(STARTS_AT + 2 * MINUTE, running, other)
    assert face.booking == running
    assert face.late == (LateStart(student="Teodor", minutes=30),)


def test_of_two_lessons_at_once_the_first_by_name_is_waited_for():
    face = read(STARTS_AT + 2 * MINUTE, booking(ILSE), booking(TEODOR))
    assert (face.phase, face.booking, face.seconds) == (Phase.WAITING, booking(ILSE), 120)


@given(over=st.integers(0, 7200), lengths=st.lists(st.sampled_from([30, 45, 60]), min_size=2, max_size=5))
def test_who_is_late_could_still_have_a_lesson_and_starts_when_the_teacher_is_free(over, lengths):
    first, *others = back_to_back(*lengths)
    running = begun(first)
    now = STARTS_AT + lengths[0] * MINUTE + over * SECOND
    for late in late_starts([running, *others], running, now):
        (whose,) = (each for each in others if each.student.name == late.student)
        starts = whose.lesson.starts_at + late.minutes * MINUTE
        assert now <= starts < now + MINUTE
        assert late.has_time == (now < whose.lesson.planned_end)


def test_a_lesson_across_midnight_is_counted_to_its_end():
    running = begun(booking(starts_at=home("2026-12-01 23:40"), minutes=45))
    face = read(home("2026-12-02 00:05"), running)
    assert (face.phase, face.seconds) == (Phase.RUNNING, 20 * 60)
    assert read(home("2026-12-02 00:30"), running).seconds == 5 * 60
    assert read(home("2026-12-02 00:30"), running).phase is Phase.OVER


def test_before_the_first_lesson_the_clock_counts_down_to_it():
    face = read(STARTS_AT - 90 * MINUTE, *back_to_back(30, 45))
    assert (face.phase, face.seconds) == (Phase.BEFORE, 90 * 60)
    assert face.booking == booking(ILSE)


def test_a_lesson_that_has_not_begun_waits_and_counts_up():
    face = read(STARTS_AT + 4 * MINUTE + 0.5 * SECOND, booking())
    assert (face.phase, face.seconds) == (Phase.WAITING, 240)


def test_a_lesson_that_was_missed_is_not_waited_for():
    face = read(STARTS_AT + 30 * MINUTE, *back_to_back(30, 45))
    assert (face.phase, face.booking.student) == (Phase.WAITING, TEODOR)


def test_between_two_lessons_the_clock_counts_down_to_the_next():
    first, _, third = back_to_back(30, 45, 60)
    done = replace(first, lesson=finish(begun(first).lesson, STARTS_AT + 30 * MINUTE))
    face = read(STARTS_AT + 40 * MINUTE, done, third)
    assert (face.phase, face.seconds, face.booking.student) == (Phase.BEFORE, 35 * 60, MIREILLE)


def test_a_lesson_reopened_after_the_fact_does_not_run_the_clock():
    first, second = back_to_back(30, 45)
    taught = finish(begun(first).lesson, STARTS_AT + 30 * MINUTE)
    reopened = replace(first, lesson=begin(taught, STARTS_AT + 31 * MINUTE))
    assert read(STARTS_AT + 31 * MINUTE, reopened, second).booking == second


def test_a_day_without_lessons_to_come_is_free():
    cancelled = replace(booking(), lesson=close_untaught(booking().lesson, Outcome.CANCELLED))
    assert read(STARTS_AT).phase is Phase.NO_LESSONS
    assert read(STARTS_AT, cancelled).phase is Phase.FREE
    assert read(STARTS_AT + 30 * MINUTE, booking()).phase is Phase.FREE
    assert read(STARTS_AT, cancelled).not_marked == 0
    assert read(STARTS_AT + 30 * MINUTE, booking(), cancelled).not_marked == 1
