"""The queue for scripts."""

import json
from datetime import datetime, timedelta

from support.studio import CLOCK, HOUSEHOLDS, ILSE, day_in_several_states, home, student

from cockpit.papers.queue import queue_json
from cockpit.studio.lessons.scheduled import ScheduledLesson

NOW = home("2026-12-01 16:10")


def test_a_lesson_has_both_clocks_with_their_offsets() -> None:
    first, second, *_ = json.loads(queue_json(day_in_several_states(), CLOCK, NOW))
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
    for lesson, booked in zip(
        json.loads(queue_json(day_in_several_states(), CLOCK, NOW)), day_in_several_states(), strict=True
    ):
        assert datetime.fromisoformat(lesson["starts_at"]) == booked.lesson.starts_at
        assert datetime.fromisoformat(lesson["family_starts_at"]) == booked.lesson.starts_at


def test_states_and_kinds_are_words() -> None:
    cancelled = json.loads(queue_json(day_in_several_states(), CLOCK, NOW))[3]
    assert (cancelled["kind"], cancelled["state"]) == ("make-up", "cancelled")


def test_names_in_any_script_stay_readable_in_the_file() -> None:
    booked = ScheduledLesson(
        lesson=day_in_several_states()[0].lesson, student=student(name="明美 Dvořák"), family=HOUSEHOLDS[ILSE][0]
    )
    assert '"student": "明美 Dvořák",\n' in queue_json([booked], CLOCK, NOW)


def test_a_day_without_lessons_is_an_empty_list() -> None:
    assert queue_json([], CLOCK, NOW) == "[]\n"


def test_the_order_given_is_kept() -> None:
    backwards = list(reversed(day_in_several_states()))
    assert [lesson["student"] for lesson in json.loads(queue_json(backwards, CLOCK, NOW))] == [
        booked.student.name for booked in backwards
    ]
    assert backwards[0].lesson.starts_at - backwards[-1].lesson.starts_at > timedelta()
