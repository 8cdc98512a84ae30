"""Searching: case, accents, and special letters make no difference, and what is found is shown where it stands."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.searching import plain, searched_words, spans_of


@pytest.mark.parametrize(
    ("typed", "text", "marked"),
    [
        ("dvorak", "Dvořák", ["Dvořák"]),
        ("DVOŘÁK", "dvorak", ["dvorak"]),
        ("gross", "Karl Groß", ["Groß"]),
        ("groß", "GROSS", ["GROSS"]),
        ("gros", "Groß", ["Groß"]),
        ("ozil", "Özıl", ["Özıl"]),
        ("istanbul", "İstanbul", ["İstanbul"]),
        ("soren", "Søren", ["Søren"]),
        ("obri", "Mara O'Brien", ["O'Bri"]),
        ("o'bri", "Mara O’Brien", ["O’Bri"]),
        ("ana br", "Brandvold, Ana", ["Br", "Ana"]),
        ("σας", "ΣΑΣ", ["ΣΑΣ"]),
        ("f9", "F9 ctrl+s", ["F9"]),
        ("", "anything", []),
    ],
)
def test_what_is_typed_is_found_and_marked_where_it_stands(typed, text, marked):
    for form in ("NFC", "NFD"):
        written = unicodedata.normalize(form, text)
        spans = spans_of(searched_words(typed), written)
        assert spans is not None, (typed, written)
        seen = [plain(written[begins:ends]) for begins, ends in spans]
        assert seen == [plain(words) for words in marked], form


@pytest.mark.parametrize(("typed", "text"), [("rak", "Dvořák"), ("ilse x", "Ilse"), ("ilse", ""), ("ıx", "i")])
def test_a_word_is_found_from_its_beginning_and_all_words_must_be_there(typed, text):
    assert spans_of(searched_words(typed), text) is None


def test_a_part_of_a_word_is_found_within_it_where_that_is_wanted_but_its_beginning_first():
    assert spans_of(("ak",), "Dvořák Akim", within=True) == ((7, 9),)
    assert spans_of(("rak",), "Dvořák", within=True) == ((3, 6),)


@given(st.text(max_size=30), st.text(max_size=8))
def test_every_span_lies_in_the_text_and_holds_the_word(text, typed):
    words = searched_words(typed)
    spans = spans_of(words, text, within=True)
    for begins, ends in spans or ():
        assert 0 <= begins < ends <= len(text)
        assert any(word in plain(text[begins:ends]) for word in words)
