"""The queue for a terminal."""

from unicodedata import normalize

from hypothesis import given
from hypothesis import strategies as st
from support.golden import assert_golden
from support.studio import CLOCK, HOUSEHOLDS, ISHAAN, booking, day_in_several_states, home, student

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.wording.columns import cells, columns
from cockpit.wording.queue import queue_text

NOW = home("2026-12-01 16:10")


def test_the_queue_stands_in_columns() -> None:
    assert_golden(queue_text(day_in_several_states(), CLOCK, NOW), "queue.txt")


def test_a_family_on_the_teachers_clock_leaves_no_empty_column() -> None:
    assert (
        queue_text([booking(minutes=60)], TeacherClock(zone="America/Phoenix", hours=24), NOW)
        == "15:00  60 min  Ilse  cello  booked\n"
    )


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
        lesson=day_in_several_states()[0].lesson, student=student(name="Il\x1b[2J\nse"), family=HOUSEHOLDS[ISHAAN][0]
    )
    text = queue_text([booked], CLOCK, NOW)
    assert "\x1b" not in text
    assert text.count("\n") == 1


def test_a_day_without_lessons_is_a_sentence() -> None:
    assert queue_text([], CLOCK, NOW) == "No lessons.\n"
