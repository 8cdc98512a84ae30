"""Times that would suit somebody: typed, said back, and held against a weekly time on both sides of each clock change."""

from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import CLOCK

from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.wishes import (
    WantedLesson,
    WeeklyGap,
    Wish,
    Wishes,
    fit_of,
    is_wish,
    read_wishes,
    wishes_words,
)
from cockpit.studio.values import replace

TODAY = date(2026, 11, 30)
FIVE = WeeklyGap(first=date(2026, 12, 1), at=time(17), minutes=45, zone="America/Chicago")


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("tue or thu after 4pm", "Tue or Thu after 4:00 pm"),
        ("tue or thu after 4pm, 30m, from june", "Tue or Thu after 4:00 pm, 30 min, from Tue, June 1, 2027"),
        ("from june 1, 2027, tue", "Tue, from Tue, June 1, 2027"),
        ("tue/thu", "Tue or Thu"),
        ("tuesdays and thursdays", "Tue or Thu"),
        ("mon-thu 4-6pm", "Mon, Tue, Wed, or Thu from 4:00 pm to 6:00 pm"),
        ("tue from 4 to 6 pm", "Tue from 4:00 pm to 6:00 pm"),
        ("between 4 and 6 pm", "any day from 4:00 pm to 6:00 pm"),
        ("weekends", "Sat or Sun"),
        ("weekdays after 3:30", "Mon, Tue, Wed, Thu, or Fri after 3:30 pm"),
        ("any day after 16:00", "any day after 4:00 pm"),
        ("tue afternoon", "Tue from 12:00 pm to 6:00 pm"),
        ("sat morning", "Sat from 7:00 am to 12:00 pm"),
        ("tue & thu before 6", "Tue or Thu before 6:00 pm"),
        ("tue 4pm", "Tue at 4:00 pm"),
        ("tue 4pm or later", "Tue after 4:00 pm"),
        ("tue after 4pm or thu after 5pm", "Tue after 4:00 pm, Thu after 5:00 pm"),
        ("mon, wed, fri after 5 pm", "Mon, Wed, or Fri after 5:00 pm"),
        ("mon 4-6pm 45m", "Mon from 4:00 pm to 6:00 pm, 45 min"),
        ("after 4", "any day after 4:00 pm"),
        ("from jan 12", "from Tue, January 12, 2027"),
        ("45 min", "45 min"),
    ],
)
def test_typed_times_are_said_back(typed, said):
    assert wishes_words(read_wishes(typed, TODAY), 12, TODAY) == said
    assert is_wish(typed, TODAY)


@pytest.mark.parametrize(
    "typed",
    [
        "8",
        "june",
        "may",
        "12/3",
        "a friend",
        "from a friend",
        "phoenix",
        "may bell",
        "nora 8",
        "not mondays",
        "",
        "cello",
        "tue or thu after 4pm phoenix",
    ],
)
def test_what_says_more_or_nothing_of_times_is_none(typed):
    assert not is_wish(typed, TODAY)


def test_a_word_that_is_not_understood_is_named():
    with pytest.raises(BadInput, match='"blursday" is not understood'):
        read_wishes("tue or blursday", TODAY)


def fits(typed: str, zone: str = "America/Phoenix", gap: WeeklyGap = FIVE):
    """From which date until which one wishes suit a place in the week; with the time where it is a later one."""
    wishes = read_wishes(typed, TODAY) if typed else Wishes()
    lesson = WantedLesson(wishes=wishes, minutes=wishes.minutes or gap.minutes, zone=zone)
    fit = fit_of(gap, lesson, CLOCK.date_of, always)
    if fit is None:
        return None
    at = CLOCK.local(fit.starts_at).time()
    return (fit.from_on, fit.until_on) if at == gap.at else (at, fit.from_on, fit.until_on)


def always(starts_at: datetime, minutes: int, zone: str) -> bool:
    return True


def test_a_weekly_time_fits_until_a_clock_moves_it_out_of_the_wish():
    """Computed with tzdata 2026f: Tue 5:00 pm in Chicago is 4:00 pm in Phoenix in winter, 3:00 pm from March 14, 2027 on."""
    assert fits("tue after 4 pm, 45m") == (date(2026, 12, 1), date(2027, 3, 9))


@pytest.mark.parametrize(
    ("typed", "zone", "fit"),
    [
        ("tue after 3 pm", "America/Phoenix", (date(2026, 12, 1), None)),
        ("tue after 5 pm", "America/Phoenix", None),
        ("tue before 4 pm", "America/Phoenix", (date(2027, 3, 16), date(2027, 11, 2))),
        ("wed", "America/Phoenix", None),
        ("wed before 9 am", "Asia/Kolkata", (date(2026, 12, 1), None)),
        ("tue, 60m", "America/Chicago", None),
        ("tue, 30m", "America/Chicago", (date(2026, 12, 1), None)),
        ("tue after 5:10 pm, 30m", "America/Chicago", (time(17, 15), date(2026, 12, 1), None)),
        ("tue, from june", "America/Chicago", (date(2027, 6, 1), None)),
        ("tue 5pm", "America/Chicago", (date(2026, 12, 1), None)),
        ("30m", "America/Chicago", (date(2026, 12, 1), None)),
        ("", "America/Phoenix", (date(2026, 12, 1), None)),
    ],
)
def test_a_wish_is_held_against_every_week_on_their_clock(typed, zone, fit):
    assert fits(typed, zone) == fit


def test_of_the_starts_in_a_long_place_the_one_that_suits_longest_is_told():
    long = replace(FIVE, minutes=120)
    assert fits("tue after 4 pm, 30m", gap=long) == (time(18), date(2026, 12, 1), None)
    assert fits("tue from 4 to 4:45 pm, 30m", gap=long) == (date(2026, 12, 1), date(2027, 3, 9))


ZONES = st.sampled_from(
    ["America/Chicago", "America/Phoenix", "Europe/London", "Asia/Kolkata", "Australia/Lord_Howe", "America/St_Johns"]
)


@given(
    st.dates(date(2026, 1, 1), date(2028, 1, 1)),
    st.integers(28, 80),
    st.sampled_from([30, 45, 60, 75, 90]),
    st.sampled_from([30, 45, 60]),
    st.tuples(st.integers(24, 80), st.integers(2, 16)),
    st.frozensets(st.integers(0, 6), max_size=3),
    st.tuples(ZONES, ZONES),
    st.integers(0, 60),
)
def test_who_fits_is_what_each_week_of_a_year_says_by_itself(first, at, room, minutes, hours, days, zones, taken):
    """Held against every week with zoneinfo alone: whatever is told fits, nothing longer does, and nothing that suits before."""
    hers, theirs = map(ZoneInfo, zones)
    begins, ends = (time(q // 4, q % 4 * 15) for q in (hours[0], hours[0] + hours[1] - 1))
    gap = WeeklyGap(first=first, at=time(at // 4, at % 4 * 15), minutes=room, zone=zones[0])
    wishes = Wishes(times=(Wish(weekdays=days, begins=begins, ends=ends),))
    busy = {(first + timedelta(weeks=taken))}  # a week in which somebody else has that time

    def is_free(starts_at, _minutes, _zone):
        return starts_at.astimezone(hers).date() not in busy

    def suits(later, week):
        local = datetime.combine(first, gap.at, hers) + timedelta(weeks=week, minutes=later)
        there = local.astimezone(UTC).astimezone(theirs)
        over = datetime.combine(there.date(), there.time()) + timedelta(minutes=minutes)
        is_day = not days or there.weekday() in days
        return (
            is_day
            and begins <= there.time()
            and over <= datetime.combine(there.date(), ends)
            and local.date() not in busy
        )

    steps = range(0, room - minutes + 1, 15)
    found = fit_of(
        gap,
        WantedLesson(wishes=wishes, minutes=minutes, zone=zones[1]),
        lambda moment: moment.astimezone(hers).date(),
        is_free,
    )
    weeks = {later: [suits(later, week) for week in range(53)] for later in steps}
    if found is None:
        assert not any(map(any, weeks.values()))
        return
    earliest = min(each.index(True) for each in weeks.values() if any(each))
    local = found.starts_at.astimezone(hers)
    later = (datetime.combine(date.min, local.time()) - datetime.combine(date.min, gap.at)) // timedelta(minutes=1)
    assert found.from_on == local.date() == first + timedelta(weeks=earliest)
    runs = {step: _run(each, earliest) for step, each in weeks.items() if each[earliest]}
    assert runs[later] == max(runs.values())
    last = earliest + runs[later] - 1
    assert found.until_on == (None if last == 52 else first + timedelta(weeks=last))


def _run(weeks: list[bool], begins: int) -> int:
    """How many weeks in a row suit."""
    return next((week - begins for week in range(begins, len(weeks)) if not weeks[week]), len(weeks) - begins)
