"""A key in the notes beside one in Textual's own editor: processor time in one run, and bytes; with no key, bytes a second.

`python tests/bench/typed_key.py [BLOCKS]`: blocks of keys, the two in turn, each less what is used in as long without a key.
Goals: at most 0.7 of Textual's own, 130 bytes a key, 150 bytes a second. Linux alone tells processor time so finely.
"""

import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.real_terminal import STARTED, RealTerminal, make_studio

STOCK = """
from textual.app import App
from textual.widgets import TextArea
class Stock(App):
    def compose(self):
        yield TextArea("Scales: warming up\\n")
    def on_mount(self):
        self.query_one(TextArea).focus()
        self.query_one(TextArea).move_cursor((1, 0))
Stock().run()
"""
SIZE = {"columns": 90, "rows": 28}
APART = 0.06
LINE = "Scales: D major 2 oct, q=72 to 88, 5 min\r"
NO_KEYS = "\0" * len(LINE)


def processor_time(terminal: RealTerminal) -> float:
    """Milliseconds that the program's threads have run."""
    tasks = Path(f"/proc/{terminal.pid}/task").iterdir()
    return sum(int((task / "schedstat").read_text().split()[0]) for task in tasks) / 1e6


def spent(terminal: RealTerminal, letters: str) -> tuple[float, int]:
    """Milliseconds and bytes for some letters, each in its turn; NUL stands for no key."""
    began, written = processor_time(terminal), len(terminal.written)
    for letter in letters:
        until = time.monotonic() + APART
        if letter != "\0":
            terminal.send(letter)
        while (left := until - time.monotonic()) > 0:
            terminal.read(left)
    return processor_time(terminal) - began, len(terminal.written) - written


def measure(terminals: dict[str, RealTerminal], blocks: int) -> dict[str, tuple[float, float, float]]:
    """Of each: milliseconds a key, bytes a key, bytes a second without a key; medians of blocks in turn."""
    still = {name: [spent(terminal, NO_KEYS) for _ in range(4)] for name, terminal in terminals.items()}
    busy: dict[str, list[tuple[float, int]]] = {name: [] for name in terminals}
    for _ in range(blocks):
        for name, terminal in terminals.items():
            busy[name].append(spent(terminal, LINE))
    found = {}
    for name in terminals:
        (idle, calm), (work, moved) = (map(statistics.median, zip(*each[name], strict=True)) for each in (still, busy))
        found[name] = ((work - idle) / len(LINE), (moved - calm) / len(LINE), calm / len(LINE) / APART)
    return found


def main() -> None:
    blocks = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "studio"
        make_studio(folder)
        ours = RealTerminal("--at", "2026-12-01 16:05", "--folder", str(folder), program=STARTED, **SIZE)
        stock = RealTerminal(program=("-c", STOCK), TEXTUAL_FPS="120", **SIZE)
        with ours, stock:
            ours.wait_for("NOTES FOR ILSE")
            stock.wait_for("warming up")
            ours.key("f2")
            ours.wait_for("has begun")
            ours.send("Scales: warming up\r")
            for terminal in (ours, stock):
                spent(terminal, "\0" * 60)  # what is loaded after the start
            found = measure({"cockpit": ours, "stock": stock}, blocks)
    for name, (spent_ms, moved, still) in found.items():
        print(f"{name}: {spent_ms:.2f} ms and {moved:.0f} bytes a key; {still:.0f} bytes a second without one")
    print(f"cockpit against stock: {found['cockpit'][0] / found['stock'][0]:.2f}")


if __name__ == "__main__":
    main()
