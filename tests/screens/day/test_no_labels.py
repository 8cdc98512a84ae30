"""What looks like a label and is none is named before the family reads it: once, by the key that finishes."""

from support.screens import on_screen


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
