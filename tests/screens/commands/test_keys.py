"""Every key of every command, pressed while the notes are typed, against what the store holds afterwards."""

from contextlib import nullcontext
from importlib import import_module
from inspect import signature
from itertools import cycle, islice, product
from pathlib import Path

import pytest
from support.screens import on_screen
from textual.binding import Binding
from textual.widget import Widget
from textual.widgets import OptionList

import cockpit.screens
from cockpit.screens.app import CockpitApp
from cockpit.screens.commands.commands import BY_ID, COMMANDS, Command, Place
from cockpit.screens.commands.own_keys import refuse_clashes, with_own_keys
from cockpit.screens.day.day import DayScreen
from cockpit.screens.day.day_review import DayReviewScreen
from cockpit.screens.day.last import AssignmentList
from cockpit.screens.help.find import FindScreen
from cockpit.screens.help.help import HelpScreen
from cockpit.screens.screen import CockpitScreen
from cockpit.screens.textual_parts.heading import Heading
from cockpit.studio.errors import BadSettings
from cockpit.studio.lessons.lesson import Outcome

TYPED = "Scales: D major 2 oct, q=76 to 92, 5 min\nPiece: The Old Mill mm. 17-40"


def keys_of(command_id):
    return BY_ID[command_id].keys


def lines_of(opened):
    listing = opened.day.query_one(AssignmentList)
    return [option.id.partition("\n")[2] for option in listing.options if not option.disabled]


# Begin, finish, absent, cancelled, full length, next, undo


def test_finish_writes_the_notes_and_shows_the_next_student(tmp_path):
    async def steps(opened):
        lesson_id = opened.id_of("Ilse")
        paper = tmp_path / "notes" / "Brandvold" / "2026-12-01 Ilse.md"
        for key in keys_of("lesson.finish"):
            opened.app.copy_to_clipboard("")
            await opened.press(key)
            assert opened.lesson("Ilse").finished_at == opened.clock.at, key
            exports = opened.studio.store.reading.exports([lesson_id])
            assert exports[lesson_id].path == "notes/Brandvold/2026-12-01 Ilse.md", key
            assert paper.read_text(encoding="utf-8") == opened.app.clipboard, key
            assert "Old Mill" in opened.app.clipboard, key
            assert opened.shown == "Mireille", key
            assert opened.body("Ilse") == TYPED, key
            await opened.press("f4")
            assert opened.shown == "Ilse", key
            paper.unlink(missing_ok=True)

    on_screen(tmp_path, steps)


def test_begin_starts_the_next_lesson_and_reopens_a_finished_one(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        opened.clock.wind(minutes=34)
        for key in keys_of("lesson.begin"):
            assert not opened.is_recorded("Mireille") or opened.lesson("Mireille").began_at is None, key
            await opened.press(key)
            assert opened.lesson("Mireille").began_at == opened.clock.at, key
            await opened.press("f4")
        await opened.press("f2", "f9", *["f5"] * 2)
        for key in keys_of("lesson.begin"):
            assert opened.shown == "Eilidh", key
            assert not opened.lesson("Eilidh").is_reopened, key
            await opened.press(key)
            assert opened.lesson("Eilidh").is_reopened, key
            await opened.press("f4")

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_absent_and_cancelled_close_the_lesson_that_is_shown(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab", "tab")
        for command, outcome in (
            ("queue.mark_absent", Outcome.ABSENT),
            ("queue.mark_cancelled", Outcome.CANCELLED_LATE),
        ):
            for key in keys_of(command):
                await opened.press(key)
                assert opened.lesson("Mireille").outcome is outcome, key
                assert opened.lesson("Ilse").outcome is None, key
                assert opened.body("Ilse") == TYPED, key
                await opened.press("f4")
                assert not opened.is_recorded("Mireille") or opened.lesson("Mireille").outcome is None, key

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_full_length_is_given_to_a_lesson_that_began_late(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        opened.clock.wind(minutes=40)
        await opened.press("f2")
        for key in keys_of("lesson.give_full_length"):
            assert not opened.lesson("Mireille").gives_full_length, key
            await opened.press(key)
            lesson = opened.lesson("Mireille")
            assert lesson.gives_full_length, key
            assert (lesson.ends_at - lesson.began_at).total_seconds() == 45 * 60, key
            await opened.press("f4")

    on_screen(tmp_path, steps)


def test_next_goes_through_the_day_and_round_with_each_of_its_keys(tmp_path):
    async def steps(opened):
        seen = []
        for key in islice(cycle(keys_of("lesson.go_next")), 6):
            await opened.press(key)
            seen.append(opened.shown)
        assert seen == ["Mireille", "Nalani", "Ishaan", "Eilidh", "Teodor", "Ilse"]
        assert opened.body("Ilse") == TYPED

    on_screen(tmp_path, steps)


def test_undo_takes_a_finish_back_and_leaves_the_words_and_the_lesson_is_shown_again_and_gets_more(tmp_path):
    async def steps(opened):
        words = TYPED
        for key in keys_of("app.undo"):
            await opened.press("f9")
            assert opened.shown == "Mireille", key
            await opened.press(key)
            assert opened.lesson("Ilse").finished_at is None, key
            assert opened.lesson("Ilse").is_live, key
            assert opened.body("Ilse") == words, key
            assert opened.shown == "Ilse", key
            await opened.type("x")
            words += "\nx"
            assert opened.body("Ilse") == words, key
            assert not opened.is_recorded("Mireille"), key

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_finish_taken_back_while_another_day_is_shown_brings_its_lesson_back(tmp_path):
    async def steps(opened):
        await opened.press("f9", "f8")
        await opened.type("oskar")
        await opened.press("enter", "f4")
        assert opened.shown == "Ilse"
        assert opened.studio.desk.day.on.isoformat() == "2026-12-01"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_a_second_finish_taken_back_shows_the_reopened_lesson_again(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        opened.clock.wind(minutes=40)
        opened.studio.desk.day.go_to(opened.id_of("Ilse"))
        await opened.press("f2", "f9")
        assert opened.shown == "Mireille"
        await opened.press("f4")
        assert opened.shown == "Ilse"
        assert opened.lesson("Ilse").is_reopened

    on_screen(tmp_path, steps)


def test_a_refused_step_is_told_and_changes_nothing(tmp_path):
    async def steps(opened):
        await opened.press("f4")
        assert opened.said == "Nothing to undo since you opened the cockpit."
        await opened.press("f5", "f2")
        assert opened.said == "Ilse's lesson is running. Finish it first."
        assert not opened.is_recorded("Mireille")

    on_screen(tmp_path, steps)


# Find, help, palette, review, call


@pytest.mark.long
def test_find_leads_to_the_lesson_of_a_student_or_says_that_nobody_is_called_like_that(tmp_path):
    async def steps(opened):
        for number, key in enumerate(keys_of("student.find"), 1):
            await opened.press(key)
            assert isinstance(opened.app.screen, FindScreen), key
            await opened.type("zzz")
            assert "Nobody and no command is called zzz, and no notes have these words." in opened.drawn()
            await opened.press("enter")
            assert isinstance(opened.app.screen, FindScreen)
            await opened.press(*["backspace"] * 3)
            await opened.type("nala")
            await opened.press("enter")
            assert opened.shown == "Nalani", key
            await opened.type("x")
            assert opened.body("Nalani") == "\n".join("x" * number), key
            assert opened.body("Ilse") == TYPED, key
            await opened.press(*["f5"] * 4)
            assert opened.shown == "Ilse", key

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_find_leads_to_todays_lesson_also_when_it_is_finished_or_the_student_did_not_come(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab", "tab", "a")
        opened.studio.desk.day.go_to(opened.id_of("Ilse"))
        await opened.press("f9")
        for name in ("eilidh", "ilse", "mireille"):
            await opened.press("f8")
            await opened.type(name)
            await opened.press("enter")
            assert opened.shown is not None, name
            assert opened.shown.lower() == name
            assert opened.studio.desk.day.on.isoformat() == "2026-12-01", name
            lesson = opened.lesson(opened.shown)
            assert lesson.outcome is Outcome.ABSENT if name == "mireille" else lesson.finished_at is not None, name

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_find_leads_to_another_day_and_the_palette_back(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        await opened.type("oskar")
        await opened.press("enter")
        assert opened.shown == "Oskar"
        assert opened.studio.desk.day.on.isoformat() == "2026-12-03"
        await opened.press("f1")
        await opened.choose("day.show_today")
        await opened.pilot.pause()
        assert opened.shown == "Ilse"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_help_does_the_command_that_is_chosen_and_closes_with_its_own_key(tmp_path):
    async def steps(opened):
        before, (first, *others) = opened.marks(), keys_of("app.show_help")
        await opened.press(first)
        assert isinstance(opened.app.screen, HelpScreen)
        await opened.choose("assignment.mark_not_yet")
        await opened.pilot.pause()
        assert opened.marks() == before | {lines_of(opened)[0]: "not yet"}
        for key in (first, *others):
            await opened.press(key)
            assert isinstance(opened.app.screen, HelpScreen), key
            await opened.press(key)
            assert isinstance(opened.app.screen, DayScreen), key
        await opened.press(others[-1] if others else first)
        await opened.choose("lesson.finish")
        await opened.pilot.pause()
        assert opened.lesson("Ilse").finished_at == opened.clock.at

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("key", keys_of("app.command_palette"))
def test_a_command_is_found_and_done(tmp_path, key):
    async def steps(opened):
        await opened.press(key)
        assert isinstance(opened.app.screen, FindScreen)
        await opened.type("next lesson")
        await opened.press("enter")
        await opened.pilot.pause()
        assert opened.shown == "Mireille"

    on_screen(tmp_path, steps)


@pytest.mark.long
def test_the_review_is_written_out_by_key_and_by_tap_and_left_again(tmp_path):
    async def steps(opened):
        written = tmp_path / "reviews" / "2026-12-01.md"
        for key in keys_of("app.show_review"):
            await opened.press(key)
            assert isinstance(opened.app.screen, DayReviewScreen), key
            for write in keys_of("review.write_out"):
                await opened.press(write)
                assert "Ilse" in written.read_text(encoding="utf-8"), (key, write)
                written.unlink()
            assert opened.lesson("Ilse").is_live, key
            await opened.press(key)
            assert isinstance(opened.app.screen, DayScreen), key
        await opened.press("f10")
        await opened.tap("review.write_out")
        assert "Ilse" in written.read_text(encoding="utf-8")

    on_screen(tmp_path, steps)


def test_a_follow_up_is_ticked_in_the_review_and_taken_back_and_a_line_leads_to_its_lesson(tmp_path):
    async def steps(opened):
        owed = opened.studio.store.reading.open_follow_ups()
        await opened.press("f10")
        await opened.choose("owed:0")
        assert opened.studio.store.reading.open_follow_ups() == owed[1:]
        await opened.press("f4")
        assert opened.studio.store.reading.open_follow_ups() == owed
        await opened.choose(f"lesson:l@2026-12-01:{opened.id_of('Nalani')}")
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, DayScreen)
        assert opened.shown == "Nalani"

    on_screen(tmp_path, steps)


def test_the_address_of_the_call_is_always_told(tmp_path):
    async def steps(opened):
        for key in keys_of("lesson.open_link"):  # the lesson runs: it is asked first whether the call is lost
            opened.day.say("")
            await opened.press(key, key)
            assert opened.said.endswith("https://call.example.org/ilse"), key

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("key", keys_of("app.quit"))
def test_close_ends_the_program_with_every_word_saved(tmp_path, key):
    async def steps(opened):
        await opened.type("x")
        await opened.press(key)
        assert opened.app._exit
        assert opened.body("Ilse") == f"{TYPED}\nx"

    on_screen(tmp_path, steps)


# Panes and marks


def test_tab_goes_round_the_panes_escape_back_to_the_notes_and_enter_in_the_queue_shows_that_lesson(tmp_path):
    async def steps(opened):
        def focused():
            return next(
                name for name in ("notes", "last", "queue") if opened.day.query_one(f"#{name}").has_focus_within
            )

        seen = []
        for _ in range(3):
            await opened.press("tab")
            seen.append(focused())
        assert seen == ["last", "queue", "notes"]
        for tabs in (1, 2):
            await opened.press(*["tab"] * tabs, "escape")
            assert focused() == "notes"
        await opened.type("x")
        assert opened.body("Ilse") == f"{TYPED}\nx"
        await opened.press("tab", "tab", "down", "enter")
        assert opened.shown == "Mireille"
        await opened.type("x")
        assert opened.body("Mireille") == "x"

    on_screen(tmp_path, steps)


def test_letters_mark_the_last_assignments_by_sign_and_color_and_the_cursor_stays_for_what_else_was_heard(tmp_path):
    async def steps(opened):
        lines = lines_of(opened)
        await opened.press("tab", "m", "down", "n", "down", "d")
        assert [opened.marks().get(line) for line in lines[:3]] == ["more work", "not yet", "done"]
        rows = [option.prompt for option in opened.day.query_one("#assignments", OptionList).options][:3]
        assert [str(row)[0] for row in rows] == ["◐", "○", "●"]
        assert "not yet" in " ".join(str(rows[1]).split())
        assert len({row.spans[0].style for row in rows}) == 3
        assert len(lines) == 4  # three of last time, and one of the week before that is open
        await opened.press("escape", "f4")
        assert lines[2] not in opened.marks()
        assert opened.body("Ilse") == TYPED

    on_screen(tmp_path, steps)


def test_enter_goes_round_the_marks_of_an_assignment(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab")
        line = lines_of(opened)[0]
        seen = []
        for _ in range(5):
            await opened.press("enter")
            seen.append(opened.marks().get(line))
        assert seen == ["done", "more work", "not yet", "dropped", None]

    on_screen(tmp_path, steps)


# Taps


def test_every_item_of_the_key_strip_stands_where_it_is_tapped_and_a_tap_does_the_same_as_the_key(tmp_path):
    async def steps(opened):
        drawn = opened.drawn().splitlines()
        strip = opened.day.query_one("#strip")
        for item in strip._items:
            row = drawn[strip.content_region.y]
            begins = strip.content_region.x + item.begins
            assert row[begins:].split("  ")[0].endswith(item.command.short)
        await opened.tap("lesson.go_next")
        assert opened.shown == "Mireille"
        await opened.tap("lesson.finish")
        assert opened.lesson("Ilse").finished_at == opened.clock.at
        await opened.tap("app.undo")
        assert opened.lesson("Ilse").is_live
        await opened.tap("app.show_help")
        assert isinstance(opened.app.screen, HelpScreen)

    on_screen(tmp_path, steps, size=(150, 45))


# Her own keys


def test_her_own_keys_work_and_the_old_ones_do_not(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        assert opened.lesson("Ilse").is_live
        await opened.press("f3")
        assert opened.lesson("Ilse").finished_at == opened.clock.at

    on_screen(tmp_path, steps, keys={"lesson.finish": "f3, ctrl+y", "lesson.give_full_length": ""})


@pytest.mark.long
def test_a_command_without_a_key_can_be_given_one_and_her_own_letters_mark_assignments(tmp_path):
    async def steps(opened):
        await opened.press("f8")
        await opened.type("oskar")
        await opened.press("enter", "f13")
        assert opened.shown == "Ilse"
        line = lines_of(opened)[0]
        await opened.press("tab", "y")
        assert opened.marks()[line] == "done"

    on_screen(tmp_path, steps, keys={"day.show_today": "f13", "assignment.mark_done": "y"})


@pytest.mark.parametrize(
    ("own", "words"),
    [
        ({"lesson.finsh": "f9"}, ["settings.toml", "lesson.finsh", "lesson.finish"]),
        ({"lesson.begin": "f9"}, ["f9", "lesson.begin", "lesson.finish"]),
        ({"lesson.finish": "f9,a"}, ["settings.toml", "keys.lesson.finish", "f9,a", "do not type a letter"]),
        ({"notes.take_word": "A"}, ["keys.notes.take_word", "do not type a letter"]),
        ({"lesson.begin": "CTRL+S"}, ["ctrl+s", "lesson.begin", "lesson.finish"]),
        ({"assignment.mark_done": "n"}, ["n", "assignment.mark_done", "assignment.mark_not_yet"]),
        ({"assignment.mark_done": "f9"}, ["f9", "assignment.mark_done", "lesson.finish"]),
        ({"review.write_out": "f1"}, ["f1", "review.write_out", "app.show_help"]),
    ],
)
def test_unknown_commands_and_clashes_are_told_with_what_would_work(own, words):
    with pytest.raises(BadSettings) as told:
        with_own_keys(own)
    for word in words:
        assert word in str(told.value)


OF_THE_DAY = {Place.DAY, Place.NOTES, Place.LAST, Place.QUEUE}


def test_one_key_for_two_commands_is_refused_where_both_are_heard_and_taken_everywhere_else():
    """A place that somebody adds is one like any other, also where it shares a key with those that are there."""
    for first, second in product(Place, Place):
        pair = tuple(
            Command(id=f"{name}.do", keys=("escape",), label="Do", help="Does.", place=place)
            for name, place in (("one", first), ("two", second))
        )
        both = {first, second}
        is_clash = len(both) == 1 or Place.EVERYWHERE in both or (Place.DAY in both and both <= OF_THE_DAY)
        with pytest.raises(BadSettings, match="escape") if is_clash else nullcontext():
            refuse_clashes(pair)


def test_what_hears_keys_on_the_lesson_day_is_one_of_its_panes_and_its_title_stands_out(tmp_path):
    async def steps(opened):
        for pane in ("last", "queue", "notes"):
            await opened.press("tab")
            standing_out = [each.parent.id for each in opened.day.query(Heading) if "━━" in str(each.render())]
            assert standing_out == [pane]
        bound = {key.id for each in opened.day.query("*") for key in each.BINDINGS if isinstance(key, Binding)}
        places = {BY_ID[each].place for each in bound if each in BY_ID}
        assert places == OF_THE_DAY - {Place.DAY}
        assert {command.place for command in opened.day.commands_here()} == OF_THE_DAY | {Place.EVERYWHERE}

    on_screen(tmp_path, steps, size=(130, 40))


# The table itself


def homes():
    """What hears keys, by its place."""
    for module in Path(cockpit.screens.__file__).parent.rglob("*.py"):
        import_module(".".join(module.relative_to(Path(cockpit.__file__).parent.parent).with_suffix("").parts))
    widgets, found = [Widget], {Place.EVERYWHERE: [CockpitApp]}
    while widgets:
        widget = widgets.pop()
        widgets += widget.__subclasses__()
        if "PLACE" in vars(widget):
            found.setdefault(widget.PLACE, []).append(widget)
    return found


def test_every_command_has_a_label_a_help_text_and_one_home_that_carries_it_out():
    found = homes()
    assert set(found) == set(Place)
    for command in COMMANDS:
        assert command.label
        assert command.help.endswith(".")
        (home,) = found[command.place]
        assert command.id in {key.id for key in home.BINDINGS}
        owner, name = (CockpitApp, "open_screen") if command.opens else (home, command.action.removeprefix("app."))
        assert hasattr(owner, f"action_{name}"), command.id


def test_what_a_command_opens_is_a_screen_that_needs_nothing_but_the_parts():
    opening = [command for command in COMMANDS if command.opens]
    assert opening
    for command in opening:
        module, _, name = command.opens.partition(":")
        screen = getattr(import_module(module), name)
        assert issubclass(screen, CockpitScreen)
        assert list(signature(screen.__init__).parameters)[:2] == ["self", "parts"]
        assert all(each.default is not each.empty for each in list(signature(screen.__init__).parameters.values())[2:])


def test_ids_are_used_once_and_the_keys_of_the_program_do_not_clash():
    assert len({command.id for command in COMMANDS}) == len(COMMANDS)
    assert with_own_keys({}) == COMMANDS


def test_a_function_key_always_has_a_control_letter_beside_it():
    for command in COMMANDS:
        if any(key[1:].isdigit() for key in command.keys):
            assert any(key.startswith("ctrl+") for key in command.keys), command.id


def test_a_sentence_that_does_not_fit_ends_with_which_part_it_is(tmp_path):
    async def steps(opened):
        opened.day.say("word " * 60)
        await opened.pilot.pause()
        assert opened.drawn().splitlines()[-2].split()[-2:] == ["word", "1/9"]
        opened.day.say("short")
        await opened.pilot.pause()
        assert opened.drawn().splitlines()[-2].split() == ["short"]

    on_screen(tmp_path, steps, size=(44, 20))
