"""A second cockpit on the same folder: everything can be looked at, nothing is changed, and each refusal is a sentence."""

import asyncio
import hashlib
import shutil

import pytest
from support.sample import sample_studio
from support.screens import Cockpit
from textual.widgets import OptionList, Static

from cockpit.screens.app import CockpitApp
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.opening import Opening
from cockpit.screens.typed_times.line import LineScreen
from cockpit.wiring import studio_at

LINES = {
    "m": "fri 4:30pm",
    "u": "fri 4:30pm",
    "e": "fri 4:30pm",
    "t": "nora bell thu 4pm phoenix",
    "s": "from 8 dec at 6 pm",
    "b": "dec 21 to jan 3 holidays",
    "p": "from jan 4 to jan 31",
}


def on_second(folder, steps) -> None:
    """Runs the steps of a test on a second cockpit, beside the first studio that holds the folder; it needs no screen."""

    async def run() -> None:
        folder.mkdir()
        with sample_studio(folder) as (first, clock), studio_at(folder, clock, to_write=True) as studio:
            studio.desk.day.open()
            app = CockpitApp(studio.desk, studio.settings, Opening(looks=bundled_looks()))
            async with app.run_test(size=(80, 40)) as pilot:
                await pilot.pause()
                await steps(Cockpit(app, pilot, studio, clock, folder), first)

    asyncio.run(run())


def rows(folder) -> str:
    copy = folder.parent / "copy.db"
    shutil.copy(folder / "studio.db", copy)
    return hashlib.sha256(copy.read_bytes() + (folder / "studio.db-wal").read_bytes()).hexdigest()


@pytest.mark.long
def test_each_line_is_refused_in_a_sentence(tmp_path):
    async def steps(second, _first):
        before = rows(second.folder)
        await second.press("tab", "tab")
        listing = second.day.query_one("#lessons", OptionList)
        listing.highlighted = [option.id for option in listing.options].index(second.id_of("Mireille"))
        for key, line in LINES.items():
            second.day.say("")
            await second.press(key)
            if isinstance(second.app.screen, LineScreen):
                await second.paste(line)
                await second.press("enter")
            if isinstance(second.app.screen, LineScreen) and second.app.screen._is_sure:  # it would collide, and asked
                await second.press("enter")
            if isinstance(second.app.screen, LineScreen):
                said = str(second.app.screen.query_one("#understood", Static).content)
                await second.press("escape")
            else:
                said = second.said
            assert "open in another cockpit" in said or "is not owed a make-up" in said, (key, said)
            assert rows(second.folder) == before, key

    on_second(tmp_path / "studio", steps)


@pytest.mark.long
def test_nothing_is_heard_or_carried(tmp_path):
    async def steps(second, _first):
        before = rows(second.folder)
        for keys in (("d",), ("x",), ("8", "4", "enter"), ("r",), ("c",)):
            second.day.say("")
            await second.press("escape", "tab", *keys)
            assert any(each in second.said for each in ("open in another cockpit", "lesson is finished", "Already")), (
                keys,
                second.said,
            )
            assert rows(second.folder) == before, keys

    on_second(tmp_path / "studio", steps)


def test_every_view_can_be_looked_at(tmp_path):
    async def steps(second, _first):
        before, seen = rows(second.folder), []
        for keys in (("ctrl+a",), ("ctrl+a", "y"), ("ctrl+b",), ("f10",), ("f1",)):
            await second.press(*keys)
            seen.append(type(second.app.screen))
            while second.app.screen is not second.day:
                await second.press("escape")
            assert rows(second.folder) == before, keys
        assert len({*seen, type(second.day)}) == 6

    on_second(tmp_path / "studio", steps)


def test_what_the_first_one_types_is_read(tmp_path):
    async def steps(second, first):
        first.desk.notes.write(second.id_of("Ilse"), "Ear: sing it")
        second.day.read_again()
        assert "sing it" in second.notes.text.text
        await second.type("no")
        assert second.body("Ilse") == "Ear: sing it"

    on_second(tmp_path / "studio", steps)
