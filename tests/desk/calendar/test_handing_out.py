"""The calendar that is handed out: its number grows whenever what others see changes, and what is withdrawn is said."""

from datetime import date, time
from pathlib import Path

import pytest
from icalendar import Calendar, Component
from support.arranged_studio import HEADER, ROSTER, Arranged, arranged_studio
from support.studio import home

from cockpit.clock import SetClock
from cockpit.desk.calendar.handing_out import HandingOut
from cockpit.desk.calendar.proposals import Purpose
from cockpit.papers.calendar.file import calendar_file
from cockpit.studio.changes.records import Change, Edit
from cockpit.studio.values import replace
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


def file_of(arranged: Arranged, family: str | None = None, weeks: int | None = None) -> dict[str, Component]:
    """The events of the calendar file, by their UIDs without the studio's; one in place of another has its date in it."""
    studio = arranged.studio
    shared = HandingOut(studio.store.reading, studio.desk.clock, studio.preferences).calendar(weeks, family)
    events = Calendar.from_ical(calendar_file(shared)).walk("VEVENT")
    names = [(event["UID"].partition("@")[0], event.get("RECURRENCE-ID")) for event in events]
    return {
        uid if instead is None else f"{uid}, {instead.dt:%Y-%m-%d}": event
        for (uid, instead), event in zip(names, events, strict=True)
    }


TAKEN_BACK = [
    (Purpose.EXTRA, "thu dec 3 5 pm", "Ilse, cello"),
    (Purpose.TRIAL, "Otto thu dec 3 5 pm", "Lesson"),
    (Purpose.CHANGE, "from dec 9 5 pm", "Ilse, cello"),
]


@pytest.mark.parametrize(("purpose", "line", "title"), TAKEN_BACK)
def test_what_is_taken_back_stays_in_the_file_as_cancelled_until_its_date_is_past(tmp_path, purpose, line, title):
    """RFC 5545 3.8.1.11 and 3.8.7.4: STATUS says so, and the higher SEQUENCE that this is the later word."""
    with arranged_studio(tmp_path) as arranged:
        before = file_of(arranged)
        arranged.done(purpose, "2026-12-01", "Ilse", line)
        booked = file_of(arranged)
        (new,) = booked.keys() - before.keys()
        arranged.undo()
        undone = file_of(arranged)
        assert undone.keys() == booked.keys()
        assert (undone[new]["STATUS"], str(undone[new]["SUMMARY"])) == ("CANCELLED", title)
        assert undone[new]["SEQUENCE"] > booked[new]["SEQUENCE"]
        assert (undone[new]["DTSTART"].dt, undone[new]["DURATION"].dt) == (
            booked[new]["DTSTART"].dt,
            booked[new]["DURATION"].dt,
        )
        assert [event["STATUS"] for event in undone.values() if "STATUS" in event] == ["CANCELLED"]
        arranged.clock.wind(days=390)
        assert new not in file_of(arranged)


def test_what_is_booked_again_is_no_longer_cancelled(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        booked = arranged.done(Purpose.EXTRA, "2026-12-01", "Ilse", "thu dec 3 5 pm")
        arranged.undo()
        assert arranged.studio.store.writing is not None
        arranged.studio.store.writing.apply(Change(said="again", edits=booked.edits))
        assert not any("STATUS" in event for event in file_of(arranged).values())
        assert arranged.studio.store.reading.withdrawn_lessons() == ()


def test_a_weekly_time_that_ends_before_its_first_day_stays_in_the_file_as_cancelled(tmp_path):
    ilse = "student,weekday,time,minutes,from,until\nIlse,Tuesday,16:00,30,2026-12-08,"
    with arranged_studio(tmp_path, f"{ilse}\n") as arranged:
        (series,) = file_of(arranged)
    with arranged_studio(tmp_path, f"{ilse}2026-12-12\n") as arranged:
        assert "STATUS" not in file_of(arranged)[series]
        store = arranged.studio.store
        (standing,) = store.reading.standing_times()
        assert store.writing is not None
        ended = replace(standing, until_on=date(2026, 12, 7))
        store.writing.apply(Change(said="end", edits=(Edit(before=standing, after=ended),)))
        event = file_of(arranged)[series]
        assert (event["STATUS"], f"{event['DTSTART'].dt:%Y-%m-%d %H:%M}") == ("CANCELLED", "2026-12-08 16:00")


def test_a_lesson_that_is_moved_back_stands_in_its_own_place_until_its_date_is_past(tmp_path):
    """RFC 5545 3.8.4.4: who has it where it was moved to learns of its own time by what has the same RECURRENCE-ID."""
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-01", "Ilse", "thu dec 3 5 pm")
        (moved,) = (name for name in file_of(arranged) if "2026-12-01" in name)
        arranged.undo()
        event = file_of(arranged)[moved]
        assert event["DTSTART"].dt == home("2026-12-01 16:00")
        assert "STATUS" not in event
        assert moved not in file_of(arranged, "Okonjo")
        arranged.clock.wind(days=9)
        assert moved not in file_of(arranged)


def test_a_lesson_that_is_moved_back_stands_there_until_the_day_that_it_was_moved_to_is_past(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-01", "Ilse", "thu dec 17 5 pm")
        arranged.undo()
        (moved,) = (name for name in file_of(arranged) if "2026-12-01" in name)
        arranged.clock.wind(days=7)
        assert file_of(arranged)[moved]["DTSTART"].dt == home("2026-12-01 16:00")
        arranged.clock.wind(days=20)
        assert moved not in file_of(arranged)


@pytest.mark.parametrize("is_moved_back", [False, True])
def test_a_lesson_that_was_moved_is_cancelled_in_a_series_that_ends_before_it(tmp_path, is_moved_back):
    """RFC 5545 3.8.4.4: what was handed out in place of a meeting stays with those who have it, also beyond the end."""
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-15", "Ilse", "thu dec 17 5 pm")
        (moved,) = (name for name in file_of(arranged) if "2026-12-15" in name)
        if is_moved_back:
            arranged.undo()
        arranged.done(Purpose.CHANGE, "2026-12-01", "Ilse", "from dec 8 5 pm")
        event = file_of(arranged)[moved]
        assert (event["STATUS"], event["RECURRENCE-ID"].dt) == ("CANCELLED", home("2026-12-15 16:00"))
        arranged.clock.wind(days=30)
        assert moved not in file_of(arranged)


def test_what_is_taken_back_is_told_to_its_own_family_alone(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.EXTRA, "2026-12-01", "Ilse", "thu dec 3 5 pm")
        arranged.undo()
        for family, said in (("Brandvold", ["CANCELLED"]), ("Okonjo", [])):
            events = file_of(arranged, family).values()
            assert [event["STATUS"] for event in events if "STATUS" in event] == said
        assert not any("STATUS" in event for event in file_of(arranged, weeks=0).values())


@pytest.mark.parametrize(("purpose", "line", "title"), TAKEN_BACK)
def test_what_was_taken_back_is_kept_until_its_date_is_past_and_no_longer(tmp_path, purpose, line, title):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(purpose, "2026-12-01", "Ilse", line)
        arranged.undo()
        reading, writing = arranged.studio.store.reading, arranged.studio.store.writing
        assert writing is not None
        revision = reading.calendar_edition()
        kept = reading.withdrawn_lessons(), reading.withdrawn_times()
        assert sum(map(len, kept)) == 1
        writing.clear_withdrawn(arranged.clock.now())
        assert (reading.withdrawn_lessons(), reading.withdrawn_times()) == kept
        arranged.clock.wind(days=390)
        before = file_of(arranged).keys()
        writing.clear_withdrawn(arranged.clock.now())
        assert (reading.withdrawn_lessons(), reading.withdrawn_times()) == ((), ())
        assert (file_of(arranged).keys(), reading.calendar_edition()) == (before, revision)


def test_a_lesson_that_is_moved_back_to_a_later_day_is_known_until_that_is_past(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "thu dec 3 5 pm")
        arranged.undo()
        reading, writing = arranged.studio.store.reading, arranged.studio.store.writing
        assert writing is not None
        arranged.clock.wind(days=5)
        writing.clear_withdrawn(arranged.clock.now())
        assert len(reading.withdrawn_lessons()) == 1
        arranged.clock.wind(days=20)
        writing.clear_withdrawn(arranged.clock.now())
        assert reading.withdrawn_lessons() == ()


def test_a_weekly_time_without_dates_that_is_taken_back_is_told_for_a_year(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        store = arranged.studio.store
        assert store.writing is not None
        (ilse,) = (each for each in store.reading.standing_times() if each.weekday == 1 and each.at == time(16))
        assert (ilse.from_on, ilse.until_on) == (None, None)
        store.writing.apply(Change(said="take it out", edits=(Edit(before=ilse, after=None),)))
        for days in (0, 300, 60):
            arranged.clock.wind(days=days)
            store.writing.clear_withdrawn(arranged.clock.now())
            assert file_of(arranged)[f"standing-{ilse.id}"]["STATUS"] == "CANCELLED"
        arranged.clock.wind(days=9)
        assert f"standing-{ilse.id}" not in file_of(arranged)
        store.writing.clear_withdrawn(arranged.clock.now())
        assert store.reading.withdrawn_times() == ()
