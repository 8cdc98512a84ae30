"""Weekly times and the moments that they name."""

from datetime import date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.instants import readings
from support.studio import DAY, HOME, STARTS_AT, home, standing, utc

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS, Zone, day_bounds, lesson_zone, local_time, moment
from cockpit.studio.lessons.weekly_times import StandingTime, occurrences

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
    every_weeks=st.sampled_from((1, 2)),
)
MOVES = Home(zone=HOME, stays=(Stay(zone="Europe/London", from_on=date(2026, 12, 9)),))
TRAVELS = Home(zone=HOME, stays=(Stay(zone="Asia/Tokyo", from_on=date(2026, 12, 9), until_on=date(2026, 12, 20)),))


def days_of(kept: StandingTime, begins: str, ends: str, zone: Zone = HOME) -> list[str]:
    """The dates of the lessons between two moments, each as `12-01`."""
    return [f"{each.taught_on:%m-%d}" for each in occurrences(kept, zone, utc(begins), utc(ends))]


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


@pytest.mark.parametrize("from_on", [date(2026, 11, 25), date(2026, 11, 30), date(2026, 12, 1)])
def test_every_second_week_is_counted_from_the_first_lesson_day(from_on):
    """Any day from the Wednesday before to that Tuesday itself begins with Tuesday 1 December."""
    kept = standing(from_on=from_on, every_weeks=2)
    assert days_of(kept, "2026-11-01", "2027-01-15") == ["12-01", "12-15", "12-29", "01-12"]


def test_a_day_after_the_first_lesson_day_begins_the_other_weeks():
    kept = standing(from_on=date(2026, 12, 2), every_weeks=2)
    assert days_of(kept, "2026-11-01", "2027-01-15") == ["12-08", "12-22", "01-05"]


def test_two_students_share_a_time_in_turn():
    first, second = (standing(from_on=date(2026, 12, day), every_weeks=2) for day in (1, 8))
    both = [days_of(kept, "2026-12-01", "2027-02-01") for kept in (first, second)]
    assert sorted(both[0] + both[1], key=lambda day: (day < "12", day)) == days_of(
        standing(from_on=date(2026, 12, 1)), "2026-12-01", "2027-02-01"
    )
    assert not {*both[0]} & {*both[1]}


def test_the_count_of_weeks_goes_on_wherever_the_stretch_of_time_begins():
    kept = standing(from_on=date(2026, 9, 1), every_weeks=2)
    assert days_of(kept, "2026-12-01", "2026-12-31") == ["12-08", "12-22"]
    assert days_of(kept, "2026-12-08", "2026-12-31") == ["12-08", "12-22"]
    assert days_of(kept, "2026-12-09", "2026-12-31") == ["12-22"]
    assert days_of(kept, "2027-01-01", "2027-01-31") == ["01-05", "01-19"]


def test_the_last_day_of_every_second_week_is_taught_only_in_its_week():
    assert days_of(
        standing(from_on=date(2026, 12, 1), until_on=date(2026, 12, 15), every_weeks=2), "2026-11-01", "2027-02-01"
    ) == ["12-01", "12-15"]
    assert days_of(
        standing(from_on=date(2026, 12, 1), until_on=date(2026, 12, 14), every_weeks=2), "2026-11-01", "2027-02-01"
    ) == ["12-01"]


@pytest.mark.parametrize("weekday", range(7))
def test_without_a_first_day_the_week_of_1_january_2001_is_a_first_week(weekday):
    kept = standing(weekday=weekday, every_weeks=2)
    assert days_of(kept, "2000-12-25 12:00", "2001-01-12 12:00") == [f"01-{weekday + 1:02d}"]


def test_lessons_of_every_second_week_are_every_second_one_of_the_weekly_ones_over_a_clock_change():
    weekly = occurrences(standing(from_on=date(2026, 10, 20)), HOME, utc("2026-10-01"), utc("2027-05-01"))
    fortnightly = occurrences(
        standing(from_on=date(2026, 10, 20), every_weeks=2), HOME, utc("2026-10-01"), utc("2027-05-01")
    )
    assert list(fortnightly) == list(weekly)[::2]


def test_a_home_that_never_moves_reads_as_its_zone():
    still = Home(zone=HOME)
    assert lesson_zone(still, DAY) == HOME == lesson_zone(HOME, DAY)
    assert day_bounds(DAY, still) == day_bounds(DAY, HOME)
    assert moment(datetime(2026, 12, 1, 16), still) == STARTS_AT
    assert local_time(STARTS_AT, still) == local_time(STARTS_AT, HOME)


def test_a_move_takes_a_standing_time_along_and_keeps_the_count_of_its_weeks():
    """From Wednesday 9 December she lives in London; before it 16:00 is 22:00 UTC, and then 16:00 UTC."""
    kept = standing(from_on=date(2026, 11, 24), every_weeks=2)
    found = list(occurrences(kept, MOVES, utc("2026-11-01"), utc("2027-01-10")))
    assert [f"{each.starts_at:%m-%d %H:%M}" for each in found] == [
        "11-24 22:00",
        "12-08 22:00",
        "12-22 16:00",
        "01-05 16:00",
    ]


def test_a_journey_leaves_the_families_their_time():
    found = list(occurrences(standing(from_on=DAY), TRAVELS, utc("2026-12-01"), utc("2026-12-31")))
    assert {f"{each.starts_at:%H:%M}" for each in found} == {"22:00"}
    assert f"{local_time(found[2].starts_at, TRAVELS):%m-%d %H:%M}" == "12-16 07:00"


@given(some_standing, some_moment)
def test_a_move_changes_the_hour_of_a_lesson_and_never_its_date(kept, begins):
    ends = begins + 60 * WEEK
    moved_on = date(2026, 12, 9)
    wide = begins - WEEK, ends + WEEK
    by_rule = {each.taught_on: each.starts_at for each in occurrences(kept, MOVES, *wide)}
    for zone, holds in ((HOME, lambda on: on < moved_on), ("Europe/London", lambda on: on >= moved_on)):
        for each in occurrences(kept, zone, begins, ends):
            if holds(each.taught_on):
                assert by_rule[each.taught_on] == each.starts_at


@given(some_standing, some_zone, st.tuples(some_moment, some_moment, some_moment).map(sorted))
def test_two_windows_side_by_side_hold_what_one_over_both_holds(kept, zone, bounds):
    begins, between, ends = bounds
    parts = [*occurrences(kept, zone, begins, between), *occurrences(kept, zone, between, ends)]
    assert parts == list(occurrences(kept, zone, begins, ends))


@given(some_standing, some_zone, some_moment)
def test_lessons_are_one_or_two_calendar_weeks_apart_at_their_local_time(kept, zone, begins):
    found = list(occurrences(kept, zone, begins, begins + timedelta(days=400)))
    for earlier, later in pairwise(found):
        assert later.taught_on - earlier.taught_on == kept.every_weeks * WEEK
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
