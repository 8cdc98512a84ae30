"""Whose lesson an event of a calendar is, by its title: a student of the studio, or a name among other words."""

import re
from collections.abc import Iterable

from cockpit.studio.people.people import name_key

_POSSESSIVE = re.compile(r"['\u2019]s\b")
_TURNED = re.compile(r"(?P<last>[^\W\d_][\w'\u2019 -]*), (?P<first>[^\W\d_][\w'\u2019 -]*)")
_AROUND = (
    re.compile(r"(?:.*\b)?lessons? (?:with|for|of) (?P<name>.+)", re.IGNORECASE),
    re.compile(r"(?:\w+ )?lessons?\s*[:,\u2013\u2014-]\s*(?P<name>.+)", re.IGNORECASE),
    re.compile(r"(?P<name>.+?)(?:\s*[:,\u2013\u2014-])?(?: \w+)? lessons?", re.IGNORECASE),
)


def students_near(title: str, students: Iterable[str]) -> tuple[str, ...]:
    """The students that a title may mean, the likeliest first.

    Those whose whole name stands in it, in whatever order, come before those of whom it has the first name, or is the
    last one.
    """
    words = _words(title)
    ranked = []
    for name in sorted(set(students)):
        own = _words(name)
        if not own:
            continue
        if f" {' '.join(own)} " in f" {' '.join(words)} ":
            ranked.append((0, name))
        elif set(own) <= set(words):
            ranked.append((1, name))
        elif own[0] in words or words == own[-1:]:
            ranked.append((2, name))
    return tuple(name for _, name in sorted(ranked))


def name_in(title: str) -> str | None:
    """The name in a title that has more than that: `Lesson with Ilse`, `Berg, Anna`; None where it is a name alone."""
    for form in _AROUND:
        if found := form.fullmatch(title):
            return _POSSESSIVE.sub("", found["name"]).strip()
    turned = _TURNED.fullmatch(title)
    if turned is None or not (turned["last"][0].isupper() and turned["first"][0].isupper()):
        return None
    return f"{turned['first']} {turned['last']}"


def _words(text: str) -> list[str]:
    plain = _POSSESSIVE.sub("", text)
    return name_key("".join(letter if letter.isalnum() else " " for letter in plain)).split()
