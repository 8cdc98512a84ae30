"""A lesson that runs while something else is looked at: its clock, its keys, the way back; and lessons at midnight."""

import re
from datetime import timedelta

import pytest
from support.screens import on_screen
from support.studio import utc

from cockpit.screens.textual_parts.key_strip import KeyStrip
from cockpit.studio.lessons.lesson import Outcome

MINUTE = timedelta(minutes=1)


async def look_at(opened, name: str) -> None:
    """Finds a student whose lesson is on another day."""
    await opened.press("f8")
    await opened.type(name)
    await opened.press("enter")


async def tick(opened, later: timedelta = MINUTE) -> None:
    opened.clock.at += later
    opened.app._tick()
    await opened.pilot.pause()


def test_the_running_lesson_stays_on_the_clock_and_under_its_keys_while_another_day_is_shown(tmp_path):
    async def steps(opened):
        await look_at(opened, "oskar")
        assert opened.shown == "Oskar"
        clock = opened.drawn().splitlines()[:6]
        assert clock[0].startswith(" Ilse")
        assert re.search(r"NOTES FOR OSKAR ━+ Ilse's lesson runs", opened.drawn())
        await opened.type("bring the green book")
        await opened.press("f2")
        assert opened.said == "Ilse's lesson is running. Finish it first."
        await opened.press("f3")
        assert opened.said == "This lesson began on time, so it already gets all its minutes."
        await opened.press("f9")
        assert opened.said.startswith("Ilse: copied to the clipboard")
        assert opened.shown == "Mireille"
        assert opened.lesson("Ilse").finished_at == opened.clock.at
        await look_at(opened, "oskar")
        assert opened.notes.text.text == "bring the green book\n"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_draft_of_the_running_lesson_is_kept_while_another_day_is_shown(tmp_path):
    async def steps(opened):
        ilse = opened.id_of("Ilse")
        await look_at(opened, "oskar")
        await tick(opened, timedelta(hours=1))
        assert not opened.studio.store.reading.exports([ilse])[ilse].is_final

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_way_back_to_today_is_in_sight_and_can_be_tapped(tmp_path):
    def offered(opened) -> list[str]:
        opened.drawn()
        return [item.command.id for item in opened.app.screen.query_one(KeyStrip)._items]

    async def steps(opened):
        assert "day.show_today" not in offered(opened)
        for go_back in (lambda: opened.tap("day.show_today"), lambda: opened.press("ctrl+n")):
            await look_at(opened, "oskar")
            assert offered(opened)[0] == "day.show_today"
            await go_back()
            assert opened.shown == "Ilse"
            assert "day.show_today" not in offered(opened)

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.long
def test_a_day_that_is_free_says_so_and_when_the_next_lesson_is(tmp_path):
    async def steps(opened):
        assert "No lessons today" in opened.drawn()
        assert "done" not in opened.drawn()
        assert opened.said == "Next lesson: Eilidh, Tue, December 8, 2:30 pm. Find (F8) takes you there."

    on_screen(tmp_path, steps, at=utc("2026-12-05 18:00"))


@pytest.mark.long
def test_a_long_wait_is_told_in_hours_and_fits(tmp_path):
    async def steps(opened):
        rows = opened.drawn().splitlines()[:5]
        assert "hours to go" in rows[1]
        assert not any("…" in row for row in rows)

    on_screen(tmp_path, steps, size=(44, 20), at=utc("2026-12-01 09:00"))


def test_a_long_overrun_says_what_to_do_also_on_a_narrow_screen(tmp_path):
    async def steps(opened):
        await tick(opened, 56 * MINUTE)
        assert "OVER TIME" in opened.drawn().splitlines()[1]
        assert "…" not in "".join(opened.drawn().splitlines()[1:4])

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.long
def test_a_lesson_across_midnight_is_taught_to_its_end_and_then_the_new_day_comes(tmp_path):
    async def steps(opened):
        await opened.press("f9", "f2", "f9", "f2", "f9")
        opened.clock.at = utc("2026-12-02 05:50")  # ten minutes before midnight in Chicago
        await opened.press("f2")
        assert opened.shown == "Ishaan"
        await tick(opened, 20 * MINUTE)
        assert opened.studio.desk.day.on.isoformat() == "2026-12-01"
        await opened.type("Scales: G major")
        assert opened.body("Ishaan") == "Scales: G major"
        await opened.press("f9")
        assert (tmp_path / "notes" / "Banerjee" / "2026-12-01 Ishaan.md").exists() or "2026-12-01 Ishaan" in opened.said
        await tick(opened)
        assert opened.studio.desk.day.on.isoformat() == "2026-12-02"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_lesson_of_yesterday_that_was_never_finished_is_told_of_and_finished_from_its_day(tmp_path):
    async def steps(opened):
        ilse = opened.id_of("Ilse")
        await tick(opened, timedelta(hours=18))
        assert opened.studio.desk.day.on.isoformat() == "2026-12-02"
        assert "Ilse's lesson on Tue, December 1 was never finished" in opened.studio.desk.day.left_running()
        await opened.press("f10", "left")
        await opened.choose(f"lesson:l@2026-12-01:{ilse}")
        await opened.pilot.pause()
        assert opened.shown == "Ilse"
        await opened.press("f9")
        assert opened.studio.store.reading.live_lesson() is None
        assert opened.studio.desk.day.left_running() is None

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_reopened_lesson_goes_out_again_with_what_was_changed(tmp_path):
    async def steps(opened):
        await opened.type("Theory: circle of fifths")
        await opened.press("f9")
        ilse = opened.id_of("Ilse")
        first = opened.studio.store.reading.exports([ilse])[ilse]
        paper = tmp_path / first.path
        assert "circle of fifths" in paper.read_text(encoding="utf-8")
        finished_at = opened.lesson("Ilse").finished_at
        opened.clock.at += timedelta(hours=3)
        await opened.press("tab", "tab")
        await opened.choose(ilse)
        await opened.press("f2")
        await opened.type(", up to E major")
        assert "circle of fifths\n, up to E major" in opened.body("Ilse")
        await opened.press("f9")
        second = opened.studio.store.reading.exports([ilse])[ilse]
        assert (second.path, second.is_final) == (first.path, True)
        assert second.exported_at > first.exported_at
        assert "up to E major" in paper.read_text(encoding="utf-8")
        assert "up to E major" in paper.with_suffix(".html").read_text(encoding="utf-8")
        assert opened.lesson("Ilse").finished_at == finished_at

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_review_takes_the_last_step_back_as_the_lesson_day_does(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab", "tab", "a")
        assert opened.lesson("Mireille").outcome is Outcome.ABSENT
        await opened.press("f10", "f4")
        assert opened.said == "Undone: Mireille marked absent."
        assert opened.lesson("Mireille").outcome is None

    on_screen(tmp_path, steps)


def test_the_day_is_not_done_while_lessons_are_not_marked(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        await tick(opened, timedelta(hours=6))
        heading = opened.drawn().splitlines()[0]
        not_marked = sum(each.lesson.is_open for each in opened.studio.desk.day.bookings)
        assert heading.startswith(f" {not_marked} lessons not marked")
        assert opened.drawn().count("not marked") - 1 == not_marked
        await opened.press("escape", "f10")
        await opened.pilot.pause()
        assert f"{not_marked} not marked" in opened.drawn()

    on_screen(tmp_path, steps)


def test_a_wide_screen_has_the_day_after_below_the_queue_and_what_waits_which_a_tap_opens(tmp_path):
    async def steps(opened):
        await look_at(opened, "oskar")
        await opened.press("escape")
        rows = left(opened)
        assert " FRI, DECEMBER 4 ─────────── 1 lesson" in rows  # Oskar's lesson is on a Thursday
        assert "          ! coming up: 3  ctrl+b" in rows
        assert "coming up: 3" not in opened.drawn().splitlines()[-1]
        await opened.pilot.click("#waiting", offset=(12, 0))
        assert opened.app.screen.PLACE == "coming up"
        await opened.press("escape", "f8")
        await opened.type("ilse")
        await opened.press("enter")
        assert " TOMORROW ───────────────── 3 lessons" in left(opened)
        await opened.pilot.resize_terminal(80, 40)
        await tick(opened)
        strip = opened.drawn().splitlines()[-1]
        assert strip.index("F9 finish") < strip.index("tab ") < strip.index("coming up: 3")
        assert "TOMORROW" not in opened.drawn()

    on_screen(tmp_path, steps, size=(150, 45))


def left(opened) -> list[str]:
    """What is drawn in the queue."""
    return [row[:38].rstrip() for row in opened.drawn().splitlines()]
