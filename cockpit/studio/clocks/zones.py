"""Time zones by the names that people write, and when a clock changes: a zone's by its rules, the teacher's by a move."""

import difflib
import re
import zoneinfo
from collections.abc import Mapping
from datetime import date, datetime, timedelta
from functools import cache, lru_cache
from importlib import resources
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.home import arrivals
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.errors import BadInput
from cockpit.studio.values import Value

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
    "georgia": ("America/New_York", "Asia/Tbilisi"),
    "hst": ("Pacific/Honolulu",),
    "ist": ("Asia/Kolkata", "Europe/Dublin"),
    "mst": ("America/Phoenix", "America/Denver"),
    "mdt": ("America/Denver",),
    "nst": ("America/St_Johns",),
    "portland": ("America/Los_Angeles", "America/New_York"),
    "pst": ("America/Los_Angeles", "America/Vancouver"),
    "pdt": ("America/Los_Angeles",),
}
# What people call the clocks of a region, before "time", "standard time" and the like.
_CLOCKS: Mapping[str, tuple[str, ...]] = {
    "alaska": ("America/Anchorage",),
    "arabian": ("Asia/Riyadh",),
    "atlantic": ("America/Halifax",),
    "australian_central": ("Australia/Adelaide", "Australia/Darwin"),
    "australian_eastern": ("Australia/Sydney", "Australia/Brisbane"),
    "australian_western": ("Australia/Perth",),
    "brasilia": ("America/Sao_Paulo",),
    "british": ("Europe/London",),
    "central": ("America/Chicago",),
    "central_european": ("Europe/Berlin", "Europe/Paris"),
    "east_africa": ("Africa/Nairobi",),
    "eastern": ("America/New_York", "America/Toronto"),
    "eastern_european": ("Europe/Athens", "Europe/Helsinki"),
    "gulf": ("Asia/Dubai",),
    "hawaii": ("Pacific/Honolulu",),
    "hong_kong": ("Asia/Hong_Kong",),
    "indian": ("Asia/Kolkata",),
    "irish": ("Europe/Dublin",),
    "japan": ("Asia/Tokyo",),
    "korea": ("Asia/Seoul",),
    "moscow": ("Europe/Moscow",),
    "mountain": ("America/Denver", "America/Phoenix"),
    "new_zealand": ("Pacific/Auckland",),
    "newfoundland": ("America/St_Johns",),
    "pacific": ("America/Los_Angeles", "America/Vancouver"),
    "philippine": ("Asia/Manila",),
    "south_africa": ("Africa/Johannesburg",),
    "west_africa": ("Africa/Lagos",),
    "western_european": ("Europe/Lisbon",),
}
_CLOCK = re.compile(r"(?P<of>.*?)(?:_(?:standard|daylight|summer))?_time")
_OFFSET = re.compile(
    r"(?:utc|gmt)?_?[+\-\u2212\u00b1]_?[0-9]{1,2}(?:[:.]?[0-9]{2})?|(?:utc|gmt)_?[0-9]{1,2}(?:[:.]?[0-9]{2})?"
)
_COUNTRIES = {
    "britain": "GB", "czech_republic": "CZ", "england": "GB", "great_britain": "GB", "holland": "NL", "macedonia": "MK",
    "northern_ireland": "GB", "scotland": "GB", "south_korea": "KR", "uk": "GB", "united_kingdom": "GB", "us": "US",
    "usa": "US", "vietnam": "VN", "wales": "GB", "uae": "AE",
}  # fmt: skip
_AREAS = frozenset({"Africa", "America", "Antarctica", "Asia", "Atlantic", "Australia", "Europe", "Indian", "Pacific"})
_NO_CITIES = frozenset(
    {"act", "canberra", "lhi", "nsw", "north", "queensland", "south", "tasmania", "victoria", "west"}
)
_NEAR = 0.75
_SECOND = timedelta(seconds=1)
# In the zone data no two changes of one zone since 1990 lie closer than 6 days 23 hours (Brazil's north-east, 2000).
_STEP = timedelta(days=5)


def find_zone(text: str) -> str:
    """The IANA zone that a text names, whatever its case, and with spaces for underscores.

    Raises:
        BadInput: there is none; the sentence names up to three that come near.
    """
    zone = _zones().get(_folded(text))
    if zone is not None:
        return zone
    near = near_zones(text)
    if near:
        raise BadInput(f"Write the zone's IANA name, such as {' or '.join(near)}")
    if _OFFSET.fullmatch(_folded(text)):
        raise BadInput("Write the IANA name of the nearest large city: an offset does not say when clocks change")
    if _meant_zones(_folded(text)) is not None:
        raise BadInput("Write the IANA name of the nearest large city, as Region/City")
    raise BadInput("Write the zone's IANA name, such as America/Chicago")


def zone_of_place(text: str) -> str:
    """The IANA zone that a text names, or that of a city by its name alone, where there is one such city.

    Raises:
        BadInput: there is none; the sentence names up to three that come near.
    """
    wanted = _folded(text)
    cities = [zone for folded, zone in _cities().get(wanted, ()) if folded != wanted]
    if len(cities) == 1 and wanted not in _NO_CITIES:
        area, *rest = cities[0].split("/")
        if area in _AREAS and len(rest) == 1:
            return cities[0]
    return find_zone(text)


@lru_cache(maxsize=1000)
def near_zones(text: str) -> tuple[str, ...]:
    """Up to three IANA zones that a text may mean: by abbreviation, by its city, or by spelling; the nearest first.

    None for an offset, and for a clock or a country that is known: what is spelled like it has another hour.
    """
    wanted = _folded(text)
    if _OFFSET.fullmatch(wanted) or wanted in _MEANT_BY:
        return _MEANT_BY.get(wanted, ())
    zones, city, cities = _zones(), _city(wanted), _cities()
    meant = _meant_zones(wanted)
    found = [*(meant or ()), *(zone for _, zone in cities.get(city, ()))]
    if meant is None:
        found += (zones[folded] for folded in difflib.get_close_matches(wanted, zones, n=3, cutoff=_NEAR))
        near = difflib.get_close_matches(city, cities, n=3, cutoff=_NEAR)
        found += (zone for name in near for _, zone in cities[name])
    return tuple(dict.fromkeys(found))[:3]


def _meant_zones(wanted: str) -> tuple[str, ...] | None:
    """The zones of an abbreviation, of a clock by its name, or of a country; none of those that have many.

    None where a text is nothing of these.
    """
    if wanted in _MEANT_BY:
        return _MEANT_BY[wanted]
    if _OFFSET.fullmatch(wanted):
        return ()
    if clock := _CLOCK.fullmatch(wanted):
        return _CLOCKS.get(clock["of"], _countries().get(clock["of"], ()))
    return _CLOCKS.get(wanted) or _countries().get(wanted)


@cache
def _countries() -> Mapping[str, tuple[str, ...]]:
    """The zones of each country, of up to three; from the tables beside the zone data, as zones themselves are."""
    zones: dict[str, list[str]] = {}
    for code, _, zone, *_ in _table("zone.tab"):
        zones.setdefault(code, []).append(zone)
    codes = {_folded(name.partition("(")[0]): code for code, name, *_ in _table("iso3166.tab")} | _COUNTRIES
    return {name: tuple(zones.get(code, ())) if len(zones.get(code, ())) <= 3 else () for name, code in codes.items()}


def _table(name: str) -> list[list[str]]:
    try:
        text = (resources.files("tzdata") / "zoneinfo" / name).read_text(encoding="utf-8")
    except (ModuleNotFoundError, FileNotFoundError):
        return []
    return [line.split("\t") for line in text.splitlines() if line and not line.startswith("#")]


@cache
def _zones() -> Mapping[str, str]:
    names = sorted(zoneinfo.available_timezones() - _NO_PLACE)
    return {_folded(name): name for name in names if not _ABBREVIATION.fullmatch(name)}


@cache
def _cities() -> Mapping[str, list[tuple[str, str]]]:
    """The folded name and the name of each zone, by its city."""
    cities: dict[str, list[tuple[str, str]]] = {}
    for folded, zone in _zones().items():
        cities.setdefault(_city(folded), []).append((folded, zone))
    return cities


def _folded(text: str) -> str:
    return "_".join(text.casefold().replace("_", " ").split())


def _city(folded: str) -> str:
    return folded.rsplit("/", 1)[-1]


class ClockChange(Value):
    """From a moment (UTC) on a clock has another offset; or it is another zone's, where its owner leaves `left_zone`."""

    zone: str
    at: datetime
    before: timedelta
    after: timedelta
    left_zone: str | None = None

    @property
    def local_date(self) -> date:
        """The day of it on the clock as it was before."""
        return (self.at + self.before).date()


def changes_of_zone(zone: str, begins: datetime, ends: datetime) -> list[ClockChange]:
    """Every change of an IANA zone's offset in [begins, ends), both UTC, to the second; in order."""
    clock = ZoneInfo(zone)
    at, last = _last_second(begins), _last_second(ends)
    before = _offset(at, clock)
    found: list[ClockChange] = []
    while at < last:
        then = min(at + _STEP, last)
        if _offset(then, clock) != before:
            then = _first_change(clock, at, then)
            after = _offset(then, clock)
            found.append(ClockChange(zone=zone, at=then, before=before, after=after))
            before = after
        at = then
    return found


def changes_of_clock(clock: Zone, begins: datetime, ends: datetime) -> list[ClockChange]:
    """Every change of a clock in [begins, ends), both UTC: of its offset, and to another zone's; in order."""
    if isinstance(clock, str):
        return changes_of_zone(clock, begins, ends)
    found: list[ClockChange] = []
    zone, since = clock.zone_at(begins - _SECOND), begins
    for at, then in arrivals(clock):
        if not begins <= at < ends or then == zone:
            continue
        found += changes_of_zone(zone, since, at)
        before, after = _offset(at - _SECOND, ZoneInfo(zone)), _offset(at, ZoneInfo(then))
        found.append(ClockChange(zone=then, at=at, before=before, after=after, left_zone=zone))
        zone, since = then, at + _SECOND
    return found + changes_of_zone(zone, since, ends)


def _last_second(before: datetime) -> datetime:
    return (before - timedelta(microseconds=1)).replace(microsecond=0)


def _offset(at: datetime, clock: ZoneInfo) -> timedelta:
    return at.astimezone(clock).utcoffset() or timedelta()


def _first_change(clock: ZoneInfo, low: datetime, high: datetime) -> datetime:
    before = _offset(low, clock)
    while high - low > _SECOND:
        middle = low + (high - low) // _SECOND // 2 * _SECOND
        low, high = (middle, high) if _offset(middle, clock) == before else (low, middle)
    return high
