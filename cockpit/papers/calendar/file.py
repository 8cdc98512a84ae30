"""A calendar as a file of RFC 5545, which every calendar program can take in or subscribe to.

It says when, who and where to call, and nothing else: no remark, no note, no address.
"""

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event, Parameters, Timezone, vDatetime, vText

from cockpit.papers.calendar.zones import zone_component
from cockpit.studio.calendar.shared import SharedCalendar, SharedLesson, SharedSeries
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.shown import one_line

_MADE_BY = "-//Lesson day cockpit//Lessons//EN"
_READ_AGAIN = timedelta(hours=6)
_NONE = Parameters()
_FOLDED = 75  # octets, from which on the library folds a line


class _Line(vText):
    r"""Typed text on one line, escaped by RFC 5545 3.3.11; the library would write a typed `\N` as a line break."""

    def to_ical(self) -> bytes:
        """The text as the file has it."""
        return re.sub(r"[\\;,]", r"\\\g<0>", self).encode()


def calendar_file(calendar: SharedCalendar, report: Report = unheard) -> str:
    """The calendar as iCalendar text, its lines ended by CRLF; the same calendar always gives the same text.

    A weekly rule stands on the clock of its zone, a single lesson in UTC. Every zone that is named is explained. `report`
    counts what is written.
    """
    file = Calendar()
    file.add("PRODID", _MADE_BY)
    file.add("VERSION", "2.0")
    # No METHOD: a published one asks for an organizer's address (RFC 5546 3.2.1).
    file.add("UID", calendar.uid)
    file.add("NAME", _Line(one_line(calendar.name)))
    file.add("LAST-MODIFIED", calendar.made_at)
    file.add("REFRESH-INTERVAL", _READ_AGAIN, parameters={"VALUE": "DURATION"})
    head, end, _ = file.to_ical().decode().partition("END:VCALENDAR")
    events = _Events(calendar)
    written = [*events]
    zones = sorted({each["DTSTART"].params.get("TZID", "UTC") for each in written} - {"UTC"})
    parts: list[Event | Timezone] = [*(zone_component(zone, *_years(calendar)) for zone in zones), *written]
    return "".join((head, *map(events.text, in_steps(parts, report)), end, "\r\n"))


def _years(calendar: SharedCalendar) -> tuple[int, int]:
    """The first and the last year that a zone has to be explained for."""
    locals_ = [local for series in calendar.series for local in (series.first, *series.left_out)]
    locals_ += [
        moved.instead_of for series in calendar.series for moved in (*series.moved, *series.gone) if moved.instead_of
    ]
    years = {local.year for local in locals_} | {each.last.year for each in calendar.series if each.last}
    return min(years), max(years)


class _Events:
    """The events of a calendar, and their text. A value that many events have is made once, and so is its line.

    The library works out every value and line anew: with 500 lessons that was two thirds of the time.
    """

    def __init__(self, calendar: SharedCalendar) -> None:
        self._calendar = calendar
        self._values: dict[tuple[str, object], object] = {}
        self._lines: dict[int, str] = {}  # by the identity of a value, which `_values` keeps

    def __iter__(self) -> Iterator[Event]:
        calendar = self._calendar
        for series in calendar.series:
            yield self._series(series)
            for moved in series.moved:
                yield self._lesson(moved, ZoneInfo(series.zone))
            for gone in series.gone:
                yield _cancelled(self._lesson(gone, ZoneInfo(series.zone)))
        for lesson in calendar.lessons:
            yield self._lesson(lesson, UTC)
        for lesson in calendar.cancelled:
            yield _cancelled(self._lesson(lesson, UTC))

    def text(self, component: Event | Timezone) -> str:
        """The text of an event, or of anything else as the library writes it."""
        if not isinstance(component, Event):
            whole: bytes = component.to_ical()
            return whole.decode()
        values = ((name, component[name]) for name in component.sorted_keys())
        lines = (self._lines.get(id(value)) or _line(component, name, value) for name, value in values)
        return f"BEGIN:VEVENT\r\n{''.join(lines)}END:VEVENT\r\n"

    def _series(self, series: SharedSeries) -> Event:
        clock = ZoneInfo(series.zone)
        event = self._event(series)
        event.add("DTSTART", vDatetime(series.first.replace(tzinfo=clock)))
        rule: dict[str, str | int | datetime] = {"FREQ": "WEEKLY"}
        if series.every_weeks > 1:
            rule["INTERVAL"] = series.every_weeks
        if series.last is not None:
            rule["UNTIL"] = series.last
        event.add("RRULE", rule)
        if series.is_cancelled:
            event.add("STATUS", "CANCELLED")
        if series.left_out:
            event.add("EXDATE", [local.replace(tzinfo=clock) for local in series.left_out])
        return event

    def _lesson(self, lesson: SharedLesson, clock: tzinfo) -> Event:
        event = self._event(lesson)
        event.add("DTSTART", vDatetime(lesson.starts_at))
        if lesson.instead_of is not None:
            event.add("RECURRENCE-ID", vDatetime(lesson.instead_of.replace(tzinfo=clock)))
        return event

    def _event(self, shared: SharedSeries | SharedLesson) -> Event:
        event = Event()
        event.add("UID", shared.uid)
        self._add(event, "DTSTAMP", self._calendar.made_at)
        self._add(event, "SEQUENCE", self._calendar.revision)
        self._add(event, "SUMMARY", _Line(one_line(shared.title)))
        # Minutes, and not an end on a clock, so that no lesson is longer or shorter on the night of a clock change.
        self._add(event, "DURATION", timedelta(minutes=shared.minutes))
        if shared.call_link is not None:
            self._add(event, "URL", shared.call_link)
            call = Parameters({"VALUE": "URI", "FEATURE": ["AUDIO", "VIDEO"], "LABEL": "Lesson"})
            self._add(event, "CONFERENCE", shared.call_link, call)
        return event

    def _add(self, event: Event, name: str, value: object, parameters: Parameters = _NONE) -> None:
        """Adds what many events have."""
        known = self._values.get((name, value))
        if known is None:
            event.add(name, value, parameters=parameters)
            known = self._values[name, value] = event[name]
            self._lines[id(known)] = _line(event, name, known)
        event[name] = known


def _line(event: Event, name: str, value: object) -> str:
    """A line of an event, folded by RFC 5545 3.1; the library looks at every letter of a short one, too."""
    line = event.content_line(name, value)
    return f"{line if line.isascii() and len(line) < _FOLDED else line.to_ical().decode()}\r\n"


def _cancelled(event: Event) -> Event:
    event.add("STATUS", "CANCELLED")
    return event
