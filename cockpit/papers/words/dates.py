"""Dates, times and places as a family's language says them; American English is ours, all others are Babel's (CLDR)."""

from collections.abc import Sequence
from datetime import date, datetime

from cockpit.papers.words.phrases import Phrases
from cockpit.studio.clocks import words
from cockpit.studio.clocks.moments import WEEKDAYS

_ENGLISH = "en"
# From memory: within a sentence Spanish has no comma behind the weekday, `desde el martes 16 de marzo`.
_WITHOUT_COMMA = frozenset({"es"})


def long_date(on: date, phrases: Phrases, *, is_in_sentence: bool = False) -> str:
    """A date with its weekday and year: `Tuesday, December 1, 2026`."""
    if phrases.language == _ENGLISH:
        return words.long_date(on)
    from cockpit.papers.words.cldr import date_words  # 20 ms with Babel, which an English paper need not pay

    is_listed = is_in_sentence and phrases.language.partition("-")[0] in _WITHOUT_COMMA
    return date_words(on, phrases, "EEEEMMMMdy", is_listed=is_listed) or words.long_date(on)


def short_date(on: date, phrases: Phrases) -> str:
    """A date without its year, the weekday cut short: `Tue, December 1`."""
    if phrases.language == _ENGLISH:
        return words.short_date(on)
    from cockpit.papers.words.cldr import date_words

    return date_words(on, phrases, "EMMMMd") or words.short_date(on)


def short_dates(days: Sequence[date], phrases: Phrases) -> str:
    """Several of them as one list, in which a comma stands between the days only."""
    if len(days) == 1:
        return short_date(days[0], phrases)
    english = [words.short_date(on).replace(",", "") for on in days]
    if phrases.language == _ENGLISH:
        return phrases.joined(english)
    from cockpit.papers.words.cldr import date_words

    said = [date_words(on, phrases, "EMMMMd", is_listed=True) for on in days]
    return phrases.joined([here or there for here, there in zip(said, english, strict=True)])


def month_and_day(on: date, phrases: Phrases) -> str:
    """A day of some year: `December 1`."""
    if phrases.language == _ENGLISH:
        return words.month_and_day(on)
    from cockpit.papers.words.cldr import date_words

    return date_words(on, phrases, "MMMMd") or words.month_and_day(on)


def weekday_and_day(on: date, phrases: Phrases, *, has_month: bool, is_listed: bool) -> str:
    """A day of a week: `Tuesday, December 1`, in a list `Tuesday December 1`.

    Other languages leave the month out where it follows from others of the list: `Dienstag 1.`
    """
    english = f"{WEEKDAYS[on.weekday()]}{'' if is_listed else ','} {words.month_and_day(on)}"
    if phrases.language == _ENGLISH:
        return english
    from cockpit.papers.words.cldr import date_words

    return date_words(on, phrases, "EEEEMMMMd" if has_month else "EEEEd", is_listed=is_listed) or english


def chart_day(on: date, phrases: Phrases, *, has_month: bool) -> tuple[str, str]:
    """The weekday cut short, and the day with its month, or its number alone: `Wed`, `Dec 2`."""
    weekday, month_and_day = WEEKDAYS[on.weekday()][:3], words.month_and_day(on)
    english = f"{month_and_day[:3]} {on.day}"
    number = phrases.say("dates.first_of_month") if on.day == 1 else str(on.day)
    if phrases.language == _ENGLISH:
        return weekday, english if has_month else number
    from cockpit.papers.words.cldr import date_words

    said = date_words(on, phrases, "MMMd") or english if has_month else number
    return date_words(on, phrases, "EEE") or weekday, said


def weekday(on: date, phrases: Phrases) -> str:
    """The name of its weekday: `Tuesday`."""
    english = WEEKDAYS[on.weekday()]
    if phrases.language == _ENGLISH:
        return english
    from cockpit.papers.words.cldr import date_words

    return date_words(on, phrases, "EEEE") or english


def clock_time(at: datetime, hours: int, phrases: Phrases) -> str:
    """The time of day on a clock of 12 or 24 hours: `4:05 pm`, `16:05`."""
    said = words.clock_time(at, hours)
    if phrases.language != _ENGLISH:
        from cockpit.papers.words.cldr import time_words

        said = time_words(at, hours, phrases.language) or said
    return phrases.say("dates.time_24" if hours == 24 else "dates.time_12", time=said)


def city(zone: str, phrases: Phrases) -> str:
    """The place that an IANA zone is named after."""
    if phrases.language == _ENGLISH:
        return words.city(zone)
    from cockpit.papers.words.cldr import city_name

    return city_name(zone, phrases.language) or words.city(zone)
