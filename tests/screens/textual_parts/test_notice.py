"""The notice: one row over the key strip, its parts one after another, and nothing else that it hides."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.screens import on_screen

from cockpit.screens.textual_parts.notice import Notice, notice_parts

LONG = "Not saved. The disk is full. Free some space. Your words stay on the screen and are saved as soon as there is room."


def test_a_sentence_begins_a_part_where_it_does_not_fit_behind_the_one_before():
    assert notice_parts("Undone: absent.", 78) == ["Undone: absent."]
    assert notice_parts("A name\nof two lines has begun.", 78) == ["A name of two lines has begun."]
    assert notice_parts(LONG, 78) == [
        "Not saved. The disk is full. Free some space.",
        "Your words stay on the screen and are saved as soon as there is room.",
    ]
    assert notice_parts(LONG, 42) == [
        "Not saved. The disk is full.",
        "Free some space.",
        "Your words stay on the screen and are",
        "saved as soon as there is room.",
    ]


@given(words=st.text(alphabet="ab.? ", min_size=1, max_size=200), width=st.integers(8, 60))
def test_no_part_is_wider_than_the_row_and_no_letter_is_lost(words, width):
    parts = notice_parts(words.strip(), width)
    assert all(cell_len(part) <= width for part in parts)
    assert "".join("".join(parts).split()) == "".join(words.split())


@pytest.mark.parametrize("size", [(44, 20), (80, 24), (150, 45)])
def test_it_lies_over_the_key_strip_alone_and_its_parts_come_one_after_another(tmp_path, size):
    async def steps(opened):
        opened.day.say("")
        await opened.pilot.pause()
        before = opened.drawn().splitlines()
        strip = opened.day.query_one("#strip").region.y
        for is_fault in (False, True):
            opened.day.say(LONG * 2, is_fault=is_fault)
            await opened.pilot.pause()
            notice = opened.day.query_one(Notice)
            seen = []
            for number, part in enumerate(parts := notice.parts, 1):
                rows = opened.drawn().splitlines()
                assert [*rows[:strip], *rows[strip + 1 :]] == [*before[:strip], *before[strip + 1 :]]
                assert rows[strip].split() == [*part.split(), f"{number}/{len(parts)}"]
                seen.append(part)
                notice._turn()
                await opened.pilot.pause()
            assert notice.display is is_fault, "a fault begins again, anything else goes"
        rows = opened.drawn().splitlines()
        assert rows[strip].split()[:1] == ["!"]
        await opened.press("f1", "end")
        assert "".join(LONG.split()) in "".join(opened.drawn().replace("│", "").split())

    on_screen(tmp_path, steps, size=size)


def test_a_tap_shows_the_next_part_and_after_the_last_one_the_keys(tmp_path):
    async def steps(opened):
        opened.day.say(LONG)
        notice = opened.day.query_one(Notice)
        for number in range(1, len(notice.parts) + 1):
            await opened.pilot.pause()
            assert f"{number}/{len(notice.parts)}" in opened.drawn().splitlines()[-1]
            await opened.pilot.click("#notice", offset=(3, 0))
        await opened.pilot.pause()
        assert not notice.display
        assert "F1 help" in opened.drawn().splitlines()[-1]

    on_screen(tmp_path, steps, size=(80, 24))
