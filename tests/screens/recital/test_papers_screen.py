"""The papers of a recital on the screen: who gets what, F9 alone sends, and again only whom she chose."""

from support.recitals import planned_recital
from support.screens import on_screen

from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.recital.papers import PapersScreen
from cockpit.studio.post.outgoing import Paper


def sent(opened):
    items = opened.studio.store.reading.open_outgoing()
    return {each.student: each.version for each in items if each.paper is Paper.PROGRAM}


def test_papers_go_at_f9_and_what_changed_goes_again_where_she_says_so(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        recital_id = planned_recital(desk)
        await opened.press("escape", "tab", "tab", "g", "w")
        assert isinstance(opened.app.screen, PapersScreen)
        assert "Ishaan has no permission to be seen in a recital." in opened.drawn()
        assert "7 of 7, F9 sends" in opened.drawn()
        await opened.press("f11")
        assert isinstance(opened.app.screen, PreviewScreen)
        assert "Number 1, at about 11:33 pm" in opened.drawn()
        await opened.press("escape", "enter")
        assert "Nothing has changed for the" in opened.said
        await opened.press("f9")
        assert opened.said == "The papers for 7 families are in the outbox. They wait there for you to copy."
        assert opened.drawn().count("in the outbox") >= 7
        assert set(sent(opened).values()) == {1}
        await opened.press("f9")
        assert opened.said == "Everybody has these papers already."
        await opened.press("f4")
        assert sent(opened) == {}
        await opened.press("f9")
        recitals = desk.recitals()
        item = next(each for each in recitals.reading.items(recital_id) if each.costume == "miller's apron")
        recitals.lines.do(recitals.lines.propose_item_change(recital_id, item.id, "costume white apron"))
        opened.app.screen.show()
        await opened.done()
        assert "changed since for 1" in opened.drawn()
        listing = opened.app.screen.query_one("#papers")
        family = desk.finding.student("Ilse").family.id
        listing.highlighted = [option.id for option in listing.options].index(str(family))
        await opened.press("f9")
        assert "They have changed since for Ilse" in opened.said
        await opened.press("enter", "f9")
        assert sent(opened)["Ilse"] == 2
        await opened.press("escape")
        assert not isinstance(opened.app.screen, PapersScreen)

    on_screen(tmp_path, steps)


def test_the_papers_are_readable_on_a_narrow_terminal(tmp_path):
    async def steps(opened):
        planned_recital(opened.studio.desk)
        await opened.press("escape", "tab", "tab", "g", "w")
        drawn = opened.drawn()
        assert "Perreault" in drawn
        assert drawn.count("to copy") == 7
        assert all(len(line) <= 44 for line in drawn.splitlines())
        print(drawn)

    on_screen(tmp_path, steps, size=(44, 24))
