"""A letter to many families on the screen: kept at every key, told as it is typed, sent by F9 alone."""

import pytest
from support.screens import on_screen
from textual.widgets import Static

from cockpit.screens.post.family_letter import FamilyLetterScreen, LetterTextArea
from cockpit.screens.post.preview import PreviewScreen
from cockpit.studio.post.outgoing import DeliveryStatus


async def open_letters(opened):
    await opened.press("f8")
    await opened.type("newsletter")
    await opened.press("enter")
    assert isinstance(opened.app.screen, FamilyLetterScreen)


def kept(opened):
    return [(each.whom, each.text) for each in opened.studio.desk.families().letters()]


def said(opened, name):
    return str(opened.app.screen.query_one(name, Static).content)


@pytest.mark.parametrize("size", [(44, 20), (80, 40), (150, 45)])
def test_a_letter_is_kept_at_every_key_told_previewed_sent_and_taken_back(tmp_path, size):
    async def steps(opened):
        await open_letters(opened)
        await opened.type("cello harp")
        assert kept(opened) == [("cello harp", "")]
        assert '"harp" is not understood' in said(opened, "#whom-said")
        await opened.press(*["backspace"] * 5)
        assert said(opened, "#whom-said") == "cello students"
        assert "The letter is empty" in said(opened, "#letter-said")
        await opened.press("enter")
        await opened.type("Rehearsal")
        await opened.press("enter", "enter")
        await opened.type("Dear {famly}")
        assert kept(opened) == [("cello", "Rehearsal\n\nDear {famly}")]
        assert "{famly} is not filled in" in said(opened, "#letter-said")
        await opened.press("f9")
        assert "{famly} is not filled in" in opened.said
        assert opened.studio.desk.outbox.entries() == ()
        await opened.press("left", "backspace", "backspace")
        await opened.type("ily")
        assert kept(opened)[0][1].endswith("Dear {family}")
        assert "F9 puts into the outbox 5 letters to 5 families" in said(opened, "#letter-said")
        await opened.press("tab", "down", "enter")
        assert "Banerjee" in opened.drawn()
        assert "is left out" in opened.said
        await opened.press("up", "f11")
        assert isinstance(opened.app.screen, PreviewScreen)
        assert "Dear Aldersgate" in opened.drawn()
        await opened.press("escape", "f9")
        assert "The letter is in the outbox for 4 guardians of 4 families" in opened.said
        assert [each.fate for each in opened.studio.desk.outbox.entries()] == [DeliveryStatus.WAITING] * 4
        assert max(map(len, opened.drawn().splitlines())) <= size[0]
        await opened.press("f4")
        assert opened.studio.desk.outbox.entries() == ()
        await opened.press("f9", "f9")
        assert len(opened.studio.desk.outbox.entries()) == 4
        assert "Nobody joined since" in opened.said
        await opened.press("f3")
        assert "4 letters withdrawn" in opened.said
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, size=size)


def test_other_letters_are_walked_through_and_a_draft_is_there_when_the_screen_is_opened_again(tmp_path):
    async def steps(opened):
        await open_letters(opened)
        await opened.press("f5")
        assert "There is no other letter" in opened.said
        await opened.type("all")
        await opened.press("f5")
        assert opened.app.screen.query_one(LetterTextArea).text == ""
        await opened.press("f5")
        assert opened.app.screen.query_one("Field").value == "all"
        await opened.press("tab")
        await opened.type("News ")
        await opened.press("ctrl+z")
        assert kept(opened) == [("all", "")]
        await opened.type("News")
        await opened.press("escape")
        await open_letters(opened)
        assert opened.app.screen.query_one(LetterTextArea).text == "News"
        await opened.press("escape")
        await opened.press("tab", "tab", "r", "l")
        assert isinstance(opened.app.screen, FamilyLetterScreen)
        for _ in "News":
            await opened.press("backspace")
        await opened.press("shift+tab", *["backspace"] * 3)
        assert kept(opened) == []

    on_screen(tmp_path, steps)
