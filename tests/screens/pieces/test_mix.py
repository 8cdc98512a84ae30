"""The mix on the screen: of a student, of the studio, and what is mentioned at a lesson's beginning."""

from datetime import timedelta

import pytest
from support.screens import on_screen
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Proposal
from cockpit.sample import history
from cockpit.screens.pieces.mix import MixScreen, StudioMixScreen
from cockpit.screens.pieces.page import PageScreen
from cockpit.studio.changes.pieces import Piece, PieceState
from cockpit.studio.changes.records import Edit

FIVE_WEEKS_ON = history.MOMENT + timedelta(weeks=5)


def left_of(opened):
    return [(each.strand, str(each.until_on)) for each in opened.studio.store.reading.strands_left()]


@pytest.mark.parametrize("size", [(44, 20), (80, 40), (150, 45)])
def test_m_on_the_page_opens_the_whole_mix_and_x_leaves_a_strand_for_the_season(tmp_path, size):
    async def steps(opened):
        await opened.press("f7", "m")
        assert isinstance(opened.app.screen, MixScreen)
        drawn = opened.drawn()
        assert max(map(len, drawn.splitlines())) <= size[0]
        assert "AREAS, 8 WEEKS" in drawn
        assert "Scales" in drawn
        rows = opened.app.screen.query_one(OptionList)
        rows.highlighted = [each.id for each in rows.options].index("area:theory")
        await opened.press("x")
        assert left_of(opened) == [("theory", "2026-12-31")]
        assert opened.said == "Theory is not mentioned for Ilse through Thursday, December 31, 2026."
        assert "left through December 31" in opened.drawn()
        await opened.press("f4")
        assert left_of(opened) == []
        await opened.press("escape")
        assert isinstance(opened.app.screen, PageScreen)

    on_screen(tmp_path, steps, size=size)


def test_find_opens_the_mix_of_the_studio(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        await opened.type("mix")
        await opened.press("enter")
        assert isinstance(opened.app.screen, StudioMixScreen)
        opened.wait_for_notes()
        await opened.pilot.pause()
        assert "Earlier notes are still being read" not in " ".join(opened.drawn().split())
        drawn = " ".join(opened.drawn().split())
        assert "6 students" in drawn
        assert "THEORY" in drawn
        assert "never Eilidh" in drawn
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps)


def test_what_was_not_given_for_long_is_a_quiet_row_under_the_last_assignments_until_it_is_left(tmp_path):
    async def steps(opened):
        await opened.pilot.pause()
        assert "Theory: never in 7 weeks" in opened.drawn()
        before = opened.marks()
        await opened.press("tab")
        rows = opened.day.query_one("#assignments", OptionList)
        rows.highlighted = [each.id for each in rows.options].index("mix: theory")
        await opened.press("d", "x")
        assert opened.marks() == before
        assert [name for name, _ in left_of(opened)] == ["theory"]
        await opened.pilot.pause()
        assert "Theory: never" not in opened.drawn()
        await opened.press("f4")
        await opened.pilot.pause()
        assert "Theory: never in 7 weeks" in opened.drawn()
        await opened.press("f6")
        assert "Theory" not in opened.drawn()

    on_screen(tmp_path, steps, at=FIVE_WEEKS_ON)


def test_a_piece_that_is_due_is_a_quiet_row_which_c_gives_again_and_x_lets_rest(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        pages, student = desk.pages(), desk.day.shown.student
        mill = pages.history(student.id, "old mill")
        said = Piece(student_id=student.id, key="old mill", state=PieceState.KEPT_ALIVE, state_since=mill.lines[0].on)
        desk.arranging.do(Proposal(understood="", edits=(Edit(before=None, after=said),), said="kept"))
        opened.day.show()
        await opened.pilot.pause()
        assert "Keep alive: The Old Mill, due" in opened.drawn()
        assert "since December 15" in opened.drawn()
        await opened.press("tab")
        rows = opened.day.query_one("#assignments", OptionList)
        rows.highlighted = [each.id for each in rows.options].index("due: old mill")
        await opened.press("c")
        assert "Review: The Old Mill" in opened.drawn()
        await opened.press("c")
        assert opened.said == "Already in today's notes: Review: The Old Mill"
        await opened.press("x")
        assert opened.said == "The Old Mill is resting: no longer kept alive."
        await opened.pilot.pause()
        assert "Keep alive" not in opened.drawn()

    on_screen(tmp_path, steps, at=FIVE_WEEKS_ON)


def test_what_was_not_read_at_the_opening_is_mentioned_once_it_was_and_she_is_idle(tmp_path):
    async def steps(opened):
        await opened.pilot.pause()
        assert "Theory: never in 12 weeks" not in opened.drawn()
        opened.wait_for_notes()
        opened.day.look_ahead()
        await opened.pilot.pause()
        assert "Theory: never in 12 weeks" in opened.drawn()
        rows = [each.id for each in opened.day.query_one("#assignments", OptionList).options]
        assert rows.index("mix: theory") < rows.index("OLDER, STILL OPEN")

    on_screen(tmp_path, steps, at=history.MOMENT + timedelta(weeks=10))


def test_a_wide_screen_has_the_tempos_of_a_piece_and_the_mix_which_mentions_what_is_long_ago(tmp_path):
    async def steps(opened):
        await opened.pilot.pause()
        drawn = opened.drawn()
        assert "THE MIX, 8 WEEKS" in drawn
        assert "! Theory" in drawn
        assert drawn.count("never in") == 1  # it is said once
        assert "notes a minute" not in drawn
        await opened.press("tab", "6", "2", "enter")
        await opened.pilot.pause()
        await opened.press("down", "5", "0", "enter")
        await opened.pilot.pause()
        opened.paint()
        titles = [line for line in opened.drawn().splitlines() if "notes a minute" in line]
        assert len(titles) == 1
        await opened.press("up")
        assert [line for line in opened.drawn().splitlines() if "notes a minute" in line] != titles
        rows = opened.day.query_one("#assignments", OptionList)
        rows.highlighted = [each.id for each in rows.options].index("mix: theory")
        await opened.press("x")
        await opened.pilot.pause()
        opened.paint()
        assert [name for name, _ in left_of(opened)] == ["theory"]
        assert "! Theory" not in opened.drawn()

    on_screen(tmp_path, steps, at=FIVE_WEEKS_ON, size=(150, 45))
