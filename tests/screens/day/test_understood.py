"""What the notes pane says of the line with the cursor, of the minutes, and of practice that grows suddenly."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.examples import examples
from support.screens import on_screen
from textual.widgets import Static

from cockpit.screens.day import understood
from cockpit.studio.assignments.goals import TypedOn
from cockpit.studio.assignments.telling import label_offer
from cockpit.studio.notes.notes import read_line


def understood_rows(line: str, width: int, most: int) -> str:
    read = read_line(line)
    return understood.understood_rows(read, label_offer(read), width, most)


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
        await opened.type("lovely")
        assert row(opened, "#understood-line") == "remark  for the family"

    on_screen(tmp_path, steps)


def test_a_line_that_is_kept_back_is_said_to_be(tmp_path):
    async def steps(opened):
        await opened.type("Private:")
        await opened.press("enter")
        await opened.type("Piece: mm. 17-32 q=72")
        assert row(opened, "#understood-line") == "private  for you alone"
        await opened.press("enter", "enter")
        await opened.type("Prviate: x")
        assert row(opened, "#understood-line").replace("\n", "  ") == (
            'private  for you alone  "Prviate" is taken for Private'
        )

    on_screen(tmp_path, steps)


def test_the_minutes_of_a_day_are_summed_beside_those_the_student_has(tmp_path):
    async def steps(opened):
        assert row(opened, "#count") == "2 asked  0 remarks  ▒ 0   5 of 20 min"
        await opened.type("Etude: no. 3, 10 min")
        assert row(opened, "#count") == "3 asked  0 remarks  ▒ 0  15 of 20 min"
        await opened.press("backspace", "backspace", "backspace", "backspace", "backspace", "backspace")
        assert row(opened, "#count").endswith("  5 of 20 min")

    on_screen(tmp_path, steps)


def test_practice_that_grows_suddenly_is_told_before_she_finishes(tmp_path):
    async def steps(opened):
        await opened.type("Etude: no. 3, 30 min")
        assert row(opened, "#understood-line").endswith("\n! 35 of 20 minutes a day, up from 20")
        assert row(opened, "#count") == "3 asked  0 remarks  ▒ 0  35 of 20 min"
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
        (SCALES, 100, 1, "assignment: scales  for the family  B-flat major  2 octaves  quarter 60 to 92  5 min"),
        (SCALES, 44, 3, "assignment: scales  for the family\nB-flat major  2 octaves  quarter 60 to 92\n5 min"),
        (SCALES, 34, 2, "assignment: scales  for the family\n… quarter 60 to 92  5 min"),
        (SCALES, 42, 2, "assignment: scales  for the family\n… B-flat major  quarter 60 to 92  5 min"),
        (SCALES, 39, 1, "assignment: scales  for the family"),
        (GAVOTTE, 39, 2, "assignment: piece  for the family\n… quarter 72 to 88  5 min"),
        (GAVOTTE, 52, 2, "assignment: piece  for the family\n… measures 17–32 (16)  quarter 72 to 88  5 min"),
        ("remember the bow", 39, 2, "remark  for the family"),
        ("Piece: Gavotte, as you like", 39, 2, "assignment: piece  for the family"),
        ("Private: tired", 39, 2, "private  for you alone"),
        ("todo: call", 39, 2, 'follow-up  for you alone\n"todo" is taken for Follow-up'),
        ("Next time: coda", 39, 2, "next time  for you alone"),
        ("Mum: tired", 39, 2, 'remark  for the family\n"Mum:" is no label'),
        ("Private she cried", 39, 2, 'remark  for the family\n"Private" has no colon'),
        ("Gavotte mm. 1-8", 39, 2, "remark  for the family  end adds Piece:"),
        ("Sonata: mm. 1-8", 39, 3, 'remark  for the family\n"Sonata:" is no label  end adds Piece:'),
        ("Scales: {D major}, 5 min", 60, 2, "assignment: scales  for the family  D E F♯ G A B C♯ D\n2 sharps: F♯ C♯  D major  5 min"),
        ("nice {chord F#7}", 60, 2, "remark  for the family  F♯ A♯ C♯ E"),
        ("Private: {B F", 60, 2, "private  for you alone"),
        ("Private: {D majr}", 60, 2, "private  for you alone\n{D majr} is not read; {D major} works"),
        ("{rhythm 4/4 q q q}", 60, 2, "remark  for the family  1 2 3\nmeasure 1 is missing a quarter"),
        ("", 39, 2, ""),
    ],
)  # fmt: skip
def test_where_room_is_short_tempo_and_minutes_are_said_first(line, width, most, rows):
    assert understood_rows(line, width, most) == rows


@examples(120)
@given(st.sampled_from([SCALES, GAVOTTE]), st.integers(1, 120), st.integers(1, 3))
def test_what_is_understood_never_takes_more_rows_than_there_are(line, width, most):
    rows = understood_rows(line, width, most).split("\n")
    assert len(rows) <= most
    if width >= 35 and most >= 2:
        assert all(cell_len(row) <= width for row in rows)
        assert "5 min" in " ".join(rows)
        assert "for the family" in rows[0]


def test_the_counts_name_assignments_remarks_and_private_lines_beside_minutes(tmp_path):
    async def steps(opened):
        await opened.press("enter")
        for line in ("Etude: no. 3, 10 min", "lovely", "Private: tired", "next time: coda"):
            await opened.type(line)
            await opened.press("enter")
        for size, counts in (
            ((150, 40), "3 assignments  1 remark  ▒ 2 private        15 of 20 min"),
            ((80, 24), "3 asked  1 remark  ▒ 2   15 of 20 min"),
            ((44, 24), "3 asked  1 remark  ▒ 2      15 of 20 min"),
        ):
            await opened.pilot.resize_terminal(*size)
            await opened.done()
            assert row(opened, "#count") == counts, size
            assert cell_len(counts) <= opened.notes.query_one("#count", Static).content_size.width, size

    on_screen(tmp_path, steps)


def test_a_line_that_looks_like_an_assignment_gets_its_label_by_the_key_that_takes_a_suggestion(tmp_path):
    async def steps(opened):
        await opened.press("enter")
        await opened.type("Bourree mm. 1-8 zq zq")
        opened.notes.text.propose_with(None, None)
        assert "end adds Piece:" in row(opened, "#understood-line")
        await opened.press("end")
        assert opened.body("Ilse").endswith("\nPiece: Bourree mm. 1-8 zq zq")
        assert "assignment: piece" in row(opened, "#understood-line")
        await opened.press("ctrl+z")
        assert opened.body("Ilse").endswith("\nBourree mm. 1-8 zq zq")

    on_screen(tmp_path, steps)


def test_a_label_never_takes_the_place_of_a_private_end_of_the_line(tmp_path):
    async def steps(opened):
        await opened.press("enter")
        await opened.type("Bourree mm. 1-8 private: tired")
        opened.notes.text.propose_with(None, None)
        await opened.press("end")
        assert opened.body("Ilse").endswith("\nBourree mm. 1-8 private: tired")

    on_screen(tmp_path, steps)


def test_a_goal_is_shown_with_its_day_and_what_is_wrong_with_it():
    typed = TypedOn(on=date(2026, 12, 1))
    line = "Goal: the Mill, by dec 19"
    rows = understood.understood_rows(read_line(line), None, 80, 1, typed=typed)
    assert rows == "goal  for the family  by Saturday, December 19, 2026"
    rows = understood.understood_rows(read_line("Goal: the Mill by 19 decc"), None, 44, 3, typed=typed)
    assert '"decc" is not understood.' in rows


def test_things_to_get_are_shown_one_by_one_or_counted_where_there_is_no_room():
    line = "Get: size 3/4 strings (A, D), book 2"
    assert understood_rows(line, 80, 1) == "to get  for the family  size 3/4 strings (A, D)  book 2"
    assert understood_rows(line, 40, 1) == "to get  for the family  2 things"
    assert understood_rows(line, 24, 1) == "to get  for the family"
