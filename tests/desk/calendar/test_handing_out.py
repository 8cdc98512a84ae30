"""The number of the calendar that is handed out: it grows whenever what others see changes."""

from pathlib import Path

import pytest
from support.arranged_studio import HEADER, ROSTER, arranged_studio
from support.studio import home

from cockpit.clock import SetClock
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.wiring import Studio, studio_at

CHICAGO = 'home_zone = "America/Chicago"\n'
AWAY = f'{CHICAGO}[[away]]\nzone = "Europe/Paris"\nfrom = 2027-02-01\n'


def number(studio: Studio) -> int:
    calendar = HandingOut(studio.store.reading, studio.desk.clock, studio.preferences)
    return calendar.calendar(None, None).revision


def number_after(folder: Path, settings: str = CHICAGO, now: str = "2026-11-25 10:00", roster: str = "") -> int:
    with arranged_studio(folder, roster, now, settings) as arranged:
        return number(arranged.studio)


def read_only(folder: Path, settings: str, now: str = "2026-11-25 10:00") -> int:
    (folder / "settings.toml").write_text(settings, encoding="utf-8")
    with studio_at(folder, SetClock(home(now)), to_write=False) as studio:
        return number(studio)


def test_opening_the_studio_again_does_not_make_the_calendar_a_newer_one(tmp_path):
    first = number_after(tmp_path, roster=ROSTER)
    assert number_after(tmp_path) == read_only(tmp_path, CHICAGO) == first


@pytest.mark.parametrize(
    ("settings", "now"),
    [
        ('home_zone = "America/New_York"\n', "2026-11-25 10:00"),
        (AWAY, "2026-11-25 10:00"),
        (CHICAGO, "2027-09-01 10:00"),
    ],
)
def test_the_calendars_number_grows_with_her_clock_and_with_the_studio_year(tmp_path, settings, now):
    before = number_after(tmp_path, roster=ROSTER)
    assert read_only(tmp_path, settings, now) > before
    after = number_after(tmp_path, settings, now)
    assert after > before
    assert number_after(tmp_path, CHICAGO) > after


def test_the_calendars_number_grows_when_a_family_moves(tmp_path):
    row = "Mireille,Wednesday,17:00,45,Perreault,clarinet,America/St_Johns,family\n"
    before = number_after(tmp_path, roster=HEADER + row)
    assert number_after(tmp_path, roster=HEADER + row) == before
    assert number_after(tmp_path, roster=HEADER + row.replace("St_Johns", "Halifax")) > before


def test_on_the_29th_of_february_calendars_are_handed_out_and_notes_found(tmp_path):
    with arranged_studio(tmp_path, now="2028-02-29 17:00") as arranged:
        arranged.write("2028-02-29", "Ilse", "Scales: D major")
        assert number(arranged.studio)
        finding = arranged.studio.desk.finding
        assert finding.noted_lesson(finding.student("Ilse"), None)[1].body == "Scales: D major"
