"""The bytes that a terminal sends for keys, pastes and taps, read by the program's own parser into an open program."""

import asyncio
import itertools
import re
from collections.abc import Iterable, Iterator

from support.screens import Cockpit
from textual.message import Message

from cockpit.screens.textual_parts.pasting import PasteParser

BYTES = {
    "f2": "\x1bOQ", "f3": "\x1bOR", "f4": "\x1bOS", "f5": "\x1b[15~", "f6": "\x1b[17~", "f7": "\x1b[18~",
    "f8": "\x1b[19~", "f9": "\x1b[20~", "f10": "\x1b[21~", "f11": "\x1b[23~",
    "up": "\x1b[A", "down": "\x1b[B", "right": "\x1b[C", "left": "\x1b[D", "home": "\x1b[H", "end": "\x1b[F",
    "delete": "\x1b[3~", "tab": "\t", "escape": "\x1b",
}  # fmt: skip
_KEY = re.compile(r"\x1b\[200~.*?\x1b\[201~|\x1b\[<[\d;]+M\x1b\[<[\d;]+m|\x1b\[[\d;]*[A-Za-z~]|\x1bO[A-Z]|.", re.DOTALL)


def in_pieces(typed: str, sizes: list[int] | None) -> Iterator[tuple[str, bool]]:
    """Bytes as reads of these sizes, again and again; without sizes, each key by itself.

    Each comes with whether it ends with the esc key, which is always the last of a read.
    """
    lengths = itertools.cycle(sizes or [1])
    rest = ""
    for key in _KEY.findall(typed):
        if sizes is None:
            yield key, key == "\x1b"
            continue
        rest += key
        if key == "\x1b":
            yield from _cut(rest, lengths, ends_with_esc=True)
            rest = ""
    yield from _cut(rest, lengths, ends_with_esc=False)


def _cut(typed: str, lengths: Iterator[int], *, ends_with_esc: bool) -> Iterator[tuple[str, bool]]:
    while typed:
        size = next(lengths)
        yield typed[:size], ends_with_esc and size >= len(typed)
        typed = typed[size:]


class TypedBytes:
    """A terminal before an open program."""

    def __init__(self, opened: Cockpit) -> None:
        self._opened = opened
        self._parser = PasteParser()
        self._typed_at = 0.0

    async def read(self, piece: str, *, is_esc: bool = False) -> None:
        """Has the program read bytes at once; `is_esc` says that the last of them is the esc key, and no beginning."""
        self._let_in(self._parser.feed(piece))
        if is_esc:
            self._parser._timeout_time = 0.0
            self._let_in(self._parser.tick())
        await asyncio.sleep(0)

    def _let_in(self, events: Iterable[Message]) -> None:
        """A tenth of a second after one another on whatever machine: what is a word or two letters goes by that."""
        for event in events:
            self._typed_at += 0.1
            event.time = self._typed_at
            self._opened.app._driver.process_message(event)

    async def rest(self) -> None:
        """Waits until everything has been done and painted, and a moment longer."""
        await asyncio.sleep(0.01)
        while (order := self._opened.app._input_order) is not None and order.is_busy():
            await asyncio.sleep(0.001)

    async def state(self) -> dict[str, object]:
        """All that the keys left: what is stored, what is written, what is shown."""
        app, day = self._opened.app, self._opened.day
        folder = self._opened.folder
        return {
            "stored": [
                row for row in self._opened.studio.store.connection.iterdump() if "_sqlite_migrations" not in row
            ],
            "written": {path.name: path.read_text() for path in sorted(folder.glob("notes/*/*"))},
            "shown": self._opened.shown,
            "text": self._opened.notes.text.text,
            "cursor": self._opened.notes.text.selection,
            "screens": [type(screen).__name__ for screen in app.screen_stack],
            "focus": (app.focused.id, type(app.focused).__name__) if app.focused is not None else None,
            "said": day.query_one("#notice").sentence,
            "clipboard": app.clipboard,
        }
