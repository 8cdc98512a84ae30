"""When a typed line says that a student pauses."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import HOME, STARTS_AT

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.pause_line import EXAMPLES, read_pause
from cockpit.studio.typed_times.when import Reference

REFERENCE = Reference(now=STARTS_AT - timedelta(hours=6), around=date(2026, 12, 1), home_zone=HOME)
JUNE, AUGUST = date(2027, 6, 1), date(2027, 8, 31)


def read(line, name="Wren", since=None):
    found = read_pause(line, name, REFERENCE, since)
    return found.from_on, found.until_on, found.keeps_time, found.reason


@pytest.mark.parametrize(
    ("line", "until", "keeps", "reason"),
    [
        ("from 1 june to 31 aug", AUGUST, None, ""),
        ("from 1 june, frees the time", None, False, ""),
        ("from 1 june", None, None, ""),
        ("1 june to 31 aug trip", AUGUST, None, "trip"),
        ("from june 1 through aug 31: with grandma", AUGUST, None, "with grandma"),
        ("from 1 june to 31 aug, keeps the time", AUGUST, True, ""),
        ("frees the time, from 1 june to 31 aug", AUGUST, False, ""),
        ("from 1 june to 31 aug and frees her slot, surgery", AUGUST, False, "surgery"),
        ("from 1 june to 31 aug trip, time kept", AUGUST, True, "trip"),
        ("from 6/1 to 8/31 time is free", AUGUST, False, ""),
        ("wren from 1 june to 31 aug", AUGUST, None, ""),
        ("wren is paused from 1 june to 31 aug", AUGUST, None, ""),
        ("no lessons from 1 june to 31 aug", AUGUST, None, ""),
        ("from 1 june until further notice", None, None, ""),
        ("1 june, no end, frees the time", None, False, ""),
        ("from 1 june moving", None, None, "moving"),
        ("june 1 - aug 31", AUGUST, None, ""),
        ("1 juin au 31 août", AUGUST, None, ""),
        ("1.6. bis 31.8.", AUGUST, None, ""),
    ],
)
def test_every_part_of_a_line_is_claimed_once(line, until, keeps, reason):
    assert read(line) == (JUNE, until, keeps, reason)


@pytest.mark.parametrize("line", ["to 31 aug", "until aug 31", "through august 31"])
def test_a_last_day_alone_is_that_of_a_pause_there_is(line):
    assert read(line, since=JUNE)[:2] == (JUNE, AUGUST)
    with pytest.raises(BadInput, match="no first day"):
        read(line)


def test_a_student_may_be_called_as_a_month_is():
    assert read("from june 1", "June")[0] == JUNE
    assert read("june from june 1", "June")[0] == JUNE


@pytest.mark.parametrize(
    "line",
    [
        "from 1 june to 31 aug teodor",
        "from 1 june to 31 aug, frees the tme",
        "from 1 june 4pm",
        "every other week from 1 june",
        "from 1 june or 8 june",
        "from 1 june to 31 aug and from 1 oct",
        "from 1 june to 31 aug except july",
        "from 1 june, keeps the time, frees the time",
        "frees the time",
        "pause",
        "",
    ],
)
def test_a_line_with_a_part_that_nobody_claims_is_refused_with_two_lines_that_work(line):
    with pytest.raises(BadInput) as refused:
        read(line)
    works = [part for part in str(refused.value).split('"')[1::2] if _works(part)]
    assert len(works) >= 2, str(refused.value)


def _works(line):
    try:
        read(line)
    except BadInput:
        return False
    return True


def test_the_examples_work():
    assert all(_works(each.strip('"')) for each in EXAMPLES)


WORDS = st.sampled_from(
    [
        "from",
        "to",
        "1 june",
        "31 aug",
        "frees the time",
        "time kept",
        "trip",
        "teodor",
        "4pm",
        ",",
        "wren",
        "for 2 weeks",
    ]
)


@given(st.lists(WORDS, max_size=6).map(" ".join))
def test_a_line_of_any_words_is_understood_or_refused_and_a_name_is_never_lost(line):
    try:
        found = read(line)
    except BadInput:
        return
    assert "teodor" not in line
    assert "4pm" not in line
    assert found[1] is None or found[0] <= found[1]
    assert ("frees the time" in line) is (found[2] is False)
    assert ("time kept" in line) is (found[2] is True)
