"""What may happen to a lesson, and what it is at a moment."""

from datetime import date, timedelta

import pytest
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule
from support.studio import STARTS_AT, lesson

from cockpit.studio.errors import Refused
from cockpit.studio.lessons.lesson import (
    Lesson,
    Outcome,
    State,
    begin,
    close_untaught,
    finish,
    give_full_length,
    in_words,
    state_of,
    weekly_id,
)
from cockpit.studio.lessons.weekly_times import StandingTimeId


def after(**span: float):
    """A moment after the planned start."""
    return STARTS_AT + timedelta(**span)


BOOKED = lesson()
RUNNING = begin(BOOKED, STARTS_AT)
FINISHED = finish(RUNNING, after(minutes=30))


def test_a_booked_lesson_is_not_marked_once_its_time_is_over():
    assert state_of(BOOKED, after(minutes=30, microseconds=-1)) is State.BOOKED
    assert state_of(BOOKED, after(minutes=30)) is State.NOT_MARKED
    assert state_of(BOOKED, after(days=2)) is State.NOT_MARKED


def test_a_lesson_runs_until_the_very_end_and_is_over_time_from_it_on():
    assert state_of(RUNNING, after(minutes=30, microseconds=-1)) is State.RUNNING
    assert state_of(RUNNING, after(minutes=30)) is State.OVER_TIME


def test_a_running_lesson_cannot_be_begun_again():
    with pytest.raises(Refused, match="already running"):
        begin(RUNNING, after(minutes=1))


def test_a_finished_lesson_keeps_its_real_times():
    assert (FINISHED.began_at, FINISHED.finished_at) == (STARTS_AT, after(minutes=30))
    assert state_of(FINISHED, after(minutes=31)) is State.FINISHED
    assert not FINISHED.takes_notes


def test_a_lesson_finished_too_early_goes_on_when_it_is_begun_again_before_its_end():
    again = begin(finish(RUNNING, after(minutes=10)), after(minutes=11))
    assert again.is_live
    assert again.began_at == STARTS_AT


def test_at_its_planned_end_a_finished_lesson_is_reopened_and_does_not_go_on():
    early = finish(RUNNING, after(minutes=10))
    assert begin(early, after(minutes=30, microseconds=-1)).is_live
    assert not begin(early, after(minutes=30)).is_live


def test_a_finished_lesson_can_be_reopened_and_keeps_the_times_it_was_taught_at():
    reopened = begin(FINISHED, after(hours=3))
    assert reopened.is_open
    assert reopened.takes_notes
    assert not reopened.is_live
    assert finish(reopened, after(hours=4)) == FINISHED


def test_a_reopened_lesson_cannot_be_reopened():
    with pytest.raises(Refused):
        begin(begin(FINISHED, after(hours=3)), after(hours=3))


def test_a_finished_lesson_cannot_be_finished_twice():
    with pytest.raises(Refused, match="This lesson is finished"):
        finish(FINISHED, after(minutes=31))


@pytest.mark.parametrize("outcome", Outcome)
def test_an_untaught_lesson_forgets_its_start_and_can_still_take_notes(outcome):
    closed = close_untaught(RUNNING, outcome)
    assert closed.began_at is None
    assert state_of(closed, after(minutes=5)) == outcome
    assert closed.takes_notes
    assert not closed.is_open


@pytest.mark.parametrize("outcome", Outcome)
def test_an_untaught_lesson_cannot_be_finished_and_the_sentence_says_what_it_is(outcome):
    with pytest.raises(Refused, match=f"This lesson is {in_words(outcome)}"):
        finish(close_untaught(BOOKED, outcome), after(minutes=5))


def test_an_absent_lesson_can_be_marked_cancelled_but_not_absent_again():
    absent = close_untaught(BOOKED, Outcome.ABSENT)
    assert close_untaught(absent, Outcome.CANCELLED).outcome is Outcome.CANCELLED
    with pytest.raises(Refused, match="already marked absent"):
        close_untaught(absent, Outcome.ABSENT)


def test_beginning_an_absent_lesson_books_it_again():
    assert begin(close_untaught(RUNNING, Outcome.ABSENT), after(minutes=5)) == BOOKED


def test_a_finished_lesson_is_marked_absent_only_when_it_was_reopened():
    with pytest.raises(Refused, match="reopen it first"):
        close_untaught(FINISHED, Outcome.ABSENT)
    absent = close_untaught(begin(FINISHED, after(hours=3)), Outcome.ABSENT)
    assert absent == close_untaught(BOOKED, Outcome.ABSENT)


def test_a_late_start_keeps_the_planned_end():
    assert begin(BOOKED, after(minutes=7)).ends_at == after(minutes=30)


def test_an_early_start_keeps_the_planned_end():
    assert begin(BOOKED, after(minutes=-4)).ends_at == after(minutes=30)


def test_the_full_length_counts_from_the_late_start():
    assert give_full_length(begin(BOOKED, after(minutes=7))).ends_at == after(minutes=37)


@pytest.mark.parametrize(
    ("refused", "sentence"),
    [
        (BOOKED, "Begin the lesson first"),
        (FINISHED, "Begin the lesson first"),
        (RUNNING, "began on time"),
        (begin(BOOKED, after(minutes=-1)), "began on time"),
        (give_full_length(begin(BOOKED, after(minutes=7))), "already"),
    ],
)
def test_the_full_length_is_given_once_and_to_a_running_lesson_that_began_late(refused, sentence):
    with pytest.raises(Refused, match=sentence):
        give_full_length(refused)


def test_each_meeting_of_each_standing_time_has_an_id_of_its_own():
    ids = {weekly_id(StandingTimeId(n), date(2026, 12, day)) for n in (1, 11, 12) for day in (1, 2, 11, 12)}
    assert len(ids) == 12


class LessonOfADay(RuleBasedStateMachine):
    """A lesson under random steps, beside a model that knows only the name of the state it is in."""

    def __init__(self) -> None:
        super().__init__()
        self.lesson = BOOKED
        self.now = after(minutes=-10)
        self.model = "booked"
        self.began_at = None

    def attempt(self, step, allowed: bool) -> bool:
        """Takes a step; it must be refused exactly when the model does not allow it."""
        before, refusal = self.lesson, None
        try:
            self.lesson = step(before)
        except Refused as refused:
            refusal = str(refused)
        assert (refusal is None) == allowed, refusal
        assert (refusal is None) == (self.lesson != before)
        return allowed

    @rule(minutes=st.floats(0, 25))
    def wait(self, minutes: float) -> None:
        self.now += timedelta(minutes=minutes)

    @rule()
    def begin(self) -> None:
        was_before_the_end = self.lesson.began_at is not None and self.now < self.lesson.ends_at
        if not self.attempt(lambda it: begin(it, self.now), self.model not in {"live", "reopened"}):
            return
        if self.model == "booked":
            self.began_at = self.now
        after_it = {"booked": "live", **dict.fromkeys(map(str, Outcome), "booked")}
        self.model = after_it.get(self.model) or ("live" if was_before_the_end else "reopened")

    @rule()
    def finish(self) -> None:
        if self.attempt(lambda it: finish(it, self.now), self.model in {"booked", "live", "reopened"}):
            self.model = "finished"

    @rule(outcome=st.sampled_from(Outcome))
    def close(self, outcome: Outcome) -> None:
        if self.attempt(lambda it: close_untaught(it, outcome), self.model not in {"finished", str(outcome)}):
            self.model, self.began_at = str(outcome), None

    @rule()
    def give_full_length(self) -> None:
        late = self.began_at is not None and self.began_at > STARTS_AT
        allowed = self.model == "live" and late and not self.lesson.gives_full_length
        self.attempt(give_full_length, allowed)

    @precondition(lambda self: self.model == "finished")
    @rule()
    def reopen_and_finish_at_once(self) -> None:
        before, resumes = self.lesson, self.lesson.began_at is not None and self.now < self.lesson.ends_at
        again = finish(begin(before, self.now), self.now)
        assert resumes or again == before

    @invariant()
    def is_what_the_model_says(self) -> None:
        state = state_of(self.lesson, self.now)
        running = {State.RUNNING, State.OVER_TIME}
        booked = {State.BOOKED if self.now < self.lesson.planned_end else State.NOT_MARKED}
        states = {"live": running, "reopened": running, "booked": booked}.get(self.model) or {State(self.model)}
        assert state in states
        assert self.lesson.is_live == (self.model == "live")
        assert self.lesson.is_open == (self.model in {"booked", "live", "reopened"})
        assert self.lesson.began_at == self.began_at

    @invariant()
    def holds_together(self) -> None:
        it: Lesson = self.lesson
        assert it.outcome is None or (it.finished_at is None and it.began_at is None)
        assert not it.is_reopened or it.finished_at is not None
        assert it.takes_notes or it.finished_at is not None
        assert it.finished_at is None or it.began_at is None or it.began_at <= it.finished_at
        assert (it.id, it.starts_at, it.minutes) == (BOOKED.id, STARTS_AT, 30)

    @invariant()
    def full_length_never_shortens(self) -> None:
        it = self.lesson
        assert it.ends_at >= it.planned_end
        if it.gives_full_length:
            assert it.began_at is not None
            assert it.ends_at - it.began_at == timedelta(minutes=it.minutes)


TestLessonOfADay = LessonOfADay.TestCase
