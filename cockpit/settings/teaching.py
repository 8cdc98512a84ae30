"""The section [teaching]: her teaching hours, weekday by weekday."""

import re
from itertools import pairwise

from cockpit.settings.reading import TomlTable
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.clocks.teaching_hours import MIDNIGHT, TeachingHours, TeachingSpan
from cockpit.studio.errors import BadInput

_DAYS = {day[:3].casefold(): number for number, day in enumerate(WEEKDAYS)}
_DASH = re.compile(r"\s*[-–—]\s*|\s+to\s+")
_EXPECTED = 'hours in quotes, such as "14:00-20:00" or "9:00-12:00, 14:00-18:00"'


def teaching_hours(table: TomlTable) -> TeachingHours:
    """The hours of each day that is named.

    Raises:
        BadSettings: the file, the day, what was found and what would work.
    """
    table.only(_DAYS, f"one of {', '.join(_DAYS)}")
    return TeachingHours(days={number: _spans(table, day) for day, number in _DAYS.items() if table.has(day)})


def _spans(table: TomlTable, day: str) -> tuple[TeachingSpan, ...]:
    said = table.words(day)
    if not said:
        return ()
    spans = sorted((_span(table, day, part.strip()) for part in said.split(",")), key=lambda span: span.begins)
    for earlier, later in pairwise(spans):
        if earlier.ends == MIDNIGHT or later.begins < earlier.ends:
            raise table.fault(day, f'"{said}", where two spans share time', _EXPECTED)
    return tuple(_joined(spans))


def _span(table: TomlTable, day: str, part: str) -> TeachingSpan:
    # With its words 4 ms, which an opening without hours need not pay.
    from cockpit.studio.roster.values import read_time

    sides = _DASH.split(part)
    if len(sides) != 2:
        raise table.fault(day, f'"{part}"', _EXPECTED)
    try:
        begins = read_time(sides[0])
        ends = MIDNIGHT if sides[1] in {"24", "24:00", "midnight"} else read_time(sides[1])
    except BadInput as fault:
        raise table.fault(day, f'"{part}"', _EXPECTED) from fault
    if ends != MIDNIGHT and ends <= begins:
        raise table.fault(day, f'"{part}", which ends before it begins', _EXPECTED)
    return TeachingSpan(begins=begins, ends=ends)


def _joined(spans: list[TeachingSpan]) -> list[TeachingSpan]:
    """The spans with those that touch as one: a lesson may go on from one into the other."""
    joined: list[TeachingSpan] = []
    for span in spans:
        if joined and joined[-1].ends == span.begins:
            span = TeachingSpan(begins=joined.pop().begins, ends=span.ends)
        joined.append(span)
    return joined
