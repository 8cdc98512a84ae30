"""The review of a day as Markdown, for the teacher alone."""

from datetime import date

import pytest
from support.golden import assert_golden
from support.papers import EVENING, review
from support.rendering import COMMONMARK, inline_text
from support.studio import CLOCK, HOME, booking, home, student

from cockpit.papers.review import review_markdown
from cockpit.studio.changes.records import Export, Note
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.day.review import DayReview, review_day
from cockpit.studio.values import replace

EMPTY = DayReview(on=date(2026, 12, 5), lessons=(), missing=(), owed=(), tomorrow_on=date(2026, 12, 6), tomorrow=())


def test_the_review_of_a_full_day_is_the_golden_one() -> None:
    assert_golden(review_markdown(review(), CLOCK), "review.md")


def test_the_review_of_a_day_without_lessons_is_the_golden_one() -> None:
    assert_golden(review_markdown(EMPTY, TeacherClock(zone=HOME, hours=24)), "review-empty.md")


def items(markdown: str) -> list[str]:
    tokens = COMMONMARK.parse(markdown)
    return [inline_text(token) for token in tokens if token.type == "inline"]


def test_names_and_follow_ups_are_shown_as_they_were_typed() -> None:
    typed = "1. *Ilse* [x](y) #"
    looked_back = review()
    first = looked_back.lessons[0]
    first = replace(first, booking=replace(first.booking, student=student(name=typed)))
    owed = (replace(looked_back.owed[0], student=typed),)
    shown = items(review_markdown(replace(looked_back, lessons=(first,), owed=owed), CLOCK))
    assert any(item.startswith(f"{typed}, cello, 4:00 pm to 4:30 pm: finished.") for item in shown)
    assert f"{typed}, Tue, December 1: send the *recital* date" in shown


AT = home("2026-12-01 16:30")


def export(*, is_final: bool = True, minutes_late: int = 0) -> Export:
    at = home(f"2026-12-01 16:{30 + minutes_late}")
    return Export(lesson_id=booking().lesson.id, path="notes/a.md", is_final=is_final, exported_at=at)


@pytest.mark.parametrize(
    ("body", "written", "said"),
    [
        ("", None, "No notes."),
        ("Scales: C", None, "Notes not exported, 1 assignment."),
        ("well done", export(), "Notes exported, 0 assignments."),
        ("Scales: C", export(is_final=False), "Notes exported as a draft, 1 assignment."),
        (
            "Scales: C\nEar: thirds",
            export(minutes_late=-5),
            "Notes changed since they were exported, 2 assignments.",
        ),
    ],
)
def test_what_became_of_the_notes_is_said(body: str, written: Export | None, said: str) -> None:
    taught = booking(began_at=home("2026-12-01 16:00"), finished_at=AT)
    note = Note(lesson_id=taught.lesson.id, body=body, changed_at=AT)
    exports = {} if written is None else {taught.lesson.id: written}
    lessons, _ = review_day([taught], {taught.lesson.id: note}, exports, EVENING)
    line = items(review_markdown(replace(EMPTY, lessons=lessons), CLOCK))[3]
    assert line == f"Ilse, cello, 4:00 pm to 4:30 pm: finished. Taught from 4:00 pm to 4:30 pm, 30 minutes. {said}"


def test_a_running_lesson_says_when_it_was_begun() -> None:
    lessons, _ = review_day([booking(began_at=home("2026-12-01 16:02"))], {}, {}, home("2026-12-01 16:10"))
    assert "running. Began at 16:02, 8 minutes so far. No notes." in review_markdown(
        replace(EMPTY, lessons=lessons), TeacherClock(zone=HOME, hours=24)
    )
