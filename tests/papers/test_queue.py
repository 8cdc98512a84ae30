"""The queue for scripts and for a terminal."""

import json
from datetime import datetime, timedelta
from unicodedata import normalize

from hypothesis import given
from hypothesis import strategies as st
from support.golden import assert_golden
from support.studio import HOME, HOUSEHOLDS, ILSE, ISHAAN, back_to_back, booking, home, student

from cockpit.papers.columns import cells, columns
from cockpit.papers.queue import queue_json, queue_text
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson

NOW = home("2026-12-01 16:10")


def day() -> list[ScheduledLesson]:
    bookings = back_to_back(30, 45, 60, 30, 30, 30)
    lesson = bookings[0].lesson
    bookings[0] = booking(ILSE, starts_at=lesson.starts_at, minutes=30, began_at=home("2026-12-01 16:01"))
    bookings[3] = booking(
        bookings[3].student, starts_at=bookings[3].lesson.starts_at, outcome=Outcome.CANCELLED, kind=Kind.MAKE_UP
    )
    return bookings


def test_a_lesson_has_both_clocks_with_their_offsets() -> None:
    first, second, *_ = json.loads(queue_json(day(), HOME, NOW))
    assert first == {
        "id": "w1-2026-12-01",
        "student": "Ilse",
        "family": "Brandvold",
        "instrument": "cello",
        "kind": "weekly",
        "starts_at": "2026-12-01T16:00:00-06:00",
        "family_starts_at": "2026-12-01T15:00:00-07:00",
        "minutes": 30,
        "state": "running",
    }
    assert second["family_starts_at"] == "2026-12-01T22:30:00+00:00"
    assert second["state"] == "booked"


def test_both_clocks_name_the_same_moment() -> None:
    for lesson, booked in zip(json.loads(queue_json(day(), HOME, NOW)), day(), strict=True):
        assert datetime.fromisoformat(lesson["starts_at"]) == booked.lesson.starts_at
        assert datetime.fromisoformat(lesson["family_starts_at"]) == booked.lesson.starts_at


def test_states_and_kinds_are_words() -> None:
    cancelled = json.loads(queue_json(day(), HOME, NOW))[3]
    assert (cancelled["kind"], cancelled["state"]) == ("make-up", "cancelled")


def test_names_in_any_script_stay_readable_in_the_file() -> None:
    booked = ScheduledLesson(lesson=day()[0].lesson, student=student(name="明美 Dvořák"), family=HOUSEHOLDS[ILSE][0])
    assert '"student": "明美 Dvořák",\n' in queue_json([booked], HOME, NOW)


def test_a_day_without_lessons_is_an_empty_list_and_a_sentence() -> None:
    assert queue_json([], HOME, NOW) == "[]\n"
    assert queue_text([], HOME, 12, NOW) == "No lessons.\n"


def test_the_queue_stands_in_columns() -> None:
    assert_golden(queue_text(day(), HOME, 12, NOW), "queue.txt")


def test_a_family_on_the_teachers_clock_leaves_no_empty_column() -> None:
    assert queue_text([booking(minutes=60)], "America/Phoenix", 24, NOW) == "15:00  60 min  Ilse  cello  booked\n"


def test_a_wide_name_takes_two_cells_a_sign_and_an_accent_none() -> None:
    assert cells("明美") == 4
    assert cells(normalize("NFD", "é")) == 1
    assert columns([("明美", "a"), ("Ilse", "b"), ("é", "c")]) == "明美  a\nIlse  b\né     c\n"


@given(st.lists(st.tuples(st.text("a明\u0301", max_size=5), st.just("|")), min_size=1))
def test_columns_are_aligned_whatever_the_script(rows: list[tuple[str, str]]) -> None:
    lines = columns(rows).splitlines()
    assert len({cells(line.partition("|")[0]) for line in lines}) == 1


def test_a_name_with_a_control_sequence_or_a_line_break_stays_one_line() -> None:
    booked = ScheduledLesson(
        lesson=day()[0].lesson, student=student(name="Il\x1b[2J\nse"), family=HOUSEHOLDS[ISHAAN][0]
    )
    text = queue_text([booked], HOME, 12, NOW)
    assert "\x1b" not in text
    assert text.count("\n") == 1


def test_the_order_given_is_kept() -> None:
    backwards = list(reversed(day()))
    assert [lesson["student"] for lesson in json.loads(queue_json(backwards, HOME, NOW))] == [
        booked.student.name for booked in backwards
    ]
    assert backwards[0].lesson.starts_at - backwards[-1].lesson.starts_at > timedelta()
