"""The words of a typed line that says when: each run of words is read as one part, or the line is refused."""

import difflib
import re
import unicodedata
from collections.abc import Mapping
from itertools import chain

from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.words import MONTHS
from cockpit.studio.clocks.zones import near_zones
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.parts import Part, ZoneName
from cockpit.studio.typed_times.places import name_at, place_at, place_key, spoken
from cockpit.studio.typed_times.rules import RULES

_EXAMPLE = 'Type a day, a time, and a length, such as "thu 4:30 pm 45 min".'
_LONGEST = 120
_BETWEEN = re.compile(r"[ ,;.]*")
_FILLER = re.compile(r"(?:on|at|@|the|lesson|[-–—])(?=[ ,;]|$)")
_BRACKETS = str.maketrans("()", "  ")
_ISO_T = re.compile(r"(?<=-[0-9]{2})t(?=[0-9])")
_WORD = re.compile(r"[^ ,;]+")
_CALENDAR_WORDS = (
    *(name.casefold() for name in (*WEEKDAYS, *MONTHS)),
    *("today", "tomorrow", "tonight", "yesterday", "morning", "afternoon", "evening", "next", "noon", "week"),
    *("weeks", "days", "hour", "minutes", "quarter", "half"),
)  # fmt: skip
_MOST_UNKNOWN = 4


class NotUnderstood(BadInput):
    """A word means nothing; `found` says which, without the line that would work where a moment is asked for."""

    def __init__(self, found: str, works: str = "") -> None:
        super().__init__(f"{found} {_EXAMPLE}{works}")
        self.found = found


def read_parts(text: str, also: Mapping[str, str]) -> tuple[Part, ...]:
    """The parts of a line in their order; `also` maps names of people to zones.

    Raises:
        BadInput: nothing is written, or a word means nothing here.
    """
    said = " ".join(unicodedata.normalize("NFKC", text).casefold().translate(_BRACKETS).split())
    if len(said) > _LONGEST:
        raise NotUnderstood(f"The line is too long. Use at most {_LONGEST} characters.")
    said = _ISO_T.sub(" ", said.removeprefix("to "))
    names = {place_key(name): zone for name, zone in also.items()}
    parts: list[Part] = []
    place = _after(_BETWEEN, said, 0)
    while place < len(said):
        new, place = _parts_at(said, place, names)
        parts += new
        place = _after(_BETWEEN, said, place)
    if not parts:
        raise NotUnderstood("The line has no day or time yet.")
    return tuple(parts)


def names_places(text: str) -> bool:
    """Whether a text is the name of a place, and of nothing else: Sydney can be a city or a student."""
    try:
        return all(isinstance(part, ZoneName) for part in read_parts(text, {}))
    except BadInput:
        return False


def _parts_at(said: str, place: int, names: Mapping[str, str]) -> tuple[tuple[Part, ...], int]:
    found = _found_at(said, place, names)
    if found is not None:
        return found
    raise _not_understood(said, place, names)


def _found_at(said: str, place: int, names: Mapping[str, str]) -> tuple[tuple[Part, ...], int] | None:
    """The parts that the words from a place on mean, and where those words end; None if they mean nothing."""
    located = name_at(said, place, names)
    if located is not None:
        return _place(said, place, located)
    for rule, reader in RULES:
        match = rule.match(said, place)
        parts = reader(match) if match is not None else ()
        if match is not None and parts:
            return parts, match.end()
    located = place_at(said, place, names)
    if located is not None:
        return _place(said, place, located)
    filler = _FILLER.match(said, place)
    return ((), filler.end()) if filler is not None else None


def _place(said: str, place: int, located: tuple[tuple[str, ...], int]) -> tuple[tuple[Part, ...], int]:
    zones, end = located
    return (ZoneName(text=said[place:end], zones=zones),), end


def _not_understood(said: str, place: int, names: Mapping[str, str]) -> BadInput:
    """What is said of words that mean nothing; it names what comes near them, if anything does."""
    words = _unknown_words(said, place, names)
    first = words[0]
    if any(first in {month.casefold(), month[:3].casefold()} for month in MONTHS):
        return BadInput(f'"{first}" needs a day. Type both, such as "{first} 12".')
    calendar = difflib.get_close_matches(first, _CALENDAR_WORDS, n=1, cutoff=0.75)
    if calendar and calendar[0] != first:
        return BadInput(f'"{_short(first)}" is not understood. Did you mean "{calendar[0]}"?')
    run = " ".join(words).removeprefix("in ")
    for unknown in dict.fromkeys((run, first)):
        near = _near(unknown, names)
        if near:
            return BadInput(f'"{_short(unknown)}" is not understood. Close matches: {", ".join(near)}.')
    return NotUnderstood(
        f'"{_short(first)}" is not understood.', works=' A city can come after a time: "4 pm phoenix".'
    )


def _unknown_words(said: str, place: int, names: Mapping[str, str]) -> list[str]:
    words: list[str] = []
    while len(words) < _MOST_UNKNOWN and (match := _WORD.match(said, place)) is not None:
        try:
            found = _found_at(said, place, names) if words else None
        except BadInput:
            break
        if found is not None:
            break
        words.append(match[0])
        place = _after(_BETWEEN, said, match.end())
    return words


def _near(unknown: str, names: Mapping[str, str]) -> list[str]:
    """Up to three names and cities that come near unknown words."""
    key = place_key(unknown)
    people = difflib.get_close_matches(key, names, n=3, cutoff=0.75)
    cities = (spoken(zone) for zone in near_zones(key))
    return list(dict.fromkeys(chain((name.title() for name in people), cities)))[:3]


def _after(form: re.Pattern[str], said: str, place: int) -> int:
    match = form.match(said, place)
    return match.end() if match is not None else place


def _short(words: str) -> str:
    return words if len(words) <= 40 else f"{words[:40]}…"
