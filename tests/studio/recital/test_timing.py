"""When the items of a recital are played. The eight items were worked out by hand; limits and changeovers are common practice, no source."""

from datetime import timedelta

from hypothesis import given
from hypothesis import strategies as st
from support.studio import home, utc

from cockpit.studio.recital.timing import RecitalFrame, recital_times

NOON = home("2026-12-19 12:00")
EIGHT = (90, 120, 135, 120, 180, 210, 300, 240)
TWELVE = tuple(60 * minutes for minutes in (2, 2, 3, 3, 3, 4, 4, 5, 5, 6, 7, 8))


def test_eight_items_start_to_the_second_behind_a_welcome_of_three_minutes():
    frame = RecitalFrame(starts_at=NOON, changeover=60, opening=180, closing=120, minutes_limit=60)
    times = recital_times(EIGHT, frame)
    begun = [f"{each.starts_at - NOON}"[2:] for each in times.items]
    assert begun == ["03:00", "05:30", "08:30", "11:45", "14:45", "18:45", "23:15", "29:15"]
    assert times.closing_at == NOON + timedelta(minutes=33, seconds=15)
    assert times.ends_at == NOON + timedelta(minutes=35, seconds=15)
    assert (times.music, times.left) == (23 * 60 + 15, 24 * 60 + 45)


def test_twelve_pieces_of_52_minutes_have_eleven_changeovers():
    minute, longer = (recital_times(TWELVE, RecitalFrame(starts_at=NOON, changeover=each)) for each in (60, 90))
    assert (minute.music, minute.total, longer.total) == (52 * 60, 63 * 60, 68 * 60 + 30)
    assert minute.left is None


def test_a_recital_that_is_too_long_is_so_many_seconds_over():
    times = recital_times(TWELVE, RecitalFrame(starts_at=NOON, changeover=90, minutes_limit=60))
    assert times.left == -(8 * 60 + 30)


def test_without_items_there_are_a_welcome_and_thanks():
    times = recital_times((), RecitalFrame(starts_at=NOON, opening=180, closing=120))
    assert (times.items, times.music, times.total) == ((), 0, 300)
    assert times.closing_at == NOON + timedelta(minutes=3)


def test_a_clock_change_in_between_makes_nothing_longer():
    before = utc("2026-11-01 06:55")  # five minutes before Chicago's clocks go back
    times = recital_times((600, 600), RecitalFrame(starts_at=before, changeover=60))
    assert times.ends_at - before == timedelta(minutes=21)


@given(st.lists(st.integers(1, 3600), max_size=60), st.integers(0, 300), st.integers(0, 900), st.integers(0, 900))
def test_the_items_lie_end_to_end_with_a_changeover_between_each_two(seconds, changeover, opening, closing):
    frame = RecitalFrame(starts_at=NOON, changeover=changeover, opening=opening, closing=closing)
    times = recital_times(seconds, frame)
    assert [(each.ends_at - each.starts_at).seconds for each in times.items] == seconds
    assert times.total == sum(seconds) + changeover * max(0, len(seconds) - 1) + opening + closing
    assert all(
        (behind.starts_at - before.ends_at).seconds == changeover
        for before, behind in zip(times.items, times.items[1:], strict=False)
    )
