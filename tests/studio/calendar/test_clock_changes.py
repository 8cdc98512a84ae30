"""Clock changes ahead: which there are, which lessons they shift and for whom, and who is told.

Instants, offsets and local times are those of the IANA tz database 2026f, as pinned by the `tzdata` package; the tables
were computed once with it and stand in tests/support/zone_tables.py and tests/outside/test_zone_tables.py.
"""

from datetime import UTC, date, datetime, time, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.instants import changes, offset
from support.phrases import IN_ENGLISH
from support.studio import CLOCK, HOME, ILSE, TEODOR, TO_DENVER, booking, enrollment, family, standing, student, utc
from support.zone_tables import UNCHANGING, ZONE_YEARS

from cockpit.papers.calendar.clock_messages import clock_message
from cockpit.studio.calendar.clock_changes import Whom, changes_ahead, reach
from cockpit.studio.calendar.clock_changes import concerned as concerned_by
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.zones import changes_of_clock, changes_of_zone
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.scheduled import Enrollment, planned
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTimeId
from cockpit.studio.people.people import FamilyId, StudentId

DAY, HOUR, SECOND = timedelta(days=1), timedelta(hours=1), timedelta(seconds=1)
YEARS = utc("2026-01-01"), utc("2028-01-01")
AUTUMN = utc("2026-10-12"), utc("2026-11-30")


def kept(zone, number=1, /, name="Ilse", **values):
    """A weekly time, Tuesdays at 16:00 unless told otherwise, of a student whose family lives in a zone."""
    who = student(id=StudentId(number), family_id=FamilyId(number), name=name)
    household = family(id=FamilyId(number), name=f"The {number}.", zone=zone)
    values = {"id": StandingTimeId(number), "student_id": who.id} | values
    return Enrollment(standing=standing(**values), student=who, family=household)


def ahead(enrollments, begins, ends, home_zone=HOME):
    return changes_ahead(
        planned(enrollments, TeacherClock(zone=home_zone), *reach(begins, ends)),
        TeacherClock(zone=home_zone),
        begins,
        ends,
    )


def readings(shift, clock):
    return tuple(getattr(each, clock).strftime("%a %H:%M") for each in (shift.before, shift.after))


def all_shifts(found):
    return [shift for each in found for shift in each.shifts]


def said(enrollments, window, home_zone=HOME):
    """Of every shift: the date of the first meeting after it on the family's clock, whom it is for, and the clocks."""
    return [
        (str(each.after.theirs.date()), each.whom, readings(each, "ours"), readings(each, "theirs"))
        for each in all_shifts(ahead(enrollments, *window, home_zone))
    ]


@pytest.mark.parametrize(("zone", "year", "instants"), ZONE_YEARS)
def test_a_zone_changes_at_the_instants_of_the_table_and_at_no_other(zone, year, instants):
    found = changes_of_zone(zone, utc(f"{year}-01-01"), utc(f"{year + 1}-01-01"))
    assert [change.at for change in found] == [utc(f"{year}-{instant}") for instant in instants]
    for change in found:
        assert (change.before, change.after) == (offset(change.at - SECOND, zone), offset(change.at, zone))
        assert change.before != change.after


@pytest.mark.parametrize("zone", UNCHANGING)
def test_a_zone_without_clock_changes_has_none(zone):
    assert changes_of_zone(zone, *YEARS) == []


def test_casablanca_changed_three_times_in_2026_and_never_again():
    """The tz database's NEWS of 2026c tells of the last change."""
    found = changes_of_zone("Africa/Casablanca", *YEARS)
    assert [(change.at, change.after) for change in found] == [
        (utc("2026-02-15 02:00"), 0 * HOUR),
        (utc("2026-03-22 02:00"), HOUR),
        (utc("2026-09-20 01:00"), 0 * HOUR),
    ]


def test_vancouver_changed_for_the_last_time_on_8_march_2026():
    """The tz database's NEWS of 2026b."""
    (last,) = changes_of_zone("America/Vancouver", utc("2026-01-01"), utc("2037-01-01"))
    assert (last.at, last.before, last.after) == (utc("2026-03-08 10:00"), -8 * HOUR, -7 * HOUR)


def test_lord_howe_changes_by_half_an_hour():
    spring = changes_of_zone("Australia/Lord_Howe", utc("2026-10-01"), utc("2026-11-01"))
    assert [(change.at, change.after - change.before) for change in spring] == [(utc("2026-10-03 15:30"), HOUR / 2)]


def test_two_changes_a_week_apart_are_both_found():
    """Recife began summer time on 8 October 2000 and gave it up on the 15th: the closest two since 1990."""
    found = changes_of_zone("America/Recife", utc("2000-10-01"), utc("2000-11-01"))
    assert [change.at for change in found] == [utc("2000-10-08 03:00"), utc("2000-10-15 02:00")]


@pytest.mark.parametrize(
    ("begins", "ends", "count"),
    [
        ("2026-11-01 07:00", "2026-11-01 07:00:01", 1),
        ("2026-11-01 07:00", "2026-11-01 07:00:00.000001", 1),
        ("2026-11-01 06:59:59.9", "2026-11-01 07:00", 0),
        ("2026-11-01 07:00:00.000001", "2026-11-08", 0),
        ("2026-11-01 07:00:01", "2026-11-08", 0),
        ("2026-11-08", "2026-10-01", 0),
    ],
)
def test_a_window_holds_the_change_at_its_beginning_and_not_the_one_at_its_end(begins, ends, count):
    assert len(changes_of_zone(HOME, utc(begins), utc(ends))) == count


some_zone = st.sampled_from(sorted({zone for zone, *_ in ZONE_YEARS} | {"Asia/Kolkata", "America/Phoenix"}))
some_moment = st.datetimes(datetime(1995, 1, 1), datetime(2035, 1, 1)).map(lambda at: utc(at.isoformat()))


@given(some_zone, some_moment, st.timedeltas(timedelta(), timedelta(days=800)))
def test_the_changes_are_those_found_by_looking_at_every_day(zone, begins, length):
    ends = begins + length
    expected = list(changes(zone, begins.replace(minute=0, second=0, microsecond=0) - DAY, ends + DAY))
    assert [change.at for change in changes_of_zone(zone, begins, ends)] == [
        at for at in expected if begins <= at < ends
    ]


def test_a_move_is_a_change_of_her_clock_and_the_old_zones_rules_end_with_it():
    home = Home(zone=HOME, stays=(Stay(zone="Europe/London", from_on=date(2026, 10, 30)),))
    found = changes_of_clock(home, utc("2026-10-01"), utc("2027-04-01"))
    assert [(change.at, change.left_zone, change.zone) for change in found] == [
        (utc("2026-10-30 05:00"), HOME, "Europe/London"),
        (utc("2027-03-28 01:00"), None, "Europe/London"),
    ]
    assert (found[0].before, found[0].after) == (-5 * HOUR, 0 * HOUR)


def test_a_move_at_the_very_moment_of_a_clock_change_is_one_change():
    """Midnight in Cape Verde, an hour behind UTC, is when London went to summer time on 29 March 2026 (IANA 2026f)."""
    home = Home(zone="Atlantic/Cape_Verde", stays=(Stay(zone="Europe/London", from_on=date(2026, 3, 29)),))
    (change,) = changes_of_clock(home, utc("2026-03-01"), utc("2026-04-30"))
    assert (change.at, change.before, change.after) == (utc("2026-03-29 01:00"), -HOUR, HOUR)


def test_a_window_that_begins_after_a_move_is_looked_at_in_the_new_zone():
    home = Home(zone=HOME, stays=(Stay(zone="Europe/London", from_on=date(2026, 10, 1)),))
    found = changes_of_clock(home, utc("2026-10-20"), utc("2026-11-20"))
    assert [(change.at, change.zone) for change in found] == [(utc("2026-10-25 01:00"), "Europe/London")]


# The weeks of one lesson, Tuesdays at 16:00 in Chicago, as read by its family; the times of two rows that differ are
# what the change between them shifts.
WEEKS = ("2026-10-20", "2026-10-27", "2026-11-03", "2027-03-09", "2027-03-16", "2027-03-30", "2027-04-06")
ON_THE_TEACHERS_CLOCK = {
    "America/New_York": ["Tue 17:00"] * 7,
    "America/Phoenix": ["Tue 14:00"] * 2 + ["Tue 15:00"] * 2 + ["Tue 14:00"] * 3,
    "Europe/London": ["Tue 22:00", "Tue 21:00", "Tue 22:00", "Tue 22:00", "Tue 21:00", "Tue 22:00", "Tue 22:00"],
    "Asia/Kolkata": ["Wed 02:30"] * 2 + ["Wed 03:30"] * 2 + ["Wed 02:30"] * 3,
    "Australia/Sydney": ["Wed 08:00"] * 2 + ["Wed 09:00"] * 2 + ["Wed 08:00"] * 2 + ["Wed 07:00"],
    "America/Vancouver": ["Tue 14:00"] * 2 + ["Tue 15:00"] * 2 + ["Tue 14:00"] * 3,
}


@pytest.mark.parametrize(("zone", "times"), ON_THE_TEACHERS_CLOCK.items())
def test_a_lesson_on_the_teachers_clock_shifts_for_its_family_as_in_the_table(zone, times):
    found = all_shifts(ahead([kept(zone)], utc("2026-10-18"), utc("2027-04-07")))
    expected = [(after, old, new) for (_, old), (after, new) in pairwise(zip(WEEKS, times, strict=True)) if old != new]
    assert [(str(each.after.ours.date()), *readings(each, "theirs")) for each in found] == expected
    assert {each.whom for each in found} <= {Whom.FAMILY}
    assert {time for each in found for time in readings(each, "ours")} <= {"Tue 16:00"}


def test_a_lesson_on_londons_clock_shifts_for_the_teacher_for_one_week_as_in_the_table():
    lesson = kept("Europe/London", at=time(18), kept_in=KeptIn.FAMILY)
    assert said([lesson], (utc("2026-10-13"), utc("2026-11-11"))) == [
        ("2026-10-27", Whom.TEACHER, ("Tue 12:00", "Tue 13:00"), ("Tue 18:00", "Tue 18:00")),
        ("2026-11-03", Whom.TEACHER, ("Tue 13:00", "Tue 12:00"), ("Tue 18:00", "Tue 18:00")),
    ]


@pytest.mark.parametrize(
    ("begins", "ends", "there", "back"),
    [
        ("2026-03-01", "2026-04-15", "2026-03-10", "2026-03-31"),
        ("2026-10-12", "2026-11-15", "2026-10-27", "2026-11-03"),
        ("2027-03-01", "2027-04-15", "2027-03-16", "2027-03-30"),
        ("2027-10-12", "2027-11-15", "2027-11-02", "2027-11-09"),
    ],
)
def test_between_the_changes_of_europe_and_of_the_united_states_a_london_lesson_is_an_hour_early(
    begins, ends, there, back
):
    assert said([kept("Europe/London")], (utc(begins), utc(ends))) == [
        (there, Whom.FAMILY, ("Tue 16:00", "Tue 16:00"), ("Tue 22:00", "Tue 21:00")),
        (back, Whom.FAMILY, ("Tue 16:00", "Tue 16:00"), ("Tue 21:00", "Tue 22:00")),
    ]


@pytest.mark.parametrize("kept_in", KeptIn)
def test_where_both_clocks_change_in_one_night_nothing_shifts(kept_in):
    found = ahead([kept("America/New_York", kept_in=kept_in)], *AUTUMN)
    assert [each.at for each in found] == [utc("2026-11-01 06:00"), utc("2026-11-01 07:00")]
    assert all_shifts(found) == []
    assert [each.unaffected for each in found] == [{1}, {1}]


def test_zones_that_change_at_one_moment_are_one_entry():
    found = ahead([kept("Europe/London"), kept("Europe/Berlin", 2), kept("Europe/Paris", 3)], *AUTUMN)
    assert [(each.at, [change.zone for change in each.others]) for each in found] == [
        (utc("2026-10-25 01:00"), ["Europe/Berlin", "Europe/London", "Europe/Paris"]),
        (utc("2026-11-01 07:00"), []),
    ]
    assert [len(each.shifts) for each in found] == [3, 3]
    assert [each.own is not None for each in found] == [False, True]


def test_a_family_in_the_teachers_zone_is_not_named_beside_her():
    (entry,) = ahead([kept(HOME)], *AUTUMN)
    assert entry.own is not None
    assert (entry.own.zone, entry.others, entry.unaffected) == (HOME, (), {1})


def test_a_lesson_may_shift_to_another_day_of_the_week():
    late = kept("Asia/Kolkata", at=time(13), kept_in=KeptIn.TEACHER)
    assert said([late], AUTUMN) == [
        ("2026-11-04", Whom.FAMILY, ("Tue 13:00", "Tue 13:00"), ("Tue 23:30", "Wed 00:30")),
    ]


def test_a_lesson_every_second_week_that_meets_before_and_after_both_changes_does_not_shift():
    before_and_after = kept("Europe/London", every_weeks=2, from_on=date(2026, 10, 6))
    between = kept("Europe/London", 2, every_weeks=2, from_on=date(2026, 10, 13))
    found = ahead([before_and_after, between], *AUTUMN)
    assert [[shift.standing_time_id for shift in each.shifts] for each in found] == [[2], [2]]
    assert [each.unaffected for each in found] == [{1}, {1}]


@pytest.mark.parametrize(
    "values", [{"from_on": date(2026, 11, 3)}, {"until_on": date(2026, 10, 31)}, {"until_on": date(2026, 10, 20)}]
)
def test_a_standing_time_that_begins_or_ends_at_the_change_shifts_for_nobody(values):
    (*_, entry) = ahead([kept("America/Phoenix", **values)], *AUTUMN)
    assert (entry.at, entry.shifts, entry.unaffected) == (utc("2026-11-01 07:00"), (), frozenset())


def test_a_zone_of_which_no_lesson_is_left_is_not_listed():
    over = kept("Europe/London", until_on=date(2026, 10, 20))
    assert [each.at for each in ahead([over], *AUTUMN)] == [utc("2026-11-01 07:00")]


def without(bookings, *dates):
    """The lessons but those of some days on the teacher's clock, as a break leaves them."""
    return [each for each in bookings if str(local_time(each.lesson.starts_at, HOME).date()) not in dates]


def test_the_meetings_around_a_break_are_compared():
    bookings = planned([kept("Europe/London"), kept("America/Phoenix", 2)], CLOCK, *reach(*AUTUMN))
    found = changes_ahead(without(bookings, "2026-10-27", "2026-11-03"), CLOCK, *AUTUMN)
    assert [
        (each.standing_time_id, str(each.before.ours.date()), str(each.after.ours.date())) for each in all_shifts(found)
    ] == [(2, "2026-10-20", "2026-11-10")]
    assert [each.unaffected for each in found] == [{1, 2}, {1}]


def test_a_whole_summer_off_is_reached_over():
    """Santiago went to summer time on 6 September 2026."""
    window = utc("2026-09-01"), utc("2026-09-10")
    bookings = planned([kept("America/Santiago")], CLOCK, *reach(*window))
    summer = [str(date(2026, 6, 16) + n * DAY) for n in range(84)]
    (entry,) = changes_ahead(without(bookings, *summer), CLOCK, *window)
    assert [(str(each.before.ours.date()), str(each.after.ours.date())) for each in entry.shifts] == [
        ("2026-06-09", "2026-09-08")
    ]


@pytest.mark.parametrize(
    "values",
    [
        {"outcome": Outcome.CANCELLED},
        {"outcome": Outcome.CANCELLED_LATE},
        {"outcome": Outcome.CALLED_OFF},
        {"is_moved": True},
        {"kind": Kind.MAKE_UP},
        {"standing_time_id": None, "kind": Kind.TRIAL},
    ],
)
def test_only_weekly_meetings_that_take_place_at_their_time_are_compared(values):
    usual = [booking(ILSE, starts_at=utc(f"2026-{day}")) for day in ("10-27 21:00", "11-10 22:00")]
    other = booking(ILSE, **{"starts_at": utc("2026-11-03 19:15")} | values)
    (entry,) = changes_ahead([usual[0], other, usual[1]], CLOCK, *AUTUMN)
    (shift,) = entry.shifts
    assert (shift.before.ours.day, shift.after.ours.day) == (27, 10)


def test_an_absent_student_had_the_lesson_at_its_time():
    days = ("10-27 21:00", "11-03 22:00", "11-10 22:00")
    bookings = [booking(ILSE, starts_at=utc(f"2026-{day}"), outcome=Outcome.ABSENT) for day in days]
    (shift,) = all_shifts(changes_ahead(bookings, CLOCK, *AUTUMN))
    assert shift.after.ours.day == 3


def test_without_lessons_only_her_own_clock_is_ahead():
    (entry,) = changes_ahead([], CLOCK, *AUTUMN)
    assert (entry.at, entry.others, entry.shifts, entry.unaffected) == (utc("2026-11-01 07:00"), (), (), frozenset())
    assert changes_ahead([], TeacherClock(zone="America/Phoenix"), *YEARS) == []


def test_casablancas_families_shift_with_each_of_its_changes_and_with_those_of_chicago():
    assert [(on, *theirs) for on, _, _, theirs in said([kept("Africa/Casablanca")], YEARS)] == [
        ("2026-02-17", "Tue 23:00", "Tue 22:00"),
        ("2026-03-10", "Tue 22:00", "Tue 21:00"),
        ("2026-03-24", "Tue 21:00", "Tue 22:00"),
        ("2026-09-22", "Tue 22:00", "Tue 21:00"),
        ("2026-11-03", "Tue 21:00", "Tue 22:00"),
        ("2027-03-16", "Tue 22:00", "Tue 21:00"),
        ("2027-11-09", "Tue 21:00", "Tue 22:00"),
    ]


def test_vancouver_and_the_teacher_part_in_november_2026():
    """They changed together on 8 March 2026, two hours apart on one night."""
    assert [(on, *theirs) for on, _, _, theirs in said([kept("America/Vancouver")], YEARS)] == [
        ("2026-11-03", "Tue 14:00", "Tue 15:00"),
        ("2027-03-16", "Tue 15:00", "Tue 14:00"),
        ("2027-11-09", "Tue 14:00", "Tue 15:00"),
    ]


def test_a_lesson_in_santiagos_missing_half_hour_is_late_once_and_then_at_its_time_again():
    """On 6 September 2026 there was no 0:30 in Santiago: the clocks went from 24:00 to 1:00 (IANA 2026f)."""
    lesson = kept("America/Santiago", weekday=6, at=time(0, 30), kept_in=KeptIn.FAMILY)
    assert said([lesson], (utc("2026-08-25"), utc("2026-09-20"))) == [
        ("2026-09-06", Whom.FAMILY, ("Sat 23:30", "Sat 23:30"), ("Sun 00:30", "Sun 01:30")),
        ("2026-09-13", Whom.BOTH, ("Sat 23:30", "Sat 22:30"), ("Sun 01:30", "Sun 00:30")),
    ]


def test_a_first_lesson_in_a_missing_hour_is_followed_by_one_at_its_time():
    """Chicago's clocks went from 2:00 to 3:00 on 8 March 2026 (15 U.S.C. 260a)."""
    lesson = kept("America/Phoenix", weekday=6, at=time(2), from_on=date(2026, 3, 2))
    assert said([lesson], (utc("2026-03-01"), utc("2026-03-20"))) == [
        ("2026-03-15", Whom.BOTH, ("Sun 03:00", "Sun 02:00"), ("Sun 01:00", "Sun 00:00"))
    ]


def test_a_lesson_that_begins_as_the_clocks_change_is_the_first_one_after():
    """Midnight on Sundays in Phoenix is 07:00 UTC, when Chicago's clocks went back on 1 November 2026 (IANA 2026f)."""
    lesson = kept("America/Phoenix", weekday=6, at=time(0), kept_in=KeptIn.FAMILY)
    assert said([lesson], AUTUMN) == [
        ("2026-11-01", Whom.TEACHER, ("Sun 02:00", "Sun 01:00"), ("Sun 00:00", "Sun 00:00"))
    ]


def test_lord_howe_shifts_by_half_an_hour():
    lesson = kept("Australia/Lord_Howe")
    assert said([lesson], (utc("2026-09-20"), utc("2026-10-20"))) == [
        ("2026-10-07", Whom.FAMILY, ("Tue 16:00", "Tue 16:00"), ("Wed 07:30", "Wed 08:00"))
    ]


def test_the_south_goes_the_other_way():
    """Sydney's summer time begins on 4 October 2026, Chicago's ends on 1 November: two hours within a month."""
    window = utc("2026-09-20"), utc("2026-11-20")
    assert [(on, *theirs) for on, _, _, theirs in said([kept("Australia/Sydney")], window)] == [
        ("2026-10-07", "Wed 07:00", "Wed 08:00"),
        ("2026-11-04", "Wed 08:00", "Wed 09:00"),
    ]


LONDON_MOVE = Stay(zone="Europe/London", from_on=date(2027, 1, 11))
LONDON_WEEK = Stay(zone="Europe/London", from_on=date(2026, 12, 7), until_on=date(2026, 12, 13))
WINTER = utc("2026-12-01"), utc("2027-02-01")


def test_a_move_shifts_the_lessons_on_her_clock_for_the_families_and_those_on_theirs_for_her():
    home = Home(zone=HOME, stays=(LONDON_MOVE,))
    lessons = [kept("America/Phoenix"), kept("America/Phoenix", 2, kept_in=KeptIn.FAMILY)]
    (entry,) = ahead(lessons, *WINTER, home)
    assert (entry.at, entry.is_move_for(FamilyId(1))) == (utc("2027-01-11 06:00"), True)
    assert [
        (each.standing_time_id, each.whom, readings(each, "ours"), readings(each, "theirs")) for each in entry.shifts
    ] == [
        (1, Whom.FAMILY, ("Tue 16:00", "Tue 16:00"), ("Tue 15:00", "Tue 09:00")),
        (2, Whom.TEACHER, ("Tue 17:00", "Tue 23:00"), ("Tue 16:00", "Tue 16:00")),
    ]


def test_a_move_over_the_date_line_shifts_the_day_alone():
    """Honolulu -10, Kiritimati +14: the same time of day, a day apart."""
    home = Home(zone="Pacific/Honolulu", stays=(Stay(zone="Pacific/Kiritimati", from_on=date(2027, 1, 11)),))
    (entry,) = ahead([kept("America/Phoenix")], *WINTER, home)
    assert [readings(each, "theirs") for each in entry.shifts] == [("Tue 19:00", "Mon 19:00")]


def test_a_journey_shifts_every_lesson_for_her_and_none_for_a_family():
    home = Home(zone=HOME, stays=(LONDON_WEEK,))
    found = ahead([kept("America/Phoenix")], *WINTER, home)
    assert [each.at for each in found] == [utc("2026-12-07 06:00"), utc("2026-12-14 00:00")]
    assert [(each.whom, readings(each, "ours")) for each in all_shifts(found)] == [
        (Whom.TEACHER, ("Tue 16:00", "Tue 22:00")),
        (Whom.TEACHER, ("Tue 22:00", "Tue 16:00")),
    ]
    assert messages(found, 12) == []


def test_while_she_travels_the_clock_that_she_left_still_moves_her_lessons():
    away = Stay(zone="Asia/Tokyo", from_on=date(2026, 10, 28), until_on=date(2026, 11, 10))
    home = Home(zone=HOME, stays=(away,))
    assert said([kept("America/Phoenix")], AUTUMN, home) == [
        ("2026-11-03", Whom.BOTH, ("Tue 16:00", "Wed 07:00"), ("Tue 14:00", "Tue 15:00")),
        ("2026-11-10", Whom.TEACHER, ("Wed 07:00", "Tue 16:00"), ("Tue 15:00", "Tue 15:00")),
    ]
    found = ahead([kept("America/Phoenix")], *AUTUMN, home)
    assert [change.zone for each in found for change in each.others] == [HOME]


def test_the_first_lesson_in_a_far_east_home_counts_though_her_old_clock_still_shows_the_day_before():
    """10:00 on 11 January in Sydney is 23:00 UTC on the 10th; she leaves Chicago at its midnight, seven hours later."""
    home = Home(zone=HOME, stays=(Stay(zone="Australia/Sydney", from_on=date(2027, 1, 11)),))
    found = all_shifts(ahead([kept("America/Phoenix", weekday=0, at=time(10))], *WINTER, home))
    theirs = [(str(each.after.theirs), readings(each, "theirs")) for each in found if each.whom is not Whom.TEACHER]
    assert theirs == [("2027-01-10 16:00:00-07:00", ("Mon 09:00", "Sun 16:00"))]


some_stay = st.builds(
    lambda zone, on, days: Stay(zone=zone, from_on=on, until_on=None if days is None else on + days * DAY),
    st.sampled_from([HOME, "Europe/London", "Australia/Sydney", "America/Phoenix", "Asia/Tokyo"]),
    st.dates(date(2026, 1, 20), date(2027, 11, 30)),
    st.none() | st.integers(0, 30),
)
some_home = st.sampled_from([HOME, "Europe/London"]) | st.builds(
    Home, zone=st.just(HOME), stays=st.lists(some_stay, min_size=1, max_size=3).map(tuple)
)
some_lesson = st.builds(
    kept,
    st.sampled_from(
        [HOME, "America/Phoenix", "Europe/London", "America/Santiago", "Australia/Lord_Howe", "Africa/Casablanca"]
    ),
    weekday=st.integers(0, 6),
    at=st.builds(time, st.integers(0, 23), st.sampled_from([0, 15, 30])),
    kept_in=st.sampled_from(KeptIn),
    every_weeks=st.integers(1, 2),
    from_on=st.none() | st.dates(date(2026, 1, 1), date(2026, 12, 1)),
    until_on=st.none() | st.dates(date(2026, 12, 1), date(2027, 12, 31)),
)


@given(some_lesson, some_home)
def test_every_two_meetings_in_a_row_that_read_differently_are_one_shift(lesson, home_zone):
    starts = [each.lesson.starts_at for each in planned([lesson], TeacherClock(zone=home_zone), *YEARS)]
    expected = []
    for pair in pairwise(starts):
        clocks = ((home_zone, "ours"), (lesson.family.zone, "theirs"))
        read = {name: [local_time(at, clock).strftime("%a %H:%M") for at in pair] for clock, name in clocks}
        if read["ours"][0] != read["ours"][1] or read["theirs"][0] != read["theirs"][1]:
            expected.append((*pair, tuple(read["ours"]), tuple(read["theirs"])))
    found = changes_ahead(planned([lesson], TeacherClock(zone=home_zone), *YEARS), TeacherClock(zone=home_zone), *YEARS)
    # In UTC: an aware time that exists twice equals no time of another zone.
    shifts = [
        (
            each.before.ours.astimezone(UTC),
            each.after.ours.astimezone(UTC),
            readings(each, "ours"),
            readings(each, "theirs"),
        )
        for each in all_shifts(found)
    ]
    assert sorted(shifts) == expected


@given(st.lists(some_lesson, max_size=4), some_home)
def test_who_is_unaffected_by_a_change_meets_around_it_and_is_not_shifted(lessons, home_zone):
    numbered = [
        kept(each.family.zone, n, **{name: getattr(each.standing, name) for name in ("weekday", "at", "kept_in")})
        for n, each in enumerate(lessons)
    ]
    for entry in ahead(numbered, *YEARS, home_zone):
        shifted = {shift.standing_time_id for shift in entry.shifts}
        assert entry.unaffected == {each.standing.id for each in numbered} - shifted
        assert YEARS[0] <= entry.at < YEARS[1]


def messages(found, hours):
    return [clock_message(each, hours, IN_ENGLISH) for each in concerned_by(found)]


def texts(enrollments, window=AUTUMN, home_zone=HOME, hours=12):
    return {each.family.id: each for each in messages(ahead(enrollments, *window, home_zone), hours)}


def test_a_family_is_told_both_times_the_dates_and_until_when():
    (message,) = texts([enrollment(TEODOR)]).values()
    assert message.family.name == "Okonjo"
    assert message.subject == "Teodor's guitar lesson: new time starting Tuesday, October 27, 2026"
    assert message.text == (
        "Clocks do not change everywhere on the same day, and some places do not change them at all. "
        "Because of that, this lesson will be at a different time for you:\n\n"
        "Teodor's guitar lesson\n"
        "On Tuesday, October 27, 2026 only, it starts at 21:00 London time (UTC+00:00) instead of 22:00 (UTC+01:00).\n"
        "Beginning Tuesday, November 3, 2026, it starts at 22:00 London time (UTC+00:00), as before.\n"
    )


def test_a_shift_of_some_weeks_names_its_last_day():
    (message,) = texts([enrollment(TEODOR)], (utc("2027-03-01"), utc("2027-04-15"))).values()
    assert "From Tuesday, March 16, 2027 through Tuesday, March 23, 2027, it starts at 21:00" in message.text
    assert "Beginning Tuesday, March 30, 2027, it starts at 22:00 London time" in message.text


def test_another_day_of_the_week_is_named():
    (message,) = texts([kept("Asia/Kolkata", at=time(13))]).values()
    assert (
        "Beginning Wednesday, November 4, 2026, it starts at 12:30 am Kolkata time (UTC+05:30) "
        "instead of Tuesday at 11:30 pm (UTC+05:30).\n"
    ) in message.text


def test_only_families_whose_own_time_changes_are_told():
    lessons = [
        kept("America/Phoenix", 1),
        kept("America/Phoenix", 2, kept_in=KeptIn.FAMILY),
        kept("America/New_York", 3),
        kept(HOME, 4),
        kept("Asia/Tokyo", 5),
    ]
    assert set(texts(lessons)) == {1, 5}


def test_two_students_of_a_family_are_in_one_message_and_no_others():
    first, second = (
        Enrollment(
            standing=standing(id=StandingTimeId(10 + n), student_id=StudentId(n), weekday=n, instrument=instrument),
            student=student(id=StudentId(n), name=name, remark="slow to warm up"),
            family=family(),
        )
        for n, name, instrument in ((1, "Ilse", "cello"), (2, "Jonas", None))
    )
    found = texts([first, second, enrollment(TEODOR)])
    assert set(found) == {1, 2}
    assert found[1].subject == "New lesson times starting Tuesday, November 3, 2026"
    assert found[1].text.splitlines()[2:] == [
        "Ilse's cello lesson",
        "Beginning Tuesday, November 3, 2026, it starts at 3:00 pm Phoenix time (UTC−07:00) instead of 2:00 pm (UTC−07:00).",
        "",
        "Jonas's lesson",
        "Beginning Wednesday, November 4, 2026, it starts at 3:00 pm Phoenix time (UTC−07:00) instead of 2:00 pm (UTC−07:00).",
    ]
    for message, others in ((found[1], ("Teodor", "Okonjo")), (found[2], ("Ilse", "Jonas", "Brandvold"))):
        assert not any(other in message.subject + message.text for other in (*others, "slow to warm up"))


@pytest.mark.parametrize(("own", "studio", "shown"), [(None, 12, "3:00 pm"), (None, 24, "15:00"), (24, 12, "15:00")])
def test_a_familys_own_habit_of_hours_goes_before_the_studios(own, studio, shown):
    lesson = kept("America/Phoenix")
    household = family(hours=own)
    told = Enrollment(standing=lesson.standing, student=lesson.student, family=household)
    assert f"starts at {shown} Phoenix time" in texts([told], hours=studio)[1].text


def test_her_move_is_told_without_its_reason():
    home = Home(zone=HOME, stays=(LONDON_MOVE,))
    message = texts([kept("America/Phoenix")], WINTER, home)[1]
    assert message.text.startswith("This lesson will be at a different time for you:\n\n")
    assert "at 9:00 am Phoenix time (UTC−07:00) instead of 3:00 pm (UTC−07:00)" in message.text
    assert not any(place in message.text for place in ("London", "Chicago", "Clocks"))


def test_no_abbreviation_of_a_zone_is_in_a_message():
    told = texts([kept("America/Vancouver"), kept("America/Phoenix", 2), kept("Europe/London", 3)])
    assert len(told) == 3
    for message in told.values():
        assert not any(name in message.text for name in ("MST", "PST", "PDT", "GMT", "BST"))


def test_a_line_break_in_a_name_does_not_break_the_subject():
    message = texts([kept("America/Phoenix", name="Il\r\nse")])[1]
    assert message.subject.startswith("Il se's cello lesson: new time starting ")


@given(st.lists(some_lesson, max_size=4), some_home)
def test_a_family_is_told_exactly_when_its_own_clock_shows_another_time(lessons, home_zone):
    numbered = [
        kept(each.family.zone, n, **{name: getattr(each.standing, name) for name in ("weekday", "at", "kept_in")})
        for n, each in enumerate(lessons)
    ]
    found = ahead(numbered, *YEARS, home_zone)
    concerned = [s.family.id for s in all_shifts(found) if readings(s, "theirs")[0] != readings(s, "theirs")[1]]
    assert [each.family.id for each in messages(found, 24)] == list(dict.fromkeys(concerned))


TO_NEW_YORK = Home(zone="America/Phoenix", stays=(Stay(zone="America/New_York", from_on=date(2027, 1, 11)),))


def test_a_family_that_moves_where_the_clock_is_the_same_shifts_nothing_then_and_not_at_the_change_after_it():
    """Phoenix and Denver are both at -07 on March 1; on March 14, 2027 Denver and Chicago change in one night (IANA 2026f)."""
    found = ahead([kept(TO_DENVER)], utc("2027-02-20"), utc("2027-03-20"))
    (entry,) = [each for each in found if each.moves]
    (move,) = entry.moves
    assert (entry.at, entry.changed_on) == (utc("2027-03-01 07:00"), date(2027, 3, 1))
    assert (move.family.name, move.change.left_zone, move.change.zone) == (
        "The 1.",
        "America/Phoenix",
        "America/Denver",
    )
    assert [(readings(each, "ours"), readings(each, "theirs")) for each in move.kept] == [
        (("Tue 16:00", "Tue 16:00"), ("Tue 15:00", "Tue 15:00"))
    ]
    assert all_shifts(found) == []
    assert [
        str(each.after.theirs.date())
        for each in all_shifts(ahead([kept("America/Phoenix")], utc("2027-02-20"), utc("2027-03-20")))
    ] == ["2027-03-16"]


def test_a_family_that_moves_shifts_its_lessons_on_her_clock_for_itself_and_those_on_its_own_for_her():
    lessons = [kept(TO_NEW_YORK), kept(TO_NEW_YORK, 2, kept_in=KeptIn.FAMILY), kept("America/Phoenix", 3)]
    entries = [each for each in ahead(lessons, *WINTER) if each.moves]
    (entry,) = entries
    assert [
        (each.standing_time_id, each.whom, readings(each, "ours"), readings(each, "theirs")) for each in entry.shifts
    ] == [
        (2, Whom.TEACHER, ("Tue 17:00", "Tue 15:00"), ("Tue 16:00", "Tue 16:00")),
        (1, Whom.FAMILY, ("Tue 16:00", "Tue 16:00"), ("Tue 15:00", "Tue 17:00")),
    ]
    assert entry.unaffected == {3}
    (told,) = concerned_by([entry])
    assert (told.family.name, told.is_move) == ("The 1.", True)
    text = clock_message(told, 12, IN_ENGLISH).text
    assert "Clocks do not change" not in text
    assert "at 5:00 pm New York time (UTC−05:00) instead of 3:00 pm (UTC−07:00)" in text


@pytest.mark.parametrize("kept_in", KeptIn)
def test_a_family_away_for_a_while_reads_another_time_and_she_does_not(kept_in):
    away = Home(
        zone="America/Phoenix",
        stays=(Stay(zone="America/New_York", from_on=date(2027, 1, 11), until_on=date(2027, 1, 24)),),
    )
    found = all_shifts(ahead([kept(away, kept_in=kept_in)], *WINTER))
    assert [each.whom for each in found] == [Whom.FAMILY, Whom.FAMILY]
    assert len({readings(each, "ours") for each in found}) == 1


def test_a_move_after_the_last_lesson_is_not_told():
    assert not [each for each in ahead([kept(TO_NEW_YORK, until_on=date(2027, 1, 5))], *WINTER) if each.moves]
