"""The call drops: noted with F12 and enter while she types, shown in the band, settled at the end; no key is lost."""

from support.screens import on_screen
from support.studio import home

from cockpit.studio.changes.records import Change, Edit, added
from cockpit.studio.people.people import Guardian, GuardianId
from cockpit.studio.values import replace

PHONE = "+1 602 555 0100"
ASKED = "Call lost? Press enter to note it, F12 to open it again."


def losses(opened):
    return opened.studio.store.reading.call_losses(opened.id_of("Ilse"))


def has_phone(opened):
    family = opened.studio.desk.day.running.family
    liv = Guardian(id=GuardianId(9_999), family_id=family.id, name="Liv", phone=PHONE)
    opened.studio.store.writing.apply(Change(said="", edits=added(liv)))


def rows_without_band(opened):
    return opened.drawn().split("\n")[8:-2]


def test_the_call_is_lost_and_back_while_she_types_and_no_key_is_lost(tmp_path):
    async def steps(opened):
        has_phone(opened)
        opened.day.show()
        before = opened.body("Ilse")
        await opened.press("f12")
        assert opened.said == ASKED
        assert losses(opened) == ()
        await opened.type("x")
        await opened.press("enter")  # she types on: that was no answer
        await opened.type("y")
        assert opened.body("Ilse") == f"{before}\nx\ny"
        assert losses(opened) == ()
        below = rows_without_band(opened)
        assert PHONE not in opened.drawn()
        await opened.press("f12", "enter")
        assert opened.said == "Call lost at 4:12 pm. Press F12 or enter when it is back."
        assert [each.lost_at for each in losses(opened)] == [home("2026-12-01 16:12")]
        opened.clock.wind(minutes=7)
        opened.day.tick()
        await opened.done()
        assert "! lost 4:12, 7 min" in opened.drawn()
        assert "4:45  Mireille" in opened.drawn().split("TODAY")[0], "who is next stays"
        assert PHONE in opened.drawn()
        await opened.type("z")
        await opened.press("enter")  # it answers only what was asked since she typed last
        assert opened.body("Ilse") == f"{before}\nx\nyz\n"
        assert losses(opened)[0].back_at is None
        await opened.press("backspace", "backspace", "f12")
        assert opened.said == "Back at 4:19 pm: 7 minutes lost."
        assert PHONE not in opened.drawn()
        assert [row[:38] for row in rows_without_band(opened)] == [row[:38] for row in below], "nothing moved"
        for back_at, count in ((None, 1), (None, 0)):
            await opened.press("f4")
            assert [each.back_at for each in losses(opened)] == [back_at] * count
        # Enter says it too, at once after it was noted; and F12 opens the call again where nothing was lost.
        await opened.press("f12", "enter")
        opened.clock.wind(minutes=2)
        await opened.press("enter")
        assert opened.said == "Back at 4:21 pm: 2 minutes lost."
        await opened.press("f12", "f12")
        assert opened.said.endswith("https://call.example.org/ilse")
        assert len(losses(opened)) == 1
        await opened.press("f5", "f12")
        assert opened.said.endswith("https://call.example.org/mireille"), "a lesson that does not run is only opened"

    on_screen(tmp_path, steps)


def test_what_was_lost_is_asked_about_at_the_end_and_each_answer_is_one_step(tmp_path):
    async def steps(opened):
        await opened.press("f12", "enter")
        opened.clock.wind(minutes=7)
        await opened.press("f12", "f9")
        assert "Ilse lost 7 minutes of the call." in opened.drawn()
        for word in ("Give 7 more", "Owe 7", "Let be", "The lesson ends at 4:52 pm."):
            assert word in opened.drawn()
        await opened.press("escape")
        assert opened.lesson("Ilse").is_live
        for key in ("g", "f3"):
            await opened.press("f9", key)
            assert opened.said == "Ilse gets 7 minutes more: the lesson ends at 4:52 pm.", key
            assert opened.lesson("Ilse").ends_at == home("2026-12-01 16:52"), key
            await opened.press("f4")
            assert opened.lesson("Ilse").ends_at == home("2026-12-01 16:45"), key
        for key, owed in (("o", 1), ("f9", 1), ("l", 0)):
            await opened.press("f9", key)
            assert opened.lesson("Ilse").finished_at == opened.clock.at, key
            assert len(opened.studio.store.reading.unsettled_losses()) == owed, key
            await opened.press("f4")
            assert opened.lesson("Ilse").is_live, key
        await opened.press("f9", "o", "ctrl+b")
        assert "Ilse  7 min lost on Tue, December 1" in opened.drawn()
        await opened.choose("minutes:0")
        assert "You owe Ilse 7 minutes of lost calls." in opened.drawn()
        await opened.press("l")
        assert "7 min lost on" not in opened.drawn()
        await opened.press("f4")
        assert "7 min lost on" in opened.drawn()
        await opened.press("escape", "f10")
        assert "7 minutes of lost calls" in opened.drawn()
        row = next(o.id for o in opened.app.screen.query_one("#review").options if "of lost calls" in str(o.prompt))
        await opened.choose(row)
        await opened.press("d")
        assert opened.studio.store.reading.unsettled_losses() == ()
        await opened.press("f4", "escape")
        # She takes the lesson up again: it can be given after all.
        opened.studio.desk.day.go_to(opened.id_of("Ilse"))
        await opened.press("f2", "f3")
        assert opened.lesson("Ilse").ends_at == home("2026-12-01 16:52")

    on_screen(tmp_path, steps)


def test_a_call_without_a_link_can_be_lost_and_the_phone_fits_beside_a_narrow_call(tmp_path):
    async def steps(opened):
        has_phone(opened)
        standing = next(
            s for s in opened.studio.store.reading.standing_times() if s.call_link and "ilse" in s.call_link
        )
        bare = Edit(before=standing, after=replace(standing, call_link=None))
        opened.studio.store.writing.apply(Change(said="", edits=(bare,)))
        opened.day.read_again()
        await opened.press("f12")
        assert opened.said == "Call lost? Press enter to note it."
        await opened.press("f12")
        assert opened.said == "This lesson has no call link. Add one in the roster column call_link."
        await opened.press("f12", "enter")
        band = "\n".join(opened.drawn().split("\n")[:4])
        assert "! lost 4:12" in band
        assert PHONE in band
        await opened.press("f10")
        assert "! call lost 4:12" in opened.drawn().split("\n")[0]
        assert PHONE not in opened.drawn()

    on_screen(tmp_path, steps, size=(44, 20))
