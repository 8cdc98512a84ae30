"""What is kept from the families stands in italics, as the papers will have it, and changes as it is typed."""

import asyncio

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.screens import on_screen
from textual.app import App

from cockpit.screens.textual_parts.fast_text_area import NotesText
from cockpit.studio.notes.notes import Line, kept_back, read_notes


class Alone(App[None]):
    def compose(self):
        yield NotesText(soft_wrap=True)


def slanted(editor):
    """The lines in italics and the columns that these begin at, out of what is drawn."""
    return {
        number: span.start
        for number in range(editor.document.line_count)
        for span in editor.get_line(number).spans
        if not isinstance(span.style, str) and span.style.italic
    }


def seen_slanted(opened):
    """The words in italics of the notes as they are on the screen."""
    region = opened.notes.text.content_region
    rows = opened.app.screen._compositor.render_strips()[region.y : region.bottom]
    cut = [row.crop(region.x, region.right) for row in rows]
    return [word for row in cut if (word := "".join(s.text for s in row if s.style and s.style.italic).strip())]


def test_a_bare_label_covers_the_lines_below_it_as_it_is_typed(tmp_path):
    async def steps(opened):
        await opened.press("f5", "enter", "b", "e", "enter", "p", "enter", "enter", "o")
        assert seen_slanted(opened) == []
        opened.notes.text.move_cursor((0, 0))
        await opened.type("Private:")
        assert seen_slanted(opened) == ["Private:", "be", "p"]
        await opened.press("backspace")
        assert seen_slanted(opened) == []
        await opened.press(":", " ", "w")
        assert seen_slanted(opened) == ["Private: w"]
        await opened.press("ctrl+z")
        assert seen_slanted(opened) == [
            word.typed for word in read_notes(opened.body("Mireille")) if word.line is Line.PRIVATE and word.typed
        ]

    on_screen(tmp_path, steps)


def test_words_typed_at_once_stand_on_a_line_of_their_own(tmp_path):
    """A first `Private:` must not become the end of what the family was given before."""

    async def steps(opened):
        before = opened.body("Ilse")
        assert before
        assert not before.endswith("\n")
        await opened.type("Private: tired")
        assert opened.body("Ilse") == f"{before}\nPrivate: tired"
        assert seen_slanted(opened) == ["Private: tired"]

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_looking_at_notes_changes_nothing(tmp_path):
    async def steps(opened):
        ids = [booking.lesson.id for booking in opened.studio.desk.day.bookings]
        before = opened.studio.store.reading.notes(ids)
        await opened.press("f5", "f5", "f5", "escape", "tab", "tab", "tab", "f5")
        opened.app._tick()
        assert opened.studio.store.reading.notes(ids) == before

    on_screen(tmp_path, steps)


def test_a_label_in_the_middle_of_a_line_slants_the_rest_of_it(tmp_path):
    async def steps(opened):
        await opened.type("Scales: D (private: tired")
        assert seen_slanted(opened) == ["private: tired"]

    on_screen(tmp_path, steps)


def test_private_without_a_colon_is_told_of_before_the_family_gets_it(tmp_path):
    async def steps(opened):
        await opened.press("f5")
        await opened.type("Private mum is ill")
        opened.app._tick()
        await opened.pilot.pause()
        assert "Put a colon after Private" in opened.drawn()
        opened.notes.text.move_cursor((0, 7))
        await opened.press(":")
        opened.app._tick()
        await opened.pilot.pause()
        assert "Put a colon after Private" not in opened.drawn()

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_another_lesson_brings_its_own_private_lines(tmp_path):
    async def steps(opened):
        await opened.press("f5")
        await opened.type("Private:")
        assert seen_slanted(opened) == ["Private:"]
        await opened.press("f5", "enter", "x")
        assert seen_slanted(opened) == []

    on_screen(tmp_path, steps)


def test_any_text_is_slanted_as_the_papers_will_keep_it_back():
    pieces = st.sampled_from(
        [
            "Private:",
            "Follow-up: call",
            "Next time:",
            "word",
            "\n",
            "\r\n",
            "\n\n",
            "\u2028",
            "Piece: x",
            "  set in",
            " (private: ",
        ]
    )

    async def run():
        app = Alone()
        async with app.run_test():
            editor = app.query_one(NotesText)

            @examples(60, long=300)
            @given(st.lists(pieces, max_size=12), st.lists(pieces, max_size=4))
            def holds(loaded, typed):
                editor.load_text("".join(loaded))
                assert slanted(editor) == {n: c for n, c in kept_back(editor.text).items() if editor.document[n]}
                for piece in typed:
                    editor.insert(piece)
                    assert slanted(editor) == {n: c for n, c in kept_back(editor.text).items() if editor.document[n]}
                editor.undo()
                assert slanted(editor) == {n: c for n, c in kept_back(editor.text).items() if editor.document[n]}

            holds()

    asyncio.run(run())
