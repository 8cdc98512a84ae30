"""The rows of the queue, looked at without a screen."""

from datetime import timedelta

import pytest
from support.studio import CLOCK, CUES, STARTS_AT, TEODOR, booking

from cockpit.screens.day.queue_rows import QueueView, queue_rows

MINUTE = timedelta(minutes=1)


def rows_at(minutes, width=37):
    """The rows of Ilse's running lesson and of Teodor's after it, so many minutes after she began."""
    bookings = [booking(began_at=STARTS_AT), booking(TEODOR, starts_at=STARTS_AT + 30 * MINUTE)]
    view = QueueView(
        bookings=bookings,
        now=STARTS_AT + minutes * MINUTE,
        home=CLOCK,
        wrap_up_minutes=CUES,
        shown_id=None,
        fates={},
        width=width,
        height=2,
    )
    return list(queue_rows(view).values())


@pytest.mark.parametrize(("minutes", "role"), [(1, "running"), (28, "wrap-up"), (31, "over")])
def test_the_row_of_the_running_lesson_has_the_color_of_the_figures(minutes, role):
    running, _ = rows_at(minutes)
    assert f"$role-clock-{role}" in running.markup
    assert all(f"$role-clock-{other}" not in running.markup for other in {"running", "wrap-up", "over"} - {role})


@pytest.mark.parametrize("minutes", [31, 45, 59])
def test_who_waits_is_told_with_all_the_minutes(minutes):
    _, waiting = rows_at(minutes, width=32)
    assert waiting.plain.rstrip() == f"  4:30 ! Teodor waits for {minutes - 30} min"
