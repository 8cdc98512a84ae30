"""The recital on the screen: a key for each step, against what the store holds, and how it looks at four sizes."""

from datetime import timedelta

import pytest
from support.recitals import planned_recital
from support.screens import on_screen
from textual.widgets import Input

from cockpit.sample import history
from cockpit.screens.recital.live import LiveScreen
from cockpit.screens.recital.ready import ReadyScreen
from cockpit.screens.recital.recital import RecitalScreen
from cockpit.screens.recital.recitals import RecitalsScreen
from cockpit.screens.recital.times import TimesScreen
from cockpit.studio.changes.recital import NotedThing

ORDER = ["Ishaan", "Teodor", "Wren", "Tobin", "Ilse", "Eilidh", "Nalani", "Mireille"]
THE_DAY = history.MOMENT + timedelta(days=18, hours=-4, minutes=-12)  # Saturday, December 19, at noon


def names(opened, recital_id):
    program = opened.studio.desk.recitals().reading.program(recital_id)
    return [" and ".join(each.called for each in row.performers) for row in program.rows]


def item_of(opened, recital_id, name):
    program = opened.studio.desk.recitals().reading.program(recital_id)
    return next(each.item for row in program.rows for each in row.performers if each.called == name)


def noted(opened, recital_id):
    return {(each.what, each.is_yes) for each in opened.studio.store.reading.recital_noted(recital_id)}


async def shown(opened):
    await opened.press("escape", "tab", "tab", "g")


def chosen(opened, row):
    listing = opened.app.screen.query_one("#program")
    listing.highlighted = [option.id for option in listing.options].index(row)


def test_a_recital_is_made_by_a_line_and_its_items_by_others_and_each_is_taken_back(tmp_path):
    async def steps(opened):
        recitals = opened.studio.desk.recitals()
        await shown(opened)
        assert isinstance(opened.app.screen, RecitalsScreen)
        assert 'such as "winter tales, sat dec 19 12pm"' in " ".join(opened.drawn().split())
        await opened.press("n")
        await opened.paste("winter tales")
        assert "The line has no day and time" in opened.drawn()
        await opened.paste(", sat dec 19 12pm, online, 60m")
        assert "Saturday, December 19, 2026, 12:00 pm" in " ".join(opened.drawn().split())
        await opened.press("enter")
        assert isinstance(opened.app.screen, RecitalScreen)
        (listed,) = recitals.reading.view().coming
        assert "Press a, then type a student and a piece" in opened.drawn()
        await opened.press("t")
        assert opened.said == "Nobody plays yet. Press a to add an item."
        await opened.press("a")
        await opened.paste("nobody the old mill")
        assert "Type a student of yours first" in opened.drawn()
        opened.app.screen.query_one(Input).value = "ilse the old mill 3:00, costume miller's apron"
        await opened.done()
        await opened.press("enter", "a")
        await opened.paste("teodor lantern song 2:00")
        await opened.press("enter")
        assert names(opened, listed.recital.id) == ["Ilse", "Teodor"]
        await opened.press("c")
        line = opened.app.screen.query_one(Input)
        assert line.value == "piece The Old Mill, 3:00, on cello, costume miller's apron"
        assert "What you take out of the line is taken away" in " ".join(opened.drawn().split())
        line.value = "piece The Old Mill, 3:00, on cello, story the mill"
        await opened.done()
        await opened.press("enter")
        item = item_of(opened, listed.recital.id, "Ilse")
        assert (item.costume, item.story) == (None, "the mill")
        await opened.press("d")
        assert opened.app.screen.query_one(Input).value == "3:00"
        opened.app.screen.query_one(Input).value = "2:30"
        await opened.done()
        await opened.press("enter")
        assert item_of(opened, listed.recital.id, "Ilse").seconds == 150
        await opened.press("e")
        assert opened.app.screen.query_one(Input).value.startswith("name winter tales, sat december 19 2026 12:00 pm")
        await opened.paste(", theme snow")
        await opened.press("enter")
        assert recitals.reading.recital(listed.recital.id).theme == "snow"
        assert "winter tales  snow" in opened.drawn()
        await opened.press("x")
        assert names(opened, listed.recital.id) == ["Teodor"]
        await opened.press(*["f4"] * 6)
        assert names(opened, listed.recital.id) == []
        await opened.press("f4")
        assert isinstance(opened.app.screen, RecitalsScreen)
        assert recitals.reading.view().coming == ()

    on_screen(tmp_path, steps)


def test_the_one_to_come_is_opened_at_once_and_its_items_are_moved_and_ordered(tmp_path):
    async def steps(opened):
        recital_id = planned_recital(opened.studio.desk)
        await shown(opened)
        assert isinstance(opened.app.screen, RecitalScreen)
        for down, up in (("shift+down", "shift+up"), ("plus", "minus")):
            await opened.press(down)
            assert names(opened, recital_id) == ["Teodor", "Ishaan", *ORDER[2:]], down
            await opened.press(up)
            assert names(opened, recital_id) == ORDER, up
        await opened.press("shift+up")
        assert opened.said == "It is the first item already."
        await opened.press("shift+down", "o")
        assert names(opened, recital_id)[-1] == "Mireille"
        assert "The items are in a drafted order." in opened.said
        await opened.press("f4", "f4")
        assert names(opened, recital_id) == ORDER
        await opened.press("h")
        await opened.paste("fri dec 18 5pm")
        await opened.press("enter", "s")
        await opened.paste("sat dec 19 7:30pm")
        await opened.press("enter")
        program = opened.studio.desk.recitals().reading.program(recital_id)
        assert (len(program.rehearsals), len(program.sittings)) == (2, 1)
        assert "rehearsal  Fri, December 18, 5:00 pm" in opened.drawn()
        await opened.press("m", "1")
        assert names(opened, program.sittings[0].id) == ["Ishaan"]
        assert "The Banerjee family" not in opened.drawn()
        chosen(opened, f"recital:{program.sittings[0].id}")
        await opened.press("enter")
        assert "sitting  Winter tales" in opened.drawn()
        await opened.press("escape")
        chosen(opened, f"recital:{program.sittings[0].id}")
        await opened.press("delete")
        assert opened.studio.desk.recitals().reading.program(recital_id).sittings == ()
        await opened.press("v")
        assert "1 recital to come" in opened.drawn()
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, size=(80, 40))


def test_find_opens_the_recital_by_any_of_its_words(tmp_path):
    async def steps(opened):
        planned_recital(opened.studio.desk)
        for words in ("recital", "concert", "program"):
            await opened.press("ctrl+p")
            await opened.type(words)
            await opened.press("enter")
            assert isinstance(opened.app.screen, RecitalScreen), words
            await opened.press("escape")

    on_screen(tmp_path, steps)


def test_what_is_ready_is_said_by_space_and_by_letters_and_taken_back(tmp_path):
    async def steps(opened):
        recital_id = planned_recital(opened.studio.desk, noted=False)
        before = noted(opened, recital_id)
        await shown(opened)
        await opened.press("r")
        assert isinstance(opened.app.screen, ReadyScreen)
        assert "● yes       by heart" in opened.drawn()
        await opened.press("space")
        assert (NotedThing.BY_HEART, False) in noted(opened, recital_id)
        await opened.press("space")
        await opened.press("down", "y")
        assert "● yes       costume                               Tue, December 1" in opened.drawn()
        await opened.press("n")
        assert "× no        costume" in opened.drawn()
        await opened.press("x")
        assert "○ not said  costume" in opened.drawn()
        await opened.press("end", "y")
        assert (NotedThing.REHEARSED, True) in noted(opened, recital_id)
        await opened.press("up", "y")
        assert opened.said == "A permission is said in the roster: press d on the student."
        await opened.press(*["f4"] * 6)
        assert noted(opened, recital_id) == before

    on_screen(tmp_path, steps)


def test_the_times_that_suit_are_shown_and_one_is_taken_or_becomes_a_sitting(tmp_path):
    async def steps(opened):
        recital_id = planned_recital(opened.studio.desk)
        await shown(opened)
        await opened.press("t")
        assert isinstance(opened.app.screen, TimesScreen)
        drawn = opened.drawn()
        assert "SUITS ALL BUT 1 FAMILY" in drawn
        assert "○ 11:00 am to 2:15 pm   as it is now, night for Banerjee (10:30 pm in Kolkata)" in drawn
        assert "Brandvold   Phoenix         8:00 am to 8:15 pm" in drawn
        await opened.press("enter")
        assert opened.app.screen.query_one(Input).value == "sat december 19 2026 8:00 am"
        await opened.press("enter", "enter")  # for one family it is night, which is asked about
        assert f"{opened.studio.desk.recitals().reading.recital(recital_id).at:%H:%M}" == "08:00"
        assert "8:00 am to 8:45 am    as it is now" in opened.drawn()
        await opened.press("down", "s")
        assert opened.app.screen.query_one(Input).value == "sat december 19 2026 11:00 am"
        await opened.press("enter")
        (sitting,) = opened.studio.desk.recitals().reading.program(recital_id).sittings
        assert f"{sitting.at:%H:%M}" == "11:00"

    on_screen(tmp_path, steps)


def test_a_recital_is_run_by_its_keys_and_another_day_is_asked_about(tmp_path):
    async def steps(opened):
        recital_id = planned_recital(opened.studio.desk)
        await shown(opened)
        for answer in ("n", "escape", "enter"):  # enter alone runs nothing on another day
            await opened.press("l", answer)
            assert isinstance(opened.app.screen, RecitalScreen), answer
        opened.clock.at = THE_DAY
        await opened.press("l")
        assert isinstance(opened.app.screen, LiveScreen)
        await opened.press("enter")
        opened.clock.wind(minutes=3)
        await opened.press("enter")
        assert "NOW      1 Ishaan  Paper Boats" in opened.drawn()
        assert "on time" in opened.drawn()
        opened.clock.wind(minutes=5, seconds=30)
        opened.app.screen.tell_time()
        await opened.done()
        assert "4:00 over" in opened.drawn()
        assert "8:30 of 35:15  4 minutes behind" in opened.drawn()
        await opened.press("enter", "s")
        assert "×  2  Teodor" in opened.drawn()
        assert "NEXT     3 Wren" in opened.drawn()
        await opened.press("m")
        assert names(opened, recital_id)[-1] == "Wren"
        await opened.press("f4", "f4", "backspace")
        assert item_of(opened, recital_id, "Ishaan").ended_at is None
        await opened.press("backspace")
        assert item_of(opened, recital_id, "Ishaan").began_at is None
        await opened.press("enter")
        assert item_of(opened, recital_id, "Ishaan").began_at == opened.clock.at
        await opened.press("escape")
        assert "▶  1" in opened.drawn()

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("size", [(44, 20), (150, 45)])
def test_sixty_items_titles_of_any_length_and_of_any_direction_are_shown_at_every_size(tmp_path, size):
    async def steps(opened):
        desk = opened.studio.desk
        recitals = desk.recitals()
        recitals.lines.do(recitals.lines.propose_new("winter tales, sat dec 19 12pm"))
        (listed,) = recitals.reading.view().coming
        titles = ["x" * 300, "שיר ערש לחורף", "a long name " * 20]
        for number in range(60):
            student = desk.finding.student(ORDER[number % 8]).student
            piece = titles[number] if number < len(titles) else f"Piece {number}"
            recitals.lines.do(recitals.lines.propose_item(listed.recital.id, student.id, f'"{piece}", 1:00'))
        await shown(opened)
        for key in ("", "end", "home"):
            await opened.press(*filter(None, [key]))
            rows = opened.drawn().splitlines()
            assert max(map(len, rows)) <= size[0]
            assert ("Piece 59" in opened.drawn()) == (key == "end")
        await opened.press("r", "escape", "l", "y")
        assert max(map(len, opened.drawn().splitlines())) <= size[0]

    on_screen(tmp_path, steps, size=size)


def test_while_it_goes_on_the_curtain_shows_the_program_alone_by_the_names_of_papers(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        recital_id = planned_recital(desk)
        desk.recitals().lines.do(
            desk.recitals().lines.propose_item_change(
                recital_id, item_of(opened, recital_id, "Teodor").id, "shown as T. the Bard"
            )
        )
        opened.clock.wind(hours=1)  # after Ilse's lesson began, which still runs
        await shown(opened)
        await opened.press("l", "y", "enter", "f6")

        def words():
            return [part for row in opened.drawn().splitlines() if (part := row.strip(" ─┐┤┘│╻┃╹"))]

        for size in ((80, 24), (44, 20), (80, 40)):
            await opened.pilot.resize_terminal(*size)
            await opened.pilot.pause()
            assert words() == ["W i n t e r   t a l e s", "next  a student  Paper Boats", "F6 lifts"], size
        await opened.press("f6", "enter", "f6")
        assert words() == [
            "Winter tales", "a   s t u d e n t     P a p e r   B o a t s", "next  T. the Bard  Lantern Song", "F6 lifts",
        ]  # fmt: skip
        await opened.type("private words")
        await opened.press("f6", "backspace", "backspace", "escape", "f6")
        assert "I l s e" in opened.drawn()

    on_screen(tmp_path, steps)


def test_the_page_of_a_student_says_what_is_played_and_adds_a_piece_to_it(tmp_path):
    async def steps(opened):
        await opened.press("f7", "a")
        assert opened.said == "No recital is to come. Press g in the queue to make one."
        recital_id = planned_recital(opened.studio.desk)
        await opened.press("escape", "f7")
        assert "Winter tales in 3 weeks, Sat, December 19: The Old Mill" in opened.drawn()
        await opened.press("a")
        typed = opened.app.screen.query_one(Input)
        assert typed.value.startswith("Ilse ")
        typed.value = "Ilse Two Sparrows"
        await opened.done()
        await opened.paste(" 2:00")
        await opened.press("enter")
        assert names(opened, recital_id)[-1] == "Ilse"
        assert "Winter tales in 3 weeks, Sat, December 19: Two Sparrows" in opened.drawn()
        await opened.press("f4")
        assert names(opened, recital_id) == ORDER

    on_screen(tmp_path, steps)
