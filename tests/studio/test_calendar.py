"""Standing times and the moments that they name."""

from datetime import date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.instants import readings
from support.studio import HOME, home, standing, utc

from cockpit.studio.calendar import WEEKDAYS, day_bounds, local_time, moment, occurrences

ZONES = [
    HOME,
    "America/Phoenix",
    "Europe/London",
    "America/St_Johns",
    "Pacific/Honolulu",
    "Asia/Kolkata",
    "America/Halifax",
    "Australia/Lord_Howe",
    "America/Santiago",
    "America/Havana",
    "Pacific/Apia",
]
some_zone = st.sampled_from(ZONES)
some_minute = st.times().map(lambda at: at.replace(second=0, microsecond=0))
some_day = st.dates(date(2024, 1, 1), date(2030, 1, 1))
some_moment = st.datetimes(datetime(2024, 1, 1), datetime(2030, 1, 1)).map(lambda at: utc(at.isoformat()))
some_standing = st.builds(
    standing,
    weekday=st.integers(0, 6),
    at=some_minute,
    from_on=st.none() | some_day,
    until_on=st.none() | some_day,
)


def test_a_standing_time_keeps_its_hour_in_summer_and_in_winter():
    starts = [each.starts_at for each in occurrences(standing(), HOME, utc("2026-06-01"), utc("2026-12-31"))]
    assert {local_time(at, HOME).time() for at in starts} == {time(16)}
    assert {at.hour for at in starts} == {21, 22}


def test_the_weekday_is_counted_from_monday():
    monday = standing(weekday=WEEKDAYS.index("Monday"))
    found = [each.taught_on for each in occurrences(monday, HOME, utc("2026-11-30"), utc("2026-12-02"))]
    assert found == [date(2026, 11, 30)]


def test_the_date_of_a_lesson_is_read_on_the_clock_it_is_kept_in():
    wednesdays = standing(weekday=2, at=time(3, 30))
    (found,) = occurrences(wednesdays, "Asia/Kolkata", *day_bounds(date(2026, 12, 1), HOME))
    assert found.taught_on == date(2026, 12, 2)
    assert found.starts_at == home("2026-12-01 16:00")


@pytest.mark.parametrize(
    ("zone", "weekday", "at"), [("Pacific/Honolulu", 0, time(23, 30)), ("Pacific/Kiritimati", 2, time(0, 30))]
)
def test_a_day_shows_lessons_whose_own_date_is_another(zone, weekday, at):
    found = list(occurrences(standing(weekday=weekday, at=at), zone, *day_bounds(date(2026, 12, 1), HOME)))
    assert len(found) == 1
    assert found[0].taught_on != date(2026, 12, 1)


def test_a_window_holds_the_lesson_at_its_beginning_and_not_the_one_at_its_end():
    first, second = home("2026-12-01 16:00"), home("2026-12-08 16:00")
    assert [each.starts_at for each in occurrences(standing(), HOME, first, second)] == [first]


def test_a_standing_time_begins_and_ends_on_its_own_dates_and_both_are_taught():
    kept = standing(from_on=date(2026, 12, 1), until_on=date(2026, 12, 15))
    found = [each.taught_on for each in occurrences(kept, HOME, utc("2026-01-01"), utc("2027-12-31"))]
    assert found == [date(2026, 12, 1), date(2026, 12, 8), date(2026, 12, 15)]


def test_a_standing_time_that_ended_before_it_began_names_no_lesson():
    kept = standing(from_on=date(2026, 12, 1), until_on=date(2026, 11, 1))
    assert list(occurrences(kept, HOME, utc("2026-01-01"), utc("2027-12-31"))) == []


@given(some_standing, some_zone, st.tuples(some_moment, some_moment, some_moment).map(sorted))
def test_two_windows_side_by_side_hold_what_one_over_both_holds(kept, zone, bounds):
    begins, between, ends = bounds
    parts = [*occurrences(kept, zone, begins, between), *occurrences(kept, zone, between, ends)]
    assert parts == list(occurrences(kept, zone, begins, ends))


@given(some_standing, some_zone, some_moment)
def test_lessons_are_a_calendar_week_apart_at_their_local_time(kept, zone, begins):
    found = list(occurrences(kept, zone, begins, begins + timedelta(days=400)))
    for earlier, later in pairwise(found):
        assert later.taught_on - earlier.taught_on == timedelta(days=7)
        assert earlier.starts_at < later.starts_at
    for each in found:
        assert each.taught_on.weekday() == kept.weekday
        wanted = datetime.combine(each.taught_on, kept.at)
        shown = local_time(each.starts_at, zone).replace(tzinfo=None)
        assert shown == wanted or not readings(wanted, zone)
        assert kept.from_on is None or each.taught_on >= kept.from_on
        assert kept.until_on is None or each.taught_on <= kept.until_on


@given(some_day, some_zone)
def test_days_follow_each_other_without_a_gap(on, zone):
    begins, ends = day_bounds(on, zone)
    assert day_bounds(on + timedelta(days=1), zone)[0] == ends
    assert timedelta(hours=23) <= ends - begins <= timedelta(hours=25)
    assert local_time(begins, zone).date() == on
    assert local_time(ends - timedelta(seconds=1), zone).date() == on


@given(some_moment, some_zone)
def test_a_moment_survives_being_read_on_a_clock_unless_that_hour_comes_twice(at, zone):
    shown = local_time(at, zone)
    again = moment(shown.replace(tzinfo=None), zone)
    assert again == at or (shown.fold == 1 and timedelta() < at - again <= timedelta(hours=1))
