"""What is typed to find something in all notes."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import CLOCK, ILSE, TEODOR, home

from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.search import Search, search_of, words_of

TODAY = date(2026, 12, 1)
ANNE_MARIE = StudentId(99)
NAMES = {ILSE.id: "Ilse Brandvold", TEODOR.id: "Teodor Okonjo", ANNE_MARIE: "Anne-Marie Okonjo"}


def search(typed: str) -> Search:
    return search_of(typed, NAMES, CLOCK, TODAY)


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("old mill", Search(words=("old", "mill"), goes_on=True)),
        ('"old mill" bow', Search(words=("old mill", "bow"), goes_on=True)),
        ('"old mill"', Search(words=("old mill",))),
        ('bow "old mi', Search(words=("bow", "old mi"))),
        ("ilse bow", Search(words=("bow",), goes_on=True, students=(ILSE.id,))),
        ("Okonjo bow", Search(words=("bow",), goes_on=True, students=(TEODOR.id, ANNE_MARIE))),
        ("ilse", Search(words=("ilse",), goes_on=True)),
        ('"ilse" bow', Search(words=("ilse", "bow"), goes_on=True)),
        ("bow ilse", Search(words=("bow", "ilse"), goes_on=True)),
        ("bow since march", Search(words=("bow",), goes_on=True, since=home("2026-03-01 00:00"))),
        ("bow since dec", Search(words=("bow",), goes_on=True, since=home("2026-12-01 00:00"))),
        ("bow since december 2", Search(words=("bow",), goes_on=True, since=home("2025-12-02 00:00"))),
        ("bow since 3 march 2025", Search(words=("bow",), goes_on=True, since=home("2025-03-03 00:00"))),
        ("bow since mar 3, 2025", Search(words=("bow",), goes_on=True, since=home("2025-03-03 00:00"))),
        ("since 2025-03-04 bow", Search(words=("bow",), goes_on=True, since=home("2025-03-04 00:00"))),
        ("bow before 2025", Search(words=("bow",), goes_on=True, before=home("2025-01-01 00:00"))),
        (
            "bow since 2024 before 2025",
            Search(words=("bow",), goes_on=True, since=home("2024-01-01 00:00"), before=home("2025-01-01 00:00")),
        ),
        ("since march", Search(since=home("2026-03-01 00:00"))),
        ("before the recital", Search(words=("before", "the", "recital"), goes_on=True)),
        ("since", Search(words=("since",), goes_on=True)),
        ("since feb 30", Search(words=("30",), goes_on=True, since=home("2026-02-01 00:00"))),
        ("bow since 9999-12-31", Search(words=("bow", "since", "9999-12-31"), goes_on=True)),
        ("bow before 0001-01-01", Search(words=("bow", "before", "0001-01-01"), goes_on=True)),
        (f"bow since {'9' * 5000}", Search(words=("bow", "since", "9" * 5000), goes_on=True)),
        ("Anne-Marie bow", Search(words=("bow",), goes_on=True, students=(ANNE_MARIE,))),
        ("anne bow", Search(words=("bow",), goes_on=True, students=(ANNE_MARIE,))),
        ("ann-marie bow", Search(words=("ann-marie", "bow"), goes_on=True)),
        ("- * ( )", Search()),
        ("", Search()),
    ],
)
def test_a_line_is_words_a_student_and_a_time(typed, expected):
    assert search(typed) == expected


def test_the_words_to_mark_are_plain_and_each_once():
    assert words_of(search('Dvořák "old mill" mill')) == ("dvorak", "old", "mill")


@given(st.text(max_size=60))
def test_whatever_is_typed_is_a_search(typed):
    found = search(typed)
    assert all(found.words)
    assert not found.goes_on or found.has_words
