"""What a typed line says of some days only. Common practice, no source."""

import pytest
from support.reading import read, tempo

from cockpit.studio.assignments.assignment import Times

MONDAY_WEDNESDAY_FRIDAY = frozenset({0, 2, 4})


@pytest.mark.parametrize(
    "text",
    [
        "5 mins a day, 10 on weekends",
        "10 min (15 on Sat and Sun)",
        "10 min (15 on Saturday)",
        "10 min but 15 on weekends",
        "10 min and 20 on Sat, Sun",
        "10 min 15 on weekends",
        "10 min, try 15 on weekends",
        "10 min, ten on weekends",
        "10 min, 15-20 on weekends",
        "10 min, 15 min Sat Sun",
        "10 min weekdays 20 weekends",
        "10 min, weekends 15",
        "10 min (weekends: 15)",
        "10 min, Sat Sun = 20",
        "10 min on weekends, 5 otherwise",
        "10 min on weekends, the other days 5",
        "weekends 10 min, 5 the rest of the week",
    ],
)
def test_a_second_amount_for_some_days_leaves_days_and_minutes_unclear(text):
    assignment = read(f"Gavotte {text}")
    assert (assignment.title, assignment.days, assignment.minutes) == ("Gavotte", None, None)


def test_a_second_count_or_tempo_for_some_days_is_unclear_too():
    assert read("3x, 5 on weekends").times is None
    assert read("3x, 5 on weekends").days is None
    assert read("q = 60 M W F, 72 Tue Thu").tempo is None
    assert read("5 min a day, twice on weekends").days is None
    assert read("5 min a day, twice on weekends").times is None


@pytest.mark.parametrize(
    "text",
    ["HS, but HT on weekends", "q = 60, on weekends q = 72", "mm. 1-8, mm. 9-16 on weekends", "3x, 5x on weekends"],
)
def test_days_of_what_is_said_twice_are_not_those_of_the_line(text):
    assert read(text).days is None


def test_the_rest_of_such_a_line_is_claimed():
    assignment = read("Gavotte mm. 1-8, q = 60, 5 min a day, 10 on weekends")
    assert (assignment.tempo, len(assignment.measures)) == (tempo(60), 1)


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("M W F 10 min", 10),
        ("10 min, M W F", 10),
        ("10 min on M W F", 10),
        ("5 min a day, M W F", 5),
        ("Minuet 3, M W F, 10 min", 10),
        ("10 min M W F, Minuet 3", 10),
        ("10 min, M W F, 2nd finger low", 10),
        ("M W F 5 min, fingering 4 3 2 1", 5),
        ("no. 5 M W F, 10 min", 10),
        ("mm. 1-8 HS, mm. 9-16 HS, 10 min, M W F", 10),
        ("mm. 1-8, 17 M W F, 10 min", 10),
        ("12 M W F", None),
        ("M W F 10", None),
    ],
)
def test_numbers_of_other_clauses_leave_the_days_alone(text, minutes):
    assignment = read(text)
    assert (assignment.days, assignment.minutes) == (MONDAY_WEDNESDAY_FRIDAY, minutes)


def test_repetitions_on_some_days_are_claimed_beside_minutes():
    assignment = read("10 min, 3x M W F")
    assert (assignment.times, assignment.days) == (Times(count=3), MONDAY_WEDNESDAY_FRIDAY)


@pytest.mark.parametrize("text", ["Minuet 3 M W F, 10 min", "10 min, Minuet 3 on M W F", "HS, 5 on weekends"])
def test_a_number_in_the_clause_of_some_days_may_be_a_second_amount(text):
    # "3 M W F" beside "10 min" may be three minutes as well as the third minuet: a comma between them tells.
    assert (read(text).days, read(text).minutes) == (None, None)
