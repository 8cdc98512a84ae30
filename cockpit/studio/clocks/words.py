"""Times, dates and places in a teacher's and a family's words, on one clock or on both where they differ."""

from collections.abc import Sequence
from datetime import date, datetime, time

from cockpit.studio.clocks.moments import WEEKDAYS, Zone, local_time, parted

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip
_CITIES = {"St_Johns": "St. John's", "Sao_Paulo": "São Paulo", "Port-au-Prince": "Port-au-Prince"}


def clock_time(at: datetime | time, hours: int) -> str:
    """The time of day: `4:05 pm` on a 12-hour clock, `16:05` on a 24-hour one."""
    if hours == 24:
        return f"{at.hour}:{at.minute:02d}"
    return f"{at.hour % 12 or 12}:{at.minute:02d} {'am' if at.hour < 12 else 'pm'}"


def long_date(on: date) -> str:
    """A date with its weekday: `Tuesday, December 1, 2026`."""
    return f"{WEEKDAYS[on.weekday()]}, {month_and_day(on)}, {on.year}"


def short_date(on: date) -> str:
    """A date without its year: `Tue, December 1`."""
    return f"{WEEKDAYS[on.weekday()][:3]}, {month_and_day(on)}"


def month_and_day(on: date) -> str:
    """A day of some year: `December 1`."""
    return f"{MONTHS[on.month - 1]} {on.day}"


def near_date(on: date, today: date) -> str:
    """A date with its year only where that is not the year of `today`: `Tue, December 1`, `Tue, February 2, 2027`."""
    return short_date(on) if on.year == today.year else f"{short_date(on)}, {on.year}"


def near_day(on: date, today: date) -> str:
    """The same without the weekday: `December 18`, `January 12, 2027`."""
    return month_and_day(on) if on.year == today.year else f"{month_and_day(on)}, {on.year}"


def near_days(from_on: date, until_on: date, today: date) -> str:
    """A day, or the first and the last of some, each with its year where that is not the one of `today`."""
    first, last = near_date(from_on, today), near_date(until_on, today)
    return first if from_on == until_on else f"{first}, through {last}"


def city(zone: str) -> str:
    """The place that an IANA zone is named after: `St. John's`, `Knox, Indiana`."""
    _, *rest = zone.split("/")
    if not rest:
        return zone
    names = [_CITIES.get(part, part.replace("_", " ")) for part in reversed(rest)]
    return ", ".join(names)


def places(zone: Zone, today: date) -> str:
    """Where somebody lives, and from when on elsewhere: `Phoenix; Denver from Mon, March 1, 2027`."""
    first, stays = parted(zone)
    said = (
        f"{city(stay.zone)} from {near_date(stay.from_on, today)}"
        + (f", through {near_date(stay.until_on, today)}" if stay.until_on is not None else "")
        for stay in stays
    )
    return "; ".join((city(first), *said))


def utc_offset(at: datetime, zone: str) -> str:
    """The zone's offset at a UTC moment: `UTC−07:00`. Abbreviations are not shown: some now say another zone's name."""
    offset = local_time(at, zone).utcoffset()
    minutes = int(offset.total_seconds()) // 60 if offset is not None else 0
    sign = "−" if minutes < 0 else "+"
    return f"UTC{sign}{abs(minutes) // 60:02d}:{abs(minutes) % 60:02d}"


def span(seconds: int) -> str:
    """A length of time as a clock face shows it: `4:05`, or `1:04:05` from an hour on."""
    hours, rest = divmod(seconds, 3600)
    minutes, seconds = divmod(rest, 60)
    return f"{hours}:{minutes:02d}:{seconds:02d}" if hours else f"{minutes}:{seconds:02d}"


def minutes_of(count: int) -> str:
    """A count of minutes, in words: `1 minute`, `4 minutes`."""
    return counted(count, "minute")


def number_in(digits: str) -> int | None:
    """The number that is written in digits, 0 to 9, fifteen at most; None for any other text.

    `isdigit` knows digits that `int` refuses, such as a raised two, and `int` refuses a number of some thousand digits.
    """
    return int(digits) if digits.isascii() and digits.isdigit() and len(digits) <= 15 else None


def counted(count: int, noun: str, plural: str | None = None) -> str:
    """A count with its noun in the right number."""
    return f"{count} {noun if count == 1 else plural or noun + 's'}"


def listed(words: Sequence[str]) -> str:
    """Several words as one list: `a`, `a and b`, `a, b, and c`."""
    *before, last = words
    comma = "," if len(before) > 1 else ""
    return f"{', '.join(before)}{comma} and {last}" if before else last


def possessive(name: str) -> str:
    """Whose it is: `Ilse's`, `Thomas's`."""
    return f"{name}'s"
