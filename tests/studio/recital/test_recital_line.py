"""A typed line that is a recital: each word is claimed once, and what is not understood is told with what would work."""

from datetime import UTC, date, datetime, time

import pytest

from cockpit.studio.changes.recital import Recital, RecitalId
from cockpit.studio.errors import BadInput
from cockpit.studio.recital.recital_line import RecitalReader
from cockpit.studio.typed_times.when import Reference

NOW = datetime(2026, 12, 1, 22, tzinfo=UTC)
READER = RecitalReader(Reference(now=NOW, around=date(2026, 12, 1), home_zone="America/Chicago"), 12)
FRESH = Recital(id=RecitalId(1), name="", held_on=date(2026, 12, 1), at=time(), zone="America/Chicago")
TALES = Recital(
    id=RecitalId(1), name="Winter tales", theme="snow", held_on=date(2026, 12, 19), at=time(12), zone="America/Chicago",
    minutes_limit=60, is_online=True, link="https://call.example/r",
)  # fmt: skip


def test_a_line_says_name_day_time_theme_way_and_limit():
    recital, words = READER.read_new("winter tales, sat 19 dec 12pm, theme snow and night, online, 60m", FRESH)
    assert recital == Recital(
        id=RecitalId(1), name="winter tales", theme="snow and night", held_on=date(2026, 12, 19), at=time(12),
        zone="America/Chicago", minutes_limit=60, is_online=True,
    )  # fmt: skip
    assert words == (
        "day and time: Saturday, December 19, 2026, 12:00 pm", "theme: snow and night", "way: online", "limit: 60 minutes",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line", "field", "value"),
    [
        ("sun", "held_on", date(2026, 12, 6)),
        ("3pm", "at", time(15)),
        ("dec 26 3pm", "held_on", date(2026, 12, 26)),
        ("6pm london", "zone", "Europe/London"),
        ("no theme", "theme", None),
        ("in person", "is_online", False),
        ("place library hall", "place", "library hall"),
        ("no link", "link", None),
        ("link https://call.example/two", "link", "https://call.example/two"),
        ("changeover 45s", "changeover", 45),
        ("no changeover", "changeover", 0),
        ("opening 3m", "opening_seconds", 180),
        ("welcome 2:30", "opening_seconds", 150),
        ("closing 2m", "closing_seconds", 120),
        ("thanks 90s", "closing_seconds", 90),
        ("45 min", "minutes_limit", 45),
        ("limit 1h", "minutes_limit", 60),
        ("no limit", "minutes_limit", None),
        ("name Snow tales", "name", "Snow tales"),
    ],
)
def test_each_part_changes_one_thing_of_a_recital_that_is_there(line, field, value):
    recital, words = READER.read_change(line, TALES)
    assert getattr(recital, field) == value
    assert len(words) == 1


def test_a_new_day_keeps_the_time_and_a_new_time_the_day():
    assert READER.read_change("sun", TALES)[0].at == time(12)
    assert READER.read_change("3pm", TALES)[0].held_on == date(2026, 12, 19)


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("", "Type a name, a day, and a time"),
        ("winter tales, online", "no day and time"),
        ("winter tales, 12pm", "has no day"),
        ("winter tales, sat dec 19", "no time"),
        ("winter tales, sat dec 19 12pm, sparkling", '"sparkling" is not understood. Type "winter tales'),
        ("winter tales, sat dec 19 12pm, online, not online", "says the way twice"),
        ("winter tales, sat dec 18 12pm", "do not match"),
        ("winter tales, nov 19 12pm", "which has passed"),
        ("winter tales, sat dec 19 12pm, 600m", "a recital has 1 to 240 minutes"),
        ("winter tales, sat dec 19 12pm, changeover 20m", "at most 10 minutes"),
        (f"{'x' * 81}, sat dec 19 12pm", "at most 80 characters"),
    ],
)
def test_what_cannot_be_is_told_with_what_would_work(line, said):
    with pytest.raises(BadInput, match=said):
        READER.read_new(line, FRESH)


def test_a_line_full_of_addresses_before_an_open_quote_is_refused_at_once():
    with pytest.raises(BadInput, match="a quote without its end"):
        READER.read_new("x, " + "https://" * 120 + '"', FRESH)
