"""The text of a letter to many: its fields, its languages, its subject, and what is refused."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.post.family_letter import LetterText, faults_in, fields_in, filled, foreign_language, text_for

TYPED = "Rehearsal\n\nDear {family},\nbring a stand.\n\n[es]\nEnsayo\n\nQuerida familia {family}.\n\n[de-AT]\nProbe\n\nLiebe Familie."


@pytest.mark.parametrize(
    ("language", "subject"),
    [
        ("en", "Rehearsal"),
        ("fr", "Rehearsal"),
        ("es", "Ensayo"),
        ("es-MX", "Ensayo"),
        ("de-at", "Probe"),
        ("de", "Rehearsal"),
    ],
)
def test_a_family_gets_the_text_of_its_language_else_the_one_without_a_heading(language, subject):
    assert text_for(TYPED, language, "en").subject == subject


def test_the_first_line_is_the_subject_and_the_rest_stays_as_it_was_typed():
    assert text_for(TYPED, "en", "en") == LetterText(subject="Rehearsal", body="Dear {family},\nbring a stand.")


def test_where_every_text_has_a_heading_the_rest_get_that_of_her_language():
    typed = "[es]\nEnsayo\n\nHola.\n[en]\nRehearsal\n\nHello."
    assert text_for(typed, "fr", "en").subject == "Rehearsal"
    assert text_for(typed, "fr", "it").subject == "Ensayo"


@pytest.mark.parametrize(
    ("typed", "said"),
    [("", "The letter is empty"), (" \n[es]\n ", "The letter is empty"), ("Rehearsal\n\n", "no text below it")],
)
def test_a_letter_without_a_text_is_refused(typed, said):
    with pytest.raises(BadInput, match=said):
        text_for(typed, "en", "en")


@pytest.mark.parametrize("name", ["[Verse]", "[1]", "x [es]", "[es] x", "[]", "[english text]"])
def test_other_brackets_are_no_headings(name):
    assert name in text_for(f"Rehearsal\n\nSee\n{name}\nthere.", "es", "en").body


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("{student} {Family} { time } {place}", []),
        ("{name} and {name}", ["{name} is not filled in. Use {student}, {family}, {time}, or {place}."]),
        ("{sum} is due", ["{sum} is money, which stands in statements alone. Take it out."]),
        ("{Balance}", ["{Balance} is money, which stands in statements alone. Take it out."]),
        ("{D major}", ["{D major} is not filled in. Use {student}, {family}, {time}, or {place}."]),
        ("{}", ["{} is not filled in. Use {student}, {family}, {time}, or {place}."]),
        ("{student, bring", ['"{student, bring" has no closing brace. Braces are for {student}, {family}, {time}, or {place}.']),
        ("no braces }", []),
    ],
)  # fmt: skip
def test_a_field_that_there_is_not_and_money_are_told(typed, said):
    assert list(faults_in(typed)) == said


def test_fields_are_filled_in_once_whatever_a_name_has_in_it():
    values = {"student": "{family}", "family": "Bell"}
    assert filled("{student} of {Family}, {time}", values) == "{family} of Bell, {time}"
    assert fields_in("{student} { TIME } {x") == {"student", "time"}


@given(st.text(alphabet="{}student mli[]\nes", max_size=40))
def test_what_has_no_fault_has_no_brace_left_when_it_is_filled(typed):
    values = dict.fromkeys(("student", "family", "time", "place"), "x")
    if not list(faults_in(typed)):
        assert "{" not in filled(typed, values)


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("News\n\nHello.\nPrivate: they owe me", '"Private: they owe me" is private, and a letter has no private lines. Take it out.'),
        ("Privat: nein\n\nHallo.", '"Privat: nein" is private, and a letter has no private lines. Take it out.'),
        ("News\n\nHello.\n[es]\nA\n\nuno\n[ES]\nB\n\ndos", "[es] is there twice, and only one text could go. Keep one heading."),
    ],
)  # fmt: skip
def test_a_private_line_and_a_language_that_is_there_twice_are_told(typed, said):
    assert list(faults_in(typed)) == [said]


@pytest.mark.parametrize("typed", ["News\n\nNext time: bring a stand.", "News\n\nPrivate lessons go on in May."])
def test_other_labels_and_the_word_private_are_no_fault(typed):
    assert list(faults_in(typed)) == []


@pytest.mark.parametrize(
    ("typed", "language", "found"),
    [
        ("[es]\nHola\n\nA", "en", "es"),
        ("[es]\nHola\n\nA", "es-MX", None),
        ("Hello\n\nA\n[es]\nHola\n\nA", "fr", None),
        ("[es]\nHola\n\nA\n[en]\nHello\n\nA", "fr", None),
        ("", "fr", None),
    ],
)
def test_a_text_in_a_language_that_is_neither_the_familys_nor_hers_is_found(typed, language, found):
    assert foreign_language(typed, language, "en") == found
