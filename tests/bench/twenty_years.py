"""What reads far ahead or goes back a step, with 20 years of lessons against none; processor time, the best of five.

`python tests/bench/twenty_years.py`. Goals with 20 years: coming up and undo at most 150 ms each, and so the calendar file.
"""

import contextlib
import io
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.real_terminal import make_studio
from typing_and_finishing import add_years

from cockpit.cli.calendar import calendar
from cockpit.clock import SetClock
from cockpit.wiring import studio_at

AT = datetime(2026, 12, 1, 22, 12, tzinfo=UTC)
WEEKS = 12


def milliseconds(do: Callable[[], object], before: Callable[[], object] = lambda: None) -> float:
    spans = []
    for _ in range(5):
        before()
        begins = time.process_time()
        do()
        spans.append(time.process_time() - begins)
    return min(spans) * 1000


def measured(folder: Path) -> Iterator[tuple[str, float]]:
    with studio_at(folder, SetClock(AT), to_write=True) as studio:
        desk = studio.desk
        desk.day.open()
        yield "coming up", milliseconds(lambda: desk.ahead.outlook(WEEKS))
        yield "the year", milliseconds(desk.ahead.year)
        yield "the week", milliseconds(lambda: desk.ahead.week(AT.date()))
        yield "undo", milliseconds(desk.teaching.undo, desk.teaching.mark_absent)
    yield "the calendar file", milliseconds(lambda: calendar(folder, None, None, folder / "all.ics"))


def main() -> None:
    found = []
    for years in (0, 20):
        with tempfile.TemporaryDirectory() as name, contextlib.redirect_stdout(io.StringIO()):
            folder = Path(name) / "studio"
            make_studio(folder)
            if years:
                add_years(folder)
            found.append(dict(measured(folder)))
    none, many = found
    for what, span in many.items():
        print(f"{what}: {span:.0f} ms, against none {span / none[what]:.1f}")


if __name__ == "__main__":
    main()
