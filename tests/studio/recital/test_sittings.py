"""At what time a recital suits everybody. The windows of December 19 were worked out by hand; days from 7 to 21 are common practice, no source."""

from datetime import date, datetime, time, timedelta
from functools import partial
from itertools import combinations
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import HOME, home, preferences

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.people.people import FamilyId
from cockpit.studio.recital.sittings import (
    RecitalDay,
    Sitting,
    StartWindow,
    best_sittings,
    fewest_sittings,
    out_of_reach,
    sittings_of,
    windows_of,
)

ZONES = {
    "Phoenix": "America/Phoenix", "Halifax": "America/Halifax", "St. John's": "America/St_Johns",
    "London": "Europe/London", "Honolulu": "Pacific/Honolulu", "Kolkata": "Asia/Kolkata",
}  # fmt: skip
IDS = {city: FamilyId(number) for number, city in enumerate(ZONES)}
QUARTER = timedelta(minutes=15)


def recital_day(on="2026-12-19", *, minutes=60, zones=ZONES, hers=HOME, begins=7, ends=21):
    wishes = preferences(home=TeacherClock(zone=hers), day_begins=time(begins), day_ends=time(ends % 24))
    ids = {FamilyId(number): zone for number, zone in enumerate(zones.values())}
    return RecitalDay(on=date.fromisoformat(on), seconds=minutes * 60, zones=ids, preferences=wishes)


WINTER = recital_day()


def said(window):
    return tuple(f"{each.astimezone(ZoneInfo(HOME)):%H:%M}" for each in (window.first, window.last))


def cities(ids):
    return [city for city, family_id in IDS.items() if family_id in ids]


@pytest.mark.parametrize(
    ("city", "windows"),
    [
        ("Phoenix", [("08:00", "20:00")]),
        ("Halifax", [("07:00", "18:00")]),
        ("St. John's", [("07:00", "17:30")]),
        ("London", [("07:00", "14:00")]),
        ("Honolulu", [("11:00", "20:00")]),
        ("Kolkata", [("07:00", "08:30"), ("19:30", "20:00")]),
    ],
)
def test_each_family_has_its_windows_on_her_clock(city, windows):
    assert [said(each) for each in windows_of(IDS[city], sittings_of(WINTER))] == windows


def test_no_start_suits_all_and_two_stretches_suit_all_but_one():
    sittings = sittings_of(WINTER)
    assert all(each.at_night for each in sittings)
    best = best_sittings(sittings)
    assert [(said(each.starts), cities(each.at_night)) for each in best] == [
        (("08:00", "08:30"), ["Honolulu"]),
        (("11:00", "14:00"), ["Kolkata"]),
    ]


def test_two_sittings_reach_everybody():
    chosen = fewest_sittings(sittings_of(WINTER))
    assert len(chosen) == 2
    assert cities(chosen[0].suited | chosen[1].suited) == list(ZONES)
    assert out_of_reach(sittings_of(WINTER)) == frozenset()


def test_noon_in_chicago_is_the_middle_of_the_night_in_kolkata_alone():
    noon = home("2026-12-19 12:00")
    clocks = [f"{noon.astimezone(ZoneInfo(zone)):%H:%M}" for zone in ZONES.values()]
    assert clocks == ["11:00", "14:00", "14:30", "18:00", "08:00", "23:30"]
    assert cities(WINTER.at_night(noon)) == ["Kolkata"]
    assert cities(WINTER.at_night(home("2026-12-19 19:30"))) == ["Halifax", "St. John's", "London"]


def test_a_family_that_no_start_suits_is_named_and_needs_no_sitting():
    short = recital_day(zones={"her own": HOME, "Auckland": "Pacific/Auckland"}, begins=11, ends=14)
    sittings = sittings_of(short)
    assert out_of_reach(sittings) == {FamilyId(1)}
    assert [each.suited for each in fewest_sittings(sittings)] == [{FamilyId(0)}]


def test_a_recital_longer_than_the_day_has_no_start_and_one_without_families_has_all():
    assert sittings_of(recital_day(minutes=15 * 60)) == ()
    assert (best_sittings(()), fewest_sittings(()), out_of_reach(())) == ((), (), frozenset())
    (alone,) = sittings_of(recital_day(zones={}))
    assert said(alone.starts) == ("07:00", "20:00")
    assert fewest_sittings((alone,)) == ()


def test_a_day_that_ends_at_midnight_and_one_without_a_night_are_whole():
    (late,) = sittings_of(recital_day(zones={}, ends=24))
    assert said(late.starts) == ("07:00", "23:00")
    (whole,) = sittings_of(recital_day(zones={}, begins=0, ends=24))
    assert said(whole.starts) == ("00:00", "23:45")


ODD = (
    "Australia/Lord_Howe",
    "Asia/Kolkata",
    "America/St_Johns",
    "Pacific/Chatham",
    "America/Chicago",
    "Europe/London",
    "America/Nuuk",
)
# The days on which clocks of one of them change, in both directions (facts of the zone data 2026f), the ones around, and others.
CHANGES = (
    "2026-03-08",
    "2026-03-29",
    "2026-04-05",
    "2026-09-27",
    "2026-10-04",
    "2026-10-25",
    "2026-11-01",
    "2026-12-19",
)
MINUTES = [timedelta(minutes=each) for each in range(180)]
DAYS = [date.fromisoformat(each) + timedelta(days=days) for each in CHANGES for days in (-1, 0, 1)]


def is_in_day_every_minute(starts_at, minutes, zone, begins, ends):
    """Whether each minute of it shows a time of one day on a clock, from `begins` on and before `ends`."""
    clock = ZoneInfo(zone)
    shown = ((starts_at + each).astimezone(clock).replace(tzinfo=None) for each in MINUTES[:minutes])
    day = datetime.combine(starts_at.astimezone(clock).date(), time())
    first, end = day + timedelta(hours=begins), day + timedelta(hours=ends)
    return all(first <= each < end for each in shown)


def test_starts_are_parted_where_a_clock_that_is_turned_back_shows_a_time_before_the_day_again():
    # Chatham shows 3:45 next at 2:45 (facts of the zone data 2026f): 3:00, 3:15, 3:30, 2:45, 3:00, and so on.
    parts = sittings_of(recital_day("2026-04-05", minutes=1, zones={}, hers="Pacific/Chatham", begins=3, ends=15))
    starts = [(each.starts.first, each.starts.last) for each in parts]
    utc = partial(datetime, 2026, 4, tzinfo=ZoneInfo("UTC"))
    assert starts == [(utc(4, 13, 15), utc(4, 13, 45)), (utc(4, 14, 15), utc(5, 2, 0))]
    # What lasts from 3:30 to 3:30 has a night in it; from the second 3:00 on there is none.
    (whole,) = sittings_of(recital_day("2026-04-05", minutes=60, zones={}, hers="Pacific/Chatham", begins=3, ends=15))
    assert (whole.starts.first, whole.starts.last) == (utc(4, 14, 15), utc(5, 1, 15))


@examples(25, long=200)
@given(
    st.sampled_from(DAYS), st.sampled_from(ODD), st.lists(st.sampled_from(ODD), max_size=4), st.integers(1, 180),
    st.integers(0, 9), st.integers(15, 24),
)  # fmt: skip
def test_the_starts_are_those_of_which_every_minute_lies_in_everybodys_day(on, hers, theirs, minutes, begins, ends):
    zones = dict(enumerate(theirs))
    found = sittings_of(recital_day(on.isoformat(), minutes=minutes, zones=zones, hers=hers, begins=begins, ends=ends))
    told = {at: each.at_night for each in found for at in starts_in(each.starts)}
    at, expected = datetime.combine(on, time(), ZoneInfo("UTC")) - timedelta(days=1), {}
    while at.date() <= on + timedelta(days=1):
        local = at.astimezone(ZoneInfo(hers))
        if local.date() == on and (is_day := _in_whole_day(at, minutes, begins, ends))(hers):
            expected[at] = {FamilyId(number) for number, zone in zones.items() if not is_day(zone)}
        at += QUARTER
    assert told == expected


def _in_whole_day(at, minutes, begins, ends):
    # From 0 to 24 there is no night, also where the lesson goes past midnight.
    return lambda zone: (begins, ends) == (0, 24) or is_in_day_every_minute(at, minutes, zone, begins, ends)


def starts_in(window):
    return [window.first + number * QUARTER for number in range((window.last - window.first) // QUARTER + 1)]


NINE = home("2026-12-19 09:00")
# Every set of six families, each drawn at once.
SETS = [frozenset(map(FamilyId, each)) for size in range(7) for each in combinations(range(6), size)]
suits = st.lists(st.sampled_from(SETS), max_size=7)


@examples(100, long=800)
@given(suits)
def test_no_fewer_sittings_reach_as_many_families(suited):
    everybody = frozenset().union(*suited)
    sittings = [
        Sitting(
            starts=StartWindow(first=NINE + number * QUARTER, last=NINE + number * QUARTER),
            suited=each, at_night=everybody - each,
        )
        for number, each in enumerate(suited)
    ]  # fmt: skip
    chosen = fewest_sittings(sittings)
    assert frozenset().union(*(each.suited for each in chosen)) == everybody
    assert [*chosen] == [each for each in sittings if each in chosen]
    for fewer in range(len(chosen)):
        assert all(
            frozenset().union(*(each.suited for each in some)) != everybody for some in combinations(sittings, fewer)
        )


@examples(20, long=200)
@given(
    st.sampled_from(DAYS),
    st.sampled_from(ODD),
    st.lists(st.sampled_from(ODD), min_size=1, max_size=6),
    st.integers(20, 120),
)
def test_one_or_two_sittings_reach_everybody_whom_any_reaches_where_all_days_are_as_long(on, hers, theirs, minutes):
    sittings = sittings_of(recital_day(on.isoformat(), minutes=minutes, zones=dict(enumerate(theirs)), hers=hers))
    reached = frozenset().union(*(each.suited for each in sittings))
    assert len(fewest_sittings(sittings)) <= 2
    assert reached == frozenset(map(FamilyId, range(len(theirs)))) - out_of_reach(sittings)
