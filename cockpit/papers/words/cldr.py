"""Dates, times and cities as the Unicode CLDR has them for a language, by way of Babel; None where it has none."""

from datetime import date, datetime, time
from functools import lru_cache

from babel import Locale, UnknownLocaleError
from babel.core import get_global
from babel.dates import format_date, format_time, tokenize_pattern, untokenize_pattern

from cockpit.papers.words.phrases import Phrases

_Token = tuple[str, str | tuple[str, int]]
# What CLDR calls by skeletons; where one is not there, the next is the nearest.
_SKELETONS = {
    "EEEEMMMMd": ("MMMMEd", "MMMEd"),
    "EMMMMd": ("MMMMEd", "MMMEd"),
    "EEEEd": ("Ed",),
    "MMMMd": ("MMMMd", "MMMd"),
    "MMMd": ("MMMd",),
}
_WHOLE, _WEEKDAYS = "EEEEMMMMdy", frozenset({"EEEE", "EEE"})
_SHORTEST_NAME = 3  # a month of fewer letters is a number


def date_words(on: date, phrases: Phrases, wanted: str, *, is_listed: bool = False) -> str | None:
    """A date with what is `wanted` of it: `EEEEMMMMdy`, `EEEEMMMMd`, `EMMMMd`, `EEEEd`, `MMMMd`, `MMMd`, `EEEE` or `EEE`.

    In a list no comma stands behind the weekday: it would look like one of the list.
    """
    locale = _locale(phrases.language)
    pattern = _pattern(locale, wanted) if locale is not None else None
    if locale is None or pattern is None:
        return None
    tokens: list[_Token] = []
    for kind, value in tokenize_pattern(pattern):
        is_behind_weekday = bool(tokens) and tokens[-1][0] == "field" and tokens[-1][1][0] == "E"
        if is_listed and kind == "chars" and is_behind_weekday:
            tokens.append((kind, str(value).replace(",", "")))
        else:
            tokens.append(_token(kind, _as_long_as_wanted(value, wanted), on, phrases))
    return format_date(on, untokenize_pattern(tokens), locale)


def _token(kind: str, value: str | tuple[str, int], on: date, phrases: Phrases) -> _Token:
    """A part of a pattern; a first of the month may have a number of its own, as in French: `1er`."""
    first = phrases.say("dates.first_of_month")
    is_first = kind == "field" and value[0] == "d" and on.day == 1
    return ("chars", first) if is_first and first != "1" else (kind, value)


def time_words(at: datetime, hours: int, language: str) -> str | None:
    """The time of day on a clock of 12 or 24 hours: `15:02`."""
    locale = _locale(language)
    pattern = locale.datetime_skeletons.get("Hm" if hours == 24 else "hm") if locale is not None else None
    return format_time(time(at.hour, at.minute), pattern.pattern, locale=locale) if pattern is not None else None


def city_name(zone: str, language: str) -> str | None:
    """The city that stands for an IANA zone: `Wien` for Europe/Vienna."""
    locale = _locale(language)
    known = locale.time_zones.get(get_global("zone_aliases").get(zone, zone), {}) if locale is not None else {}
    city = known.get("city")
    return city if isinstance(city, str) else None


@lru_cache(maxsize=8)
def _locale(language: str) -> Locale | None:
    try:
        return Locale.parse(language, sep="-")
    except (UnknownLocaleError, ValueError):
        return None


def _pattern(locale: Locale, wanted: str) -> str | None:
    if wanted == _WHOLE:
        return str(locale.date_formats["full"].pattern)
    if wanted in _WEEKDAYS:
        return wanted
    known = locale.datetime_skeletons
    return next((str(known[each].pattern) for each in _SKELETONS[wanted] if each in known), None)


def _as_long_as_wanted(value: str | tuple[str, int], wanted: str) -> str | tuple[str, int]:
    """A field of a pattern in the wanted length, as Unicode TS 35 asks where a skeleton fits but for the lengths."""
    if isinstance(value, str) or value[0] not in {"E", "M"}:
        return value
    name, length = value
    is_number = name == "M" and length < _SHORTEST_NAME
    return value if is_number else (name, wanted.count(name))
