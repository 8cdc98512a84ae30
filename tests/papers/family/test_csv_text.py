"""CSV that a spreadsheet may open: RFC 4180, and nothing typed becomes a formula."""

import csv
import io
from datetime import UTC, date, datetime, time
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.papers.family.csv_text import csv_text
from cockpit.studio.cells import guarded, unguarded
from cockpit.studio.shown import shown

# OWASP ASVS 1.2.10 names = + - @ TAB and NUL, other lists made after OWASP's name CR: the union.
FIRST_CHARACTERS = "=+-@\t\r\x00"


def read(text: str) -> list[list[str]]:
    return list(csv.reader(io.StringIO(text, newline=""), strict=True))


def test_a_row_is_quoted_as_rfc_4180_says():
    # RFC 4180, sections 2.5 to 2.7: quotes around a comma, a quote or a line break; a quote within is doubled.
    assert csv_text(["a", "b"], [["a,b", 'say "q"'], ["two\r\nlines", "plain"]]) == (
        'a,b\r\n"a,b","say ""q"""\r\n"two\r\nlines",plain\r\n'
    )


@pytest.mark.parametrize("first", FIRST_CHARACTERS)
def test_no_cell_of_words_begins_with_a_character_that_makes_a_formula(first):
    text = csv_text(["words"], [[f'{first}HYPERLINK("http://x.example")']])
    assert read(text)[1][0][0] == "'"


@pytest.mark.parametrize(
    "typed", ["+1 finger", "-dim.", "@72", "=", "- slow", " =1+1", "'=1", "\ufeff=1", "＝1", "\n=1"]
)
def test_what_a_teacher_types_stays_readable_behind_an_apostrophe(typed):
    # The first four are from a table of the trade's shorthand; a blank, an unseen sign or a full-width one hides nothing.
    assert guarded(typed) == f"'{typed}"


@pytest.mark.parametrize("typed", ["", "q=72", "D major - slowly", "no. 5", "♩=72", "'quoted'", "(=)", "é"])
def test_other_words_stay_as_they_are(typed):
    assert guarded(typed) == typed


def test_numbers_stay_numbers_and_times_are_iso_8601():
    row = [-5, Decimal("-5.00"), None, date(2026, 12, 1), time(16), datetime(2026, 12, 1, 22, tzinfo=UTC)]
    assert csv_text(["x"] * 6, [row]).splitlines()[1] == "-5,-5.00,,2026-12-01,16:00:00,2026-12-01T22:00:00+00:00"


@given(st.lists(st.lists(st.text(st.characters(exclude_categories=["Cs"])), min_size=2, max_size=2)))
def test_every_cell_is_read_back_as_it_was_but_for_the_guard(rows):
    found = read(csv_text(["a", "b"], rows))[1:]
    assert found == [[guarded(cell) for cell in row] for row in rows]
    assert [[unguarded(cell) for cell in row] for row in found] == [[*map(shown, row)] for row in rows]
    for cell in (cell for row in found for cell in row):
        assert cell[:1] not in set(FIRST_CHARACTERS)
