"""Help: the commands of the place, and the guide, open where she is."""

import re
from itertools import takewhile

import pytest
from support.screens import on_screen
from textual.containers import VerticalScroll
from textual.widgets import Input, OptionList, Static

from cockpit.guide.__main__ import GUIDE
from cockpit.screens.commands.commands import COMMANDS, Place
from cockpit.screens.day.day import DayScreen
from cockpit.screens.help.find import FindScreen
from cockpit.screens.help.guide import PAGES, page_sections, page_text, page_title
from cockpit.screens.help.help import HelpScreen, PageText
from cockpit.screens.help.help_rows import HelpView, help_rows
from cockpit.screens.help.markdown import laid_out

WAYS_THERE = {
    Place.NOTES: (),
    Place.LAST: ("tab",),
    Place.QUEUE: ("tab", "tab"),
    Place.AHEAD: ("ctrl+b",),
    Place.REVIEW: ("f10",),
    Place.WEEK: ("ctrl+a",),
    Place.YEAR: ("ctrl+a", "y"),
    Place.OUTBOX: ("f10", "o"),
    Place.WAYS: ("f10", "o", "s"),
    Place.PREVIEW: ("f11",),
    Place.PAGE: ("f7",),
    Place.EARLIER: ("f7", "n"),
    Place.HISTORY: ("f7", "enter"),
    Place.MIX: ("f7", "m"),
}


def listed(opened):
    """The commands and pages of the list, by id."""
    return [option.id for option in opened.app.screen.query_one(OptionList).options if not option.disabled]


def page_drawn(opened):
    region = opened.app.screen.query_one("#page").region
    return "\n".join(line[region.x : region.right] for line in opened.drawn().splitlines()[region.y : region.bottom])


# What is opened


@pytest.mark.long
def test_help_opens_with_the_keys_of_each_place_first_and_what_the_guide_says_of_it(tmp_path):
    async def steps(opened):
        for place, keys in WAYS_THERE.items():
            await opened.press(*keys)
            await opened.pilot.pause()
            assert opened.app.screen.place_here is place
            here = {command.id for command in COMMANDS if command.place is place}
            await opened.press("f1")
            await opened.pilot.pause()
            assert isinstance(opened.app.screen, HelpScreen), place
            assert f"HELP  you were in {place}" in opened.drawn(), place
            before_the_guide = takewhile(lambda each: each != "of the place", listed(opened))
            assert here <= set(before_the_guide), place
            assert "of the place" in listed(opened), place
            await opened.press("right")
            await opened.pilot.pause()
            first = laid_out(page_text(place.page), 77).lines[0].plain
            seen = [line.split(" ─")[0].strip(" │") for line in page_drawn(opened).splitlines()]
            assert (place.heading or first.split(" ─")[0].strip()) in seen, place
            await opened.press("escape", "escape")
            assert opened.app.screen.place_here is place
            while opened.app.screen.place_here is not Place.NOTES:
                await opened.press("escape")

    on_screen(tmp_path, steps)


def test_in_the_notes_the_keys_of_the_moment_come_first_and_what_a_line_is_and_the_signs_follow(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        drawn = opened.drawn()
        places = [drawn.index(words) for words in ("HERE, WHILE YOU TYPE ━", "A LINE IS", "SIGNS")]
        assert places == sorted(places)
        assert "        F9  Finish the lesson" in drawn.splitlines()[5][1:]
        assert "▒ Private: tired today" in drawn
        assert re.search(r"● happened: taught, done, sent +» for this lesson, from last time", drawn)

    on_screen(tmp_path, steps, size=(80, 60))


def test_every_place_has_a_page_and_every_page_is_in_the_list_once():
    assert sorted(PAGES) == sorted(path.stem for path in GUIDE.glob("*.md"))
    for place in Place:
        assert place.page in PAGES
        assert not place.heading or place.heading in [section.heading for section in page_sections(place.page)]


def test_everything_that_the_place_can_do_and_every_page_can_be_chosen_and_what_is_at_the_cursor_is_told(tmp_path):
    async def steps(opened):
        here = {command.id for command in opened.day.commands_here()}
        await opened.press("tab", "f1")
        ids = listed(opened)
        assert {each for each in ids if not each.startswith("page:")} == here | {"opening", "of the place"}
        assert {each for each in ids if each.endswith("#")} == {f"page:{page}#" for page in PAGES}
        assert len([each for each in ids if each in here]) == len(here)
        await opened.press("down", "down")
        marked = [command for command in COMMANDS if command.place is Place.LAST][2]
        assert str(opened.app.screen.query_one("#about", Static).content) == marked.help

    on_screen(tmp_path, steps)


# Finding in it


def test_what_is_typed_finds_commands_and_parts_of_the_guide_and_enter_does_or_opens_what_is_chosen(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        await opened.type("curt")
        assert listed(opened)[0] == "app.show_curtain"
        assert "page:lesson#The curtain" in listed(opened)
        await opened.press(*["backspace"] * 4)
        await opened.type("bow zz")
        assert "Nothing in Help has bow zz." in opened.drawn()
        await opened.press(*["backspace"] * len("bow zz"))
        await opened.type("the signs")
        while opened.app.screen.query_one(OptionList).highlighted_option.id != "page:lesson#The signs":
            await opened.press("down")
        await opened.press("enter")
        await opened.pilot.pause()
        assert page_drawn(opened).splitlines()[0].startswith(" The signs ─")
        await opened.press("escape")
        assert opened.app.screen.query_one(Input).value == "the signs"
        await opened.press(*["backspace"] * len("the signs"))
        await opened.type("not yet")
        await opened.press("enter")
        await opened.pilot.pause()
        assert opened.app.screen is opened.day
        assert "not yet" in opened.marks().values()

    on_screen(tmp_path, steps)


def test_find_goes_on_from_help_with_the_screen_below(tmp_path):
    async def steps(opened):
        await opened.press("f1", "f8")
        assert isinstance(opened.app.screen, FindScreen)
        assert opened.app.screen.below is opened.day
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps)


# Going about in the guide


@pytest.mark.long
def test_the_arrows_turn_all_pages_and_come_round(tmp_path):
    async def steps(opened):
        await opened.press("f1", "right")
        text = opened.app.screen.query_one(PageText)
        first = PAGES.index(text.page)
        seen = []
        for _ in PAGES:
            await opened.press("right")
            await opened.pilot.pause()
            seen.append(text.page)
            assert page_title(text.page) in opened.drawn().splitlines()[2]
        assert seen == [*PAGES[first + 1 :], *PAGES[: first + 1]]
        await opened.press("left", "left")
        assert text.page == PAGES[first - 2]

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_page_is_chosen_in_the_list_and_read_with_the_arrows(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        await opened.choose("page:keys#")
        await opened.pilot.pause()
        scroll = opened.app.screen.query_one(VerticalScroll)
        assert opened.app.screen.focused is scroll
        assert scroll.scroll_y == 0
        await opened.press("down", "pagedown")
        await opened.pilot.pause(0.3)
        assert scroll.scroll_y > 1
        await opened.press("escape")
        assert isinstance(opened.app.screen.focused, Input)
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)

    on_screen(tmp_path, steps)


def test_a_link_in_a_page_that_is_tapped_leads_to_the_other_page(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        await opened.choose("page:end-of-day#")
        await opened.pilot.pause()
        lines = opened.drawn().splitlines()
        row, column = next((n, line.index("outbox")) for n, line in enumerate(lines) if "opens the outbox" in line)
        await opened.pilot.click(offset=(column + 1, row))
        await opened.pilot.pause()
        assert opened.app.screen.query_one(PageText).page == "sending"

    on_screen(tmp_path, steps, size=(150, 45))


# How it looks


def test_the_running_lesson_the_keys_and_the_field_are_seen_at_every_size(tmp_path):
    async def steps(opened):
        for size in ((44, 20), (80, 24), (80, 40), (150, 45)):
            await opened.pilot.resize_terminal(*size)
            await opened.press("f1")
            await opened.pilot.pause()
            lines = opened.drawn().splitlines()
            assert lines[0].startswith(" 33:00 left Ilse"), size
            assert "type to find" in opened.drawn(), size
            assert "F9  Finish the lesson" in opened.drawn(), size
            assert max(map(len, lines)) <= size[0], size
            await opened.press("escape")

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.parametrize("place", [Place.NOTES, Place.QUEUE, Place.WAYS, Place.HELP])
def test_every_row_fits_its_width(place):
    view = HelpView(place=place, commands=COMMANDS, moment=["lesson.finish"], footnote="Studio folder: /a/folder " * 9)
    for width in (41, 77, 110):
        for typed in ("", "print", "the week"):
            rows = [str(option.prompt) for option in help_rows(view, typed, width)]
            assert max(len(line) for row in rows for line in row.splitlines()) <= width, (width, typed)


@pytest.mark.parametrize("page", PAGES)
@pytest.mark.long
def test_every_line_of_a_page_fits_and_no_word_is_lost(page):
    for width in (24, 41, 67, 100, 140):
        laid = laid_out(page_text(page), width)
        assert max(line.cell_length for line in laid.lines) <= width, width
    words = page_text(page).split("\n", 1)[1]
    shown = "".join("".join(line.plain.split()) for line in laid.lines)
    for paragraph in words.split("\n\n"):
        if paragraph[:1].isalpha() and "](" not in paragraph:
            said = "".join(paragraph.replace("`", "").replace("**", "").split())
            assert said in shown, paragraph


def test_the_parts_of_a_page_are_laid_out_each_in_its_way():
    page = laid_out(
        "# Title\n\nSome `code` and **bold** words of a [page](other.md).\n\n"
        "## Head\n\n- one that is longer than the line\n- two\n\n1. first\n\n```sh\nrun it\n```\n\n"
        "<!-- not seen -->\n\n| a | b |\n|---|---|\n| `x` | y z |\n",
        20,
    )
    assert "\n".join(line.plain for line in page.lines) == (
        "Some code and bold\nwords of a page.\n\nHead ───────────────\n\n – one that is\n   longer than the\n   line\n – two\n\n"
        " 1 first\n\n  run it\n\na  b\nx  y z"
    )
    assert page.headings == {"Head": 3}
