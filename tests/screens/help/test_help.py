"""Help: the commands of the place, and the guide, open where she is."""

import pytest
from support.screens import on_screen
from textual.containers import VerticalScroll
from textual.widgets import OptionList, Static

from cockpit.guide.__main__ import GUIDE
from cockpit.screens.commands.commands import COMMANDS, Place
from cockpit.screens.day.day import DayScreen
from cockpit.screens.help.guide import PAGES, page_text, page_title
from cockpit.screens.help.help import GuidePane, HelpScreen, PageText
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
    Place.EARLIER: ("f7",),
}


def listed(opened):
    """The headings and the commands of the list, by id; a heading by its words."""
    return [option.id or str(option.prompt) for option in opened.app.screen.query_one(OptionList).options]


def page_drawn(opened):
    region = opened.app.screen.query_one(GuidePane).region
    return "\n".join(line[region.x : region.right] for line in opened.drawn().splitlines()[region.y : region.bottom])


# What is opened


@pytest.mark.long
def test_help_opens_with_the_commands_of_each_place_first_and_the_guide_at_its_page(tmp_path):
    async def steps(opened):
        for place, keys in WAYS_THERE.items():
            await opened.press(*keys)
            await opened.pilot.pause()
            assert opened.app.screen.place_here is place
            here = [command.id for command in COMMANDS if command.place is place]
            await opened.press("f1")
            await opened.pilot.pause()
            assert isinstance(opened.app.screen, HelpScreen), place
            assert listed(opened)[: len(here) + 1] == [place.upper(), *here]
            page, heading = place.page, place.heading
            title, seen, *rest = page_drawn(opened).splitlines()
            assert page_title(page) in title, place
            first = laid_out(page_text(page), opened.app.screen.query_one(PageText).size.width).lines[0].plain
            assert seen.split(" ─")[0].strip() == (heading or first.split(" ─")[0].strip()), place
            assert rest, place
            await opened.press("escape")
            assert opened.app.screen.place_here is place
            while opened.app.screen.place_here is not Place.NOTES:
                await opened.press("escape")

    on_screen(tmp_path, steps)


def test_every_place_has_a_page_and_every_page_is_in_the_list_once():
    assert sorted(PAGES) == sorted(path.stem for path in GUIDE.glob("*.md"))
    for place in Place:
        assert place.page in PAGES
        assert not place.heading or place.heading in laid_out(page_text(place.page), 80).headings


def test_everything_that_the_place_can_do_and_every_page_can_be_chosen_and_what_is_at_the_cursor_is_told(tmp_path):
    async def steps(opened):
        here = {command.id for command in opened.day.commands_here()}
        await opened.press("tab", "f1")
        ids = [option.id for option in opened.app.screen.query_one(OptionList).options if not option.disabled]
        assert set(ids) == here | {f"page:{page}" for page in PAGES} | {"opening"}
        assert len(ids) == len(set(ids))
        await opened.press("down", "down")
        marked = [command for command in COMMANDS if command.place is Place.LAST][2]
        assert str(opened.app.screen.query_one("#about", Static).content) == marked.help

    on_screen(tmp_path, steps)


# Going about in it


@pytest.mark.long
def test_the_arrows_turn_all_pages_and_come_round(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        pane = opened.app.screen.query_one(GuidePane)
        first = PAGES.index(pane.page)
        seen = []
        for _ in PAGES:
            await opened.press("right")
            await opened.pilot.pause()
            seen.append(pane.page)
            assert page_title(pane.page) in page_drawn(opened).splitlines()[0]
        assert seen == [*PAGES[first + 1 :], *PAGES[: first + 1]]
        await opened.press("left", "left")
        assert pane.page == PAGES[first - 2]

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_page_is_chosen_in_the_list_and_read_with_the_arrows(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        await opened.choose("page:keys")
        await opened.pilot.pause()
        scroll = opened.app.screen.query_one(VerticalScroll)
        assert opened.app.screen.focused is scroll
        assert scroll.scroll_y == 0
        await opened.press("down", "pagedown")
        await opened.pilot.pause(0.3)
        assert scroll.scroll_y > 1
        await opened.press("tab")
        assert isinstance(opened.app.screen.focused, OptionList)
        await opened.press("escape")
        assert isinstance(opened.app.screen, DayScreen)

    on_screen(tmp_path, steps)


def test_a_link_in_a_page_that_is_tapped_leads_to_the_other_page(tmp_path):
    async def steps(opened):
        await opened.press("f1")
        await opened.choose("page:end-of-day")
        await opened.pilot.pause()
        lines = opened.drawn().splitlines()
        row, column = next((n, line.index("outbox")) for n, line in enumerate(lines) if "opens the outbox" in line)
        await opened.pilot.click(offset=(column + 1, row))
        await opened.pilot.pause()
        assert opened.app.screen.query_one(GuidePane).page == "sending"

    on_screen(tmp_path, steps, size=(150, 45))


# How it looks


def test_commands_page_and_keys_of_help_are_seen_at_once(tmp_path):
    async def steps(opened):
        for size in ((44, 20), (80, 24), (80, 40), (150, 45)):
            await opened.pilot.resize_terminal(*size)
            await opened.press("f1")
            await opened.pilot.pause()
            drawn = opened.drawn()
            for words in ("THE NOTES", "F2 or ctrl+r", "2 of 14", "← → pages"):
                assert words in drawn, (size, words)
            assert "Type as you would write anyway." in " ".join(page_drawn(opened).split()), size
            assert max(len(line) for line in drawn.splitlines()) <= size[0], size
            assert len([line for line in page_drawn(opened).splitlines() if line.strip()]) >= 4, size
            await opened.press("escape")

    on_screen(tmp_path, steps, size=(44, 20))


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
