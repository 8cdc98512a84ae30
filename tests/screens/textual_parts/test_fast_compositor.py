"""Painting only what was touched, against Textual's own way of painting: a terminal shows the same."""

import asyncio
import random

import pyte
import pytest
from support.screens import PAINT, on_screen
from textual._compositor import Compositor
from textual.app import App
from textual.geometry import Region
from textual.widgets import TextArea

from cockpit.screens.textual_parts.fast_compositor import FastCompositor, FastScreen
from cockpit.screens.textual_parts.fast_text_area import FastTextArea


def paint(terminal, app, update):
    """Puts an update on a terminal."""
    pyte.Stream(terminal).feed(update.render_segments(app.console))


def cells(terminal):
    return [[terminal.buffer[y][x] for x in range(terminal.columns)] for y in range(terminal.lines)]


@pytest.mark.parametrize(
    ("size", "open_key"),
    [
        pytest.param(size, key, marks=() if (row - column) % 3 == 0 else pytest.mark.long)
        for row, size in enumerate([(44, 20), (80, 40), (150, 45)])
        for column, key in enumerate([None, "f12", "f8"])
    ],
)
def test_any_part_is_painted_as_textual_paints_it(tmp_path, size, open_key):
    async def steps(opened):
        if open_key is not None:
            await opened.press(open_key)
        compositor = opened.app.screen._compositor
        assert isinstance(compositor, FastCompositor)
        width, height = size
        chance = random.Random(f"{size} {open_key}")
        lean, stock = pyte.Screen(width, height), pyte.Screen(width, height)
        for number in range(60):
            regions = {
                Region(x, y, 1 + chance.randrange(width - x), 1 + chance.randrange(min(4, height - y)))
                for x, y in [(chance.randrange(width), chance.randrange(height))] * chance.randint(1, 3)
            }
            for terminal, kind in ((lean, FastCompositor), (stock, Compositor)):
                compositor._dirty_regions = set(regions)
                renders = kind._get_renders
                compositor._get_renders = lambda crop=None, renders=renders: renders(compositor, crop)
                whole = number % 20 == 0
                paint(terminal, opened.app, compositor.render_update(full=whole, screen_stack=opened.app.screen_stack))
            assert cells(lean) == cells(stock), regions

    on_screen(tmp_path, steps, size=size)


def test_changes_far_apart_are_all_painted_and_nothing_between_them_is_drawn(tmp_path):
    async def steps(opened):
        compositor, app = opened.app.screen._compositor, opened.app
        chance = random.Random(7)
        for _ in range(20):
            rows = chance.sample(range(24), 3)
            regions = {Region(chance.randrange(40), row, 1 + chance.randrange(40), 1) for row in rows}
            shown = []
            for kind in (FastCompositor, Compositor):
                compositor.shown.forget()
                compositor._dirty_regions = set(regions)
                drawn, renders = [], kind._get_renders

                def noted(crop=None, renders=renders, drawn=drawn):
                    for region, clip, strips in renders(compositor, crop):
                        drawn.extend(region.intersection(clip).line_range)
                        yield region, clip, strips

                compositor._get_renders = noted
                terminal = pyte.Screen(80, 24)
                paint(terminal, app, compositor.render_update(screen_stack=app.screen_stack))
                shown.append((cells(terminal), set(drawn)))
            (lean, drawn), (stock, _) = shown
            assert lean == stock, regions
            assert drawn == set(rows)

    on_screen(tmp_path, steps, size=(80, 24))


def test_only_the_parts_that_were_touched_draw_themselves(tmp_path):
    async def steps(opened):
        compositor = opened.app.screen._compositor
        region = opened.day.query_one("#text").region
        drawn = [(at.size, len(strips)) for at, _, strips in compositor._get_renders(Region(region.x, region.y, 9, 1))]
        assert len(drawn) < len(list(Compositor._get_renders(compositor, Region(region.x, region.y, 9, 1))))
        assert {lines for _, lines in drawn} == {1}

    on_screen(tmp_path, steps)


def test_a_screen_that_opens_is_painted_whole_once_and_not_before_all_in_it_has_its_size(tmp_path, monkeypatch):
    painted = []
    for name in ("render_full_update", "render_partial_update"):
        paints = getattr(FastCompositor, name)

        def noted(compositor, *more, name=name, paints=paints, **by_name):
            update = paints(compositor, *more, **by_name)
            painted.extend([name] * (update is not None))
            return update

        monkeypatch.setattr(FastCompositor, name, noted)

    async def steps(opened):
        monkeypatch.setattr(FastScreen, "_compositor_refresh", PAINT)  # by itself, as it does for her
        for key in ("f10", "f1", "f8"):
            times = []
            # A machine that is slow for a moment takes more than a frame, and paints what is there: the fewest count.
            while len(times) < 5 and 1 not in times:
                painted.clear()
                await opened.press(key)
                await opened.pilot.pause()
                assert painted[0] == "render_full_update", key
                times.append(painted.count("render_full_update"))
                await opened.press("escape")
            assert min(times) == 1, key

    on_screen(tmp_path, steps)


class Looks(App[None]):
    AUTO_FOCUS = None
    CSS = "TextArea.other .text-area--cursor-line { background: red; }"

    def compose(self):
        yield FastTextArea("one\ntwo", id="lean")
        yield TextArea("one\ntwo", id="stock")


@pytest.mark.parametrize("theme", ["textual-light", "nord", "textual-dark"])
@pytest.mark.parametrize("is_other", [False, True])
def test_a_new_look_reaches_the_cursor_and_its_line(theme, is_other):
    async def run():
        app = Looks()
        async with app.run_test(size=(40, 20)) as pilot:
            await pilot.pause()
            app.theme = theme
            for name in ("#lean", "#stock"):
                app.query_one(name).focus()
                app.query_one(name, TextArea).cursor_blink = False
                await pilot.pause()
            app.set_focus(None)
            await pilot.pause()
            for editor in app.query(TextArea):
                editor.set_class(is_other, "other")
            await pilot.pause()
            drawn = []
            for name in ("#lean", "#stock"):
                editor = app.query_one(name, TextArea)
                editor._line_cache.clear()
                strips = editor.render_lines(Region(0, 0, *editor.size))
                drawn.append([[(s.text, s.style) for s in strip.simplify()] for strip in strips])
            assert drawn[0] == drawn[1]

    asyncio.run(run())
