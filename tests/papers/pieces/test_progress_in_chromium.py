"""The progress sheet in a real browser: it asks for nothing, fits a phone and a sheet, and its pictures can be heard."""

import re

import pytest
from support.progress import progress_page, progress_sheet

LANGUAGES = ("en", "de", "es", "fr")
NARROWEST = 320  # WCAG 2.2, SC 1.4.10 Reflow
PAPERS = ((8.5, 11), (210 / 25.4, 297 / 25.4))  # inches: ANSI/ASME Y14.1 size A, and ISO 216


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_sheet_asks_for_nothing_and_fits_a_phone_and_a_sheet_of_paper(browser, language):
    browser.look()
    browser.width(NARROWEST)
    browser.open(progress_page(progress_sheet(has_marks=True, words="A fine term."), language))
    assert browser.requested() == [browser.address]
    assert browser.complaints() == []
    widths = browser.evaluate("[innerWidth, document.documentElement.scrollWidth, document.body.scrollWidth]")
    assert max(widths) == NARROWEST
    past = browser.evaluate(
        "[...document.querySelectorAll('th, td')].filter(each => each.scrollWidth > each.clientWidth + 1).length"
    )
    assert past == 0
    assert [len(re.findall(rb"/Type\s*/Page\b", browser.pdf(*paper))) for paper in PAPERS] == [1, 1]


def test_a_screen_reader_hears_the_table_with_heads_and_the_picture_with_its_name_and_its_words(browser):
    browser.open(progress_page(progress_sheet()))
    nodes = browser.command("Accessibility.getFullAXTree")["nodes"]

    def named(role):
        return [each["name"]["value"] for each in nodes if each.get("role", {}).get("value") == role]

    assert named("columnheader") == ["first", "last", "goal"]
    (picture,) = [each for each in nodes if each.get("role", {}).get("value") == "image"]
    assert picture["name"]["value"] == "Tempos of The Old Mill"
    assert picture["description"]["value"].startswith("quarter = 60 on November 3; ")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_picture_is_as_dark_as_the_words_beside_it(browser, scheme):
    browser.look(scheme=scheme)
    browser.open(progress_page(progress_sheet()))
    line, words = browser.evaluate(
        "['polyline', 'td'].map(each => getComputedStyle(document.querySelector(each))[each == 'td' ? 'color' : 'stroke'])"
    )
    assert line == words
