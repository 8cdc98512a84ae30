"""Weekly rules as calendars write them (RFC 5545 3.3.10): several weekdays, a count, weeks that begin on any day."""

from dataclasses import dataclass
from datetime import date, timedelta

_LAST_YEAR = 2199  # what lasts longer has no end


@dataclass(frozen=True, slots=True, kw_only=True)
class WeeklyRule:
    """Every `every_weeks` on `weekdays` (Monday is 0), from the meeting `first` on.

    It ends after `count` meetings or on the date `until`; `week_begins` tells which days make a week.
    """

    first: date
    weekdays: frozenset[int]
    every_weeks: int = 1
    week_begins: int = 0
    count: int | None = None
    until: date | None = None


def beginnings(rule: WeeklyRule) -> tuple[date, ...]:
    """The first meeting on each of the weekdays, in order."""
    week = _first_week(rule)
    found = (week + timedelta(days=place) for place in _places(rule))
    return tuple(sorted(on if on >= rule.first else on + timedelta(weeks=rule.every_weeks) for on in found))


def last_date(rule: WeeklyRule) -> date | None:
    """A date that the last meeting is on, or that no meeting is after; None where the rule has no end."""
    if rule.count is None:
        return rule.until if rule.until is not None and rule.until.year <= _LAST_YEAR else None
    week, places = _first_week(rule), _places(rule)
    in_first = [place for place in places if week + timedelta(days=place) >= rule.first]
    if rule.count <= len(in_first):
        return week + timedelta(days=in_first[rule.count - 1])
    weeks, place = divmod(rule.count - len(in_first) - 1, len(places))
    try:
        last = week + timedelta(weeks=(weeks + 1) * rule.every_weeks, days=places[place])
    except OverflowError:
        return None
    return last if last.year <= _LAST_YEAR else None


def _first_week(rule: WeeklyRule) -> date:
    return rule.first - timedelta(days=(rule.first.weekday() - rule.week_begins) % 7)


def _places(rule: WeeklyRule) -> list[int]:
    """The weekdays as days after the beginning of a week."""
    return sorted((weekday - rule.week_begins) % 7 for weekday in rule.weekdays)
