"""Dates as a spreadsheet shows them, and the order of day and month, which is one for a whole file."""

import re
from collections.abc import Iterable
from datetime import date
from enum import Enum, auto

from cockpit.studio.clocks.calendar_words import MONTH_WORDS
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.roster.values import read_date, read_weekday

_MONTH = r"(?P<month>[^\W\d_]{3,10})\.?"
_YEAR = r"(?P<year>[0-9]{4}|[0-9]{2})"
_DAY = r"(?P<day>[0-9]{1,2})(?:\.|st|nd|rd|th|er)?"
_NAMED = (
    re.compile(rf"(?:(?P<weekday>[^\W\d_]+)\.?,? )?{_MONTH} {_DAY},? {_YEAR}"),
    re.compile(rf"(?:(?P<weekday>[^\W\d_]+)\.?,? )?{_DAY}(?:-| (?:de )?){_MONTH}(?:-| (?:del? )?){_YEAR}"),
)
_YEAR_FIRST = re.compile(r"(?P<year>[0-9]{4})([-/.])(?P<month>[0-9]{1,2})\2(?P<day>[0-9]{1,2})")
_NUMBERS = re.compile(r"([0-9]{1,2})([-/.])([0-9]{1,2})\2([0-9]{4}|[0-9]{2})")
_MIDNIGHT = re.compile(r"[ t]0?0:00(?::00(?:\.0+)?)?$")
_SHORT_YEARS = range(2020, 2060)


class DateOrder(Enum):
    """What the dates of a file show of their order."""

    NOT_SHOWN = auto()
    MONTH_FIRST = auto()
    DAY_FIRST = auto()
    BOTH = auto()


def order_of(cells: Iterable[str]) -> DateOrder:
    """The order of day and month in a file, by those of its dates that have a number above 12 in them."""
    shown: set[DateOrder] = set()
    for cell in cells:
        readings = _readings(_plain(cell))
        if len(readings) == 1:
            shown |= readings.keys()
    if len(shown) > 1:
        return DateOrder.BOTH
    return next(iter(shown), DateOrder.NOT_SHOWN)


def read_shown_date(text: str, order: DateOrder) -> date:
    """The date that a cell shows, in a file of an order.

    Raises:
        BadInput: it is none, or could be two; each of them is written out.
    """
    said = _plain(text)
    if (named := _named(said)) is not None:
        return read_date(named)
    readings = _readings(said)
    if not readings:
        return read_date(said)
    if len(set(readings.values())) == 1 and order is not DateOrder.BOTH:
        return read_date(next(iter(readings.values())).isoformat())
    if order in readings:
        return read_date(readings[order].isoformat())
    ways = " or ".join(f"{on.isoformat()} for {long_date(on)}" for on in dict.fromkeys(readings.values()))
    why = "The dates of this file have both orders" if order is DateOrder.BOTH else "The file does not show which it is"
    raise BadInput(f"Write {ways}. {why}")


def _plain(text: str) -> str:
    return _MIDNIGHT.sub("", " ".join(text.casefold().split()))


def _named(said: str) -> str | None:
    """A date with the name of its month, or with its year first, in the ISO form; None where a text is none."""
    for form in (*_NAMED, _YEAR_FIRST):
        if found := form.fullmatch(said):
            parts = found.groupdict()
            month = parts["month"] if parts["month"].isdecimal() else MONTH_WORDS.get(parts["month"])
            if month is None:
                return None
            written = f"{_full_year(parts['year'])}-{int(month):02d}-{int(parts['day']):02d}"
            weekday = parts.get("weekday")
            return written if weekday is None or _is_weekday(weekday, written) else None
    return None


def _is_weekday(name: str, written: str) -> bool:
    try:
        return read_weekday(name) == date.fromisoformat(written).weekday()
    except BadInput:
        return False
    except ValueError:
        return True  # no date at all, which is told as such


def _readings(said: str) -> dict[DateOrder, date]:
    """What a date of three numbers can be, its year last."""
    found = _NUMBERS.fullmatch(said)
    if found is None:
        return {}
    one, other, year = int(found[1]), int(found[3]), _full_year(found[4])
    if len(found[4]) == 2 and (found[2] == "-" or year not in _SHORT_YEARS):
        return {}  # it may begin with the year
    readings = {}
    for order, month, day in ((DateOrder.MONTH_FIRST, one, other), (DateOrder.DAY_FIRST, other, one)):
        try:
            readings[order] = date(year, month, day)
        except ValueError:
            continue
    return readings


def _full_year(digits: str) -> int:
    return int(digits) if len(digits) == 4 else 2000 + int(digits)
