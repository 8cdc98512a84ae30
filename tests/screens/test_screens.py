"""The screens as text. The kept pictures lie in `golden`; COCKPIT_WRITE_GOLDEN=1 writes them anew, and fails."""

import os
import re
from datetime import timedelta
from pathlib import Path

import pytest
from support.recitals import planned_recital
from support.screens import on_screen

from cockpit.sample import history
from cockpit.screens.lessons.countdown import Countdown

GOLDEN = Path(__file__).parent / "golden"
SIZES = [(44, 20), (80, 40), (130, 40)]
EVERY_SIZE = [
    *((width, height) for width in (44, 45, 60, 69, 70, 90, 129, 130, 200) for height in (20, 29, 30, 60)),
    *((52, 23), (80, 24), (100, 31), (132, 43)),
]


def assert_kept(drawn, name):
    kept = GOLDEN / f"{name}.txt"
    if os.environ.get("COCKPIT_WRITE_GOLDEN") == "1" and not (
        kept.exists() and kept.read_text(encoding="utf-8") == drawn
    ):
        kept.parent.mkdir(exist_ok=True)
        kept.write_text(drawn, encoding="utf-8")
        raise AssertionError(f"{name} was written anew; look at the difference and run without COCKPIT_WRITE_GOLDEN")
    assert drawn == kept.read_text(encoding="utf-8")


def clock_lines(opened):
    """What is drawn where the clock is."""
    region = opened.day.query_one("#clock").region
    return opened.drawn().splitlines()[region.y : region.bottom]


def assert_clock_and_student(opened, student, *words):
    lines = "\n".join(clock_lines(opened))
    assert student in lines
    for word in words:
        assert word in lines, (word, opened.app.size)
    assert sum(lines.count(dot) for dot in "█▀▄") > 25
    assert max(len(line) for line in opened.drawn().splitlines()) <= opened.app.size.width


LOOKED_AT = [
    {"day": [], "help": ["f1"], "find": ["escape", "f8"], "review": ["escape", "f10"], "week": ["escape", "ctrl+a"], "year": ["y"], "roster": ["escape", "escape", "tab", "tab", "r"]},
    {"last": ["tab"], "queue": ["tab"], "next": ["escape", "f5"]},
]  # fmt: skip


@pytest.mark.parametrize(
    ("one_after_another", "width", "height"),
    [
        pytest.param(keys, *size, marks=pytest.mark.long if keys is LOOKED_AT[1] and size != (44, 20) else ())
        for keys in LOOKED_AT
        for size in SIZES
    ],
    ids=lambda each: " ".join(each) if isinstance(each, dict) else None,
)
def test_the_screens_are_as_they_were_looked_at(tmp_path, monkeypatch, one_after_another, width, height):
    monkeypatch.chdir(tmp_path)  # the studio folder is named in Help, and how long its name is shows in the scroll bar

    async def steps(opened):
        for name, keys in one_after_another.items():
            await opened.press(*keys)
            await opened.pilot.pause()
            drawn = opened.drawn()
            if name == "help":
                drawn = drawn.split("Studio folder")[0]
            assert_kept(drawn, f"{name}-{width}x{height}")

    on_screen(Path("studio"), steps, size=(width, height))


def test_the_screens_of_a_recital_are_as_they_were_looked_at(tmp_path):
    one_after_another = {
        "recital": ["escape", "tab", "tab", "g"], "recital-ready": ["r"], "recital-times": ["escape", "t"],
        "recital-live": ["escape", "l", "y", "enter", "enter"], "recitals": ["f4", "f4", "escape", "v"],
    }  # fmt: skip

    async def steps(opened):
        planned_recital(opened.studio.desk)
        for width, height in ((44, 20), (80, 24), (80, 40), (150, 45)):
            await opened.pilot.resize_terminal(width, height)
            for name, keys in one_after_another.items():
                await opened.press(*keys)
                await opened.pilot.pause()
                assert_kept(opened.drawn(), f"{name}-{width}x{height}")
            await opened.press("escape")

    on_screen(tmp_path, steps)


@pytest.mark.parametrize("sizes", [EVERY_SIZE[::4], pytest.param(EVERY_SIZE, marks=pytest.mark.long)])
def test_the_clock_and_the_student_are_seen_at_every_size(tmp_path, sizes):
    async def steps(opened):
        for width, height in sizes:
            await opened.pilot.resize_terminal(width, height)
            await opened.pilot.pause()
            assert_clock_and_student(opened, "Ilse", "left", "ends 4:45 pm")
            assert "4:12 pm" in opened.drawn()

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.parametrize("size", [(44, 20), (80, 24), (200, 60)])
def test_the_clock_and_the_student_are_there_from_the_first_picture(tmp_path, size):
    async def steps(opened):
        assert_clock_and_student(opened, "Ilse", "left", "ends 4:45 pm")

    on_screen(tmp_path, steps, size=size)


def test_the_running_lesson_stays_on_the_clock_whatever_is_shown_below(tmp_path):
    async def steps(opened):
        for key in ("tab", "tab", "escape", "f5", "f5", "tab"):
            await opened.press(key)
            assert_clock_and_student(opened, "Ilse", "left")

    on_screen(tmp_path, steps, size=(44, 20))


def test_help_and_find_leave_the_time_of_the_running_lesson_in_sight(tmp_path):
    async def steps(opened):
        for size in ((44, 20), (80, 24), (80, 40), (150, 45)):
            await opened.pilot.resize_terminal(*size)
            await opened.pilot.pause()
            for key in ("f1", "f8", "ctrl+p", "f7"):
                await opened.press(key)
                await opened.pilot.pause()
                assert opened.app.screen is not opened.day, (size, key)
                assert opened.drawn().startswith(" 33:00 left Ilse"), (size, key)
                await opened.press("escape")
                assert opened.app.screen is opened.day, (size, key)

    on_screen(tmp_path, steps, size=(44, 20))


@pytest.mark.parametrize("minutes", [0, pytest.param(35, marks=pytest.mark.long)])
def test_a_dialog_leaves_the_time_of_the_running_lesson_its_bar_and_the_student_in_sight(tmp_path, minutes):
    on_day = {"a line": ["tab", "tab", "m"], "a letter, as high as there is room": ["tab", "tab", "w"]}
    elsewhere = {"f10": ["+"], "ctrl+a": ["m"]}

    def room_above(opened) -> list[str]:
        sheet = opened.app.screen.query_one(".sheet").region
        assert sheet.bottom <= opened.app.size.height
        return opened.drawn().splitlines()[: sheet.y]

    async def steps(opened):
        opened.clock.wind(minutes=minutes)
        for size in ((44, 20), (44, 40), (80, 24), (80, 40), (150, 45)):
            await opened.pilot.resize_terminal(*size)
            opened.day.tick()
            await opened.pilot.pause()
            for keys in on_day.values():
                clock = clock_lines(opened)
                await opened.press(*keys)
                above = room_above(opened)
                assert above[: len(clock)] == clock, (size, keys)
                assert "Ilse" in "".join(clock)
                assert sum("".join(clock).count(dot) for dot in "█▀▄") > 25
                assert any(bar in row for row in clock for bar in ("┤┃", "┥┃")), (size, keys)
                await opened.press("escape", "escape")
            for key, keys in elsewhere.items():
                await opened.press(key)
                row = opened.drawn().splitlines()[0]
                await opened.press(*keys)
                assert opened.app.screen.query(".sheet") or key == "ctrl+a", (size, key)
                assert opened.drawn().splitlines()[0] == row, (size, key)
                assert "Ilse" in row
                assert "┤┃" in row or minutes, (size, row)
                await opened.press("escape", "escape")
                assert opened.app.screen is opened.day

    on_screen(tmp_path, steps, size=(44, 20))


def test_on_a_narrow_screen_the_time_of_day_stays_beside_what_the_wrap_up_and_over_time_say(tmp_path):
    async def steps(opened):
        await opened.press("f10")
        for minutes, row in (
            (30, " 3:00 left Ilse WRAP UP  NEXT 4:45  4:42 pm"),
            (6, " +3:00 Ilse OVER TIME  NEXT 4:45    4:48 pm"),
        ):
            opened.clock.wind(minutes=minutes)
            opened.app._tick()
            await opened.pilot.pause()
            assert opened.drawn().splitlines()[0] == row

    on_screen(tmp_path, steps, size=(44, 20))


def test_on_a_narrow_screen_a_long_wait_is_told_in_hours_with_the_time_of_the_start(tmp_path):
    async def steps(opened):
        for width, words in ((44, "hours to go"), (80, "until the lesson")):
            await opened.pilot.resize_terminal(width, 20)
            await opened.pilot.pause()
            assert_clock_and_student(opened, "Eilidh clarinet 45", words, "starts 2:30 pm")

    on_screen(tmp_path, steps, size=(44, 20), at=history.MOMENT - timedelta(hours=8))


def test_a_change_of_size_keeps_the_words_and_the_cursor(tmp_path):
    async def steps(opened):
        await opened.type("one")
        for width, height in [(44, 20), (130, 40), (80, 24)]:
            await opened.pilot.resize_terminal(width, height)
            await opened.type("x")
        assert opened.body("Ilse").endswith("17-40\nonexxx")

    on_screen(tmp_path, steps)


def test_the_phases_of_a_lesson_are_told_in_words(tmp_path):
    async def steps(opened):
        def told(*words):
            opened.day.tick()
            assert_clock_and_student(opened, words[0], *words[1:])

        async def wound(minutes, *words):
            opened.clock.wind(minutes=minutes)
            opened.day.tick()
            await opened.pilot.pause()
            told(*words)

        await wound(0, "Ilse", "left")
        await wound(29, "Ilse", "WRAP UP")
        await wound(6, "Ilse", "OVER TIME")
        assert "next 4:45  Mireille" in opened.drawn()
        await opened.press("f9")
        await wound(1, "Mireille", "past the start", "wait")

    on_screen(tmp_path, steps, size=(44, 20))


def test_in_over_time_the_clock_says_what_to_do_and_who_waits(tmp_path):
    async def steps(opened):
        for minutes in (35, 10):  # from the second on, the figures have a digit more
            opened.clock.wind(minutes=minutes)
            opened.day.tick()
            told = "\n".join(clock_lines(opened))
            assert "OVER TIME  F9 finishes" in told
            assert "4:45  Mireille" in told
            assert "waits for" in told

    on_screen(tmp_path, steps, size=(80, 24))


def test_on_a_tinted_band_there_is_only_text_and_the_color_of_the_clock(tmp_path):
    async def steps(opened):
        for minutes, color in ((29, "$role-clock-wrap-up"), (6, "$role-clock-over")):
            opened.clock.wind(minutes=minutes)
            opened.day.tick()
            band = opened.day.query_one(Countdown).render()
            assert "New three-quarter cello" in band.plain
            assert set(re.findall(r"\$role-[a-z-]+", band.markup)) == {"$role-text", color}

    on_screen(tmp_path, steps, size=(150, 45))


def test_the_states_of_the_queue_are_told_by_a_sign_and_what_is_not_as_planned_by_a_word(tmp_path):
    async def steps(opened):
        await opened.press("f5", "tab", "tab", "a", "down", "c", "escape")
        opened.clock.wind(minutes=35)
        opened.day.tick()
        await opened.press("tab", "tab")
        await opened.pilot.pause()
        lines = opened.drawn().splitlines()
        for student, sign, word in [
            ("Eilidh", "●", ""),
            ("Ilse", "▶", "over time"),
            ("Mireille", "×", "absent"),
            ("Nalani", "×", "canceled"),
            ("Ishaan", "○", ""),
        ]:
            row = next(row for row, line in enumerate(lines) if f"{sign} {student}" in line)
            assert word in "".join(lines[row : row + 2]), student

    on_screen(tmp_path, steps, size=(130, 40))


def test_without_color_the_day_runs_and_says_the_same(tmp_path, monkeypatch):
    seen = []

    async def steps(opened):
        seen.append(opened.drawn())
        assert opened.app.no_color == (len(seen) == 2)
        await opened.press("x", "f9")
        assert opened.body("Ilse").endswith("x")
        assert opened.lesson("Ilse").finished_at == opened.clock.at

    on_screen(tmp_path / "with", steps)
    monkeypatch.setenv("NO_COLOR", "1")
    on_screen(tmp_path / "without", steps)
    assert seen[0] == seen[1]


def test_a_day_without_lessons_says_so(tmp_path):
    async def steps(opened):
        opened.clock.at = history.MOMENT
        opened.clock.wind(days=4)
        opened.studio.desk.day.open()
        opened.day.show()
        await opened.pilot.pause()
        assert "no lessons" in opened.drawn()
        await opened.press("f2")
        assert opened.said == "There are no lessons on this day."

    on_screen(tmp_path, steps)
