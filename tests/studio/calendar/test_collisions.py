"""What will go wrong: two lessons at once or too close, the family's night, local times that do not exist."""

from datetime import date, datetime, time, timedelta
from itertools import combinations, pairwise
from zoneinfo import ZoneInfo

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from support.instants import readings
from support.studio import (
    CLOCK,
    DAY,
    HOME,
    HOUSEHOLDS,
    ILSE,
    ISHAAN,
    MIREILLE,
    NALANI,
    STARTS_AT,
    TEODOR,
    back_to_back,
    booking,
    enrollment,
    family,
    home,
    preferences,
    standing,
    utc,
)
from support.troubles import ANY_TIME, NEW_YORK, troubles

from cockpit.studio.calendar.collisions import Trouble, find_troubles, grouped, lessons_of
from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import moment
from cockpit.studio.lessons.lesson import Kind, Outcome, begin, finish, give_full_length
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson, in_order, planned
from cockpit.studio.lessons.weekly_times import KeptIn
from cockpit.studio.preferences import Preferences
from cockpit.studio.values import replace


def single(findings):
    """The trouble of each finding, its students, and its minutes."""
    return [
        (each.trouble, each.booking.student.name, each.other and each.other.student.name, each.minutes)
        for each in findings
    ]


def test_two_standing_times_on_different_clocks_collide_for_the_week_between_two_clock_changes():
    """London is back on winter time on 2026-10-25, Chicago on 11-01 (Directive 2000/84/EC; 15 U.S.C. 260a).

    Tuesday 18:00 in London is 12:00 in Chicago, but 13:00 on 27 October, and again for two weeks in March.
    """
    noon = enrollment(ILSE, at=time(13))
    london = enrollment(TEODOR, at=time(18), kept_in=KeptIn.FAMILY)
    found = troubles([noon, london])
    assert {each.trouble for each in found} == {Trouble.OVERLAP}
    assert [each.booking.lesson.starts_at for each in found] == [
        utc("2026-10-27 18:00"),
        utc("2027-03-16 18:00"),
        utc("2027-03-23 18:00"),
    ]
    assert [each.minutes for each in found] == [30, 30, 30]


def test_two_standing_times_that_fit_in_october_collide_from_november_until_spring():
    """Tuesday 16:00 in Chicago is 14:00 in Phoenix until 2026-10-27, and 15:00 from 11-03 to 2027-03-09.

    Phoenix has no clock changes (15 U.S.C. 260a leaves that to the State; the tz database).
    """
    ours = enrollment(TEODOR, at=time(16))
    phoenix = enrollment(ILSE, at=time(15, 15), kept_in=KeptIn.FAMILY)
    found = troubles([ours, phoenix])
    assert {single([each])[0] for each in found} == {(Trouble.OVERLAP, "Teodor", "Ilse", 15)}
    assert found[0].arises_at == utc("2026-11-03 22:15")
    assert found[-1].arises_at == utc("2027-03-09 22:15")
    assert len(found) == 19


def test_of_three_at_once_every_two_are_found():
    at_once = [booking(who, minutes=minutes) for who, minutes in ((ILSE, 30), (MIREILLE, 45), (TEODOR, 60))]
    assert single(find_troubles(at_once, [], ANY_TIME)) == [
        (Trouble.OVERLAP, "Ilse", "Mireille", 30),
        (Trouble.OVERLAP, "Ilse", "Teodor", 30),
        (Trouble.OVERLAP, "Mireille", "Teodor", 45),
    ]


def test_a_long_lesson_collides_with_each_of_the_short_ones_in_it():
    short = back_to_back(30, 30)
    long = booking(NALANI, starts_at=STARTS_AT - timedelta(minutes=10), minutes=60)
    assert single(find_troubles([long, *short], [], ANY_TIME)) == [
        (Trouble.OVERLAP, "Nalani", "Ilse", 30),
        (Trouble.OVERLAP, "Nalani", "Teodor", 20),
    ]


@pytest.mark.parametrize(("gap", "pause", "expected"), [(0, 0, None), (5, 0, 0), (5, 4, 4), (5, 5, None), (10, 5, 5)])
def test_two_lessons_are_too_close_with_less_than_the_wished_gap_between_them(gap, pause, expected):
    second = booking(TEODOR, starts_at=STARTS_AT + timedelta(minutes=30 + pause))
    found = find_troubles([booking(ILSE), second], [], replace(ANY_TIME, gap_minutes=gap))
    assert single(found) == ([] if expected is None else [(Trouble.TOO_CLOSE, "Ilse", "Teodor", expected)])


@pytest.mark.parametrize("outcome", list(Outcome))
def test_a_lesson_that_does_not_take_place_collides_with_nothing(outcome):
    at_once = [booking(ILSE, outcome=outcome), booking(TEODOR)]
    assert find_troubles(at_once, [], ANY_TIME) == []


def test_a_finished_lesson_collides_with_nothing():
    taught = booking(ILSE)
    over = replace(taught, lesson=finish(begin(taught.lesson, STARTS_AT), STARTS_AT + timedelta(minutes=20)))
    assert find_troubles([over, booking(TEODOR)], [], ANY_TIME) == []


def test_a_running_lesson_that_gets_its_full_length_collides_with_the_next():
    first, second = back_to_back(30, 30)
    late = give_full_length(begin(first.lesson, STARTS_AT + timedelta(minutes=7, seconds=30)))
    found = find_troubles([replace(first, lesson=late), second], [], ANY_TIME)
    assert single(found) == [(Trouble.OVERLAP, "Ilse", "Teodor", 8)]


@pytest.mark.parametrize(
    ("begins", "minutes", "is_night"),
    [
        ("06:45", 30, True),
        ("07:00", 30, False),
        ("20:30", 30, False),
        ("20:31", 30, True),
        ("21:00", 30, True),
        ("23:45", 30, True),
        ("00:00", 30, True),
        ("20:45", 12 * 60, True),
    ],
)
def test_the_night_of_a_family_is_before_seven_and_after_nine_on_its_own_clock(begins, minutes, is_night):
    """Common practice, no source."""
    starts_at = moment(datetime.combine(DAY, time.fromisoformat(begins)), "Asia/Kolkata")
    found = find_troubles([booking(ISHAAN, starts_at=starts_at, minutes=minutes)], [], preferences())
    assert single(found) == ([(Trouble.NIGHT, "Ishaan", None, 0)] if is_night else [])


@pytest.mark.parametrize(
    ("begins", "minutes", "fits"),
    [
        ("23:30", 30, True),
        ("23:45", 30, False),
        ("07:00", 17 * 60, True),
        ("08:00", 40 * 60, False),
        ("00:00", 30, False),
    ],
)
def test_a_day_that_ends_at_midnight_ends_at_the_midnight_after_it(begins, minutes, fits):
    starts_at = moment(datetime.combine(DAY, time.fromisoformat(begins)), "America/Phoenix")
    found = find_troubles([booking(ILSE, starts_at=starts_at, minutes=minutes)], [], preferences(day_ends=time(0)))
    assert (Trouble.NIGHT not in {each.trouble for each in found}) is fits


def test_a_night_of_the_teacher_is_one_where_it_is_day_for_the_family():
    own = booking(ISHAAN, starts_at=home("2026-12-01 03:00"))
    assert single(find_troubles([own], [], preferences())) == [(Trouble.OWN_NIGHT, "Ishaan", None, 0)]
    both = booking(ILSE, starts_at=home("2026-12-01 03:00"))
    assert single(find_troubles([both], [], preferences())) == [(Trouble.NIGHT, "Ilse", None, 0)]


def test_a_day_of_all_hours_has_no_night():
    around_midnight = booking(ILSE, starts_at=moment(datetime.combine(DAY, time(23, 45)), "America/Phoenix"))
    assert find_troubles([around_midnight], [], ANY_TIME) == []


def test_a_clock_change_brings_a_lesson_into_the_night_of_a_family_that_has_none():
    """Tuesday 16:00 in Chicago is Wednesday 08:00 in Sydney in October 2026, 09:00 from 3 November, 07:00 on 2027-04-06."""
    sydney = family(zone="Australia/Sydney")
    kept = Enrollment(standing=standing(), student=ILSE, family=sydney)
    found = troubles([kept], preferences(day_begins=time(7, 30)), between=(utc("2026-10-01"), utc("2027-04-13")))
    assert [each.arises_at for each in found] == [utc("2027-04-06 21:00")]


@pytest.mark.parametrize(
    ("zone", "on", "at", "held"),
    [
        ("America/New_York", date(2026, 3, 8), time(2, 30), "2026-03-08 07:30"),
        ("Europe/London", date(2026, 3, 29), time(1, 30), "2026-03-29 01:30"),
        ("Australia/Lord_Howe", date(2026, 10, 4), time(2, 15), "2026-10-03 15:45"),
        ("America/Santiago", date(2026, 9, 6), time(0, 30), "2026-09-06 04:30"),
        ("Pacific/Apia", date(2011, 12, 30), time(16), "2011-12-31 02:00"),
    ],
)
def test_a_local_time_that_does_not_exist_is_found(zone, on, at, held):
    """RFC 5545 3.3.5 for the moment; the rules of the tz database; Samoa left out 30 December 2011."""
    kept = Enrollment(
        standing=standing(weekday=on.weekday(), at=at, kept_in=KeptIn.FAMILY), student=ILSE, family=family(zone=zone)
    )
    around = (utc(held) - timedelta(days=40), utc(held) + timedelta(days=40))
    (found,) = troubles([kept], between=around)
    assert found.trouble is Trouble.NO_SUCH_TIME
    assert found.meant is not None
    assert (found.meant.at, found.meant.zone) == (datetime.combine(on, at), zone)
    assert found.arises_at == utc(held)


@given(
    zone=st.sampled_from(
        ["America/New_York", "Australia/Lord_Howe", "America/Santiago", "Africa/Cairo", "Asia/Kolkata"]
    ),
    is_ours=st.booleans(),
    weekday=st.integers(0, 6),
    at=st.sampled_from([time(hour, minute) for hour in (0, 1, 2, 3, 16, 23) for minute in (0, 15, 30, 45)]),
)
def test_exactly_the_times_that_no_moment_shows_are_found(zone, is_ours, weekday, at):
    """Against a search through UTC, where no reading is ambiguous."""
    kept_in = KeptIn.TEACHER if is_ours else KeptIn.FAMILY
    kept = Enrollment(
        standing=standing(weekday=weekday, at=at, kept_in=kept_in),
        student=ILSE,
        family=family(zone=HOME if is_ours else zone),
    )
    found = troubles([kept], zone=zone, between=(utc("2026-01-01"), utc("2027-01-01")))
    first = date(2026, 1, 5) + timedelta(days=weekday)
    locals_ = [datetime.combine(first + timedelta(weeks=week), at) for week in range(51)]
    assert [each.meant.at for each in found] == [local for local in locals_ if not readings(local, zone)]


def in_the_gap(**values):
    """Ilse's lesson of Sunday 2:30 am in New York on the day that has none, as it is planned, or varied."""
    kept = Enrollment(
        standing=standing(weekday=6, at=time(2, 30), kept_in=KeptIn.FAMILY), student=ILSE, family=NEW_YORK
    )
    (planned_one,) = planned([kept], CLOCK, utc("2026-03-08"), utc("2026-03-09"))
    return kept, replace(planned_one, lesson=replace(planned_one.lesson, **values))


@pytest.mark.parametrize(
    "values",
    [
        {"is_moved": True},
        {"kind": Kind.EXTRA},
        {"standing_time_id": None},
        {"standing_time_id": 99},
        {"began_at": utc("2026-03-08 07:31")},
        {"starts_at": utc("2026-03-08 09:00")},
    ],
    ids=str,
)
def test_a_lesson_that_has_a_time_of_its_own_misses_none(values):
    kept, lesson = in_the_gap()
    assert single(find_troubles([lesson], [kept], ANY_TIME)) == [(Trouble.NO_SUCH_TIME, "Ilse", None, 0)]
    kept, lesson = in_the_gap(**values)
    assert find_troubles([lesson], [kept], ANY_TIME) == []


def test_a_time_that_her_move_leaves_out_is_found_and_a_journey_leaves_out_none():
    """She leaves Honolulu at its midnight, which is 19:00 in Tokyo: the date's earlier hours are never hers."""
    kept = enrollment(MIREILLE, weekday=4, at=time(9))
    week = (utc("2027-01-14"), utc("2027-01-18"))
    for_good = Home(zone="Pacific/Honolulu", stays=(Stay(zone="Asia/Tokyo", from_on=date(2027, 1, 15)),))
    (found,) = troubles([kept], zone=for_good, between=week)
    assert (found.trouble, found.meant.zone) == (Trouble.NO_SUCH_TIME, "Asia/Tokyo")
    stay = Stay(zone="Asia/Tokyo", from_on=date(2027, 1, 15), until_on=date(2027, 1, 20))
    assert troubles([kept], zone=Home(zone="Pacific/Honolulu", stays=(stay,)), between=week) == []


def test_a_time_that_her_own_clock_skips_is_found_while_she_is_elsewhere():
    """New York has no 2:30 on 2026-03-08; she is in Tokyo, and her lessons keep New York's time."""
    kept = enrollment(TEODOR, weekday=6, at=time(2, 30))
    stay = Stay(zone="Asia/Tokyo", from_on=date(2026, 3, 6), until_on=date(2026, 3, 10))
    away = Home(zone="America/New_York", stays=(stay,))
    (found,) = troubles([kept], zone=away, between=(utc("2026-03-01"), utc("2026-03-20")))
    assert found.meant is not None
    assert (found.meant.at, found.meant.zone) == (datetime(2026, 3, 8, 2, 30), "America/New_York")


def test_the_findings_are_in_order_of_time():
    enrollments = [enrollment(who, weekday=who.id % 3, at=time(20)) for who in HOUSEHOLDS]
    found = troubles(enrollments, preferences(gap_minutes=10))
    assert {each.trouble for each in found} == {Trouble.OVERLAP, Trouble.NIGHT}
    assert all(one.arises_at <= other.arises_at for one, other in pairwise(found))


@st.composite
def some_bookings(draw):
    """Lessons of two days around a clock change, many of them at once, in order."""
    first = draw(st.sampled_from([utc("2026-10-24 12:00"), utc("2026-10-31 12:00"), utc("2026-12-01")]))
    lessons = st.tuples(
        st.sampled_from(list(HOUSEHOLDS)),
        st.integers(0, 48 * 12),
        st.sampled_from([5, 30, 45, 60, 240]),
        st.sampled_from([None, None, None, Outcome.CANCELLED]),
    )
    drawn = draw(st.lists(lessons, max_size=25))
    return in_order(
        booking(who, id=f"l{number}", starts_at=first + timedelta(minutes=5 * steps), minutes=minutes, outcome=outcome)
        for number, (who, steps, minutes, outcome) in enumerate(drawn)
    )


def is_awake(each: ScheduledLesson, wishes: Preferences, zone: str) -> bool:
    """Whether every five minutes of a lesson are in the wished day on a clock."""
    lesson = each.lesson
    shown = (
        (lesson.starts_at + timedelta(minutes=passed)).astimezone(ZoneInfo(zone)).time()
        for passed in range(0, lesson.minutes, 5)
    )
    return all(wishes.day_begins <= at < wishes.day_ends for at in shown)


@given(
    bookings=some_bookings(), gap=st.sampled_from([0, 5, 15, 60]), begins=st.integers(5, 9), ends=st.integers(18, 22)
)
def test_every_two_compared_and_every_minute_looked_at_find_the_same(bookings, gap, begins, ends):
    wishes = preferences(gap_minutes=gap, day_begins=time(begins), day_ends=time(ends))
    held = [each for each in bookings if each.lesson.outcome is None]
    reaches = [(each.lesson.starts_at, each.lesson.ends_at + timedelta(minutes=gap)) for each in held]
    assume(all(sum(begins <= at < ends for begins, ends in reaches) <= 9 for at, _ in reaches))
    theirs = [each for each in held if not is_awake(each, wishes, each.family.zone)]
    ours = [each for each in held if each not in theirs and not is_awake(each, wishes, HOME)]
    expected = [(Trouble.NIGHT, each.lesson.id, None, 0) for each in theirs]
    expected += [(Trouble.OWN_NIGHT, each.lesson.id, None, 0) for each in ours]
    for one, other in combinations(held, 2):
        minutes = [
            {each.lesson.starts_at + timedelta(minutes=passed) for passed in range(each.lesson.minutes)}
            for each in (one, other)
        ]
        shared = len(minutes[0] & minutes[1])
        apart = (min(minutes[1]) - max(minutes[0])) // timedelta(minutes=1) - 1
        if shared:
            expected.append((Trouble.OVERLAP, one.lesson.id, other.lesson.id, shared))
        elif apart < gap:
            expected.append((Trouble.TOO_CLOSE, one.lesson.id, other.lesson.id, apart))
    found = find_troubles(bookings, [], wishes)
    told = [(each.trouble, each.booking.lesson.id, each.other and each.other.lesson.id, each.minutes) for each in found]
    assert sorted(told, key=str) == sorted(expected, key=str)
    assert all(one.arises_at <= other.arises_at for one, other in pairwise(found))


def test_two_lessons_are_one_group_in_whichever_order_they_begin():
    """Tuesday 18:00 in London begins before 12:15 in Chicago, but after it on 27 October."""
    long = enrollment(ILSE, at=time(12, 15), minutes=60)
    london = enrollment(TEODOR, at=time(18), kept_in=KeptIn.FAMILY)
    (group,) = grouped(troubles([long, london], between=(utc("2026-10-20"), utc("2026-11-04"))))
    assert [each.booking.student.name for each in group.findings] == ["Teodor", "Ilse", "Teodor"]


@pytest.mark.parametrize("values", [{"is_moved": True}, {"kind": Kind.MAKE_UP}, {"standing_time_id": None}], ids=str)
def test_a_single_lesson_stands_for_itself(values):
    weeks = [
        each
        for number in range(2)
        for each in (
            booking(ILSE, starts_at=STARTS_AT + number * timedelta(weeks=1)),
            booking(TEODOR, id=f"single-{number}", starts_at=STARTS_AT + number * timedelta(weeks=1), **values),
        )
    ]
    assert [len(group.findings) for group in grouped(find_troubles(weeks, [], ANY_TIME))] == [1, 1]


def test_every_trouble_of_a_standing_time_is_a_group_of_its_own():
    weeks = [
        booking(who, starts_at=STARTS_AT + number * timedelta(weeks=1))
        for number in range(3)
        for who in (ISHAAN, TEODOR)
    ]
    groups = grouped(find_troubles(weeks, [], preferences()))
    assert [(group.first.trouble, group.first.booking.student.name, len(group.findings)) for group in groups] == [
        (Trouble.NIGHT, "Ishaan", 3),
        (Trouble.NIGHT, "Teodor", 3),
        (Trouble.OVERLAP, "Ishaan", 3),
    ]


def test_two_standing_times_that_overlap_in_one_week_and_are_too_close_in_another_are_two_groups():
    weeks = [
        booking(ILSE),
        booking(TEODOR, starts_at=STARTS_AT + timedelta(minutes=15)),
        booking(ILSE, starts_at=STARTS_AT + timedelta(weeks=1)),
        booking(TEODOR, starts_at=STARTS_AT + timedelta(weeks=1, minutes=30)),
    ]
    groups = grouped(find_troubles(weeks, [], replace(ANY_TIME, gap_minutes=5)))
    assert [group.first.trouble for group in groups] == [Trouble.OVERLAP, Trouble.TOO_CLOSE]


def test_no_lessons_have_no_troubles():
    assert find_troubles([], [], preferences()) == []
    assert grouped([]) == []


def test_hundreds_of_lessons_at_once_are_told_each_but_not_each_with_each():
    """A calendar brought in can have ten thousand events at one time; fifty million findings would help nobody."""
    at_once = [booking(ILSE, id=f"l{number}") for number in range(300)]
    found = find_troubles(at_once, [], ANY_TIME)
    assert len(found) < 300 * 9
    assert {each.lesson.id for finding in found for each in lessons_of(finding)} == {b.lesson.id for b in at_once}


def test_of_many_at_once_those_that_last_longest_still_collide_with_what_comes_later():
    at_once = [booking(ILSE, id=f"l{number}", minutes=30) for number in range(40)]
    long = booking(TEODOR, id="long", minutes=120)
    later = booking(MIREILLE, id="later", starts_at=STARTS_AT + timedelta(minutes=60))
    found = find_troubles([long, *at_once, later], [], ANY_TIME)
    assert (found[-1].booking, found[-1].other) == (long, later)
