"""Free times: where in a week a lesson could be, and the free stretches of a day."""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import (
    BANERJEE,
    BRANDVOLD,
    DAY,
    HOME,
    HOUSEHOLDS,
    ILSE,
    ISHAAN,
    MIREILLE,
    NALANI,
    OKONJO,
    STARTS_AT,
    TEODOR,
    back_to_back,
    booking,
    home,
    preferences,
    utc,
)

from cockpit.studio.calendar.collisions import Trouble, find_troubles
from cockpit.studio.calendar.free_times import FreeTimeLimits, free_gaps, free_times
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import day_bounds, local_time, moment
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.lessons.scheduled import in_order
from cockpit.studio.values import replace

LONG_BEFORE = utc("2026-11-01")
QUARTER = timedelta(minutes=15)
ALL_HOURS = preferences(day_begins=time(0), day_ends=time(0))


def timetable(*bookings, **values):
    """The teacher's hours in Chicago with these lessons, without breaks, by the first wishes."""
    home = TeacherClock(zone=values.pop("home_zone", HOME))
    wishes = replace(values.pop("wishes", preferences()), home=home)
    return FreeTimeLimits(**{"bookings": bookings, "preferences": wishes} | values)


def a_break(from_on, until_on=None, family_id=None):
    """Days without lessons."""
    return Break(id=BreakId(1), family_id=family_id, from_on=from_on, until_on=until_on or from_on)


def clock(moments, zone=HOME):
    """UTC moments as a clock shows them."""
    return [local_time(at, zone).strftime("%a %H:%M") for at in moments]


def test_the_free_times_of_the_same_weekday_come_first_and_the_nearest_of_them():
    first, second = back_to_back(30, 30)
    found = free_times(timetable(first, second), first, DAY, LONG_BEFORE)
    assert clock(found) == ["Tue 16:00", "Tue 15:45", "Tue 15:30", "Tue 15:15", "Tue 15:00"]


def test_the_lesson_itself_is_in_nobody_s_way():
    assert free_times(timetable(booking(ILSE)), booking(ILSE), DAY, LONG_BEFORE, limit=1) == [STARTS_AT]
    assert free_times(timetable(booking(TEODOR)), booking(ILSE), DAY, LONG_BEFORE, limit=1) == [STARTS_AT - 2 * QUARTER]


@pytest.mark.parametrize("outcome", list(Outcome))
def test_a_lesson_that_does_not_take_place_leaves_its_time_free(outcome):
    cancelled = booking(TEODOR, outcome=outcome)
    assert free_times(timetable(cancelled), booking(ILSE), DAY, LONG_BEFORE, limit=1) == [STARTS_AT]


def test_the_wished_gap_is_kept_before_and_after():
    others = [booking(TEODOR, starts_at=home("2026-12-01 15:00")), booking(NALANI, starts_at=home("2026-12-01 17:00"))]
    for gap, expected in ((0, "15:30 15:45 16:00 16:15 16:30"), (10, "15:45 16:00 16:15"), (15, "15:45 16:00 16:15")):
        found = free_times(
            timetable(*others, wishes=preferences(gap_minutes=gap)), booking(ILSE), DAY, LONG_BEFORE, limit=99
        )
        afternoon = [at for at in found if home("2026-12-01 14:31") < at < home("2026-12-01 17:30")]
        assert " ".join(each.removeprefix("Tue ") for each in clock(sorted(afternoon))) == expected


def test_a_time_suits_both_clocks():
    """7:00 to 21:00 in Chicago is 18:30 to 8:30 in Kolkata in winter."""
    found = free_times(timetable(), booking(ISHAAN), DAY, LONG_BEFORE, limit=999)
    on_tuesday = sorted(at for at in found if local_time(at, HOME).date() == DAY)
    assert clock(on_tuesday) == [
        "Tue 07:00",
        "Tue 07:15",
        "Tue 07:30",
        "Tue 07:45",
        "Tue 08:00",
        "Tue 08:15",
        "Tue 08:30",
        "Tue 08:45",
        "Tue 09:00",
        "Tue 19:30",
        "Tue 19:45",
        "Tue 20:00",
        "Tue 20:15",
        "Tue 20:30",
    ]
    assert clock(on_tuesday, BANERJEE.zone)[8:10] == ["Tue 20:30", "Wed 07:00"]


def test_her_own_time_of_day_is_offered_on_other_days_though_it_is_on_no_step():
    lesson = booking(ILSE, starts_at=home("2026-12-01 16:05"))
    tuesday_is_full = booking(TEODOR, starts_at=home("2026-12-01 06:00"), minutes=15 * 60)
    found = free_times(timetable(tuesday_is_full), lesson, DAY, LONG_BEFORE, limit=4)
    assert clock(found) == ["Mon 16:05", "Mon 16:00", "Mon 16:15", "Mon 15:45"]


def test_the_days_next_to_the_weekday_come_before_those_further_away():
    days = clock(free_times(timetable(), booking(ILSE), DAY, LONG_BEFORE, limit=999, step_minutes=60))
    assert list(dict.fromkeys(each[:3] for each in days)) == ["Tue", "Mon", "Wed", "Thu", "Fri", "Sat", "Sun"]


def test_a_week_is_monday_to_sunday_on_her_clock_whichever_of_its_days_is_named():
    found = free_times(timetable(), booking(ILSE), date(2026, 12, 7), LONG_BEFORE, limit=999)
    assert found == free_times(timetable(), booking(ILSE), date(2026, 12, 13), LONG_BEFORE, limit=999)
    dates = {local_time(at, HOME).date() for at in found}
    assert (min(dates), max(dates)) == (date(2026, 12, 7), date(2026, 12, 13))
    assert local_time(found[0], HOME) == datetime(2026, 12, 8, 16, tzinfo=ZoneInfo(HOME))


def test_a_lesson_keeps_its_time_of_day_across_a_clock_change():
    in_october = booking(ILSE, starts_at=home("2026-10-27 16:00"))
    (found,) = free_times(timetable(), in_october, date(2026, 11, 3), utc("2026-10-01"), limit=1)
    assert found == home("2026-11-03 16:00")


def test_nothing_in_the_past_is_offered():
    now = home("2026-12-01 16:20")
    found = free_times(timetable(), booking(ILSE), DAY, now, limit=999)
    assert min(found) == home("2026-12-01 16:30")
    assert found[:2] == [home("2026-12-01 16:30"), home("2026-12-01 16:45")]
    assert free_times(timetable(), booking(ILSE), DAY, utc("2026-12-08"), limit=999) == []


def test_a_break_of_the_studio_or_of_the_family_leaves_no_time():
    breaks = [
        a_break(date(2026, 11, 30), DAY),
        a_break(date(2026, 12, 3), family_id=BRANDVOLD.id),
        a_break(date(2026, 12, 4), family_id=OKONJO.id),
    ]
    found = free_times(timetable(breaks=breaks), booking(ILSE), DAY, LONG_BEFORE, limit=999)
    assert {each[:3] for each in clock(found)} == {"Wed", "Fri", "Sat", "Sun"}


def test_the_days_of_a_family_s_break_are_on_its_own_clock():
    breaks = [a_break(date(2026, 12, 2), family_id=BANERJEE.id)]
    found = free_times(timetable(breaks=breaks), booking(ISHAAN), DAY, LONG_BEFORE, limit=999)
    assert "Tue 19:30" not in clock(found)
    assert "Wed 19:30" in clock(found)
    assert "Wed 09:00" not in clock(found)


@pytest.mark.parametrize("limit", [0, 1, 3])
def test_no_more_than_the_limit_are_given(limit):
    assert len(free_times(timetable(), booking(ILSE), DAY, LONG_BEFORE, limit=limit)) == limit


def test_a_lesson_longer_than_the_day_fits_nowhere():
    assert free_times(timetable(), booking(ILSE, minutes=15 * 60), DAY, LONG_BEFORE) == []


def test_on_a_journey_the_day_is_that_of_the_clock_she_is_on():
    stay = Stay(zone="Europe/London", from_on=date(2026, 11, 30), until_on=date(2026, 12, 6))
    away = timetable(home_zone=Home(zone=HOME, stays=(stay,)))
    found = free_times(away, booking(TEODOR), DAY, LONG_BEFORE, limit=999)
    assert {at.hour for at in found} == set(range(7, 21))
    assert free_gaps(away, DAY) == [(utc("2026-12-01 07:00"), utc("2026-12-01 21:00"))]


def test_the_day_of_a_move_begins_when_she_is_there():
    """She leaves Honolulu (UTC-10) at its midnight, which is 19:00 in Tokyo (UTC+9)."""
    moving = Home(zone="Pacific/Honolulu", stays=(Stay(zone="Asia/Tokyo", from_on=DAY),))
    assert free_gaps(timetable(home_zone=moving), DAY) == [(utc("2026-12-01 10:00"), utc("2026-12-01 12:00"))]


def test_the_hour_that_the_clock_skips_is_offered_once():
    """Chicago goes from 2:00 to 3:00 on 2027-03-14 (15 U.S.C. 260a)."""
    sunday = booking(ILSE, starts_at=home("2027-03-07 02:30"))
    found = free_times(timetable(wishes=ALL_HOURS), sunday, date(2027, 3, 14), LONG_BEFORE, limit=999)
    assert len(found) == len(set(found))
    assert found[0] == utc("2027-03-14 08:30")


def test_the_gaps_of_a_day_lie_between_its_lessons():
    lessons = [booking(TEODOR, starts_at=home("2026-12-01 10:00"), minutes=60), *back_to_back(30, 30)]
    assert free_gaps(timetable(*lessons), DAY) == [
        (home("2026-12-01 07:00"), home("2026-12-01 10:00")),
        (home("2026-12-01 11:00"), home("2026-12-01 16:00")),
        (home("2026-12-01 17:00"), home("2026-12-01 21:00")),
    ]


def test_the_wished_gap_is_taken_off_the_free_stretches():
    pauses = [booking(TEODOR, starts_at=home("2026-12-01 10:00")), booking(ILSE, starts_at=home("2026-12-01 10:45"))]
    late = booking(NALANI, starts_at=home("2026-12-01 21:05"))
    assert free_gaps(timetable(*pauses, late, wishes=preferences(gap_minutes=10)), DAY) == [
        (home("2026-12-01 07:00"), home("2026-12-01 09:50")),
        (home("2026-12-01 11:25"), home("2026-12-01 20:55")),
    ]


def test_lessons_over_the_edges_and_over_each_other_leave_what_is_between():
    lessons = [
        booking(TEODOR, starts_at=home("2026-12-01 20:30"), minutes=60),
        booking(NALANI, starts_at=home("2026-12-01 12:00"), minutes=180),
        booking(ILSE, starts_at=home("2026-12-01 12:30"), minutes=30),
        booking(MIREILLE, starts_at=home("2026-12-01 06:30"), minutes=60),
        booking(ISHAAN, starts_at=home("2026-12-01 22:00")),
    ]
    assert free_gaps(timetable(*lessons), DAY) == [
        (home("2026-12-01 07:30"), home("2026-12-01 12:00")),
        (home("2026-12-01 15:00"), home("2026-12-01 20:30")),
    ]


def test_a_full_day_and_a_studio_break_leave_no_gap_and_a_family_break_the_whole_day():
    full = booking(TEODOR, starts_at=home("2026-12-01 07:00"), minutes=14 * 60)
    assert free_gaps(timetable(full), DAY) == []
    week_off = timetable(breaks=[a_break(date(2026, 11, 30), date(2026, 12, 4))])
    assert [free_gaps(week_off, date(2026, 11, 29) + day * timedelta(days=1)) == [] for day in range(7)] == [
        *(False, True, True, True, True, True, False)
    ]
    whole = [(home("2026-12-01 07:00"), home("2026-12-01 21:00"))]
    assert free_gaps(timetable(breaks=[a_break(DAY, family_id=BRANDVOLD.id)]), DAY) == whole


@pytest.mark.parametrize(
    ("zone", "on", "hours"),
    [
        ("America/New_York", date(2026, 3, 8), [23]),
        ("America/New_York", date(2026, 11, 1), [25]),
        ("Australia/Lord_Howe", date(2026, 10, 4), [23.5]),
        ("Australia/Lord_Howe", date(2026, 4, 5), [24.5]),
        ("Pacific/Apia", date(2011, 12, 30), []),
    ],
)
def test_a_day_has_the_length_that_its_clock_gives_it(zone, on, hours):
    """Day lengths by the rules of the tz database; Samoa left out 30 December 2011."""
    gaps = free_gaps(timetable(home_zone=zone, wishes=ALL_HOURS), on)
    assert [(ends - begins) / timedelta(hours=1) for begins, ends in gaps] == hours
    if not hours:
        assert free_gaps(timetable(home_zone=zone), on) == []


ZONES = (HOME, "America/Phoenix", "Asia/Kolkata", "Australia/Lord_Howe")


@st.composite
def weeks(draw, mondays):
    """A week of lessons in a zone with wishes and breaks, and one lesson of it that is to be moved."""
    zone, monday = draw(st.sampled_from(ZONES)), draw(st.sampled_from(mondays))
    begins, ends = day_bounds(monday, zone)[0], day_bounds(monday + timedelta(days=6), zone)[1]
    lessons = st.tuples(
        st.sampled_from(list(HOUSEHOLDS)),
        st.datetimes(begins.replace(tzinfo=None), ends.replace(tzinfo=None)),
        st.sampled_from([30, 45, 60, 600]),
        st.sampled_from([None, None, Outcome.CANCELLED]),
    )
    bookings = [
        booking(who, id=f"l{number}", starts_at=utc(f"{at:%Y-%m-%d %H:%M}"), minutes=minutes, outcome=outcome)
        for number, (who, at, minutes, outcome) in enumerate(draw(st.lists(lessons, min_size=1, max_size=20)))
    ]
    offs = st.integers(0, 6).map(lambda day: monday + timedelta(days=day))
    breaks = draw(
        st.lists(st.builds(a_break, offs, family_id=st.sampled_from([None, BRANDVOLD.id, OKONJO.id])), max_size=2)
    )
    hours = [time(hour) for hour in (7, 9)], [time(0), time(19), time(21)]
    wishes = preferences(
        gap_minutes=draw(st.sampled_from([0, 5, 20])),
        day_begins=draw(st.sampled_from(hours[0])),
        day_ends=draw(st.sampled_from(hours[1])),
    )
    return timetable(*bookings, breaks=breaks, wishes=wishes, home_zone=zone), bookings[0], monday


def moved_to(at, wanted, table):
    """The lessons with one of them at another time, and that one."""
    there = replace(wanted, lesson=replace(wanted.lesson, starts_at=at, outcome=None))
    return there, in_order([there, *(each for each in table.bookings if each.lesson.id != wanted.lesson.id)])


@given(weeks([date(2026, 10, 26), date(2026, 3, 30), date(2026, 9, 28), date(2027, 3, 8), date(2026, 12, 7)]))
def test_a_lesson_at_a_free_time_never_has_any_trouble(week):
    table, wanted, monday = week
    for at in free_times(table, wanted, monday, LONG_BEFORE - timedelta(days=365), limit=40):
        there, lessons = moved_to(at, wanted, table)
        found = find_troubles(lessons, [], table.preferences)
        assert not [each for each in found if there in (each.booking, each.other)]


@examples(8, long=40)
@given(weeks([date(2026, 12, 7), date(2027, 1, 18)]))
def test_every_time_of_the_week_that_suits_is_found(week):
    """Against each quarter of an hour of the week by itself, in weeks without a clock change."""
    table, wanted, monday = week
    family_zone, now = wanted.family.zone, moment(datetime.combine(monday, time(12)), table.preferences.home.zone)
    asked = local_time(wanted.lesson.starts_at, table.preferences.home.zone).time()
    expected = set()
    for day in range(7):
        on = monday + timedelta(days=day)
        for local in {datetime.combine(on, time()) + number * QUARTER for number in range(96)} | {
            datetime.combine(on, asked)
        }:
            at = moment(local, table.preferences.home.zone)
            there, lessons = moved_to(at, wanted, table)
            # The teacher's own hours are asked for as if she were the family.
            hers = replace(there, family=replace(there.family, zone=table.preferences.home.zone))
            found = [
                *find_troubles(lessons, [], table.preferences),
                *(e for e in find_troubles([hers], [], table.preferences) if e.trouble is Trouble.NIGHT),
            ]
            days_off = [
                each
                for each in table.breaks
                if (each.family_id is None and each.from_on == on)
                or (each.family_id == there.family.id and each.from_on == local_time(at, family_zone).date())
            ]
            if at >= now and not days_off and not any(e.booking in (there, hers) or e.other == there for e in found):
                expected.add(at)
    assert set(free_times(table, wanted, monday, now, limit=9999)) == expected
