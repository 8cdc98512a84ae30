"""Families and students, and when two spellings are one name."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import ILSE

from cockpit.studio.people.people import name_key


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Zoë", "Zoe\u0308"),
        ("Okonjo", "OKONJO"),
        ("  Ilse   Brandvold ", "ilse brandvold"),
        ("Ilse\u00a0Brandvold", "Ilse Brandvold"),
        ("Straße", "STRASSE"),
    ],
)
def test_two_spellings_of_one_name_are_equal(one, other):
    assert name_key(one) == name_key(other)


@pytest.mark.parametrize(("one", "other"), [("Zoë", "Zoe"), ("Ilse", "Ilsa"), ("MacAskill", "Mac Askill")])
def test_two_names_are_not_equal(one, other):
    assert name_key(one) != name_key(other)


@given(st.text(st.characters(max_codepoint=0x24F)))
def test_composed_and_decomposed_letters_are_one_name(name):
    assert name_key(unicodedata.normalize("NFD", name)) == name_key(unicodedata.normalize("NFC", name))


@given(st.text())
def test_blanks_around_and_between_do_not_count(name):
    assert name_key(f"  {name}\t") == name_key(name)


def test_a_person_is_a_value_that_cannot_be_changed():
    with pytest.raises(AttributeError, match="immutable"):
        ILSE.name = "Elsa"
