"""The notice of a cancellation across clock changes.

Sources: the changes are those of 15 U.S.C. 260a(a) (2 a.m. on 1 November 2026 and 14 March 2027 in the United States) and of
Directive 2000/84/EC articles 2 and 3 (1.00 a.m. GMT on 25 October 2026 and 28 March 2027). The deadlines of 48 hours were
computed once with tzdata 2026f, on the teacher's clock in Chicago: from Saturday 31 October 10:00 to Monday 2 November 09:00,
and from 13 March 10:00 to 15 March 11:00; here a lesson stands at the end of each, and the notice is counted back. The
notices themselves (12, 24, 48 hours) are common practice, no source.
"""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.instants import rfc_moment
from support.studio import HOME, utc
from support.zone_tables import ZONE_YEARS

from cockpit.studio.lessons.lesson import is_late, last_free_moment

SECOND = timedelta(seconds=1)

# The zone, the lesson on its clock, the notice, and the last moment of a free cancellation on the same clock.
ACROSS_A_CHANGE = [
    (HOME, "2026-11-01 16:00", 24, "2026-10-31 17:00"),
    (HOME, "2027-03-14 16:00", 24, "2027-03-13 15:00"),
    (HOME, "2026-11-02 09:00", 48, "2026-10-31 10:00"),
    (HOME, "2027-03-15 11:00", 48, "2027-03-13 10:00"),
    (HOME, "2026-11-01 10:00", 12, "2026-10-31 23:00"),
    (HOME, "2026-11-02 16:00", 24, "2026-11-01 16:00"),
    (HOME, "2026-11-03 16:00", 72, "2026-10-31 17:00"),
    ("Europe/London", "2026-10-25 16:00", 24, "2026-10-24 17:00"),
    ("Europe/London", "2027-03-28 16:00", 24, "2027-03-27 15:00"),
    ("Australia/Lord_Howe", "2026-10-04 16:00", 24, "2026-10-03 15:30"),
    ("America/Phoenix", "2026-11-01 16:00", 24, "2026-10-31 16:00"),
]


@pytest.mark.parametrize(("zone", "lesson", "notice_hours", "last"), ACROSS_A_CHANGE)
def test_the_notice_is_counted_in_hours_that_pass(zone, lesson, notice_hours, last):
    starts_at = rfc_moment(datetime.fromisoformat(lesson), zone)
    expected = rfc_moment(datetime.fromisoformat(last), zone)
    assert last_free_moment(starts_at, notice_hours) == expected
    assert not is_late(starts_at, expected, notice_hours)
    assert is_late(starts_at, expected + SECOND, notice_hours)


@pytest.mark.parametrize(("zone", "lesson", "notice_hours", "last"), ACROSS_A_CHANGE)
def test_moments_of_a_zone_of_their_own_are_counted_in_hours_that_pass_too(zone, lesson, notice_hours, last):
    """Python subtracts within one zone by the wall clock; the notice must not."""
    starts_at = datetime.fromisoformat(lesson).replace(tzinfo=ZoneInfo(zone))
    cancelled_at = datetime.fromisoformat(last).replace(tzinfo=ZoneInfo(zone))
    assert last_free_moment(starts_at, notice_hours) == cancelled_at.astimezone(UTC)
    assert not is_late(starts_at, cancelled_at, notice_hours)
    assert is_late(starts_at, cancelled_at + timedelta(minutes=1), notice_hours)


def test_in_the_hour_that_comes_twice_the_first_pass_is_in_time_and_the_second_is_late():
    """New York, 1 November 2026: 01:30 is 05:30 UTC and again 06:30 UTC (RFC 5545 3.3.5 and tzdata 2026f)."""
    starts_at = utc("2026-11-02 05:30")
    first = datetime(2026, 11, 1, 1, 30, tzinfo=ZoneInfo("America/New_York"))
    assert not is_late(starts_at, first, 24)
    assert is_late(starts_at, first.replace(fold=1), 24)


@given(
    st.sampled_from([(zone, instant, year) for zone, year, instants in ZONE_YEARS for instant in instants]),
    st.integers(-72 * 60, 72 * 60),
    st.integers(0, 96),
)
def test_every_change_of_the_table_leaves_the_notice_as_long_as_it_is(change, minutes, notice_hours):
    zone, instant, year = change
    starts_at = utc(f"{year}-{instant}") + timedelta(minutes=minutes)
    shown = starts_at.astimezone(ZoneInfo(zone))
    last = last_free_moment(shown, notice_hours)
    assert last.tzinfo is UTC
    assert (starts_at - last).total_seconds() == notice_hours * 3600
