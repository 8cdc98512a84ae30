"""How far the program's own way from the terminal to a key's handler shifts the intervals between taps.

`python tests/bench/tap_jitter.py [TAPS]`. A writer sends a key to a real pseudo-terminal every half second; a bare
application of the same framework notes when its handler is reached. Both read the same clock of the system, so that
each interval heard is held against the one that was sent. What the keyboard and the terminal's window add is not in
it. Said with it: how much a tempo of 120 from four taps can be off by that, worst and usual.
"""

import re
import statistics
import sys
import time
from itertools import pairwise
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.real_terminal import RealTerminal

from cockpit.studio.practice.tapping import FEWEST_TAPS, Taps

INTERVAL = 0.5  # a beat at 120
_LISTENER = """\
import time
from textual.app import App
from textual.widgets import Static

class Listener(App):
    heard = []

    def compose(self):
        yield Static("listening")

    def on_mount(self):
        self.set_interval(1, self.paint)  # as the clock of the lesson day does

    def paint(self):
        self.query_one(Static).update(f"listening {len(self.heard)}")

    def on_key(self, event):
        at = time.monotonic()
        if event.key == "q":
            self.exit(self.heard)
        else:
            self.heard.append(at)
            self.paint()

print("heard", *Listener().run(), "end")
"""


def sent_and_heard(taps: int) -> tuple[list[float], list[float]]:
    """The moments at which taps were written to the terminal, and those at which they were heard."""
    sent = []
    with RealTerminal(program=("-c", _LISTENER), columns=80, rows=24) as terminal:
        terminal.wait_for("listening")
        until(terminal, time.monotonic() + 1)
        first = time.monotonic()
        for number in range(taps):
            until(terminal, first + number * INTERVAL)
            sent.append(time.monotonic())
            terminal.send("t")
        until(terminal, time.monotonic() + INTERVAL)
        terminal.send("q")
        terminal.ended()
        said = re.search(rb"heard ([\d. \r\n]*) end", bytes(terminal.written))
        assert said is not None, "the listener did not say what it heard"
        return sent, [float(each) for each in said[1].split()]


def until(terminal: RealTerminal, at: float) -> None:
    """Takes in what is painted up to a moment; the last 20 ms only watch the clock, or the writer would jitter itself."""
    while (left := at - time.monotonic() - 0.02) > 0:
        terminal.read(left)
    while time.monotonic() < at:
        pass


def intervals(moments: list[float]) -> list[float]:
    return [later - earlier for earlier, later in pairwise(moments)]


def tempos(moments: list[float]) -> list[float]:
    """The tempo of every four taps in a row, not rounded."""
    groups = (moments[at : at + FEWEST_TAPS] for at in range(len(moments) - FEWEST_TAPS + 1))
    return [60 / statistics.median(intervals(group)) for group in groups]


def percentile(values: list[float], share: float) -> float:
    ordered = sorted(values)
    return ordered[min(int(len(ordered) * share), len(ordered) - 1)]


def main() -> None:
    taps = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    sent, heard = sent_and_heard(taps)
    assert len(sent) == len(heard), f"{len(sent)} taps were sent, {len(heard)} heard"
    delays = [1000 * (later - earlier) for earlier, later in zip(sent, heard, strict=True)]
    shifts = [1000 * abs(b - a) for a, b in zip(intervals(sent), intervals(heard), strict=True)]
    print(
        f"{taps} taps, {INTERVAL * 1000:.0f} ms apart: heard after p50 {statistics.median(delays):.2f} ms; "
        f"intervals off by p50 {statistics.median(shifts):.2f} ms, p99 {percentile(shifts, 0.99):.2f} ms"
    )
    off = [abs(b - a) for a, b in zip(tempos(sent), tempos(heard), strict=True)]
    made = Taps()
    for at in heard:
        made = made.with_tap(at)
    print(
        f"four taps at {60 / INTERVAL:.0f}: off by p50 {statistics.median(off):.2f}, at most {max(off):.2f} beats a minute; "
        f"all together they say {made.tempo()}"
    )


if __name__ == "__main__":
    main()
