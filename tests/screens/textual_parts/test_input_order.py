"""The order of keys holds no key back for ever, whatever goes wrong with one."""

import asyncio

from support.screens import cockpit
from textual.events import Key

from cockpit.screens.textual_parts import input_order
from cockpit.screens.textual_parts.input_order import InputOrder


async def until(is_so):
    async with asyncio.timeout(10):
        while not is_so():
            await asyncio.sleep(0.001)


def test_a_screen_that_is_never_laid_out_holds_no_key_back_for_ever(tmp_path, monkeypatch):
    monkeypatch.setattr(input_order, "_PATIENCE", 0.05)
    came = []

    async def steps():
        async with cockpit(tmp_path) as opened:
            order = InputOrder(opened.app, lambda event: came.append(event.key) is None)
            with opened.app.batch_update():
                opened.app.screen.refresh(layout=True)
                for key in "ab":
                    order.take(Key(key, key))
                await until(lambda: len(came) == 2)

    asyncio.run(steps())
    assert came == ["a", "b"]


def test_a_key_that_fails_holds_the_next_ones_not_back(tmp_path):
    came, failed = [], []

    def let_in(event):
        came.append(event.key)
        if event.key == "a":
            raise ValueError("refused")
        return True

    async def steps():
        async with cockpit(tmp_path) as opened:
            asyncio.get_running_loop().set_exception_handler(lambda _, found: failed.append(found["exception"]))
            order = InputOrder(opened.app, let_in)
            opened.app.screen.refresh(layout=True)
            for key in "ab":
                order.take(Key(key, key))
            await until(lambda: "a" in came)
            await asyncio.sleep(0)
            order.take(Key("c", "c"))
            await until(lambda: len(came) == 3)

    asyncio.run(steps())
    assert came == ["a", "b", "c"]
