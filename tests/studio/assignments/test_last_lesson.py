"""What a student brings to a lesson: what is open, since when, and how it is carried on."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.assignments.carrying import carried_on, thread_of
from cockpit.studio.assignments.last_lesson import TaughtNotes, last_lesson
from cockpit.studio.changes.records import Heard, MarkSet
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import Mark, read_line

NEWEST = date(2026, 11, 24)


def taught(*bodies: str) -> list[TaughtNotes]:
    """Lessons a week apart, the newest first."""
    return [
        TaughtNotes(
            lesson_id=LessonId(f"w1-{number}"), taught_on=NEWEST - timedelta(weeks=number), body=body, minutes=45
        )
        for number, body in enumerate(bodies)
    ]


def marked(number: int, line: str, mark: Mark):
    lesson_id = LessonId(f"w1-{number}")
    return {(lesson_id, line): MarkSet(lesson_id=lesson_id, line=line, mark=mark)}


def lines(given_assignments) -> list[str]:
    return [each.line.typed for each in given_assignments]


def test_what_no_later_lesson_closed_is_open_however_many_weeks_ago_it_was_given():
    last = last_lesson(taught("Scales: D major", "Piece: Gavotte", "Etude: no. 4, mm. 1-8"), {}, {})
    assert lines(last.assignments) == ["Scales: D major"]
    assert lines(last.earlier) == ["Piece: Gavotte", "Etude: no. 4, mm. 1-8"]
    assert [each.weeks(NEWEST + timedelta(weeks=1)) for each in (*last.assignments, *last.earlier)] == [1, 2, 3]


@pytest.mark.parametrize("mark", [Mark.DONE, Mark.DROPPED])
def test_what_is_done_or_dropped_is_not_open_any_more(mark):
    lessons = taught("Scales: D major", "Piece: Gavotte")
    assert last_lesson(lessons, marked(1, "Piece: Gavotte", mark), {}).earlier == ()


@pytest.mark.parametrize("mark", [Mark.MORE_WORK, Mark.NOT_YET])
def test_what_needs_more_work_stays_open(mark):
    lessons = taught("Scales: D major", "Piece: Gavotte")
    assert lines(last_lesson(lessons, marked(1, "Piece: Gavotte", mark), {}).earlier) == ["Piece: Gavotte"]


def test_what_was_done_once_and_never_given_again_does_not_come_back_from_before_that():
    lessons = taught("Scales: D major", "Piece: Gavotte", "Piece: Gavotte, q = 60")
    assert last_lesson(lessons, marked(1, "Piece: Gavotte", Mark.DONE), {}).earlier == ()


def test_the_same_assignment_at_another_tempo_stands_once_since_it_was_first_given():
    lessons = taught("Piece: Gavotte q = 72, 10 min", "Piece: Gavotte, q=66", "piece: gavotte q = 60 5 min")
    last = last_lesson(lessons, {}, {})
    assert last.earlier == ()
    assert [(each.line.typed, each.since) for each in last.assignments] == [
        ("Piece: Gavotte q = 72, 10 min", NEWEST - timedelta(weeks=2))
    ]


def test_since_goes_back_only_to_where_it_was_done_before():
    lessons = taught("Piece: Gavotte", "Piece: Gavotte", "Piece: Gavotte")
    last = last_lesson(lessons, marked(1, "Piece: Gavotte", Mark.DONE), {})
    assert last.assignments[0].since == NEWEST


def test_what_was_given_last_is_named_also_when_it_is_done():
    last = last_lesson(taught("Piece: Gavotte"), marked(0, "Piece: Gavotte", Mark.DONE), {})
    assert lines(last.assignments) == ["Piece: Gavotte"]
    assert not last.assignments[0].is_open


def test_other_measures_are_another_assignment():
    assert len(last_lesson(taught("Piece: Gavotte mm. 9-16", "Piece: Gavotte mm. 1-8"), {}, {}).earlier) == 1


def test_what_was_heard_comes_with_it():
    lesson_id = LessonId("w1-0")
    heard = {(lesson_id, "Piece: Gavotte"): Heard(lesson_id=lesson_id, line="Piece: Gavotte", tempo=66, clean_runs=2)}
    only = last_lesson(taught("Piece: Gavotte"), {}, heard).assignments[0]
    assert (only.tempo, only.clean_runs) == (66, 2)


def test_without_earlier_lessons_there_is_no_last_one():
    assert last_lesson([], {}, {}) is None


@pytest.mark.parametrize(
    ("typed", "tempo", "carried"),
    [
        ("Scales: D major 2 oct, q=72 to 88, 5 min", 80, "Scales: D major 2 oct, q=80 to 88, 5 min"),
        ("Piece: Gavotte mm. 17-32 q = 88", 76, "Piece: Gavotte mm. 17-32 q = 76 to 88"),
        ("Piece: Gavotte, up to 96", 80, "Piece: Gavotte, up to 96"),
        ("Piece: Gavotte q. = 60", 50, "Piece: Gavotte q. = 50 to 60"),
        ("Piece: Gavotte 88 bpm", 80, "Piece: Gavotte 80 to 88 bpm"),
        ("Piece: Gavotte q = 88", 88, "Piece: Gavotte q = 88"),
        ("Piece: Gavotte q = 88", 100, "Piece: Gavotte q = 88"),
        ("Piece: Gavotte q = 88", None, "Piece: Gavotte q = 88"),
        ("Piece: Gavotte mm. 17-32", 76, "Piece: Gavotte mm. 17-32"),
    ],
)
def test_an_assignment_is_carried_on_from_the_tempo_it_was_heard_at(typed, tempo, carried):
    assert carried_on(read_line(typed), tempo) == carried


@given(st.text(alphabet="Piece: q=MM.mm 0123456789to-,é", max_size=40), st.integers(20, 400))
def test_an_assignment_that_is_carried_on_asks_for_the_same(text, tempo):
    line = read_line(f"Piece: {text}")
    assert thread_of(read_line(carried_on(line, tempo))) == thread_of(line)
