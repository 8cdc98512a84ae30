"""Keystrokes per character with completion, over a term of invented notes; the plain document has 1.0.

`python tests/bench/keystrokes.py`. KSPC is keys over characters with line ends (MacKenzie, "KSPC as a characteristic
of text entry techniques", 2002). A simulated typist writes the notes line by line, while the memory holds earlier
lessons only. At each point she takes the whole proposal if it is right as far as it goes, else its next word if that is
right, both of two characters at least, else she types a character; each is one key, and so is Enter. She never takes
what is wrong, and needs no key to look. Said beside it: what it were if she took the whole only where it is the whole
rest of her line, and at how many of 100 keys a proposal was shown that was wrong from its first letter.

How likely a proposal must be to be shown is a choice between the two: `python tests/bench/keystrokes.py curve` prints
both at several thresholds. One key of a hundred less with a wrong proposal costs 0.0016 keys a character up to 0.4,
0.0022 up to 0.5, 0.0033 up to 0.6, and from there on more and more. At 0.5, which was chosen, what is shown is likelier
right than wrong: 22 of 100 keys show a wrong one, where it was 45 when nearly all was shown, for 0.48 keys a character
in place of 0.45.

The notes held out, in another teacher's manner, were written before the first measurement. Their figures were seen
while tuning, but choices were made by the term. Those of other manners, hurried without labels and in whole sentences,
were written for the curve, and no choice before it saw them. The built-in words come from the same hand as the notes;
the sample studio's notes, made before and for another purpose, stand beside them for that.
"""

import statistics
import sys
import time
import tomllib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from cockpit.studio.completion import completion
from cockpit.studio.completion.completion import ghost, next_word
from cockpit.studio.completion.memory import Memory, memory_of

_NOTES = Path(__file__).parent / "term_of_notes"
_SAMPLE = Path(__file__).parents[2] / "cockpit" / "sample" / "history.toml"
_FEWEST = 2
_HELD_OUT_WEEKS = 6
Notes = Mapping[str, Sequence[str]]


@dataclass(kw_only=True)
class Tally:
    """Keys, characters and what was proposed."""

    keys: int = 0
    characters: int = 0
    shown: int = 0
    right: int = 0
    wrong: int = 0
    seconds: list[float] = field(default_factory=list)

    @property
    def kspc(self) -> float:
        return self.keys / self.characters if self.characters else 0.0

    def add(self, other: "Tally") -> None:
        self.keys += other.keys
        self.characters += other.characters
        self.shown += other.shown
        self.right += other.right
        self.wrong += other.wrong
        self.seconds += other.seconds


def read_notes_file(path: Path) -> list[str]:
    """The notes of one student, the oldest first."""
    _, *lessons = path.read_text(encoding="utf-8").split("\n== ")
    return [lesson.split("\n", 1)[1].strip("\n") for lesson in lessons]


def type_note(memory: Memory, body: str, *, to_the_end: bool = False) -> Tally:
    """Types a note; with how many keys."""
    tally = Tally(characters=len(body) + 1)
    above: list[str] = []
    for line in body.split("\n"):
        at = 0
        while at < len(line):
            begins = time.perf_counter()
            proposal = ghost(memory, above, line[:at])
            tally.seconds.append(time.perf_counter() - begins)
            taken = _taken(proposal, line[at:], to_the_end=to_the_end)
            tally.shown += bool(proposal)
            tally.wrong += bool(proposal) and not line.startswith(proposal[0], at)
            tally.right += taken > 1
            at += taken
            tally.keys += 1
        tally.keys += 1
        above.append(line)
    return tally


def _taken(proposal: str, rest: str, *, to_the_end: bool) -> int:
    """How many characters of the rest of a line the next key brings."""
    if len(proposal) >= _FEWEST and (rest == proposal if to_the_end else rest.startswith(proposal)):
        return len(proposal)
    word = next_word(proposal)
    return len(word) if len(word) >= _FEWEST and rest.startswith(word) else 1


def memory_before(notes: Notes, student: str, week: int) -> Memory:
    """What is remembered when a student's lesson of a week begins: nothing of that lesson or of later ones."""
    order = list(notes)
    others = [
        notes[other][: week + (order.index(other) < order.index(student))][::-1] for other in order if other != student
    ]
    return memory_of(
        bodies=notes[student][:week][::-1], others=others, names=[each for each in order if each != student]
    )


def type_term(notes: Notes, *, to_the_end: bool = False) -> dict[tuple[str, int], Tally]:
    """Types the lessons of all students week by week; by student and week."""
    return {
        (student, week): type_note(memory_before(notes, student, week), bodies[week], to_the_end=to_the_end)
        for week in range(max(map(len, notes.values())))
        for student, bodies in notes.items()
        if week < len(bodies)
    }


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
    lines_only = total(list(type_term(notes, to_the_end=True).values()))
    first = total([type_note(memory_of(), bodies[0]) for bodies in notes.values()])
    print(
        f"{name}: {whole.kspc:.3f} over {whole.characters} characters; first lessons, nothing remembered: {first.kspc:.3f}"
    )
    print(f"  if the whole is taken only where it is the rest of the line: {lines_only.kspc:.3f}")
    for at, what in enumerate(("student", "week")):
        parts = sorted({key[at] for key in tallies}, key=lambda part: (isinstance(part, str), part))
        costs = {part: total([tally for key, tally in tallies.items() if key[at] == part]).kspc for part in parts}
        shown = "  ".join(f"{part + 1 if isinstance(part, int) else part} {cost:.3f}" for part, cost in costs.items())
        print(f"  by {what}: {shown}")
    print(
        f"  of the proposals shown, {whole.right / whole.shown:.0%} were taken; at {whole.wrong / whole.keys:.0%} of the keys "
        "one was shown that was wrong from its first letter"
    )
    at_99 = int(len(whole.seconds) * 0.99)
    print(
        f"  a proposal: p50 {statistics.median(whole.seconds) * 1000:.3f} ms, p99 {sorted(whole.seconds)[at_99] * 1000:.3f} ms"
    )


def report_cost(notes: Notes) -> None:
    """Prints what making a memory costs, and proposals from a large one in long lines."""
    weeks = max(map(len, notes.values()))
    begins = time.perf_counter()
    student = next(iter(notes))
    memory_before(notes, student, weeks)
    print(f"A memory of {sum(map(len, notes.values()))} notes: {(time.perf_counter() - begins) * 1000:.0f} ms", end="")
    many = [f"{body}\nOnce more, {at} times" for at in range(4) for bodies in notes.values() for body in bodies]
    others = [many[at::20] for at in range(20)] * 3
    begins = time.perf_counter()
    memory = memory_of(bodies=many, others=others)
    first = time.perf_counter() - begins
    begins = time.perf_counter()
    memory_of(bodies=many[1:], others=[*others[1:], many[:12]])
    again = time.perf_counter() - begins
    print(f"; of {len(many) + sum(map(len, others))}: {first * 1000:.0f} ms, the next one {again * 1000:.0f} ms")
    long = ("hands separately, slowly, watch the fingering and keep the wrist loose, " * 15)[:1000]
    lines = [line[:at] for line in (*many[-1].split("\n"), *many[0].split("\n")) for at in range(len(line) + 1)]
    for name, asked in (
        ("from it", lines),
        ("in lines of 900 to 1000 characters", [long[:at] for at in range(900, 1000)]),
    ):
        seconds = []
        for line in asked:
            begins = time.perf_counter()
            ghost(memory, many[1].split("\n"), line)
            seconds.append(time.perf_counter() - begins)
        print(f"  a proposal {name}: p99 {sorted(seconds)[int(len(seconds) * 0.99)] * 1000:.3f} ms")


def report_curve(terms: Mapping[str, Notes]) -> None:
    """Prints keys a character against wrong proposals, at several thresholds."""
    for threshold in (0.06, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9):
        completion._LEAST_LIKELY = threshold
        sums = {name: total(list(type_term(notes).values())) for name, notes in terms.items()}
        said = (f"{name} {it.kspc:.3f}, {100 * it.wrong / it.keys:.1f} wrong" for name, it in sums.items())
        print(f"  shown from {threshold}: {'; '.join(said)} of 100 keys", flush=True)


def notes_in(folder: Path) -> Notes:
    """The notes of every student in a folder."""
    return {path.stem: read_notes_file(path) for path in sorted(folder.glob("*.txt"))}


def main() -> None:
    term = notes_in(_NOTES)
    report("A term of five students", term)
    six_weeks = total(list(type_term({who: bodies[:_HELD_OUT_WEEKS] for who, bodies in term.items()}).values()))
    print(f"  its first {_HELD_OUT_WEEKS} weeks, to hold the next figure against: {six_weeks.kspc:.3f}")
    report("Held out, two students", notes_in(_NOTES / "held_out"))
    report("Other manners, two students", notes_in(_NOTES / "other_manners"))
    history = tomllib.loads(_SAMPLE.read_text(encoding="utf-8"))
    history.pop("today")
    report(
        "The sample studio, two lessons each",
        {who: [body.strip("\n") for body in bodies] for who, bodies in history.items()},
    )
    report_cost(term)


if __name__ == "__main__":
    if sys.argv[1:] == ["curve"]:
        report_curve({folder: notes_in(_NOTES / folder) for folder in ("", "held_out", "other_manners")})
    else:
        main()
