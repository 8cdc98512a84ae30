"""The board of the running lesson, through the desk, on the disk."""

import re
from datetime import date

import pytest
from support.sample import sample_studio

from cockpit.clock import SetClock
from cockpit.desk.day.board import PAGE
from cockpit.studio.errors import BadInput, Refused
from cockpit.wiring import studio_at


def words(studio):
    board = studio.desk.board.now()
    return [entry.words for entry in board.entries] if board is not None else None


def write(studio, body):
    studio.desk.notes.write(studio.desk.day.running.lesson.id, body)


def rows(studio):
    return studio.store.connection.execute("SELECT words, is_off FROM board_line ORDER BY put_at, rowid").fetchall()


def test_what_is_put_on_it_and_taken_off_it_is_kept_at_once_and_each_step_is_taken_back(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        board, seen = studio.desk.board, []
        write(studio, "Scales: {D major}\nPrivate: {A minor}")
        assert words(studio) == ["D major"]
        seen.append(words(studio))
        assert board.put("key Ab") == "key Ab"
        seen.append(words(studio))
        assert board.put("{C/E} {B F}") == "B F"
        seen.append(words(studio))
        board.take_off("D major")
        seen.append(words(studio))
        board.take_off("key Ab")
        assert words(studio) == ["C/E", "B F"]
        assert studio.store.reading.notes([studio.desk.day.running.lesson.id])
        for said in ("key Ab off", "D major off", "C/E, B F on", "key Ab on"):
            assert studio.desk.teaching.undo() == f"Undone: {said} the board."
            assert words(studio) == seen.pop()
        assert rows(studio) == []


def test_a_thing_that_was_taken_off_comes_back_when_it_is_typed_again(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        write(studio, "{D major}")
        studio.desk.board.take_off("D major")
        assert words(studio) == []
        studio.desk.board.put("D major")
        assert words(studio) == ["D major"]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("D majr", "{D majr} is not read; {D major} works"),
        ("{D major} {D majr}", "{D majr} is not read; {D major} works"),
        ("warm up {D major}", "{D major} works by itself"),
        ("G# major", "G♯ major has no key signature; A♭ major sounds the same"),
        ("rhythm 4/4 q q q", "1 2 3 · measure 1 is missing a quarter"),
        ("{", "{D major} works"),
        ("x" * 300, "{D major} works"),
    ],
)
def test_what_is_not_understood_is_refused_with_what_works(tmp_path, typed, said):
    with sample_studio(tmp_path) as (studio, _):
        with pytest.raises(BadInput, match=f"^{re.escape(said)}$"):
            studio.desk.board.put(typed)
        assert words(studio) == []


def test_a_program_that_is_killed_finds_the_board_as_it_was(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        studio.desk.board.put("D major")
        studio.desk.board.put("C/E")
        studio.desk.board.take_off("C/E")
        copy = tmp_path / "killed"  # nothing is closed: the copy is what a kill leaves
        copy.mkdir()
        for name in ("studio.db", "studio.db-wal", "settings.toml"):
            (copy / name).write_bytes((tmp_path / name).read_bytes())
        with studio_at(copy, SetClock(clock.at), to_write=True) as again:
            again.desk.day.open()
            assert words(again) == ["D major"]


@pytest.mark.parametrize("ending", ["finish", "mark_absent"])
def test_it_is_gone_with_the_lesson_in_the_same_change_and_undo_brings_it_back(tmp_path, ending):
    with sample_studio(tmp_path) as (studio, _):
        teaching = studio.desk.teaching
        write(studio, "{D major}")
        studio.desk.board.put("C/E")
        studio.desk.board.take_off("D major")
        if ending == "mark_absent":
            teaching.mark_absent()  # asks
        assert rows(studio)
        getattr(teaching, ending)()
        assert rows(studio) == []
        assert words(studio) is None
        teaching.undo()
        assert words(studio) == ["C/E"]


def test_without_a_running_lesson_there_is_no_board(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        studio.desk.teaching.finish()
        assert studio.desk.board.now() is None
        with pytest.raises(Refused, match="No lesson is running"):
            studio.desk.board.put("D major")
        assert studio.desk.board.family_lines() == ()


def test_the_student_reads_the_names_of_notes_as_the_family_does(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        studio.store.connection.execute("UPDATE family SET language = 'de'")
        studio.desk.day.reload()
        studio.desk.board.put("Bb major")
        (entry,) = studio.desk.board.now().entries
        assert entry.words == "Bb major"
        assert entry.rows[0] == "B C D Es F G A B"


def test_the_notes_as_the_family_will_read_them_have_no_private_line_and_their_answers(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        write(
            studio,
            "Lovely {C/E}!\nScales: {D major}, 5 min\nPrivate: tired\nFollow-up: call\nNext time: duet\nGet: rosin",
        )
        assert studio.desk.board.family_lines() == (
            "Scales: D major, 5 min",
            "= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯",
            "Still to get: rosin",
            "Lovely C/E!",
            "= E G C · root C, first inversion",
        )


def test_a_line_goes_below_the_notes_of_a_lesson_that_is_not_open_as_a_step(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        running = studio.desk.day.running.lesson.id
        write(studio, "Private:\ntired")
        studio.desk.board.write_below(running, "Theory: {D major}")
        assert studio.store.reading.notes([running])[running].body == "Private:\ntired\n\nTheory: {D major}\n"
        assert words(studio) == ["D major"]
        with pytest.raises(BadInput, match="would not read"):
            studio.desk.board.write_below(running, "Private: tired")
        assert studio.desk.teaching.undo() == 'Undone: "Theory: {D major}" in the notes.'
        assert studio.store.reading.notes([running])[running].body == "Private:\ntired"


# The page


def test_the_page_is_there_when_it_was_opened_and_goes_with_the_board(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        board, page = studio.desk.board, tmp_path / PAGE
        board.keep_page()
        assert not page.exists(), "nobody asked for it"
        board.put("D major")
        assert board.open_page() == page
        assert page.stat().st_mode & 0o777 == 0o600
        assert "D major" in page.read_text()
        first = page.stat().st_ino
        board.keep_page()
        assert page.stat().st_ino == first, "it is not written where nothing changed"
        write(studio, "Scales: {A blues}\nPrivate: {C/E} tired")
        board.keep_page()
        assert page.stat().st_ino != first, "a fresh file takes its place"
        assert "A blues" in page.read_text()
        assert "C/E" not in page.read_text()
        studio.desk.teaching.finish()
        board.keep_page()
        assert "Ilse" not in page.read_text()
        assert "D major" not in page.read_text()
        studio.desk.teaching.undo()
        board.keep_page()
        assert "D major" in page.read_text()


def test_a_page_that_an_earlier_program_left_is_what_the_board_is_now(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        studio.desk.board.put("D major")
        studio.desk.board.open_page()
        studio.desk.teaching.finish()
    with studio_at(tmp_path, clock, to_write=True) as again:
        again.desk.day.open()
        again.desk.board.keep_page()
    assert "Ilse" not in (tmp_path / PAGE).read_text()
    assert not list(tmp_path.glob(".board*"))


def test_another_day_that_is_shown_changes_nothing_of_the_board(tmp_path):
    with sample_studio(tmp_path) as (studio, _):
        studio.desk.board.put("D major")
        studio.desk.day.open(date(2026, 12, 3))
        assert words(studio) == ["D major"]


def test_the_page_is_empty_while_no_program_follows_the_lesson_and_is_kept_again_when_one_does(tmp_path):
    with sample_studio(tmp_path) as (studio, clock):
        studio.desk.board.empty_page()
        assert not (tmp_path / PAGE).exists(), "nobody asked for it"
        studio.desk.board.put("D major")
        studio.desk.board.open_page()
        studio.desk.board.empty_page()
        assert "Ilse" not in (tmp_path / PAGE).read_text()
        assert "D major" not in (tmp_path / PAGE).read_text()
    with studio_at(tmp_path, clock, to_write=True) as again:
        again.desk.day.open()
        again.desk.board.keep_page()
        assert "D major" in (tmp_path / PAGE).read_text()
