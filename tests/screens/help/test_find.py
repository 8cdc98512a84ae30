"""Find: students and commands in one list that narrows as she types."""

import pytest
from support.screens import on_screen
from textual.widgets import Input

from cockpit.screens.commands.commands import BY_ID, COMMANDS, Place
from cockpit.screens.help.find import FindScreen
from cockpit.screens.help.searching import commands_named
from cockpit.screens.textual_parts.rows import WalkedRows

HERS = {
    "share": "app.show_curtain", "hide": "app.show_curtain", "history": "lesson.show_page", "add student": "queue.book_trial",
    "new student": "queue.book_trial", "mail": "app.show_outbox", "print": "lesson.preview", "reschedule": "queue.move",
    "holiday": "queue.add_break", "video": "lesson.open_link", "stop": "lesson.finish", "todo": "app.show_review",
    "calendar": "app.show_week", "colors": "theme.show_next", "exit": "app.quit", "metronome": "assignment.tap",
    "f9": "lesson.finish", "makeup": "queue.make_up", "sick": "lesson.mark_absent", "mistake": "app.undo",
}  # fmt: skip
ON_THE_DAY = [command for command in COMMANDS if command.place.screen in {Place.DAY, Place.EVERYWHERE}]


@pytest.mark.parametrize("typed", HERS)
def test_her_words_find_the_command_among_the_first(typed):
    assert HERS[typed] in [command.id for command in commands_named(ON_THE_DAY, typed)][:3]


def test_mark_finds_all_marks_first_and_nothing_is_found_by_the_middle_of_a_word():
    marks = [command.id for command in ON_THE_DAY if command.label.startswith("Mark")]
    assert [command.id for command in commands_named(ON_THE_DAY, "mark")][: len(marks)] == marks
    assert commands_named(ON_THE_DAY, "urtai") == []
    assert commands_named(ON_THE_DAY, "") == ON_THE_DAY


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.id)
def test_every_command_is_found_first_among_those_of_its_place_by_its_own_label(command):
    theirs = [each for each in COMMANDS if each.place is command.place]
    assert command.label in {each.label for each in commands_named(theirs, command.label)[:3]}


def listed(opened):
    return [option.id for option in opened.app.screen.query_one(WalkedRows).options if not option.disabled]


def chosen(opened):
    row = opened.app.screen.query_one(WalkedRows).highlighted_option
    return row.id if row is not None else None


def test_students_and_commands_are_narrowed_walked_and_done_from_one_field(tmp_path):
    async def steps(opened):
        ilse = f"student:{opened.studio.desk.finding.search('ilse')[0].student.id}"
        await opened.press("f8")
        assert isinstance(opened.app.screen, FindScreen)
        assert "STUDENTS ━" in opened.drawn()
        everything = listed(opened)
        await opened.type("i")
        assert chosen(opened) == ilse
        assert len(listed(opened)) < len(everything)
        await opened.press("end")
        assert chosen(opened) == listed(opened)[-1]
        await opened.press("home")
        assert chosen(opened) == ilse
        await opened.press("tab")
        assert "STUDENTS ─" in opened.drawn()
        assert "COMMANDS ━" in opened.drawn()
        assert not chosen(opened).startswith("student:")
        await opened.press("up")
        await opened.type("lse")
        assert listed(opened) == [ilse]
        assert "›  Ilse" in opened.drawn()
        assert opened.app.screen.query_one(Input).value == "ilse"
        await opened.press(*["backspace"] * 4)
        assert listed(opened) == everything
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps)


def test_the_columns_stay_where_they_are_as_she_types(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        before = next(line for line in opened.drawn().splitlines() if " Ilse " in line and "Brandvold" in line)
        await opened.type("ilse")
        assert next(line for line in opened.drawn().splitlines() if "Brandvold" in line)[3:77] == before[3:77]

    on_screen(tmp_path, steps, size=(80, 24))


def test_the_other_key_shows_the_commands_first_and_each_key_closes_it(tmp_path):
    async def steps(opened):
        for key in (*BY_ID["app.command_palette"].keys, *BY_ID["student.find"].keys):
            await opened.press(key)
            drawn = opened.drawn()
            is_first = drawn.index("COMMANDS") < (drawn.index("STUDENTS") if "STUDENTS" in drawn else len(drawn))
            assert is_first == (key == "ctrl+p"), key
            assert not {"student.find", "app.command_palette"} & set(listed(opened))
            await opened.press(key)
            assert opened.app.screen is opened.day, key

    on_screen(tmp_path, steps, size=(80, 24))


def test_a_student_is_found_from_any_screen_and_a_command_of_that_screen_is_done_there(tmp_path):
    async def steps(opened):
        await opened.press("f7", "f8")
        await opened.type("outbox")
        assert listed(opened)[0] == "app.show_outbox"
        await opened.press("escape", "escape")
        await opened.press("f10", "o", "f8")
        await opened.type("ways")
        assert "outbox.show_ways" in listed(opened)
        await opened.press("escape", "f8")
        await opened.type("nalani")
        await opened.press("enter")
        assert opened.app.screen is opened.day
        assert opened.shown == "Nalani"
        await opened.press("ctrl+a", "f8")
        week = opened.app.screen.below
        await opened.type("undo")
        await opened.press("enter")
        await opened.pilot.pause()
        assert opened.app.screen is week
        assert "Nothing to undo" in opened.said

    on_screen(tmp_path, steps)


def test_who_has_no_lesson_and_what_is_called_by_nothing_get_a_sentence(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        await opened.type("zzz")
        assert "Nobody and no command is called zzz, and no notes have these words." in opened.drawn()
        await opened.press("enter", "down", "up", "tab", "pagedown", "pageup")
        assert isinstance(opened.app.screen, FindScreen)

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("size", [(44, 20), (80, 24), (150, 45)])
def test_the_running_lesson_stays_on_top_and_every_row_fits(tmp_path, size):
    async def steps(opened):
        await opened.press("f8")
        lines = opened.drawn().splitlines()
        assert lines[0].startswith(" 33:00 left Ilse")
        assert max(map(len, lines)) <= size[0]
        assert lines[-1].endswith("F1 help")

    on_screen(tmp_path, steps, size=size)
