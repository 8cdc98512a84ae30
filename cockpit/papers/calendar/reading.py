"""A calendar file that is brought in (RFC 5545), read into weekly and single lessons.

The file may come from anywhere: its size is bounded before it is read, its own time-zone rules are never followed (a
zone counts by its name), and no rule is ever expanded.
"""

import re
import warnings
from collections.abc import Iterable, Iterator
from datetime import date, datetime

from icalendar import Calendar, Event, vDDDLists, vDDDTypes
from icalendar.error import GloballyUniqueTZIDGuessed

from cockpit.papers.calendar.entry import values_of, zone_named
from cockpit.papers.calendar.events import Events
from cockpit.papers.calendar.series import SeriesReader
from cockpit.studio.calendar.events import EventsReading
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.errors import BadInput
from cockpit.studio.roster.columns import quoted

MOST_BYTES = 5_000_000
MOST_LINES = 100_000
_WANTED = "Export only the calendar that has your lessons, or fewer years of it."
_FOLD = re.compile(rb"\r?\n[ \t]")  # before it is text: RFC 5545 3.1 lets a line be folded inside a letter
_LINE = re.compile(rb"^[^ \t\r\n]", re.MULTILINE)
_ENDS = re.compile(r"END:VCALENDAR\s*\Z", re.IGNORECASE)
_BEGIN = re.compile(r"^BEGIN:VCALENDAR\s", re.IGNORECASE | re.MULTILINE)
_BEGINS = re.compile(r"\s*BEGIN:VCALENDAR\s", re.IGNORECASE)


def read_calendar(data: bytes, *, home_zone: Zone, begins: date) -> EventsReading:
    """The lessons of a calendar file, from a date of the teacher's on; what ended before it is only counted.

    Weekly events (also every second week) become rows of a roster, one for each weekday; single events become
    lessons. A time without a zone is on the clock that its calendar names, else on the teacher's. The same file always gives the same rows.

    Raises:
        BadInput: it is no calendar, ends in the middle, is not UTF-8, or is too large.
    """
    events: list[Event] = []
    notices: list[str] = []
    for calendar in _calendars(_text_of(_FOLD.sub(b"", data))):
        notices += _on_the_calendars_clock(calendar)
        events += calendar.events
    return Events(SeriesReader(home_zone, begins), notices).read(events)


def _on_the_calendars_clock(calendar: Calendar) -> list[str]:
    """Gives the times without a zone that of their calendar, and says so; nothing where it names none."""
    named = calendar.get("X-WR-TIMEZONE")
    floating = [value for event in calendar.events for value in _floating(event)]
    if not isinstance(named, str) or not floating:
        return []
    try:
        zone = zone_named(named)
    except BadInput:
        return [f"Times without a time zone are on your clock: the calendar's zone {quoted(named)} is not known."]
    for value in floating:
        value.params["TZID"] = zone
    return [f"Times without a time zone are on the calendar's clock, {zone}."]


def _floating(event: Event) -> Iterator[vDDDTypes | vDDDLists]:
    for name in ("DTSTART", "DTEND", "RECURRENCE-ID", "EXDATE"):
        for value in values_of(event, name):
            moments = value.dts if isinstance(value, vDDDLists) else [value]
            is_floating = any(
                isinstance(each, vDDDTypes) and isinstance(each.dt, datetime) and each.dt.tzinfo is None
                for each in moments
            )
            if is_floating and isinstance(value, vDDDTypes | vDDDLists) and "TZID" not in value.params:
                yield value


def _text_of(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise BadInput(
            f"The calendar file is {len(data) / 1e6:.1f} MB. The limit is {MOST_BYTES / 1e6:g} MB. {_WANTED}"
        )
    lines = sum(1 for _ in _LINE.finditer(data))
    if lines > MOST_LINES:
        raise BadInput(f"The calendar file has {lines:,} lines. The limit is {MOST_LINES:,}. {_WANTED}")
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as fault:
        raise BadInput("The calendar file is not UTF-8. Export it again as UTF-8.") from fault
    if not _BEGINS.match(text):
        raise BadInput("This is not a calendar file. Its first line is not BEGIN:VCALENDAR.")
    if not _ENDS.search(text[-100:]):
        raise BadInput("The calendar file is cut off. Its last line is not END:VCALENDAR. Export it again.")
    return text


def _calendars(text: str) -> Iterable[Calendar]:
    with warnings.catch_warnings():
        # We read such a name ourselves; its guess is never used.
        warnings.simplefilter("ignore", GloballyUniqueTZIDGuessed)
        try:
            found = Calendar.from_ical(text, multiple=True)
        except (ValueError, LookupError, TypeError, AttributeError, ArithmeticError, RecursionError) as fault:
            raise BadInput(f"The calendar file could not be read: {' '.join(str(fault).split())[:80]}.") from fault
    # A file may hold cards and other things beside calendars, whatever the library's types say.
    calendars = [each for each in found if each.name == "VCALENDAR"]
    if len(calendars) < len(_BEGIN.findall(text)):
        raise BadInput("The calendar file could not be read: A BEGIN in it has no END. Export it again.")
    return calendars
