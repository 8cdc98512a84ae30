"""Lessons of families that move, against zoneinfo alone.

The table was computed with the IANA tz database 2026f: Phoenix is at -07 all year, Denver at -07 until March 14, 2027 and
at -06 from then on, Chicago an hour before Denver.
"""

from bisect import bisect_right
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import CLOCK, HOME, ILSE, family, standing, utc

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import local_time, zone_at
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn

DAY = timedelta(days=1)
TWO_YEARS = utc("2026-01-01"), utc("2028-01-01")
PHOENIX, DENVER = "America/Phoenix", "America/Denver"
ZONES = (
    PHOENIX,
    DENVER,
    "America/St_Johns",
    "Europe/London",
    "Asia/Kolkata",
    "Australia/Lord_Howe",
    "Africa/Casablanca",
)
IN_MARCH = Home(zone=PHOENIX, stays=(Stay(zone=DENVER, from_on=date(2027, 3, 1)),))


def lessons(zone, begins, ends, **values):
    enrollment = Enrollment(standing=standing(**values), student=ILSE, family=family(zone=zone))
    return [booking.lesson for booking in planned([enrollment], CLOCK, begins, ends)]


@pytest.mark.parametrize(
    ("on", "there"),
    [
        ("2027-02-23", "3:00 pm Phoenix"),
        ("2027-03-02", "3:00 pm Denver"),
        ("2027-03-09", "3:00 pm Denver"),
        ("2027-03-16", "3:00 pm Denver"),
    ],
)
def test_ilses_lessons_at_four_in_chicago_read_as_in_the_table(on, there):
    begins = datetime.combine(date.fromisoformat(on), time(), UTC)
    (lesson,) = lessons(IN_MARCH, begins, begins + 2 * DAY)
    assert CLOCK.time(lesson.starts_at) == "4:00 pm"
    assert CLOCK.there(lesson.starts_at, IN_MARCH) == there


def test_without_the_move_she_would_be_an_hour_early_from_the_clock_change_on():
    (lesson,) = lessons(PHOENIX, utc("2027-03-16"), utc("2027-03-18"))
    assert CLOCK.there(lesson.starts_at, PHOENIX) == "2:00 pm Phoenix"


@st.composite
def moves(draw):
    """A first zone, and moves on days of two years, in order; none is to where they live."""
    days = sorted(draw(st.lists(st.dates(date(2026, 1, 2), date(2027, 12, 30)), max_size=4, unique=True)))
    zones = [draw(st.sampled_from(ZONES))]
    for _ in days:
        zones.append(draw(st.sampled_from([zone for zone in ZONES if zone != zones[-1]])))
    return days, zones


@examples(80, long=600)
@given(moves(), st.integers(0, 6), st.times(), st.sampled_from(KeptIn))
def test_every_lesson_of_two_years_is_where_zoneinfo_has_it(moved, weekday, at, kept_in):
    days, zones = moved
    at = at.replace(second=0, microsecond=0, fold=0)
    stays = tuple(Stay(zone=zone, from_on=on) for on, zone in zip(days, zones[1:], strict=True))
    clock = Home(zone=zones[0], stays=stays)
    found = lessons(clock, *TWO_YEARS, weekday=weekday, at=at, kept_in=kept_in)
    assert 103 <= len(found) <= 106
    starts = {lesson.starts_at for lesson in found}
    on = date(2026, 1, 3)
    while on < date(2027, 12, 29):
        if on.weekday() == weekday:
            lived_in = zones[bisect_right(days, on)]
            kept = HOME if kept_in is KeptIn.TEACHER else lived_in
            assert datetime.combine(on, at, ZoneInfo(kept)).astimezone(UTC) in starts
        on += DAY
    for lesson in found:
        # A family leaves at the midnight before the day, on the clock that it leaves.
        left = [
            datetime.combine(on, time(), ZoneInfo(zone)).astimezone(UTC) for on, zone in zip(days, zones, strict=False)
        ]
        if left != sorted(left) or len(set(left)) < len(left):
            continue
        lived_in = zones[bisect_right(left, lesson.starts_at)]
        assert zone_at(clock, lesson.starts_at) == lived_in
        shown = local_time(lesson.starts_at, clock).replace(tzinfo=None)
        assert shown == lesson.starts_at.astimezone(ZoneInfo(lived_in)).replace(tzinfo=None)
