"""The editor that repaints little against the stock one, which repaints everything: not one cell may differ.

Two things are compared after each step: the strips that both would draw from scratch, and what a terminal would still
show of the lean one if only the parts were painted that it asked to be painted.
"""

import asyncio
import random

import pytest
from textual.app import App
from textual.containers import Horizontal
from textual.geometry import Offset
from textual.widgets import TextArea

from cockpit.screens.textual_parts.fast_text_area import FastTextArea

WORDS = ("scale ", "漢字 ", "é", "x", "\t", "\n", "a long word that goes on ", "(", ")", "👩‍🎤 ", "Private:", "\n\n")
START = "\n".join(f"Line {n} " + "word " * (n % 9) for n in range(14))


class Stock(TextArea):
    """The stock one, without two faults of Textual 8.2.8.

    It looks for a cursor on a line that was just taken back, and brings it into view before it knows that the text has
    grown, so that a new line below the pane is not seen until the next key.
    """

    def edit(self, edit):
        result = super().edit(edit)
        self.scroll_cursor_visible()
        return result

    def scroll_cursor_visible(self, center=False, animate=False):
        is_there = self.cursor_location[0] < self.document.line_count
        return super().scroll_cursor_visible(center, animate) if is_there else Offset()


class SideBySide(App[None]):
    AUTO_FOCUS = None
    CSS = "TextArea { width: 1fr; border: none; padding: 0; } #space { width: 0; }"

    def compose(self):
        with Horizontal():
            for kind, name in ((FastTextArea, "lean"), (Stock, "stock")):
                yield kind(START, id=name, soft_wrap=True, show_line_numbers=False, highlight_cursor_line=True)

    def on_mount(self):
        for editor in self.query(TextArea):
            editor.cursor_blink = False
            editor.match_cursor_bracket = False  # as in the notes
            editor.has_focus = True  # only one can have it; both are to show their cursor


def strips_of(editor):
    """The whole editor, drawn anew, as text and styles; its own focus set aside."""
    editor._line_cache.clear()
    return [
        [(segment.text, segment.style) for segment in editor.render_line(y).simplify()]
        for y in range(editor.scrollable_content_region.height)
    ]


class Remembered:
    """What a terminal still shows of an editor: its rows as they were last painted."""

    def __init__(self, editor):
        self.editor = editor
        self.rows = {}
        self.waiting = set()
        self.whole = True
        self.place = (editor.scroll_offset, editor.size)
        self.refresh, self.refresh_lines = editor.refresh, editor.refresh_lines
        editor.refresh, editor.refresh_lines = self.on_refresh, self.on_refresh_lines

    def on_refresh(self, *regions, repaint=True, layout=False, recompose=False):
        if repaint and not regions:
            self.whole = True
        for region in regions:
            self.waiting.update(range(region.y, region.bottom))
        return self.refresh(*regions, repaint=repaint, layout=layout, recompose=recompose)

    def on_refresh_lines(self, y_start, line_count=1):
        top = self.editor.scroll_offset.y
        self.waiting.update(range(y_start - top, y_start - top + line_count))
        return self.refresh_lines(y_start, line_count)

    def paint(self, drawn):
        stale = []
        place = (self.editor.scroll_offset, self.editor.size)  # Textual paints all of what was scrolled or resized
        self.whole, self.place = self.whole or place != self.place, place
        for y, row in enumerate(drawn):
            if self.whole or y in self.waiting or y not in self.rows:
                self.rows[y] = row
            elif self.rows[y] != row:
                stale.append(y)
        self.waiting, self.whole = set(), False
        return stale


def steps_of(seed, count):
    """Steps as functions of one editor, the same for both."""
    chance = random.Random(seed)

    def somewhere(editor, spot):
        line = int(spot[0] * editor.document.line_count)
        return line, int(spot[1] * (len(editor.document[line]) + 1))

    def step():
        spots = [(chance.random(), chance.random()) for _ in range(2)]
        word = chance.choice(WORDS)
        pasted = "".join(chance.choice(WORDS) for _ in range(6))
        select = chance.random() < 0.3
        choices = {
            "type": lambda e: e._replace_via_keyboard(word, *e.selection),
            "paste": lambda e: e._replace_via_keyboard(pasted, *e.selection),
            "go": lambda e: e.move_cursor(somewhere(e, spots[0])),
            "select": lambda e: e.move_cursor(somewhere(e, spots[1]), select=True),
            "up": lambda e: e.action_cursor_up(select),
            "down": lambda e: e.action_cursor_down(select),
            "left": lambda e: e.action_cursor_left(select),
            "end": lambda e: e.action_cursor_line_end(select),
            "page": lambda e: e.action_cursor_page_down(),
            "backspace": lambda e: e.action_delete_left(),
            "delete word": lambda e: e.action_delete_word_left(),
            "delete line": lambda e: e.action_delete_line(),
            "load": lambda e: e.load_text(pasted),
            "undo": lambda e: e.action_undo(),
            "redo": lambda e: e.action_redo(),
            "all": lambda e: e.action_select_all(),
            "scroll": lambda e: e.scroll_to(y=spots[0][0] * 8, animate=False, immediate=True),
        }
        weights = [12, 2, 4, 4, 3, 3, 3, 2, 1, 6, 2, 2, 1, 4, 3, 1, 2]
        name = chance.choices(list(choices), weights)[0]
        return name, choices[name]

    return [step() for _ in range(count)]


@pytest.mark.parametrize("seed", [0, *(pytest.param(seed, marks=pytest.mark.long) for seed in (1, 2))])
def test_the_lean_editor_shows_what_the_stock_one_shows(seed):
    async def run():
        app = SideBySide()
        async with app.run_test(size=(60, 12)) as pilot:
            await pilot.pause()
            lean, stock = app.query_one("#lean", FastTextArea), app.query_one("#stock", TextArea)
            shown = Remembered(lean)
            shown.paint(strips_of(lean))
            taken = []
            for number, (name, step) in enumerate(steps_of(seed, 120)):
                taken.append(name)
                for editor in (lean, stock):
                    step(editor)
                if number % 40 == 39:
                    await pilot.resize_terminal(44 + 2 * (number % 11), 10 + number % 7)
                await pilot.pause()
                assert lean.text == stock.text, taken[-5:]
                assert lean.selection == stock.selection, taken[-5:]
                assert lean.scroll_offset == stock.scroll_offset, taken[-5:]
                drawn = strips_of(lean)
                assert shown.paint(drawn) == [], taken[-5:]
                assert drawn == strips_of(stock), taken[-5:]
            assert len(set(taken)) > 12

    asyncio.run(run())
