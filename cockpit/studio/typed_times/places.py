"""The clocks that a typed line can name: a city's, an IANA zone's, or that of a family or student.

The large cities that no IANA zone is named after are from memory, no source; a city that is known in two zones, such as
Portland, is left out.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import TypeVar

from cockpit.studio.clocks.moments import Zone
from cockpit.studio.clocks.zones import find_zone, near_zones
from cockpit.studio.errors import BadInput

_ABBREVIATIONS = {
    "ast", "bst", "cet", "cst", "cdt", "est", "edt", "hst", "ist", "mst", "mdt", "nst", "pst", "pdt",
}  # fmt: skip
# From 2026 on the Canadian halves of three of these keep one offset all year: IANA tzdata 2026f.
_REGIONS: Mapping[str, tuple[str, ...]] = {
    "eastern": ("America/New_York", "America/Toronto"), "et": ("America/New_York", "America/Toronto"),
    "central": ("America/Chicago", "America/Winnipeg"), "ct": ("America/Chicago", "America/Winnipeg"),
    "mountain": ("America/Denver", "America/Edmonton"), "mt": ("America/Denver", "America/Edmonton"),
    "pacific": ("America/Los_Angeles", "America/Vancouver"), "pt": ("America/Los_Angeles", "America/Vancouver"),
    "atlantic": ("America/Halifax",), "newfoundland": ("America/St_Johns",),
}  # fmt: skip
_Clock = TypeVar("_Clock", str, Zone)
_MOST_WORDS = 5
_WORD = re.compile(r" ?([^ ,;]+)")
_TIME = re.compile(r"(?:'s?|’s?)?(?: time)?(?=[.]?(?:[ ,;]|$))")
_BY_ZONE = {
    "America/New_York": "boston, philadelphia, pittsburgh, baltimore, washington dc, charlotte, atlanta, miami, orlando, cleveland",
    "America/Chicago": "dallas, houston, austin, san antonio, minneapolis, milwaukee, new orleans, nashville, memphis, st louis",
    "America/Denver": "salt lake city, albuquerque, colorado springs",
    "America/Phoenix": "tucson",
    "America/Los_Angeles": "seattle, san francisco, san diego, oakland, sacramento, las vegas",
    "America/Toronto": "ottawa, quebec",
    "America/Edmonton": "calgary",
    "America/Sao_Paulo": "rio de janeiro",
    "Europe/London": "edinburgh, glasgow, cardiff, leeds",
    "Europe/Berlin": "munich, hamburg, frankfurt, cologne",
    "Europe/Zurich": "geneva, basel",
    "Europe/Madrid": "barcelona",
    "Europe/Rome": "milan, naples",
    "Asia/Kolkata": "mumbai, delhi, new delhi, bangalore, bengaluru, chennai, pune",
    "Asia/Shanghai": "beijing, shenzhen, guangzhou",
    "Asia/Tokyo": "osaka, kyoto",
    "Africa/Johannesburg": "cape town, durban",
}
# By the key of a place: no case, no dots.
LARGE_CITIES: Mapping[str, str] = MappingProxyType(
    {city: zone for zone, cities in _BY_ZONE.items() for city in cities.split(", ")}
)

_HOLIDAYS = frozenset({"christmas", "easter"})  # a teacher means the day; the islands have a clock as Indian/Christmas


def place_at(said: str, place: int, names: Mapping[str, Zone]) -> tuple[tuple[Zone, ...], int] | None:
    """The clocks that the words from a place on can mean, and where they end; None if they name no clock.

    Of several runs of words the longest is taken, and a name before a city. `said` is casefolded, with single spaces;
    the keys of `names` are those of `place_key`. `in` before and `time` behind belong to the words.
    """
    return _longest_at(said, _begins(said, place), lambda words: _named(words, names) or _zones_of(words))


def city_at(said: str, place: int) -> tuple[tuple[str, ...], int] | None:
    """As `place_at`, for the places alone that an IANA zone is known for."""
    return _longest_at(said, _begins(said, place), _zones_of)


def name_at(said: str, place: int, names: Mapping[str, Zone]) -> tuple[tuple[Zone, ...], int] | None:
    """As `place_at`, for the names that go before the words of the calendar: Sun Li and Su, but not April or Sun."""
    sure = {name: zone for name, zone in names.items() if " " in name or len(name) <= 2}
    return _longest_at(said, place, lambda words: _named(words, sure)) if sure else None


def place_key(name: str) -> str:
    """The form in which two spellings of a place or a name are equal: no case, accents, dots or apostrophes."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    bare = "".join(each for each in letters if not unicodedata.combining(each) and each not in ".'’")
    return " ".join(re.sub(r"[_-]", " ", bare).split())


def spoken(zone: str) -> str:
    """The words by which a line can name a zone: `New York`."""
    return zone.rsplit("/", 1)[-1].replace("_", " ")


def run_ends(said: str, begins: int) -> list[int]:
    """Where the runs of one to five words end, with and without a possessive ending; the longest run first."""
    ends: list[int] = []
    at = begins
    while len(ends) < 2 * _MOST_WORDS and (match := _WORD.match(said, at)) is not None:
        at = match.end()
        word = match[1]
        own = at - 2 if word.endswith(("'s", "’s")) else at - 1 if word.endswith(("'", "’", ".")) else at
        ends += [own, at] if own != at else [at]
    return ends[::-1]


def _begins(said: str, place: int) -> int:
    return place + 3 if said.startswith("in ", place) else place


def _longest_at(
    said: str, begins: int, zones_of: Callable[[str], tuple[_Clock, ...]]
) -> tuple[tuple[_Clock, ...], int] | None:
    for end in run_ends(said, begins):
        zones = zones_of(said[begins:end])
        if zones:
            behind = _TIME.match(said, end)
            return zones, behind.end() if behind is not None else end
    return None


def _named(words: str, names: Mapping[str, Zone]) -> tuple[Zone, ...]:
    key = place_key(words)
    return (names[key],) if key in names else ()


def _zones_of(words: str) -> tuple[str, ...]:
    # Names with digits are offsets, whose sign means the opposite of what is spoken.
    if any(each.isdigit() for each in words) or place_key(words) in _HOLIDAYS:
        return ()
    return _known_zones(place_key(words), words)


@lru_cache(maxsize=1000)
def _known_zones(key: str, words: str) -> tuple[str, ...]:
    if key in _REGIONS:
        return _REGIONS[key]
    if key in _ABBREVIATIONS:
        return near_zones(key)
    try:
        return (find_zone(words),)
    except BadInput:
        if key in LARGE_CITIES:
            return (LARGE_CITIES[key],)
        near = near_zones(key)
    return tuple(zone for zone in near if key in {place_key(zone), place_key(spoken(zone))})
