"""When a family's clock shows another time than the teacher's, and how that is said."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import HOME, home, utc

from cockpit.studio.clocks.words import family_time


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
    assert family_time(home("2026-12-01 16:00"), HOME, zone, hours) == said


def test_an_earlier_day_is_named_too() -> None:
    assert family_time(home("2026-12-01 01:00"), HOME, "Pacific/Honolulu", 12) == "Mon 9:00 pm Honolulu"


@pytest.mark.parametrize("zone", [HOME, "America/Menominee", "America/Mexico_City"])
def test_a_zone_that_shows_the_same_time_is_not_mentioned(zone: str) -> None:
    assert family_time(home("2026-12-01 16:00"), HOME, zone, 12) is None


# Chicago left daylight time on 1 November 2026 at 07:00 UTC; Phoenix has none.
def test_whether_the_times_differ_is_asked_of_the_moment() -> None:
    assert family_time(utc("2026-11-01 06:59"), HOME, "America/Mexico_City", 24) == "0:59 Mexico City"
    assert family_time(utc("2026-11-01 07:00"), HOME, "America/Mexico_City", 24) is None


@given(st.datetimes(min_value=utc("2020-01-01").replace(tzinfo=None), max_value=utc("2035-01-01").replace(tzinfo=None)))
def test_the_same_zone_never_differs(at) -> None:
    assert family_time(at.replace(tzinfo=utc("2020-01-01").tzinfo), HOME, HOME, 12) is None
