"""Minutes that a lost call costs: whole minutes of the UTC clock, as the clocks on both walls show them."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import CUES, ILSE, STARTS_AT, TEODOR, booking, home, lesson

from cockpit.studio.clocks.moments import local_time
from cockpit.studio.errors import Refused
from cockpit.studio.lessons.calls import CallLoss, Settled, lost_in, minutes_lost, owed_by_student
from cockpit.studio.lessons.countdown import Phase, read_clock
from cockpit.studio.lessons.lesson import LessonId, Outcome, close_untaught, give_full_length, give_more
from cockpit.studio.lessons.pacing import USUAL, pacing_of
from cockpit.studio.values import replace

MINUTE = timedelta(minutes=1)
ENDS = STARTS_AT + 30 * MINUTE


def loss(lost: str, back: str | None = None, **more) -> CallLoss:
    """A loss of Ilse's lesson between two times of the teacher's clock."""
    back_at = None if back is None else home(f"2026-12-01 {back}")
    return CallLoss(lesson_id=lesson().id, lost_at=home(f"2026-12-01 {lost}"), back_at=back_at, **more)


@pytest.mark.parametrize(
    ("lost", "back", "minutes"),
    [
        ("16:12", "16:19", 7),
        ("16:12:59", "16:19:01", 7),  # as the clock showed it
        ("16:12:01", "16:19:59", 7),
        ("16:12:05", "16:12:55", 0),
        ("16:12:50", "16:13:10", 1),
        ("16:12", None, 18),  # never back: until the lesson ends
        ("16:31", None, 0),  # over time: nothing of the lesson was lost
    ],
)
def test_minutes_are_those_between_the_two_times_as_a_clock_shows_them(lost, back, minutes):
    assert minutes_lost(loss(lost, back), ENDS) == minutes


def test_a_loss_over_a_clock_change_costs_the_minutes_that_passed():
    # Sunday 1 November 2026 in Chicago: 1:58 is before the change, 1:05 after it, seven minutes later.
    lost = CallLoss(
        lesson_id=lesson().id,
        lost_at=datetime(2026, 11, 1, 6, 58, tzinfo=UTC),
        back_at=datetime(2026, 11, 1, 7, 5, tzinfo=UTC),
    )
    assert [local_time(at, "America/Chicago").strftime("%H:%M") for at in (lost.lost_at, lost.back_at)] == [
        "01:58",
        "01:05",
    ]
    assert minutes_lost(lost, ENDS) == 7


@given(st.integers(0, 5_000), st.integers(0, 5_000), st.integers(0, 5_000))
def test_two_losses_with_no_minute_between_them_cost_as_much_as_one(first, second, third):
    at = [STARTS_AT + timedelta(seconds=each) for each in sorted((first, second, third))]
    whole, *parts = (CallLoss(lesson_id=lesson().id, lost_at=at[a], back_at=at[b]) for a, b in ((0, 2), (0, 1), (1, 2)))
    assert minutes_lost(whole, ENDS) == sum(minutes_lost(each, ENDS) for each in parts)


def test_losses_of_a_lesson_add_up_and_what_is_settled_counts_no_more():
    running = lesson(began_at=STARTS_AT)
    losses = [loss("16:02", "16:04"), loss("16:10", "16:15"), loss("16:20", "16:23", settled=Settled.LET_BE)]
    lost = lost_in(running, losses)
    assert lost is not None
    assert lost.minutes == 7
    assert lost_in(running, [loss("16:02", "16:02:40")]) is None
    assert lost_in(running, losses[2:]) is None


def test_owed_minutes_add_up_by_student_the_longest_owed_first():
    earlier = lesson(id=LessonId("w1-2026-11-24"), starts_at=STARTS_AT - timedelta(weeks=1))
    other = booking(TEODOR).lesson
    rows = [
        (replace(loss("16:12", "16:19"), lesson_id=earlier.id), earlier),
        (replace(loss("16:12", "16:13"), lesson_id=other.id), other),
        (loss("16:12", "16:17"), lesson()),
    ]
    owed = owed_by_student(rows, {ILSE.id: ILSE, TEODOR.id: TEODOR})
    assert [(each.student.name, each.minutes) for each in owed] == [("Ilse", 12), ("Teodor", 1)]
    assert owed[0].lost.lessons == (earlier, lesson())


def test_given_minutes_move_the_end_of_a_running_lesson_and_its_countdown():
    running = lesson(began_at=STARTS_AT)
    more = give_more(running, 7)
    assert more.ends_at == ENDS + 7 * MINUTE
    assert give_more(more, 2).ends_at == ENDS + 9 * MINUTE
    late = replace(running, began_at=STARTS_AT + 5 * MINUTE)
    assert give_more(give_full_length(late), 7).ends_at == ENDS + 12 * MINUTE
    face = read_clock([booking(began_at=STARTS_AT, more_minutes=7)], STARTS_AT, CUES)
    assert (face.phase, face.seconds, face.share) == (Phase.RUNNING, 37 * 60, 0.0)
    next_one = booking(TEODOR, starts_at=ENDS)
    assert read_clock([booking(began_at=STARTS_AT, more_minutes=7), next_one], ENDS, CUES).late[0].minutes == 7
    assert pacing_of(more, USUAL)[0][1] == STARTS_AT
    with pytest.raises(Refused, match="Only a running lesson"):
        give_more(lesson(), 7)


def test_a_lesson_that_was_not_taught_after_all_forgets_the_minutes():
    assert close_untaught(lesson(began_at=STARTS_AT, more_minutes=7), Outcome.ABSENT).more_minutes == 0
