"""A weekly time that becomes another one from now on: the past stays, and no week has two lessons or none by it."""

from datetime import date, time, timedelta

from hypothesis import given
from hypothesis import strategies as st
from support.shared_calendars import ZONES
from support.studio import CLOCK, HOME, standing, utc

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.moments import day_bounds, local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.later_times import Clocks, ended_now, from_now_on, has_begun
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime

MOMENTS = st.integers(0, 60 * 24 * 60).map(lambda minutes: utc("2026-10-12 00:00") + timedelta(minutes=minutes))
BEGINS, ENDS = utc("2026-09-01 00:00"), utc("2027-02-01 00:00")
TIMES = st.builds(
    standing,
    weekday=st.integers(0, 6),
    at=st.builds(time, st.integers(0, 23), st.sampled_from((0, 30))),
    kept_in=st.sampled_from(KeptIn),
    every_weeks=st.sampled_from((1, 1, 2)),
    from_on=st.none() | st.dates(date(2026, 8, 1), date(2026, 8, 20)),
)
CLOCKS = st.builds(
    Clocks,
    home=st.builds(TeacherClock, zone=st.sampled_from((HOME, *ZONES))),
    family_zone=st.sampled_from(ZONES),
    now=MOMENTS,
)


def starts(clocks: Clocks, *standing_times: StandingTime | None):
    return sorted(
        meeting.starts_at
        for each in standing_times
        if each is not None
        for meeting in clocks.meetings(each, BEGINS, ENDS)
    )


@given(TIMES, TIMES, CLOCKS)
def test_what_was_stays_and_what_comes_is_the_new_one(before, wanted, clocks):
    ended, later = from_now_on(before, wanted, clocks)
    assert later is not None
    old = [at for at in starts(clocks, before) if at < clocks.now]
    assert [at for at in starts(clocks, ended, later) if at < clocks.now] == old
    after = clocks.now + timedelta(days=14)
    assert [at for at in starts(clocks, ended, later) if at >= after] == [
        at for at in starts(clocks, wanted) if at >= after
    ]


@given(TIMES, TIMES, CLOCKS)
def test_each_week_of_hers_has_its_one_lesson(before, wanted, clocks):
    if (before.every_weeks, wanted.every_weeks) != (1, 1):
        return
    ended, later = from_now_on(before, wanted, clocks)
    monday = clocks.today - clocks.today.weekday() * timedelta(days=1)
    for number in range(-2, 4):
        begins = day_bounds(monday + timedelta(weeks=number), clocks.home.zone)[0]
        ends = day_bounds(monday + timedelta(weeks=number + 1), clocks.home.zone)[0]
        wanted_there, before_there = (
            [at for at in starts(clocks, each) if begins <= at < ends] for each in (wanted, before)
        )
        if len(wanted_there) == len(before_there) == 1:  # a clock that changes can put two into a week, or none
            assert len([at for at in starts(clocks, ended, later) if begins <= at < ends]) == 1


@given(TIMES, CLOCKS)
def test_what_has_ended_now_names_its_past_alone(before, clocks):
    assert starts(clocks, ended_now(before, clocks)) == [at for at in starts(clocks, before) if at < clocks.now]


def test_a_standing_time_has_begun_when_its_first_lesson_has():
    rule = standing(weekday=1, at=time(16), from_on=date(2026, 11, 24))
    for now, begun in (("2026-11-24 21:59", False), ("2026-11-24 22:01", True)):
        assert has_begun(rule, Clocks(home=CLOCK, family_zone=HOME, now=utc(now))) == begun


def test_her_own_week_is_that_of_the_place_where_she_is():
    tokyo = Home(zone=HOME, stays=(Stay(zone="Asia/Tokyo", from_on=date(2026, 11, 1), until_on=date(2026, 12, 31)),))
    clocks = Clocks(home=TeacherClock(zone=tokyo), family_zone=HOME, now=utc("2026-11-29 16:00"))  # Monday in Tokyo
    assert local_time(clocks.now, tokyo).weekday() == 0
    ended, later = from_now_on(standing(weekday=1, at=time(16)), standing(weekday=3, at=time(16)), clocks)
    assert ended.until_on is not None
    assert ended.until_on >= date(2026, 11, 24)
    assert next(clocks.meetings(later or ended, clocks.now, ENDS)).taught_on == date(2026, 12, 3)
