"""A typed line cut into tokens, a sign or space and the word behind it, and what a token can be known by."""

import re
from collections.abc import Sequence
from functools import lru_cache

from cockpit.studio.notes.notes import Line, read_line
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.values import Value

# Whatever a run of signs ends with matches, so that no sign is looked at twice; the last one ends the line.
_TOKEN = re.compile(r"[\W_]*+(?:[^\W\d_]++(?:['’][^\W\d_]++)*|\d++|\Z)")
_DIGITS = re.compile(r"\d+")
_NOT_IN_WORDS = " \t.,;:!?()[]{}\"'’‘“”-–—=/*+&#"
_LONGEST_LABEL, _LONGEST_OPENING = 32, 80
_KINDS = {
    "whole": "extent", "all": "extent", "end": "extent", "separately": "hands", "together": "hands", "alone": "hands",
    "hs": "hands", "ht": "hands", "lh": "hands", "rh": "hands", "only": "hands", "heart": "by heart", "memory": "by heart",
}  # fmt: skip
END = "\n"
Context = tuple[str | int, ...]
_WITHOUT_AREA = {
    Line.TO_GET: "get", Line.PRIVATE: "private", Line.FOLLOW_UP: "follow-up", Line.NEXT_TIME: "next time",
}  # fmt: skip


class LineOpening(Value):
    """How a line begins: its label as typed with the space after it, what it is, and the first word that follows.

    `label` is an area, the name of what is to be got or is kept back, or "" for a remark; `topic` is "" where nothing follows yet.
    """

    typed: str = ""
    label: str = ""
    topic: str = ""
    is_kept_back: bool = False


START = LineOpening(label="^")


@lru_cache(maxsize=4000)
def _label(head: str, labels: Labels) -> tuple[str, bool]:
    read = read_line(f"{head} x", labels)  # behind a label alone nothing is to be got yet
    if read.area is not None:
        return str(read.area), False
    return _WITHOUT_AREA.get(read.line, ""), read.line.is_kept_back


def opening_of(line: str, labels: Labels = BUILT_IN) -> LineOpening:
    """How a line begins, told from its first letters only."""
    return _opening(line[:_LONGEST_OPENING], labels)


@lru_cache(maxsize=4000)
def _opening(head: str, labels: Labels) -> LineOpening:
    colon = head.find(":", 0, _LONGEST_LABEL)
    label, is_kept_back = _label(head[: colon + 1], labels) if colon >= 0 else ("", False)
    if not label:
        return LineOpening()
    behind = colon + 1
    while behind < len(head) and head[behind].isspace():
        behind += 1
    first = _TOKEN.match(head, behind)
    topic = "" if is_kept_back or first is None or first.end() >= len(head) else shape_of(first[0])
    return LineOpening(typed=head[:behind], label=label, topic=topic, is_kept_back=is_kept_back)


def tokens_of(text: str) -> list[str]:
    """The tokens of a text; joined they are the text. Signs at its end are a token of their own."""
    return [token for token in _TOKEN.findall(text) if token]


@lru_cache(maxsize=20000)
def shape_of(token: str) -> str:
    """A token without case, and with its number told only as one."""
    return _DIGITS.sub("#", token.lower())


@lru_cache(maxsize=20000)
def word_of(token: str) -> str:
    """The word of a token, without case and signs; numbers are all one."""
    shape = shape_of(token)
    return "#" if shape.endswith("#") else shape.strip(_NOT_IN_WORDS)


@lru_cache(maxsize=20000)
def kind_of(token: str) -> str:
    """What part of an assignment a token ends, or its word: measures and "whole" say the same thing."""
    if token[-1:].isdigit():
        return "tempo" if "=" in token else "extent" if token[:1] in "-–" else "#"
    word = word_of(token)
    return _KINDS.get(word, word)


def opening_contexts(above: LineOpening) -> tuple[Context, ...]:
    """What the beginning of a line can be known by, from general to special: the line above it."""
    return ((0,), (0, above.label), (0, above.label, above.topic))


def contexts(opening: LineOpening, topic: str, before: Sequence[str], whole: str) -> tuple[Context, ...]:
    """What the next token can be known by, from general to special.

    `before` are the tokens of the line so far without the label, `whole` their text without case and numbers, or "" in
    a line that is too long to be known by its whole.
    """
    label = opening.label
    first = before[-1] if before else "^"
    second = before[-2] if len(before) > 1 else "^"
    third = before[-3] if len(before) > 2 else "^"
    word, token = word_of(first), shape_of(first)
    found: list[Context] = [(1, word), (2, label, word), (3, word_of(second), word)]
    if topic:
        found += ((4, label, topic, word), (9, label, topic, kind_of(first)))
    found.append((5, shape_of(third), shape_of(second), token))
    if topic:
        found.append((6, label, topic, shape_of(second), token))
    if whole or not before:
        found.append((7, label, whole))
    if first[-1].isdigit():
        found.append((8, label, topic, word_of(second), first))
    return tuple(found)
