"""Which lessons a typed line calls off."""

from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, HOME, ILSE, OKONJO, STARTS_AT, TEODOR

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.call_off_line import CallOffLine, read_call_off
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference

TODAY = date(2026, 12, 1)  # a Tuesday
REFERENCE = Reference(now=STARTS_AT - timedelta(hours=6), around=TODAY, home_zone=HOME)


def read(line: str) -> CallOffLine:
    return read_call_off(line, StudioNames([BRANDVOLD, OKONJO], [ILSE, TEODOR]), REFERENCE)


@pytest.mark.parametrize(
    ("line", "first", "last", "begins", "reason"),
    [
        ("today", TODAY, TODAY, time(), ""),
        ("today ill", TODAY, TODAY, time(), "ill"),
        ("from 4pm", TODAY, TODAY, time(16), ""),
        ("from 4:30 pm on, ill", TODAY, TODAY, time(16, 30), "ill"),
        ("today from 16:00", TODAY, TODAY, time(16), ""),
        ("after 5 pm: dentist", TODAY, TODAY, time(17), "dentist"),
        ("all tuesday", TODAY, TODAY, time(), ""),
        ("all lessons thursday trip", date(2026, 12, 3), date(2026, 12, 3), time(), "trip"),
        ("until thursday", TODAY, date(2026, 12, 3), time(), ""),
        ("until thursday: flu", TODAY, date(2026, 12, 3), time(), "flu"),
        ("through dec 4", TODAY, date(2026, 12, 4), time(), ""),
        ("dec 8 to dec 9", date(2026, 12, 8), date(2026, 12, 9), time(), ""),
    ],
)
def test_a_line_names_days_on_her_clock_and_why(line, first, last, begins, reason):
    found = read(line)
    assert (found.days, found.begins, found.reason, found.family_id) == ((first, last), begins, reason, None)


@pytest.mark.parametrize(
    ("line", "days", "whom", "reason"),
    [
        ("ilse", (TODAY, TODAY), "Ilse", ""),
        ("family okonjo", (TODAY, TODAY), "Okonjo", ""),
        ("ilse thursday", (date(2026, 12, 3), date(2026, 12, 3)), "Ilse", ""),
        ("teodor: ill", (TODAY, TODAY), "Teodor", "ill"),
    ],
)
def test_a_name_means_that_family_and_today_where_no_day_is_named(line, days, whom, reason):
    found = read(line)
    assert (found.days, found.whom, found.reason) == (days, whom, reason)
    assert found.family_id in {BRANDVOLD.id, OKONJO.id}


@pytest.mark.parametrize(("line", "reason"), [("", ""), ("   ", ""), ("ill", "ill"), ("sick", "sick")])
def test_without_a_day_and_a_name_it_is_the_chosen_lesson(line, reason):
    assert read(line) == CallOffLine(reason=reason)


@pytest.mark.parametrize(
    "line",
    [
        "wilhelmina",
        "today except ilse",
        "not ilse",
        "from 4pm to 6pm",
        "nov 30",
        "tuesday morning",
        "today or thursday",
        "4pm",
    ],
)
def test_a_word_that_is_not_understood_is_named_and_calls_nobody_off(line):
    with pytest.raises(BadInput):
        read(line)


@given(st.text("abeiloprstu 0123456789:,;-", max_size=30))
def test_any_line_is_understood_or_refused(line):
    try:
        found = read(line)
    except BadInput:
        return
    assert found.days is None or found.days[0] <= found.days[1]
