"""The program on a screen without a terminal, on a studio whose notes go out at once."""

import asyncio
from collections.abc import Awaitable, Callable
from pathlib import Path

from support.outbox import posting_studio
from support.screens import Cockpit, painted_when_asked

from cockpit.desk.ports import Sender
from cockpit.screens.app import CockpitApp
from cockpit.screens.commands.own_keys import with_own_keys
from cockpit.screens.look.theming import bundled_looks
from cockpit.screens.opening import Opening


class Sending(Cockpit):
    """What a test does on the open program, until nothing is on its way any more."""

    async def settled(self) -> None:
        while self.app.workers:
            await self.app.workers.wait_for_complete()
            await self.pilot.pause()

    async def finish_first(self, body: str) -> None:
        """Teaches the first lesson of the day, Ilse Brandvold's, and waits until its notes are handed over."""
        self.clock.at = self.studio.desk.day.bookings[0].lesson.starts_at
        await self.press("f2")
        await self.type(body)
        await self.press("f9")
        await self.settled()


def on_sending_screen(
    folder: Path,
    sender: Sender | None,
    steps: Callable[[Sending], Awaitable[None]],
    way: str = "mail",
    sending: str = "wait_seconds = 0",
    size: tuple[int, int] = (80, 40),
) -> None:
    """Runs the steps of a test on the open program."""

    async def run() -> None:
        with posting_studio(folder, way, sending) as posted:
            posted.studio.desk.day.open()
            opening = Opening(looks=bundled_looks(), sender=sender)
            app = CockpitApp(posted.studio.desk, posted.studio.settings, opening, with_own_keys({}))
            with painted_when_asked():
                async with app.run_test(size=size) as pilot:
                    await pilot.pause()
                    await steps(Sending(app, pilot, posted.studio, posted.clock, folder))

    asyncio.run(run())
