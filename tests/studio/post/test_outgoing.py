"""What becomes of something that goes out: at most once, never lost, and asked about where nobody knows."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.delivery import Answer, Delivery, gap_before
from cockpit.studio.post.outgoing import (
    Fate,
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
from cockpit.studio.post.ways import Way, read_ways, ways_words

NOW = datetime(2026, 12, 1, 22, tzinfo=UTC)
ITEM = Outgoing(
    id=OutgoingId(1),
    lesson_id=LessonId("w1-2026-12-01"),
    family_id=FamilyId(1),
    version=1,
    way=Way.MAIL,
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
    assert (GOING.fate, GOING.attempts, GOING.message_id) == (Fate.GOING, 1, "<1@example.org>")
    with pytest.raises(Refused, match="they are going"):
        attempted(GOING, None)


@pytest.mark.parametrize(
    ("answer", "fate"),
    [
        (Answer.TAKEN, Fate.SENT),
        (Answer.NEVER, Fate.REFUSED),
        (Answer.UNKNOWN, Fate.UNSURE),
        (Answer.LATER, Fate.WAITING),
    ],
)
def test_each_answer_has_its_fate(answer, fate):
    after = settled(GOING, Delivery(answer=answer, reason="said so"), NOW, 0.5)
    assert (after.fate, after.reason) == (fate, "said so")
    assert after.is_open == (fate is not Fate.SENT)


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
    assert left_going(GOING).fate is Fate.UNSURE
    assert left_going(replace(GOING, way=Way.FOLDER)).fate is Fate.WAITING
    assert left_going(replace(GOING, way=Way.DRAFT)).fate is Fate.WAITING


@pytest.mark.parametrize("fate", Fate)
def test_the_teacher_can_do_what_its_fate_allows(fate):
    item = replace(ITEM, fate=fate, reason="said so", settled_at=NOW)
    later = NOW + timedelta(hours=1)
    if fate in {Fate.SENT, Fate.GOING}:
        for change in (tried_again, withdrawn):
            with pytest.raises(Refused, match=r"went out|are going"):
                change(item, later)
    else:
        again = tried_again(item, later)
        assert (again.fate, again.not_before, again.reason) == (Fate.WAITING, later, None)
        assert withdrawn(item, later).fate is Fate.WITHDRAWN
    if fate is Fate.UNSURE:
        assert taken_as_sent(item, later).fate is Fate.SENT
    else:
        with pytest.raises(Refused, match="nothing to settle"):
            taken_as_sent(item, later)


@given(st.frozensets(st.sampled_from(Way)))
def test_ways_come_back_from_their_words(ways):
    assert read_ways(ways_words(ways)) == ways


def test_of_several_fates_of_a_lesson_that_counts_which_needs_her_most():
    fates = [("a", Fate.WAITING), ("a", Fate.UNSURE), ("a", Fate.REFUSED), ("a", Fate.SENT), ("b", Fate.REFUSED)]
    others = [("b", Fate.GOING), ("c", Fate.SENT), ("c", Fate.WITHDRAWN), ("d", Fate.WAITING), ("d", Fate.GOING)]
    found = most_urgent((LessonId(lesson_id), fate) for lesson_id, fate in (*fates, *others))
    assert found == {"a": Fate.UNSURE, "b": Fate.REFUSED, "d": Fate.GOING}
