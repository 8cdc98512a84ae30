"""Draws the README's picture: `python tests/support/picture.py`, from the sample studio."""

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

PICTURE = Path(__file__).parents[1] / "pictures" / "lesson-day.svg"


async def draw(folder: Path) -> str:
    (folder / "settings.toml").write_text(history.SETTINGS, encoding="utf-8")
    clock = SetClock(history.MOMENT)
    with studio_at(folder, clock, to_write=True) as studio:
        history.enroll(studio.enrolling)
        history.teach_history(studio.desk, clock, history.MOMENT)
        studio.desk.day.open()
        app = CockpitApp(studio.desk, studio.settings, Opening(looks=bundled_looks()))
        async with app.run_test(size=(88, 34)) as pilot:
            await pilot.pause()
            return app.export_screenshot(title="Lesson day")


if __name__ == "__main__":
    assert commands
    with tempfile.TemporaryDirectory() as folder:
        PICTURE.write_text(asyncio.run(draw(Path(folder))), encoding="utf-8")
