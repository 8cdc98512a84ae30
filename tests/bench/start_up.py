"""Start to the first painted queue, against a bare Textual app with the same kinds of widgets; goal: at most 1.35.

`python tests/bench/start_up.py [PAIRS]`: the two in turn, in a real terminal, and the ratio of their medians.
"""

import statistics
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.real_terminal import STARTED, RealTerminal, make_studio

BARE = """
from textual.app import App
from textual.widgets import DataTable, Footer, Header, TextArea
class Bare(App):
    def compose(self):
        yield Header()
        yield DataTable()
        yield TextArea("Ilse")
        yield Footer()
Bare().run()
"""


def seconds_to(wanted: str, *arguments: str, program: tuple[str, ...] = STARTED) -> float:
    begins = time.perf_counter()
    with RealTerminal(*arguments, program=program) as terminal:
        terminal.wait_for(wanted)
        return time.perf_counter() - begins


def main() -> None:
    pairs = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "studio"
        make_studio(folder)
        ours, bare = [], []
        for _ in range(pairs):
            bare.append(seconds_to("Ilse", program=("-c", BARE)))
            ours.append(seconds_to("Ilse", "--at", "2026-12-01 16:05", "--folder", str(folder)))
    ratio = statistics.median(ours) / statistics.median(bare)
    print(
        f"bare {statistics.median(bare) * 1000:.0f} ms, cockpit {statistics.median(ours) * 1000:.0f} ms, ratio {ratio:.2f}"
    )


if __name__ == "__main__":
    main()
