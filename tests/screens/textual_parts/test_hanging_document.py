"""The notes on the screen: rows that hang, a gutter, and labels in a color of their own."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
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
