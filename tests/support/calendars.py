"""Calendar files as text, and a studio into which they are brought."""

from support.arranged_studio import Arranged

from cockpit.desk.calendar.proposals import Proposal
from cockpit.papers.calendar.reading import read_calendar
from cockpit.studio.clocks.moments import local_time

WEEKLY = {
    "UID": "weekly@example.org",
    "DTSTAMP": "20260901T000000Z",
    "SUMMARY": "Ilse",
    "DTSTART;TZID=America/Chicago": "20260901T160000",
    "DURATION": "PT30M",
    "RRULE": "FREQ=WEEKLY",
}
SINGLE = WEEKLY | {
    "UID": "single@example.org",
    "DTSTART;TZID=America/Chicago": "20261210T100000",
    "RRULE": None,
}


def event(values: dict[str, str | None], **more: str | None) -> str:
    """An event of these properties; None leaves one out."""
    lines = [f"{name}:{value}" for name, value in (values | more).items() if value is not None]
    return "\r\n".join(("BEGIN:VEVENT", *lines, "END:VEVENT", ""))


def at(local: str) -> dict[str, str | None]:
    """A start in Chicago: `20261203T100000`."""
    return {"DTSTART;TZID=America/Chicago": local}


def calendar(*events: str) -> bytes:
    """A calendar file."""
    lines = ("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//x//y//EN\r\n", *events, "END:VCALENDAR\r\n")
    return "".join(lines).encode()


def brought(arranged: Arranged, *events: str, names: dict[str, str | None] | None = None) -> Proposal:
    """What events changed in a studio; `names` are the students that titles stand for."""
    zone = arranged.studio.preferences.home.zone
    today = local_time(arranged.clock.now(), zone).date()
    reading = read_calendar(calendar(*events), home_zone=zone, begins=today)
    return arranged.studio.enrolling.take_in(reading, names or {})
