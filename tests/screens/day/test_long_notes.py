"""What is pasted into the notes: its commands are seen and not obeyed, and what is far too long stays out."""

import contextlib
import sqlite3

import pytest
from support.screens import on_screen
from textual.events import Paste

from cockpit.studio.errors import Refused
from cockpit.studio.notes.notes import MOST_SIGNS

FIVE_MEGABYTES = "Etude: slow, with the left hand alone\n" * 140_000


async def paste(opened, text):
    """A paste, as the terminal brings one."""
    opened.app.post_message(Paste(text))
    await opened.pilot.pause()
    await opened.pilot.pause()


PASTED = [
    ("a\x1b[31mred\x1b[0m b", "a\ufffd[31mred\ufffd[0m b"),
    ("\x1b]0;title\x07 c", "\ufffd]0;title\ufffd c"),
    ("C1: \x9b31m \x80 \x9f d", "C1: \ufffd31m \ufffd \ufffd d"),
    ("one\r\ntwo\rthree\x85four\tfive", "one\ntwo\nthree\nfour\tfive"),
    ("\x85", "\n"),
]


def test_a_paste_loses_nothing_and_its_controls_are_seen(tmp_path):
    async def steps(opened):
        so_far = f"{opened.body('Ilse')}\n"
        for pasted, kept in PASTED:
            await paste(opened, pasted)
            so_far += kept
            assert opened.notes.text.text == opened.body("Ilse") == so_far, pasted

    on_screen(tmp_path, steps)


def test_a_paste_of_megabytes_stays_out_with_a_sentence_and_the_notes_stay(tmp_path):
    async def steps(opened):
        before = opened.notes.text.text
        await paste(opened, FIVE_MEGABYTES)
        assert opened.notes.text.text == before
        assert opened.said == (
            f"Too long: {len(FIVE_MEGABYTES):,} characters, but there is room for only "
            f"{MOST_SIGNS - len(before):,} more. A lesson's notes can have 200,000. Nothing was changed."
        )
        await opened.type("Ear: hum")
        assert opened.body("Ilse").endswith("Ear: hum")
        assert opened.notes.text.text == opened.body("Ilse")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_notes_can_be_filled_to_the_last_character_and_no_further(tmp_path):
    async def steps(opened):
        text = opened.notes.text
        await paste(opened, ("Étude: slowly and with the left hand alone\n" * 5000)[: MOST_SIGNS - len(text.text)])
        assert len(opened.body("Ilse")) == MOST_SIGNS
        full = text.text
        await opened.press("x")
        assert "room for only 0 more" in opened.said
        text.action_paste()
        assert text.text == full == opened.body("Ilse")
        await opened.press("backspace", "x")
        assert opened.body("Ilse") == f"{full[:-1]}x"
        text.select_all()
        await paste(opened, "short")
        assert opened.body("Ilse") == "short"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_notes_that_are_longer_already_open_and_can_be_made_shorter_and_taken_back(tmp_path):
    async def steps(opened):
        body = "line of an earlier version\n" * 10_000
        lesson_id = opened.id_of("Mireille")
        opened.studio.desk.day.recorded(lesson_id)
        with contextlib.closing(sqlite3.connect(opened.folder / "studio.db")) as connection, connection:
            connection.execute("INSERT INTO note VALUES (?, ?, '2026-12-01T00:00:00.000000+00:00')", (lesson_id, body))
        await opened.press("f5")
        assert opened.shown == "Mireille"
        assert len(opened.notes.text.text) == len(body)
        await opened.press("x")
        assert opened.body("Mireille") == body
        await opened.press("backspace")
        assert opened.body("Mireille") == body[:-1]
        opened.notes.text.action_undo()
        assert opened.body("Mireille") == opened.notes.text.text == body

    on_screen(tmp_path, steps)


def test_the_desk_refuses_what_no_editor_checked(tmp_path):
    async def steps(opened):
        before = opened.body("Ilse")
        with pytest.raises(
            Refused, match=r"^Not saved\. These notes have 5,000,000 characters\. A lesson's notes can have 200,000\.$"
        ):
            opened.studio.desk.notes.write(opened.id_of("Ilse"), "x" * 5_000_000)
        assert opened.body("Ilse") == before

    on_screen(tmp_path, steps)
