"""What is asked once before it is done: a line that looks like a label and is none, a finish or a mark that may be a slip."""

from support.screens import on_screen

from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.values import replace


def paper(opened) -> str:
    """What the family got of the day's lesson."""
    return next((opened.folder / "notes").rglob("2026-12-01 Ilse.md")).read_text(encoding="utf-8")


def test_finishing_names_once_what_looks_like_a_label_and_is_none(tmp_path):
    async def steps(opened):
        await opened.type("Mum: she is tired")
        await opened.press("f9")
        assert opened.said == "'Mum:' is no label: the family will read this line. F9 again sends it."
        assert opened.lesson("Ilse").finished_at is None
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at is not None
        assert "Mum: she is tired" in paper(opened)

    on_screen(tmp_path, steps)


def test_one_sentence_names_every_such_line_and_a_new_one_is_named_again(tmp_path):
    async def steps(opened):
        await opened.type("Mum: tired")
        await opened.press("enter")
        await opened.type("Private she cried")
        await opened.press("f9")
        assert opened.said == (
            "'Mum:' is no label: the family will read this line. 'Private' has no colon: the family will read this line. "
            "F9 again sends them."
        )
        await opened.press("enter")
        await opened.type("Dad: away")
        await opened.press("f9")
        assert opened.said == "'Dad:' is no label: the family will read this line. F9 again sends it."
        assert opened.lesson("Ilse").finished_at is None

    on_screen(tmp_path, steps)


def test_a_near_miss_that_is_kept_back_needs_no_question(tmp_path):
    async def steps(opened):
        await opened.type("Prviate: parents-separated-7")
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at is not None
        assert "parents-separated-7" not in paper(opened)

    on_screen(tmp_path, steps)


def early(opened):
    """The setting as it is by itself: a finish with more than ten minutes left is asked about."""
    day = opened.studio.desk.day
    day.preferences = replace(day.preferences, early_minutes=10)


def test_a_finish_long_before_the_end_is_asked_about_and_a_second_one_finishes(tmp_path):
    async def steps(opened):
        early(opened)
        await opened.press("f9")
        assert opened.said == "33 minutes left. F9 again finishes the lesson."
        assert opened.lesson("Ilse").finished_at is None
        opened.clock.wind(minutes=2)
        await opened.press("f9")
        assert opened.said == "31 minutes left. F9 again finishes the lesson.", "the first was a slip, and long ago"
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at is not None

    on_screen(tmp_path, steps)


def test_one_question_names_every_reason_and_the_last_minutes_need_none(tmp_path):
    async def steps(opened):
        early(opened)
        await opened.type("Mum: tired")
        await opened.press("f9")
        assert opened.said == (
            "33 minutes left. 'Mum:' is no label: the family will read this line. F9 again finishes the lesson."
        )
        opened.clock.wind(minutes=23)
        await opened.press("f9")
        assert opened.lesson("Ilse").finished_at == opened.clock.at

    on_screen(tmp_path, steps)


def test_a_running_lesson_is_not_closed_by_a_slip_of_a_key(tmp_path):
    async def steps(opened):
        await opened.press("tab", "tab")
        for key, outcome in (("a", "absent"), ("c", "canceled late")):
            await opened.press(key)
            assert opened.said == (
                f"Ilse's lesson has been running for 12 minutes. Press the key again to mark Ilse {outcome}."
            )
            assert opened.lesson("Ilse").is_live, key
            await opened.press(key)
            assert opened.said == f"Ilse is marked {outcome}."
            assert opened.lesson("Ilse").began_at is None, key
            await opened.press("f4")
            assert opened.lesson("Ilse").is_live, key

    on_screen(tmp_path, steps)


def test_a_finish_of_a_lesson_that_was_not_begun_asks_what_became_of_it(tmp_path):
    async def steps(opened):
        await opened.press("f9")
        opened.clock.wind(minutes=40)
        for keys, outcome in (
            (["a"], Outcome.ABSENT),
            (["c"], Outcome.CANCELLED_LATE),
            (["down", "enter"], Outcome.ABSENT),
            (["escape"], None),
        ):
            await opened.press("f9")
            assert "Mireille's lesson was not begun. What became of it?" in opened.drawn(), keys
            assert not opened.is_recorded("Mireille") or opened.lesson("Mireille").outcome is None, keys
            await opened.press(*keys)
            assert opened.app.screen is opened.day, keys
            lesson = opened.lesson("Mireille") if opened.is_recorded("Mireille") else None
            assert (lesson.outcome if lesson is not None else None) is outcome, keys
            assert lesson is None or lesson.finished_at is None, keys
            if outcome is not None:
                await opened.press("f4")
        await opened.press("tab", "tab", "c", "y", *"sick", "enter")
        assert (opened.lesson("Mireille").outcome, opened.lesson("Mireille").reason) == (Outcome.CANCELLED_LATE, "sick")
        await opened.press("y")
        assert "Mireille, canceled late: sick. The reason is for you alone." in " ".join(opened.drawn().split())
        await opened.press("escape", "f4", "f4")
        for keys in (["t"], ["f9"], ["ctrl+s"], ["enter"]):
            await opened.press("f9", *keys)
            assert opened.lesson("Mireille").finished_at == opened.clock.at, keys
            await opened.press("f4")

    on_screen(tmp_path, steps)
