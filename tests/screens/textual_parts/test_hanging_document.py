"""The notes on the screen: rows that hang, a gutter, and labels in a color of their own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.screens import on_screen
from textual.document._document import Document
from textual.geometry import Offset

from cockpit.screens.textual_parts.hanging_document import HANG, HangingDocument


@given(st.text("ab cé日\t", max_size=60), st.integers(4, 30), st.data())
def test_a_place_is_found_again_where_it_is_drawn_and_rows_after_the_first_hang(text, width, data):
    document = HangingDocument(Document(text))
    document.wrap(width, tab_width=4)
    column = data.draw(st.integers(0, len(text)))
    at = document.location_to_offset((0, column))
    assert document.offset_to_location(at) == (0, column)
    if at.y:
        assert at.x >= HANG
        assert document.offset_to_location(Offset(0, at.y)) == document.offset_to_location(Offset(HANG, at.y))


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("Scales: D major 2 oct, q=76 to 92, 5 min", ["Scales: D major 2 oct, q=76 to 92, ", "5 min"]),
        ("Piece: The Old Mill, all of it, mm. 17-40", ["Piece: The Old Mill, all of it, ", "mm. 17-40"]),
        ("Lovely tone on the C string today, whole", ["Lovely tone on the C string today, ", "whole"]),
        ("Lovely tone on the C string todays bow", ["Lovely tone on the C string todays ", "bow"]),
        ("Lovely tone on the C string today bow", ["Lovely tone on the C string today bow"]),
        ("a" * 75, ["a" * 37, "a" * 35, "a" * 3]),
    ],
)
def test_the_first_row_is_as_long_as_the_room_and_a_number_keeps_its_unit(text, rows):
    document = HangingDocument(Document(text))
    document.wrap(37)
    assert document.lines == [rows]
    again = HangingDocument(Document(""), width=37)
    end = again.document.replace_range((0, 0), (0, 0), text).end_location
    again.wrap_range((0, 0), (0, 0), end)
    assert again.lines == [rows]


@given(st.text("ab 1.=-q,日", max_size=90), st.integers(3, 40))
def test_each_row_fits_and_ends_where_the_others_do(text, width):
    document = HangingDocument(Document(text))
    document.wrap(width)
    (first, *rest) = document.lines[0]
    assert "".join([first, *rest]) == text
    assert all(
        cell_len(row.rstrip()) <= width - HANG * bool(place) or len(row) == 1
        for place, row in enumerate([first, *rest])
    )


@pytest.mark.parametrize("line", ["Piece: The Old Mill", "Piece: Piece", "Etude #5: Etude"])
def test_the_label_of_an_assignment_has_the_color_of_what_is_asked_for(tmp_path, line):
    async def steps(opened):
        await opened.paste(line)
        text = opened.notes.text
        style = text.get_component_rich_style("notes-text--asked", partial=True)
        shown = text.get_line(text.cursor_location[0])
        colored = [str(shown)[span.start : span.end] for span in shown.spans if span.style == style]
        assert colored == [line[: line.index(":") + 2]]

    on_screen(tmp_path, steps)


@pytest.mark.parametrize(("line", "component"), [("Private: tired", "kept-back"), ("Piece: Gavotte", "asked")])
def test_a_line_has_its_color_also_while_it_is_typed(tmp_path, line, component):
    async def steps(opened):
        await opened.paste(line)
        text = opened.notes.text
        y = text.wrapped_document.location_to_offset(text.cursor_location).y
        color = text.get_component_rich_style(f"notes-text--{component}", partial=True).color
        (drawn,) = (part for part in text.render_line(y) if part.text.startswith(line.split(":")[0]))
        assert drawn.style.color == color

    on_screen(tmp_path, steps)


def test_private_lines_have_a_sign_in_the_gutter_and_no_label(tmp_path):
    async def steps(opened):
        await opened.paste("Private:\nPiece: not for them\n\nlovely")
        rows = [line[39:] for line in opened.drawn().splitlines()]
        assert any(row.strip().startswith("▒ Piece: not for them") for row in rows)
        assert any(row.strip() == "lovely" for row in rows)
        text = opened.notes.text
        style = text.get_component_rich_style("notes-text--asked", partial=True)
        hidden = next(n for n, each in enumerate(text.text.split("\n")) if each.startswith("Piece: not"))
        assert not any(span.style == style for span in text.get_line(hidden).spans)

    on_screen(tmp_path, steps)
