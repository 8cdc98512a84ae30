"""Two in one lesson on the screen: F2 begins both, F5 changes between their notes, F9 finishes one after the other."""

from datetime import date

from support.screens import on_screen
from support.studio import home

from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.lessons.lesson import State, state_of


def test_two_notes_and_one_clock_and_every_word_in_its_own_notes(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        await opened.press("f9")
        opened.clock.at = home("2026-12-02 15:30")
        opened.day.show_other_day(date(2026, 12, 2), "")
        wren = next(b for b in desk.day.bookings if b.student.name == "Wren")
        opened.day.arranged(desk.arranging.propose(Purpose.CHANGE, wren, "with tobin from dec 2"))
        opened.day.show_other_day(date(2026, 12, 2), wren.lesson.id)
        await opened.done()
        assert "└ ○ Wren" in opened.drawn() or "└ ○ Tobin" in opened.drawn()
        await opened.press("f2")
        first, second = (b.student.name for b in desk.day.all_running)
        assert {first, second} == {"Wren", "Tobin"}
        assert opened.said == f"{first} and {second}'s lesson has begun. F5 shows the notes of the other."
        await opened.type("one")
        await opened.press("f5")
        assert opened.shown == second
        await opened.type("two")
        await opened.press("f5", "f5")
        assert (opened.body(first), opened.body(second)) == ("one", "two")
        assert "lesson runs" not in opened.drawn(), "whichever is shown, it is the one that runs"
        await opened.press("f9")
        assert opened.shown == first
        now = opened.clock.at
        states = {b.student.name: state_of(b.lesson, now) for b in desk.day.bookings}
        assert (states[second], states[first]) == (State.FINISHED, State.RUNNING)
        await opened.press("f9")
        assert desk.day.running is None
        await opened.press("f4")
        assert opened.shown == first
        await opened.press("f4")
        assert {b.student.name for b in desk.day.all_running} == {"Wren", "Tobin"}
        await opened.press("f4")
        assert desk.day.running is None

    on_screen(tmp_path, steps)
