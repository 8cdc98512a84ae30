"""One event of a calendar file, as plain values; each reason why it cannot be taken is a BadInput."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta
from functools import lru_cache
from itertools import chain

from icalendar import Event, vDDDLists, vDDDTypes, vDuration
from icalendar.timezone.windows_to_olson import WINDOWS_TO_OLSON

from cockpit.studio.clocks.horizons import LESSON_MINUTES
from cockpit.studio.clocks.moments import Zone, local_time, moment
from cockpit.studio.clocks.words import long_date
from cockpit.studio.clocks.zones import find_zone
from cockpit.studio.errors import BadInput
from cockpit.studio.roster.columns import quoted
from cockpit.studio.roster.values import read_call_link, read_name, says_no_lesson
from cockpit.studio.shown import one_line
from cockpit.studio.values import Value

_LONGEST_TITLE = 200
_MINUTE = timedelta(minutes=1)
_UNREADABLE = "\N{REPLACEMENT CHARACTER}"


class Clocked(Value):
    """A naive local time, and the zone of its clock: an IANA name, or None for the clock of whoever reads it."""

    local: datetime
    zone: str | None

    def at(self, home_zone: Zone) -> datetime:
        """The UTC moment, for a reader who lives in `home_zone`."""
        return moment(self.local, home_zone if self.zone is None else self.zone)

    def on_clock(self, zone: str | None, home_zone: Zone) -> datetime:
        """The naive local time on another clock."""
        if zone == self.zone:
            return self.local
        return local_time(self.at(home_zone), home_zone if zone is None else zone).replace(tzinfo=None)


def values_of(event: Event, name: str) -> list[object]:
    """The values of a property, in the order of the file."""
    found: object = event.get(name)
    if found is None:
        return []
    return list(found) if isinstance(found, list) else [found]


def value_of(event: Event, name: str) -> object:
    """The value of a property that an event has once; None if it has none."""
    found = values_of(event, name)
    if len(found) > 1 or any(fault[0] == name for fault in event.errors):
        raise BadInput(f"its {name} could not be read")
    return found[0] if found else None


def text_of(event: Event, name: str) -> str:
    """A property as text on one line, with single spaces; empty if there is none."""
    found = [value for value in values_of(event, name) if isinstance(value, str)]
    return read_name(one_line(found[0])) if found else ""


def is_cancelled(event: Event) -> bool:
    """Whether the event is marked as one that does not take place."""
    return text_of(event, "STATUS").upper() == "CANCELLED"


def stamp_of(event: Event, name: str) -> str:
    """A date or time of an event as its file writes it, without its zone; empty if there is none."""
    value = next(iter(values_of(event, name)), None)
    if not isinstance(value, vDDDTypes) or not isinstance(value.dt, date):
        return ""
    # Without its zone: that may be one of the file's own making, whose rules are not to be worked out.
    return (value.dt.replace(tzinfo=None) if isinstance(value.dt, datetime) else value.dt).isoformat()


def whole_day(value: object) -> date | None:
    """The date of an event that has no time of day."""
    if not isinstance(value, vDDDTypes) or isinstance(value.dt, datetime):
        return None
    return value.dt if isinstance(value.dt, date) else None


def meeting_of(exception: Event) -> Clocked | date:
    """The meeting that an exception stands for, by the rule."""
    value = value_of(exception, "RECURRENCE-ID")
    on = whole_day(value)
    return clocked(value) if on is None else on


def day_of(meeting: Clocked | date, zone: str | None, home_zone: Zone) -> date:
    """The date of a meeting on a clock."""
    return meeting.on_clock(zone, home_zone).date() if isinstance(meeting, Clocked) else meeting


def is_for_all_that_follow(exception: Event) -> bool:
    """Whether an exception changes the meetings after it, too."""
    value = value_of(exception, "RECURRENCE-ID")
    return isinstance(value, vDDDTypes) and "RANGE" in value.params


def refuse_for_all_that_follow(exception: Event, zone: str | None, home_zone: Zone) -> None:
    """Refuses an exception that changes the meetings after it, too; its date is told on the clock of `zone`.

    Raises:
        BadInput: it is one.
    """
    if is_for_all_that_follow(exception):
        on = long_date(day_of(meeting_of(exception), zone, home_zone))
        raise BadInput(
            f"one change in it is for all lessons from {on} on. In your calendar, end the series before that day, make a "
            "new one from then on, and export it again"
        )


def title_of(event: Event) -> str:
    """What the event is called."""
    title = text_of(event, "SUMMARY")
    if not title:
        raise BadInput("it has no title")
    if len(title) > _LONGEST_TITLE or _UNREADABLE in title:
        raise BadInput("its title is not a name")
    return title


def lesson_title_of(event: Event) -> str:
    """The title of an event; refuses one that says that there is no lesson, where the event takes place."""
    title = title_of(event)
    if not is_cancelled(event) and (word := says_no_lesson(title)):
        raise BadInput(f"its title says {quoted(word)}. If there is a lesson, take that out of the title")
    return title


def clocked(value: object) -> Clocked:
    """The local time that a date-time means; its zone by name, whatever rules the file gives for it."""
    if not isinstance(value, vDDDTypes) or not isinstance(value.dt, date):
        raise BadInput("its time could not be read")
    at = value.dt
    if not isinstance(at, datetime):
        raise BadInput("it is an all-day event")
    if at.year not in range(1990, 2200):
        raise BadInput(f"its year is {at.year}")
    return _on_its_clock(at, value.params.get("TZID"))


def _on_its_clock(at: datetime, named: object) -> Clocked:
    local = at.replace(tzinfo=None)
    if named is not None:
        return Clocked(local=local, zone=zone_named(str(named)))
    return Clocked(local=local, zone=None if at.tzinfo is None else "UTC")


@lru_cache(maxsize=256)
def zone_named(name: str) -> str:
    """The IANA zone that a TZID names: an IANA name, one of Windows, or one behind the sign of its maker."""
    parts = name.strip("/ ").split("/")
    try:
        return find_zone(WINDOWS_TO_OLSON.get(name.strip(), "/".join(parts)))
    except BadInput as fault:
        if name.startswith("/"):
            for place in range(1, len(parts)):
                try:
                    return find_zone("/".join(parts[place:]))
                except BadInput:
                    continue
        raise BadInput(f"its time zone {quoted(name)} is not known: {fault}") from fault


def minutes_of(event: Event, starts: Clocked, home_zone: Zone) -> int:
    """The length of an event."""
    end, length = value_of(event, "DTEND"), value_of(event, "DURATION")
    if end is not None:
        lasts = clocked(end).at(home_zone) - starts.at(home_zone)
    else:
        given = length.dt if isinstance(length, vDDDTypes | vDuration) else None
        lasts = given if isinstance(given, timedelta) else timedelta()
    minutes, rest = divmod(lasts, _MINUTE)
    if rest or minutes not in LESSON_MINUTES:
        raise BadInput(f"it lasts {_length(lasts)}, but a lesson lasts 5 to 240 minutes")
    return minutes


def _length(lasts: timedelta) -> str:
    minutes = lasts / _MINUTE
    return f"{minutes:g} minutes" if abs(minutes) < 1000 else f"{lasts.days} days"


def call_link_of(event: Event) -> str | None:
    """The first web address among what an event says of calls and places."""
    for value in chain.from_iterable(values_of(event, name) for name in ("CONFERENCE", "URL", "LOCATION")):
        try:
            return read_call_link(value if isinstance(value, str) else "")
        except BadInput:
            continue
    return None


def left_out_of(event: Event) -> Iterator[Clocked | date]:
    """The meetings that the rule leaves out; a whole day, where only that is said."""
    for dates in values_of(event, "EXDATE"):
        if not isinstance(dates, vDDDLists):
            raise BadInput("the dates that it leaves out could not be read")
        for each in dates.dts:
            if isinstance(each.dt, datetime):
                yield _on_its_clock(each.dt, dates.params.get("TZID"))
            elif isinstance(each.dt, date):
                yield each.dt
