"""A typed line that says when there are no lessons: "dec 21 to jan 3 holidays", "family okonjo dec 24"."""

import re
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from cockpit.studio.clocks.moments import WEEK, Zone, local_time, moment
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, FamilyId, name_key
from cockpit.studio.typed_times.parts import Dated, Length, SameTime, Slashed, TimeOfDay
from cockpit.studio.typed_times.times import with_numbers_read
from cockpit.studio.typed_times.when import read_when
from cockpit.studio.typed_times.words import NotUnderstood, read_parts

_EXAMPLE = '"dec 21 to jan 3 holidays", "dec 21 for 2 weeks", or "family okonjo dec 24"'
_TO = re.compile(
    r"\s+(?:to|until|till|through|thru|-)\s+|\s*[–—]\s*|(?<=[a-z])-(?=\d)|(?<=\d)-(?=\d{1,2}/\d)", re.IGNORECASE
)
_FROM = re.compile(r"from\s+", re.IGNORECASE)
_MONTH = r"(?P<month>(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*)"
_TWO_DAYS = r"(?P<first>\d{1,2})[-–](?P<last>\d{1,2})"
# "dec 21-31" and "21-31 dec": the month is said once.
_WITHIN_A_MONTH = (
    re.compile(rf"\b{_MONTH}\s+{_TWO_DAYS}(?![\d/.:-])", re.IGNORECASE),
    re.compile(rf"(?<![\d/.:-]){_TWO_DAYS}\s+{_MONTH}\b", re.IGNORECASE),
)
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_FOR = re.compile(rf"\s+for\s+(\d{{1,3}}|an?|{'|'.join(_NUMBERS)})\s+(day|week)s?\b[,;]?\s*", re.IGNORECASE)
# A reason that begins so is more likely a day, a time or a length that was not read.
_NO_REASON = re.compile(
    r"(?:\d|and\b|from\b|at\b|to\b|[,&+-]|weeks?\b|days?\b|(?:mon|tues?|wed|thu|fri|sat|sun)(?:\w*day)?\b|"
    r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b|"
    r"(?:noon|midnight|morning|afternoon|evening|night|tonight)\b|for\b.*\b(?:day|week|weekend|month)s?\b)",
    re.IGNORECASE,
)
_FAMILY = re.compile(r"family\s+", re.IGNORECASE)
_NOON = time(12)
_DAY = timedelta(days=1)
_LEAP_DAY = (2, 29)


@dataclass(frozen=True, slots=True, kw_only=True)
class BreakLine:
    """What a line names: the days, the first and the last of them, whose they are, and why."""

    family_id: FamilyId | None
    from_on: date
    until_on: date
    reason: str


def read_break(
    text: str, families: Iterable[Family], *, now: datetime, home_zone: Zone, month_first: bool = True
) -> BreakLine:
    """The days without lessons that a line names, on the teacher's clock; `now` is UTC.

    "family NAME" at its beginning makes it that family's. What follows the days is the reason. A last day without a
    year is the next such day after the first. A first day without one is the next such day, unless the days are
    running: then they began at the last such day.

    Raises:
        BadInput: the line names no day, or a time, or no family of the studio, or ends before it begins.
    """
    family, rest = _family(text.strip(), families)
    try:
        return _read(family, _spelled_out(rest), now, home_zone, month_first=month_first)
    except NotUnderstood as fault:
        raise BadInput(f"{fault.found} Try {_EXAMPLE}.") from fault


def _spelled_out(text: str) -> str:
    said = _FROM.sub("", text, count=1) if _FROM.match(text) else text
    for form in _WITHIN_A_MONTH:
        days = form.search(said)
        if days is not None and int(days["first"]) < int(days["last"]):
            spelled = f"{days['first']} {days['month']} to {days['last']} {days['month']}"
            return f"{said[: days.start()]}{spelled}{said[days.end() :]}"
    return said


def _read(family: FamilyId | None, rest: str, now: datetime, home_zone: Zone, *, month_first: bool) -> BreakLine:
    reference = _Reference(
        now=now, today=local_time(now, home_zone).date(), home_zone=home_zone, month_first=month_first
    )
    begins, *more = _TO.split(rest, maxsplit=1)
    lasts = _FOR.search(rest)
    if more:
        from_on, until_on, reason = _from_to(begins, more[0], reference)
    elif lasts is not None:
        from_on, until_on = _for(rest[: lasts.start()], _days(lasts), reference)
        reason = _reason(rest[lasts.end() :], rest)
    else:
        from_on, reason = _day_and_reason(begins, reference)
        until_on = from_on
    return BreakLine(family_id=family, from_on=from_on, until_on=until_on, reason=reason)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reference:
    now: datetime
    today: date
    home_zone: Zone
    month_first: bool


def _from_to(begins: str, ends: str, reference: _Reference) -> tuple[date, date, str]:
    from_on = _day(begins, reference)
    earlier = _last_such_day(begins, from_on, reference)
    if earlier is not None:
        with suppress(BadInput):
            until_on, reason = _day_and_reason(ends, reference)
            if until_on < from_on and _names_a_date(ends.removesuffix(reason)):
                return earlier, until_on, reason
    since = max(reference.now, moment(datetime.combine(from_on, time()), reference.home_zone))
    until_on, reason = _day_and_reason(ends, replace(reference, now=since, today=from_on))
    if until_on < from_on:
        raise BadInput(f"The break would end ({long_date(until_on)}) before it begins ({long_date(from_on)}).")
    return from_on, until_on, reason


def _for(begins: str, lasts: timedelta, reference: _Reference) -> tuple[date, date]:
    from_on = _day(begins, reference)
    earlier = _last_such_day(begins, from_on, reference)
    if earlier is not None and earlier + lasts > reference.today:
        from_on = earlier
    return from_on, from_on + lasts - _DAY


def _days(lasts: re.Match[str]) -> timedelta:
    said, unit = lasts[1].casefold(), lasts[2].casefold()
    count = int(said) if said.isdecimal() else _NUMBERS.index(said) + 1 if said in _NUMBERS else 1
    if not count:
        raise BadInput(f'"{lasts[0].strip()}" is not a length of time. Try {_EXAMPLE}.')
    return count * (WEEK if unit == "week" else _DAY)


def _last_such_day(text: str, on: date, reference: _Reference) -> date | None:
    """The day of the calendar a year before one to come that was named without its year; None for any other day."""
    if not _names_a_date(text) or _says_a_year(text) or on <= reference.today or (on.month, on.day) == _LEAP_DAY:
        return None
    return on.replace(year=on.year - 1)


def _family(text: str, families: Iterable[Family]) -> tuple[FamilyId | None, str]:
    named = _FAMILY.match(text)
    if named is None:
        return None, text
    rest = text[named.end() :]
    known = sorted(families, key=lambda family: -len(family.name))
    for family in known:
        name = name_key(family.name)
        if f"{name_key(rest)} ".startswith(f"{name} "):
            return family.id, " ".join(rest.split()[len(family.name.split()) :])
    raise BadInput(f'No family in your studio matches "{text}". Try {_EXAMPLE}.')


def _names_a_date(text: str) -> bool:
    """Whether a day and its month are named, and not a day of the week or one counted from another."""
    parts = read_parts(text, {})
    return any(isinstance(part, Slashed) or (isinstance(part, Dated) and part.month is not None) for part in parts)


def _says_a_year(text: str) -> bool:
    return any(isinstance(part, Dated | Slashed) and part.year is not None for part in read_parts(text, {}))


def _day(text: str, reference: _Reference) -> date:
    if not text.strip():
        raise BadInput(f"The line has no day. Try {_EXAMPLE}.")
    return _whole_day(text, _when(text, reference))


def _when(text: str, reference: _Reference) -> date:
    return read_when(
        text,
        now=reference.now,
        around=reference.today,
        home_zone=reference.home_zone,
        month_first=reference.month_first,
        same=_NOON,
    ).local.date()


def _whole_day(text: str, on: date) -> date:
    parts = with_numbers_read(read_parts(text, {}))
    if any(isinstance(part, TimeOfDay | Length | SameTime) for part in parts):
        raise BadInput(f'"{text}" has a time, but a break is whole days. Try {_EXAMPLE}.')
    return on


def _day_and_reason(text: str, reference: _Reference) -> tuple[date, str]:
    """The day that as many words as possible name, and the words behind it."""
    words = text.split()
    fault = BadInput(f"The line has no day. Try {_EXAMPLE}.")
    for count in range(min(len(words), 6), 0, -1):
        said = " ".join(words[:count])
        try:
            on = _when(said, reference)
        except BadInput as refused:
            fault = refused
            continue
        if words[count - 1].casefold() == "week":
            raise _more_than_understood(text)
        return _whole_day(said, on), _reason(" ".join(words[count:]), text)
    raise fault


def _reason(words: str, text: str) -> str:
    if _NO_REASON.match(words):
        raise _more_than_understood(text)
    return words


def _more_than_understood(text: str) -> BadInput:
    return BadInput(f'Part of "{text}" is not understood. Try {_EXAMPLE}.')
