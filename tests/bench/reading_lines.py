"""One line of an assignment understood anew, at the 99th percentile, beside what telling its label costs.

`python tests/bench/reading_lines.py [ROUNDS]`. Goals: 0.2 ms a line at the 99th percentile, a line of 100 kB no dearer
than one of 50 kB, and its label told in twice the time. A line that was read before costs a look into a dictionary, and
is not measured.
"""

import random
import statistics
import sys
import time
from collections.abc import Callable

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.no_labels import no_label
from cockpit.studio.notes.notes import Line, NoteLine, read_line

LABELS = ("Piece", "Scales", "Etude", "Method book", "Review", "Technique", "Warm-up", "Theory", "Sight-reading")
PARTS = (
    "The Old Mill", "Gavotte in G major", "Minuet", "slowly, with the whole bow", "no. 12", "#5", "op. 59/2", "BWV 846",
    "mm. 17-32", "mm. 1-8, 17-24, 117-24", "m. 32 to the end", "pickup to m. 9", "letter B to C", "mm. 32-17", "m10",
    "q = 72", "q. = 60", "♩ = 60-72", "dotted quarter = ca. 80", "72 bpm", "M.M. 72", "60 -> 92", "up to 96", "HS", "RH only",
    "hands together", "D major", "a min mel.", "C#m", "B flat major", "2 oct", "three octaves", "3x", "5 times a day", "x3",
    "10 min", "five minutes a day", "10'", "M W F", "Mon, Wed & Fri", "T/Th", "daily", "in turns", "p. 12", "pp. 12-13",
    "listen for the change of bow before the octave", "cresc. to m. 5, then a tempo", "watch 4th finger (low) and the 2nd ending",
)  # fmt: skip
ONE_EACH = "mm17-32 q=72 HS 3x 5min"


def corpus(lines: int = 2000) -> list[NoteLine]:
    """Invented lines of one to eight parts; the same at every run."""
    drawn = random.Random(20261201)
    typed = (
        f"{drawn.choice(LABELS)}: {drawn.choice((' ', ', ', ', ')).join(drawn.sample(PARTS, drawn.randint(1, 8)))}"
        for _ in range(lines)
    )
    return [read_line(each) for each in (*typed, f"Piece: {ONE_EACH}")]


def seconds_each(work: Callable[[NoteLine], object], lines: list[NoteLine], rounds: int) -> list[float]:
    """The least seconds that each line took in some rounds, sorted: the program's own, not the machine's other work."""
    least = [float("inf")] * len(lines)
    for _ in range(rounds):
        for at, line in enumerate(lines):
            begins = time.perf_counter()
            work(line)
            least[at] = min(least[at], time.perf_counter() - begins)
    return sorted(least)


def told(line: NoteLine) -> None:
    """Tells what a line is by its label, and what looks like one in it, as if for the first time."""
    read_line.__wrapped__(line.typed)
    no_label.__wrapped__(line.typed, line.begins, is_assigned=line.line is Line.ASSIGNMENT)


def seconds_of_long(length: int) -> float:
    line = read_line("Piece: " + f"{ONE_EACH}, " * (length // (len(ONE_EACH) + 2)))
    return seconds_each(read_assignment.__wrapped__, [line], 20)[0]


def seconds_of_numbered(length: int) -> float:
    line = read_line("1) " * (length // 3))
    return seconds_each(told, [line], 3)[0]


def main() -> None:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    lines = corpus()
    reading = seconds_each(read_assignment.__wrapped__, lines, rounds)
    telling = seconds_each(told, lines, rounds)
    at_99 = int(len(lines) * 0.99)
    print(
        f"{len(lines)} lines of {statistics.mean(len(line.text) for line in lines):.0f} characters: "
        f"p50 {statistics.median(reading) * 1000:.3f} ms, p99 {reading[at_99] * 1000:.3f} ms; "
        f"read_line p50 {statistics.median(telling) * 1000:.3f} ms, p99 {telling[at_99] * 1000:.3f} ms; "
        f"ratio p50 {statistics.median(reading) / statistics.median(telling):.1f}, p99 {reading[at_99] / telling[at_99]:.1f}"
    )
    half, whole = seconds_of_long(50_000), seconds_of_long(100_000)
    print(f"50 kB {half * 1000:.2f} ms, 100 kB {whole * 1000:.2f} ms, ratio {whole / half:.2f}")
    half, whole = seconds_of_numbered(50_000), seconds_of_numbered(100_000)
    print(f"label of 50 kB of numbers {half * 1000:.2f} ms, of 100 kB {whole * 1000:.2f} ms, ratio {whole / half:.2f}")


if __name__ == "__main__":
    main()
