"""The parts of a line that says many things at once, with commas between them, and readers of a whole part."""

import re
from collections.abc import Callable, Mapping, Sequence
from datetime import datetime
from typing import TypeVar

from cockpit.studio.clocks.moments import WEEKDAYS, local_time
from cockpit.studio.clocks.words import MONTHS, listed
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.instruments import instrument_at
from cockpit.studio.typed_times.places import city_at, spoken

Claim = TypeVar("Claim")
_YEAR = r"\s*(?:19|20)[0-9]{2}\b"
_MONTH_AND_DAY = rf"\s*(?:{'|'.join(month.casefold()[:3] for month in MONTHS)})[a-z]*\.? [0-9]"
_NO_WEEKDAY = "".join(rf"(?<!\b{name},)" for day in WEEKDAYS for name in (day.casefold(), day.casefold()[:3]))
BETWEEN_PARTS = rf"(?i:,(?!{_YEAR})(?:(?!{_MONTH_AND_DAY})|{_NO_WEEKDAY})|;)"
"""What stands between two parts; the commas within a date belong to it: `Mon, March 1, 2027`."""
# A web address goes on to a blank or a quote, and a comma at its end is not its own.
# Each sign can be read in one way alone, or a hundred addresses before an open quote would be tried in all ways.
_WEB = r'https?://[^\s"]*[^\s",;]'
_IN_PART = rf'(?:(?>{_WEB})|(?!{BETWEEN_PARTS}|{_WEB})[^"])*'
_PART = re.compile(rf'\s*("[^"]*"|{_IN_PART}(?:"[^"]*"{_IN_PART})*)\s*(?:{BETWEEN_PARTS}|$)')
_IN_ADDRESS = r"[^\s@,;:<>()\[\]\\\"\x00-\x1f\x7f-\x9f]"
_ADDRESS = re.compile(rf"(?:e-?mail:? )?<?({_IN_ADDRESS}+@{_IN_ADDRESS}+\.{_IN_ADDRESS}+)>?", re.IGNORECASE)
_WHERE = re.compile(r"(?:(?:lives? |living )?(?:in|near|from|at)|city:?|zone:?)\s+(?=\S)", re.IGNORECASE)


def refuse_long(text: str, most: int) -> None:
    """Refuses a line of more than `most` characters.

    Raises:
        BadInput.
    """
    if len(text) > most:
        raise BadInput(f"The line is too long. Use at most {most} characters.")


def parts_of(text: str) -> list[str]:
    """The parts of a line: what stands between commas that are in no quotes and not within a date or a web address.

    Raises:
        BadInput: a quote is not closed.
    """
    found: list[str] = []
    at = 0
    while at < len(text):
        match = _PART.match(text, at)
        if match is None:
            raise BadInput(f"The line has a quote without its end: {text[at:].strip()}. Close it or take it out.")
        found.append(match[1].strip())
        at = match.end()
    return [part for part in found if part]


def claim_of(
    part: str, readers: Mapping[str, Callable[[str], Claim | None]], said: Mapping[str, str], examples: str
) -> tuple[str, Claim] | None:
    """The name of the one reader of a part, and what it makes of it; None where none claims the part. `said` has names in words.

    Raises:
        BadInput: two readers claim it; or none does, and one says why it cannot be its own.
    """
    claims: list[tuple[str, Claim]] = []
    faults: list[BadInput] = []
    for name, read in readers.items():
        try:
            claim = read(part)
        except BadInput as fault:
            faults.append(fault)
        else:
            claims += [(name, claim)] if claim is not None else []
    if len(claims) > 1:
        raise BadInput(f'"{part}" could mean two things: {listed([said[name] for name, _ in claims])}. {examples}')
    if not claims and faults:
        raise faults[0]
    return claims[0] if claims else None


def address_in(part: str) -> str | None:
    """The email address that makes up a part; None where it is none."""
    match = _ADDRESS.fullmatch(part)
    return match[1] if match is not None else None


def instrument_in(part: str) -> str | None:
    """The instrument that makes up a part, also one that people are called; None where it is none."""
    said = " ".join(part.casefold().split())
    match = instrument_at(said, 0, is_sure=True)
    return match[0] if match is not None and match[1] == len(said) else None


def zone_of(part: str) -> str | None:
    """The IANA zone of a place that makes up a part; None where it is no place.

    Raises:
        BadInput: places with different times are called so.
    """
    said = " ".join(_WHERE.sub("", part, count=1).casefold().split())
    found = city_at(said, 0)
    if found is None or said[found[1] :].strip(". "):
        return None
    zones = _told_apart(found[0])
    if len(zones) > 1:
        raise BadInput(
            f'"{part}" could be places with different times. Type one city: {" or ".join(map(spoken, zones))}.'
        )
    return zones[0]


def _told_apart(zones: Sequence[str]) -> list[str]:
    """The first of each zones that show the same time all year."""
    months = [datetime.fromisoformat(f"2027-{month:02d}-15T12:00+00:00") for month in range(1, 13)]
    found: dict[tuple[object, ...], str] = {}
    for zone in zones:
        found.setdefault(tuple(local_time(at, zone).utcoffset() for at in months), zone)
    return list(found.values())
