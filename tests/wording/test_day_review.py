"""The end of the day in sentences."""

from datetime import timedelta

import pytest
from support.studio import DAY, HOUSEHOLDS, STARTS_AT, booking

from cockpit.studio.day.review import DayReview, Lack, Missing, OtherDaysNotes, review_lesson
from cockpit.studio.lessons.lesson import LessonId, Outcome, begin, close_untaught, finish
from cockpit.studio.post.outgoing import DeliveryStatus
from cockpit.studio.values import replace
from cockpit.wording.day_review import attendance, missing_sentence

EVENING = STARTS_AT + timedelta(hours=5)
BOOKED = booking().lesson
RUNNING = begin(BOOKED, STARTS_AT)
FINISHED = finish(RUNNING, STARTS_AT + timedelta(minutes=31))
REOPENED = begin(FINISHED, EVENING)
ABSENT, CANCELLED = close_untaught(BOOKED, Outcome.ABSENT), close_untaught(BOOKED, Outcome.CANCELLED)


@pytest.mark.parametrize(
    ("lack", "sentence"),
    [
        (Lack.NOT_FINISHED, "Ilse's lesson is not finished"),
        (Lack.NO_OUTCOME, "Ilse's lesson is not marked. Was it finished, absent, or canceled?"),
        (Lack.NO_NOTES, "No notes for Ilse"),
        (Lack.NOT_EXPORTED, "Ilse's notes are not in the studio folder"),
        (Lack.DRAFT, "Ilse's notes are still a draft"),
        (Lack.CHANGED, "Ilse's notes changed after they were exported"),
        (Lack.IN_DOUBT, "Did Ilse's notes arrive? Answer in the outbox"),
        (Lack.REFUSED, "Ilse's notes were refused. See the outbox"),
        (Lack.WAITING, "Ilse's notes are still waiting in the outbox"),
    ],
)
def test_what_is_left_undone_is_said_with_the_students_name(lack, sentence):
    assert missing_sentence(Missing(lesson_id=LessonId("w1-2026-12-01"), student="Ilse", lack=lack)) == sentence


def test_everything_that_can_be_left_undone_is_said():
    said = {missing_sentence(Missing(lesson_id=LessonId("w1-2026-12-01"), student="{Zoë}", lack=each)) for each in Lack}
    assert len(said) == len(Lack)
    assert all("{Zoë}" in sentence for sentence in said)


def test_notes_of_other_days_are_counted_by_what_became_of_them():
    left = OtherDaysNotes(fates=(DeliveryStatus.WAITING, DeliveryStatus.UNSURE, DeliveryStatus.GOING))
    assert missing_sentence(left) == "Also in the outbox: 1 not sure, 2 waiting"


def went(*lessons) -> DayReview:
    """A day of lessons as they went, one for each student."""
    bookings = [replace(booking(who), lesson=each) for who, each in zip(HOUSEHOLDS, lessons, strict=False)]
    reviewed = tuple(review_lesson(each, None, None, EVENING) for each in bookings)
    return DayReview(on=DAY, lessons=reviewed, missing=(), owed=(), tomorrow_on=DAY, tomorrow=())


@pytest.mark.parametrize(
    ("lessons", "sentence"),
    [
        ((), "0 of 0 lessons taught"),
        ((FINISHED,), "1 of 1 lesson taught"),
        ((FINISHED, RUNNING, REOPENED, ABSENT, CANCELLED), "3 of 5 lessons taught, 1 absent, 1 canceled"),
        ((BOOKED, ABSENT, ABSENT), "0 of 3 lessons taught, 2 absent, 1 not marked"),
    ],
)
def test_attendance_says_the_count_it_is_taken_from(lessons, sentence):
    assert attendance(went(*lessons)) == sentence
