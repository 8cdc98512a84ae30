"""The rows of the queue, looked at without a screen."""

from datetime import timedelta

import pytest
from support.studio import CLOCK, CUES, DAY, ILSE, MIREILLE, STARTS_AT, TEODOR, back_to_back, booking, home

from cockpit.screens.day.queue_rows import DayAfter, QueueView, queue_rows
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.values import replace

MINUTE = timedelta(minutes=1)
HOURS = [(STARTS_AT - 60 * MINUTE, STARTS_AT + 600 * MINUTE)]
NIGHT = home("2026-12-01 21:00")
TOMORROW = DayAfter(
    free=[(STARTS_AT + 75 * MINUTE, NIGHT)],
    on=DAY + timedelta(days=1),
    bookings=[
        booking(TEODOR, starts_at=home("2026-12-02 11:30")),
        booking(starts_at=home("2026-12-02 15:00"), kind=Kind.MAKE_UP),
    ],
)


def wide(height, after=TOMORROW, **values):
    """The queue of Ilse and Teodor, who have 30 and 45 minutes, in so many rows of a wide screen."""
    bookings = back_to_back(30, 45)
    view = QueueView(
        bookings=bookings, now=STARTS_AT - MINUTE, home=CLOCK, wrap_up_minutes=CUES, shown_id=None, fates={}, width=37,
        height=height, hours=HOURS, after=after,
    )  # fmt: skip
    view = replace(view, **values)
    rows = "\n".join(row.plain for row in queue_rows(view).values()).split("\n")
    assert len(rows) <= height
    return [row.rstrip() for row in rows]


LESSONS = [
    "  4:00 pm ○ Ilse    cello   30",
    "          ┃ 3:00 pm Phoenix",
    "  4:30    ○ Teodor  guitar  45",
    "          ┃ 10:30 pm London",
    "          ┃",
]
NEXT_DAY = [
    "",
    " TOMORROW ───────────────── 2 lessons",
    " 11:30 am ○ Teodor  guitar  30",
    "  3:00 pm ○ Ilse    30  make-up",
]


def test_below_the_lessons_stand_the_free_time_to_scale_and_the_day_after():
    rows = wide(60)
    tail = rows[len(LESSONS) : -len(NEXT_DAY)]
    assert rows[: len(LESSONS)] == LESSONS
    assert rows[-len(NEXT_DAY) :] == NEXT_DAY
    assert tail[0] == "  5:15    ┊ free until 9:00"
    assert tail[1:-1] == ["          ┊"] * (3 * 4 + 3 - 1)
    assert tail[-1] == "  9:00 pm ╵"


def test_with_less_room_the_free_time_takes_a_row_and_the_day_after_ends_with_how_many_more_there_are():
    free = ["  5:15    ┊ free until 9:00"]
    assert wide(20)[len(LESSONS) :] == [*free, *NEXT_DAY]
    assert wide(9)[len(LESSONS) :] == [*free, *NEXT_DAY[:2], "            2 more"]
    assert wide(8)[len(LESSONS) :] == free
    assert wide(5) == LESSONS
    assert wide(20, after=None) == LESSONS


def test_what_is_not_as_planned_on_the_day_after_is_told_in_place_of_the_instrument():
    called_off = replace(TOMORROW.bookings[0], lesson=replace(TOMORROW.bookings[0].lesson, outcome=Outcome.CANCELLED))
    after = replace(TOMORROW, bookings=[called_off])
    assert wide(20, after=after)[-1] == " 11:30 am × Teodor  canceled"


def test_a_day_without_lessons_and_one_that_is_not_tomorrow_have_their_names():
    rows = wide(20, after=replace(TOMORROW, on=DAY + timedelta(days=4), bookings=[]))
    assert rows[-1] == " SAT, DECEMBER 5 ───────── no lessons"
    assert wide(20, bookings=[]) == NEXT_DAY


def test_time_that_is_over_is_not_free_any_more():
    assert not [row for row in wide(20, now=NIGHT) if "free until" in row]


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
        hours=HOURS,
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


@pytest.mark.parametrize(
    ("hours", "said"),
    [
        ([(-60, 600)], "free 120 min"),
        ([(-60, 30), (105, 600)], "free 45 min"),  # a noon between her hours
        ([(-60, 40), (140, 600)], "outside your hours"),
        ([], "outside your hours"),
    ],
)
def test_only_what_lies_in_her_teaching_hours_is_called_free(hours, said):
    bookings = [booking(), booking(TEODOR, starts_at=STARTS_AT + 150 * MINUTE)]
    assert bookings[0].lesson.minutes == 30
    view = QueueView(
        bookings=bookings,
        now=STARTS_AT,
        home=CLOCK,
        wrap_up_minutes=CUES,
        shown_id=None,
        fates={},
        width=40,
        height=3,
        hours=[(STARTS_AT + first * MINUTE, STARTS_AT + last * MINUTE) for first, last in hours],
    )
    _, between, _ = queue_rows(view).values()
    assert between.plain.split("\u250a ")[1].rstrip() == said


def test_of_two_who_share_a_lesson_the_second_has_a_sign_and_no_time_of_its_own():
    bookings = [replace(booking(who), shares=7) for who in (ILSE, TEODOR)]
    view = QueueView(
        bookings=[*bookings, booking(MIREILLE, starts_at=STARTS_AT + 60 * MINUTE)],
        now=STARTS_AT - MINUTE,
        home=CLOCK,
        wrap_up_minutes=CUES,
        shown_id=None,
        fates={},
        width=37,
        height=30,
        hours=[(STARTS_AT, STARTS_AT + 600 * MINUTE)],
    )
    rows = [row.plain.rstrip() for row in queue_rows(view).values()]
    assert rows[0].startswith("  4:00 ○ Ilse")
    assert rows[1].startswith("     └ ○ Teodor")
    assert rows[2] == "  4:30 ┊ free 30 min"
    alone = queue_rows(replace(view, bookings=[bookings[0], replace(bookings[1], shares=None)]))
    assert [row.plain[:6] for row in alone.values()] == ["  4:00", "  4:00"]
