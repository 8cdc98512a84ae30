"""Repetitions and minutes in typed lines: common practice, no source."""

import pytest
from support.reading import read

from cockpit.studio.assignments.assignment import Times


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("3 x", 3),
        ("3×", 3),
        ("×3", 3),
        ("x 3", 3),
        ("(x3)", 3),
        ("three times", 3),
        ("twice", 2),
        ("twice through", 2),
        ("10 reps", 10),
        ("5 repetitions", 5),
        ("3 times in a row", 3),
        ("99x", 99),
        ("3x 5min", 3),
        ("3x, 5 min", 3),
        ("mm. 1-8 x 3", 3),
        ("m. 5 x3", 3),
        ("q=72 x 3", 3),
    ],
)
def test_repetitions(text, count):
    assert read(text).times == Times(count=count)


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("3x a day", 3),
        ("3x per day", 3),
        ("3x each day", 3),
        ("3x daily", 3),
        ("x3/day", 3),
        ("3 times a day", 3),
        ("twice a day", 2),
        ("once a day", 1),
        ("once daily", 1),
    ],
)
def test_repetitions_a_day(text, count):
    assert read(text).times == Times(count=count, is_daily=True)


@pytest.mark.parametrize(
    "text",
    [
        "3 x 5 min",
        "3x5",
        "3x5min",
        "3 x 5",
        "3-5x",
        "3 or 5 times",
        "x3-5",
        "0x",
        "100x",
        "2.5x",
        "3x a week",
        "3x/week",
        "3 times a week",
        "twice weekly",
        "2x speed",
        "2x as fast",
        "twice as slow",
        "once",
        "at once",
        "1st time",
        "many times",
        "x",
        "max3",
        "3x slow, 3x fast",
        "3x, then 5 times",
    ],
)
def test_what_is_not_clear_claims_no_repetitions(text):
    assert read(text).times is None


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("1 min", 1),
        ("5min", 5),
        ("5 mins.", 5),
        ("five minutes", 5),
        ("thirty minutes", 30),
        ("240 min", 240),
        ("5 min a day", 5),
        ("5 min/day", 5),
        ("5 min per day", 5),
        ("5 min each day", 5),
        ("5 min. each day", 5),
        ("5 min daily", 5),
        ("5 min, slowly", 5),
        ("up to 10 min", 10),
        ("10m", 10),
        ("30m, slowly", 30),
        ("10'", 10),
        ("10’ slowly", 10),
        ("12′", 12),
        ("5' a day", 5),
        ("5'/day", 5),
        ("3x 5min", 5),
        ("5 min of slow bows", 5),
    ],
)
def test_minutes_a_day(text, minutes):
    assert read(text).minutes == minutes


@pytest.mark.parametrize(
    "text",
    [
        "0 min",
        "241 min",
        "2.5 min",
        "5-10 min",
        "5 – 10 min",
        "5 to 10 min",
        "5 or 10 min",
        "20 -> 30 min",
        "5 min, 10 min",
        "5 min slow, 5 min fast",
        "5 min 30 sec",
        "1 hour 15 min",
        "3 x 5 min",
        "3x5 min",
        "5 min each",
        "5 min each hand",
        "20 min a week",
        "20 min/week",
        "20 min. each week",
        "60 min total",
        "5 min break",
        "rest 5 min",
        "first 5 min",
        "every 5 min",
        "within 5 min",
        "5 min later",
        "5'",
        "9'",
        "10'30",
        "10''",
        "'Etude 10'",
        "10 m",
        "10m5",
        "no. 10m. 5",
        "min",
        "a min",
    ],
)
def test_what_is_not_clear_claims_no_minutes(text):
    assert read(text).minutes is None


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("5 min twice a day", 10),
        ("5 min, twice a day", 10),
        ("5 min. twice a day", 10),
        ("5 min 3x/day", 15),
        ("5 min twice daily", 10),
        ("5 min once a day", 5),
        ("twice a day 5 min", 10),
        ("twice a day for 5 min", 10),
        ("5 min x 2", 10),
        ("5 min x2", 10),
        ("5min × 2", 10),
        ("10' x 2", 20),
        ("2 sessions of 15 min", 30),
        ("two sets of 5 min", 10),
        ("two 15 min sessions", 30),
        ("120 min twice a day", 240),
        ("5 min a day, 3x a day", 5),
        ("3x a day, 5 min a day", 5),
        ("3x, 5 min", 5),
        ("5 min, 3x", 5),
        ("3x 5min", 5),
        ("5min 3x", 5),
        ("10 min in the morning", 10),
        ("10 min, two sets", 10),
    ],
)
def test_minutes_that_come_several_times_a_day_are_multiplied(text, minutes):
    assert read(f"Gavotte {text}").minutes == minutes
    assert read(f"Gavotte {text}").title == "Gavotte"


@pytest.mark.parametrize(
    "text",
    [
        "3x 5 min",
        "3x for 5 min",
        "three times 5 min",
        "5 min 3x",
        "5 min three times",
        "10 min twice",
        "3x a day, 10 min",
        "mm. 1-8 3x a day q=72 10 min",
        "10 min morning and evening",
        "10 min AM and PM",
        "10 min, 3 times a week",
        "10 min twice weekly",
        "15 min sessions",
        "13 sessions of 15 min",
        "130 min twice a day",
        "5 min per key",
        "5 min a hand",
        "5 min/scale",
    ],
)
def test_minutes_that_may_be_those_of_a_part_are_not_claimed(text):
    assert read(f"Gavotte {text}").minutes is None


def test_repetitions_stay_beside_multiplied_minutes():
    assert read("5 min twice a day").times == Times(count=2, is_daily=True)
    assert read("3x 5 min").times == Times(count=3)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("1/2 hour", 30),
        ("3/4 hr.", 45),
        ("1/3 hour", 20),
        ("1.5 hours", 90),
        ("0.25 hours", 15),
        ("1 1/2 hours", 90),
        ("1½ hours", 90),
        ("½ hour", 30),
        ("1 hour", 60),
        ("1h", 60),
        ("2 hrs", 120),
        ("one hour", 60),
        ("two hours a day", 120),
        ("an hour", 60),
        ("an hour a day", 60),
        ("an hour and a half", 90),
        ("half an hour", 30),
        ("a half hour", 30),
        ("half-hour", 30),
        ("a quarter of an hour", 15),
        ("quarter hour", 15),
        ("three quarters of an hour", 45),
        ("half an hour twice a day", 60),
    ],
)
def test_hours_are_minutes(text, minutes):
    assignment = read(f"Gavotte {text}")
    assert (assignment.title, assignment.minutes) == ("Gavotte", minutes)


@pytest.mark.parametrize(
    "text",
    [
        "1/7 hour",
        "1/0 hour",
        "5 hours",
        "24 hours",
        "1-2 hours",
        "1 or 2 hours",
        "1 hour 15 min",
        "1 hour and 15 min",
        "1 hr, 15 min",
        "1h 15",
        "1/2 hour total",
        "an hour a week",
        "1.5 hours/week",
        "an hour before bed",
        "within an hour",
        "1 hour lesson",
        "half an hour later",
        "2 h",
        "1 h = 60",
        "an hour, half an hour",
        "10 min, half an hour on weekends",
        "half",
        "half of it",
        "quarter",
    ],
)
def test_hours_that_are_not_clear_claim_no_minutes(text):
    assert read(f"Gavotte {text}").minutes is None


@pytest.mark.parametrize(
    "text",
    ["1/2 hour total", "an hour a week", "1 hour 15 min", "2.5 min", "2 1/2 min", "24 hours", "an hour before bed"],
)
def test_a_title_ends_before_an_amount_that_is_not_claimed(text):
    assert read(f"Gavotte {text}").title == "Gavotte"


@pytest.mark.parametrize(
    "text", ["Minuet 3/4", "Minuet 1.5", "An Hour at Sea", "Happy Hour", "The Half Hour", "A Half"]
)
def test_a_title_may_hold_fractions_and_hours(text):
    assert read(f"{text}, mm. 1-8").title == text
    assert read(f"{text}, mm. 1-8").minutes is None


def test_minutes_beside_an_hour_of_the_day_are_claimed():
    assert read("10 min, an hour before bed").minutes == 10
