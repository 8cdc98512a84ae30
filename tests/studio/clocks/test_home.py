"""The teacher's own clock: houses that she moves to, journeys, and what becomes of days and lessons."""

from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support.studio import HOME, standing, utc

from cockpit.studio.clocks.home import Home, Stay, arrivals
from cockpit.studio.clocks.moments import day_bounds, local_time, moment
from cockpit.studio.lessons.weekly_times import occurrences

DAY, MINUTE = timedelta(days=1), timedelta(minutes=1)
# No two are more than 24 hours apart: a longer way west would show a date that was already over.
ZONES = [
    HOME,
    "Europe/London",
    "Asia/Tokyo",
    "Australia/Sydney",
    "Australia/Lord_Howe",
    "America/Santiago",
    "Africa/Casablanca",
    "Asia/Kathmandu",
    "Pacific/Honolulu",
    "Pacific/Kiritimati",
]
FIRST, LAST = date(2026, 1, 1), date(2027, 12, 31)
some_zone = st.sampled_from(ZONES)
some_day = st.dates(FIRST, LAST)
some_move = st.builds(Stay, zone=some_zone, from_on=some_day)
some_journey = st.builds(
    lambda zone, on, days: Stay(zone=zone, from_on=on, until_on=on + timedelta(days=days)),
    some_zone,
    some_day,
    st.integers(-2, 40),
)
some_home = st.builds(Home, zone=some_zone, stays=st.lists(some_move | some_journey, max_size=5).map(tuple))
some_moment = st.datetimes(datetime(2025, 12, 1), datetime(2028, 1, 31)).map(lambda at: utc(at.isoformat()))


def at_home(*stays: Stay, zone: str = HOME) -> Home:
    return Home(zone=zone, stays=stays)


def move(zone: str, from_on: str) -> Stay:
    return Stay(zone=zone, from_on=date.fromisoformat(from_on))


def journey(zone: str, from_on: str, until_on: str) -> Stay:
    return Stay(zone=zone, from_on=date.fromisoformat(from_on), until_on=date.fromisoformat(until_on))


LONDON = move("Europe/London", "2027-01-11")
SYDNEY_WEEK = journey("Australia/Sydney", "2026-12-07", "2026-12-13")


def test_a_teacher_who_stays_has_the_clock_of_her_zone():
    home = at_home()
    assert home.zone_on(date(2026, 12, 1)) == HOME
    assert home.zone_at(utc("2026-12-01 12:00")) == HOME
    assert arrivals(home) == ()


@pytest.mark.parametrize(
    ("on", "zone"), [("2027-01-10", HOME), ("2027-01-11", "Europe/London"), ("2030-01-01", "Europe/London")]
)
def test_a_move_holds_from_its_day_on(on, zone):
    assert at_home(LONDON).zone_on(date.fromisoformat(on)) == zone
    assert at_home(LONDON).lesson_zone_on(date.fromisoformat(on)) == zone


@pytest.mark.parametrize(
    ("on", "zone"),
    [
        ("2026-12-06", HOME),
        ("2026-12-07", "Australia/Sydney"),
        ("2026-12-13", "Australia/Sydney"),
        ("2026-12-14", HOME),
    ],
)
def test_a_journey_holds_up_to_and_on_its_last_day_and_lessons_ignore_it(on, zone):
    assert at_home(SYDNEY_WEEK).zone_on(date.fromisoformat(on)) == zone
    assert at_home(SYDNEY_WEEK).lesson_zone_on(date.fromisoformat(on)) == HOME


@pytest.mark.parametrize("stays", [(LONDON, SYDNEY_WEEK), (SYDNEY_WEEK, LONDON)])
def test_of_a_move_during_a_journey_the_clock_waits_and_the_lessons_do_not(stays):
    away = journey("Asia/Tokyo", "2027-01-09", "2027-01-14")
    home = at_home(*stays, away)
    assert [home.zone_on(date(2027, 1, day)) for day in (8, 9, 11, 14, 15)] == [
        HOME,
        "Asia/Tokyo",
        "Asia/Tokyo",
        "Asia/Tokyo",
        "Europe/London",
    ]
    assert [home.lesson_zone_on(date(2027, 1, day)) for day in (10, 11)] == [HOME, "Europe/London"]


def test_of_two_moves_and_of_two_journeys_the_later_one_holds():
    moves = at_home(LONDON, move("Europe/Berlin", "2026-06-01"))
    assert [moves.zone_on(date(year, 1, 20)) for year in (2026, 2027)] == [HOME, "Europe/London"]
    assert moves.zone_on(date(2026, 7, 1)) == "Europe/Berlin"
    journeys = at_home(journey("Asia/Tokyo", "2026-12-10", "2026-12-11"), SYDNEY_WEEK)
    assert journeys.zone_on(date(2026, 12, 10)) == "Asia/Tokyo"
    assert journeys.zone_on(date(2026, 12, 12)) == "Australia/Sydney"


# Worked by hand from the offsets: Chicago -6, London 0, Sydney +11, Honolulu -10 in winter.
@pytest.mark.parametrize(
    ("home", "on", "begins", "hours"),
    [
        pytest.param(at_home(LONDON), "2027-01-10", "2027-01-10 06:00", 24, id="the day before a move east"),
        pytest.param(at_home(LONDON), "2027-01-11", "2027-01-11 06:00", 18, id="the first day in the east"),
        pytest.param(at_home(LONDON), "2027-01-12", "2027-01-12 00:00", 24, id="the second day in the east"),
        pytest.param(
            at_home(move(HOME, "2027-01-11"), zone="Europe/London"),
            "2027-01-10",
            "2027-01-10 00:00",
            30,
            id="the day before a move west lasts until midnight there",
        ),
        pytest.param(
            at_home(move(HOME, "2027-01-11"), zone="Europe/London"),
            "2027-01-11",
            "2027-01-11 06:00",
            24,
            id="the first day in the west",
        ),
        pytest.param(at_home(SYDNEY_WEEK), "2026-12-07", "2026-12-07 06:00", 7, id="across the date line, going"),
        pytest.param(at_home(SYDNEY_WEEK), "2026-12-13", "2026-12-12 13:00", 41, id="across the date line, returning"),
    ],
)
def test_the_day_of_a_journey_is_shorter_or_longer(home, on, begins, hours):
    found = day_bounds(date.fromisoformat(on), home)
    assert found == (utc(begins), utc(begins) + timedelta(hours=hours))


def test_a_day_that_she_flies_over_is_empty():
    """Honolulu -10, Kiritimati +14: midnight there is the next midnight here."""
    home = at_home(move("Pacific/Kiritimati", "2026-12-05"), zone="Pacific/Honolulu")
    begins, ends = day_bounds(date(2026, 12, 5), home)
    assert begins == ends == utc("2026-12-05 10:00")
    assert local_time(begins, home).date() == date(2026, 12, 6)
    assert local_time(begins - MINUTE, home).date() == date(2026, 12, 4)


def test_no_day_begins_before_the_one_that_it_follows_even_25_hours_east():
    """Pago Pago -11, Kiritimati +14."""
    home = at_home(move("Pacific/Kiritimati", "2026-12-05"), zone="Pacific/Pago_Pago")
    begins = [home.day_begins(date(2026, 12, day)) for day in (4, 5, 6, 7)]
    assert begins == [utc(text) for text in ("2026-12-04 11:00", *["2026-12-05 11:00"] * 2, "2026-12-06 10:00")]


def test_a_stay_that_is_over_before_she_arrives_is_none():
    home = at_home(journey("Pacific/Kiritimati", "2026-12-05", "2026-12-05"), zone="Pacific/Pago_Pago")
    noons = [utc("2026-12-03 12:00") + n * timedelta(hours=1) for n in range(96)]
    assert {home.zone_at(at) for at in noons} == {"Pacific/Pago_Pago"}


def test_she_goes_straight_on_from_a_stay_that_is_over_before_she_arrives():
    stays = (
        journey("Pacific/Kiritimati", "2026-12-05", "2026-12-05"),
        journey("Asia/Tokyo", "2026-12-06", "2026-12-09"),
    )
    home = at_home(*stays, zone="Pacific/Pago_Pago")
    assert arrivals(home) == (
        (utc("2026-12-05 11:00"), "Asia/Tokyo"),
        (utc("2026-12-09 15:00"), "Pacific/Pago_Pago"),
    )


def test_a_move_at_a_midnight_that_does_not_exist_is_at_the_first_minute_after_it():
    """Santiago's clocks went from 24:00 on 5 September 2026 to 1:00 (IANA 2026f): 04:00 UTC."""
    home = at_home(move(HOME, "2026-09-06"), zone="America/Santiago")
    assert arrivals(home) == ((utc("2026-09-06 04:00"), HOME),)


@given(some_home)
def test_days_tile_the_time_whatever_she_does(home):
    on = FIRST - 3 * DAY
    begins, ends = day_bounds(on, home)
    while on < LAST + 45 * DAY:
        assert begins <= ends
        on += DAY
        before, (begins, ends) = ends, day_bounds(on, home)
        assert begins == before


@given(some_home, some_moment)
def test_a_moment_lies_in_the_day_that_her_clock_shows(home, at):
    begins, ends = day_bounds(local_time(at, home).date(), home)
    assert begins <= at < ends


@given(some_home, some_day)
def test_her_clock_shows_a_date_from_its_first_minute_to_its_last(home, on):
    begins, ends = day_bounds(on, home)
    assume(begins < ends)
    assert local_time(begins, home).date() == on
    assert local_time(ends - MINUTE, home).date() == on


@given(some_home, some_moment)
def test_her_clock_shows_a_zone_that_she_is_in_that_day_or_was_in_the_day_before(home, at):
    on = local_time(at, home).date()
    assert home.zone_at(at) in {home.zone_on(on), home.zone_on(on + DAY), home.zone_on(on - DAY)}


@given(some_home, some_moment)
def test_a_home_without_stays_is_its_zone(home, at):
    bare = Home(zone=home.zone)
    assert local_time(at, bare) == local_time(at, home.zone)
    on = at.date()
    assert day_bounds(on, bare) == day_bounds(on, home.zone)
    assert moment(at.replace(tzinfo=None), bare) == moment(at.replace(tzinfo=None), home.zone)


@given(some_home)
def test_arrivals_are_in_order_and_her_clock_turns_at_each(home):
    found = arrivals(home)
    assert [at for at, _ in found] == sorted({at for at, _ in found})
    for at, zone in found:
        assert home.zone_at(at) == zone


def test_lessons_on_her_clock_move_house_with_her():
    """Tuesday 16:00 is 22:00 UTC in Chicago and 16:00 UTC in London."""
    found = occurrences(standing(), at_home(LONDON), utc("2027-01-01"), utc("2027-01-20"))
    assert [each.starts_at for each in found] == [
        utc("2027-01-05 22:00"),
        utc("2027-01-12 16:00"),
        utc("2027-01-19 16:00"),
    ]


def test_a_family_keeps_its_time_while_she_travels_and_her_clock_shows_another():
    home = at_home(SYDNEY_WEEK)
    found = [each.starts_at for each in occurrences(standing(), home, utc("2026-12-01"), utc("2026-12-16"))]
    assert [local_time(at, "America/Phoenix").strftime("%a %H:%M") for at in found] == ["Tue 15:00"] * 3
    assert [local_time(at, home).strftime("%a %H:%M") for at in found] == ["Tue 16:00", "Wed 09:00", "Tue 16:00"]


@given(some_home, st.integers(0, 6), st.times().map(lambda at: at.replace(second=0, microsecond=0)))
def test_journeys_never_change_a_lessons_moment(home, weekday, at):
    kept = standing(weekday=weekday, at=at)
    stays = tuple(stay for stay in home.stays if stay.until_on is None)
    window = utc("2026-01-01"), utc("2028-01-01")
    settled = list(occurrences(kept, Home(zone=home.zone, stays=stays), *window))
    assert list(occurrences(kept, home, *window)) == settled
    # From Saturday to Saturday, one each week but for a move at the window's edge.
    assert abs(len(settled) - 104) <= 1
    assert {each.taught_on.weekday() for each in settled} == {weekday}
    for each in settled:
        assert each.starts_at == moment(datetime.combine(each.taught_on, at), home.lesson_zone_on(each.taught_on))


def test_a_lesson_near_midnight_is_on_the_day_of_her_clock():
    late = standing(weekday=0, at=time(23, 30))
    (found,) = occurrences(late, HOME, *day_bounds(date(2026, 12, 8), at_home(SYDNEY_WEEK)))
    assert local_time(found.starts_at, at_home(SYDNEY_WEEK)).date() == date(2026, 12, 8)
    assert found.taught_on == date(2026, 12, 7)
