"""What becomes of something that goes out: at most once, never lost, and asked about where nobody knows."""

from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import Channel, channels_words, read_channels
from cockpit.studio.post.delivery import Answer, Delivery, gap_before
from cockpit.studio.post.outgoing import (
    DeliveryStatus,
    Outgoing,
    OutgoingId,
    attempted,
    left_going,
    most_urgent,
    settled,
    taken_as_sent,
    tried_again,
    withdrawn,
)
from cockpit.studio.values import replace

NOW = datetime(2026, 12, 1, 22, tzinfo=UTC)
ITEM = Outgoing(
    id=OutgoingId(1),
    about="w1-2026-12-01",
    lesson_id=LessonId("w1-2026-12-01"),
    family_id=FamilyId(1),
    version=1,
    way=Channel.MAIL,
    address="b@example.org",
    student="Ilse",
    title="Practice notes for Ilse",
    text="Scales: D major",
    page="<p>Scales: D major</p>",
    language="en",
    next_lesson=None,
    is_update=False,
    queued_at=NOW,
    not_before=NOW,
)
GOING = attempted(ITEM, "<1@example.org>")


def test_an_attempt_is_recorded_before_it_is_made():
    assert (GOING.fate, GOING.attempts, GOING.message_id) == (DeliveryStatus.GOING, 1, "<1@example.org>")
    with pytest.raises(Refused, match="being sent, not waiting"):
        attempted(GOING, None)


@pytest.mark.parametrize(
    ("answer", "fate"),
    [
        (Answer.TAKEN, DeliveryStatus.SENT),
        (Answer.NEVER, DeliveryStatus.REFUSED),
        (Answer.UNKNOWN, DeliveryStatus.UNSURE),
        (Answer.LATER, DeliveryStatus.WAITING),
    ],
)
def test_each_answer_has_its_fate(answer, fate):
    after = settled(GOING, Delivery(answer=answer, reason="said so"), NOW, 0.5)
    assert (after.fate, after.reason) == (fate, "said so")
    assert after.is_open == (fate is not DeliveryStatus.SENT)


def test_what_could_not_go_now_waits_for_its_time():
    after = settled(GOING, Delivery(answer=Answer.LATER), NOW, 0)
    assert after.not_before == NOW + timedelta(minutes=1)


@given(st.integers(1, 10_000), st.floats(0, 1, exclude_max=True))
def test_the_gaps_grow_to_an_hour_and_are_never_shorter_than_half(attempt, chance):
    gap, longest = gap_before(attempt, chance), gap_before(attempt, 0)
    assert longest / 2 <= gap <= longest <= timedelta(hours=1)
    assert gap_before(attempt + 1, chance) >= gap
    assert [gap_before(n, 0) / timedelta(minutes=1) for n in range(1, 9)] == [1, 2, 4, 8, 16, 32, 60, 60]


def test_a_mail_that_was_going_when_the_program_ended_is_asked_about_and_a_document_written_again():
    assert left_going(GOING).fate is DeliveryStatus.UNSURE
    assert left_going(replace(GOING, way=Channel.FOLDER)).fate is DeliveryStatus.WAITING
    assert left_going(replace(GOING, way=Channel.DRAFT)).fate is DeliveryStatus.WAITING


@pytest.mark.parametrize("fate", DeliveryStatus)
def test_the_teacher_can_do_what_its_fate_allows(fate):
    item = replace(ITEM, fate=fate, reason="said so", settled_at=NOW)
    later = NOW + timedelta(hours=1)
    if fate in {DeliveryStatus.SENT, DeliveryStatus.GOING}:
        for change in (tried_again, withdrawn):
            with pytest.raises(Refused, match=r"are already sent|are being sent"):
                change(item, later)
    else:
        again = tried_again(item, later)
        assert (again.fate, again.not_before, again.reason) == (DeliveryStatus.WAITING, later, None)
        assert withdrawn(item, later).fate is DeliveryStatus.WITHDRAWN
    if fate is DeliveryStatus.UNSURE:
        assert taken_as_sent(item, later).fate is DeliveryStatus.SENT
    else:
        with pytest.raises(Refused, match="nothing to confirm"):
            taken_as_sent(item, later)


@given(st.frozensets(st.sampled_from(Channel)))
def test_ways_come_back_from_their_words(ways):
    assert read_channels(channels_words(ways)) == ways


def test_of_several_fates_of_a_lesson_that_counts_which_needs_her_most():
    fates = [
        ("a", DeliveryStatus.WAITING),
        ("a", DeliveryStatus.UNSURE),
        ("a", DeliveryStatus.REFUSED),
        ("a", DeliveryStatus.SENT),
        ("b", DeliveryStatus.REFUSED),
    ]
    others = [
        ("b", DeliveryStatus.GOING),
        ("c", DeliveryStatus.SENT),
        ("c", DeliveryStatus.WITHDRAWN),
        ("d", DeliveryStatus.WAITING),
        ("d", DeliveryStatus.GOING),
    ]
    found = most_urgent((LessonId(lesson_id), fate) for lesson_id, fate in (*fates, *others))
    assert found == {"a": DeliveryStatus.UNSURE, "b": DeliveryStatus.REFUSED, "d": DeliveryStatus.GOING}
