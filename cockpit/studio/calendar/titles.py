"""Whose lesson an event of a calendar is, by its title: a student of the studio, or a name among other words."""

import re
from collections.abc import Iterable, Mapping

from cockpit.studio.notes.spelling import is_near
from cockpit.studio.people.people import name_key

_POSSESSIVE = re.compile(r"['\u2019]s\b")
_TURNED = re.compile(r"(?P<last>[^\W\d_][\w'\u2019 -]*), (?P<first>[^\W\d_][\w'\u2019 -]*)")
_AROUND = (
    re.compile(r"(?:.*\b)?lessons? (?:with|for|of) (?P<name>.+)", re.IGNORECASE),
    re.compile(r"(?:\w+ )?lessons?\s*[:,\u2013\u2014-]\s*(?P<name>.+)", re.IGNORECASE),
    re.compile(r"(?P<name>.+?)(?:\s*[:,\u2013\u2014-])?(?: \w+)? lessons?", re.IGNORECASE),
)

_BETWEEN = re.compile(r"[^\w\s'\u2019.-]+|\s-\s")
_NAME_WORD = re.compile(r"[^\W\d_][\w'\u2019.-]*|[0-9]+")
_WITHIN_NAME = re.compile(
    r"a[lfpv]|bint?|d[aeiou]?|das|del|della|de[nrs]|dos|e|el|ibn|las?|le|los|te[nr]|v[ao]n|vom|y|zu[mr]?"
)
_FAMILY_WORDS = frozenset(("the", "family", "familie", "famille", "familia"))
_NO_NAMES = frozenset(("class", "lesson", "lessons", "make-up", "makeup", "moved", "new", "rescheduled", "trial"))


def students_near(title: str, students: Iterable[str]) -> tuple[str, ...]:
    """The students that a title may mean, the likeliest first.

    Those whose whole name stands in it, in whatever order, come before those of whom it has the first name, or is the
    last one, and these before those of whom it nearly is.
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
        elif (
            is_near(name, title)
            or any(is_near(own[0], word) for word in words)
            or (len(words) == 1 and is_near(own[-1], words[0]))
        ):
            ranked.append((3, name))
    return tuple(name for _, name in sorted(ranked))


def members_named(title: str, families: Mapping[str, Iterable[str]]) -> tuple[str, ...]:
    """The students of the family that a title names alone: `Brandvold`, `Brandvold family`; `families` are theirs by name."""
    words = set(_words(title)) - _FAMILY_WORDS
    return tuple(
        dict.fromkeys(name for family, names in families.items() if set(_words(family)) == words for name in names)
    )


def name_in(title: str) -> str | None:
    """The name in a title that is no name alone: `Lesson with Ilse`, `Berg, Anna`, `Mira (trial)`; None where it is one.

    It is the title itself where none is found in it.
    """
    for form in _AROUND:
        if found := form.fullmatch(title):
            return _POSSESSIVE.sub("", found["name"]).strip()
    turned = _TURNED.fullmatch(title)
    if turned is not None and turned["last"][0].isupper() and turned["first"][0].isupper():
        return f"{turned['first']} {turned['last']}"
    name, _, instrument = title.partition(", ")  # as our own calendar has it
    if _is_name(name) and all(
        word.islower() and word.isalpha() and word not in _NO_NAMES for word in instrument.split()
    ):
        return None
    return next((part.strip() for part in _BETWEEN.split(title) if _is_name(part.strip())), title)


def _is_name(text: str) -> bool:
    """Whether a text is made of words of a name alone: with a capital, or the small ones within a name."""
    first, *others = text.split() or [""]
    return _is_of_name(first) and all(_is_of_name(word) or _WITHIN_NAME.fullmatch(word) for word in others)


def _is_of_name(word: str) -> bool:
    return bool(_NAME_WORD.fullmatch(word)) and not word[0].islower() and word.casefold() not in _NO_NAMES


def _words(text: str) -> list[str]:
    plain = _POSSESSIVE.sub("", text)
    return name_key("".join(letter if letter.isalnum() else " " for letter in plain)).split()
