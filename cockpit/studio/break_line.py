"""A typed line that says when there are no lessons: "21 dec to 3 jan holidays", "family okonjo 24 dec"."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, time

from cockpit.studio.calendar import Zone, local_time, moment
from cockpit.studio.errors import BadInput
from cockpit.studio.people import Family, FamilyId, name_key
from cockpit.studio.when import read_when

_EXAMPLE = '"21 dec to 3 jan holidays", or "family okonjo 24 dec"'
_TO = re.compile(r"\s+(?:to|until|till|through|-)\s+|\s*[–—]\s*|(?<=[a-z])-(?=\d)", re.IGNORECASE)
# A reason that begins so is more likely a day, a time or a length that was not read.
_NO_REASON = re.compile(
    r"(?:\d|and\b|from\b|at\b|to\b|[,&+-]|weeks?\b|days?\b|(?:mon|tues?|wed|thu|fri|sat|sun)(?:\w*day)?\b|"
    r"(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\b)",
    re.IGNORECASE,
)
_FAMILY = re.compile(r"family\s+", re.IGNORECASE)
_NOON = time(12)


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
    year is the next such day after the first.

    Raises:
        BadInput: the line names no day, or no family of the studio, or ends before it begins.
    """
    family, rest = _family(text.strip(), families)
    begins, *more = _TO.split(rest, maxsplit=1)
    today = local_time(now, home_zone).date()
    if not more:
        from_on, reason = _day_and_reason(begins, now, today, home_zone, month_first=month_first)
        return BreakLine(family_id=family, from_on=from_on, until_on=from_on, reason=reason)
    from_on = _day(begins, now, today, home_zone, month_first=month_first)
    since = max(now, moment(datetime.combine(from_on, time()), home_zone))
    until_on, reason = _day_and_reason(more[0], since, from_on, home_zone, month_first=month_first)
    if until_on < from_on:
        raise BadInput(f"The break ends before it begins: {until_on} is before {from_on}.")
    return BreakLine(family_id=family, from_on=from_on, until_on=until_on, reason=reason)


def _family(text: str, families: Iterable[Family]) -> tuple[FamilyId | None, str]:
    named = _FAMILY.match(text)
    if named is None:
        return None, text
    rest = text[named.end() :]
    known = sorted(families, key=lambda family: -len(family.name))
    for family in known:
        name = name_key(family.name)
        if name_key(rest).startswith(f"{name} "):
            return family.id, " ".join(rest.split()[len(family.name.split()) :])
    raise BadInput(f"No family of the studio is named in {text!r}. Write a line such as {_EXAMPLE}.")


def _day(text: str, now: datetime, around: date, home_zone: Zone, *, month_first: bool) -> date:
    if not text.strip():
        raise BadInput(f"The line names no day. Write one such as {_EXAMPLE}.")
    when = read_when(text, now=now, around=around, home_zone=home_zone, month_first=month_first, same=_NOON)
    if when.local.time() != _NOON or when.minutes is not None:
        raise BadInput(f"{text!r} says a time, and a break is of whole days. Write a line such as {_EXAMPLE}.")
    return when.local.date()


def _day_and_reason(text: str, now: datetime, around: date, home_zone: Zone, *, month_first: bool) -> tuple[date, str]:
    """The day that as many words as possible name, and the words behind it."""
    words = text.split()
    fault = BadInput(f"The line names no day. Write one such as {_EXAMPLE}.")
    for count in range(min(len(words), 6), 0, -1):
        try:
            on = _day(" ".join(words[:count]), now, around, home_zone, month_first=month_first)
        except BadInput as refused:
            fault = refused
            continue
        reason = " ".join(words[count:])
        if _NO_REASON.match(reason) or words[count - 1].casefold() == "week":
            raise BadInput(f"{text!r} says more days than are understood. Write a line such as {_EXAMPLE}.")
        return on, reason
    raise fault
