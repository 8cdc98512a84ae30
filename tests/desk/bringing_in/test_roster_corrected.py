"""A roster that is corrected, or that grows, after it or the teacher has changed a weekly time."""

from datetime import date, timedelta

import pytest
from support.arranged_studio import ROSTER, arranged_studio

from cockpit.desk.calendar.proposals import Purpose

TUESDAY = "Ilse,Tuesday,16:00,30"


def lessons(studio, begins: str, days: int) -> list[str]:
    """Ilse's lessons of the queue from a date on."""
    found = []
    for offset in range(days):
        day = date.fromisoformat(begins) + timedelta(days=offset)
        studio.studio.desk.day.open(day)
        found += [f"{day:%a %d %b}" for each in studio.studio.desk.day.bookings if each.student.name == "Ilse"]
    return found


@pytest.mark.parametrize("wrong", ["Ilse,Thursday,17:00,30", "Ilse,Tuesday,18:00,30", "Ilse,Tuesday,16:00,45"])
@pytest.mark.parametrize("weeks", [0, 2])
def test_a_slip_in_the_roster_is_taken_back_by_the_roster(tmp_path, wrong, weeks):
    with arranged_studio(tmp_path) as studio:
        enrolling = studio.studio.enrolling
        assert enrolling.take_in(ROSTER.replace(TUESDAY, wrong)).lines
        studio.clock.wind(days=7 * weeks)
        assert enrolling.take_in(ROSTER).lines
        assert lessons(studio, "2026-12-21", 14) == ["Tue 22 Dec", "Tue 29 Dec"]
        studio.booking("2026-12-29", "Ilse")
        booking = studio.studio.desk.day.shown
        assert booking is not None
        assert (booking.lesson.minutes, booking.lesson.starts_at.hour) == (30, 22)
        assert enrolling.take_in(ROSTER).lines == ()


def test_a_roster_that_changes_its_word_again_and_again_is_followed(tmp_path):
    with arranged_studio(tmp_path) as studio:
        for line in ("Ilse,Thursday,17:00,30", "Ilse,Friday,15:00,30", TUESDAY, "Ilse,Thursday,17:00,30"):
            studio.clock.wind(days=14)
            studio.studio.enrolling.take_in(ROSTER.replace(TUESDAY, line))
        assert lessons(studio, "2027-01-25", 14) == ["Thu 28 Jan", "Thu 04 Feb"]


def test_one_more_lesson_in_the_roster_does_not_touch_a_time_that_was_changed_here(tmp_path):
    with arranged_studio(tmp_path) as studio:
        studio.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from thu 17 dec 5 pm 45m")
        more = f"{ROSTER}Ilse,Saturday,10:00,30,Brandvold,piano,America/Phoenix,teacher\n"
        studio.studio.enrolling.take_in(more)
        assert lessons(studio, "2026-12-21", 7) == ["Thu 24 Dec", "Sat 26 Dec"]
        assert studio.studio.enrolling.take_in(more).lines == ()


def test_a_change_made_here_stays_when_the_same_roster_is_read_again(tmp_path):
    with arranged_studio(tmp_path) as studio:
        studio.done(Purpose.CHANGE, "2026-12-15", "Ilse", "from thu 17 dec 5 pm 45m")
        assert studio.studio.enrolling.take_in(ROSTER).lines == ()
        assert lessons(studio, "2026-12-21", 7) == ["Thu 24 Dec"]
