"""Words that are not saved: every way to leave them asks, closing is held back once, and the screen says so."""

import re
import resource
import signal

import pytest
from support.screens import on_screen

from cockpit.running.last_words import LastWords
from cockpit.sample import history
from cockpit.studio.values import replace

TYPED = "Scales: D major 2 oct, q=76 to 92, 5 min\nPiece: The Old Mill mm. 17-40\n"
LONG = "more " * 4000


def fill_the_disk(opened):
    """Leaves the database no page to grow by; as SQLite sees it, a full disk."""
    connection = opened.studio.store.connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages}")


def free_the_disk(opened):
    opened.studio.store.connection.execute("PRAGMA max_page_count = 100000")


async def type_in_vain(opened):
    fill_the_disk(opened)
    opened.notes.text._replace_via_keyboard(LONG, *opened.notes.text.selection)
    await opened.pilot.pause()
    assert "full" in opened.said


def files(opened):
    return list(opened.folder.glob("unsaved-notes-*"))


def with_rescue(opened):
    opened.app._opening = replace(opened.app._opening, rescue=LastWords(opened.studio).rescue)


def test_closing_is_held_back_once_by_words_that_are_not_saved_and_says_where_they_will_be(tmp_path):
    async def steps(opened):
        with_rescue(opened)
        await type_in_vain(opened)
        await opened.press("ctrl+q")
        assert opened.app.return_code is None
        assert "Press Ctrl+q again to close" in opened.said
        assert "in the studio folder" in opened.said
        assert "disk is full" in opened.said
        opened.day.tick()
        assert "Press Ctrl+q again to close" in opened.said
        assert files(opened) == []
        await opened.press("ctrl+q")
        assert opened.app.return_code == 0
        (kept,) = files(opened)
        assert kept.read_text(encoding="utf-8").endswith(TYPED + LONG)

    on_screen(tmp_path, steps)


def test_where_no_place_takes_the_words_closing_says_that_they_would_be_lost_and_then_closes(tmp_path):
    async def steps(opened):
        with_rescue(opened)
        await type_in_vain(opened)
        limits = resource.getrlimit(resource.RLIMIT_FSIZE)
        was = signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, limits[1]))
        try:
            await opened.press("ctrl+q")
            await opened.press("ctrl+q")
            assert opened.app.return_code is None
            assert "could not be written to" in opened.said
            assert "Press Ctrl+q again to close without saving these notes." in opened.said
            await opened.press("ctrl+q")
            assert opened.app.return_code == 0
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, limits)
            signal.signal(signal.SIGXFSZ, was)
        assert files(opened) == []

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_what_was_saved_meanwhile_holds_nothing_back_and_is_warned_of_again_the_next_time(tmp_path):
    async def steps(opened):
        with_rescue(opened)
        await type_in_vain(opened)
        await opened.press("ctrl+q")
        free_the_disk(opened)
        opened.day.tick()
        assert opened.said == "Saving works again. Your notes are saved."
        await type_in_vain(opened)
        await opened.press("ctrl+q")
        assert opened.app.return_code is None
        free_the_disk(opened)
        await opened.press("ctrl+q")
        assert opened.app.return_code == 0
        assert files(opened) == []
        assert opened.body("Ilse") == TYPED + LONG + LONG

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_screen_over_the_day_says_it_too_and_the_notes_say_it_all_the_time(tmp_path):
    async def steps(opened):
        with_rescue(opened)
        await type_in_vain(opened)
        assert re.search("NOTES FOR ILSE ━+ not saved", opened.drawn())
        await opened.press("f10")
        await opened.press("ctrl+q")
        assert "Press Ctrl+q again to close" in opened.said
        await opened.press("escape")
        free_the_disk(opened)
        opened.day.tick()
        await opened.pilot.pause()
        assert "not saved" not in opened.drawn()

    on_screen(tmp_path, steps, size=(100, 40))


@pytest.mark.long
def test_the_key_that_closes_is_named_as_the_teacher_has_it(tmp_path):
    async def steps(opened):
        with_rescue(opened)
        await type_in_vain(opened)
        await opened.press("ctrl+w")
        assert "Press Ctrl+w again to close" in opened.said

    on_screen(tmp_path, steps, keys={"app.quit": "ctrl+w"})


@pytest.mark.long
def test_midnight_leaves_words_where_they_are_until_they_are_saved(tmp_path):
    async def steps(opened):
        await opened.press("f9", "f5", "f5")
        assert opened.shown == "Ishaan"
        lesson_id = opened.id_of("Ishaan")
        await type_in_vain(opened)
        opened.clock.at = history.MOMENT
        opened.clock.wind(days=1)
        opened.day.tick()
        assert opened.shown == "Ishaan"
        assert opened.notes.text.text == LONG
        free_the_disk(opened)
        opened.day.tick()
        opened.day.tick()
        assert opened.studio.desk.day.on.isoformat() == "2026-12-02"
        assert opened.studio.store.reading.notes([lesson_id])[lesson_id].body == LONG

    on_screen(tmp_path, steps)


def test_a_studio_that_is_moved_is_told_once_and_no_step_is_done_there(tmp_path):
    folder = tmp_path / "studio"

    async def steps(opened):
        with_rescue(opened)
        folder.rename(tmp_path / "elsewhere")
        opened.day.tick()
        assert "renamed, moved, or deleted" in opened.said
        opened.day.say("")
        opened.day.tick()
        assert opened.said == ""
        await opened.press("f9")
        assert "renamed, moved, or deleted" in opened.said
        assert opened.shown == "Ilse"
        assert not folder.exists()
        (tmp_path / "elsewhere").rename(folder)
        opened.day.tick()
        assert opened.said == "Saving works again. Your notes are saved."
        await opened.press("f9")
        assert opened.shown == "Mireille"

    on_screen(folder, steps)
