"""How the numbers of last week's line may go on this week, and how fast a student's tempos went up until now."""

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise

from cockpit.studio.completion.tokens import opening_of, tokens_of, word_of
from cockpit.studio.notes.notes import Line, read_notes
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.practice.metronome import next_mark

_NUMBER = re.compile(r"\d+\Z")
_BEATS = frozenset({"q", "h", "e", "♩", "quarter", "half", "eighth", "dotted", "metronome", "tempo", "mm", "crotchet"})
_MEASURES = frozenset({"mm", "m", "bars", "bar", "measures", "measure", "bb"})
_PAGES = frozenset({"p", "pp", "pg", "page", "pages"})
_FURTHER = {"hs": "HT", "separately": "together", "mm": " whole", "bars": " whole", "measures": " whole"}
_FURTHER_SHARE = 0.4
_DASHES = ("-", "–", " to ", "to")
_LONGEST = 3
Share = tuple[str, float]
_WEEKS = 12
_USUAL = (1.6, 1.6, 0.8, 0.2)  # as if four tempos had been heard before
_BY_LABEL = 3.0
Paces = Mapping[str, Sequence[int]]


def changes(before: Sequence[str], token: str, after: str, pace: Sequence[float]) -> tuple[Share, ...]:
    """The ways in which a token may come again, each with its share of 1; a token without a number only as it is.

    `before` are the tokens of the line in front of it, `after` the one behind it. `pace` are the shares of tempos that stay,
    go up by one mark of the metronome, by two, and so on.
    """
    number = _NUMBER.search(token)
    if number is None:
        return _of_word(token)
    if len(number[0]) > _LONGEST or not before:
        return ((token, 1.0),)
    value, signs = int(number[0]), token[: number.start()]
    shares = _of_value(before, value, signs, _second_of(after), pace)
    return tuple((f"{signs}{each}", share) for each, share in shares.items())


def _of_word(token: str) -> tuple[Share, ...]:
    """The ways of a word: from hands apart to hands together, from some measures to the whole piece."""
    word = word_of(token)
    further = _FURTHER.get(word)
    if further is None:
        return ((token, 1.0),)
    signs = "," if further == " whole" else token[: len(token) - len(word)]
    return ((token, 1.0 - _FURTHER_SHARE), (signs + further, _FURTHER_SHARE))


def _of_value(before: Sequence[str], value: int, signs: str, last: int, pace: Sequence[float]) -> dict[int, float]:
    word = word_of(before[-1])
    if is_tempo(word, signs):
        return _shares(*zip(climb(value, len(pace)), pace, strict=True))
    if word == "#" and signs in _DASHES and len(before) > 1:
        first = _value_of(before[-1])
        span = value - first + 1
        return _second(word_of(before[-2]), value, span)
    if word in _MEASURES:
        return _shares((value, 0.75), (last + 1 if last else value, 0.25))
    if word in _PAGES and last:
        return _shares((last + 1, 0.75), (value, 0.25))
    if word in _PAGES:
        return _shares((value + 1, 0.5), (value, 0.25), (value + 2, 0.25))
    return {value: 1.0}


def _second(word: str, value: int, span: int) -> dict[int, float]:
    if word in _PAGES:
        return _shares((value + 2, 0.5), (value + 1, 0.25), (value, 0.25))
    if span <= 0 or word not in _MEASURES:
        return {value: 1.0}
    return _shares((value, 0.4), (value + span, 0.25), (value + 8, 0.2), (value + 4, 0.15))


def is_tempo(word: str, signs: str) -> bool:
    """Whether a number behind a word and signs is a tempo."""
    return ("=" in signs and word in _BEATS) or word in {"metronome", "tempo"}


def climb(tempo: int, count: int) -> list[int]:
    """A tempo and the marks above it, as many as are asked for."""
    found = [tempo]
    while len(found) < count:
        found.append(next_mark(found[-1]))
    return found


def moved_on(before: Sequence[str], token: str) -> tuple[str, str] | None:
    """The two tokens of a range that goes on where this one ends, as long as it; None where the token ends no range."""
    number = _NUMBER.search(token)
    first = _value_of(before[-1])
    if number is None or not first or token[: number.start()] not in _DASHES or len(number[0]) > _LONGEST:
        return None
    last = int(number[0])
    if last < first:
        return None
    signs = before[-1].rstrip("0123456789")
    return f"{signs}{last + 1}", f"{token[: number.start()]}{2 * last - first + 1}"


def _second_of(after: str) -> int:
    """The number of the token behind a number, where the two are a range; else 0."""
    return _value_of(after) if after.rstrip("0123456789") in _DASHES else 0


def _value_of(token: str) -> int:
    number = _NUMBER.search(token)
    return int(number[0]) if number is not None and len(number[0]) <= _LONGEST else 0


def _shares(*shares: tuple[int, float]) -> dict[int, float]:
    """Shares of equal values added up; they are 1 together."""
    found: dict[int, float] = {}
    for value, share in shares:
        found[value] = found.get(value, 0.0) + share
    return found


def paces_of(bodies: Sequence[str], labels: Labels = BUILT_IN) -> Paces:
    """How often tempos stayed, went up by a mark, by two and so on, by label and in all (""); the newest note first."""
    found: dict[str, list[int]] = {"": [0] * len(_USUAL)}
    later: dict[tuple[str, str], int] = {}
    for body in bodies[:_WEEKS]:
        tempos = _tempos(body, labels)
        for (label, topic), tempo in tempos.items():
            marks = climb(tempo, len(_USUAL))
            if (after := later.get((label, topic))) in marks:
                climbed = marks.index(after)
                found[""][climbed] += 1
                found.setdefault(label, [0] * len(_USUAL))[climbed] += 1
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


def _tempos(body: str, labels: Labels) -> dict[tuple[str, str], int]:
    """The first tempo of each line that assigns something, by its label and first word."""
    found: dict[tuple[str, str], int] = {}
    for line in read_notes(body, labels):
        if line.line is Line.ASSIGNMENT:
            opening = opening_of(f"{line.typed} ", labels)
            tokens = tokens_of(line.text[:200])
            for before, token in pairwise(tokens):
                digits = token.lstrip(" =.:")
                if digits.isdecimal() and len(digits) <= 3 and is_tempo(word_of(before), token[: -len(digits)]):
                    found.setdefault((opening.label, opening.topic), int(digits))
    return found
