"""When an inquiry is to be answered: 48 hours of elapsed time, told from half of them on, shown in her day."""

from datetime import UTC, datetime, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import CLOCK, home, utc

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.inquiries.deadline import TeachingDay, deadline, duration, months_before, urgent_words
from cockpit.studio.inquiries.rules import InquiryRules

RULES = InquiryRules()
DAY = TeachingDay(home=CLOCK, begins=time(7), ends=time(21))


@pytest.mark.parametrize(
    ("came", "due", "by"),
    [
        # Elapsed time around the clock changes of Chicago, computed with tzdata 2026f and python-dateutil.
        ("2026-10-31 10:00", "2026-11-02 09:00", "2026-11-02 09:00"),
        ("2027-03-13 10:00", "2027-03-15 11:00", "2027-03-15 11:00"),
        ("2026-11-27 16:00", "2026-11-29 16:00", "2026-11-29 16:00"),
        # Outside her day, the last moment before it that lies in it.
        ("2026-11-28 22:00", "2026-11-30 22:00", "2026-11-30 21:00"),
        ("2026-11-28 03:00", "2026-11-30 03:00", "2026-11-29 21:00"),
        ("2026-11-28 21:00", "2026-11-30 21:00", "2026-11-30 21:00"),
        ("2026-11-28 07:00", "2026-11-30 07:00", "2026-11-30 07:00"),
        ("2026-11-28 06:59", "2026-11-30 06:59", "2026-11-29 21:00"),
    ],
)
def test_the_deadline_is_elapsed_time_and_is_shown_in_her_day(came, due, by):
    found = deadline(home(came), RULES, DAY)
    assert (found.due_at, found.by) == (home(due), home(by))
    assert found.due_at - home(came) == timedelta(hours=48)


def test_the_date_of_a_mail_gives_the_same_deadline_as_her_clock():
    came = datetime.fromisoformat("2026-10-31T10:00:00-05:00").astimezone(UTC)
    assert came == utc("2026-10-31 15:00") == home("2026-10-31 10:00")
    assert CLOCK.date_and_time(deadline(came, RULES, DAY).due_at) == "Mon, November 2, 9:00 am"


@pytest.mark.parametrize(
    ("now", "told"),
    [
        ("2026-11-29 09:59", ""),
        ("2026-11-29 10:00", "1 inquiry: 24 h"),
        ("2026-11-30 02:30", "1 inquiry: 7 h"),
        ("2026-11-30 09:20", "1 inquiry: 40 min"),
        ("2026-11-30 10:00", "1 inquiry: 0 min"),
        ("2026-11-30 13:05", "1 inquiry: late by 3 h"),
        ("2026-12-05 13:05", "1 inquiry: late by 5 days"),
    ],
)
def test_it_is_told_from_half_of_its_time_on_and_never_silently_passed(now, told):
    assert urgent_words([deadline(home("2026-11-28 10:00"), RULES, DAY)], home(now)) == told


def test_of_several_the_most_urgent_is_told():
    waiting = [
        deadline(home(came), RULES, DAY) for came in ("2026-11-28 12:00", "2026-11-28 10:00", "2026-11-29 20:00")
    ]
    assert urgent_words(waiting, home("2026-11-30 02:00")) == "2 inquiries: 8 h"


def test_past_the_moment_in_her_day_there_is_still_time_until_the_last_one():
    found = deadline(home("2026-11-28 22:00"), RULES, DAY)
    assert found.left(home("2026-11-30 20:00")) == "1 h"
    assert found.shown_until(home("2026-11-30 20:00")) == home("2026-11-30 21:00")
    assert found.left(home("2026-11-30 21:30")) == "30 min"
    assert found.shown_until(home("2026-11-30 21:30")) == home("2026-11-30 22:00")


def test_a_day_through_midnight_or_without_bounds_is_taken_as_it_is():
    through = TeachingDay(home=CLOCK, begins=time(), ends=time())
    assert deadline(home("2026-11-28 23:30"), RULES, through).by == home("2026-11-30 23:30")
    backwards = TeachingDay(home=CLOCK, begins=time(20), ends=time(8))
    assert deadline(home("2026-11-28 12:00"), RULES, backwards).by == home("2026-11-30 12:00")


def test_a_deadline_of_an_hour_at_night_is_the_moment_itself():
    found = deadline(home("2026-11-28 03:00"), InquiryRules(reply_hours=1), DAY)
    assert found.by == found.due_at == home("2026-11-28 04:00")


@given(
    st.datetimes(datetime(2026, 1, 1), datetime(2028, 1, 1)).map(lambda at: at.replace(tzinfo=UTC)),
    st.sampled_from(["America/Chicago", "Australia/Lord_Howe", "Asia/Kolkata", "Europe/London"]),
    st.integers(1, 336),
)
@examples(40)
def test_the_moment_shown_is_never_later_than_the_deadline_and_lies_in_her_day(came, zone, hours):
    clock = TeacherClock(zone=zone)
    found = deadline(came, InquiryRules(reply_hours=hours), TeachingDay(home=clock, begins=time(7), ends=time(21)))
    assert came < found.by <= found.due_at == came + timedelta(hours=hours)
    assert found.by == found.due_at or time(7) <= clock.local(found.by).time() <= time(21)


@pytest.mark.parametrize(
    ("length", "said"),
    [
        ((0, 0), "0 min"),
        ((0, 59), "59 min"),
        ((1, 0), "1 h"),
        ((71, 59), "71 h"),
        ((72, 0), "3 days"),
        ((-1, 0), "0 min"),
    ],
)
def test_lengths_of_time_are_said_whole(length, said):
    assert duration(timedelta(hours=length[0], minutes=length[1])) == said


@pytest.mark.parametrize(
    ("at", "months", "before"),
    [
        ("2027-03-31 12:00", 1, "2027-02-28 12:00"),
        ("2028-02-29 12:00", 12, "2027-02-28 12:00"),
        ("2027-01-05 12:00", 3, "2026-10-05 12:00"),
    ],
)
def test_months_are_counted_back_to_a_day_that_exists(at, months, before):
    assert months_before(utc(at), months) == utc(before)
