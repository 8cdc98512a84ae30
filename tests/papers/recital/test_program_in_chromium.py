"""The program of a recital in a real browser: one sheet that is folded, each number whole, and every name in its own direction.

What is true of every page of ours is held in `notes/test_page_in_chromium.py`, which has these pages too.
"""

import re

import pytest
from support.phrases import IN_ENGLISH, SPOKEN
from support.programs import LONG_TITLE, RIGHT_TO_LEFT, papers_page, program_page

pytestmark = pytest.mark.long
PAPERS = {"US Letter": (8.5, 11), "A4": (210 / 25.4, 297 / 25.4)}
_WHOLE = "[...document.querySelectorAll('.program li')].every(each => each.getClientRects().length === 1)"


def sheets(browser, page, paper):
    browser.open(page)
    return re.findall(rb"/MediaBox\s*\[([^\]]*)\]", browser.pdf(*PAPERS[paper]))


def is_across(box):
    left, bottom, right, top = map(float, box.split())
    return right - left > top - bottom


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("phrases", [IN_ENGLISH, *SPOKEN.values()], ids=lambda each: each.language)
def test_a_program_of_up_to_twelve_is_one_landscape_sheet_in_every_language(browser, paper, phrases):
    for items in (0, 8, 12):
        boxes = sheets(browser, program_page(items, phrases), paper)
        assert len(boxes) == 1
        assert is_across(boxes[0])


@pytest.mark.parametrize("paper", PAPERS)
def test_forty_numbers_with_stories_go_on_three_sheets_and_a_title_of_three_hundred_signs_on_one(browser, paper):
    assert len(sheets(browser, program_page(40), paper)) == 3
    assert len(LONG_TITLE) >= 300
    assert len(sheets(browser, program_page(12, title=LONG_TITLE), paper)) == 1


@pytest.mark.parametrize("paper", PAPERS)
def test_the_familys_own_sheet_is_upright_before_the_program(browser, paper):
    boxes = sheets(browser, papers_page(12), paper)
    assert [is_across(each) for each in boxes] == [False, True]


def test_the_fold_goes_through_no_number(browser):
    for items in range(5, 13):
        browser.width(1000)
        browser.open(program_page(items, title=LONG_TITLE))
        browser.look(media="print")
        assert browser.evaluate(_WHOLE)
        edges = browser.evaluate(
            "[...document.querySelectorAll('.program > *, .program li')].map(each => each.getBoundingClientRect())"
            ".map(each => [each.left, each.right])"
        )
        middle = browser.evaluate(
            "(box => (box.left + box.right) / 2)(document.querySelector('.program').getBoundingClientRect())"
        )
        numbers = edges[-items:]
        assert all(right < middle or left > middle for left, right in numbers)
        assert {left > middle for left, _ in numbers} == {False, True}


def test_a_name_from_right_to_left_turns_nothing_else_around(browser):
    browser.width(360)
    browser.look()
    browser.open(program_page(8))
    name, item = browser.evaluate(
        f"(bdi => [bdi.getBoundingClientRect().left, bdi.closest('li').getBoundingClientRect().left])"
        f"([...document.querySelectorAll('bdi')].find(each => each.textContent === '{RIGHT_TO_LEFT}'))"
    )
    assert 0 < name - item < 60
