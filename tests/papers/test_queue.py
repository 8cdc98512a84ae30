"""The queue for scripts."""

import json
from datetime import datetime, timedelta

from support.studio import CLOCK, HOUSEHOLDS, ILSE, back_to_back, booking, home, student

from cockpit.papers.queue import queue_json
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
    first, second, *_ = json.loads(queue_json(day(), CLOCK, NOW))
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
    for lesson, booked in zip(json.loads(queue_json(day(), CLOCK, NOW)), day(), strict=True):
        assert datetime.fromisoformat(lesson["starts_at"]) == booked.lesson.starts_at
        assert datetime.fromisoformat(lesson["family_starts_at"]) == booked.lesson.starts_at


def test_states_and_kinds_are_words() -> None:
    cancelled = json.loads(queue_json(day(), CLOCK, NOW))[3]
    assert (cancelled["kind"], cancelled["state"]) == ("make-up", "cancelled")


def test_names_in_any_script_stay_readable_in_the_file() -> None:
    booked = ScheduledLesson(lesson=day()[0].lesson, student=student(name="明美 Dvořák"), family=HOUSEHOLDS[ILSE][0])
    assert '"student": "明美 Dvořák",\n' in queue_json([booked], CLOCK, NOW)


def test_a_day_without_lessons_is_an_empty_list() -> None:
    assert queue_json([], CLOCK, NOW) == "[]\n"


def test_the_order_given_is_kept() -> None:
    backwards = list(reversed(day()))
    assert [lesson["student"] for lesson in json.loads(queue_json(backwards, CLOCK, NOW))] == [
        booked.student.name for booked in backwards
    ]
    assert backwards[0].lesson.starts_at - backwards[-1].lesson.starts_at > timedelta()
