"""A student's page on the screen: what was heard, what she says of a piece, and the ways from it to the notes."""

from datetime import date

import pytest
from support.pieces import given_line
from support.screens import on_screen
from textual.widgets import Input

from cockpit.desk.pieces.searching import FoundLine
from cockpit.screens.day.earlier import EarlierScreen
from cockpit.screens.help.find import FindScreen, line_row
from cockpit.screens.pieces.history import HistoryScreen, line_rows
from cockpit.screens.pieces.page import PageScreen
from cockpit.screens.textual_parts.rows import Rows, WalkedRows
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark
from cockpit.studio.people.people import FamilyId, Student, StudentId


def ilse(opened):
    return opened.studio.desk.finding.search("ilse")[0].student.id


def said_of_the_mill(opened):
    return {each.key: each for each in opened.studio.store.reading.pieces_said(ilse(opened))}.get("old mill")


@pytest.mark.parametrize("size", [(44, 20), (80, 40), (150, 45)])
def test_the_page_leads_to_the_history_of_a_piece_and_to_the_notes_below_the_clock(tmp_path, size):
    async def steps(opened):
        await opened.press("f7")
        assert isinstance(opened.app.screen, PageScreen)
        drawn = opened.drawn()
        assert drawn.startswith(" 33:00 left Ilse")
        assert "The Old Mill" in drawn
        assert "not heard yet" in drawn
        assert max(map(len, drawn.splitlines())) <= size[0]
        await opened.press("enter")
        assert isinstance(opened.app.screen, HistoryScreen)
        assert "Piece: The Old Mill mm. 1-16, separate bows" in " ".join(opened.drawn().split())
        await opened.press("enter")
        assert "Tue, December 1" in opened.drawn()
        assert "never finished" not in opened.drawn()
        await opened.press("escape", "down", "enter")
        assert isinstance(opened.app.screen, EarlierScreen)
        assert "Tue, November 24" in opened.drawn()
        await opened.press("escape", "escape", "escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, size=size)


def test_what_is_typed_of_a_piece_is_kept_shown_and_taken_back(tmp_path):
    async def steps(opened):
        await opened.press("f7", "o")
        await opened.type("irish, her choice, 96 measures, by dec 19")
        assert "origin: irish" in opened.drawn()
        await opened.press("enter")
        said = said_of_the_mill(opened)
        assert (said.origin, said.is_chosen, said.measures) == ("irish", True, 96)
        assert "40 of 96 measures" in opened.drawn()
        await opened.press("k")
        assert said_of_the_mill(opened).kept_since is not None
        assert "kept alive, due in 2 weeks" in opened.drawn()
        await opened.press("j")
        assert "No other piece has a name like The Old Mill." in opened.said
        await opened.press("f4", "f4")
        assert said_of_the_mill(opened) is None
        await opened.press("n")
        assert isinstance(opened.app.screen, EarlierScreen)
        await opened.press("escape", "slash")
        assert isinstance(opened.app.screen, FindScreen)
        assert opened.app.screen.query_one(Input).value == "Ilse "

    on_screen(tmp_path, steps)


def test_two_names_that_look_alike_are_asked_about_and_joined(tmp_path):
    async def steps(opened):
        await opened.press("escape", "end", "enter")
        await opened.type("Piece: The Old Mil mm. 41-48")
        await opened.press("f7")
        assert "one piece? j joins them, t keeps two" in " ".join(opened.drawn().split())
        rows = opened.app.screen.query_one(Rows)
        rows.highlighted = [each.id for each in rows.options].index("piece:old mil")
        await opened.press("j")
        assert opened.said == "They are one piece now."
        assert "joins them" not in opened.drawn()
        assert "The Old Mil " in opened.drawn()
        assert "The Old Mill" not in opened.drawn().split("NOTES")[0]
        await opened.press("f4", "t")
        assert opened.said == "They stay two pieces. You will not be asked again."

    on_screen(tmp_path, steps)


def test_the_history_of_an_assignment_opens_from_last_assignments_unless_the_letter_begins_a_word(tmp_path):
    async def steps(opened):
        await opened.press("tab", "down", "p")
        await opened.pilot.pause(0.3)
        assert isinstance(opened.app.screen, HistoryScreen)
        await opened.press("escape")
        await opened.press("p", "i", "e", apart=0.05)
        await opened.pilot.pause(0.3)
        assert opened.app.screen is opened.day
        assert opened.notes.text.text.endswith("pie")

    on_screen(tmp_path, steps)


def test_a_narrow_screen_keeps_what_was_heard_and_the_line_that_was_found():
    given = given_line("11-17", "Scales: D major 2 oct, q=72 to 88", Mark.MORE_WORK, 76)
    rows = [row.plain.rstrip() for row in line_rows(given, date(2026, 12, 1), 42)]
    assert rows[:2] == ["◐ November 17   asked q 72 to 88  heard 76", " " * 16 + "more work"]
    line = "Piece: The Old Mill mm. 17-32, whole bows"
    student = Student(id=StudentId(1), family_id=FamilyId(1), name="Ilse")
    found = FoundLine(lesson_id=LessonId("1"), on=given.on, student=student, line=line, is_private=False)
    assert (
        line_row(found, "mill", date(2026, 12, 1), 42).plain.splitlines()[1]
        == "    Piece: The Old Mill mm. 17-32, whole…"
    )
    assert "\n" not in line_row(found, "mill", date(2026, 12, 1), 78).plain


def test_find_has_pieces_and_lines_and_leads_to_the_page(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        await opened.type("mill")
        opened.wait_for_notes()
        await opened.pilot.pause()
        rows = [option.id for option in opened.app.screen.query_one(WalkedRows).options if not option.disabled]
        assert rows[:2] == ["piece:0", "line:0"]
        assert "PIECES ━" in opened.drawn()
        assert "Piece: The Old Mill mm. 17-40" in opened.drawn()
        await opened.press("right")
        assert isinstance(opened.app.screen, PageScreen)
        await opened.press("escape", "enter")
        assert isinstance(opened.app.screen, HistoryScreen)
        await opened.press("escape", "down", "enter")
        assert isinstance(opened.app.screen, EarlierScreen)
        await opened.press("escape")
        await opened.press("home", "left", "x")
        assert opened.app.screen.query_one(Input).value == "milxl"

    on_screen(tmp_path, steps)


def test_the_page_of_somebody_without_notes_says_so(tmp_path):
    async def steps(opened):
        await opened.press("tab", "tab", "t")
        await opened.type("nora bell thu 9am phoenix 30m")
        await opened.press("enter", "f8")
        await opened.type("nora")
        await opened.press("right")
        assert "no lessons yet" in opened.drawn()
        assert "No pieces yet." in opened.drawn()
        assert "THE MIX" not in opened.drawn()
        await opened.press("o")
        assert opened.said == "Choose a piece first."

    on_screen(tmp_path, steps)
