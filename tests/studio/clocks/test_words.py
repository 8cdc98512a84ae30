"""Times, dates and places in words."""

from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import utc

from cockpit.studio.clocks.words import (
    city,
    clock_time,
    counted,
    long_date,
    minutes_of,
    possessive,
    short_date,
    span,
    utc_offset,
)


@pytest.mark.parametrize(
    ("at", "twelve", "twenty_four"),
    [
        (time(0, 0), "12:00 am", "0:00"),
        (time(0, 5), "12:05 am", "0:05"),
        (time(11, 59), "11:59 am", "11:59"),
        (time(12, 0), "12:00 pm", "12:00"),
        (time(16, 5), "4:05 pm", "16:05"),
        (time(23, 59), "11:59 pm", "23:59"),
    ],
)
def test_a_time_is_told_on_both_kinds_of_clock(at, twelve, twenty_four):
    assert clock_time(at, 12) == twelve
    assert clock_time(at, 24) == twenty_four


@pytest.mark.parametrize("hours", [12, 24])
def test_no_two_minutes_of_a_day_are_told_alike(hours):
    assert len({clock_time(time(hour, minute), hours) for hour in range(24) for minute in range(60)}) == 1440


def test_a_date_has_its_weekday():
    assert long_date(date(2026, 12, 1)) == "Tuesday, December 1, 2026"
    assert short_date(date(2026, 12, 1)) == "Tue, December 1"


@given(st.dates())
def test_every_date_is_told_as_the_calendar_has_it(on):
    """Against strftime in the C locale."""
    assert long_date(on) == on.strftime(f"%A, %B {on.day}, {on.year}")


@pytest.mark.parametrize(
    ("zone", "place"),
    [
        ("America/Chicago", "Chicago"),
        ("America/St_Johns", "St. John's"),
        ("America/Sao_Paulo", "São Paulo"),
        ("America/New_York", "New York"),
        ("America/Indiana/Knox", "Knox, Indiana"),
        ("America/Argentina/Buenos_Aires", "Buenos Aires, Argentina"),
        ("America/Port-au-Prince", "Port-au-Prince"),
        ("UTC", "UTC"),
    ],
)
def test_a_zone_is_called_after_its_place(zone, place):
    assert city(zone) == place


@pytest.mark.parametrize(
    ("at", "zone", "shown"),
    [
        ("2026-12-01", "America/Phoenix", "UTC−07:00"),
        ("2026-12-01", "America/St_Johns", "UTC−03:30"),
        ("2026-07-01", "America/St_Johns", "UTC−02:30"),
        ("2026-12-01", "Europe/London", "UTC+00:00"),
        ("2026-12-01", "Asia/Kolkata", "UTC+05:30"),
        ("2026-12-01", "Pacific/Chatham", "UTC+13:45"),
        ("2026-12-01", "Pacific/Marquesas", "UTC−09:30"),
    ],
)
def test_an_offset_is_told_to_the_minute(at, zone, shown):
    assert utc_offset(utc(at), zone) == shown


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [
        (0, "0:00"),
        (9, "0:09"),
        (245, "4:05"),
        (3599, "59:59"),
        (3600, "1:00:00"),
        (3845, "1:04:05"),
        (36000, "10:00:00"),
    ],
)
def test_a_span_reads_like_a_clock(seconds, shown):
    assert span(seconds) == shown


@given(st.integers(0, 10**6))
def test_a_span_adds_up_to_its_seconds(seconds):
    total = 0
    for part in span(seconds).split(":"):
        total = total * 60 + int(part)
    assert total == seconds


def test_a_count_has_its_noun_in_the_right_number():
    assert [minutes_of(n) for n in (0, 1, 2)] == ["0 minutes", "1 minute", "2 minutes"]
    assert [counted(n, "family", "families") for n in (1, 2)] == ["1 family", "2 families"]


@pytest.mark.parametrize(
    ("name", "whose"), [("Ilse", "Ilse's"), ("Thomas", "Thomas's"), ("TESS", "TESS's"), ("Max", "Max's")]
)
def test_whose_it_is(name, whose):
    assert possessive(name) == whose
