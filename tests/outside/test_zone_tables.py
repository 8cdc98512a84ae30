"""Zone changes, offsets and local times against published rules and against tables made with IANA tzdata 2026f.

Sources: 15 U.S.C. 260a(a) as amended by Pub. L. 109-58 s.110 (second Sunday of March to first Sunday of November, 2 a.m.
local, from 2007); Directive 2000/84/EC articles 2 and 3 (last Sunday of March and of October, 1.00 a.m. GMT); RFC 5545
3.3.5 (times that exist twice or not at all); the tz database's NEWS for British Columbia (2026b), Alberta and Morocco
(2026c) and Moldova (2026a). Manitoba, the Northwest Territories and Cuba were seen only as data of 2026f. The tables of
instants were computed once with tzdata 2026.6 (IANA 2026f), and stand here so that other data is noticed.
"""

from datetime import UTC, date, datetime, time, timedelta

import pytest
from support.instants import SECOND, changes, offset
from support.studio import CLOCK, HOME, enrollment, family, utc
from support.zone_tables import UNCHANGING, ZONE_YEARS

from cockpit.clock import zone_data_version
from cockpit.studio.clocks.home import Home
from cockpit.studio.clocks.moments import day_bounds, local_time, moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import utc_offset
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTimeId


def test_the_zone_data_is_that_of_2026f_or_later():
    assert zone_data_version() >= "2026f"


@pytest.mark.parametrize(("zone", "year", "instants"), ZONE_YEARS)
def test_a_zone_changes_at_the_instants_of_the_table_and_at_no_other(zone, year, instants):
    expected = [datetime.fromisoformat(f"{year}-{instant}+00:00") for instant in instants]
    assert list(changes(zone, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01"))) == expected
    for at in expected:
        assert local_time(at - SECOND, zone).utcoffset() != local_time(at, zone).utcoffset()


@pytest.mark.parametrize(("zone", "shown"), UNCHANGING.items())
def test_a_zone_without_clock_changes_keeps_its_offset_for_both_years(zone, shown):
    assert list(changes(zone, utc("2026-01-01"), utc("2028-01-01"))) == []
    assert utc_offset(utc("2027-07-01"), zone) == shown


@pytest.mark.parametrize(
    ("zone", "shown"),
    [
        ("America/Vancouver", "UTC−07:00"),
        ("America/Edmonton", "UTC−06:00"),
        ("America/Yellowknife", "UTC−06:00"),
        ("America/Inuvik", "UTC−06:00"),
        ("America/Winnipeg", "UTC−05:00"),
        ("America/Rainy_River", "UTC−05:00"),
        ("Africa/Casablanca", "UTC+00:00"),
        ("Africa/El_Aaiun", "UTC+00:00"),
        ("America/Havana", "UTC−04:00"),
        ("America/St_Johns", "UTC−03:30"),
        ("Australia/Adelaide", "UTC+10:30"),
        ("Pacific/Chatham", "UTC+13:45"),
    ],
)
def test_the_rules_of_2026_are_in_force_in_november(zone, shown):
    assert utc_offset(utc("2026-11-25 12:00"), zone) == shown


@pytest.mark.parametrize("year", range(2007, 2038))
@pytest.mark.parametrize("zone", ["America/New_York", HOME, "America/Denver", "America/Los_Angeles"])
def test_the_united_states_change_on_the_sundays_of_their_law(zone, year):
    """15 U.S.C. 260a(a)."""
    march, november = _sundays(year, 3)[1], _sundays(year, 11)[0]
    spring, autumn = changes(zone, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01"))
    assert local_time(spring, zone).replace(tzinfo=None) == datetime.combine(march, time(3))
    assert local_time(autumn, zone).replace(tzinfo=None) == datetime.combine(november, time(1))


@pytest.mark.parametrize("year", range(2002, 2038))
@pytest.mark.parametrize("zone", ["Europe/Berlin", "Europe/London", "Europe/Athens"])
def test_europe_changes_everywhere_at_one_in_the_morning_gmt(zone, year):
    """Directive 2000/84/EC articles 2 and 3; London kept the same instants afterwards."""
    expected = [datetime.combine(_sundays(year, month)[-1], time(1), UTC) for month in (3, 10)]
    assert list(changes(zone, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01"))) == expected


@pytest.mark.parametrize(
    ("begins", "ends", "days"),
    [
        ("2026-03-08", "2026-03-29", 21),
        ("2026-10-25", "2026-11-01", 7),
        ("2027-03-14", "2027-03-28", 14),
        ("2027-10-31", "2027-11-07", 7),
    ],
)
def test_new_york_and_london_are_four_hours_apart_between_their_changes(begins, ends, days):
    noon = timedelta(hours=12)
    apart = [
        offset(utc(begins) + noon + timedelta(days=n), "Europe/London")
        - offset(utc(begins) + noon + timedelta(days=n), "America/New_York")
        for n in range(-1, days + 1)
    ]
    assert apart == [timedelta(hours=5), *[timedelta(hours=4)] * days, timedelta(hours=5)]
    assert (date.fromisoformat(ends) - date.fromisoformat(begins)).days == days


COLUMNS = (
    "America/New_York",
    "America/Phoenix",
    "Europe/London",
    "Asia/Kolkata",
    "Australia/Sydney",
    "America/Vancouver",
)
TUESDAYS_AT_FOUR = [
    ("2026-10-20", "21:00", "Tue 17:00", "Tue 14:00", "Tue 22:00", "Wed 02:30", "Wed 08:00", "Tue 14:00"),
    ("2026-10-27", "21:00", "Tue 17:00", "Tue 14:00", "Tue 21:00", "Wed 02:30", "Wed 08:00", "Tue 14:00"),
    ("2026-11-03", "22:00", "Tue 17:00", "Tue 15:00", "Tue 22:00", "Wed 03:30", "Wed 09:00", "Tue 15:00"),
    ("2027-03-09", "22:00", "Tue 17:00", "Tue 15:00", "Tue 22:00", "Wed 03:30", "Wed 09:00", "Tue 15:00"),
    ("2027-03-16", "21:00", "Tue 17:00", "Tue 14:00", "Tue 21:00", "Wed 02:30", "Wed 08:00", "Tue 14:00"),
    ("2027-03-30", "21:00", "Tue 17:00", "Tue 14:00", "Tue 22:00", "Wed 02:30", "Wed 08:00", "Tue 14:00"),
    ("2027-04-06", "21:00", "Tue 17:00", "Tue 14:00", "Tue 22:00", "Wed 02:30", "Wed 07:00", "Tue 14:00"),
]


@pytest.mark.parametrize(("on", "in_utc", "families"), [(on, at, shown) for on, at, *shown in TUESDAYS_AT_FOUR])
def test_a_time_on_the_teachers_clock_is_read_on_every_familys(on, in_utc, families):
    for zone, shown in zip(COLUMNS, families, strict=True):
        kept = enrollment(kept_in=KeptIn.TEACHER)
        queue = planned(
            [Enrollment(standing=kept.standing, student=kept.student, family=family(zone=zone))],
            CLOCK,
            *day_bounds(date.fromisoformat(on), HOME),
        )
        assert [booking.lesson.starts_at for booking in queue] == [utc(f"{on} {in_utc}")]
        assert local_time(queue[0].lesson.starts_at, queue[0].family.zone).strftime("%a %H:%M") == shown


@pytest.mark.parametrize("zone", [HOME, Home(zone=HOME)], ids=["zone", "home"])
def test_every_second_tuesday_from_20_october_meets_the_rows_of_its_own_weeks(zone):
    """27 October, 16 and 30 March are 1, 21 and 23 weeks later: the weeks between."""
    rows = {on: utc(f"{on} {at}") for on, at, *_ in TUESDAYS_AT_FOUR}
    for every_weeks, between in ((1, set()), (2, {"2026-10-27", "2027-03-16", "2027-03-30"})):
        kept = enrollment(kept_in=KeptIn.TEACHER, from_on=date(2026, 10, 20), every_weeks=every_weeks)
        starts = {
            booking.lesson.starts_at
            for booking in planned([kept], TeacherClock(zone=zone), utc("2026-10-01"), utc("2027-05-01"))
        }
        assert {on for on, at in rows.items() if at in starts} == set(rows) - between


@pytest.mark.parametrize(
    ("on", "shown"),
    [
        ("2026-10-13", "12:00"),
        ("2026-10-20", "12:00"),
        ("2026-10-27", "13:00"),
        ("2026-11-03", "12:00"),
        ("2026-11-10", "12:00"),
    ],
)
def test_a_time_on_a_familys_clock_moves_on_the_teachers(on, shown):
    kept = enrollment(kept_in=KeptIn.FAMILY, at=time(18))
    london = Enrollment(standing=kept.standing, student=kept.student, family=family(zone="Europe/London"))
    queue = planned([london], CLOCK, *day_bounds(date.fromisoformat(on), HOME))
    assert [local_time(booking.lesson.starts_at, HOME).strftime("%H:%M") for booking in queue] == [shown]


def test_two_times_kept_on_two_clocks_meet_for_one_week_of_october():
    kept = enrollment(kept_in=KeptIn.FAMILY, at=time(18))
    hers = enrollment(kept_in=KeptIn.TEACHER, at=time(13), id=StandingTimeId(9))
    london = Enrollment(standing=kept.standing, student=kept.student, family=family(zone="Europe/London"))
    queue = planned([london, hers], CLOCK, utc("2026-10-12"), utc("2026-11-15"))
    starts = [booking.lesson.starts_at for booking in queue]
    assert [at for at in sorted(set(starts)) if starts.count(at) == 2] == [utc("2026-10-27 18:00")]


@pytest.mark.parametrize(
    ("zone", "local", "in_utc", "shown"),
    [
        ("America/New_York", "2026-03-08 02:30", "2026-03-08 07:30", "03:30"),
        ("America/New_York", "2026-11-01 01:30", "2026-11-01 05:30", "01:30"),
        ("America/New_York", "2007-03-11 02:30", "2007-03-11 07:30", "03:30"),  # RFC 5545 3.3.5's own example
        ("America/New_York", "2007-11-04 01:30", "2007-11-04 05:30", "01:30"),  # RFC 5545 3.3.5's own example
        ("Europe/London", "2026-03-29 01:30", "2026-03-29 01:30", "02:30"),
        ("Europe/London", "2026-10-25 01:30", "2026-10-25 00:30", "01:30"),
        ("Australia/Sydney", "2026-10-04 02:30", "2026-10-03 16:30", "03:30"),
        ("Australia/Lord_Howe", "2026-10-04 02:15", "2026-10-03 15:45", "02:45"),
        ("Australia/Lord_Howe", "2026-04-05 01:45", "2026-04-04 14:45", "01:45"),
        ("America/Santiago", "2026-09-06 00:30", "2026-09-06 04:30", "01:30"),
    ],
)
def test_a_local_time_that_exists_twice_or_not_at_all_is_read_by_the_rfc(zone, local, in_utc, shown):
    at = moment(datetime.fromisoformat(local), zone)
    assert at == utc(in_utc)
    assert local_time(at, zone).strftime("%H:%M") == shown


@pytest.mark.parametrize(
    ("zone", "on", "hours"),
    [
        ("America/New_York", "2026-03-08", 23),
        ("America/New_York", "2026-03-09", 24),
        ("America/New_York", "2026-11-01", 25),
        ("Australia/Lord_Howe", "2026-10-04", 23.5),
        ("Australia/Lord_Howe", "2026-04-05", 24.5),
        ("America/Santiago", "2026-09-06", 23),
    ],
)
def test_a_day_is_as_long_as_its_clock_change_makes_it(zone, on, hours):
    begins, ends = day_bounds(date.fromisoformat(on), zone)
    assert ends - begins == timedelta(hours=hours)


@pytest.mark.parametrize(("zone", "year", "instants"), ZONE_YEARS)
def test_the_days_of_a_year_are_24_hours_but_for_those_of_its_changes(zone, year, instants):
    """Each instant of the table makes one day longer or shorter by what the offset changes, and no other day."""
    expected = {}
    for instant in instants:
        at = utc(f"{year}-{instant}")
        old, new = offset(at - SECOND, zone), offset(at, zone)
        # Of the local times that are skipped or repeated, the first; in Nuuk these are the last hour of a day.
        on = (at + min(old, new)).date()
        expected[on] = timedelta(hours=24) + old - new
    days = (date(year, 1, 1) + timedelta(days=n) for n in range(365))
    lengths = {on: ends - begins for on in days for begins, ends in [day_bounds(on, zone)]}
    assert {on: length for on, length in lengths.items() if length != timedelta(hours=24)} == expected
    assert day_bounds(date(year, 6, 15), Home(zone=zone)) == day_bounds(date(year, 6, 15), zone)


def test_noon_to_noon_over_a_spring_change_is_23_hours():
    noons = (moment(datetime(2026, 3, day, 12), "America/New_York") for day in (7, 8))
    first, second = noons
    assert second - first == timedelta(hours=23)


def _sundays(year: int, month: int) -> list[date]:
    days = (date(year, month, 1) + timedelta(days=n) for n in range(31))
    return [day for day in days if day.month == month and day.weekday() == 6]
