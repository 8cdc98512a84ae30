"""Practice days and "in turns" in typed lines: common practice, no source."""

import pytest
from support.reading import read

from cockpit.studio.notes.notes import Area

MONDAY, TUESDAY, WEDNESDAY, THURSDAY, FRIDAY, SATURDAY, SUNDAY = range(7)


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("M, W, F", {MONDAY, WEDNESDAY, FRIDAY}),
        ("M/W/F", {MONDAY, WEDNESDAY, FRIDAY}),
        ("M W", {MONDAY, WEDNESDAY}),
        ("mwf", {MONDAY, WEDNESDAY, FRIDAY}),
        ("TTh", {TUESDAY, THURSDAY}),
        ("TuTh", {TUESDAY, THURSDAY}),
        ("Tu/Th", {TUESDAY, THURSDAY}),
        ("MTWThF", set(range(5))),
        ("M-F", set(range(5))),
        ("M–Th", set(range(4))),
        ("Mon Wed Fri", {MONDAY, WEDNESDAY, FRIDAY}),
        ("mon, wed & fri", {MONDAY, WEDNESDAY, FRIDAY}),
        ("Mon., Wed., Fri.", {MONDAY, WEDNESDAY, FRIDAY}),
        ("Mondays, Wednesdays, and Fridays", {MONDAY, WEDNESDAY, FRIDAY}),
        ("Mon-Fri", set(range(5))),
        ("Mon to Thu", set(range(4))),
        ("Mon-Wed, Sat", {MONDAY, TUESDAY, WEDNESDAY, SATURDAY}),
        ("Sun Tue Thu", {SUNDAY, TUESDAY, THURSDAY}),
        ("Sat/Sun", {SATURDAY, SUNDAY}),
        ("Sa/Su", {SATURDAY, SUNDAY}),
        ("weekends", {SATURDAY, SUNDAY}),
        ("weekdays", set(range(5))),
        ("every day", set(range(7))),
        ("10 min daily", set(range(7))),
        ("on Mondays", {MONDAY}),
        ("every Monday", {MONDAY}),
        ("Mon only", {MONDAY}),
        ("only Mon", {MONDAY}),
        ("Gavotte Mon Wed", {MONDAY, WEDNESDAY}),
    ],
)
def test_practice_days(text, wanted):
    assert read(text).days == wanted


@pytest.mark.parametrize(
    "text",
    [
        "W",
        "S",
        "M F",
        "M/F",
        "MF",
        "mf",
        "T F",
        "MWF5",
        "TTh-",
        "T-F",
        "T/F",
        "F M W",
        "m w f",
        "Monday",
        "Blue Monday",
        "Here Comes the Sun",
        "recital on Saturday",
        "by Friday",
        "by MWF",
        "by Mon, Wed & Fri",
        "until Wed and Thu",
        "except Mon, Wed",
        "every other day",
        "every",
        "every time",
        "Mon Mon",
        "Sat-Mon",
        "Mon 9:30, Wed",
        "Mon 12/3",
        "daily, weekends longer",
        "Mon Wed, then Fri Sat",
        "this Mon, Tue",
    ],
)
def test_what_is_not_clear_claims_no_days(text):
    assert read(text).days is None


def test_three_times_daily_names_no_days():
    assert read("3x daily").days is None


@pytest.mark.parametrize(
    "text", ["in turns", "Gavotte, in turns with Minuet", "interleave", "Interleaved with Minuet", "interleaving"]
)
def test_turns_are_taken_where_she_asks_for_it(text):
    assert read(text).in_turns


@pytest.mark.parametrize("text", ["in turn", "turns", "not in turns", "don't interleave", "never interleave", "in"])
def test_turns_are_not_taken_where_she_does_not(text):
    assert not read(text, Area.SCALES).in_turns
