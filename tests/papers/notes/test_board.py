"""The board as a page: the first name and the theory, and nothing else; in a real browser it fits and can be read."""

import re
import time

import pytest
from support.chromium import PATIENCE
from support.phrases import IN_ENGLISH

from cockpit.papers.notes.board import board_page, family_lines
from cockpit.papers.notes.theory import rows_of
from cockpit.printing.staves import staff_asked
from cockpit.screens.look.legible import contrast
from cockpit.screens.look.theming import themes_folder
from cockpit.studio.day.board import Board, BoardEntry, items_typed
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import for_family
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.wording.theory import say_in_english

STYLE = (themes_folder() / "board.css").read_text(encoding="utf-8")
READABLE = 4.5  # WCAG 2.2, SC 1.4.3, for text of any size
PHONE, NARROWEST, DESKTOP = 360, 320, 1280  # 320: WCAG 2.2, SC 1.4.10 Reflow


def board_of(*typed, name="Ilse"):
    items = [item for each in typed for item in items_typed(each)]
    entries = tuple(BoardEntry(words=each.words, rows=rows_of(each.answer, IN_ENGLISH)) for each in items)
    return Board(lesson_id=LessonId("1"), first_name=name, language="en", entries=entries)


def body_of(page):
    return page.partition("<main>\n")[2].partition("</main>")[0]


def test_the_page_is_the_first_name_and_each_thing_with_its_answer_the_last_on_top():
    page = board_page(board_of("key Ab", "C/E"), STYLE, "en")
    assert body_of(page) == (
        "<h1>Ilse</h1>\n"
        "<section>\n<h2>C/E</h2>\n"
        "<p><span>E</span> <span>G</span> <span>C</span></p>\n"
        "<p><span>root</span> <span>C,</span> <span>first</span> <span>inversion</span></p>\n</section>\n"
        "<section>\n<h2>key Ab</h2>\n"
        "<p><span>4</span> <span>flats:</span> <span>B♭</span> <span>E♭</span> <span>A♭</span> <span>D♭</span></p>\n</section>\n"
    )
    assert '<meta http-equiv="refresh" content="3">' in page
    assert "<title>Ilse</title>" in page
    assert "<script" not in page


def test_while_no_lesson_runs_the_page_says_nothing_and_reads_itself_again():
    page = board_page(None, STYLE, "en")
    assert body_of(page) == ""
    assert "<title>♪</title>" in page
    assert '<meta http-equiv="refresh" content="3">' in page


def test_a_staff_stands_below_its_answer_and_without_one_there_is_none():
    def draw(words, lesson):
        assert lesson == board.theory
        return "<svg>staff</svg>" if words == "C/E" else None

    board = board_of("C/E", "circle of fifths")
    page = board_page(board, STYLE, "en", draw)
    assert page.count("<figure>") == 1
    assert "</p>\n<figure><svg>staff</svg></figure>\n</section>\n</main>" in page


def test_a_name_with_signs_of_html_is_a_name():
    assert "<h1>&lt;b&gt; &amp;</h1>" in board_page(board_of(name="<b> &"), STYLE, "en")


def test_the_lines_of_the_family_are_those_of_its_paper_with_answers():
    notes = for_family("Scales: {D major}\nPrivate: {A blues} tired\nGet: rosin\nGoal: play {C/E} well\nLovely!")
    assert family_lines(notes, IN_ENGLISH) == (
        "Scales: D major",
        "= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯",
        "Still to get: rosin",
        "Goals: play C/E well",
        "= E G C · root C, first inversion",
        "Lovely!",
    )


# In a real browser


ALL = [each for group in EXAMPLES.values() for each in group]


def drawn(words, lesson):
    return staff_asked(words, lesson, say_in_english)


@pytest.fixture
def opened(browser):
    """Opens a page in a window of a width and gives the browser."""

    def open_page(page, width=PHONE):
        browser.width(width)
        browser.look()
        browser.open(page)
        return browser

    return open_page


@pytest.mark.long
@pytest.mark.parametrize("width", [NARROWEST, PHONE, DESKTOP])
def test_everything_fits_a_phone_and_a_desktop_and_is_large(opened, width):
    shown = opened(board_page(board_of(*ALL), STYLE, "en", drawn), width)
    assert shown.evaluate("document.documentElement.scrollWidth") <= width
    sizes = shown.evaluate(
        '[...document.querySelectorAll("h1, h2, p")].map(each => parseFloat(getComputedStyle(each).fontSize))'
    )
    assert min(sizes) >= 24
    staves = shown.evaluate(
        '[...document.querySelectorAll("figure > svg")].map(each => each.getBoundingClientRect().height)'
    )
    assert len(staves) == 12
    assert min(staves) > 20
    assert shown.requested() == [shown.address]
    assert shown.complaints() == []


@pytest.mark.long
def test_a_staff_of_several_lines_is_as_large_as_one_of_one_line(opened):
    shown = opened(board_page(board_of("A minor", "A melodic minor", "A minor, 3 forms"), STYLE, "en", drawn), DESKTOP)
    sizes = shown.evaluate(
        '[...document.querySelectorAll("figure > svg")].map(each => each.getBoundingClientRect().width'
        ' / parseFloat(each.getAttribute("width")))'
    )
    assert len(sizes) == 3
    assert max(sizes) - min(sizes) < 0.05 * min(sizes)


@pytest.mark.long
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_word_can_be_read_in_both_schemes(opened, scheme):
    shown = opened(board_page(board_of("D major", "C/E"), STYLE, "en"))
    shown.look(scheme=scheme)
    (ground,) = [shown.evaluate("getComputedStyle(document.documentElement).backgroundColor")]
    colors = set(
        shown.evaluate('[...document.querySelectorAll("h1, h2, p, span")].map(each => getComputedStyle(each).color)')
    )

    def as_hex(color):
        return "#{:02x}{:02x}{:02x}".format(*map(int, re.findall(r"\d+", color)))

    assert all(contrast(as_hex(color), as_hex(ground)) >= READABLE for color in colors)


@pytest.mark.long
def test_the_page_reads_itself_again_without_a_script(opened, browser):
    shown = opened(board_page(board_of("D major"), STYLE, "en"))
    browser._file.write_text(board_page(None, STYLE, "en"), encoding="utf-8")
    until = time.monotonic() + PATIENCE
    while shown.evaluate("document.querySelectorAll('h1').length"):
        assert time.monotonic() < until, "it is the same page as before"
        shown.command("Page.getNavigationHistory")
    assert shown.evaluate("document.title") == "♪"
