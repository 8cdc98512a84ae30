"""Scheduling problems in sentences."""

from datetime import date, datetime, time, timedelta

import pytest
from support.studio import (
    CLOCK,
    HOME,
    ILSE,
    ISHAAN,
    NALANI,
    STARTS_AT,
    TEODOR,
    booking,
    enrollment,
    family,
    home,
    preferences,
    standing,
    utc,
)
from support.troubles import ANY_TIME, NEW_YORK, troubles

from cockpit.studio.calendar.collisions import find_troubles, grouped
from cockpit.studio.clocks.moments import moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.values import replace
from cockpit.wording.problems import dated_sentence, group_sentence


def said(*bookings, wishes=ANY_TIME, enrollments=(), zone=HOME, hours=12):
    """What is said of lessons, each finding in its sentence."""
    return [
        dated_sentence(each, TeacherClock(zone=zone, hours=hours))
        for each in find_troubles(bookings, enrollments, replace(wishes, home=TeacherClock(zone=zone)))
    ]


def test_an_overlap_is_told_with_both_lessons_on_both_clocks():
    second = booking(TEODOR, starts_at=STARTS_AT + timedelta(minutes=15))
    assert said(booking(ILSE), second) == [
        "Tue, December 1: Ilse (4:00 pm to 4:30 pm; 3:00 pm Phoenix) and Teodor (4:15 pm to 4:45 pm; 10:15 pm London)"
        " overlap by 15 minutes."
    ]
    assert said(booking(ILSE), second, hours=24) == [
        "Tue, December 1: Ilse (16:00 to 16:30; 15:00 Phoenix) and Teodor (16:15 to 16:45; 22:15 London)"
        " overlap by 15 minutes."
    ]


def test_a_clock_that_shows_the_same_is_not_told():
    neighbor = replace(booking(ILSE), family=family(zone=HOME))
    assert said(neighbor, booking(TEODOR, minutes=1)) == [
        "Tue, December 1: Ilse (4:00 pm to 4:30 pm) and Teodor (4:00 pm to 4:01 pm; 10:00 pm London)"
        " overlap by 1 minute."
    ]


@pytest.mark.parametrize(
    ("pause", "between"), [(0, "There is no time"), (1, "There is only 1 minute"), (5, "There are only 5 minutes")]
)
def test_too_little_between_two_lessons_is_told(pause, between):
    starts_at = STARTS_AT + timedelta(minutes=30 + pause)
    (told,) = said(booking(ILSE), booking(NALANI, starts_at=starts_at), wishes=replace(ANY_TIME, gap_minutes=10))
    assert told.startswith(
        f"Tue, December 1: {between} between Ilse (4:00 pm to 4:30 pm; 3:00 pm Phoenix) and Nalani ("
    )


def test_a_night_is_told_with_the_family_s_day():
    assert said(booking(ISHAAN), wishes=preferences()) == [
        "Tue, December 1: Ishaan (4:00 pm to 4:30 pm; Wed 3:30 am Kolkata) is during the night for the family."
    ]


def test_a_night_of_the_teacher_is_told_as_hers():
    assert said(booking(ISHAAN, starts_at=home("2026-12-01 03:00")), wishes=preferences()) == [
        "Tue, December 1: Ishaan (3:00 am to 3:30 am; 2:30 pm Kolkata) is during the night for you."
    ]


def test_a_time_that_does_not_exist_is_told_with_the_time_instead():
    """The lesson ends at 08:00Z, when Chicago's own clock goes from 2:00 to 3:00."""
    kept = Enrollment(
        standing=standing(weekday=6, at=time(2, 30), kept_in=KeptIn.FAMILY), student=ILSE, family=NEW_YORK
    )
    (lesson,) = planned([kept], CLOCK, utc("2026-03-08"), utc("2026-03-09"))
    assert said(lesson, enrollments=[kept]) == [
        "Sun, March 8: 2:30 am does not exist in New York that day; "
        "Ilse's lesson is on Sun, March 8 (1:30 am to 3:00 am; 3:30 am New York)."
    ]


def test_a_day_that_does_not_exist_is_told_as_the_whole_day():
    kept = Enrollment(
        standing=standing(weekday=4, kept_in=KeptIn.FAMILY), student=ILSE, family=family(zone="Pacific/Apia")
    )
    (lesson,) = planned([kept], CLOCK, utc("2011-12-30"), utc("2012-01-01"))
    assert said(lesson, enrollments=[kept]) == [
        "Fri, December 30: That day does not exist in Apia; "
        "Ilse's lesson is on Fri, December 30 (8:00 pm to 8:30 pm; Sat 4:00 pm Apia)."
    ]


def test_two_of_one_name_are_told_apart_by_their_families():
    namesake = replace(booking(TEODOR), student=replace(TEODOR, name="Ilse"))
    (told,) = said(booking(ILSE), namesake)
    assert "Ilse of the Brandvold family (" in told
    assert "Ilse of the Okonjo family (" in told


def test_two_lessons_of_one_student_are_told_by_the_name_alone():
    """A family tells two students of one name apart; it would only puzzle where both lessons are of one of them."""
    (told,) = said(booking(ILSE), booking(ILSE, id="another"))
    assert told.count("Ilse (") == 2
    assert "family" not in told


def test_the_same_two_standing_times_are_one_group_with_first_last_and_count():
    ours = enrollment(TEODOR, at=time(16))
    phoenix = enrollment(ILSE, at=time(15, 15), kept_in=KeptIn.FAMILY)
    (group,) = grouped(troubles([ours, phoenix]))
    assert (group.first.arises_at, group.last.arises_at) == (utc("2026-11-03 22:15"), utc("2027-03-09 22:15"))
    assert len(group.findings) == 19
    assert group_sentence(group, CLOCK) == (
        "Tue, November 3 and 18 more times through Tue, March 9, 2027: Teodor (4:00 pm to 4:30 pm; 10:00 pm London) and "
        "Ilse (4:15 pm to 4:45 pm; 3:15 pm Phoenix) overlap by 15 minutes."
    )


def test_a_group_of_one_is_told_like_its_finding():
    found = find_troubles([booking(ILSE), booking(TEODOR)], [], ANY_TIME)
    (group,) = grouped(found)
    assert group.first is group.last
    assert group_sentence(group, CLOCK) == dated_sentence(found[0], CLOCK)


def test_a_second_time_is_one_more_time():
    weeks = [[booking(who, starts_at=STARTS_AT + n * timedelta(weeks=1)) for who in (ILSE, TEODOR)] for n in range(2)]
    (group,) = grouped(find_troubles([*weeks[0], *weeks[1]], [], ANY_TIME))
    assert group_sentence(group, CLOCK).startswith("Tue, December 1 and 1 more time through Tue, December 8: Ilse (")


@pytest.mark.parametrize(
    ("at", "words"),
    [
        ("2026-12-01 06:30", "outside your teaching hours"),
        ("2026-12-01 20:45", "outside your teaching hours"),
        ("2026-12-01 21:15", "outside your teaching hours"),
        ("2026-12-01 23:45", "during the night"),
        ("2026-12-02 00:00", "during the night"),
        ("2026-12-01 04:45", "during the night"),
        ("2026-12-01 05:00", "outside your teaching hours"),
    ],
)
def test_an_evening_or_an_early_morning_is_not_called_a_night(at, words):
    there = moment(datetime.fromisoformat(at), "America/Phoenix")
    (theirs,) = said(booking(ILSE, starts_at=there), wishes=preferences())
    assert theirs.endswith(f" is {words} for the family.")
    (own,) = said(booking(ISHAAN, starts_at=home("2026-12-01 06:15")), wishes=preferences())
    assert own.endswith("is outside your teaching hours for you.")


def test_a_date_of_another_year_than_todays_is_told_with_its_year():
    first, second = booking(ILSE, starts_at=utc("2027-01-05 22:00")), booking(TEODOR, starts_at=utc("2027-01-05 22:15"))
    (found,) = grouped(find_troubles([first, second], [], ANY_TIME))
    assert group_sentence(found, CLOCK, date(2026, 12, 1)).startswith("Tue, January 5, 2027: Ilse (")
    assert group_sentence(found, CLOCK, date(2027, 1, 1)).startswith("Tue, January 5: Ilse (")
