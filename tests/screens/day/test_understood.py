"""What the notes pane says of the line with the cursor, of the minutes, and of practice that grows suddenly."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.examples import examples
from support.screens import on_screen
from textual.widgets import Static

from cockpit.screens.day.understood import understood_rows


def row(opened, name: str) -> str:
    return str(opened.notes.query_one(name, Static).content)


def test_a_line_is_understood_as_it_is_typed_and_never_moves_the_text(tmp_path):
    async def steps(opened):
        await opened.type("Piece: Gavotte mm. 17-32")
        assert "17–32 (16)" in row(opened, "#understood-line")
        await opened.type(" q=72 HS")
        assert "quarter 72" in row(opened, "#understood-line")
        assert "hands separately" in row(opened, "#understood-line")
        assert opened.body("Ilse").endswith("Piece: Gavotte mm. 17-32 q=72 HS")
        await opened.press("enter")
        assert row(opened, "#understood-line") == ""

    on_screen(tmp_path, steps)


def test_a_line_that_is_kept_back_is_not_explained(tmp_path):
    async def steps(opened):
        await opened.type("Private:")
        await opened.press("enter")
        await opened.type("Piece: mm. 17-32 q=72")
        assert row(opened, "#understood-line") == ""

    on_screen(tmp_path, steps)


def test_the_minutes_of_a_day_are_summed_beside_those_the_student_has(tmp_path):
    async def steps(opened):
        assert row(opened, "#count").startswith("5 of 20 minutes a day · 2 assignments")
        await opened.type("Etude: no. 3, 10 min")
        assert row(opened, "#count").startswith("15 of 20 minutes a day · 3 assignments")
        await opened.press("backspace", "backspace", "backspace", "backspace", "backspace", "backspace")
        assert row(opened, "#count").startswith("5 of 20 minutes a day")

    on_screen(tmp_path, steps)


def test_practice_that_grows_suddenly_is_told_before_she_finishes(tmp_path):
    async def steps(opened):
        await opened.type("Etude: no. 3, 30 min")
        assert row(opened, "#count") == "! 35 of 20 minutes a day, up from 20 last week"
        assert "sudden increase" in opened.said
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at is not None

    on_screen(tmp_path, steps)


def test_what_a_plan_leaves_out_is_told_when_she_pauses_and_again_after_the_finish(tmp_path):
    async def steps(opened):
        await opened.type("Etude: no. 3, 15 min")
        await opened.press("enter")
        await opened.type("Ear: sing it")
        opened.notes.tell_of_plan()  # what its timer does
        assert "No minutes are left for" not in opened.said  # she has typed since the timer began
        opened.notes.tell_of_plan()
        await opened.done()
        assert "No minutes are left for" in opened.said
        assert "Ear: sing it" in opened.said
        await opened.press("f9")
        assert "Ear: sing it" in opened.said

    on_screen(tmp_path, steps)


SCALES = "Scales: B flat major 2 oct, q=60 to 92, 5 min"
GAVOTTE = "Piece: Gavotte op. 27 no. 5 mm. 17-32, q = 72 to 88, HS, 3x, 5 min, Mon Wed Fri"


@pytest.mark.parametrize(
    ("line", "width", "most", "rows"),
    [
        (SCALES, 60, 1, "B-flat major · 2 octaves · quarter 60 to 92 · 5 min"),
        (SCALES, 40, 2, "B-flat major · 2 octaves\nquarter 60 to 92 · 5 min"),
        (SCALES, 40, 1, "… quarter 60 to 92 · 5 min"),
        (SCALES, 42, 1, "… B-flat major · quarter 60 to 92 · 5 min"),
        (SCALES, 20, 1, "B-flat major"),  # not even tempo and minutes have room
        (GAVOTTE, 40, 1, "… quarter 72 to 88 · 5 min"),
        (GAVOTTE, 52, 1, "… measures 17–32 (16) · quarter 72 to 88 · 5 min"),
        (GAVOTTE, 40, 2, "… measures 17–32 (16) · quarter 72 to 88\n3 times · 5 min · Mon Wed Fri"),
        ("Piece: " + ", ".join(f"mm. {number}" for number in range(1, 90, 3)), 20, 2, None),
        ("remember the bow", 40, 2, ""),
        ("Piece: Gavotte, as you like", 40, 2, ""),
    ],
)
def test_where_room_is_short_tempo_and_minutes_are_said_first(line, width, most, rows):
    said = understood_rows(line, width, most)
    assert said == rows if rows is not None else said.startswith("measures 1, 4, 7")


@examples(120)
@given(st.sampled_from([SCALES, GAVOTTE]), st.integers(1, 120), st.integers(1, 2))
def test_what_is_understood_never_takes_more_rows_than_there_are(line, width, most):
    rows = understood_rows(line, width, most).split("\n")
    assert len(rows) <= most
    if width >= 28:
        assert all(cell_len(row) <= width for row in rows)
        assert "5 min" in " ".join(rows)


@pytest.mark.parametrize("size", [(44, 20), (80, 40), (150, 45)])
def test_tempo_and_minutes_are_seen_at_every_size_and_the_text_stays_where_it_is(tmp_path, size):
    async def steps(opened):
        await opened.press("enter")
        before = opened.notes.text.region
        await opened.type(SCALES)
        assert "quarter 60 to 92 · 5 min" in opened.drawn()
        assert opened.notes.text.region == before

    on_screen(tmp_path, steps, size=size)


def test_a_screen_that_is_made_smaller_says_it_anew(tmp_path):
    async def steps(opened):
        await opened.type(f"\n{SCALES}")
        await opened.pilot.resize_terminal(44, 20)
        await opened.done()
        assert row(opened, "#understood-line") == "… B-flat major · quarter 60 to 92 · 5 min"

    on_screen(tmp_path, steps)
