"""The week as a grid: every lesson in its cell, the cursor from cell to cell, a lesson carried to another one."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.screens import on_screen
from support.studio import HOME, TEODOR, booking, home
from textual.color import Color

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.calendar.week import WeekScreen
from cockpit.screens.calendar.week_grid import Cell, WeekGrid, grid_rows, grid_view
from cockpit.screens.calendar.week_rows import Looked
from cockpit.screens.day.day import DayScreen
from cockpit.screens.look.legible import LEAST, contrast
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.textual_parts.heading import Title
from cockpit.screens.typed_times.line import LineScreen
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.breaks import Break, BreakId, LeftOut
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.values import replace

MONDAY = date(2026, 11, 30)
ELSEWHERE = Cell(day=6, half_hour=0)
NOON = home("2026-12-01 12:00")


def week_of(*bookings, monday=MONDAY, gaps=(), left_out=()):
    clock = TeacherClock(zone=HOME)
    return [
        DayOfWeek(
            on=on,
            bookings=tuple(b for b in bookings if clock.date_of(b.lesson.starts_at) == on),
            left_out=tuple(each for each in left_out if clock.date_of(each.booking.lesson.starts_at) == on),
            gaps=gaps if on == monday else (),
        )
        for on in (monday + timedelta(days=day) for day in range(7))
    ]


def looked(now=NOON, hours=12):
    return Looked(now=now, home=TeacherClock(zone=HOME, hours=hours))


def starts_at(opened, student):
    """When a student's lesson of the sample's week begins."""
    week = opened.studio.desk.ahead.week(MONDAY)
    return next(b.lesson.starts_at for day in week for b in day.bookings if b.student.name == student)


def drawn(view, cell=ELSEWHERE, carried=None) -> list[str]:
    return [row.plain for row in grid_rows(view, cell, carried)]


@given(
    starts=st.lists(st.integers(0, 7 * 24 * 4 - 1), min_size=1, max_size=12, unique=True),
    monday=st.sampled_from([MONDAY, date(2026, 3, 2), date(2026, 3, 9), date(2026, 10, 26), date(2026, 11, 2)]),
    width=st.integers(108, 200),
    hours=st.sampled_from([12, 24]),
)
def test_every_lesson_is_in_the_cell_of_its_time_and_no_row_is_wider_than_the_grid(starts, monday, width, hours):
    # 8 March and 1 November 2026: the clock of Chicago changes (IANA tzdata; the US rule of 2007).
    clock = TeacherClock(zone=HOME)
    midnight = clock.day_bounds(monday)[0]
    bookings = [
        booking(id=LessonId(f"n{start}"), starts_at=midnight + timedelta(minutes=15 * start))
        for start in sorted(starts)
    ]
    bookings = [b for b in bookings if clock.date_of(b.lesson.starts_at) < monday + timedelta(days=7)]
    view = grid_view(week_of(*bookings, monday=monday), looked(hours=hours), width, 60)
    if not bookings:
        return
    assert view is not None
    rows = drawn(view)
    assert all(cell_len(row) <= width for row in rows)
    for each in bookings:
        local = clock.local(each.lesson.starts_at)
        column = view.column(local.weekday())
        cell = rows[1 + local.hour * 2 + local.minute // 30 - view.first][column : column + view.column_width]
        assert each.student.name[:3] in cell
        assert view.cell_of(each) == Cell(day=local.weekday(), half_hour=local.hour * 2 + local.minute // 30)


def test_a_day_is_named_over_its_signs_and_a_long_name_has_room_beside_its_minutes():
    named = booking(starts_at=home("2026-12-04 10:00"))
    named = replace(named, student=replace(named.student, name="Marguerite"))
    days, *rows = drawn(grid_view(week_of(named), looked(), 148, 60))
    row = next(row for row in rows if "Marguerite" in row)
    assert row.index("○") == days.index("FRI 4")
    assert "○ Marguerite 30" in row


def test_the_line_of_now_leads_to_the_lesson_that_runs_also_under_the_cursor():
    lesson = booking(starts_at=home("2026-12-01 16:00"), began_at=home("2026-12-01 16:00"))
    view = grid_view(week_of(lesson), looked(home("2026-12-01 16:12")), 148, 60)
    for cell in (ELSEWHERE, view.cell_of(lesson)):
        row = next(row for row in drawn(view, cell) if row.startswith(" 4:12"))
        line, _ = row.split("▶ Ilse")
        assert set(line.removeprefix(" 4:12").strip()) == {"─"}
        assert line.endswith("─ ")


def test_a_lesson_is_as_long_as_it_lasts_and_a_quarter_past_is_told():
    lesson = booking(starts_at=home("2026-12-01 16:15"))
    view = grid_view(week_of(lesson), looked(), 150, 60)
    column = view.column(1)
    begins = 1 + 32 - view.first
    rows = [row[column : column + view.column_width].rstrip() for row in drawn(view)[begins : begins + 3]]
    assert rows[0].split() == [":15", "○", "Ilse", "30"]
    assert rows[1].split() == ["┃"]
    assert rows[2] == ""


def test_two_lessons_that_begin_in_one_half_hour_need_her_and_both_are_told_when_chosen():
    first, second = booking(starts_at=home("2026-12-03 16:00")), booking(TEODOR, starts_at=home("2026-12-03 16:15"))
    view = grid_view(week_of(first, second), looked(), 150, 60)
    rows = drawn(view, Cell(day=3, half_hour=32))
    assert any("! Ilse" in row for row in drawn(view))
    assert any(row.strip().startswith("○ Ilse") for row in rows[-2:])
    assert any(row.strip().startswith("○ Teodor") for row in rows[-2:])


def test_a_day_off_is_hatched_and_free_time_is_told_of_the_chosen_cell():
    off = Break(id=BreakId(9), from_on=MONDAY + timedelta(days=6), until_on=MONDAY + timedelta(days=6), reason="away")
    sunday = LeftOut(booking=booking(starts_at=home("2026-12-06 16:00")), because=off)
    gap = (home("2026-11-30 10:00"), home("2026-11-30 12:00"))
    view = grid_view(week_of(gaps=(gap,), left_out=(sunday,)), looked(), 150, 60)
    assert "╱" * (view.column_width - 1) in drawn(view)[1][view.column(6) :]
    assert "10:30 am   free" in drawn(view, Cell(day=0, half_hour=21))[-1]
    assert "12:00 pm   not free" in drawn(view, Cell(day=0, half_hour=24))[-1]


@pytest.mark.parametrize(("width", "rows"), [(107, 60), (150, 5)])
def test_where_a_grid_does_not_fit_there_is_none(width, rows):
    assert grid_view(week_of(booking()), looked(), width, rows) is None


def test_the_cursor_walks_from_cell_to_cell_and_off_the_last_day_into_the_next_week(tmp_path):
    async def steps(opened):
        await opened.press("ctrl+a")
        screen = opened.app.screen
        assert isinstance(screen, WeekScreen)
        grid = screen.query_one(WeekGrid)
        assert grid.display
        assert grid.chosen.student.name == "Ilse"
        await opened.press("right", "up")
        assert grid.chosen.student.name == "Wren"
        await opened.press(*["right"] * 5)
        assert screen.query_one(Title).said == "December 7 to December 13, 2026"
        assert grid.cell == Cell(day=0, half_hour=31)
        await opened.press("left")
        assert grid.cell == Cell(day=6, half_hour=31)
        await opened.press("pagedown", "t")
        assert grid.chosen.student.name == "Ilse"
        await opened.press("down", "down", "enter")
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == "Mireille"

    on_screen(tmp_path, steps, size=(150, 45))


def test_a_lesson_is_carried_to_a_cell_told_on_both_clocks_and_moved_there(tmp_path):
    async def steps(opened):
        await opened.press("ctrl+a", "down", "down", "m")
        assert "CARRYING" in opened.drawn()
        await opened.press("right", "right", "right", "up", "up", "up", "up")
        assert "Mireille's lesson goes to Fri, December 4, 3:00 pm" in opened.drawn()
        await opened.press("enter")
        assert isinstance(opened.app.screen, LineScreen)
        assert "5:30 pm St. John's" in opened.drawn()
        await opened.press("enter")
        assert starts_at(opened, "Mireille") == home("2026-12-04 15:00")
        await opened.press("f4")
        assert starts_at(opened, "Mireille") == home("2026-12-01 16:45")
        await opened.press("m", "escape")
        assert isinstance(opened.app.screen, WeekScreen)
        assert "CARRYING" not in opened.drawn()
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)

    on_screen(tmp_path, steps, size=(150, 45))


def test_lessons_lie_on_two_grounds_in_turn_on_which_every_word_of_them_can_be_read():
    on_tuesday = [booking(TEODOR, id=LessonId(f"x{n}"), starts_at=home(f"2026-12-01 {14 + n}:00")) for n in range(3)]
    view = grid_view(week_of(*on_tuesday), looked(), 148, 40)
    rows = [row.markup for row in grid_rows(view, ELSEWHERE, None)]
    grounds = [share for row in rows for share in ("13%", "7%") if f"on $role-text {share}" in row]
    assert grounds[:3] == ["13%", "7%", "13%"]
    for look in bundled_looks().values():
        for share in (0.13, 0.07):
            ground = Color.parse(look.colors["pane"]).blend(Color.parse(look.colors["text"]), share).hex
            for role in ("text", "quiet", "finished", "clock_running", "clock_over", "warning", "absent", "cancelled"):
                assert contrast(look.colors[role], ground) >= LEAST, (look.name, role, share)
