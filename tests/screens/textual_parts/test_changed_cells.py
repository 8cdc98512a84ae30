"""Writing only cells that changed: a terminal shows what it would if all had been written."""

import pyte
from hypothesis import given
from hypothesis import strategies as st
from rich.console import Console
from rich.segment import Segment
from rich.style import Style
from support.screens import on_screen
from textual.geometry import Region
from textual.strip import Strip

from cockpit.screens.textual_parts.changed_cells import ChangedCells

COLUMNS, ROWS = 12, 3
CONSOLE = Console(color_system="truecolor", force_terminal=True)
STYLES = [
    Style.parse(style)
    for style in (
        "#eeeeee on #222222",
        "bold #ff0000 on #222222",
        "underline #eeeeee on #222222",
        "reverse #eeeeee on #222222",
        "#222222 on #eeeeee",
        "bold italic #222222 on #eeeeee",
        "dim #eeeeee on #222222",
        "underline2 #eeeeee",
        "bold red on #222222",
        "#eeeeee on #222222 link https://example.org",
    )
]
# A wide letter has two cells, and a mark none of its own.
SIGNS = st.sampled_from(["a", "b", " ", " ", " ", "é", "●", "日", "e\u0301"])
LINES = st.lists(st.tuples(SIGNS, st.sampled_from(STYLES)), min_size=COLUMNS, max_size=COLUMNS)
EDITS = st.lists(
    st.tuples(
        st.integers(0, ROWS - 1), st.integers(0, COLUMNS - 1), st.sampled_from([*"ab ", "日"]), st.sampled_from(STYLES)
    ),
    max_size=4,
)
"""Cells that change from one picture to the next: row, column, sign, style."""


def strip_of(line):
    return Strip([Segment(sign, style) for sign, style in line]).crop(0, COLUMNS)


def seen(terminal):
    """What one sees: letters of one color on another, whichever way they were asked for; the color of the letter in a blank is not."""
    cells = [terminal.buffer[y][x] for y in range(ROWS) for x in range(COLUMNS)]
    upright = [cell._replace(fg=cell.bg, bg=cell.fg, reverse=False) if cell.reverse else cell for cell in cells]
    return [cell._replace(fg="") if cell.data == " " and not cell.underscore else cell for cell in upright]


@given(st.lists(LINES, min_size=ROWS, max_size=ROWS), st.lists(EDITS, min_size=3, max_size=9))
def test_a_terminal_shows_what_it_would_if_all_were_written(picture, steps):
    changed = ChangedCells()
    lean, stock = pyte.Screen(COLUMNS, ROWS), pyte.Screen(COLUMNS, ROWS)
    for edits in [[], *steps]:
        for y, x, sign, style in edits:
            picture[y][x] = sign, style
        parts = [(0, y, strip_of(line)) for y, line in enumerate(picture)]
        pyte.Stream(lean).feed(changed.written(CONSOLE, parts))
        pyte.Stream(stock).feed("".join(f"\x1b[{y + 1};1H{strip.render(CONSOLE)}" for _, y, strip in parts))
        assert seen(lean) == seen(stock)


def test_a_style_alone_is_a_change_and_so_is_the_ground_of_a_blank():
    for sign, styles in (
        ("a", STYLES[:2]),
        (" ", [STYLES[0], STYLES[2]]),
        (" ", [STYLES[0], Style.parse("on #333333")]),
    ):
        changed = ChangedCells()
        before, after = (strip_of([(sign, style)] * COLUMNS) for style in styles)
        changed.written(CONSOLE, [(0, 0, before)])
        assert changed.written(CONSOLE, [(0, 0, after)]) == f"\x1b[1;1H{after.simplify().render(CONSOLE)}"


def test_a_part_of_a_line_is_known_by_its_column():
    changed = ChangedCells()
    changed.written(CONSOLE, [(0, 0, strip_of([("a", STYLES[0])] * COLUMNS))])
    part = strip_of([("b", STYLES[0])] * COLUMNS).crop(4, 6)
    assert changed.written(CONSOLE, [(4, 0, part)]) == f"\x1b[1;5H{STYLES[0].render('bb')}"
    assert changed.written(CONSOLE, [(4, 0, part)]) == ""


def test_a_line_with_a_wide_letter_is_written_again_until_the_whole_screen_is():
    changed, wide = ChangedCells(), strip_of([("日", STYLES[0])] * COLUMNS)
    narrow = strip_of([("a", STYLES[0])] * COLUMNS)
    changed.written(CONSOLE, [(0, 0, narrow)])
    assert changed.written(CONSOLE, [(0, 0, wide)])
    assert changed.written(CONSOLE, [(0, 0, narrow)])


def test_nothing_is_written_of_what_is_shown_and_all_of_it_once_that_is_forgotten():
    changed, line = ChangedCells(), [(0, 0, strip_of([("a", STYLES[0])] * COLUMNS))]
    whole = changed.written(CONSOLE, line)
    assert changed.written(CONSOLE, line) == ""
    changed.forget()
    assert changed.written(CONSOLE, line) == whole


def test_one_changed_cell_is_written_alone_and_a_style_once():
    changed = ChangedCells()
    changed.written(
        CONSOLE, [(0, 0, strip_of([("a", STYLES[0])] * COLUMNS)), (0, 1, strip_of([("a", STYLES[0])] * COLUMNS))]
    )
    line = [("a", STYLES[0])] * 3 + [("b", STYLES[0])] + [("a", STYLES[0])] * (COLUMNS - 4)
    before, after = STYLES[0].render("|").split("|")
    written = changed.written(CONSOLE, [(0, 0, strip_of(line)), (0, 1, strip_of(line))])
    assert written == f"\x1b[1;4H{before}b\x1b[2;4Hb{after}"


def test_the_program_shows_what_it_would_if_all_were_written(tmp_path):
    ways = [[*"Piece: Gavotte"], ["tab"], ["tab"], ["f1"], ["escape"], ["f10"], ["escape"], ["f6"], ["f6"], ["f5"]]

    async def steps(opened):
        width, height = opened.app.size
        lean, stock = pyte.Screen(width, height), pyte.Screen(width, height)
        screen = None
        for keys in ways:
            for key in keys:
                await opened.press(key)
                compositor = opened.app.screen._compositor
                pyte.Stream(stock).feed("".join(_all_written(compositor, opened.app.console)))
                halves = {Region(0, 0, width, height // 2), Region(0, height // 2, width, height - height // 2)}
                compositor._dirty_regions = halves
                is_new, screen = screen is not opened.app.screen, opened.app.screen
                update = compositor.render_update(full=is_new, screen_stack=opened.app._background_screens)
                pyte.Stream(lean).feed(update.render_segments(opened.app.console))
                shown = [
                    [[terminal.buffer[y][x].data for x in range(width)] for y in range(height)]
                    for terminal in (lean, stock)
                ]
                assert shown[0] == shown[1], key

    on_screen(tmp_path / "studio", steps, size=(100, 30))


def _all_written(compositor, console):
    for y, strip in enumerate(compositor.render_strips()):
        yield f"\x1b[{y + 1};1H{strip.render(console)}"
