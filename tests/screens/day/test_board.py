"""The board on the curtain: each letter is text, what is put on it is drawn, kept, and gone with the lesson."""

import random
import re

import pytest
from support.screens import on_screen
from textual.widgets import Input

import cockpit.screens.day.curtain as curtain_module
from cockpit.desk.day.board import PAGE
from cockpit.screens.day.curtain import CurtainScreen, CurtainView, curtain
from cockpit.screens.lessons.figures import big_notes
from cockpit.studio.day.board import BoardEntry
from cockpit.studio.theory.examples import EXAMPLES

SCALE = BoardEntry(words="D major", rows=("D E F♯ G A B C♯ D", "2 sharps: F♯ C♯"))
CHORD = BoardEntry(words="C/E", rows=("E G C", "root C, first inversion"))
RHYTHM = BoardEntry(words="rhythm 4/4 q e e h", rows=("1 2 + 3 (4)",))


def rows(width, height, *entries, **more):
    view = CurtainView(first_name="Ilse", minutes_left=23, lifts="F6", has_line=True, entries=entries, **more)
    return [row.plain.rstrip() for row in curtain(view, width, height)]


# As it is drawn


def test_the_board_is_as_it_was_drawn():
    assert rows(80, 24, SCALE, CHORD, RHYTHM, chosen=2, says="{D majr} is not read; {D major} works") == [
        f" I l s e{' ' * 60}23 min left",
        "",
        "",
        " › r h y t h m   4 / 4   q   e   e   h",
        "",
        "   ▄██         ▀▀▀█▄         ▄         ▀▀▀█▄       ▄▀ ██ ██ ▀▄",
        "    ██          ▄█▀        ▀▀█▀▀        ▀▀█▄       █  ██▄██  █",
        "   ▄██▄        ██▄▄▄                   ▄▄▄█▀       ▀▄    ██ ▄▀",
        "",
        "",
        "",
        "   D major",
        "   D   E   F♯   G   A   B   C♯   D",
        "   2 sharps:   F♯   C♯",
        "",
        "   C/E",
        "   E   G   C",
        "   root C, first inversion",
        *[""] * 4,
        " {D majr} is not read; {D major} works",
        " F6 lifts",
    ]


def test_where_there_is_no_room_letters_and_notes_stand_closer_and_what_is_left_is_counted():
    drawn = rows(44, 20, *[SCALE] * 5, chosen=0, says="G♯ major has no key signature; A♭ major sounds the same")
    assert drawn[2:5] == [
        " › D   m a j o r",
        "   D    E    F♯    G    A    B    C♯    D",
        "   2 sharps:       F♯       C♯",
    ]
    assert drawn[-5:-3] == ["", ""]
    assert "   1 more" in drawn
    assert drawn[-3:] == [" G♯ major has no key signature; A♭ major", " sounds the same", " F6 lifts"]
    few = rows(44, 20, CHORD, RHYTHM, chosen=0)
    assert few[2:5] == ["", " › C / E", ""], "where all have room, they stand apart"
    assert few[few.index("   rhythm 4/4 q e e h") - 1] == ""
    assert "more" not in "".join(few)


@pytest.mark.parametrize("size", [(44, 20), (80, 24), (130, 40), (200, 60), (20, 8), (1, 1), (44, 6)])
def test_every_example_of_the_guide_is_drawn_in_any_room_and_the_chosen_one_is_whole(size):
    from cockpit.studio.day.board import items_typed
    from cockpit.wording.theory import answer_rows

    width, height = size
    for typed in (each for group in EXAMPLES.values() for each in group):
        (item,) = items_typed(typed)
        entry = BoardEntry(words=item.words, rows=answer_rows(item.answer))
        view = CurtainView(first_name="Ilse", lifts="F6", has_line=True, entries=(SCALE, entry, CHORD), chosen=1)
        drawn = curtain(view, width, height)
        assert len(drawn) == height
        assert {row.cell_length for row in drawn} == {width}
        if width >= 44 and height >= 20:
            plain = re.sub(r"\s", "", "".join(row.plain for row in drawn))
            assert re.sub(r"\s", "", f"›{typed}") in plain
            for row in entry.rows:
                is_large = any(
                    "".join(large[1].split()) in plain for gap in range(3, 8) if (large := big_notes(row, gap))
                )
                assert is_large or "".join(row.split()) in plain


# Its keys


def board(opened):
    found = opened.studio.desk.board.now()
    return [entry.words for entry in found.entries] if found is not None else []


def line(opened):
    return opened.app.screen.query_one(Input)


def test_a_thought_is_typed_and_seen_in_two_keys_more_than_its_words_and_every_letter_is_text(tmp_path):
    async def steps(opened):
        await opened.press("f6")
        for typed in ("key Ab", "open strings violin", "no", "keyboard D F# A", "{D major}"):
            await opened.type(typed)
            await opened.press("enter")
            assert line(opened).value == ("no" if typed == "no" else "")
            if typed == "no":
                assert "{no} is not read" in opened.drawn()
                await opened.press("backspace", "backspace")
                assert "is not read" not in opened.drawn()
        assert board(opened) == ["key Ab", "open strings violin", "keyboard D F# A", "D major"]
        assert "› D   m a j o r" in opened.drawn()
        await opened.press("up", "up")
        assert "› o p e n   s t r i n g s   v i o l i n" in opened.drawn()
        await opened.press("up", "up", "up", "down")
        assert "› o p e n" in opened.drawn()
        await opened.type("x")
        await opened.press("left", "delete")
        assert (line(opened).value, len(board(opened))) == ("", 4), "in a line with words it deletes a sign of them"
        await opened.press("delete")
        assert board(opened) == ["key Ab", "keyboard D F# A", "D major"]
        await opened.press("f6")
        await opened.press("f4")
        assert "Undone: open strings violin off the board." in opened.said

    on_screen(tmp_path, steps)


@pytest.mark.parametrize(
    ("thing", "seen", "keys"), [("D major", "D m a j o r", 9), ("4/4 qeeh", "4 / 4 q e e h", 10), ("F#7", "F # 7", 5)]
)
def test_from_a_thought_to_a_student_who_sees_it_are_ten_keys_at_most(tmp_path, thing, seen, keys):
    """Counted from the notes, with every letter: a scale, a rhythm, and a chord."""

    async def steps(opened):
        pressed = ["f6", *("space" if letter == " " else letter for letter in thing), "enter"]
        assert len(pressed) == keys <= 10
        await opened.press(*pressed)
        assert f"› {seen}" in re.sub(" +", " ", opened.drawn())

    on_screen(tmp_path, steps)


def test_a_tap_chooses_a_thing_of_the_board_and_does_what_a_key_is_for(tmp_path):
    async def steps(opened):
        await opened.press("f6")
        for typed in ("D major", "C/E"):
            await opened.type(typed)
            await opened.press("enter")

        async def tap(words):
            drawn = opened.drawn().splitlines()
            row = next(row for row, line in enumerate(drawn) if words in line)
            await opened.pilot.click(offset=(drawn[row].index(words) + 1, row))
            await opened.done()

        await tap("D major")
        assert "› D   m a j o r" in opened.drawn()
        await opened.press("f6", "f6")
        assert "› D   m a j o r" in opened.drawn(), "it is where it was when the curtain comes down again"
        await opened.type("x")
        assert line(opened).value == "x", "the line keeps the cursor"
        await opened.press("backspace")
        await tap("ctrl+k keep")
        assert "Kept in the notes." in opened.drawn()
        await tap("ctrl+n notes")
        assert "Theory: D major" in opened.drawn()
        await tap("ctrl+n board")
        await tap("delete off")
        assert board(opened) == ["C/E"]
        await tap("F6 lifts")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, size=(80, 40))


def test_what_is_kept_is_a_line_of_the_notes_at_once_and_undone_as_typing_is(tmp_path):
    async def steps(opened):
        await opened.type("Scales: slo")
        before, cursor = opened.body("Ilse"), opened.notes.text.cursor_location
        await opened.press("f6")
        await opened.type("D major")
        await opened.press("enter", "ctrl+k")
        assert "Kept in the notes." in opened.drawn()
        assert opened.body("Ilse") == f"{before}\nTheory: {{D major}}\n"
        await opened.press("ctrl+k")
        assert "It is in the notes." in opened.drawn()
        await opened.press("f6")
        assert opened.notes.text.cursor_location == cursor
        await opened.type("w")
        assert "Scales: slow\nTheory: {D major}" in opened.body("Ilse")
        await opened.press("ctrl+z", "ctrl+z")
        assert opened.body("Ilse") == before

    on_screen(tmp_path, steps)


def test_the_notes_for_the_family_are_shown_without_private_lines_and_grow_as_she_writes(tmp_path):
    async def steps(opened):
        opened.notes.text._replace_via_keyboard(
            "Scales: {D major}, 5 min\nPrivate: zebra\nFollow-up: quagga\n", *opened.notes.text.selection
        )
        await opened.press("f6", "ctrl+n")
        drawn = opened.drawn()
        assert "Scales: D major, 5 min" in drawn
        assert "= D E F♯ G A B C♯ D · 2 sharps: F♯ C♯" in drawn
        assert not re.search("zebra|quagga|›", drawn)
        await opened.type("Listen to the slow movement")
        await opened.press("enter")
        assert "   Listen to the slow movement" in opened.drawn()
        assert opened.body("Ilse").endswith("Follow-up: quagga\nListen to the slow movement\n")
        await opened.type("Private: tired")
        await opened.press("enter")
        assert line(opened).value == "Private: tired"
        assert "The family would not read it there." in opened.drawn()
        assert "tired" not in opened.body("Ilse")
        await opened.press("ctrl+u", "ctrl+n")
        assert "› D   m a j o r" in opened.drawn()

    on_screen(tmp_path, steps)


def test_a_half_typed_line_waits_for_its_own_lesson_and_no_other_student_sees_it(tmp_path):
    async def steps(opened):
        await opened.press("f6")
        await opened.type("D maj")
        await opened.press("f6", "f6")
        assert line(opened).value == "D maj", "nothing is lost while the curtain is lifted"
        await opened.type("or")
        assert line(opened).value == "D major"
        await opened.press("f6", "f9", "f6")
        assert not line(opened).display, "no lesson runs"
        await opened.press("f6", "f2", "f6")
        assert "Mireille" in re.sub(r"(?<=\S) (?=\S)", "", opened.drawn())
        assert line(opened).value == ""

    on_screen(tmp_path, steps)


def test_the_board_of_the_lesson_that_runs_is_shown_and_kept_whatever_day_is_shown(tmp_path):
    async def steps(opened):
        from datetime import timedelta

        before = opened.body("Ilse")
        lesson_id = opened.id_of("Ilse")
        day = opened.studio.desk.day
        day.open(day.on + timedelta(days=2))
        opened.day.show()
        await opened.press("f6")
        await opened.type("C/E")
        await opened.press("enter", "ctrl+k")
        assert opened.studio.store.reading.notes([lesson_id])[lesson_id].body == f"{before}\nTheory: {{C/E}}\n".lstrip(
            "\n"
        )
        await opened.press("f6", "f4")
        assert "Undone" in opened.said

    on_screen(tmp_path, steps)


def test_a_fault_says_no_more_than_that_there_is_one_until_the_curtain_is_lifted(tmp_path):
    async def steps(opened):
        await opened.press("f6")
        await opened.type("D major")
        (tmp_path / "studio.db").rename(tmp_path / "elsewhere.db")
        await opened.press("enter")
        assert "Not saved." in opened.drawn()
        assert str(tmp_path) not in opened.drawn()
        assert line(opened).value == "D major", "nothing typed is lost"
        (tmp_path / "elsewhere.db").rename(tmp_path / "studio.db")
        await opened.press("enter")
        assert board(opened) == ["D major"]
        await opened.press("f6")
        assert "studio.db" in opened.said

    on_screen(tmp_path, steps)


def test_the_page_is_opened_by_its_key_and_follows_the_board_and_is_empty_after_the_lesson(tmp_path, monkeypatch):
    shown = []
    monkeypatch.setattr(curtain_module, "open_file", lambda path: shown.append(path) or True)

    async def steps(opened):
        page = opened.folder / PAGE
        await opened.press("f6", "ctrl+o")
        assert shown == [page]
        assert "The page is open." in opened.drawn()
        await opened.type("D major")
        await opened.press("enter")
        opened.app._tick()
        await opened.done()
        assert "D major" in page.read_text()
        await opened.press("f6", "f9")
        opened.app._tick()
        await opened.done()
        assert "Ilse" not in page.read_text()

    on_screen(tmp_path, steps)


# Nothing private on a real screen


PRIVATE = ("zebra", "Mireille", "Brandvold", "Phoenix", "cello", "Follow", "Private", "QUEUE", "three-quarter")
LINES = ("Scales: {D major 2 oct}, 5 min", "Private: zebra {A blues}", "Lovely {C/E}", "Follow-up: zebra {F lydian}", "Private:", "{B F}", "", "Private: a\n  zebra")  # fmt: skip


@pytest.mark.long
def test_forty_boards_on_a_screen_show_no_private_word(tmp_path):
    async def steps(opened):
        chance = random.Random(0)
        for _ in range(40):
            await opened.pilot.resize_terminal(chance.randint(44, 200), chance.randint(20, 60))
            opened.notes.text.load_text("\n".join(chance.choices(LINES, k=6)))
            opened.notes._keep_typed()
            await opened.press("f6")
            await opened.type(chance.choice(("key Ab", "D dorian", "circle of fifths")))
            await opened.press("enter", *chance.choice(((), ("ctrl+n",), ("up", "delete"))))
            opened.day.say("Mireille's notes were not accepted: zebra.")
            opened.app._tick()
            await opened.done()
            drawn = opened.drawn()
            assert isinstance(opened.app.screen, CurtainScreen)
            assert "I l s e" in drawn
            assert [word for word in PRIVATE if word.casefold() in drawn.casefold()] == []
            await opened.press("f6")

    on_screen(tmp_path, steps)
