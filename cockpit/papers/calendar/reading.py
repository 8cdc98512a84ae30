"""A calendar file that is brought in (RFC 5545), read into weekly and single lessons.

The file may come from anywhere: its size is bounded before it is read, its own time-zone rules are never followed (a
zone counts by its name), and no rule is ever expanded.
"""

import re
import warnings
from collections.abc import Iterable
from datetime import date

from icalendar import Calendar, Event
from icalendar.error import GloballyUniqueTZIDGuessed

from cockpit.papers.calendar.events import Events
from cockpit.papers.calendar.series import SeriesReader
from cockpit.studio.calendar.events import EventsReading
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.errors import BadInput

MOST_BYTES = 5_000_000
MOST_LINES = 100_000
_WANTED = "Export only the calendar that has your lessons, or fewer years of it."
_LINE = re.compile(rb"^[^ \t\r\n]", re.MULTILINE)
_ENDS = re.compile(r"END:VCALENDAR\s*\Z", re.IGNORECASE)
_BEGIN = re.compile(r"^BEGIN:VCALENDAR\s", re.IGNORECASE | re.MULTILINE)
_BEGINS = re.compile(r"\s*BEGIN:VCALENDAR\s", re.IGNORECASE)


def read_calendar(data: bytes, *, home_zone: Zone, begins: date) -> EventsReading:
    """The lessons of a calendar file, from a date of the teacher's on; what ended before it is only counted.

    Weekly events (also every second week) become rows of a roster, one for each weekday; single events become
    lessons. A time without a zone is on the teacher's clock. The same file always gives the same rows.

    Raises:
        BadInput: it is no calendar, ends in the middle, is not UTF-8, or is too large.
    """
    events: list[Event] = []
    for calendar in _calendars(_text_of(data)):
        events += calendar.events
    return Events(SeriesReader(home_zone, begins)).read(events)


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
