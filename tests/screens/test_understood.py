"""What the notes pane says of the line with the cursor, of the minutes, and of practice that grows suddenly."""

from support.screens import on_screen
from textual.widgets import Static


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
        assert row(opened, "#count").startswith("5 of 20 minutes a day · 2 to practice")
        await opened.type("Etude: no. 3, 10 min")
        assert row(opened, "#count").startswith("15 of 20 minutes a day · 3 to practice")
        await opened.press("backspace", "backspace", "backspace", "backspace", "backspace", "backspace")
        assert row(opened, "#count").startswith("5 of 20 minutes a day")

    on_screen(tmp_path, steps)


def test_practice_that_grows_suddenly_is_told_before_she_finishes(tmp_path):
    async def steps(opened):
        await opened.type("Etude: no. 3, 30 min")
        assert row(opened, "#count") == "! 35 of 20 minutes a day, last week 15"
        assert "sudden increase" in opened.said
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at is not None

    on_screen(tmp_path, steps)
