"""Notes that could not be saved: what the file holds is read back as it was typed, and put together nothing is lost."""

from datetime import date

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.lessons.unsaved import KeptNotes, UnsavedNotes, kept_text, mark_of, put_together, read_kept

TYPED = st.text(st.characters(exclude_categories=["Cs"]), max_size=60)


def unsaved(body: str, over: str = "") -> UnsavedNotes:
    return UnsavedNotes(
        lesson_id=LessonId("w1-2026-12-01"), student="Ilse", on=date(2026, 12, 1), body=body, over=mark_of(over)
    )


@given(body=TYPED)
@example(body="\n\nLesson: no lesson\n\nlast\r\n")
def test_what_is_kept_is_read_back_as_it_was_typed(body):
    kept = KeptNotes(notes=unsaved(body), studio="a-lasting-name", folder="/home/teacher/a folder: mine")
    assert read_kept(kept_text(kept)) == kept


@pytest.mark.parametrize("text", ["", "\n\n", "Ear: hum", "A line\nLesson: w1\nDate: tomorrow\n\nEar: hum"])
def test_any_other_text_is_refused(text):
    with pytest.raises(BadInput):
        read_kept(text)


def lines(text: str) -> set[str]:
    return {line.rstrip() for line in text.split("\n") if line.strip()}


@given(saved=TYPED, body=TYPED)
@example(saved="Ear: hum", body="hum")
@example(saved="Scales: D\nEar: hum", body="Ear: hum\n")
def test_notes_that_changed_meanwhile_keep_every_line_and_the_unsaved_ones_are_there_too(saved, body):
    together = put_together(saved, unsaved(body, over="what neither of them is"))
    assert lines(body) <= lines(together)
    assert saved.rstrip() in together
    assert put_together(together, unsaved(body, over="what neither of them is")) == together


@given(saved=TYPED, body=TYPED)
def test_notes_that_are_as_they_were_get_the_text_that_was_on_the_screen(saved, body):
    assert put_together(saved, unsaved(body, over=saved)) == body
