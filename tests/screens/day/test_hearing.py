"""The last assignments as they are heard: tempos typed and tapped, clean run-throughs, what stays open, what is carried on."""

import contextlib
import re
import sqlite3
from datetime import timedelta

import pytest
from bench.typing_and_finishing import add_years
from support.screens import on_screen
from textual.widgets import OptionList

from cockpit.screens.day.last import LastPane
from cockpit.screens.textual_parts.heading import Heading
from cockpit.studio.assignments.carrying import thread_of
from cockpit.studio.changes.records import Heard
from cockpit.studio.notes.notes import read_line


async def to_last(opened) -> None:
    await opened.press("escape", "tab")


def chosen_line(opened) -> str:
    option = opened.day.query_one("#assignments", OptionList).highlighted_option
    return option.id.split("\n", 1)[1]


def entry(opened) -> str:
    return opened.day.query_one(LastPane).query_one(Heading).words


def row_of(opened, words: str) -> str:
    """The row of an assignment, whatever stands beside it on the screen."""
    listing = opened.day.query_one("#assignments", OptionList)
    return next((str(option.prompt) for option in listing.options if words in str(option.prompt)), "")


def assignments(opened) -> int:
    listing = opened.day.query_one("#assignments", OptionList)
    return len([option for option in listing.options if not option.disabled])


def heard(opened) -> dict[str, Heard]:
    last = opened.studio.desk.notes.sheet(opened.studio.desk.day.shown).last
    ids = {each.lesson_id for each in (*last.assignments, *last.earlier)}
    return {line: each for (_, line), each in opened.studio.store.reading.heard(ids).items()}


def test_a_tempo_is_typed_by_digits_and_kept_by_enter(tmp_path):
    async def steps(opened):
        await to_last(opened)
        line = chosen_line(opened)
        await opened.press("8", "5", "backspace", "4")
        assert entry(opened) == "Tempo 84, press enter to save"
        await opened.press("enter")
        assert heard(opened)[line].tempo == 84
        assert "heard at 84" in opened.said
        assert row_of(opened, "D major").split("\n")[0].endswith(" 84   1")
        assert entry(opened) == "GIVEN NOVEMBER 24"
        await opened.press("escape", "f4")
        assert line not in heard(opened)

    on_screen(tmp_path, steps)


def test_a_tempo_is_tapped_and_one_that_no_metronome_beats_is_refused(tmp_path):
    async def steps(opened):
        await to_last(opened)
        line = chosen_line(opened)
        for number in range(5):
            assert "keeps" not in entry(opened) or number == 4
            await opened.press("t")
            opened.clock.at += timedelta(milliseconds=750)
        assert entry(opened).startswith("Tempo 80")
        await opened.press("enter")
        assert heard(opened)[line].tempo == 80
        await opened.press("9", "9", "9", "enter")
        assert "999 is not a metronome tempo" in opened.said
        assert heard(opened)[line].tempo == 80

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_an_entry_that_is_left_is_forgotten_and_enter_goes_round_the_marks_again(tmp_path):
    async def steps(opened):
        await to_last(opened)
        line = chosen_line(opened)
        await opened.press("8", "4", "escape", "tab")
        assert "84" not in entry(opened)
        before = opened.marks().get(line)
        await opened.press("enter")
        assert heard(opened).get(line) is None
        assert opened.marks().get(line) != before

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_clean_run_throughs_are_counted(tmp_path):
    async def steps(opened):
        await to_last(opened)
        line = chosen_line(opened)
        await opened.press("r", "r", "r")
        assert heard(opened)[line].clean_runs == 3
        assert "3 clean" in opened.drawn()
        await opened.press("escape", "f4")
        assert heard(opened)[line].clean_runs == 2

    on_screen(tmp_path, steps)


def test_an_open_assignment_is_carried_into_todays_notes_once(tmp_path):
    async def steps(opened):
        await to_last(opened)
        before = opened.body("Ilse")
        await opened.press("c")
        assert "Already in today's notes: Scales: D major" in opened.said  # at another tempo, as the sample has it
        assert opened.body("Ilse") == before
        await opened.press("down", "down")
        line = chosen_line(opened)
        await opened.press("c")
        assert opened.body("Ilse") == f"{before}{'' if before.endswith(chr(10)) else chr(10)}{line}\n"
        await opened.press("c")
        assert "Already" in opened.said
        assert opened.body("Ilse").count(line) == 1

    on_screen(tmp_path, steps)


def test_what_is_open_since_earlier_lessons_says_so_until_it_is_dropped_and_undo_brings_it_back(tmp_path):
    async def steps(opened):
        await to_last(opened)
        assert row_of(opened, "no. 7").split("\n")[0].endswith("   2")
        await opened.press("end")
        assert chosen_line(opened).startswith("Etude: no. 7")
        await opened.press("x")
        assert "no. 7" not in opened.drawn().replace(opened.said, "")
        await opened.press("escape", "f4")
        assert row_of(opened, "no. 7").split("\n")[0].endswith("   2")

    on_screen(tmp_path, steps, size=(150, 45))


def test_digits_and_letters_of_the_pane_are_words_in_the_notes(tmp_path):
    async def steps(opened):
        await opened.type("84 trx")
        assert opened.body("Ilse").endswith("84 trx")
        assert heard(opened) == {}

    on_screen(tmp_path, steps)


def test_what_is_still_to_get_comes_last_and_is_got_or_not_needed(tmp_path):
    async def steps(opened):
        desk = opened.studio.desk
        last = desk.notes.sheet(desk.day.shown).last
        with contextlib.closing(sqlite3.connect(opened.folder / "studio.db")) as connection, connection:
            line = "\nGet: strings (A, D), rosin"
            connection.execute("UPDATE note SET body = body || ? WHERE lesson_id = ?", (line, last.lesson_id))
        opened.day.show()
        await to_last(opened)
        await opened.press("end")
        assert chosen_line(opened) == "Get: rosin"
        listing = opened.day.query_one("#assignments", OptionList)
        rows = [str(option.prompt).strip() for option in listing.options][-3:]
        assert rows[0].startswith("STILL TO GET")
        assert [row.split("  ")[0] for row in rows[1:]] == ["○ strings (A, D)", "○ rosin"]
        for key, said in (
            ("m", "rosin is a thing to get"),
            ("r", "rosin is a thing to get"),
            ("c", "rosin stays on the sheet"),
        ):
            await opened.press(key)
            assert said in opened.said, key
        await opened.press("7", "2", "enter")
        assert "rosin is a thing to get" in opened.said
        await opened.press("d")
        assert "Get: rosin: got" in opened.said
        await opened.press("up", "x")
        assert row_of(opened, "strings").startswith("× strings (A, D), not needed")
        assert opened.marks() == {"Get: rosin": "done", "Get: strings (A, D)": "dropped"}
        await opened.press("enter", "enter", "enter")
        assert opened.marks()["Get: strings (A, D)"] == "dropped"
        await opened.press("escape", "f4", "f4", "f4", "f4")
        assert opened.marks() == {"Get: rosin": "done"}
        await opened.type("Get: wax, a mute")
        assert "to get  for the family" in str(opened.notes.query_one("#understood-line").content)
        assert "2 to get" in str(opened.notes.query_one("#count").content)

    on_screen(tmp_path, steps)


def test_years_of_open_assignments_stay_a_short_list_that_says_how_many_more_there_are(tmp_path):
    async def steps(opened):
        add_years(opened.folder, 600)
        opened.day.show()
        await opened.pilot.pause()
        listing = opened.day.query_one("#assignments", OptionList)
        assert listing.option_count <= 26
        assert any(str(option.prompt).endswith(" 32 more") for option in listing.options)

    on_screen(tmp_path, steps)


def test_what_comes_after_a_mark_goes_to_the_assignment_that_was_marked(tmp_path):
    async def steps(opened):
        await to_last(opened)
        await opened.press("down")
        line = chosen_line(opened)
        await opened.press("m", "7", "2", "enter", "r", "c")
        assert opened.marks() == {line: "more work"}
        assert [(each.line, each.tempo, each.clean_runs) for each in heard(opened).values()] == [(line, 72, 1)]
        assert thread_of(read_line(opened.body("Ilse").splitlines()[-1])) == thread_of(read_line(line))

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_an_assignment_that_leaves_the_list_leaves_its_keys_to_no_other_until_she_moves(tmp_path):
    async def steps(opened):
        await to_last(opened)
        await opened.press("end")
        await opened.press("up")
        before = chosen_line(opened)
        await opened.press("down", "d", "7", "2", "enter", "m", "x", "r", "t", "enter")
        assert assignments(opened) == 3
        assert opened.marks() == {}
        assert heard(opened) == {}
        await opened.press("up")
        assert chosen_line(opened) == before
        await opened.press("m")
        assert opened.marks() == {before: "more work"}

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_an_assignment_that_comes_back_leaves_the_cursor_on_its_row(tmp_path):
    async def steps(opened):
        await to_last(opened)
        await opened.press("end", "x", "escape", "tab")
        back = chosen_line(opened)
        await opened.press("escape", "f4", "tab")
        assert chosen_line(opened) == back
        assert assignments(opened) == 4

    on_screen(tmp_path, steps)


def test_what_was_heard_is_seen_on_a_small_screen_though_the_row_needs_another_line_for_it(tmp_path):
    async def steps(opened):
        await to_last(opened)
        await opened.press("down", "m", "7", "2", "enter")
        await opened.pilot.pause()
        assert chosen_line(opened).startswith("Piece: The Old Mill")
        assert re.search(r"Piece .* 72 +\d+ *$", opened.drawn(), re.MULTILINE)

    on_screen(tmp_path, steps, size=(44, 20))


def test_where_an_assignment_left_the_list_the_rows_around_it_stay_in_sight(tmp_path):
    async def steps(opened):
        await to_last(opened)
        await opened.press("end", "d")
        await opened.pilot.pause()
        assert "Ear    sing the first" in opened.drawn()

    on_screen(tmp_path, steps, size=(44, 20))


def test_a_word_that_is_typed_into_last_assignments_is_a_word_for_the_notes(tmp_path):
    async def steps(opened):
        await opened.type("Bow: ")
        marks, tempos = opened.marks(), heard(opened)
        for word in ("done well", "more", "nice", "tempo", "rit. at the end", "carry the bow", "xylophone"):
            lines = opened.notes.text.text
            await to_last(opened)
            await opened.type(word)
            assert opened.notes.text.text == f"{lines}\n{word}"
            assert (opened.marks(), heard(opened), entry(opened).startswith("Tempo")) == (marks, tempos, False), word
            assert opened.notes.text.has_focus, word

    on_screen(tmp_path, steps)


def test_letters_one_by_one_and_one_letter_quickly_again_are_commands(tmp_path):
    async def steps(opened):
        await to_last(opened)
        line = chosen_line(opened)
        await opened.press("r", "r", "r", apart=0.05)
        assert heard(opened)[line].clean_runs == 3
        await opened.press("d")
        await opened.press("m", apart=0.3)
        assert opened.marks()[line] == "more work"

    on_screen(tmp_path, steps)
