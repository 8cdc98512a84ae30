"""What a student is on a day: a function of weekly times, pauses, and lessons."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import ILSE, lesson, standing

from cockpit.studio.lessons.breaks import Pause, PauseId
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.status import Status, status_of
from cockpit.studio.lessons.weekly_times import StandingTimeId
from cockpit.studio.values import replace

DAY = timedelta(days=1)
DECEMBER = date(2026, 12, 1)
TRIAL = lesson(kind=Kind.TRIAL, standing_time_id=None)
PAUSE = Pause(id=PauseId(1), student_id=ILSE.id, from_on=date(2027, 6, 1), until_on=date(2027, 8, 31))
AUTUMN = standing(from_on=date(2026, 9, 1), until_on=None)


@pytest.mark.parametrize(
    ("on", "times", "pauses", "lessons", "status"),
    [
        (DECEMBER, [], [], [], Status.ASKED),
        (DECEMBER, [], [], [TRIAL], Status.TRIAL),
        (DECEMBER, [], [], [replace(TRIAL, outcome=Outcome.ABSENT)], Status.TRIAL),
        (DECEMBER, [], [], [replace(TRIAL, outcome=Outcome.CALLED_OFF)], Status.ASKED),
        (DECEMBER, [], [], [lesson(kind=Kind.EXTRA)], Status.ACTIVE),
        (date(2026, 8, 31), [AUTUMN], [], [TRIAL], Status.BEGINS),
        (date(2026, 9, 1), [AUTUMN], [], [TRIAL], Status.ACTIVE),
        (date(2027, 5, 31), [AUTUMN], [PAUSE], [], Status.ACTIVE),
        (date(2027, 6, 1), [AUTUMN], [PAUSE], [], Status.PAUSED),
        (date(2027, 8, 31), [AUTUMN], [PAUSE], [], Status.PAUSED),
        (date(2027, 9, 1), [AUTUMN], [PAUSE], [], Status.ACTIVE),
        (date(2029, 9, 1), [AUTUMN], [replace(PAUSE, until_on=None)], [], Status.PAUSED),
        (date(2027, 7, 1), [replace(AUTUMN, until_on=date(2027, 6, 15))], [PAUSE], [], Status.ENDED),
        (date(2027, 6, 10), [replace(AUTUMN, until_on=date(2027, 6, 15))], [PAUSE], [], Status.PAUSED),
        (DECEMBER, [standing(from_on=None, until_on=None)], [], [], Status.ACTIVE),
        (DECEMBER, [standing(from_on=None, until_on=DECEMBER)], [], [], Status.ACTIVE),
        (DECEMBER + DAY, [standing(from_on=None, until_on=DECEMBER)], [], [], Status.ENDED),
        # A weekly time that was ended before its first lesson never was.
        (DECEMBER, [replace(AUTUMN, until_on=date(2026, 8, 1))], [], [TRIAL], Status.TRIAL),
    ],
)
def test_the_status_on_a_day(on, times, pauses, lessons, status):
    assert status_of(on, times, pauses, lessons) is status


days = st.dates(date(2026, 6, 1), date(2027, 12, 31))
some_time = st.builds(
    lambda number, weekday, from_on, length: standing(
        id=StandingTimeId(number),
        weekday=weekday,
        from_on=from_on,
        until_on=None if length is None or from_on is None else from_on + length * DAY,
    ),
    st.integers(1, 9),
    st.integers(0, 6),
    st.none() | days,
    st.none() | st.integers(0, 400),
)
some_pause = st.builds(
    lambda number, on, length: Pause(
        id=PauseId(number), student_id=ILSE.id, from_on=on, until_on=None if length is None else on + length * DAY
    ),
    st.integers(1, 9),
    days,
    st.none() | st.integers(0, 120),
)
times, pauses = st.lists(some_time, max_size=3), st.lists(some_pause, max_size=2)


@given(days, times, pauses)
def test_neither_the_order_nor_what_is_over_by_then_of_a_pause_changes_it(on, times, pauses):
    status = status_of(on, times, pauses)
    assert status_of(on, times[::-1], pauses[::-1]) is status
    assert status_of(on, times, [each for each in pauses if each.from_on <= on <= each.last_on]) is status
    assert (status is Status.PAUSED) is (
        status_of(on, times) is Status.ACTIVE and status_of(on, times, pauses) is not Status.ACTIVE
    )


@given(days, st.lists(some_time, min_size=1, max_size=3), pauses, st.integers(1, 60))
def test_an_end_that_is_undone_leaves_nothing_of_it(on, times, pauses, later):
    before = status_of(on + later * DAY, times, pauses)
    ended = [replace(each, until_on=min(each.until_on or date.max, on)) for each in times]
    assert status_of(on + later * DAY, ended, pauses) in {Status.ENDED, Status.ASKED}
    again = [replace(each, until_on=was.until_on) for each, was in zip(ended, times, strict=True)]
    assert status_of(on + later * DAY, again, pauses) is before


@given(days, times, pauses, st.integers(1, 60))
def test_a_later_weekly_time_of_one_who_ended_begins_and_then_is_active(on, times, pauses, later):
    ended = [replace(each, until_on=min(each.until_on or date.max, on - DAY)) for each in times]
    new = standing(id=StandingTimeId(99), from_on=on + later * DAY)
    assert status_of(on, [*ended, new], pauses) is Status.BEGINS
    assert status_of(on + later * DAY, [*ended, new]) is Status.ACTIVE
    assert status_of(on, ended, pauses) in {Status.ENDED, Status.ASKED}


@given(days, times)
def test_a_pause_is_nothing_to_one_who_has_no_weekly_time_then(on, times):
    always = Pause(id=PauseId(1), student_id=ILSE.id, from_on=date(2026, 1, 1))
    status = status_of(on, times)
    assert status_of(on, times, [always]) is (Status.PAUSED if status is Status.ACTIVE else status)
