"""What stands beside the chosen lesson below the grid of a week."""

from datetime import date, timedelta

import pytest
from rich.cells import cell_len
from support.studio import CLOCK, NALANI, TEODOR, booking, home

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.calendar.week_grid import Cell, grid_rows, grid_view
from cockpit.screens.calendar.week_panels import free_words, not_as_usual, panels
from cockpit.screens.calendar.week_rows import Looked
from cockpit.studio.lessons.breaks import Break, BreakId, LeftOut
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome
from cockpit.studio.values import replace

MONDAY = date(2026, 11, 30)
NOON = Looked(now=home("2026-12-01 12:00"), home=CLOCK)


def at(day: int, time: str):
    return home(f"{MONDAY + timedelta(days=day):%Y-%m-%d} {time}")


def day(number: int, *free: tuple[str, str], bookings=(), left_out=()):
    """A day of the week on which she teaches from 9 to 18."""
    return DayOfWeek(
        on=MONDAY + timedelta(days=number),
        bookings=bookings,
        left_out=left_out,
        gaps=tuple((at(number, begins), at(number, ends)) for begins, ends in free),
        hours=((at(number, "09:00"), at(number, "18:00")),),
    )


USUAL = booking(TEODOR, starts_at=at(3, "16:00"))
MAKE_UP = booking(id=LessonId("m"), starts_at=at(2, "15:00"), kind=Kind.MAKE_UP)
CALLED_OFF = booking(NALANI, starts_at=at(1, "10:00"), outcome=Outcome.CALLED_OFF)
HOLIDAY = LeftOut(
    booking=booking(id=LessonId("b"), starts_at=at(4, "11:00")),
    because=Break(id=BreakId(1), from_on=MONDAY, until_on=MONDAY + timedelta(days=6), reason="family day"),
)
WEEK = [
    day(0, ("09:00", "18:00")),
    day(1, ("09:00", "14:00"), ("14:30", "16:00"), bookings=(CALLED_OFF,)),
    day(2, ("09:00", "11:30"), ("11:45", "13:15"), ("17:00", "18:00"), bookings=(MAKE_UP,)),
    day(3, ("09:00", "18:00"), bookings=(USUAL,)),
    day(4, left_out=(HOLIDAY,)),
]


def drawn(width: int, height: int) -> list[str]:
    rows = [row.plain.rstrip() for row in panels(WEEK, NOON, width, height)]
    assert len(rows) <= height
    assert all(cell_len(row) <= width for row in rows)
    return rows


def test_only_what_is_not_as_usual_is_told_in_order():
    assert [(sign, who, when, what) for sign, _, who, when, what in not_as_usual(WEEK, NOON)] == [
        ("×", "Nalani", "Tue 10:00 am", "called off"),
        ("○", "Ilse", "Wed 3:00 pm", "make-up"),
        ("╱", "Ilse", "Fri 11:00 am", "on break: family day"),
    ]


def test_free_times_begin_with_now_and_are_told_from_or_until_where_her_hours_begin_or_end():
    assert free_words(WEEK, NOON) == [
        "Tue 12:00 to 2:00 pm, 2:30 to 4:00 pm",
        "Wed until 11:30 am, 11:45 am to 1:15 pm, from 5:00 pm",
        "Thu all day",
    ]


def test_both_panels_stand_below_one_another_and_say_where_they_had_no_room():
    assert drawn(60, 9) == [
        "NOT AS USUAL ───────────────────────────────────────────────",
        "  × Nalani  Tue 10:00 am  called off",
        "  ○ Ilse    Wed 3:00 pm   make-up",
        "  ╱ Ilse    Fri 11:00 am  on break: family day",
        "",
        "FREE ───────────────────────────────────────────────────────",
        "  Tue 12:00 to 2:00 pm, 2:30 to 4:00 pm",
        "  Wed until 11:30 am, 11:45 am to 1:15 pm, from 5:00 pm",
        "  Thu all day",
    ]
    assert drawn(60, 5) == [
        "NOT AS USUAL ───────────────────────────────────────────────",
        "  × Nalani  Tue 10:00 am  called off",
        "    2 more",
        "FREE ───────────────────────────────────────────────────────",
        "  Tue 12:00 to 2:00 pm, 2:30 to 4:00 pm   Wed until…",
    ]


@pytest.mark.parametrize("height", range(12))
@pytest.mark.parametrize("width", [30, 52, 72])
def test_no_panel_is_wider_or_higher_than_its_room(width, height):
    drawn(width, height)


@pytest.mark.parametrize(("rows", "has_panels"), [(24, False), (25, False), (26, True), (60, True)])
def test_the_grid_has_them_beside_the_chosen_lesson_where_there_are_rows_for_them(rows, has_panels):
    week = [*WEEK, day(5), day(6)]
    view = grid_view(week, NOON, 148, rows)
    told = [row.plain for row in grid_rows(view, Cell(day=2, half_hour=30), None)]
    assert len(told) <= rows
    assert any("NOT AS USUAL" in row for row in told) is has_panels
    chosen = next(row for row in told if "CHOSEN" in row)
    assert ("NOT AS USUAL" in chosen) is has_panels


def test_facts_of_the_chosen_lesson_stand_below_it_where_there_are_rows_for_them():
    facts = (("weekly", "Wed 3:00 pm since September 2"), ("asked", "4 open, oldest 3 weeks"))
    for rows, are_told in ((25, False), (26, True)):
        view = replace(grid_view([*WEEK, day(5), day(6)], NOON, 148, rows), facts=lambda _: facts)
        booking = next(each for one in WEEK for each in one.bookings if each.lesson.is_open)
        told = "\n".join(row.plain[:72] for row in grid_rows(view, view.cell_of(booking), None))
        assert ("weekly  Wed 3:00 pm since September 2" in told) is are_told
        assert ("asked   4 open, oldest 3 weeks" in told) is are_told
