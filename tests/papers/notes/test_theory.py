"""Theory in braces on a family's paper: the words without braces, the answer below its line in the family's language."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.pages import Shown
from support.papers import paper, planned
from support.phrases import ENGLISH as PAPER_PHRASES
from support.phrases import IN_ENGLISH, NO_PHRASES, SPOKEN, english_left

from cockpit.papers.notes.page import practice_notes_body, practice_notes_page
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_sheet, practice_notes_text
from cockpit.papers.notes.theory import has_staves, no_staff, with_staves, without_staves
from cockpit.studio.people.people import PlanForm
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.theory.lesson_theory import CountingSystem, LessonTheory
from cockpit.studio.theory.reading import Unclear, read_theory
from cockpit.studio.values import replace
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


def drawing(words: str, lesson: LessonTheory) -> str | None:
    """Stands for the engraver: an empty picture that says what was asked, and for which instrument."""
    return None if words == "key Bb" else f"<svg><title>{words}, {lesson.instrument}, {lesson.counting}</title></svg>"


@pytest.mark.parametrize("form", [PlanForm.CHART, PlanForm.LIST])
def test_the_page_has_the_staves_below_the_practice_each_under_its_words(form):
    page = practice_notes_page(planned(BODY, form=form), "p {}", IN_ENGLISH, drawing)
    section = page[page.index('<section class="staves">') :]
    assert page.count("<svg>") == 3
    assert "<h2>On the staff</h2>\n<figure><figcaption><b>Bb7</b>" not in section
    assert (
        "<figure><figcaption><b>B major</b> B C♯ D♯ E F♯ G♯ A♯ B · 5 sharps: F♯ C♯ G♯ D♯ A♯</figcaption>"
        "<svg><title>B major, cello, numbers</title></svg></figure>\n"
    ) in section
    assert "data-" not in section
    assert "key Bb" not in section  # without a picture it has its words in the line alone
    assert "Db major" not in page


def test_what_is_kept_of_a_page_has_places_that_are_empty_without_the_engraver():
    notes = planned(BODY)
    body = practice_notes_body(notes, IN_ENGLISH)
    assert body.count("<figure data-asked=") == 4
    assert "<svg" not in body
    bare = without_staves(body)
    assert has_staves(body)
    assert not has_staves(bare)
    assert with_staves(body, no_staff) == bare
    assert with_staves(bare, drawing) == bare


def test_a_page_has_twelve_staves_at_most_and_one_of_each():
    keys = [f"{letter}{sign} blues" for letter in "CDEFGAB" for sign in ("", "b")]
    page = practice_notes_page(paper("".join(f"{{{each}}} and {{{each}}}\n" for each in keys)), "", IN_ENGLISH, drawing)
    assert page.count("<svg>") == 12


def test_typed_words_stay_words_in_the_places_of_staves():
    odd = "chord Bb7\u00a0 "
    body = practice_notes_body(paper(f'Now {{{odd}}} "<svg> {{"}} <section class="staves">\n'), IN_ENGLISH)
    assert with_staves(body, drawing).count('<section class="staves">') == 1
    assert without_staves(body).count("&lt;section") == 1


def test_the_counting_of_the_studio_goes_with_the_place():
    notes = replace(paper("{rhythm 4/4 q e e h}\n"), counting=CountingSystem.TAKADIMI)
    assert "ta ta di ta (ta)" in practice_notes_text(notes, IN_ENGLISH)
    page = practice_notes_page(notes, "", IN_ENGLISH, drawing)
    assert "<title>rhythm 4/4 q e e h, cello, takadimi</title>" in page


GET = "Get: {A minor, 3 forms} in print, size 3/4 strings\nGoal: {D major} by heart\n"


@pytest.mark.parametrize("form", [practice_notes_text, practice_notes_markdown])
def test_things_to_get_and_goals_have_their_answers_below_them(form):
    told = form(paper(GET), IN_ENGLISH)
    assert "A minor, 3 forms in print\n" in told.replace("  \n", "\n")
    assert "  = A natural minor: A B C D E F G A" in told
    assert "size 3/4 strings\n" in told
    assert "D major by heart" in told
    assert "  = D E F♯ G A B C♯ D" in told
    assert "{" not in told


def test_the_page_and_the_screen_have_them_too():
    page = practice_notes_page(paper(GET), "", IN_ENGLISH, drawing)
    assert "A minor, 3 forms in print<br>= A natural minor" in page
    assert page.count("<svg>") == 2
    parts = {part.heading: part.lines for part in practice_notes_sheet(paper(GET), IN_ENGLISH).parts}
    assert [line[:20] for line in parts["Still to get"]] == [
        "A minor, 3 forms in ",
        "= A natural minor: A",
        "size 3/4 strings",
    ]


@pytest.mark.parametrize(
    "odd",
    [
        "{" * 10_000,
        "{}" * 5_000,
        "{{D major}}",
        "{D major",
        "{" + "q " * 5_000 + "}",
        "{\u202eD major}",
        "{סולם} {D",
        "D (= " * 2_000,
    ],
)
def test_braces_that_are_none_are_on_paper_as_they_were_typed(odd):
    notes = paper(f"Piece: Minuet {odd}\n{odd}\n")
    told = practice_notes_text(notes, IN_ENGLISH)
    assert told.count(odd.rstrip()) == 2
    assert "\n  = " not in told
    body = practice_notes_body(notes, IN_ENGLISH)
    assert not has_staves(body)
    assert with_staves(body, drawing) == body
