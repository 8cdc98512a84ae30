"""The roster on the screen: columns that line up at every width, the chosen student told, and a key for each step."""

from datetime import date

from support.screens import on_screen
from textual.widgets import OptionList

from cockpit.desk.calendar.proposals import Purpose
from cockpit.sample import history
from cockpit.screens.post.letter import LetterScreen
from cockpit.screens.roster.roster import RosterScreen
from cockpit.screens.typed_times.line import LineScreen


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


def everything(opened):
    reading = opened.studio.store.reading
    people = reading.people()
    return people.students, people.families, reading.guardians(), reading.standing_times(), reading.breaks()


async def typed(opened, key, line, *understood):
    """A line about the chosen student: nothing is done before enter, and the sentence is there before."""
    before = everything(opened)
    await opened.press(key)
    await opened.paste(line)
    said = " ".join(opened.drawn().split())
    for words in understood:
        assert words in said, said
    assert everything(opened) == before
    await opened.press("enter")
    if isinstance(opened.app.screen, LineScreen):
        await opened.press("enter")  # what is to be known of it was told
    await opened.pilot.pause()
    assert isinstance(opened.app.screen, RosterScreen), opened.drawn()
    assert everything(opened) != before


def test_each_letter_takes_a_line_about_the_chosen_student_and_undo_takes_it_back(tmp_path):
    async def steps(opened):
        await shown(opened)
        first = everything(opened)
        await typed(opened, "n", "nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana.bell@example.org", "New: Nora")
        assert "NORA" in opened.drawn()  # the cursor is on who is new
        assert "begins December 11" in row(opened, "Nora")
        await typed(
            opened, "d", "call her Norah, language es, 25 a day", "Nora, Bell family: name: Norah; language: es"
        )
        assert "25 minutes a day" in opened.drawn()
        await typed(opened, "p", "dec 21 to jan 3 trip", "Nora", "2 lessons fall out")
        assert "from December 21 through January 3, 2027, time kept" in opened.drawn()
        await choose(opened, "Oskar")
        await typed(opened, "s", "tue 10am from jan 12", "New weekly time for Oskar, every week, Tue, January 12, 2027")
        assert "Tue 10:00 am, 45 min, cello, from January 12, 2027" in opened.drawn()
        await typed(
            opened, "g", "phone +1 602 555 0100, liv liv@example.org notes", "Lindqvast family:", "Liv (new) gets"
        )
        assert "▒ +1 602 555 0100" in opened.drawn()
        assert "Liv  liv@example.org  gets notes" in opened.drawn()
        await typed(
            opened, "e", "after dec 18, moved away", "Oskar ends. The last lesson is Thursday, December 17, 2026"
        )
        await opened.press("w")
        assert isinstance(opened.app.screen, LetterScreen)
        assert "Oskar" in opened.drawn()
        await opened.press("escape", *["f4"] * 6)
        assert everything(opened) == first
        assert "NORA" not in opened.drawn()

    on_screen(tmp_path, steps, size=(100, 40))


def test_find_puts_the_cursor_on_a_student_and_a_line_without_a_time_says_what_to_do(tmp_path):
    async def steps(opened):
        arranging = opened.studio.desk.arranging
        arranging.do(arranging.propose(Purpose.TRIAL, None, "nora bell thu 11am phoenix, cello"))
        opened.studio.desk.day.reload()
        await shown(opened)
        await opened.press("f8")
        await opened.type("nora")
        await opened.press("enter")
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, RosterScreen)
        assert "NORA BELL" in opened.drawn()
        assert "trial Thu, December 3, 12:00 pm" in row(opened, "Nora Bell")
        await opened.press("s")
        await opened.paste("tue 5pm")
        assert "Nora Bell has no weekly time yet. Press n to add one." in " ".join(opened.drawn().split())
        await opened.press("escape")
        # The one who had the trial becomes a student, with the trial's notes: the same person.
        view = opened.studio.desk.roster().view()
        (trial,) = [each for each in view.entries if each.called == "Nora Bell"]
        assert trial.trial is not None
        opened.studio.desk.day.open(date(2026, 12, 3))
        opened.studio.desk.notes.write(trial.trial.id, "Piece: first song")
        await typed(
            opened, "n", "fri 2pm 45m from 11 dec, family bell", "Nora becomes a student, with the trial's notes"
        )
        assert "begins December 11" in row(opened, "Nora")
        reading = opened.studio.store.reading
        assert reading.people().students[trial.student.id].name == "Nora"
        assert reading.notes([trial.trial.id])[trial.trial.id].body == "Piece: first song"
        assert len(reading.people().students) == 13
        await opened.press("f4")
        assert "trial Thu, December 3, 12:00 pm" in row(opened, "Nora Bell")

    on_screen(tmp_path, steps)
