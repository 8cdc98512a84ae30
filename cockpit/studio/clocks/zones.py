"""Time zones by the names that people write."""

import difflib
import re
import zoneinfo
from collections.abc import Mapping
from functools import cache, lru_cache

from cockpit.studio.errors import BadInput

_NO_PLACE = {"Factory", "localtime", "posixrules"}
# "EST" is a zone's name too, but one without summer time: an hour wrong in New York for most of the year.
_ABBREVIATION = re.compile(r"(?!UTC|GMT)[A-Z]{3}(?:[0-9][A-Z]{3})?")
_MEANT_BY: Mapping[str, tuple[str, ...]] = {
    "ast": ("America/Halifax",),
    "bst": ("Europe/London",),
    "cet": ("Europe/Berlin", "Europe/Paris"),
    "cst": ("America/Chicago",),
    "cdt": ("America/Chicago",),
    "est": ("America/New_York", "America/Toronto"),
    "edt": ("America/New_York", "America/Toronto"),
    "hst": ("Pacific/Honolulu",),
    "ist": ("Asia/Kolkata", "Europe/Dublin"),
    "mst": ("America/Phoenix", "America/Denver"),
    "mdt": ("America/Denver",),
    "nst": ("America/St_Johns",),
    "pst": ("America/Los_Angeles", "America/Vancouver"),
    "pdt": ("America/Los_Angeles",),
}
_NEAR = 0.75


def find_zone(text: str) -> str:
    """The IANA zone that a text names, whatever its case, and with spaces for underscores.

    Raises:
        BadInput: there is none; the sentence names up to three that come near.
    """
    zone = _zones().get(_folded(text))
    if zone is not None:
        return zone
    near = near_zones(text)
    if not near:
        raise BadInput("write the zone's IANA name, such as America/Chicago")
    raise BadInput(f"write the zone's IANA name, such as {' or '.join(near)}")


@lru_cache(maxsize=1000)
def near_zones(text: str) -> tuple[str, ...]:
    """Up to three IANA zones that a text may mean: by abbreviation, by its city, or by spelling; the nearest first."""
    wanted = _folded(text)
    if wanted in _MEANT_BY:
        return _MEANT_BY[wanted]
    zones = _zones()
    cities: dict[str, list[str]] = {}
    for folded, zone in zones.items():
        cities.setdefault(_city(folded), []).append(zone)
    city = _city(wanted)
    found = [
        *cities.get(city, ()),
        *(zones[folded] for folded in difflib.get_close_matches(wanted, zones, n=3, cutoff=_NEAR)),
        *(zone for name in difflib.get_close_matches(city, cities, n=3, cutoff=_NEAR) for zone in cities[name]),
    ]
    return tuple(dict.fromkeys(found))[:3]


@cache
def _zones() -> Mapping[str, str]:
    names = sorted(zoneinfo.available_timezones() - _NO_PLACE)
    return {_folded(name): name for name in names if not _ABBREVIATION.fullmatch(name)}


def _folded(text: str) -> str:
    return "_".join(text.casefold().replace("_", " ").split())


def _city(folded: str) -> str:
    return folded.rsplit("/", 1)[-1]
