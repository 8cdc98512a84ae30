"""The practice notes in their three forms: golden documents, what is said in them, and what is kept out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.golden import assert_golden
from support.papers import TRICKY, paper
from support.phrases import CAUTION, IN_ENGLISH
from support.rendering import shown
from support.studio import ISHAAN, TEODOR, booking, family, home, student

from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_text
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.values import replace

STYLE = "p { margin: 0; }\n"
PAPERS = {
    "usual": paper(),
    "tricky": paper(TRICKY),
    "bare": paper("", booking(TEODOR, instrument=None), is_booked_again=False),
}


def forms(notes: PracticeNotes) -> tuple[str, str, str]:
    return (
        practice_notes_markdown(notes, IN_ENGLISH),
        practice_notes_page(notes, STYLE, IN_ENGLISH),
        practice_notes_text(notes, IN_ENGLISH),
    )


@pytest.mark.parametrize("name", PAPERS)
def test_the_markdown_is_the_golden_one(name: str) -> None:
    assert_golden(practice_notes_markdown(PAPERS[name], IN_ENGLISH), f"{name}.md")


@pytest.mark.parametrize("name", PAPERS)
def test_the_page_is_the_golden_one(name: str) -> None:
    assert_golden(practice_notes_page(PAPERS[name], STYLE, IN_ENGLISH), f"{name}.html")


@pytest.mark.parametrize("name", PAPERS)
def test_the_plain_text_is_the_golden_one(name: str) -> None:
    assert_golden(practice_notes_text(PAPERS[name], IN_ENGLISH), f"{name}.txt")


def test_the_remarks_are_shown_line_by_line_as_they_were_typed() -> None:
    remarks = (
        practice_notes_markdown(PAPERS["tricky"], IN_ENGLISH).split("## From the lesson\n\n")[1].split("\n\n## ")[0]
    )
    typed = "\n".join(line for line in TRICKY.splitlines() if not line.startswith("Theory:"))
    assert shown(remarks) == typed.replace("    four", "\u00a0" * 4 + "four")


def test_times_are_on_the_familys_clock_and_name_the_city_and_the_offset() -> None:
    # 16:00 in Chicago in winter is 3:30 of the next day in Kolkata, 11 hours and 30 minutes ahead; the lesson began at 16:02.
    notes = paper(who=booking(ISHAAN, began_at=home("2026-12-01 16:02")))
    for form in forms(notes):
        said = form.replace("\N{NO-BREAK SPACE}", " ")
        assert "Wednesday, December 2, 2026, 3:32 Kolkata time" in said
        assert "Wednesday, December 9, 2026, 3:30 Kolkata time (UTC+05:30)" in said


def test_a_next_lesson_that_is_not_booked_is_said_to_be_so() -> None:
    for form in forms(paper(is_booked_again=False)):
        assert "The next lesson has not been scheduled yet." in form


def test_the_caution_stands_once_and_last() -> None:
    markdown, page, text = forms(paper(f"Piece: one\n{CAUTION[:20]}"))
    for form in (markdown, page, text):
        assert form.count(CAUTION) == 1
    assert markdown.endswith(f"{CAUTION}\n")
    assert text.endswith(f"{CAUTION}\n")


@pytest.mark.parametrize(
    ("body", "given_out", "said"),
    [("Scales: C", True, False), ("well done", False, True), ("", False, False), ("Private: tired", False, False)],
)
def test_a_section_without_words_is_left_out(body: str, given_out: bool, said: bool) -> None:
    for form in forms(paper(body)):
        assert ("What to practice" in form) == given_out
        assert ("From the lesson" in form) == said


def named(name: str) -> ScheduledLesson:
    plain = booking()
    return replace(plain, student=student(name=name), family=family(name=name))


@pytest.mark.parametrize("name", ["<script>Ilse</script>", "Ilse *B* #", "1. Ilse", "Ilse & Co", "明美 \u202eIlse"])
def test_a_name_is_shown_as_it_was_typed_in_every_form(name: str) -> None:
    markdown, page, text = forms(paper(who=named(name)))
    escaped = name.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")
    assert f"<title>Practice notes for {escaped}</title>" in page
    assert f"<h1>Practice notes for {escaped}</h1>" in page
    assert text.startswith(f"Practice notes for {name}\n")
    assert markdown.startswith("# Practice notes for ")


def test_a_control_sequence_in_a_name_never_reaches_a_terminal() -> None:
    for form in forms(paper("\x1b]52;c;aGk=\x07 hello", who=named("Ilse\x1b[2J\n\x9b"))):
        assert "\x1b" not in form
        assert "\x9b" not in form
        assert "\x07" not in form


KEPT_BACK = st.sampled_from(
    [
        "Private: {}",
        "private:{}",
        "Follow-up: {}",
        "follow up: {} please",
        "Next time: {}",
        "  PRIVATE : {}",
        "Private:\n{}",
    ]
)
TOLD = st.sampled_from(["Scales: C major", "well done", "", "- slow", "Piece: Bourrée", "[a]: b"])


@given(st.lists(st.one_of(TOLD, KEPT_BACK), max_size=12), st.from_regex(r"[a-z]{12}", fullmatch=True))
def test_what_is_kept_back_is_in_no_form(lines: list[str], secret: str) -> None:
    body = "\n".join(line.format(f"kx{secret}") for line in lines)
    for form in forms(paper(body)):
        assert f"kx{secret}" not in form


def test_the_teachers_remark_on_a_student_is_in_no_form() -> None:
    booked = replace(booking(), student=student(remark="shy at first"))
    for form in forms(paper(who=booked)):
        assert "shy at first" not in form
