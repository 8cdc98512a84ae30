"""The roster on the screen: columns that line up at every width, the chosen student told, and a key for each step."""

from support.screens import on_screen
from textual.widgets import OptionList

from cockpit.sample import history
from cockpit.screens.roster.roster import RosterScreen


async def shown(opened, *keys):
    await opened.press("escape", "tab", "tab", "r", *keys)
    assert isinstance(opened.app.screen, RosterScreen)


async def choose(opened, name):
    """Puts the cursor on a student."""
    listing = opened.app.screen.query_one(OptionList)
    view = opened.studio.desk.roster().view()
    number = next(each.student.id for each in view.entries if each.called == name)
    listing.highlighted = [option.id for option in listing.options].index(str(number))
    await opened.done()
    await opened.pilot.pause()


def row(opened, name):
    return next(line for line in opened.drawn().splitlines() if line.strip(" ›○!╱").startswith(f"{name} "))


def test_the_roster_opens_from_the_queue_and_from_find_and_enter_leads_to_the_lesson(tmp_path):
    async def steps(opened):
        await opened.press("escape", "f8")
        await opened.type("who pauses")
        await opened.press("enter")
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, RosterScreen)
        await opened.press("escape")
        await shown(opened)
        assert "12 students" in opened.drawn()
        await choose(opened, "Wren")
        assert "WREN ━" in opened.drawn() or "WREN ─" in opened.drawn()
        assert "with Tobin" in opened.drawn()
        assert "from August 2, 2027 through August 31, 2027, time kept" in opened.drawn()
        assert "▒ with grandma" in opened.drawn()
        await opened.press("enter")
        assert opened.app.screen is opened.day
        assert opened.shown == "Wren"
        assert str(opened.studio.desk.day.on) == "2026-12-02"

    on_screen(tmp_path, steps)


def test_the_columns_line_up_and_what_has_no_room_is_left_out(tmp_path):
    async def steps(opened):
        await shown(opened)
        for width, height in ((44, 20), (60, 24), (80, 40), (109, 30), (110, 30), (150, 45), (200, 50)):
            await opened.pilot.resize_terminal(width, height)
            await opened.pilot.pause()
            lines = [row(opened, name) for name in ("Beatriz", "Eilidh", "Ilse")]
            assert all("pm" in line for line in lines), width
            assert len({line.index(" pm") for line in lines}) == 1, width
            assert (
                len({line.index("5:00 pm") for line in lines[:1]} | {line.index("4:00 pm") for line in lines[2:]}) == 1
            )
            assert ("3:00 pm Phoenix" in lines[2]) is (width >= 80), width
            assert ("since September 2026" in lines[2]) is (width in {109, 150, 200}), width
            assert opened.drawn().startswith(" 33:00 left Ilse"), width
            assert max(map(len, opened.drawn().splitlines())) <= width

    on_screen(tmp_path, steps, size=(44, 20))


def test_those_who_ended_come_with_a_key_and_the_cursor_stays_on_its_student(tmp_path):
    async def steps(opened):
        arranging, day = opened.studio.desk.arranging, opened.studio.desk.day
        from cockpit.desk.calendar.proposals import Purpose

        ilse = day.booking(opened.id_of("Ilse"))
        arranging.do(arranging.propose(Purpose.CHANGE, ilse, "until dec 1"))
        opened.clock.at = history.MOMENT
        opened.clock.wind(days=1)
        await shown(opened)
        assert "1 ended this year" in opened.drawn()
        assert "ENDED" in opened.drawn()
        assert "1, v shows them" in opened.drawn()
        assert not any(line.strip().startswith("Ilse ") for line in opened.drawn().splitlines()[2:])
        await choose(opened, "Oskar")
        await opened.press("v")
        await opened.pilot.pause()
        assert "ended December 1" in row(opened, "Ilse")
        assert "OSKAR" in opened.drawn()
        await opened.press("v")
        await opened.pilot.pause()
        assert "v shows them" in opened.drawn()

    on_screen(tmp_path, steps)
