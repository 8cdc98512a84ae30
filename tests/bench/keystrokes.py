"""Keystrokes per character with completion, over a term of invented notes; the plain document has 1.0.

`python tests/bench/keystrokes.py`. KSPC is keys over characters with line ends (MacKenzie, "KSPC as a characteristic
of text entry techniques", 2002). A simulated typist writes the notes line by line, while the memory holds earlier
lessons only. At each point she takes the whole proposal if it is exactly the rest of her line and two characters at
least, else its next word if that is what she wants and two characters at least, else she types a character; each is
one key, and so is Enter. She accepts only what is right, and never types something else for the sake of a proposal.
Goals: 0.45 over the term, 0.8 for a first lesson without any notes before it.
"""

import statistics
import time
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cockpit.studio.completion import ghost, next_word
from cockpit.studio.memory import Memory, memory_of

_NOTES = Path(__file__).parent / "term_of_notes"
_SAMPLE = Path(__file__).parents[2] / "cockpit" / "sample" / "history.toml"
_FEWEST = 2
IS_STRICT = False
Notes = Mapping[str, Sequence[str]]


@dataclass(kw_only=True)
class Tally:
    """Keys, characters and what was proposed."""

    keys: int = 0
    characters: int = 0
    shown: int = 0
    right: int = 0
    seconds: list[float] = field(default_factory=list)

    @property
    def kspc(self) -> float:
        return self.keys / self.characters if self.characters else 0.0

    def add(self, other: "Tally") -> None:
        self.keys += other.keys
        self.characters += other.characters
        self.shown += other.shown
        self.right += other.right
        self.seconds += other.seconds


def read_notes_file(path: Path) -> list[str]:
    """The notes of one student, the oldest first."""
    _, *lessons = path.read_text(encoding="utf-8").split("\n== ")
    return [lesson.split("\n", 1)[1].strip("\n") for lesson in lessons]


def type_note(memory: Memory, body: str) -> Tally:
    """Types a note; with how many keys."""
    tally = Tally(characters=len(body) + 1)
    above: list[str] = []
    for line in body.split("\n"):
        at = 0
        while at < len(line):
            begins = time.perf_counter()
            proposal = ghost(memory, above, line[:at])
            tally.seconds.append(time.perf_counter() - begins)
            taken = _taken(proposal, line[at:])
            tally.shown += bool(proposal)
            tally.right += taken > 1
            at += taken
            tally.keys += 1
        tally.keys += 1
        above.append(line)
    return tally


def _taken(proposal: str, rest: str) -> int:
    """How many characters of the rest of a line the next key brings."""
    if len(proposal) >= _FEWEST and (rest == proposal if IS_STRICT else rest.startswith(proposal)):
        return len(proposal)
    word = next_word(proposal)
    return len(word) if len(word) >= _FEWEST and rest.startswith(word) else 1


def type_term(notes: Notes) -> dict[tuple[str, int], Tally]:
    """Types the lessons of all students week by week; by student and week."""
    tallies: dict[tuple[str, int], Tally] = {}
    for week in range(max(map(len, notes.values()))):
        for student, bodies in notes.items():
            if week < len(bodies):
                order = list(notes)
                others = [
                    notes[other][: week + (order.index(other) < order.index(student))]
                    for other in notes
                    if other != student
                ]
                memory = memory_of(
                    bodies=bodies[:week][::-1], others=others, names=[each for each in notes if each != student]
                )
                tallies[student, week] = type_note(memory, bodies[week])
    return tallies


def total(tallies: Sequence[Tally]) -> Tally:
    """All of them together."""
    found = Tally()
    for each in tallies:
        found.add(each)
    return found


def report(name: str, notes: Notes) -> None:
    """Prints a term by student and by week."""
    tallies = type_term(notes)
    whole = total(list(tallies.values()))
    first = total([type_note(memory_of(), bodies[0]) for bodies in notes.values()])
    students = "  ".join(
        f"{each} {total([tally for (who, _), tally in tallies.items() if who == each]).kspc:.3f}" for each in notes
    )
    weeks = "  ".join(
        f"{week + 1}: {total([tally for (_, when), tally in tallies.items() if when == week]).kspc:.3f}"
        for week in range(max(map(len, notes.values())))
    )
    print(
        f"{name}: term {whole.kspc:.3f} of {whole.characters} characters; first lessons {first.kspc:.3f} of {first.characters}"
    )
    print(f"  by student  {students}")
    print(f"  by week  {weeks}")
    print(f"  of the proposals shown {whole.right / whole.shown:.0%} had the next word right")
    at = sorted(whole.seconds)
    print(f"  a proposal p50 {statistics.median(at) * 1000:.3f} ms, p99 {at[int(len(at) * 0.99)] * 1000:.3f} ms")


def main() -> None:
    report("Term", {path.stem: read_notes_file(path) for path in sorted(_NOTES.glob("*.txt"))})
    report("Held out", {path.stem: read_notes_file(path) for path in sorted((_NOTES / "held_out").glob("*.txt"))})
    history = tomllib.loads(_SAMPLE.read_text(encoding="utf-8"))
    history.pop("today")
    report("Sample", {who: [body.strip("\n") for body in bodies] for who, bodies in history.items()})


if __name__ == "__main__":
    main()
