"""The rule of a weekly event in a calendar file, as the studio's; each reason why it cannot be taken is a BadInput."""

from datetime import date, datetime, time, timedelta

from icalendar import Event, vRecur

from cockpit.papers.calendar.entry import Clocked, value_of, values_of
from cockpit.studio.calendar.events import WeeklyRule
from cockpit.studio.clocks.moments import Zone
from cockpit.studio.errors import BadInput

_WEEKDAYS = ("MO", "TU", "WE", "TH", "FR", "SA", "SU")
_PARTS = {"FREQ", "INTERVAL", "BYDAY", "WKST", "COUNT", "UNTIL"}
_INTERVALS = range(1, 3)


def repeats(event: Event) -> bool:
    """Whether the event is more than one meeting."""
    return any(values_of(event, name) for name in ("RRULE", "RDATE", "EXRULE"))


def weekly_rule(event: Event, starts: Clocked, home_zone: Zone) -> WeeklyRule:
    """The rule of a repeating event; its dates are on the clock of its first meeting."""
    if values_of(event, "RDATE") or values_of(event, "EXRULE"):
        raise BadInput("it repeats on separate dates, not weekly")
    rule = value_of(event, "RRULE")
    if not isinstance(rule, vRecur):
        raise BadInput("its rule could not be read")
    parts = {name.upper(): _values(value) for name, value in rule.items()}
    parts = _as_weekly(parts)
    if _text(parts, "FREQ", "") != "WEEKLY":
        raise BadInput(f"it repeats {_text(parts, 'FREQ', 'in no known way').lower()}, not weekly")
    if unused := sorted(parts.keys() - _PARTS):
        raise BadInput(f"its rule uses {', '.join(unused)}, which a weekly time cannot have")
    if parts.get("COUNT") and parts.get("UNTIL"):
        raise BadInput("its rule has two ends, COUNT and UNTIL")
    weekdays = frozenset(_weekday(text) for text in parts.get("BYDAY", ())) or {starts.local.weekday()}
    if starts.local.weekday() not in weekdays:
        raise BadInput("its first day is not one of its weekdays")
    return WeeklyRule(
        first=starts.local.date(),
        weekdays=frozenset(weekdays),
        every_weeks=_every_weeks(parts),
        week_begins=_weekday(_text(parts, "WKST", "MO")),
        count=_number(parts, "COUNT"),
        until=_until(parts, starts, home_zone),
    )


def _as_weekly(parts: dict[str, list[object]]) -> dict[str, list[object]]:
    """A rule of days that comes to whole weeks: every 7 or 14 days, or every day that is one of these weekdays."""
    if _text(parts, "FREQ", "") != "DAILY":
        return parts
    days = _number(parts, "INTERVAL") or 1
    if days % 7 == 0 and not parts.get("BYDAY"):
        return parts | {"FREQ": ["WEEKLY"], "INTERVAL": [days // 7]}
    return parts | {"FREQ": ["WEEKLY"]} if days == 1 and parts.get("BYDAY") else parts


def _values(value: object) -> list[object]:
    return list(value) if isinstance(value, list | tuple) else [value]


def _text(parts: dict[str, list[object]], name: str, otherwise: str) -> str:
    values = parts.get(name) or [otherwise]
    return str(values[0]).upper()


def _number(parts: dict[str, list[object]], name: str) -> int | None:
    if not parts.get(name):
        return None
    number = parts[name][0]
    if len(parts[name]) > 1 or not isinstance(number, int) or number < 1:
        raise BadInput(f"the {name} of its rule is not a number")
    return number


def _every_weeks(parts: dict[str, list[object]]) -> int:
    every_weeks = _number(parts, "INTERVAL") or 1
    if every_weeks not in _INTERVALS:
        raise BadInput(f"it repeats every {every_weeks} weeks; only every week and every other week can be imported")
    return every_weeks


def _weekday(text: object) -> int:
    said = str(text).upper()
    if said not in _WEEKDAYS:
        raise BadInput(f"its rule uses {said}, which is not a plain weekday")
    return _WEEKDAYS.index(said)


def _until(parts: dict[str, list[object]], starts: Clocked, home_zone: Zone) -> date | None:
    """The last date on which a meeting may start: UNTIL is a moment, and a start at that very moment is still in."""
    if not parts.get("UNTIL"):
        return None
    until = parts["UNTIL"][0]
    if not isinstance(until, datetime):
        if not isinstance(until, date):
            raise BadInput("the UNTIL of its rule could not be read")
        return until
    ends = Clocked(local=until.replace(tzinfo=None), zone=starts.zone if until.tzinfo is None else "UTC")
    if until.year not in range(1990, 2200):
        return until.date()
    on = ends.on_clock(starts.zone, home_zone).date()
    starts_then = Clocked(local=datetime.combine(on, _time_of(starts)), zone=starts.zone)
    return on if starts_then.at(home_zone) <= ends.at(home_zone) else on - timedelta(days=1)


def _time_of(starts: Clocked) -> time:
    return starts.local.time()
