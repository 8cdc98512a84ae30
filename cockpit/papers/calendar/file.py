"""A calendar as a file of RFC 5545, which every calendar program can take in or subscribe to.

It says when, who and where to call, and nothing else: no remark, no note, no address.
"""

import re
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta, tzinfo
from zoneinfo import ZoneInfo

from icalendar import Calendar, Event, Parameters, vText

from cockpit.papers.calendar.zones import zone_component
from cockpit.studio.calendar.shared import SharedCalendar, SharedLesson, SharedSeries
from cockpit.studio.progress import Report, in_steps, unheard
from cockpit.studio.shown import one_line

_MADE_BY = "-//Lesson day cockpit//Lessons//EN"
_READ_AGAIN = timedelta(hours=6)


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
    head, end, _ = file.to_ical().partition(b"END:VCALENDAR")
    file.subcomponents = [*_events(calendar)]
    zones = [zone_component(zone, *_years(calendar)) for zone in sorted(file.get_missing_tzids())]
    parts = [each.to_ical() for each in in_steps([*zones, *file.subcomponents], report)]
    return b"".join((head, *parts, end, b"\r\n")).decode()


def _years(calendar: SharedCalendar) -> tuple[int, int]:
    """The first and the last year that a zone has to be explained for."""
    locals_ = [local for series in calendar.series for local in (series.first, *series.left_out)]
    locals_ += [
        moved.instead_of for series in calendar.series for moved in (*series.moved, *series.gone) if moved.instead_of
    ]
    years = {local.year for local in locals_} | {each.last.year for each in calendar.series if each.last}
    return min(years), max(years)


def _events(calendar: SharedCalendar) -> Iterator[Event]:
    for series in calendar.series:
        yield _series(series, calendar)
        for moved in series.moved:
            yield _lesson(moved, calendar, ZoneInfo(series.zone))
        for gone in series.gone:
            yield _cancelled(_lesson(gone, calendar, ZoneInfo(series.zone)))
    for lesson in calendar.lessons:
        yield _lesson(lesson, calendar, UTC)
    for lesson in calendar.cancelled:
        yield _cancelled(_lesson(lesson, calendar, UTC))


def _cancelled(event: Event) -> Event:
    event.add("STATUS", "CANCELLED")
    return event


def _series(series: SharedSeries, calendar: SharedCalendar) -> Event:
    clock = ZoneInfo(series.zone)
    event = _event(series, calendar)
    event.add("DTSTART", series.first.replace(tzinfo=clock))
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


def _lesson(lesson: SharedLesson, calendar: SharedCalendar, clock: tzinfo) -> Event:
    event = _event(lesson, calendar)
    event.add("DTSTART", lesson.starts_at)
    if lesson.instead_of is not None:
        event.add("RECURRENCE-ID", lesson.instead_of.replace(tzinfo=clock))
    return event


def _event(shared: SharedSeries | SharedLesson, calendar: SharedCalendar) -> Event:
    event = Event()
    event.add("UID", shared.uid)
    event.add("DTSTAMP", calendar.made_at)
    event.add("SEQUENCE", calendar.revision)
    event.add("SUMMARY", _Line(one_line(shared.title)))
    # Minutes, and not an end on a clock, so that no lesson is longer or shorter on the night of a clock change.
    event.add("DURATION", timedelta(minutes=shared.minutes))
    if shared.call_link is not None:
        event.add("URL", shared.call_link)
        call = Parameters({"VALUE": "URI", "FEATURE": ["AUDIO", "VIDEO"], "LABEL": "Lesson"})
        event.add("CONFERENCE", shared.call_link, parameters=call)
    return event
