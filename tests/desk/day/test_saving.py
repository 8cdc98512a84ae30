"""The text on the screen against the database: what is not saved is known, waits, and comes back at the next opening."""

import os
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from support.arranged_studio import arranged_studio
from support.real_terminal import without_the_powers_of_root
from support.sample import sample_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.running.last_words import LastWords
from cockpit.studio.errors import NotSaved, StudioBusy
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.unsaved import UnsavedNotes


def shown(studio):
    """Takes the sample's running lesson onto the screen, and returns what knows of its text."""
    booking = studio.desk.day.shown
    body = studio.desk.notes.sheet(booking).body
    studio.desk.saving.open(booking, studio.desk.day.on, body, body)
    return studio.desk.saving, booking.lesson.id


def kept(folder, lesson_id):
    with closing(sqlite3.connect(folder / "studio.db")) as connection:
        row = connection.execute("SELECT body FROM note WHERE lesson_id = ?", (lesson_id,)).fetchone()
    return row[0] if row is not None else ""


def refused(studio, text):
    """Types a text that the disk does not take."""
    connection = studio.store.connection
    pages = connection.execute("PRAGMA page_count").fetchone()[0]
    connection.execute(f"PRAGMA max_page_count = {pages}")
    with pytest.raises(NotSaved, match="full"):
        studio.desk.saving.type(text)


LONG = "Scales: D major\n" + "more " * 4000


def test_after_a_fault_no_key_tries_and_a_moment_later_it_is_tried_again(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        saving, lesson_id = shown(studio)
        before = kept(tmp_path, lesson_id)
        studio.store.wait_for_others(0)
        other = sqlite3.connect(tmp_path / "studio.db", isolation_level=None)
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(StudioBusy):
            saving.type("Ear: h")
        assert not saving.retry()  # told once
        other.close()
        saving.type("Ear: hum")
        assert kept(tmp_path, lesson_id) == before
        assert saving.unsaved.body == "Ear: hum"
        assert saving.retry()
        assert kept(tmp_path, lesson_id) == "Ear: hum"
        assert saving.unsaved is None
        saving.type("Ear: hum low")
        assert kept(tmp_path, lesson_id) == "Ear: hum low"


def test_words_that_a_fault_of_ours_kept_from_the_disk_are_tried_again_too(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        saving, lesson_id = shown(studio)
        saving.type("Ear: hum")
        studio.store.connection.execute(
            "CREATE TRIGGER no_more BEFORE UPDATE ON note BEGIN SELECT RAISE(ABORT, 'no more'); END"
        )
        with pytest.raises(sqlite3.IntegrityError):
            saving.type("Ear: hum low")
        assert saving.unsaved.body == "Ear: hum low"
        studio.store.connection.execute("DROP TRIGGER no_more")
        assert saving.retry()
        assert kept(tmp_path, lesson_id) == "Ear: hum low"
        assert not saving.retry()


def test_a_studio_that_is_gone_is_still_gone_when_a_lesson_is_shown_again(tmp_path):
    folder = tmp_path / "studio"
    folder.mkdir()
    with sample_studio(folder) as (studio, _clock):
        saving, _ = shown(studio)
        saving.type("Ear: hum")
        folder.rename(tmp_path / "elsewhere")
        with pytest.raises(NotSaved):
            saving.retry()
        fault = saving.fault
        shown(studio)
        assert saving.fault is fault
        assert saving.unsaved.body == "Ear: hum"
        assert not saving.retry()  # told once
        (tmp_path / "elsewhere").rename(folder)
        shown(studio)
        assert saving.fault is None
        assert saving.unsaved is None


def test_another_thread_that_looks_at_any_time_sees_the_words_of_a_lesson_with_that_lesson(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        saving, first_id = shown(studio)
        refused(studio, LONG)
        first = saving.unsaved
        studio.desk.day.go_next()
        booking = studio.desk.day.shown
        seen = []

        def look(frame, event, _):
            if event == "call" and "saving.py" not in frame.f_code.co_filename:
                return None
            sys.settrace(None)
            seen.append(saving.unsaved)
            sys.settrace(look)
            return look

        sys.settrace(look)
        try:
            saving.open(booking, studio.desk.day.on, "Ear: hum", "Ear: hum low")
        finally:
            sys.settrace(None)
        assert {(each.lesson_id, each.body) for each in seen if each is not None} <= {
            (first_id, LONG),
            (booking.lesson.id, "Ear: hum low"),
        }
        assert seen[0] == first
        assert seen[-1].lesson_id == booking.lesson.id


@pytest.mark.long
def test_a_file_that_cannot_be_deleted_is_not_taken_in_again(tmp_path):
    """In a process that root's power is taken from, since root deletes whatever it likes."""
    script = """
import sys
from pathlib import Path
from desk.day.test_saving import LONG, kept, refused, shown
from support.real_terminal import without_the_powers_of_root
from support.sample import sample_studio
from cockpit.running.last_words import LastWords

folder = Path(sys.argv[1])
with sample_studio(folder) as (studio, _clock):
    _, lesson_id = shown(studio)
    refused(studio, LONG)
    LastWords(studio).keep()
    studio.store.connection.execute("PRAGMA max_page_count = 100000")
    folder.chmod(0o500)
    (sentence,) = LastWords(studio).take_in()
    assert "are in the lesson now" in sentence, sentence
    studio.desk.notes.write(lesson_id, "Ear: hum")
    assert LastWords(studio).take_in() == (), LastWords(studio).take_in()
    assert kept(folder, lesson_id) == "Ear: hum"
    assert len(list(folder.glob("unsaved-notes-*"))) == 1
    folder.chmod(0o700)
    assert LastWords(studio).take_in() == ()
    assert list(folder.glob("unsaved-notes-*")) == []
"""
    tests = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", script, str(tmp_path)],
        preexec_fn=without_the_powers_of_root,
        env=os.environ | {"PYTHONPATH": f"{tests}{os.pathsep}{tests.parent}"},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr


def test_a_database_that_another_file_took_the_place_of_is_named_and_not_its_folder(tmp_path):
    folder = tmp_path / "studio"
    folder.mkdir()
    with sample_studio(folder) as (studio, _clock):
        saving, _ = shown(studio)
        shutil.copy(folder / "studio.db", folder / "synced.db")
        (folder / "synced.db").replace(folder / "studio.db")
        with pytest.raises(NotSaved, match=r"studio\.db was deleted, or another file took its place"):
            saving.retry()


def test_a_studio_that_is_gone_takes_nothing_and_has_nothing_until_it_is_back(tmp_path):
    folder = tmp_path / "studio"
    folder.mkdir()
    with sample_studio(folder) as (studio, _clock):
        saving, lesson_id = shown(studio)
        saving.type("Ear: hum")
        folder.rename(tmp_path / "elsewhere")
        with pytest.raises(NotSaved, match="renamed, moved, or deleted"):
            saving.retry()
        assert saving.unsaved.body == "Ear: hum"
        with pytest.raises(NotSaved, match="renamed, moved, or deleted"):
            studio.desk.teaching.finish()
        with pytest.raises(NotSaved):
            studio.desk.reviewing.write_out(studio.desk.day.on)
        assert not folder.exists()
        (tmp_path / "elsewhere").rename(folder)
        assert saving.retry()
        assert kept(folder, lesson_id) == "Ear: hum"
        assert studio.desk.teaching.finish().fault is None


def test_what_was_kept_at_the_end_is_in_its_lesson_after_the_next_opening(tmp_path):
    said = []
    with sample_studio(tmp_path) as (studio, _clock):
        _, lesson_id = shown(studio)
        refused(studio, LONG)
        words = LastWords(studio)
        assert words.settle(said.append)
        assert words.rescue.path.parent == tmp_path
        assert str(words.rescue.path) in said[0]
        studio.store.connection.execute("PRAGMA max_page_count = 100000")
        (sentence,) = LastWords(studio).take_in()
        assert "Ilse" in sentence
        assert kept(tmp_path, lesson_id) == LONG
        assert not words.rescue.path.exists()
        assert LastWords(studio).take_in() == ()


def test_words_that_the_disk_takes_at_the_very_end_leave_no_file(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        _, lesson_id = shown(studio)
        refused(studio, LONG)
        words = LastWords(studio)
        assert words.keep()
        studio.store.connection.execute("PRAGMA max_page_count = 100000")
        assert not words.settle(print)
        assert kept(tmp_path, lesson_id) == LONG
        assert list(tmp_path.glob("unsaved-notes-*")) == []


def test_a_studio_that_goes_right_before_the_end_is_noticed_and_its_words_are_kept(tmp_path):
    said = []
    folder = tmp_path / "studio"
    folder.mkdir()
    with sample_studio(folder) as (studio, _clock):
        saving, _ = shown(studio)
        saving.type(LONG)
        words = LastWords(studio)
        folder.rename(tmp_path / "elsewhere")
        assert words.settle(said.append)
        assert words.rescue.path.exists()
        assert str(words.rescue.path) in said[0]
        words.rescue.drop()


def test_a_file_stays_where_the_lesson_is_finished_by_now_or_the_disk_still_refuses(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        _, lesson_id = shown(studio)
        refused(studio, LONG)
        LastWords(studio).keep()
        (sentence,) = LastWords(studio).take_in()
        assert "disk is full" in sentence
        studio.store.connection.execute("PRAGMA max_page_count = 100000")
        studio.desk.teaching.finish()
        (sentence,) = LastWords(studio).take_in()
        assert "finished" in sentence
        (path,) = tmp_path.glob("unsaved-notes-*")
        assert str(path) in sentence
        studio.desk.teaching.undo()
        assert LastWords(studio).take_in() != ()
        assert kept(tmp_path, lesson_id) == LONG
        assert not path.exists()


def test_words_of_a_lesson_that_has_other_notes_since_go_below_them(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        desk = studio.desk
        desk.day.go_next()
        _, lesson_id = shown(studio)
        refused(studio, LONG)
        LastWords(studio).keep()
        studio.store.connection.execute("PRAGMA max_page_count = 100000")
        desk.notes.write(lesson_id, "Ear: hum")
        (sentence,) = LastWords(studio).take_in()
        assert "below" in sentence
        assert kept(tmp_path, lesson_id) == f"Ear: hum\n\n{LONG}"


def test_words_find_their_lesson_on_the_day_that_it_was_moved_to(tmp_path):
    with arranged_studio(tmp_path) as arranged:
        studio = arranged.studio
        studio.desk.day.open(date(2026, 12, 8))
        studio.desk.day.recorded(studio.desk.day.shown_id)
        studio.desk.day.reload()
        _, lesson_id = shown(studio)
        refused(studio, LONG)
        LastWords(studio).keep()
        studio.store.connection.execute("PRAGMA max_page_count = 100000")
        arranged.done(Purpose.MOVE, "2026-12-08", "Ilse", "2026-12-09 10:00")
        (sentence,) = LastWords(studio).take_in()
        assert "are in the lesson now" in sentence
        assert kept(arranged.studio.desk.folder, lesson_id) == LONG


def test_words_of_a_lesson_that_is_no_more_stay_in_their_file(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        words = LastWords(studio)
        words.rescue.keep(
            UnsavedNotes(
                lesson_id=LessonId("w99-2026-12-01"), student="Ilse", on=date(2026, 12, 1), body="hum", over=""
            )
        )
        (sentence,) = words.take_in()
        assert "no longer has this lesson" in sentence
        assert words.rescue.path.exists()


def test_a_disk_that_takes_nothing_at_all_stops_no_opening_and_says_where_the_words_could_not_be_kept(
    tmp_path, monkeypatch
):
    limits = resource.getrlimit(resource.RLIMIT_FSIZE)
    with sample_studio(tmp_path) as (studio, _clock):
        words = LastWords(studio)
        shown(studio)
        refused(studio, LONG)
        monkeypatch.setattr(tempfile, "tempdir", None)  # as in a process that has asked for it never before
        resource.setrlimit(resource.RLIMIT_FSIZE, (0, limits[1]))
        try:
            taken_in = words.take_in()
            with pytest.raises(NotSaved, match="copy the notes from the screen"):
                words.keep()
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, limits)
        assert taken_in == ()


def test_a_file_that_cannot_be_read_is_told_and_left(tmp_path):
    path = tmp_path / "unsaved-notes-old.txt"
    path.write_bytes(b"\xff\xfe nothing of ours")
    with sample_studio(tmp_path) as (studio, _clock):
        (sentence,) = LastWords(studio).take_in()
        assert str(path) in sentence
    assert path.exists()
