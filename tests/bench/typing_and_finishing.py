"""A key in the notes pane, and the finish key, in a real terminal; without and with twenty years of lessons.

`python tests/bench/typing_and_finishing.py [KEYS]`. Goals: a key at most 8 ms at the 99th percentile and 130 bytes; finish to the
next student's notes at most 150 ms; with 40,000 lessons no slower than with none.
"""

import contextlib
import sqlite3
import statistics
import sys
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support.real_terminal import STARTED, RealTerminal, make_studio

_COLUMNS = (
    "id, student_id, standing_time_id, kind, instrument, starts_at, minutes, began_at, finished_at, outcome, "
    "gives_full_length, is_reopened"
)


def add_years(folder: Path, lessons: int = 40_000) -> None:
    """Taught lessons with notes, spread over the roster's students, back from November 2026."""
    with contextlib.closing(sqlite3.connect(folder / "studio.db")) as connection, connection:
        standing = connection.execute("SELECT id, student_id, instrument, minutes FROM standing_time").fetchall()
        newest = datetime(2026, 11, 24, 15, tzinfo=UTC)
        rows, notes = [], []
        for number in range(lessons):
            standing_id, student_id, instrument, minutes = standing[number % len(standing)]
            at = (newest - timedelta(minutes=260 * number)).isoformat(timespec="microseconds")
            rows.append(
                (f"old-{number}", student_id, standing_id, "weekly", instrument, at, minutes, at, at, None, 0, 0)
            )
            notes.append(
                (f"old-{number}", f"Scales: D major, week {number}\nPiece: The Old Mill mm. 1-32\nWell done.", at)
            )
        connection.executemany(f"INSERT INTO lesson ({_COLUMNS}) VALUES ({','.join('?' * 12)})", rows)
        connection.executemany("INSERT INTO note VALUES (?, ?, ?)", notes)
    connection.close()


def measure(folder: Path, keys: int) -> tuple[list[float], list[int], float]:
    """Seconds and bytes of each key, and seconds from the finish key to the next student's notes."""
    spans, sizes = [], []
    with RealTerminal(
        "--at", "2026-12-01 16:05", "--folder", str(folder), program=STARTED, columns=90, rows=28
    ) as terminal:
        terminal.wait_for("NOTES FOR ILSE")
        terminal.key("f2")
        terminal.wait_for("has begun")
        terminal.send("Scales: warming up\r")
        for _ in range(4):  # since the start time's own work; the clock paints once a second for ever
            terminal.read(0.6)
        for number in range(keys):
            before, begins = len(terminal.written), time.perf_counter()
            terminal.send("abcdefghij klmno"[number % 16] if number % 30 != 29 else "\r")
            terminal.read(1.0)
            spans.append(time.perf_counter() - begins)
            while terminal.read(0.03):
                pass
            sizes.append(len(terminal.written) - before)
        begins = time.perf_counter()
        terminal.key("f9")
        terminal.wait_for("NOTES FOR MIREILLE")
        return spans, sizes, time.perf_counter() - begins


def main() -> None:
    keys = int(sys.argv[1]) if len(sys.argv) > 1 else 200
    finishes, medians = [], []
    for years in (0, 20):
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name) / "studio"
            make_studio(folder)
            if years:
                add_years(folder)
            spans, sizes, finish = measure(folder, keys)
        ordered = sorted(spans)
        medians.append(statistics.median(spans))
        finishes.append(finish)
        print(
            f"{years} years: key p50 {medians[-1] * 1000:.1f} ms, p99 {ordered[int(len(ordered) * 0.99)] * 1000:.1f} ms, "
            f"bytes p50 {statistics.median(sizes):.0f}, mean {statistics.mean(sizes):.0f}; finish {finish * 1000:.0f} ms"
        )
    print(f"20 years against none: key {medians[1] / medians[0]:.2f}, finish {finishes[1] / finishes[0]:.2f}")


if __name__ == "__main__":
    main()
