"""A calendar file that is brought in (RFC 5545), read into weekly and single lessons.

The file may come from anywhere: its size is bounded before it is read, a zone counts by its name, or by rules of
a plain form where its name is no zone's, and no rule is ever expanded.
"""

import re
import warnings
from collections.abc import Iterable, Iterator
from datetime import date, datetime

from icalendar import Calendar, Event, Timezone, vDDDLists, vDDDTypes
from icalendar.error import GloballyUniqueTZIDGuessed

from cockpit.papers.calendar.entry import values_of, zone_named
from cockpit.papers.calendar.events import Events
from cockpit.papers.calendar.own_rules import first_difference, zone_of_rules
from cockpit.papers.calendar.series import SeriesReader
from cockpit.studio.calendar.events import EventsReading
from cockpit.studio.clocks.moments import Zone, lesson_zone
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput
from cockpit.studio.progress import Report, unheard
from cockpit.studio.roster.columns import quoted

MOST_BYTES = 5_000_000
MOST_LINES = 100_000
_MOST_ZONES = 20  # of its own making
_WANTED = "Export only the calendar that has your lessons, or fewer years of it."
_FOLD = re.compile(rb"\r?\n[ \t]")  # before it is text: RFC 5545 3.1 lets a line be folded inside a letter
_LINE = re.compile(rb"^[^ \t\r\n]", re.MULTILINE)
_ENDS = re.compile(r"END:VCALENDAR\s*\Z", re.IGNORECASE)
_BEGIN = re.compile(r"^BEGIN:VCALENDAR\s", re.IGNORECASE | re.MULTILINE)
_BEGINS = re.compile(r"\s*BEGIN:VCALENDAR\s", re.IGNORECASE)


def read_calendar(data: bytes, *, home_zone: Zone, begins: date, report: Report = unheard) -> EventsReading:
    """The lessons of a calendar file, from a date of the teacher's on; what ended before it is only counted.

    Weekly events (also every second week) become rows of a roster, one for each weekday; single events become
    lessons. A time without a zone is on the clock that its calendar names, else on the teacher's. The same file always gives the same rows.
    `report` counts the events.

    Raises:
        BadInput: it is no calendar, ends in the middle, is not UTF-8, or is too large.
    """
    events: list[Event] = []
    notices: list[str] = []
    for calendar in _calendars(_text_of(_FOLD.sub(b"", data))):
        notices += _on_the_calendars_clock(calendar)
        notices += _by_its_own_rules(calendar, begins, lesson_zone(home_zone, begins))
        events += calendar.events
    return Events(SeriesReader(home_zone, begins), notices).read(events, report)


def _on_the_calendars_clock(calendar: Calendar) -> list[str]:
    """Gives the times without a zone that of their calendar, and says so; nothing where it names none."""
    named = calendar.get("X-WR-TIMEZONE")
    floating = [value for event in calendar.events for value in _moments(event) if _is_floating(value)]
    if not isinstance(named, str) or not floating:
        return []
    try:
        zone = zone_named(named)
    except BadInput:
        return [f"Times without a time zone are on your clock: the calendar's zone {quoted(named)} is not known."]
    for value in floating:
        value.params["TZID"] = zone
    return [f"Times without a time zone are on the calendar's clock, {zone}."]


def _by_its_own_rules(calendar: Calendar, begins: date, home_zone: str) -> list[str]:
    """Gives the times in a zone of the file's own making the IANA zone of its rules, and says so.

    A zone that is known is that of the zone data, whatever the file says of it; where that is something else, it is told.
    """
    components = {str(each.get("TZID")): each for each in calendar.walk("VTIMEZONE") if isinstance(each, Timezone)}
    found: dict[str, str | None] = {}
    notices: list[str] = []
    for value in (value for event in calendar.events for value in _moments(event) if "TZID" in value.params):
        name = str(value.params["TZID"])
        if name not in found:
            component = None if len(found) > _MOST_ZONES else components.get(name)
            known = _known(name)
            found[name] = zone_of_rules(component, begins, home_zone) if component and not known else None
            differs = first_difference(component, known, begins) if component and known else None
            if differs is not None:
                notices.append(
                    f"The file's own rules for the time zone {quoted(name)} differ from the time zone data, first on "
                    f"{long_date(differs)}. The time zone data was used. Check the times after that day."
                )
        if (zone := found[name]) is not None:
            value.params["TZID"] = zone
    read = (
        f"The time zone {quoted(name)} was read by its rules: those of {zone}." for name, zone in found.items() if zone
    )
    return [*notices, *read]


def _known(name: str) -> str | None:
    try:
        return zone_named(name)
    except BadInput:
        return None


def _moments(event: Event) -> Iterator[vDDDTypes | vDDDLists]:
    for name in ("DTSTART", "DTEND", "RECURRENCE-ID", "EXDATE"):
        for value in values_of(event, name):
            if isinstance(value, vDDDTypes | vDDDLists):
                yield value


def _is_floating(value: vDDDTypes | vDDDLists) -> bool:
    moments = value.dts if isinstance(value, vDDDLists) else [value]
    return "TZID" not in value.params and any(
        isinstance(each.dt, datetime) and each.dt.tzinfo is None for each in moments
    )


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
