"""The studio year: each student's lessons against the number promised, by month where there is room."""

from datetime import date, timedelta

import pytest
from rich.cells import cell_len
from support.screens import on_screen
from support.studio import EILIDH, ILSE, TEODOR
from textual.widgets import OptionList

from cockpit.screens.calendar.week import WeekScreen
from cockpit.screens.calendar.year import YearScreen
from cockpit.screens.calendar.year_rows import YearShown, difference_words, year_lines
from cockpit.screens.day.day import DayScreen
from cockpit.studio.calendar.year import StudentMonth, StudentYear

WEEK = timedelta(days=7)


def of(student=ILSE, **counts) -> StudentYear:
    values = {"taught": 10, "planned": 26, "cancelled": 0, "cancelled_late": 0, "absent": 0, "unmarked": 0}
    return StudentYear(student=student, promised=36, **values | counts)


def shown(*students, months=(), first_on=date(2026, 9, 1), until_on=date(2027, 8, 31)) -> YearShown:
    return YearShown(
        first_on=first_on,
        until_on=until_on,
        this_month=date(2026, 12, 1),
        promised=36,
        students=students,
        months=months,
    )


def row(opened, student: str) -> str:
    """The line of a student, its columns a space apart."""
    assert isinstance(opened.app.screen, YearScreen)
    rows = [str(option.prompt) for option in opened.app.screen.query_one(OptionList).options]
    return " ".join(next(each for each in rows if each.startswith(student)).split())


async def see_year(opened) -> None:
    await opened.press("ctrl+a", "y")
    await opened.pilot.pause()


@pytest.mark.parametrize(
    ("planned", "words"), [(24, "2 short of 36"), (26, "as planned"), (27, "1 over"), (0, "26 short of 36")]
)
def test_the_difference_is_told_in_words(planned, words):
    assert difference_words(of(planned=planned)) == words
    _, lines = year_lines(shown(of(planned=planned)), 41)
    assert words in str(lines[0])


def test_the_counts_of_a_student_are_those_of_the_weeks_by_hand(tmp_path):
    tuesdays = [date(2026, 12, 8) + number * WEEK for number in range(60)]
    planned = sum(on <= date(2027, 8, 31) for on in tuesdays)
    before = sum(date(2026, 9, 1) + number * WEEK < date(2026, 12, 1) for number in range(60))

    async def steps(opened):
        await see_year(opened)
        taught = before - 11 + 1  # the sample's two weeks of history, and the lesson that runs
        assert f"{taught} taught · {planned} planned · 11 not marked" in row(opened, "Ilse")
        assert f"{taught + planned - 36} over" in row(opened, "Ilse")
        drawn = opened.drawn()
        assert "September 1, 2026, to August 31, 2027" in drawn
        assert "36 lesson times for each of 12 students" in drawn
        assert "Trial lessons do not count." in drawn

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.long
def test_a_lesson_cancelled_late_or_missed_has_its_column_from_then_on(tmp_path):
    async def steps(opened):
        await see_year(opened)
        assert "late" not in opened.drawn()
        await opened.press("escape", "escape", "f5", "tab", "tab", "c", "down", "a", "escape")
        await see_year(opened)
        assert "1 late" in row(opened, "Mireille")
        assert "1 absent" in row(opened, "Nalani")
        assert "late" not in row(opened, "Ilse")

    on_screen(tmp_path, steps)


def test_the_months_are_there_from_a_hundred_columns_on_with_this_one_marked(tmp_path):
    async def steps(opened):
        await see_year(opened)
        heading = "Sep Oct Nov›Dec Jan Feb Mar Apr May Jun Jul Aug"
        assert heading in opened.drawn()
        assert row(opened, "Ilse").startswith("Ilse · · 2 5 4 4 5 4 4 5 4 5 ")
        assert opened.drawn().count("›") == 1
        await opened.pilot.resize_terminal(44, 20)
        await opened.pilot.pause()
        assert "Oct" not in opened.drawn()
        assert row(opened, "Ilse").startswith("Ilse 6 over 3 taught")
        assert opened.app.screen.query_one("#columns").display is False

    on_screen(tmp_path, steps, size=(100, 30))


def test_the_columns_stand_under_their_headings():
    first, later = date(2026, 9, 1), date(2026, 12, 1)
    months = [
        StudentMonth(student=ILSE, first_on=first, taught=4, planned=0),
        StudentMonth(student=ILSE, first_on=later, taught=2, planned=3),
        StudentMonth(student=EILIDH, first_on=later, taught=10, planned=1),
    ]
    heading, lines = year_lines(shown(of(), of(EILIDH, cancelled=12), months=months), 127)
    assert "absent" not in heading
    ends = {name: heading.index(name) + len(name) for name in ("Sep", "Dec", "taught", "planned", "canceled")}
    ilse, eilidh = (str(line) for line in lines)
    assert ilse[: ends["Sep"]].split() == ["Ilse", "4"]
    assert ilse[: ends["Dec"]].split()[-1] == "5"
    assert eilidh[: ends["Sep"]].split() == ["Eilidh", "·"]
    assert eilidh[: ends["Dec"]].split()[-1] == "11"
    assert ilse[: ends["taught"]].split()[-1] == "10"
    assert ilse[: ends["planned"]].split()[-1] == "26"
    assert eilidh[: ends["canceled"]].split()[-1] == "12"
    assert eilidh.endswith("as planned")


def test_a_year_that_begins_within_a_month_has_that_month_at_both_ends():
    months = [
        StudentMonth(student=ILSE, first_on=date(2026, 9, 1), taught=2, planned=0),
        StudentMonth(student=ILSE, first_on=date(2027, 9, 1), taught=0, planned=3),
    ]
    year = shown(of(), first_on=date(2026, 9, 15), until_on=date(2027, 9, 14), months=months)
    heading, (line,) = year_lines(year, 127)
    assert " ".join(heading.split()).startswith("Sep Oct Nov›Dec Jan Feb Mar Apr May Jun Jul Aug Sep taught")
    assert str(line).split()[1:14] == ["2", *["·"] * 11, "3"]


@pytest.mark.parametrize("width", [41, 57, 77, 97, 127, 197])
def test_no_line_is_wider_than_the_list_and_nothing_is_lost_in_a_narrow_one(width):
    names = ["Ilse", "Wilhelmina Konstantina von Hohenfels-Aldersgate", "玲奈" * 12]
    students = [
        of(
            type(who)(id=who.id, family_id=who.family_id, name=name),
            taught=9,
            cancelled=11,
            cancelled_late=12,
            absent=13,
            unmarked=14,
        )
        for who, name in zip((ILSE, TEODOR, EILIDH), names, strict=True)
    ]
    heading, lines = year_lines(shown(*students), width)
    drawn = [heading, *(line for content in lines for line in str(content).splitlines())]
    assert all(cell_len(line) <= width for line in drawn)
    for line in lines:
        for count in ("9", "26", "11", "12", "13", "14", "1 short of 36"):
            assert count in str(line)


@pytest.mark.long
def test_a_year_without_lessons_says_so(tmp_path):
    async def steps(opened):
        opened.clock.at -= 2000 * timedelta(days=1)
        await see_year(opened)
        assert "No student has lessons this year." in opened.drawn()
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
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == "Ilse"

    on_screen(tmp_path, steps)


def test_every_student_can_be_scrolled_to_on_a_small_screen(tmp_path):
    async def steps(opened):
        await see_year(opened)
        assert "Wren" not in opened.drawn()
        assert opened.app.screen.query_one(OptionList).highlighted == 0
        await opened.press("end")
        await opened.pilot.pause()
        assert "Wren" in opened.drawn()

    on_screen(tmp_path, steps, size=(44, 20))
