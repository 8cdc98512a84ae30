"""Zones by the names that people write; the names themselves are those of the IANA time zone database."""

import zoneinfo

import pytest

from cockpit.studio.clocks.zones import find_zone, near_zones
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
