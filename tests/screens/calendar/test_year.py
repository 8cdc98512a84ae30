"""The studio year: a sign a lesson, each student against the number promised, and lessons that are marked together."""

from datetime import date, timedelta

import pytest
from rich.cells import cell_len
from support.screens import on_screen
from support.studio import CLOCK, EILIDH, ILSE, TEODOR, booking, home
from textual.geometry import Size

from cockpit.desk.calendar.proposals import Proposal
from cockpit.screens.calendar.week import WeekScreen
from cockpit.screens.calendar.year import YearScreen, year_sums, year_title
from cockpit.screens.calendar.year_grid import WHOLE, YearCell, YearGrid, YearSheet, YearView, difference_words
from cockpit.screens.day.day import DayScreen
from cockpit.studio.calendar.year import StudentYear, StudioYear, months, year_plan
from cockpit.studio.lessons.lesson import Outcome, begin, close_untaught, finish, in_words
from cockpit.studio.values import replace

NOW = home("2026-12-01 12:00")
WEEK = timedelta(days=7)
FIRST = home("2026-09-01 16:00")
LONGEST = "Wilhelmina Konstantina von Hohenfels-Aldersgate"


def of(student=ILSE, **counts) -> StudentYear:
    values = {"taught": 10, "planned": 26, "cancelled": 0, "cancelled_late": 0, "absent": 0, "unmarked": 0}
    return StudentYear(student=student, promised=36, **values | counts)


def lesson_in(weeks, who=ILSE, state=None, **values):
    """A booking of a student some weeks after the year's first one, as it became."""
    booked = booking(who, starts_at=FIRST + weeks * WEEK, **values)
    if isinstance(state, Outcome):
        return replace(booked, lesson=close_untaught(booked.lesson, state))
    at = booked.lesson.starts_at
    return replace(booked, lesson=finish(begin(booked.lesson, at), at)) if state == "taught" else booked


def sheet(*bookings, on_break=(), width=148, first_on=date(2026, 9, 1)) -> YearSheet:
    year = StudioYear(
        first_on=first_on,
        until_on=first_on.replace(year=2027) - timedelta(days=1),
        students=year_plan(bookings, NOW, 36),
        months=months(bookings, on_break, CLOCK),
    )
    return YearSheet(YearView(year=year, now=NOW, home=CLOCK, size=Size(width, 45)))


def drawn(of_sheet: YearSheet, cell=None) -> list[str]:
    """Every row of a sheet, and what is chosen in it."""
    students = len(of_sheet.view.year.students)
    cell = cell or YearCell(row=students, month=WHOLE)
    rows = [of_sheet.heading(0), *(row for n in range(students) for row in of_sheet.student(n, 0, cell))]
    return [row.plain for row in (*rows, of_sheet.all_students(0, cell), *of_sheet.told(cell))]


def row(opened, student: str) -> str:
    """The first row of a student, its columns a space apart."""
    assert isinstance(opened.app.screen, YearScreen)
    return " ".join(next(each for each in opened.drawn().splitlines() if each.startswith(f" {student}")).split())


def told(opened) -> str:
    """What is chosen, or proposed."""
    lines = opened.drawn().splitlines()
    at = next(place for place, line in enumerate(lines) if line.startswith((" CHOSEN", " MARK AS TAUGHT")))
    return " ".join(" ".join(lines[at + 1 : at + 4]).split())


def states(opened, student: str) -> list:
    """What the store has of a student's lessons of the year: when they were finished."""
    begins, ends = home("2026-09-01 00:00"), home("2027-08-31 23:59")
    reading = opened.studio.store.reading
    people = reading.people()
    return [
        each.finished_at
        for each in reading.lessons_between(begins, ends)
        if people.students[each.student_id].name == student and each.finished_at is not None
    ]


async def see_year(opened) -> None:
    await opened.press("ctrl+a", "y")
    await opened.pilot.pause()


@pytest.mark.parametrize(("planned", "words"), [(24, "2 short"), (26, ""), (27, "1 over"), (0, "26 short")])
def test_the_difference_is_told_in_words(planned, words):
    assert difference_words(of(planned=planned)) == words


def test_the_title_has_the_first_and_the_last_day_and_the_sum_of_all():
    year = StudioYear(first_on=date(2026, 9, 1), until_on=date(2027, 8, 31), students=(of(), of(EILIDH)), months=())
    assert year_title(year) == "September 1, 2026, to August 31, 2027"
    assert year_sums(year) == "72 of 72 lesson times"
    assert year_sums(replace(year, students=())) == ""


def test_each_lesson_is_a_sign_in_the_month_in_which_it_takes_place():
    bookings = [
        lesson_in(0, state="taught"), lesson_in(1, state=Outcome.ABSENT), lesson_in(2), lesson_in(3, state=Outcome.CANCELLED),
        lesson_in(14), lesson_in(16),
    ]  # fmt: skip
    year = sheet(*bookings, on_break=[lesson_in(15)])
    heading, ilse, *_ = drawn(year)
    columns = {name: heading.index(name) for name in ("SEP", "OCT", "DEC", "JAN")}
    assert ilse[columns["SEP"] :].split()[0] == "●×!×"
    assert ilse[columns["OCT"]] == " "
    assert ilse[columns["DEC"] :].split()[0] == "○╱○"
    assert ilse.split()[-3:] == ["of", "36", "33"] or ilse.rstrip().endswith("33 short")


def test_a_month_with_more_lessons_than_columns_takes_another_row():
    year = sheet(*(lesson_in(n / 7) for n in range(20)))
    rows = year.student(0, 0, YearCell(row=0, month=WHOLE))
    assert len(rows) == year.height(0) == -(-20 // (year.cell - 1))
    assert sum(each.plain.count("!") for each in rows) == 20


@pytest.mark.parametrize("width", [42, 58, 78, 98, 108, 128, 148, 198])
@pytest.mark.parametrize("first_on", [date(2026, 9, 1), date(2026, 9, 15)])
def test_no_row_is_wider_than_the_screen_and_the_sum_is_always_there(width, first_on):
    who = {ILSE: "Ilse", TEODOR: LONGEST, EILIDH: "玲奈" * 12}
    bookings = [
        replace(lesson_in(n, each, "taught" if n < 9 else None), student=replace(each, name=name))
        for each, name in who.items()
        for n in range(2, 40)
    ]
    year = sheet(*bookings, width=width, first_on=first_on)
    for cell in (None, YearCell(row=1, month=2), YearCell(row=2, month=WHOLE), YearCell(row=3, month=0)):
        rows = drawn(year, cell)
        assert all(cell_len(each) <= width for each in rows)
        assert sum("34 of 36" in each for each in rows) == 3 + (cell == YearCell(row=2, month=WHOLE))
    proposal = Proposal(understood="Mark 9 lessons of Ilse, September 8 to November 24, as taught?", edits=(), said="")
    assert all(cell_len(each.plain) <= width for each in year.proposed(proposal))


def test_what_is_chosen_is_told_in_words_with_each_day():
    year = sheet(lesson_in(0, state="taught"), lesson_in(1, state=Outcome.ABSENT), lesson_in(2), lesson_in(3))
    month = " ".join(" ".join(drawn(year, YearCell(row=0, month=0))[-3:]).split())
    assert month == "Ilse September 2026 1 taught 1 absent 2 not marked ● 1 × 8 absent ! 15 ! 22 not marked"
    whole = " ".join(" ".join(drawn(year, YearCell(row=0, month=WHOLE))[-3:]).split())
    assert whole == "Ilse the whole year 1 of 36 lesson times, 35 short 1 taught 1 absent 2 not marked"


def test_the_year_is_counted_by_hand_and_says_when_clocks_change(tmp_path):
    async def steps(opened):
        await see_year(opened)
        tuesdays = [date(2026, 12, 8) + number * WEEK for number in range(60)]
        planned = sum(on <= date(2027, 8, 31) for on in tuesdays)
        # The sample's two weeks of history and the lesson that runs are taught; what was before is not marked.
        assert (
            row(opened, "Ilse")
            == f"Ilse !!!!! !!!! !!●● ▶○○○○ ○○○○ ○○○○ ○○○○○ ○○○○ ○○○○ ○○○○○ ○○○○ ○○○○○ 3 {planned} 11 42 of 36 6 over"
        )
        heading = next(each for each in opened.drawn().splitlines() if "SEP" in each)
        assert [each for each in heading.split() if each.isupper() or each == "±"] == [
            "SEP",
            "OCT",
            "±",
            "NOV",
            "±",
            "DEC",
            "JAN",
            "FEB",
            "MAR",
            "±",
            "APR",
            "MAY",
            "JUN",
            "JUL",
            "AUG",
        ]
        assert "Trial lessons do not count." in opened.drawn()
        await opened.press("left")
        assert "± November 1: clocks change, 4 weekly times shifted" in told(opened)

    on_screen(tmp_path, steps, size=(150, 45))


def test_the_cursor_walks_to_every_cell_on_a_small_screen_and_stays_through_a_change_of_size(tmp_path):
    async def steps(opened):
        await see_year(opened)
        assert "Wren" not in opened.drawn()
        assert told(opened).startswith("Beatriz December 2026 5 to come")
        await opened.press("end", "up")
        assert told(opened).startswith("Wren December 2026 5 to come")
        await opened.press(*["right"] * 20)
        assert told(opened).startswith("Wren August 2027 4 on break")
        assert "AUG" in opened.drawn()
        await opened.pilot.resize_terminal(150, 45)
        await opened.pilot.pause()
        assert told(opened).startswith("Wren August 2027 4 on break")
        assert "Beatriz" in opened.drawn()
        await opened.press(*["left"] * 20, "down", "down")
        assert told(opened).startswith("12 students the whole year")
        await opened.pilot.click("#year", offset=(20, 3))
        assert told(opened).startswith("Ilse October 2026") or told(opened).startswith("Ilse September 2026")

    on_screen(tmp_path, steps, size=(44, 20))


def test_what_is_not_marked_is_marked_together_after_a_question_and_taken_back_together(tmp_path):
    async def steps(opened):
        await see_year(opened)
        before = len(states(opened, "Ilse"))
        await opened.press("down", "down", *["left"] * 4)
        await opened.press("d")
        assert told(opened).startswith("Mark 11 lessons of Ilse, September 1 to November 10, as taught?")
        assert len(states(opened, "Ilse")) == before
        await opened.press("escape")
        assert told(opened).startswith("Ilse the whole year")
        assert len(states(opened, "Ilse")) == before
        await opened.press("d", "enter")
        assert opened.said == "Done: marking 11 lessons of Ilse as taught. F4 takes all of it back."
        assert len(states(opened, "Ilse")) == before + 11
        assert "!" not in row(opened, "Ilse")
        await opened.press("d")
        assert opened.said == "No lesson here is waiting to be marked."
        await opened.press("enter")
        assert len(states(opened, "Ilse")) == before + 11
        await opened.press("f4")
        assert opened.said == "Undone: marking 11 lessons of Ilse as taught."
        assert len(states(opened, "Ilse")) == before
        assert opened.shown == "Ilse"
        await opened.press("right", "d", "enter")
        assert len(states(opened, "Ilse")) == before + 5

    on_screen(tmp_path, steps, size=(130, 40))


def test_a_lesson_with_notes_is_left_for_its_own_finish_and_what_is_to_come_is_never_marked(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        ids = {b.lesson.id: b for month in desk.ahead.year().months for b in month.lessons if b.student.name == "Oskar"}
        first = min(ids.values(), key=lambda each: each.lesson.starts_at)
        desk.day.open(date(2026, 9, 3), first.lesson.id)
        desk.notes.write(desk.day.recorded(first.lesson.id).lesson.id, "Scales: D major")
        desk.day.open()
        await see_year(opened)
        await opened.press(*["down"] * 7, *["left"] * 4, "d")
        assert told(opened).startswith("Mark 12 lessons of Oskar, September 10 to November 26, as taught?")
        assert "There is one with notes: finish (F9) it in its lesson." in told(opened)
        await opened.press("enter")
        assert len(states(opened, "Oskar")) == 12
        await opened.press("d")
        assert opened.said == "There is one with notes: finish (F9) it in its lesson."

    on_screen(tmp_path, steps, size=(130, 40))


@pytest.mark.long
def test_a_month_of_all_students_is_marked_and_taken_back(tmp_path):
    async def steps(opened):
        await see_year(opened)
        await opened.press("end", "left", "left", "d")
        assert told(opened).startswith("Mark 51 lessons of 12 students, October 1 to October 30, as taught?")
        await opened.press("enter", "f4")
        assert opened.said == "Undone: marking 51 lessons of 12 students as taught."

    on_screen(tmp_path, steps, size=(130, 40))


@pytest.mark.long
def test_a_lesson_cancelled_late_or_missed_is_counted_from_then_on(tmp_path):
    async def steps(opened):
        await see_year(opened)
        assert " × " not in opened.drawn()
        await opened.press("escape", "escape", "f5", "tab", "tab", "c", "down", "a", "escape")
        await see_year(opened)
        await opened.press(*["down"] * 5)
        assert "1 canceled late" in told(opened)
        await opened.press("down")
        assert "1 absent" in told(opened)

    on_screen(tmp_path, steps, size=(150, 45))


@pytest.mark.long
def test_a_year_without_lessons_says_so(tmp_path):
    async def steps(opened):
        opened.clock.at -= 2000 * timedelta(days=1)
        await see_year(opened)
        assert "No student has lessons this year." in opened.drawn()
        await opened.press("d")
        assert opened.said == "No lesson here is waiting to be marked."
        await opened.press("down", "enter", "escape")
        assert isinstance(opened.app.screen, WeekScreen)

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_year_is_left_to_where_she_came_from(tmp_path):
    async def steps(opened):
        await see_year(opened)
        await opened.press("enter", "escape")
        assert isinstance(opened.app.screen, WeekScreen)
        await opened.press("escape", "f1")
        await opened.choose("app.show_year")
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, YearScreen)
        assert opened.app.screen.query_one(YearGrid).has_focus
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == "Ilse"

    on_screen(tmp_path, steps)


def test_every_state_of_a_lesson_is_told_and_counted():
    year = sheet(*(lesson_in(n, state=outcome) for n, outcome in enumerate(Outcome)))
    told_of = " ".join(" ".join(drawn(year, YearCell(row=0, month=0))[-3:]).split())
    assert all(f"1 {in_words(outcome)}" in told_of for outcome in Outcome)
    assert next(row for row in drawn(year) if row.startswith("Ilse")).split()[1:3] == [
        "×" * len(Outcome),
        str(len(Outcome)),
    ]
