"""The progress sheet on the screen: it is looked at, has her own words, and goes when she says so."""

import pytest
from support.screens import on_screen

from cockpit.screens.pieces.page import PageScreen
from cockpit.screens.pieces.report import ReportScreen
from cockpit.studio.post.outgoing import Paper


def sheets(opened):
    return [each for each in opened.studio.store.reading.open_outgoing() if each.paper is Paper.REPORT]


@pytest.mark.parametrize("size", [(44, 20), (80, 40)])
def test_w_on_the_page_shows_the_sheet_and_f9_puts_it_out_with_her_words(tmp_path, size):
    async def steps(opened):
        await opened.press("f7", "w")
        assert isinstance(opened.app.screen, ReportScreen)
        drawn = " ".join(opened.drawn().replace("│", " ").split())
        assert "To the Brandvold family, since" in drawn
        assert "F9 puts it" in drawn
        await opened.press("escape")
        assert isinstance(opened.app.screen, PageScreen)
        assert sheets(opened) == []
        await opened.press("w")
        await opened.type("A fine term.")
        await opened.press("f9")
        assert isinstance(opened.app.screen, PageScreen)
        assert opened.said.startswith("The progress sheet for Ilse is in the outbox.")
        assert sheets(opened)
        assert all("A fine term." in each.text for each in sheets(opened))
        await opened.press("f4")
        assert sheets(opened) == []

    on_screen(tmp_path, steps, size=size)
