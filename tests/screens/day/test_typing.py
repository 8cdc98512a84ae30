"""What is typed is in the database when the key has been pressed, in the lesson that it was typed for."""

import contextlib
import sqlite3

import pytest
from support.screens import on_screen

from cockpit.sample import history

TYPED = "Scales: D major 2 oct, q=76 to 92, 5 min\nPiece: The Old Mill mm. 17-40"
FRESH = f"{TYPED}\n"


def kept(opened, student):
    """The notes as another program would read them from the file."""
    with contextlib.closing(sqlite3.connect(opened.folder / "studio.db")) as connection, connection:
        row = connection.execute("SELECT body FROM note WHERE lesson_id = ?", (opened.id_of(student),)).fetchone()
    return row[0] if row is not None else ""


def fill_the_disk(opened):
    """Leaves the database no page to grow by; as SQLite sees it, a full disk."""
    connection = opened.studio.store.connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages}")


def free_the_disk(opened):
    opened.studio.store.connection.execute("PRAGMA max_page_count = 100000")


async def paste(opened, text):
    """A paste, as the terminal brings one."""
    opened.notes.text._replace_via_keyboard(text, *opened.notes.text.selection)
    await opened.pilot.pause()


def test_each_letter_is_in_the_database_after_its_key(tmp_path):
    async def steps(opened):
        so_far = FRESH
        for key, letter in (("enter", "\n"), ("E", "E"), ("a", "a"), ("r", "r"), (":", ":"), (" ", " "), ("é", "é")):
            await opened.press(key)
            so_far += letter
            assert kept(opened, "Ilse") == so_far
        await opened.press("backspace")
        assert kept(opened, "Ilse") == so_far[:-1]

    on_screen(tmp_path, steps)


def test_typing_can_be_undone_and_redone_and_both_are_kept(tmp_path):
    async def steps(opened):
        await opened.type("hum")
        await opened.press("ctrl+z")
        undone = kept(opened, "Ilse")
        assert undone == opened.notes.text.text
        assert undone != f"{TYPED}\nhum"
        await opened.press("ctrl+y")
        assert kept(opened, "Ilse") == f"{TYPED}\nhum"

    on_screen(tmp_path, steps)


def test_a_paste_of_many_lines_is_kept_whole(tmp_path):
    async def steps(opened):
        await paste(opened, "Private:\nbe patient 日本\n")
        assert kept(opened, "Ilse") == f"{TYPED}\nPrivate:\nbe patient 日本\n"

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("leave", ["f5", "f9"])
def test_the_last_letter_before_leaving_stays_with_its_lesson(tmp_path, leave):
    async def steps(opened):
        text = opened.notes.text
        text.insert("!")  # no pause: its message is still under way when the lesson is left
        getattr(opened.day, {"f5": "action_go_next", "f9": "action_finish"}[leave])()
        await opened.pilot.pause()
        assert kept(opened, "Ilse") == f"{TYPED}\n!"
        assert kept(opened, "Mireille") == ""
        await opened.type("x")
        assert kept(opened, "Mireille") == "x"
        assert kept(opened, "Ilse") == f"{TYPED}\n!"

    on_screen(tmp_path, steps)


def test_keys_that_come_in_one_burst_with_a_change_of_lesson_land_where_they_belong(tmp_path):
    async def steps(opened):
        await opened.press("a", "b", "f5", "c", "d", "f5", "e")
        assert kept(opened, "Ilse") == f"{TYPED}\nab"
        assert kept(opened, "Mireille") == "cd"
        assert kept(opened, "Nalani") == "e"

    on_screen(tmp_path, steps)


def test_undo_of_typing_stops_at_the_lesson(tmp_path):
    async def steps(opened):
        await opened.press("x", "f5", "y", *["ctrl+z"] * 5)
        assert kept(opened, "Mireille") == ""
        assert kept(opened, "Ilse") == f"{TYPED}\nx"

    on_screen(tmp_path, steps)


def test_a_finished_lesson_takes_words_only_after_it_is_reopened(tmp_path):
    async def steps(opened):
        await opened.press("f5", "f5", "f5", "f5")
        assert opened.shown == "Eilidh"
        before = kept(opened, "Eilidh")
        await opened.press("x", "backspace", "enter", "ctrl+z")
        await opened.type("word")
        assert kept(opened, "Eilidh") == before
        await opened.press("f2", "x")
        assert kept(opened, "Eilidh") == f"{before}\nx"

    on_screen(tmp_path, steps)


def test_a_follow_up_is_owed_as_soon_as_it_is_typed(tmp_path):
    async def steps(opened):
        await opened.press("enter")
        await opened.type("Follow-up: ring")
        owed = [follow_up.body for follow_up in opened.studio.store.reading.follow_ups(opened.id_of("Ilse"))]
        assert owed == ["ring"]

    on_screen(tmp_path, steps)


def test_a_letter_with_alt_is_no_word(tmp_path):
    async def steps(opened):
        await opened.press("alt+x", "alt+f")
        assert kept(opened, "Ilse") == TYPED

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("leave", ["f5", "f9"])
def test_a_full_disk_is_told_keeps_the_words_and_saves_them_when_there_is_room(tmp_path, leave):
    async def steps(opened):
        fill_the_disk(opened)
        long = "more " * 4000
        await paste(opened, long)
        assert kept(opened, "Ilse") == TYPED
        assert "full" in opened.said
        assert opened.notes.text.text == FRESH + long
        await opened.press(leave)
        assert opened.shown == "Ilse"
        assert opened.lesson("Ilse").is_live
        assert opened.notes.text.text == FRESH + long
        opened.day.tick()
        assert kept(opened, "Ilse") == TYPED
        free_the_disk(opened)
        opened.day.tick()
        assert kept(opened, "Ilse") == FRESH + long
        assert opened.said == "Saving works again. Your notes are saved."
        await opened.press(leave)
        assert opened.shown == "Mireille"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_words_of_a_full_disk_survive_find_and_the_queue(tmp_path):
    async def steps(opened):
        fill_the_disk(opened)
        long = "more " * 4000
        await paste(opened, long)
        await opened.press("f8")
        await opened.type("oskar")
        await opened.press("enter")
        assert opened.shown == "Ilse"
        await opened.press("tab", "tab", "down", "enter")
        assert opened.shown == "Ilse"
        assert opened.notes.text.text == FRESH + long
        free_the_disk(opened)
        opened.day.tick()
        assert kept(opened, "Ilse") == FRESH + long

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_after_midnight_the_words_stay_with_the_evening_before(tmp_path):
    async def steps(opened):
        lesson_id = opened.id_of("Ishaan")
        await opened.press("f9", "f5", "f5")
        assert opened.shown == "Ishaan"
        await opened.type("late")
        opened.clock.at = history.MOMENT
        opened.clock.wind(days=1)
        opened.day.tick()
        assert opened.studio.store.reading.notes([lesson_id])[lesson_id].body == "late"
        assert opened.studio.desk.day.on.isoformat() == "2026-12-02"
        await opened.type("x")
        assert opened.studio.store.reading.notes([lesson_id])[lesson_id].body == "late"

    on_screen(tmp_path, steps)
