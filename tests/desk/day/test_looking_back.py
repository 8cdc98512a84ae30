"""A student's earlier lessons through the desk: one after another, and back, with nothing written."""

from datetime import timedelta

import pytest
from support.sample import sample_studio

from cockpit.studio.changes.records import Change, Note, added
from cockpit.studio.lessons.lesson import LessonId, Outcome
from cockpit.studio.notes.notes import Line
from cockpit.studio.values import replace


def shown(studio):
    booking = studio.desk.day.shown
    assert booking is not None
    return booking.lesson


def earlier_of(studio, lesson):
    """All earlier lessons, walked to the first and back again."""
    found = []
    while (before := studio.desk.looking_back.before(found[-1].lesson if found else lesson)) is not None:
        found.append(before)
    back = [found[-1]]
    while (after := studio.desk.looking_back.after(back[-1].lesson, lesson)) is not None:
        back.append(after)
    assert back[::-1] == found
    return found


def test_the_lessons_before_are_walked_to_the_first_one_and_back_to_the_one_before(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        found = earlier_of(studio, shown(studio))
        assert [str(each.on) for each in found] == ["2026-11-24", "2026-11-17"]
        latest = found[0]
        assert [given.line.text for given in latest.given] == [
            "D major 2 oct, q=72 to 88, 5 min", "The Old Mill mm. 17-32 q=66, whole bows, 10 min", "sing the first phrase before you play it",
        ]  # fmt: skip
        assert {line.line for line in latest.lines} == {Line.REMARK, Line.PRIVATE, Line.FOLLOW_UP, Line.NEXT_TIME}


def test_a_lesson_that_was_not_taught_is_one_of_them_and_one_that_nothing_was_done_to_is_not(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        now = shown(studio)
        blank = replace(now, began_at=None, id=LessonId("x1"), starts_at=now.starts_at - timedelta(days=3))
        off = replace(
            blank, id=LessonId("x2"), starts_at=now.starts_at - timedelta(days=2), outcome=Outcome.CANCELLED_LATE
        )
        noted = replace(blank, id=LessonId("x3"), starts_at=now.starts_at - timedelta(days=1))
        later = replace(off, id=LessonId("x4"), starts_at=now.starts_at + timedelta(days=1))
        note = Note(lesson_id=noted.id, body="Lovely", changed_at=now.starts_at)
        studio.store.writing.apply(Change(said="test", edits=added(blank, off, noted, later, note)))
        found = earlier_of(studio, now)
        assert [each.lesson.id for each in found[:2]] == ["x3", "x2"]
        assert len(found) == 4
        assert [each.lesson.outcome for each in found[:2]] == [None, Outcome.CANCELLED_LATE]


def test_two_lessons_at_one_moment_are_both_found(tmp_path):
    with sample_studio(tmp_path) as (studio, _clock):
        now = shown(studio)
        twins = [replace(now, id=LessonId(name), began_at=None, outcome=Outcome.ABSENT) for name in ("a", "b")]
        studio.store.writing.apply(Change(said="test", edits=added(*twins)))
        assert [each.lesson.id for each in earlier_of(studio, now)[:2]] == ["b", "a"]


@pytest.mark.parametrize("student", ["Ilse", "Mireille"])
def test_a_step_reads_one_lesson_and_writes_nothing(tmp_path, student):
    with sample_studio(tmp_path) as (studio, _clock):
        booking = studio.desk.finding.next_lesson(studio.desk.finding.search(student)[0].student)
        assert booking is not None
        asked = []
        connection = studio.store.reading._connection
        before = connection.total_changes
        connection.set_trace_callback(asked.append)
        assert studio.desk.looking_back.before(booking.lesson) is not None
        connection.set_trace_callback(None)
        assert sum("FROM lesson" in query for query in asked) == 1
        assert len(asked) <= 4
        assert connection.total_changes == before
        plan = connection.execute(f"EXPLAIN QUERY PLAN {asked[0]}").fetchall()
        assert "lesson_by_student" in str([tuple(row) for row in plan])
