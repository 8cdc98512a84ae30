"""Every example of CommonMark 0.31.2, typed as a lesson's notes, reaches the family as the very text that was typed.

Source: the 652 examples of spec.commonmark.org/0.31.2, fetched once; what they would mean as Markdown does not matter
here, for a teacher who types them means their signs.

White space is compared to the letter, for a fingering chart is lined up with it, but for what the notes promise to
change, none of which can be seen: blanks that end a line are dropped, empty lines in a row are one, and blanks and tabs
that begin a line are no-break spaces of the same width. All other signs are compared once more without any exception.
"""

import pytest
from support.commonmark import examples, specification
from support.pages import STYLE, Shown
from support.papers import paper, planned
from support.phrases import ASSIGNMENTS, IN_ENGLISH, NEXT_LESSON, PLAN, REMARKS
from support.rendering import COMMONMARK, GFM

from cockpit.papers.notes.page import practice_notes_page
from cockpit.papers.notes.plan import plan_blocks
from cockpit.papers.notes.text import practice_notes_markdown, practice_notes_text
from cockpit.studio.notes.notes import Line, read_notes

NO_BREAK_SPACE = "\u00a0"


@pytest.fixture(scope="module")
def typed(request, tmp_path_factory):
    """The text of each example by its number."""
    cache = getattr(request.config, "cache", None)
    text = specification(cache.mkdir("commonmark") if cache else tmp_path_factory.mktemp("commonmark"))
    if text is None:
        pytest.skip("the examples of CommonMark are fetched by pip or npm, and neither could reach them")
    return examples(text)


def on_page(notes):
    return Shown(practice_notes_page(notes, STYLE, IN_ENGLISH))


def in_markdown(notes, reader=COMMONMARK):
    # The line end behind a break belongs to the markup; nothing that was typed can look so, for it is escaped.
    return Shown(reader.render(practice_notes_markdown(notes, IN_ENGLISH)).replace("<br />\n", "<br />"))


def in_gfm(notes):
    return in_markdown(notes, GFM)


READINGS = [on_page, in_markdown, in_gfm]


def usually(reading):
    """Every way to read a paper, all but one of them among the tests that take long."""
    return [pytest.param(each, marks=() if each is reading else pytest.mark.long) for each in READINGS]


def as_promised(text):
    """The paragraphs that a family should see of typed remarks."""
    lines = [indented(line.rstrip()) for line in text.split("\n")]
    return [paragraph.strip("\n") for paragraph in "\n".join(lines).split("\n\n") if paragraph.strip("\n")]


def indented(line):
    words = line.lstrip(" \t")
    return NO_BREAK_SPACE * len(line[: len(line) - len(words)].expandtabs(4)) + words


def signs(*texts):
    """All that is not white space."""
    return "".join("".join(texts).split())


def misread(typed, shown_and_expected):
    """The numbers of the examples that do not come out as they should."""
    found = {number: shown_and_expected(text) for number, text in typed.items()}
    return {number: pair for number, pair in found.items() if pair[0] != pair[1]}


def test_there_are_all_652_examples_and_tabs_are_tabs(typed):
    assert list(typed) == list(range(1, 653))
    assert typed[1] == "\tfoo\tbaz\t\tbim\n"
    assert typed[652] == "Multiple     spaces\n"


def test_no_example_has_words_that_a_family_may_not_see(typed):
    assert {line.line for text in typed.values() for line in read_notes(text)} == {Line.REMARK}


@pytest.mark.parametrize("reading", usually(on_page))
def test_each_example_is_read_as_it_was_typed(typed, reading):
    def alone(text):
        shown = reading(paper(text))
        assert shown.within <= {"br", "a"}
        words = shown.under(REMARKS)
        return (words, signs(*words)), (as_promised(text), signs(text))

    assert misread(typed, alone) == {}


@pytest.mark.parametrize("reading", usually(in_gfm))
def test_each_example_is_read_as_it_was_typed_between_other_lines(typed, reading):
    def between(text):
        body = f"Well done.\n{text}See you soon"
        words = reading(paper(body)).under(REMARKS)
        return (words, signs(*words)), (as_promised(body), signs(body))

    assert misread(typed, between) == {}


@pytest.mark.parametrize("between", ["", "\n"], ids=["one under the other", "as paragraphs"])
@pytest.mark.parametrize("reading", usually(in_markdown))
def test_all_examples_together_are_read_as_they_were_typed(typed, reading, between):
    body = between.join(typed.values())
    shown = reading(paper(body))
    assert shown.under(REMARKS) == as_promised(body)
    assert signs(*shown.under(REMARKS)) == signs(body)
    headings = [text for element, text in shown.blocks if element.startswith("h")][1:]
    assert headings == ([REMARKS] if reading is on_page else [REMARKS, NEXT_LESSON])


@pytest.mark.parametrize("reading", usually(in_gfm))
@pytest.mark.long
def test_each_line_of_the_examples_is_read_as_it_was_typed_in_an_assignment(typed, reading):
    def assigned(text):
        lines = [line.strip() for line in text.split("\n") if line.strip()]
        shown = reading(paper("\n".join(f"Piece: {line}" for line in lines)))
        assert shown.within <= {"br", "strong", "a"}
        return shown.under(ASSIGNMENTS), [f"Piece: {line}" for line in lines]

    assert misread(typed, assigned) == {}


@pytest.mark.parametrize("reading", usually(in_markdown))
@pytest.mark.long
def test_each_line_of_the_examples_stands_in_the_plan_with_all_its_signs(typed, reading):
    def in_plan(text):
        lines = [line.strip() for line in text.split("\n") if line.strip()]
        notes = planned("\n".join(f"Ear: {line}" for line in lines))
        shown = reading(notes)
        assert shown.within <= {"br", "strong", "a", "ul"}
        items = [signs(block.heading, *block.items) for block in plan_blocks(notes.plan, IN_ENGLISH)]
        return signs(*shown.under(PLAN)[1:]), "".join(items)

    assert misread(typed, in_plan) == {}


def test_each_example_stands_in_the_plain_text_as_it_was_typed(typed):
    def plain(text):
        *_, remarks = practice_notes_text(paper(text), IN_ENGLISH).partition(f"\n{REMARKS}\n")
        told, *_ = remarks.partition(f"\n\n{NEXT_LESSON}\n")
        lines = [f"  {line.rstrip()}" if line.strip() else "" for line in text.strip("\n").split("\n")]
        return signs(told), signs(*lines)

    assert misread(typed, plain) == {}


def test_as_markdown_most_of_the_examples_would_not_be_read_as_they_were_typed(typed):
    def unescaped(text):
        return [words for _, words in Shown(COMMONMARK.render(text)).blocks], as_promised(text)

    assert len(misread(typed, unescaped)) > 500
