"""Days without lessons out of a typed line."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import BRANDVOLD, HOME, OKONJO, STARTS_AT, utc

from cockpit.studio.clocks.words import near_days
from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.break_line import read_break


def read(text: str):
    found = read_break(text, [BRANDVOLD, OKONJO], now=STARTS_AT, home_zone=HOME)
    return found.family_id, found.from_on, found.until_on, found.reason


@pytest.mark.parametrize(
    ("line", "begins", "ends", "reason"),
    [
        ("dec 21 to jan 3 holidays", date(2026, 12, 21), date(2027, 1, 3), "holidays"),
        ("dec 21 through jan 3", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("dec 21 thru jan 3 holidays", date(2026, 12, 21), date(2027, 1, 3), "holidays"),
        ("21 dec-3 jan", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("21 dec – 3 jan away", date(2026, 12, 21), date(2027, 1, 3), "away"),
        ("2026-12-21 to 2027-01-03", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("from 21 dec to 3 jan", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("12/21-1/3 winter", date(2026, 12, 21), date(2027, 1, 3), "winter"),
        ("dec 21-31 holidays", date(2026, 12, 21), date(2026, 12, 31), "holidays"),
        ("21–31 december", date(2026, 12, 21), date(2026, 12, 31), ""),
        ("24 dec", date(2026, 12, 24), date(2026, 12, 24), ""),
        ("24 dec Christmas Eve", date(2026, 12, 24), date(2026, 12, 24), "Christmas Eve"),
        ("12/24 concert", date(2026, 12, 24), date(2026, 12, 24), "concert"),
        ("21 dec for 2 weeks", date(2026, 12, 21), date(2027, 1, 3), ""),
        ("21 dec for 10 days skiing", date(2026, 12, 21), date(2026, 12, 30), "skiing"),
        ("tomorrow for a week, exams", date(2026, 12, 2), date(2026, 12, 8), "exams"),
        ("24 dec for one day", date(2026, 12, 24), date(2026, 12, 24), ""),
        ("24 dec for Ilse's concert", date(2026, 12, 24), date(2026, 12, 24), "for Ilse's concert"),
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
        "dec 21-3 concerts",
        "3 jan 2027 to 21 dec 2026",
        "21 dec for 0 days",
        "21 dec for several weeks",
        "21 dec for 2 months",
        "21 dec to 3 jan for 2 weeks",
        "24 dec until noon",
        "24 dec 12:00",
        "24 dec noon",
        "24 dec afternoon",
        "24 dec 12:00 to 26 dec",
        "24 dec from noon",
    ],
)
def test_a_line_that_may_mean_more_or_nothing_is_refused(line):
    with pytest.raises(BadInput):
        read(line)


def test_a_break_of_whole_days_says_so_where_a_time_is_named():
    for line in ("24 dec until noon", "24 dec 12:00", "24 dec 2pm", "24 dec 2pm concert"):
        with pytest.raises(BadInput, match="whole days"):
            read(line)


@pytest.mark.parametrize(
    ("line", "begins", "ends"),
    [
        ("20 nov to 4 dec", date(2026, 11, 20), date(2026, 12, 4)),
        ("11/20 to 1 dec", date(2026, 11, 20), date(2026, 12, 1)),
        ("20 nov to 4 dec 2026", date(2026, 11, 20), date(2026, 12, 4)),
        ("20 nov for 2 weeks", date(2026, 11, 20), date(2026, 12, 3)),
        ("20 nov to 30 nov", date(2027, 11, 20), date(2027, 11, 30)),
        ("20 nov for a week", date(2027, 11, 20), date(2027, 11, 26)),
        ("20 nov 2027 to 4 dec", date(2027, 11, 20), date(2027, 12, 4)),
        ("24 dec to sunday", date(2026, 12, 24), date(2026, 12, 27)),
        ("24 dec to the 27th", date(2026, 12, 24), date(2026, 12, 27)),
        ("the 30th to the 5th", date(2026, 12, 30), date(2027, 1, 5)),
        ("fri to wed", date(2026, 12, 4), date(2026, 12, 9)),
        ("20 nov", date(2027, 11, 20), date(2027, 11, 20)),
    ],
)
def test_days_that_are_running_began_this_year(line, begins, ends):
    assert read(line)[1:3] == (begins, ends)


def test_a_break_over_the_turn_of_the_year_began_last_year():
    found = read_break("21 dec to 8 jan", [], now=utc("2027-01-02 15:00"), home_zone=HOME)
    assert (found.from_on, found.until_on) == (date(2026, 12, 21), date(2027, 1, 8))


@given(st.dates(date(2026, 12, 1), date(2027, 11, 20)), st.integers(0, 300))
def test_the_days_that_are_shown_back_are_read_as_the_same_days(begins, days):
    ends = begins + timedelta(days=days)
    assert read(f"{near_days(begins, ends, date(2026, 12, 1))} holidays")[1:] == (begins, ends, "holidays")


@given(st.text())
def test_any_line_is_read_or_refused(line):
    try:
        family_id, begins, ends, _ = read(line)
    except BadInput:
        pass
    else:
        assert begins <= ends
        assert family_id in {None, BRANDVOLD.id, OKONJO.id}
