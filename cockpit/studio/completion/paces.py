"""How fast a student's tempos went up from week to week, in marks of the metronome."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from cockpit.studio.completion.number_changes import climb, is_tempo
from cockpit.studio.completion.steps import opening_of, steps_of, word_of
from cockpit.studio.notes.notes import Line, read_notes

_WEEKS = 12
_USUAL = (1.6, 1.6, 0.8, 0.2)  # as if four tempos had been heard before
_BY_LABEL = 3.0
Paces = Mapping[str, Sequence[int]]


def paces_of(bodies: Sequence[str]) -> Paces:
    """How often tempos stayed, went up by a mark, by two and so on, by label and in all (""); the newest note first."""
    found: dict[str, list[int]] = {"": [0] * len(_USUAL)}
    later: dict[tuple[str, str], int] = {}
    for body in bodies[:_WEEKS]:
        tempos = _tempos(body)
        for (label, topic), tempo in tempos.items():
            marks = climb(tempo, len(_USUAL))
            if (after := later.get((label, topic))) in marks:
                step = marks.index(after)
                found[""][step] += 1
                found.setdefault(label, [0] * len(_USUAL))[step] += 1
        later = tempos
    return found


def pace_in(paces: Paces, label: str) -> Sequence[float]:
    """The shares of tempos that stay, go up by a mark, by two and so on, in lines with a label; they are 1 together."""
    whole = paces.get("", (0,) * len(_USUAL))
    usual = [usual + count for usual, count in zip(_USUAL, whole, strict=True)]
    total = sum(usual)
    own = paces.get(label, (0,) * len(_USUAL))
    shares = [_BY_LABEL * each / total + count for each, count in zip(usual, own, strict=True)]
    return [each / sum(shares) for each in shares]


def _tempos(body: str) -> dict[tuple[str, str], int]:
    """The first tempo of each line that assigns something, by its label and first word."""
    found: dict[tuple[str, str], int] = {}
    for line in read_notes(body):
        if line.line is Line.ASSIGNMENT:
            opening = opening_of(f"{line.typed} ")
            steps = steps_of(line.text[:200])
            for before, step in pairwise(steps):
                digits = step.lstrip(" =.:")
                if digits.isdecimal() and len(digits) <= 3 and is_tempo(word_of(before), step[: -len(digits)]):
                    found.setdefault((opening.label, opening.topic), int(digits))
    return found
