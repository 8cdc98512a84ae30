"""When a family's clock shows another time than the teacher's, and how that is said."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import CLOCK, HOME, home, standing, utc

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.weekly_times import KeptIn


# Offsets in December 2026, from the zone data: Chicago -6, Phoenix -7, Halifax -4, St. John's -3:30, Honolulu -10,
# London 0, Kolkata +5:30.
@pytest.mark.parametrize(
    ("zone", "hours", "said"),
    [
        ("America/Phoenix", 12, "3:00 pm Phoenix"),
        ("America/Halifax", 12, "6:00 pm Halifax"),
        ("America/St_Johns", 12, "6:30 pm St. John's"),
        ("Pacific/Honolulu", 24, "12:00 Honolulu"),
        ("Europe/London", 24, "22:00 London"),
        ("Asia/Kolkata", 12, "Wed 3:30 am Kolkata"),
        ("Asia/Kolkata", 24, "Wed 3:30 Kolkata"),
    ],
)
def test_another_time_is_said_with_the_city_and_another_day_with_its_name(zone: str, hours: int, said: str) -> None:
    assert TeacherClock(zone=HOME, hours=hours).there(home("2026-12-01 16:00"), zone) == said


def test_an_earlier_day_is_named_too() -> None:
    assert CLOCK.there(home("2026-12-01 01:00"), "Pacific/Honolulu") == "Mon 9:00 pm Honolulu"


@pytest.mark.parametrize("zone", [HOME, "America/Menominee", "America/Mexico_City"])
def test_a_zone_that_shows_the_same_time_is_not_mentioned(zone: str) -> None:
    assert CLOCK.there(home("2026-12-01 16:00"), zone) is None


# Chicago left daylight time on 1 November 2026 at 07:00 UTC; Phoenix has none.
def test_whether_the_times_differ_is_asked_of_the_moment() -> None:
    assert TeacherClock(zone=HOME, hours=24).there(utc("2026-11-01 06:59"), "America/Mexico_City") == "0:59 Mexico City"
    assert TeacherClock(zone=HOME, hours=24).there(utc("2026-11-01 07:00"), "America/Mexico_City") is None


@given(st.datetimes(min_value=utc("2020-01-01").replace(tzinfo=None), max_value=utc("2035-01-01").replace(tzinfo=None)))
def test_the_same_zone_never_differs(at) -> None:
    assert CLOCK.there(at.replace(tzinfo=utc("2020-01-01").tzinfo), HOME) is None


def test_both_times_stand_together_and_one_that_is_the_same_stands_alone() -> None:
    at = home("2026-12-01 16:05")
    assert CLOCK.both(at, "Asia/Kolkata") == "4:05 pm (Wed 3:35 am Kolkata)"
    assert CLOCK.both(at, "America/Menominee") == "4:05 pm"
    assert TeacherClock(zone=HOME, hours=24).date_and_time(at) == "Tue, December 1, 16:05"


def test_weekly_times_on_her_clock_move_with_her_and_do_not_travel() -> None:
    move = Stay(zone="Europe/Lisbon", from_on=date(2027, 2, 1))
    journey = Stay(zone="Asia/Tokyo", from_on=date(2026, 12, 10), until_on=date(2026, 12, 20))
    there = TeacherClock(zone=Home(zone=HOME, stays=(journey, move)))
    at = utc("2026-12-15 03:30")
    assert there.date_of(at) == date(2026, 12, 15)
    kept_on = standing(kept_in=KeptIn.TEACHER).clock(there, "Asia/Kolkata")
    assert kept_on == there.lesson_clock == Home(zone=HOME, stays=(move,))
    assert local_time(at, kept_on).date() == date(2026, 12, 14)
    assert standing(kept_in=KeptIn.FAMILY).clock(there, "Asia/Kolkata") == "Asia/Kolkata"
