"""Days without lessons out of a typed line."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, HOME, OKONJO, STARTS_AT

from cockpit.studio.break_line import read_break
from cockpit.studio.errors import BadInput


def read(text: str):
    found = read_break(text, [BRANDVOLD, OKONJO], now=STARTS_AT, home_zone=HOME)
    return found.family_id, found.from_on, found.until_on, found.reason


@pytest.mark.parametrize(
    ("line", "begins", "ends", "reason"),
    [
        ("21 dec to 3 jan holidays", date(2026, 12, 21), date(2027, 1, 3), "holidays"),
        ("21 dec-3 jan", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("21 dec – 3 jan away", date(2026, 12, 21), date(2027, 1, 3), "away"),
        ("2026-12-21 to 2027-01-03", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("24 dec", date(2026, 12, 24), date(2026, 12, 24), ""),
        ("24 dec Christmas Eve", date(2026, 12, 24), date(2026, 12, 24), "Christmas Eve"),
        ("12/24 concert", date(2026, 12, 24), date(2026, 12, 24), "concert"),
    ],
)
def test_days_and_a_reason_are_read(line, begins, ends, reason):
    assert read(line) == (None, begins, ends, reason)


def test_a_family_is_named_in_front():
    assert read("family okonjo 24 dec skiing") == (OKONJO.id, date(2026, 12, 24), date(2026, 12, 24), "skiing")


@pytest.mark.parametrize(
    "line",
    [
        "",
        "holidays",
        "family",
        "family nobody 24 dec",
        "24 dec 26 dec",
        "24 dec, 25 dec",
        "24 dec and 25 dec",
        "dec 21 2 weeks",
        "next week",
        "today from 5pm",
        "24 dec 3 concerts",
        "3 jan 2027 to 21 dec 2026",
    ],
)
def test_a_line_that_may_mean_more_or_nothing_is_refused(line):
    with pytest.raises(BadInput):
        read(line)


@given(st.text())
def test_any_line_is_read_or_refused(line):
    try:
        family_id, begins, ends, _ = read(line)
    except BadInput:
        pass
    else:
        assert begins <= ends
        assert family_id in {None, BRANDVOLD.id, OKONJO.id}
