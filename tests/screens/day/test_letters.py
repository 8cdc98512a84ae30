"""Lessons called off, and letters to families, from the queue."""

from datetime import timedelta

from support.screens import on_screen
from textual.widgets import OptionList, Static, TextArea

from cockpit.sample import history
from cockpit.screens.post.letter import LetterScreen
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.post.outgoing import DeliveryStatus

TEN = history.MOMENT - timedelta(hours=6)


async def to_queue(opened, student):
    await opened.press("tab", "tab")
    listing = opened.day.query_one("#lessons", OptionList)
    listing.highlighted = [option.id for option in listing.options].index(opened.id_of(student))


def test_a_day_is_called_off_and_each_letter_is_read_before(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("i")
        assert "Called off: Ilse" in str(opened.app.screen.query_one("#understood", Static).content)
        await opened.type("from 4pm")
        said = str(opened.app.screen.query_one("#understood", Static).content)
        assert "Called off: Ilse, Mireille, Nalani, and Ishaan" in said
        assert (
            "Banerjee: There is no lesson for Ishaan on Wednesday, December 2, 2026, at 6:30 am (Kolkata time)." in said
        )
        await opened.press("enter")
        await opened.pilot.pause()
        assert "× Ilse     called off" in opened.drawn()
        assert opened.said.startswith("Called off: Ilse")
        assert len(opened.studio.desk.outbox.entries()) == 4
        await opened.press("f4")
        assert opened.studio.desk.outbox.entries() == ()
        assert {b.lesson.outcome for b in opened.studio.desk.day.bookings} == {None}

    on_screen(tmp_path / "studio", steps, at=TEN, size=(100, 40))


def test_enter_alone_calls_the_chosen_lesson_off(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Mireille")
        await opened.press("i", "enter")
        off = [b.student.name for b in opened.studio.desk.day.bookings if b.lesson.outcome is Outcome.CALLED_OFF]
        assert off == ["Mireille"]

    on_screen(tmp_path / "studio", steps, at=TEN)


def test_a_family_is_written_to_with_three_times_and_the_letter_is_copied_as_she_changed_it(tmp_path):
    async def steps(opened):
        copied = []
        opened.app.copy_to_clipboard = copied.append
        await to_queue(opened, "Ilse")
        await opened.press("w")
        screen = opened.app.screen
        assert isinstance(screen, LetterScreen)
        assert screen.query_one(TextArea).text.count("\n- ") == 3
        assert "To the Brandvold family, for you to copy" in opened.drawn()
        await opened.press(*"Hi! ")
        await opened.press("f5")
        assert len(copied) == 1
        assert copied[0].startswith(
            "Hi! The lesson for Ilse is on Tuesday, December 1, 2026, at 3:00 pm (Phoenix time)."
        )
        assert opened.said == "The letter for Ilse is copied."
        assert opened.studio.desk.outbox.entries() == ()
        await opened.press("w", "escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path / "studio", steps, at=TEN)


def test_a_letter_that_she_changed_is_not_left_by_one_key(tmp_path):
    async def steps(opened):
        await to_queue(opened, "Ilse")
        await opened.press("w", *"Hi! ", "escape")
        assert isinstance(opened.app.screen, LetterScreen)
        assert "Press esc again to leave" in opened.drawn()
        await opened.press("escape")
        assert opened.app.screen is opened.day

    on_screen(tmp_path / "studio", steps, at=TEN)


def test_a_letter_that_waits_to_be_copied_is_copied_in_the_outbox(tmp_path):
    async def steps(opened):
        copied = []
        opened.app.copy_to_clipboard = copied.append
        await to_queue(opened, "Ilse")
        await opened.press("i", "enter", "f10", "o")
        assert "for you to copy" in opened.drawn().lower()
        await opened.press("c")
        assert [text.split(",")[0] for text in copied] == ["There is no lesson for Ilse today"]
        (letter,) = opened.studio.desk.outbox.entries()
        assert letter.fate is DeliveryStatus.SENT
        await opened.press("c")
        assert len(copied) == 1

    on_screen(tmp_path / "studio", steps, at=TEN)
