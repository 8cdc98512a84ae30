"""The notice of a cancellation. The hours are common practice, no source; clock changes are in outside/."""

from datetime import UTC, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import HOME, STARTS_AT, home, utc

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.lessons.lesson import is_late, last_free_moment


@pytest.mark.parametrize(
    ("cancelled_at", "late"),
    [
        ("2026-11-30 09:00", False),
        ("2026-11-30 15:59:59", False),
        ("2026-11-30 16:00", False),
        ("2026-11-30 16:00:01", True),
        ("2026-12-01 15:59", True),
        ("2026-12-01 16:10", True),
    ],
)
def test_with_a_day_of_notice_the_same_hour_of_the_day_before_is_the_last_that_is_free(cancelled_at, late):
    assert is_late(STARTS_AT, home(cancelled_at), 24) is late


def test_the_last_free_moment_is_said_in_utc():
    last = last_free_moment(local_time(STARTS_AT, HOME), 24)
    assert last == utc("2026-11-30 22:00")
    assert last.tzinfo is UTC


def test_without_notice_a_lesson_can_be_cancelled_until_it_begins():
    assert not is_late(STARTS_AT, STARTS_AT, 0)
    assert is_late(STARTS_AT, STARTS_AT + timedelta(microseconds=1), 0)


some_moment = st.datetimes(utc("2020-01-01").replace(tzinfo=None), utc("2040-01-01").replace(tzinfo=None))


@given(some_moment, some_moment, st.integers(0, 200))
def test_a_cancellation_is_late_exactly_when_fewer_hours_are_left_than_the_notice(starts_at, now, notice_hours):
    starts_at, now = starts_at.replace(tzinfo=UTC), now.replace(tzinfo=UTC)
    assert is_late(starts_at, now, notice_hours) is ((starts_at - now) / timedelta(hours=1) < notice_hours)
    assert not is_late(starts_at, last_free_moment(starts_at, notice_hours), notice_hours)
