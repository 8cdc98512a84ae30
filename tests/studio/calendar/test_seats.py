"""Teaching hours bound what is called free, and seats are what is left of them for weekly lessons."""

from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.sample import sample_studio
from support.studio import DAY, HOME, ILSE, TEODOR, booking, enrollment, home, preferences

from cockpit.studio.calendar.collisions import Trouble, find_troubles
from cockpit.studio.calendar.free_times import FreeTimeLimits, free_gaps, free_times
from cockpit.studio.calendar.seats import LENGTHS, seats_in, week_of_seats
from cockpit.studio.clocks.teaching_hours import TeachingHours, TeachingSpan
from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.values import replace

ONE_DAY, MINUTE = timedelta(days=1), timedelta(minutes=1)


def span(begins, ends):
    return TeachingSpan(begins=time.fromisoformat(begins), ends=time.fromisoformat(ends))


def teaching(days, **values):
    return preferences(teaching=TeachingHours(days=days), **values)


TUESDAYS = teaching({1: (span("14:00", "20:00"),)})


def said(stretches, zone=HOME):
    return [
        f"{begins.astimezone(ZoneInfo(zone)):%H:%M}-{ends.astimezone(ZoneInfo(zone)):%H:%M}"
        for begins, ends in stretches
    ]


def test_the_seats_of_the_sample_studio_on_tuesday(tmp_path):
    """Tue 14:00-20:00, gap 0: 14:00-14:30, 15:45-16:00, 18:30-19:00, 19:30-20:00 are free: 3 of 30, 0 of 45."""
    with sample_studio(tmp_path) as (studio, _):
        reading = studio.store.reading
        enrollments = reading.enrollments(reading.people(), DAY)
        (tuesday,) = week_of_seats(enrollments, [], DAY, TUESDAYS)
        assert said(tuesday.spans) == ["14:00-14:30", "15:45-16:00", "18:30-19:00", "19:30-20:00"]
        assert dict(zip(LENGTHS, tuesday.seats, strict=True)) == {30: 3, 45: 0, 60: 0}


@pytest.mark.parametrize(
    ("spans", "length", "gap", "seats"),
    [
        ([60], 30, 0, 2),
        ([60], 30, 5, 1),
        ([65], 30, 5, 2),
        ([100], 30, 5, 3),
        ([99], 30, 5, 2),
        ([29, 31, 90], 30, 0, 4),
        ([], 30, 0, 0),
        ([360], 45, 15, 6),
    ],
)
def test_a_lesson_needs_its_minutes_and_a_gap_to_the_next(spans, length, gap, seats):
    begins = home("2026-12-01 14:00")
    assert seats_in([(begins, begins + minutes * MINUTE) for minutes in spans], length, gap) == seats


@given(st.lists(st.integers(0, 400), max_size=4), st.integers(5, 120), st.integers(0, 30))
def test_so_many_lessons_can_be_laid_one_behind_the_other_and_not_one_more(spans, length, gap):
    begins = home("2026-12-01 14:00")
    laid = 0
    for minutes in spans:
        at = 0
        while at + length <= minutes:
            laid, at = laid + 1, at + length + gap
    assert seats_in([(begins, begins + minutes * MINUTE) for minutes in spans], length, gap) == laid


def test_a_wished_gap_is_kept_around_the_lessons_that_are_there():
    (tuesday,) = week_of_seats([enrollment(ILSE)], [], DAY, replace(TUESDAYS, gap_minutes=10))
    assert said(tuesday.spans) == ["14:00-15:50", "16:40-20:00"]
    assert tuesday.seats == ((110 + 10) // 40 + (200 + 10) // 40, 120 // 55 + 210 // 55, 120 // 70 + 210 // 70)


@pytest.mark.parametrize(
    ("values", "is_taken"),
    [
        ({}, True),
        ({"from_on": date(2027, 3, 2)}, True),  # promised
        ({"every_weeks": 2, "from_on": date(2026, 11, 24)}, True),  # the other week
        ({"from_on": date(2027, 1, 12), "until_on": date(2027, 1, 11)}, False),  # never met
        ({"until_on": date(2026, 11, 30)}, False),
    ],
)
def test_whose_weekly_time_takes_a_seat(values, is_taken):
    (tuesday,) = week_of_seats([enrollment(ILSE, **values)], [], DAY, TUESDAYS)
    assert (said(tuesday.spans) != ["14:00-20:00"]) is is_taken


@pytest.mark.parametrize(
    ("on", "keeps_time", "is_free"),
    [
        (date(2027, 1, 12), False, True),
        (date(2027, 1, 12), True, False),
        (DAY, False, False),
        (date(2027, 2, 2), False, False),
    ],
)
def test_a_pause_gives_the_time_away_while_it_lasts_if_it_does_not_keep_it(on, keeps_time, is_free):
    pause = Pause(
        id=PauseId(1), student_id=ILSE.id, from_on=date(2027, 1, 4), until_on=date(2027, 1, 31), keeps_time=keeps_time
    )
    (tuesday,) = week_of_seats([enrollment(ILSE)], [pause], on, TUESDAYS)
    assert (said(tuesday.spans) == ["14:00-20:00"]) is is_free


def test_seats_are_counted_on_each_weekday_that_is_taught_on_monday_first():
    wishes = teaching({0: (span("09:00", "10:00"),), 5: (span("09:00", "12:00"), span("13:00", "15:00")), 6: ()})
    found = week_of_seats([], [], DAY, wishes)
    assert [(each.on, each.seats) for each in found] == [
        (date(2026, 12, 7), (2, 1, 1)),
        (date(2026, 12, 5), (10, 6, 5)),
    ]


def test_a_familys_time_takes_its_seat_where_her_clock_has_it_that_week():
    theirs = enrollment(TEODOR, weekday=1, at=time(21, 15), kept_in=KeptIn.FAMILY)
    for on, begins in ((DAY, "15:15"), (date(2027, 3, 16), "16:15")):
        (tuesday,) = week_of_seats([theirs], [], on, TUESDAYS)
        assert said(tuesday.spans)[0] == f"14:00-{begins}"


def test_free_times_lie_in_her_teaching_hours_and_nowhere_else():
    wishes = teaching({1: (span("14:00", "15:00"), span("18:00", "19:00")), 4: (span("10:00", "11:00"),)})
    limits = FreeTimeLimits(bookings=[], preferences=wishes)
    assert said(free_gaps(limits, DAY)) == ["14:00-15:00", "18:00-19:00"]
    assert free_gaps(limits, DAY + ONE_DAY) == []
    found = free_times(limits, booking(ILSE), DAY, home("2026-11-01 00:00"), limit=50)
    starts = {f"{each.astimezone(ZoneInfo(HOME)):%a %H:%M}" for each in found}
    assert starts == {
        f"{day} {hour}:{minute}"
        for day, hour in (("Tue", 14), ("Tue", 18), ("Fri", 10))
        for minute in ("00", "15", "30")
    }


@pytest.mark.parametrize(
    ("at", "is_told"),
    [
        ("2026-12-01 14:00", False),
        ("2026-12-01 19:30", False),
        ("2026-12-01 19:31", True),
        ("2026-12-01 13:59", True),
        ("2026-12-02 15:00", True),
    ],
)
def test_a_lesson_outside_her_teaching_hours_is_told_on_her_clock(at, is_told):
    found = find_troubles([booking(ILSE, starts_at=home(at))], [], TUESDAYS)
    assert [each.trouble for each in found] == ([Trouble.OWN_NIGHT] if is_told else [])


def test_without_teaching_hours_every_day_is_as_long_as_the_settings_say():
    assert said(free_gaps(FreeTimeLimits(bookings=[], preferences=preferences()), DAY)) == ["07:00-21:00"]


hours = st.tuples(st.integers(0, 95), st.integers(1, 96)).filter(lambda each: each[0] < each[1])


def _at(quarter):
    return time(quarter // 4 % 24, quarter % 4 * 15)


@given(
    st.dates(date(2026, 9, 1), date(2027, 8, 31)),
    st.dictionaries(st.integers(0, 6), hours, min_size=1),
    st.sampled_from([HOME, "Europe/London", "America/St_Johns", "Pacific/Chatham"]),
)
def test_what_is_free_on_any_date_lies_in_the_hours_of_its_weekday(on, days, zone):
    wishes = teaching(
        {day: (TeachingSpan(begins=_at(begins), ends=_at(ends)),) for day, (begins, ends) in days.items()}
    )
    wishes = replace(wishes, home=replace(wishes.home, zone=zone))
    for begins, ends in free_gaps(FreeTimeLimits(bookings=[], preferences=wishes), on):
        first, last = days[on.weekday()]
        here, there = (each.astimezone(ZoneInfo(zone)) for each in (begins, ends - datetime.resolution))
        assert here.date() == there.date() == on
        assert _at(first) <= here.time()
        assert last == 96 or there.time() < _at(last)
