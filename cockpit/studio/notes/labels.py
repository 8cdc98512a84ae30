"""How the labels of assignments are spelled, and what looks like a label and is none."""

import re

from cockpit.studio.notes.kept_back import COLON, bare_label, has_sign
from cockpit.studio.notes.spelling import column_of, without_unseen

_DASH = r"[\s‐-―−_-]*"
_AREAS = {
    "WARM_UP": rf"warm{_DASH}ups?",
    "SCALES": "scales?",
    "TECHNIQUE": "techniques?",
    "ETUDE": "[eé]tudes?",
    "METHOD_BOOK": r"method(?:\s+book)?",
    "PIECE": "pieces?",
    "REVIEW": r"review(?:\s+pieces?)?",
    "THEORY": "theory",
    "EAR": r"ear(?:\s+training)?",
    "SIGHT_READING": rf"sight{_DASH}reading",
    "LISTENING": "listening",
}
# One pattern for all: it is compiled before the first screen, and eleven would be 3 ms that she waits for.
_AREA = re.compile(
    rf"[\s•·*–—>-]*(?:{'|'.join(f'(?P<{name}>{spelling})' for name, spelling in _AREAS.items())})\s*{COLON}",
    re.IGNORECASE,
)
_LETTERS = r"[^\W\d_]+(?:(?:[\s\u00a0]?[&/][\s\u00a0]?|[\s\u00a0'’-])[^\W\d_]+){0,5}"
_LOOKS = re.compile(
    rf"(?:^[\W_]*(?:[^\W_]{{1,3}}[.)][\W_]*)?|(?<=[.!?)–—-])\s+(?=[^\W\d_a-z]))(?P<words>{_LETTERS})"
    rf"(?:\s?{COLON}(?=\s|$)|{COLON}(?=[^\W_]))"
)
_BETWEEN_WORDS = re.compile(r"[\s&/]+")
_MOST_WORDS, _LENGTHS = 3, range(2, 26)


def area_label(typed: str) -> tuple[str, int] | None:
    """The label of an assignment that a line begins with: its name in `Area`, and where it ends."""
    if not has_sign(typed):
        return None
    line, columns = without_unseen(typed)
    label = _AREA.match(line)
    return (label.lastgroup or "", column_of(columns, label.end(), typed)) if label else None


def no_label(typed: str, begins: int = 0) -> str | None:
    """What looks like a label in a line that a family reads, from a column on, and is none: `Mum:`, or `Private` without a colon.

    A label has three words at the most; it begins the line, or stands with a capital behind the end of a sentence.
    """
    if (word := bare_label(typed[begins:])) is not None:
        return word
    line, _ = without_unseen(typed)
    for found in _LOOKS.finditer(line):
        words = found["words"]
        is_short = len(words) in _LENGTHS and len(_BETWEEN_WORDS.split(words)) <= _MOST_WORDS
        if is_short and found.start("words") >= begins:
            return f"{words}:"
    return None
