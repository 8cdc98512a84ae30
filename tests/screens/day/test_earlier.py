"""Earlier lessons: read beside the running clock, with the notes and their cursor left as they are."""

from datetime import timedelta

import pytest
from support.screens import on_screen

from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.day.earlier import EarlierScreen
from cockpit.studio.changes.records import Change, added
from cockpit.studio.lessons.lesson import LessonId, Outcome
from cockpit.studio.values import replace


def is_earlier(opened):
    return isinstance(opened.app.screen, EarlierScreen)


def test_each_key_opens_the_lesson_before_below_the_clock_and_takes_her_back_to_her_word(tmp_path):
    async def steps(opened):
        await opened.press("up", "home", "right")
        at, words = opened.notes.text.cursor_location, opened.notes.text.text
        keys = BY_ID["lesson.show_page"].keys
        assert keys == ("f7", "ctrl+k")
        for key, back in [(keys[0], "escape"), (keys[1], keys[0]), (keys[0], keys[1])]:
            await opened.press(key, "n")
            assert is_earlier(opened), key
            lines = opened.drawn().splitlines()
            assert "33:00 left Ilse" in lines[0]
            assert "EARLIER LESSONS  Ilse, Tue, November 24" in opened.drawn()
            assert "▒ mentions a new baby brother; be patient" in opened.drawn()
            await opened.press("pageup", "x", back, back)
            assert opened.app.screen is opened.day, back
            assert opened.notes.text.cursor_location == at
            assert opened.notes.text.text == words
        await opened.type("x")
        assert opened.notes.text.text != words

    on_screen(tmp_path, steps)


def test_she_walks_to_the_first_lesson_and_back_and_is_told_at_both_ends(tmp_path):
    async def steps(opened):
        await opened.press("f7", "n", "pageup")
        assert "November 17" in opened.drawn()
        assert "● Scales" in opened.drawn()
        assert "◐ Etude" in opened.drawn()
        await opened.press("left")
        assert opened.said == "There is no lesson before this one."
        assert "November 17" in opened.drawn()
        await opened.press("pagedown")
        assert "November 24" in opened.drawn()
        assert not opened.said
        await opened.press("right")
        assert opened.said == "The next one is the lesson you came from."
        assert "November 24" in opened.drawn()

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("size", [(44, 20), (80, 24), (150, 45)])
def test_every_line_of_a_lesson_fits_and_is_there_at_each_size(tmp_path, size):
    async def steps(opened):
        await opened.press("f7", "n")
        words = " ".join(opened.drawn().replace("▒", " ").split())
        for said in ("Lovely tone on the A string. Keep the thumb soft.", "YOURS ALONE", "GIVEN", "REMARKS"):
            assert said in words, size
        assert max(len(line) for line in opened.drawn().splitlines()) <= size[0]

    on_screen(tmp_path, steps, size=size)


def test_a_lesson_that_was_not_taught_says_so_and_a_first_lesson_opens_nothing(tmp_path):
    async def steps(opened):
        now = opened.lesson("Ilse")
        days = {Outcome.ABSENT: "× absent", Outcome.CANCELLED: "× canceled in time", Outcome.CANCELLED_LATE: "× canceled late"}  # fmt: skip
        lessons = [
            replace(now, id=LessonId(f"x{n}"), starts_at=now.starts_at - timedelta(days=n), began_at=None, outcome=each)
            for n, each in enumerate(days, 1)
        ]
        opened.studio.store.writing.apply(Change(said="test", edits=added(*lessons)))
        for number, said in enumerate(days.values()):
            await opened.press(*(["pageup"] if number else ["f7", "n"]))
            assert said in opened.drawn()
            assert "YOURS ALONE" not in opened.drawn()
        await opened.press("escape", "escape", "tab", "tab", "t")
        await opened.type("nora bell thu 9am phoenix 30m")
        await opened.press("enter", "f8")
        await opened.type("nora")
        await opened.press("enter", "f7", "n")
        assert opened.said == "Nora Bell has no earlier lesson in the last months."
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path, steps)


def test_in_the_queue_the_chosen_students_lessons_are_read(tmp_path):
    async def steps(opened):
        await opened.press("tab", "tab", "down", "f7")
        assert "MIREILLE  " in opened.drawn()
        await opened.press("n")
        assert "Mireille, " in opened.drawn()
        await opened.press("escape", "escape")
        assert opened.shown == "Ilse"

    on_screen(tmp_path, steps)
