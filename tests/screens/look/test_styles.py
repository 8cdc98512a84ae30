import asyncio
import shutil

from support.sample import taught
from support.screens import NEVER
from textual.geometry import Spacing

from cockpit.clock import SetClock
from cockpit.sample import history
from cockpit.screens.app import CockpitApp
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.opening import Opening
from cockpit.screens.textual_parts.heading import Title
from cockpit.wiring import studio_at


class HastyApp(CockpitApp):
    """One whose teacher pressed a key before the first screen was there."""

    def on_mount(self) -> None:
        super().on_mount()
        self.action_open_screen("cockpit.screens.day.day_review:DayReviewScreen")


def test_a_screen_that_is_opened_before_the_first_is_painted_has_its_styles(tmp_path):
    async def run() -> None:
        shutil.copytree(taught(history.MOMENT), tmp_path, dirs_exist_ok=True)
        with studio_at(tmp_path, SetClock(history.MOMENT), to_write=True) as studio:
            studio.desk.day.open()
            app = HastyApp(studio.desk, studio.settings, Opening(looks=bundled_looks(), idle_seconds=NEVER))
            async with app.run_test(size=(80, 40)) as pilot:
                await pilot.pause()
                title = app.screen.query_one(Title)
                assert title.styles.padding == Spacing(1, 1, 1, 1)
                assert title.outer_size.height == 3

    asyncio.run(run())
