"""Draws the README's pictures: `python tests/support/picture.py`, from the sample studio."""

import asyncio
import tempfile
from pathlib import Path

from cockpit.cli import commands
from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.screens.app import CockpitApp
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.opening import Opening
from cockpit.wiring import studio_at

PICTURES = Path(__file__).parents[1] / "pictures"
KEYS = {"lesson-day": (), "preview": ("f11",), "end-of-day": ("f10",)}


async def draw(folder: Path, name: str) -> str:
    """A picture of the screen after its keys."""
    (folder / "settings.toml").write_text(history.SETTINGS, encoding="utf-8")
    clock = SetClock(history.MOMENT)
    with studio_at(folder, clock, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_history(studio.desk, clock, history.MOMENT)
        studio.desk.day.open()
        app = CockpitApp(studio.desk, studio.settings, Opening(looks=bundled_looks()))
        async with app.run_test(size=(88, 34)) as pilot:
            await pilot.pause()
            await pilot.press(*KEYS[name])
            await pilot.pause()
            return app.export_screenshot(title=name.replace("-", " ").capitalize())


if __name__ == "__main__":
    assert commands
    for each in KEYS:
        with tempfile.TemporaryDirectory() as temporary:
            PICTURES.joinpath(f"{each}.svg").write_text(asyncio.run(draw(Path(temporary), each)), encoding="utf-8")
