"""Zones by the names that people write; the names themselves are those of the IANA time zone database."""

import zoneinfo
from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from cockpit.studio.clocks.zones import find_zone, near_zones, zone_of_place
from cockpit.studio.errors import BadInput


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("America/Chicago", "America/Chicago"), ("america/chicago", "America/Chicago"),
        ("AMERICA/ST JOHNS", "America/St_Johns"), (" america/new  york ", "America/New_York"), ("utc", "UTC"),
        ("america/port-au-prince", "America/Port-au-Prince"), ("Asia/Calcutta", "Asia/Calcutta"), ("GMT", "GMT"),
    ],
)  # fmt: skip
def test_a_zone_is_found_whatever_its_case_and_spaces(text: str, zone: str) -> None:
    assert find_zone(text) == zone


@pytest.mark.parametrize(
    ("text", "near"),
    [
        ("Phoenix", "America/Phoenix"), ("st johns", "America/St_Johns"), ("America/Chicgo", "America/Chicago"),
        ("US/Honolulu", "Pacific/Honolulu"), ("Kolkatta", "Asia/Kolkata"), ("Europe/Londn", "Europe/London"),
        ("EST", "America/New_York"), ("cdt", "America/Chicago"), ("IST", "Asia/Kolkata"),
    ],
)  # fmt: skip
def test_a_zone_that_is_not_found_is_told_the_nearest(text: str, near: str) -> None:
    with pytest.raises(BadInput, match=f"^Write the zone's IANA name, such as .*{near}"):
        find_zone(text)
    assert len(near_zones(text)) <= 3


def test_a_zone_that_nothing_comes_near_is_told_an_example() -> None:
    with pytest.raises(BadInput, match=r"^Write the zone's IANA name, such as America/Chicago$"):
        find_zone("xxxxxxxxxxxxxxxx")


def test_an_abbreviation_without_summer_time_is_no_zone() -> None:
    for name in ("EST", "MST", "HST", "EST5EDT", "CET"):
        assert name in zoneinfo.available_timezones()
        with pytest.raises(BadInput):
            find_zone(name)


def test_every_zone_that_is_near_can_be_used() -> None:
    for text in ("Phoenix", "est", "pst", "pdt", "ast", "bst", "cet", "cst", "hst", "ist", "mst", "mdt", "nst", "edt"):
        assert near_zones(text)
        assert [find_zone(zone) for zone in near_zones(text)] == list(near_zones(text))


OFFSETS = ["GMT+1", "gmt +1", "UTC-7", "UTC\u22127", "UTC+05:30", "GMT 1", "+01:00", "-7", "+0530", "utc+1"]
HOURS = {
    "Central European Time": 1, "central european summer time": 1, "India": 5.5, "Indian Standard Time": 5.5, "UK": 0,
    "Eastern Time": -5, "eastern": -5, "Pacific Standard Time": -8, "Iraq": 3, "Mali": 0, "Austria": 1, "Japan time": 9,
    "Niger": 1, "Oman": 4, "Chad": 1, "Germany": 1, "Central": -6, "Hawaii time": -10, "Ireland": 0, "Gambia": 0,
}  # fmt: skip


@pytest.mark.parametrize("text", [*OFFSETS, "Foo Time", "USA", "Australia", "Mexico"])
def test_what_has_no_hour_of_its_own_suggests_no_zone(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write the IANA name of the nearest large city"):
        find_zone(text)
    assert near_zones(text) == ()


@pytest.mark.parametrize(("text", "hours"), HOURS.items())
def test_a_clock_or_a_country_suggests_zones_of_its_own_hour_alone(text: str, hours: float) -> None:
    """Hours of standard time, from memory."""
    assert near_zones(text)
    january = datetime(2026, 1, 15, tzinfo=UTC)
    for zone in near_zones(text):
        offset = january.astimezone(ZoneInfo(zone)).utcoffset()
        # "Mountain" and "Australian" clocks apart, a name has one hour in January.
        assert offset == timedelta(hours=hours), zone


@pytest.mark.parametrize(
    ("text", "zone"),
    [
        ("Chicago", "America/Chicago"), ("new york", "America/New_York"), ("LONDON", "Europe/London"),
        ("Sao Paulo", "America/Sao_Paulo"), ("Kyiv", "Europe/Kyiv"), ("Sydney", "Australia/Sydney"),
        ("Singapore", "Asia/Singapore"), ("America/Chicago", "America/Chicago"), ("utc", "UTC"),
    ],
)  # fmt: skip
def test_a_city_by_its_name_alone_is_a_zone_where_there_is_one_of_it(text: str, zone: str) -> None:
    assert zone_of_place(text) == zone


@pytest.mark.parametrize(
    "text", ["San Juan", "Cordoba", "West", "North", "South", "Victoria", "Central", "Eastern", "GMT+1", "Chicgo"]
)
def test_a_city_that_there_is_twice_and_a_region_are_asked_about(text: str) -> None:
    with pytest.raises(BadInput, match=r"^Write the "):
        zone_of_place(text)
