"""Weekly rules of calendars, against the worked examples of RFC 5545 3.8.5.3 and against python-dateutil."""

from datetime import date, datetime, time
from itertools import islice

import pytest
from dateutil.rrule import WEEKLY, rrule
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.calendar.events import WeeklyRule, beginnings, last_date

MONDAY, TUESDAY, THURSDAY, SUNDAY = 0, 1, 3, 6


@pytest.mark.parametrize(
    ("first", "weekdays", "every", "week_begins", "count", "begin", "last"),
    [
        ("1997-09-02", {TUESDAY}, 1, MONDAY, 10, ["1997-09-02"], "1997-11-04"),  # A
        ("1997-09-02", {TUESDAY, THURSDAY}, 1, SUNDAY, 10, ["1997-09-02", "1997-09-04"], "1997-10-02"),  # D
        ("1997-09-02", {TUESDAY, THURSDAY}, 2, SUNDAY, 8, ["1997-09-02", "1997-09-04"], "1997-10-16"),  # F
        ("1997-08-05", {TUESDAY, SUNDAY}, 2, MONDAY, 4, ["1997-08-05", "1997-08-10"], "1997-08-24"),  # G
        ("1997-08-05", {TUESDAY, SUNDAY}, 2, SUNDAY, 4, ["1997-08-05", "1997-08-17"], "1997-08-31"),  # H
    ],
)
def test_a_counted_rule_begins_and_ends_as_the_rfc_shows(first, weekdays, every, week_begins, count, begin, last):
    """RFC 5545 3.8.5.3, the examples A, D, F, G and H of our table."""
    rule = WeeklyRule(
        first=date.fromisoformat(first),
        weekdays=frozenset(weekdays),
        every_weeks=every,
        week_begins=week_begins,
        count=count,
    )
    assert beginnings(rule) == tuple(map(date.fromisoformat, begin))
    assert last_date(rule) == date.fromisoformat(last)


@given(
    first=st.dates(date(2000, 1, 1), date(2050, 1, 1)),
    others=st.frozensets(st.integers(0, 6)),
    every=st.integers(1, 4),
    week_begins=st.integers(0, 6),
    count=st.integers(1, 60),
)
def test_a_counted_rule_agrees_with_an_independent_expansion(first, others, every, week_begins, count):
    weekdays = others | {first.weekday()}
    rule = WeeklyRule(first=first, weekdays=weekdays, every_weeks=every, week_begins=week_begins, count=count)
    start = datetime.combine(first, time())
    parts = {"dtstart": start, "interval": every, "wkst": week_begins, "byweekday": sorted(weekdays)}
    assert last_date(rule) == list(rrule(WEEKLY, count=count, **parts))[-1].date()
    earliest = {}
    for at in islice(rrule(WEEKLY, **parts), 14):
        earliest.setdefault(at.weekday(), at.date())
    assert beginnings(rule) == tuple(sorted(earliest.values()))


@pytest.mark.parametrize(
    "end", [{}, {"count": 10**9}, {"count": 10**30}, {"until": date(9999, 12, 31)}, {"until": date(2200, 1, 1)}]
)
def test_a_rule_that_outlasts_everybody_has_no_end(end):
    assert last_date(WeeklyRule(first=date(2026, 9, 1), weekdays=frozenset({1}), **end)) is None


def test_a_rule_with_a_last_day_ends_on_it():
    until = date(2026, 12, 24)
    assert last_date(WeeklyRule(first=date(2026, 9, 1), weekdays=frozenset({1}), until=until)) == until
