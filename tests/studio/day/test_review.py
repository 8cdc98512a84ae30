"""The end of the day: what was taught, what is missing, what is owed."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import DAY, HOUSEHOLDS, STARTS_AT, back_to_back, booking

from cockpit.studio.changes.records import Export, Note
from cockpit.studio.day.review import DayReview, Lack, missing_of, review_day, review_lesson, week_so_far
from cockpit.studio.lessons.lesson import LessonId, Outcome, State, begin, close_untaught, finish
from cockpit.studio.values import replace
from cockpit.wording.day_review import week_words

EVENING = STARTS_AT + timedelta(hours=5)
ID = LessonId("w1-2026-12-01")


def after(**span: float):
    """A moment after the planned start."""
    return STARTS_AT + timedelta(**span)


def note(body: str = "Scales: D major\nElbow low.", changed_at=None, lesson_id: LessonId = ID) -> Note:
    """A note, last changed in the lesson."""
    return Note(lesson_id=lesson_id, body=body, changed_at=changed_at or after(minutes=20))


def export(exported_at=None, *, is_final: bool = True, lesson_id: LessonId = ID) -> Export:
    """Practice notes in the folder, written out when the lesson ended."""
    at = exported_at or after(minutes=30)
    return Export(lesson_id=lesson_id, path="notes/Brandvold/2026-12-01 Ilse.md", is_final=is_final, exported_at=at)


def with_lesson(lesson):
    """Ilse's booking with the lesson as it went."""
    return replace(booking(), lesson=lesson)


BOOKED = booking().lesson
RUNNING = begin(BOOKED, STARTS_AT)
FINISHED = finish(RUNNING, after(minutes=31, seconds=40))
REOPENED = begin(FINISHED, EVENING)


@pytest.mark.parametrize(
    ("lesson", "now", "lack"),
    [
        (BOOKED, after(minutes=29), None),
        (BOOKED, after(minutes=30), Lack.NO_OUTCOME),
        (RUNNING, after(minutes=10), Lack.NOT_FINISHED),
        (RUNNING, EVENING, Lack.NOT_FINISHED),
        (REOPENED, EVENING, Lack.NOT_FINISHED),
        (FINISHED, EVENING, Lack.NO_NOTES),
        (close_untaught(BOOKED, Outcome.ABSENT), EVENING, None),
        (close_untaught(BOOKED, Outcome.CANCELLED), EVENING, None),
    ],
)
def test_each_state_of_a_lesson_asks_for_its_own_next_step(lesson, now, lack):
    assert missing_of(review_lesson(with_lesson(lesson), None, None, now)) is lack


@pytest.mark.parametrize(
    ("written", "exported", "lack"),
    [
        (note(), export(), None),
        (note(" \n"), None, Lack.NO_NOTES),
        (note(), None, Lack.NOT_EXPORTED),
        (note(changed_at=after(minutes=40)), export(), Lack.CHANGED),
        (note(), export(is_final=False), Lack.DRAFT),
    ],
)
def test_a_finished_lesson_asks_for_its_notes_in_the_folder(written, exported, lack):
    assert missing_of(review_lesson(with_lesson(FINISHED), written, exported, EVENING)) is lack


def test_notes_written_out_at_their_last_change_are_not_stale():
    reviewed = review_lesson(with_lesson(FINISHED), note(), export(after(minutes=20)), EVENING)
    assert not reviewed.is_stale


def test_the_minutes_are_those_that_were_really_taught():
    reviewed = review_lesson(with_lesson(FINISHED), note(), export(), EVENING)
    assert reviewed.minutes_taught == 32
    assert (reviewed.has_notes, reviewed.assignments) == (True, 1)


@pytest.mark.parametrize("lesson", [BOOKED, finish(BOOKED, EVENING), close_untaught(BOOKED, Outcome.ABSENT)])
def test_a_lesson_whose_times_are_not_known_counts_no_minutes(lesson):
    assert review_lesson(with_lesson(lesson), None, None, EVENING).minutes_taught is None


def test_a_week_counts_what_was_taught_of_all_that_is_planned_in_it():
    later = replace(BOOKED, id=LessonId("w1-2026-12-03"), starts_at=after(days=2))
    absent = close_untaught(replace(BOOKED, id=LessonId("x"), starts_at=after(hours=2)), Outcome.ABSENT)
    week = week_so_far([with_lesson(each) for each in (FINISHED, absent, later)], 1, EVENING)
    assert (week.minutes_taught, week.minutes, week.taught, week.lessons) == (32, 90, 1, 3)
    assert week_words(week) == "32 of 90 minutes taught   1 of 3 lessons   1 make-up owed"


def test_a_running_lesson_counts_the_minutes_up_to_now():
    assert review_lesson(with_lesson(RUNNING), None, None, after(minutes=12)).minutes_taught == 12
    assert review_lesson(with_lesson(RUNNING), None, None, after(minutes=33)).minutes_taught == 33


def test_private_lines_count_as_notes_but_not_as_assignments():
    reviewed = review_lesson(with_lesson(FINISHED), note("Private: tired\nScales:"), None, EVENING)
    assert (reviewed.has_notes, reviewed.assignments) == (True, 0)


def test_what_is_missing_stands_in_the_order_of_the_day_and_leads_back():
    first, second, third = back_to_back(30, 45, 60)
    third = replace(third, lesson=close_untaught(third.lesson, Outcome.CANCELLED))
    second = replace(second, lesson=finish(begin(second.lesson, second.lesson.starts_at), after(minutes=75)))
    notes = {second.lesson.id: note(lesson_id=second.lesson.id)}
    lessons, missing = review_day([first, second, third], notes, {}, EVENING)
    assert [each.booking for each in lessons] == [first, second, third]
    assert [(each.lesson_id, each.student, each.lack) for each in missing] == [
        (first.lesson.id, "Ilse", Lack.NO_OUTCOME),
        (second.lesson.id, "Teodor", Lack.NOT_EXPORTED),
    ]


def reviewed_day(*lessons) -> DayReview:
    """A day of lessons as they went, one for each student."""
    bookings = [
        replace(booking(who), lesson=replace(each, id=booking(who).lesson.id))
        for who, each in zip(HOUSEHOLDS, lessons, strict=False)
    ]
    reviewed, missing = review_day(bookings, {}, {}, EVENING)
    return DayReview(
        on=DAY, lessons=reviewed, missing=missing, owed=(), tomorrow_on=DAY + timedelta(days=1), tomorrow=()
    )


ABSENT, CANCELLED = close_untaught(BOOKED, Outcome.ABSENT), close_untaught(BOOKED, Outcome.CANCELLED)


@given(st.lists(st.sampled_from([BOOKED, RUNNING, FINISHED, REOPENED, ABSENT, CANCELLED]), max_size=6))
def test_the_states_and_minutes_of_a_day_add_up(lessons):
    review = reviewed_day(*lessons)
    assert sum(review.count(state) for state in State) == len(lessons)
    finished = sum(lesson.finished_at is not None for lesson in lessons)
    until_now = (EVENING - STARTS_AT).total_seconds() // 60
    assert review.minutes_taught == 32 * finished + until_now * lessons.count(RUNNING)
    ids = [each.lesson_id for each in review.missing]
    assert len(set(ids)) == len(ids)
