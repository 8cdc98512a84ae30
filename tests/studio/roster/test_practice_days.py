"""The weekdays of practice, as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.roster.practice_days import PRACTICE_DAYS_WANTED, practice_days_words, read_practice_days

MON, TUE, WED, THU, FRI, SAT, SUN = range(7)


@pytest.mark.parametrize(
    ("text", "days"),
    [
        ("Mon-Sat", {MON, TUE, WED, THU, FRI, SAT}),
        ("Monday to Friday", {MON, TUE, WED, THU, FRI}),
        ("mon – wed", {MON, TUE, WED}),
        ("Sat-Tue", {SAT, SUN, MON, TUE}),
        ("Wed-Wed", {WED}),
        ("M W F", {MON, WED, FRI}),
        ("MWF", {MON, WED, FRI}),
        ("TTh", {TUE, THU}),
        ("T/Th", {TUE, THU}),
        ("mon, wed, fri", {MON, WED, FRI}),
        ("Mon, Wed and Fri", {MON, WED, FRI}),
        ("Mo Tu Sa Su", {MON, TUE, SAT, SUN}),
        ("Mon-Wed, Sat", {MON, TUE, WED, SAT}),
        ("Tues. & Thurs.", {TUE, THU}),
        ("Sundays", {SUN}),
        ("daily", set(range(7))),
        ("Every day", set(range(7))),
        ("weekdays", {MON, TUE, WED, THU, FRI}),
        ("Weekends", {SAT, SUN}),
        ("Sun", {SUN}),
    ],
)
def test_days_are_read_as_people_write_them(text, days):
    assert read_practice_days(text) == days


@pytest.mark.parametrize(
    "text", ["S", "S-M", "never", "Mon-Fri-Sun", "Mon,,Xyz", "5", "Maandag", "3 days", "MF", "-", ","]
)
def test_what_is_no_weekday_or_may_be_two_is_told_with_what_would_work(text):
    with pytest.raises(BadInput) as told:
        read_practice_days(text)
    assert str(told.value) == PRACTICE_DAYS_WANTED


@pytest.mark.parametrize(
    ("days", "words"),
    [
        ({0, 1, 2, 3, 4, 5}, "Mon-Sat"),
        ({0, 2, 4}, "Mon Wed Fri"),
        ({0, 1, 4, 5, 6}, "Mon Tue Fri-Sun"),
        (set(range(7)), "daily"),
    ],
)
def test_days_are_told_in_few_words(days, words):
    assert practice_days_words(days) == words


@given(st.frozensets(st.integers(0, 6), min_size=1))
def test_the_words_of_days_are_read_as_the_same_days(days):
    assert read_practice_days(practice_days_words(days)) == days
