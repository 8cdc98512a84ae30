"""Clock changes ahead on a terminal."""

from datetime import date, time

import pytest
from support.golden import assert_golden
from support.studio import (
    EILIDH,
    HOME,
    ILSE,
    ISHAAN,
    MIREILLE,
    NALANI,
    TEODOR,
    TO_DENVER,
    enrollment,
    family,
    standing,
    student,
    utc,
)

from cockpit.studio.calendar.clock_changes import changes_ahead, reach
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTimeId
from cockpit.wording.clock_changes import clock_changes_text
from cockpit.wording.columns import cells

AUTUMN = utc("2026-10-12"), utc("2026-11-30")


def studio():
    return [
        enrollment(ILSE),
        enrollment(TEODOR, weekday=3),
        enrollment(MIREILLE, at=time(16, 45)),
        enrollment(NALANI, weekday=2, kept_in=KeptIn.FAMILY),
        enrollment(ISHAAN, at=time(13)),
        enrollment(EILIDH, weekday=0),
    ]


def lesson(zone, **names):
    who = student(**names)
    return Enrollment(standing=standing(id=StandingTimeId(9)), student=who, family=family(zone=zone))


def text(enrollments, window=AUTUMN, home_zone=HOME, hours=12):
    bookings = planned(enrollments, TeacherClock(zone=home_zone), *reach(*window))
    return clock_changes_text(changes_ahead(bookings, TeacherClock(zone=home_zone), *window), hours, "2026f")


def test_every_change_has_its_day_its_places_and_the_lessons_that_shift():
    assert_golden(text(studio()), "clock-changes.txt")


def test_a_move_and_a_journey_name_both_places():
    stays = (
        Stay(zone="Europe/London", from_on=date(2026, 12, 7), until_on=date(2026, 12, 13)),
        Stay(zone="America/Denver", from_on=date(2027, 1, 4)),
    )
    window = utc("2026-12-01"), utc("2027-01-31")
    assert_golden(text(studio()[:2], window, Home(zone=HOME, stays=stays), 24), "clock-changes-moves.txt")


def test_a_time_without_changes_is_one_sentence_and_the_version_of_the_data():
    assert text(studio(), (utc("2026-12-01"), utc("2027-02-01"))) == (
        "No clock changes in this period, for you or for any family.\n\nTime zone data 2026f.\n"
    )


def test_the_changes_of_one_night_stand_under_one_day_and_count_each_lesson_once():
    shown = text([lesson(HOME), *studio()[3:4], lesson("America/New_York")], (utc("2026-10-30"), utc("2026-11-30")))
    assert shown.count("Sunday, November 1, 2026") == 1


@pytest.mark.parametrize(
    ("zones", "said"),
    [
        (["America/New_York"], "No lessons shift (1 lesson in all)."),
        (["America/Phoenix"], "There are no other lessons around that day."),
        (["America/Phoenix", HOME], "1 other lesson keeps its time on both clocks."),
        (["America/Phoenix", HOME, "America/New_York"], "2 other lessons keep their times on both clocks."),
        ([], "No lessons shift."),
    ],
)
def test_who_is_not_affected_is_counted(zones, said):
    lessons = [
        Enrollment(standing=standing(id=StandingTimeId(n)), student=student(), family=family(zone=zone))
        for n, zone in enumerate(zones)
    ]
    assert f"\n  {said}\n" in text(lessons)


def test_half_an_hour_is_said_in_minutes_and_both_directions_have_a_word():
    shown = text([lesson("Australia/Lord_Howe")], (utc("2026-03-01"), utc("2026-11-30")))
    assert "Lord Howe  30 minutes back  UTC+11:00 -> UTC+10:30" in shown
    assert "Lord Howe  30 minutes forward  UTC+10:30 -> UTC+11:00" in shown
    assert "Chicago (you)  1 hour forward  UTC−06:00 -> UTC−05:00" in shown


def test_a_place_where_it_is_still_the_day_before_has_its_own_date():
    """Nuuk changes at 01:00 UTC with all of Europe, which is 23:00 on Saturday there in spring (IANA 2026f)."""
    shown = text([enrollment(TEODOR), lesson("America/Nuuk")], (utc("2027-03-20"), utc("2027-03-31")))
    assert shown.startswith("Saturday, March 27, 2027\n")
    assert "  Nuuk    1 hour forward  UTC−02:00 -> UTC−01:00\n" in shown
    assert "  London  1 hour forward  UTC+00:00 -> UTC+01:00  on Sun, March 28\n" in shown


def test_no_line_is_wider_than_eighty_columns_however_long_the_names():
    long = lesson("America/North_Dakota/New_Salem", name="Wilhelmina Theodora van den Brandvold-Ashenfelter " * 3)
    home = Home(zone="Asia/Kolkata", stays=(Stay(zone="America/Indiana/Petersburg", from_on=date(2026, 10, 20)),))
    for hours in (12, 24):
        shown = text([long, *studio()], home_zone=home, hours=hours)
        assert max(map(cells, shown.splitlines())) <= 80
        assert "(you)\n    9 hours 30 minutes back  UTC+05:30 -> UTC−04:00\n" in shown


def test_control_characters_in_a_name_do_not_reach_the_terminal():
    shown = text([lesson("America/Phoenix", name="Il\x1b[2J\nse")])
    assert "\x1b" not in shown
    assert "Il\ufffd[2J se, cello, from Tue, November 3" in shown


def test_a_family_that_moves_is_named_with_the_lessons_that_stay():
    said = text([lesson(TO_DENVER), enrollment(TEODOR)], (utc("2027-02-20"), utc("2027-03-10")))
    assert said.startswith(
        "Monday, March 1, 2027\n  Phoenix -> Denver (Brandvold family)  same time  UTC−07:00 -> UTC−07:00\n\n"
        "  Ilse, cello: 3:00 pm stays 3:00 pm (4:00 pm for you)\n"
    )
    assert "1 other lesson keeps its time on both clocks." in said
