"""Theory in braces on a family's paper: the words without braces, the answer below its line in the family's language."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.pages import Shown
from support.papers import paper, planned
from support.phrases import ENGLISH as PAPER_PHRASES
from support.phrases import IN_ENGLISH, NO_PHRASES, SPOKEN, english_left

from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_sheet, practice_notes_text
from cockpit.studio.people.people import PlanForm
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.reading import Unclear, read_theory
from cockpit.wording.theory import ENGLISH, answer_rows

BODY = """\
Scales: {B major}, q = 72, 5 min
Theory: {interval B F#} and {key Bb}, 3 min
Private: {Db major} is too hard for her
Lovely {chord Bb7}!
And {milk}, {rhythm 4/4 q q q}.
"""


def test_the_answer_is_below_its_line_without_the_braces_in_the_text():
    text = practice_notes_text(paper(BODY), IN_ENGLISH)
    assert "  Scales: B major, quarter = 72, 5 min\n  = B C♯ D♯ E F♯ G♯ A♯ B · 5 sharps: F♯ C♯ G♯ D♯ A♯\n" in text
    assert (
        "  Theory: interval B F# and key Bb, 3 min\n"
        "  interval B F# = perfect fifth, 7 half steps · inversion: perfect fourth\n"
        "  key Bb = 2 flats: B♭ E♭\n"
    ) in text
    assert "  Lovely chord Bb7!\n  = B♭ D F A♭\n" in text


def test_what_is_private_or_not_understood_has_no_answer():
    for form in (practice_notes_text, practice_notes_markdown):
        told = form(paper(BODY), IN_ENGLISH)
        assert "And {milk}, {rhythm 4/4 q q q}." in told
        assert "D♭" not in told
        assert "Db major" not in told


def test_the_markdown_and_the_page_have_the_answer_on_a_line_of_its_own():
    markdown = practice_notes_markdown(paper(BODY), IN_ENGLISH)
    assert "- **Scales:** B major, quarter = 72, 5 min  \n  = B C♯ D♯ E F♯ G♯ A♯ B · 5 sharps" in markdown
    page = practice_notes_page(paper(BODY), "p {}", IN_ENGLISH)
    assert "5 min<br>= B C♯ D♯ E F♯ G♯ A♯ B" in page
    assert "Lovely chord Bb7!<br>= B♭ D F A♭" in page


@pytest.mark.parametrize("form", [PlanForm.CHART, PlanForm.LIST])
def test_a_plan_has_the_answer_too_and_names_the_line_without_braces(form):
    notes = planned(BODY, form=form)
    page = practice_notes_page(notes, "p {}", IN_ENGLISH)
    words = " ".join(words for _, words in Shown(page).blocks)
    assert "= B C♯ D♯ E F♯ G♯ A♯ B" in page
    assert "{B major}" not in words
    assert "D♭" not in page
    sheet = practice_notes_sheet(notes, IN_ENGLISH)
    told = repr(sheet)
    assert "= B C♯ D♯ E F♯ G♯ A♯ B" in told
    assert "{B major}" not in told


def test_a_comma_in_braces_cuts_no_name_of_a_plan_in_two():
    page = practice_notes_page(planned("Theory: {A minor, 3 forms}, 2 min\n", form=PlanForm.CHART), "p {}", IN_ENGLISH)
    assert "<strong>A minor, 3 forms</strong>" in page


@pytest.mark.parametrize(
    ("language", "scale", "key", "chord"),
    [
        ("de", "= H Cis Dis E Fis Gis Ais H · 5 Kreuze: Fis Cis Gis Dis Ais", "2 B: B Es", "= B D F As"),
        ("fr", "= si, do dièse, ré dièse, mi, fa dièse, sol dièse, la dièse, si · 5 dièses", "2 bémols", "= si bémol, ré, fa, la bémol"),
        ("es", "= si, do sostenido, re sostenido, mi, fa sostenido, sol sostenido, la sostenido, si · 5 sostenidos", "2 bemoles", "= si bemol, re, fa, la bemol"),
    ],
)  # fmt: skip
def test_a_family_reads_the_notes_as_they_are_called_in_its_language(language, scale, key, chord):
    text = practice_notes_text(paper(BODY), SPOKEN[language])
    for words in (scale, key, chord):
        assert words in text


def test_the_phrases_of_papers_and_of_the_screen_are_the_same_in_english():
    sections = ("theory.", "counting.", "note_names.")
    assert {key: phrase for key, phrase in PAPER_PHRASES.items() if key.startswith(sections)} == ENGLISH


@pytest.mark.parametrize("language", ["de", "es", "fr"])
def test_no_answer_leaves_english_words_on_a_paper(language):
    for words in (each for group in EXAMPLES.values() for each in group):
        answer = read_theory(words)
        assert not isinstance(answer, Unclear)
        said = " ".join(answer_rows(answer, SPOKEN[language].say))
        assert english_left(said, language) <= {
            "clarinet",
            "horn",
            "hz",
            "ta",
            "ka",
            "di",
            "mi",
            "i",
            "ii",
            "iii",
            "iv",
            "v",
            "vi",
            "vii",
            "a",
            "d",
        }


def test_without_the_english_phrases_the_words_are_better_than_none():
    text = practice_notes_text(paper(BODY), NO_PHRASES)
    assert "{B major}, q = 72, 5 min" in text
    assert "B♭" not in text


@examples(60)
@given(st.text(alphabet="{} DdF#bmajor/4(3)|*_<-\n", max_size=80))
def test_any_braces_go_through_every_form(body):
    notes = paper(f"Theory: x {body}\n")
    for form in (practice_notes_text, practice_notes_markdown):
        assert form(notes, IN_ENGLISH)
