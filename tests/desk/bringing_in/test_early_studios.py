"""Calendars read again in a studio of before UIDs were kept, which had made numbers of them."""

import contextlib
import hashlib
import sqlite3

import pytest
from support.arranged_studio import arranged_studio
from support.calendars import WEEKLY, at, brought, event
from support.forms import write_form

from cockpit.store.opening import NAME

BOTH = "FREQ=WEEKLY;BYDAY=TU,TH"


def early_studio(folder, form):
    """A studio of an early form, with Ilse's Tuesday and Thursday out of one event."""
    number = (1 << 60) + int.from_bytes(hashlib.sha256(WEEKLY["UID"].encode()).digest()[:6]) * 256
    with contextlib.closing(sqlite3.connect(folder / NAME)) as connection, connection:
        write_form(connection, form)
        connection.execute("UPDATE numbering SET last = 2")
        connection.execute("INSERT INTO family (id, name, zone) VALUES (1, 'Ilse', 'America/Chicago')")
        connection.execute("INSERT INTO student (id, family_id, name) VALUES (2, 1, 'Ilse')")
        for place, (weekday, begins) in enumerate(((1, "2026-09-01"), (3, "2026-09-03"))):
            slot = (number + place, 2, weekday, "16:00:00", 30, "teacher", begins)
            columns = "student_id, weekday, at, minutes, kept_in, from_on"
            connection.execute(f"INSERT INTO standing_time (id, {columns}) VALUES (?, ?, ?, ?, ?, ?, ?)", slot)
            if form >= 7:
                columns = f"standing_time_id, {columns}, every_weeks, event"
                connection.execute(
                    f"INSERT INTO file_row ({columns}) VALUES ({', '.join('?' * 9)})", (*slot, 1, number)
                )


@pytest.mark.parametrize("form", [6, 7])
def test_an_event_is_still_known_and_what_it_says_otherwise_is_done(tmp_path, form):
    early_studio(tmp_path, form)
    with arranged_studio(tmp_path, roster="") as arranged:
        for _ in range(2):
            assert brought(arranged, event(WEEKLY, RRULE=BOTH)).edits == ()
        moved = event(WEEKLY | at("20260901T173000"), RRULE=BOTH)
        brought(arranged, moved)
        assert brought(arranged, moved).edits == ()
        assert arranged.lessons("Ilse", "2026-11-23", "2026-12-09") == [
            "Tue 2026-11-24 16:00", "Thu 2026-11-26 17:30", "Tue 2026-12-01 17:30", "Thu 2026-12-03 17:30",
            "Tue 2026-12-08 17:30",
        ]  # fmt: skip


@pytest.mark.parametrize("form", [6, 7])
def test_an_event_that_is_cancelled_or_ends_does_so_by_its_early_name(tmp_path, form):
    early_studio(tmp_path, form)
    with arranged_studio(tmp_path, roster="") as arranged:
        assert brought(arranged, event(WEEKLY, RRULE=BOTH, STATUS="CANCELLED")).lines == (
            "changed: Ilse, Tuesday: through - -> 2026-11-24",
            "changed: Ilse, Thursday: through - -> 2026-11-24",
        )
        brought(arranged, event(WEEKLY, RRULE=BOTH))
        assert arranged.lessons("Ilse", "2026-11-25", "2026-12-02") == ["Thu 2026-11-26 16:00", "Tue 2026-12-01 16:00"]
        assert brought(arranged, event(WEEKLY, RRULE=f"{BOTH};UNTIL=20261120T000000Z")).lines != ()
        assert arranged.lessons("Ilse", "2026-11-25", "2027-02-01") == []
