"""How the labels of a typed line are spelled: those kept from families, and those of assignments."""

import re
from collections.abc import Iterator
from functools import cache

# Zero widths, joiners, direction marks, soft hyphens: nobody sees them, and pasted text is full of them.
_UNSEEN = r"\u00ad\u061c\u180e\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufe0e\ufe0f\ufeff"
_SOME_UNSEEN = re.compile(f"[{_UNSEEN}]")
_COLONS = frozenset(":：﹕∶︓꞉")
_COLON = f"[{''.join(sorted(_COLONS))}]"
_ASIDE = r"(?:\s*[(\[][^()\[\]]*[)\]])?"  # Private (to her mother):
# 1. a) Private: possessive, as a label begins with a letter: tried again, "1) 1) 1) ..." would take its length squared.
_NUMBERED = r"[\W\d_]*+(?:[^\W_]{1,3}[.)][\W\d_]*+)?"


def kept_back_label(typed: str) -> tuple[str, int] | None:
    """The label that a line begins with, of those kept from families: its name in `Line`, and where it ends.

    It counts too when it is numbered, bracketed, quoted or set in stars. A dash beside a space does for the colon. A
    rest of the line without a letter or digit is no text, so that the label still stands alone.
    """
    return _name_and_end(_kept_back(_unseen_in(typed)).match(typed))


def area_label(typed: str) -> tuple[str, int] | None:
    """The label of an assignment that a line begins with: its name in `Area`, and where it ends."""
    return _name_and_end(_area(_unseen_in(typed)).match(typed)) if has_colon(typed) else None


def labels_within(typed: str, begins: int) -> Iterator[re.Match[str]]:
    """What is spelled as a label kept from families from a column on, with a colon."""
    return _within(_unseen_in(typed)).finditer(typed, begins)


def begins_private(typed: str) -> bool:
    """Whether a line begins with the word Private, with a colon behind it or not."""
    return _private_word(_unseen_in(typed)).match(typed) is not None


def has_colon(typed: str) -> bool:
    """Whether a line has any sign that is seen as a colon."""
    return not _COLONS.isdisjoint(typed)


def _name_and_end(label: re.Match[str] | None) -> tuple[str, int] | None:
    return (label.lastgroup or "", label.end()) if label else None


def _unseen_in(typed: str) -> str:
    """What the patterns for a line have to pass over.

    Patterns that pass over unseen letters take 8 ms to compile, and the first screen would wait for it. Nearly no line
    has any, and where there are none the patterns without them find the same.
    """
    return "" if typed.isascii() or not _SOME_UNSEEN.search(typed) else _UNSEEN


def _spelled(word: str, unseen: str) -> str:
    return f"[{unseen}]*".join(word) if unseen else word


def _dash(unseen: str) -> str:
    return rf"[\s{unseen}\u2010-\u2015\u2212_-]*"


def _labels(unseen: str) -> tuple[tuple[str, str], ...]:
    dash = _dash(unseen)
    return (
        ("PRIVATE", rf"{_spelled('private', unseen)}(?:[\s{unseen}]*(?:note|remark)s?)?"),
        ("FOLLOW_UP", rf"{_spelled('follow', unseen)}{dash}{_spelled('up', unseen)}s?"),
        ("NEXT_TIME", rf"{_spelled('next', unseen)}{dash}{_spelled('time', unseen)}"),
    )


@cache
def _kept_back(unseen: str) -> re.Pattern[str]:
    labels = "|".join(f"(?P<{name}>{spelling})" for name, spelling in _labels(unseen))
    ending = rf"{_ASIDE}(?:[\W_]*?{_COLON}[*_]*|\s+[-–—]+|[-–—]+(?=\s|$))"
    return re.compile(rf"{_NUMBERED}(?:{labels}){ending}(?:[\W_]*$)?", re.IGNORECASE)


@cache
def _within(unseen: str) -> re.Pattern[str]:
    labels = "|".join(spelling for _, spelling in _labels(unseen))
    return re.compile(rf"(?<![^\W_])(?:{labels}){_ASIDE}[\W_]*?{_COLON}", re.IGNORECASE)


@cache
def _private_word(unseen: str) -> re.Pattern[str]:
    return re.compile(rf"{_NUMBERED}{_spelled('private', unseen)}(?![^\W_])", re.IGNORECASE)


@cache
def _area(unseen: str) -> re.Pattern[str]:
    # One pattern for all: it is compiled before the first screen, and eleven would be 3 ms that she waits for.
    dash = _dash(unseen)
    spellings = {
        "WARM_UP": rf"warm{dash}ups?",
        "SCALES": "scales?",
        "TECHNIQUE": "techniques?",
        "ETUDE": "[eé]tudes?",
        "METHOD_BOOK": r"method(?:\s+book)?",
        "PIECE": "pieces?",
        "REVIEW": r"review(?:\s+pieces?)?",
        "THEORY": "theory",
        "EAR": r"ear(?:\s+training)?",
        "SIGHT_READING": rf"sight{dash}reading",
        "LISTENING": "listening",
    }
    areas = "|".join(f"(?P<{name}>{spelling})" for name, spelling in spellings.items())
    return re.compile(rf"[\s{unseen}•·*–—>-]*(?:{areas})[\s{unseen}]*{_COLON}", re.IGNORECASE)
