"""What state an inquiry is in follows from its steps; what is to be done next from both."""

from datetime import date, time, timedelta
from itertools import pairwise, product

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import CLOCK, home, lesson

from cockpit.studio.inquiries.deadline import TeachingDay
from cockpit.studio.inquiries.inquiry import (
    CLOSINGS,
    Inquiry,
    InquiryCourse,
    InquiryId,
    InquiryState,
    InquiryStep,
    InquiryStepId,
    StepKind,
    courses,
)
from cockpit.studio.inquiries.rules import AGES, LENGTHS, InquiryRules
from cockpit.studio.inquiries.to_do import InquiryTask, counted_inquiries, percent, standing_of
from cockpit.studio.lessons.lesson import Kind, LessonId, Outcome
from cockpit.studio.people.people import Level
from cockpit.studio.values import replace
from cockpit.wording.inquiries import counts_lines, counts_title

RULES = InquiryRules()
DAY = TeachingDay(home=CLOCK, begins=time(7), ends=time(21))
CAME = home("2026-11-20 09:00")
TRIAL = lesson(
    id=LessonId("s9"), kind=Kind.TRIAL, standing_time_id=None, starts_at=home("2026-12-03 17:00"), minutes=30
)


def inquiry(number: int = 1, **values) -> Inquiry:
    return Inquiry(**{"id": InquiryId(number), "came_at": CAME, "name": "Ana Bell", "child": "Nora"} | values)


def course(*steps, trial=None, **values) -> InquiryCourse:
    """An inquiry with steps, each a kind and a moment on her clock."""
    asked = inquiry(**values)
    made = [
        InquiryStep(id=InquiryStepId(number), inquiry_id=asked.id, at=home(at), what=what)
        for number, (what, at) in enumerate(steps)
    ]
    return InquiryCourse(inquiry=asked, steps=tuple(made), trial=trial)


ANSWERED = (StepKind.ANSWERED, "2026-11-20 12:00")
BOOKED = (StepKind.TRIAL, "2026-11-22 12:00")


def to_do(found: InquiryCourse, now: str):
    return standing_of(found, home(now), RULES, DAY).to_do


@pytest.mark.parametrize(
    ("steps", "trial", "state"),
    [
        ((), None, InquiryState.NEW),
        ((StepKind.THEY_WROTE,), None, InquiryState.NEW),
        ((StepKind.ANSWERED,), None, InquiryState.ANSWERED),
        ((StepKind.BY_PHONE,), None, InquiryState.ANSWERED),
        ((StepKind.ANSWERED, StepKind.TRIAL), TRIAL, InquiryState.TRIAL_BOOKED),
        ((StepKind.TRIAL,), replace(TRIAL, starts_at=home("2026-11-30 17:00")), InquiryState.TRIED),
        ((StepKind.TRIAL, StepKind.ANSWERED), replace(TRIAL, finished_at=home("2026-12-01 08:00")), InquiryState.TRIED),
        ((StepKind.TRIAL,), replace(TRIAL, outcome=Outcome.CANCELLED), InquiryState.ANSWERED),
        ((StepKind.TRIAL,), replace(TRIAL, outcome=Outcome.ABSENT), InquiryState.ANSWERED),
        ((StepKind.TRIAL,), None, InquiryState.ANSWERED),
        ((StepKind.TRIAL, StepKind.STUDENT), TRIAL, InquiryState.STUDENT),
        ((StepKind.ANSWERED, StepKind.WAITING), None, InquiryState.WAITING),
        ((StepKind.WAITING, StepKind.ANSWERED), None, InquiryState.WAITING),
        ((StepKind.WAITING, StepKind.TRIAL), TRIAL, InquiryState.TRIAL_BOOKED),
        *(((StepKind.ANSWERED, closing), None, InquiryState.CLOSED) for closing in CLOSINGS),
        ((StepKind.NO_ANSWER, StepKind.THEY_WROTE), None, InquiryState.ANSWERED),
        ((StepKind.DECLINED, StepKind.ANSWERED), None, InquiryState.ANSWERED),
    ],
)
def test_the_state_follows_from_the_steps_and_the_trial(steps, trial, state):
    found = course(*((what, f"2026-11-2{number} 09:00") for number, what in enumerate(steps)), trial=trial)
    assert found.state(home("2026-12-01 12:00")) is state


@given(st.lists(st.sampled_from(StepKind), max_size=6), st.sampled_from(StepKind))
@examples(50)
def test_a_step_that_is_taken_back_leaves_the_state_as_it_was(kinds, another):
    now = home("2026-12-01 12:00")
    steps = [(what, f"2026-11-2{number} 09:00") for number, what in enumerate(kinds)]
    before = course(*steps, trial=TRIAL)
    after = course(*steps, (another, "2026-11-29 09:00"), trial=TRIAL)
    assert replace(after, steps=after.steps[:-1]) == before
    assert (after.closing is not None) == (after.state(now) is InquiryState.CLOSED) == (another in CLOSINGS)


def test_by_whom_it_was_closed_is_said_by_its_last_step():
    for closing in CLOSINGS:
        assert course(ANSWERED, (closing, "2026-11-25 09:00")).closing.what is closing


@pytest.mark.parametrize(
    ("steps", "now", "task", "on"),
    [
        ((), "2026-11-20 10:00", InquiryTask.ANSWER, date(2026, 11, 20)),
        # Asked again on the fifth and the twelfth day after the answer, then let go.
        ((ANSWERED,), "2026-11-21 10:00", InquiryTask.ASK_AGAIN, date(2026, 11, 25)),
        (
            (ANSWERED, (StepKind.ANSWERED, "2026-11-26 09:00")),
            "2026-11-26 10:00",
            InquiryTask.ASK_AGAIN,
            date(2026, 12, 2),
        ),
        (
            (ANSWERED, (StepKind.ANSWERED, "2026-11-26 09:00"), (StepKind.BY_PHONE, "2026-12-02 09:00")),
            "2026-12-03 10:00",
            InquiryTask.CLOSE,
            date(2026, 12, 7),
        ),
        (
            (ANSWERED, (StepKind.THEY_WROTE, "2026-11-23 09:00")),
            "2026-11-24 10:00",
            InquiryTask.REPLY,
            date(2026, 11, 23),
        ),
        (
            (ANSWERED, (StepKind.THEY_WROTE, "2026-11-23 09:00"), (StepKind.ANSWERED, "2026-11-24 09:00")),
            "2026-11-24 10:00",
            InquiryTask.ASK_AGAIN,
            date(2026, 11, 29),
        ),
        ((ANSWERED, BOOKED), "2026-12-01 10:00", None, None),
        ((ANSWERED, BOOKED), "2026-12-03 18:00", InquiryTask.ASK_ABOUT_TRIAL, date(2026, 12, 5)),
        (
            (ANSWERED, BOOKED, (StepKind.ANSWERED, "2026-12-05 09:00")),
            "2026-12-06 10:00",
            InquiryTask.CLOSE,
            date(2026, 12, 10),
        ),
        ((ANSWERED, (StepKind.WAITING, "2026-11-24 09:00")), "2026-12-06 10:00", None, None),
        ((ANSWERED, (StepKind.DECLINED, "2026-11-24 09:00")), "2026-12-06 10:00", None, None),
        ((ANSWERED, BOOKED, (StepKind.STUDENT, "2026-12-06 09:00")), "2026-12-16 10:00", None, None),
    ],
)
def test_what_is_to_be_done_next_and_from_when_on(steps, now, task, on):
    found = to_do(course(*steps, trial=TRIAL), now)
    assert (found.task, found.on) == (task, on) if task is not None else found is None


def test_a_trial_that_did_not_take_place_is_booked_again():
    found = to_do(course(ANSWERED, BOOKED, trial=replace(TRIAL, outcome=Outcome.CANCELLED)), "2026-12-04 09:00")
    assert (found.task, found.on) == (InquiryTask.BOOK_AGAIN, date(2026, 12, 3))


def test_the_most_urgent_stands_first():
    now = home("2026-12-01 12:00")
    late = course(number=1, came_at=home("2026-11-28 09:00"))
    newer = course(number=2, came_at=home("2026-11-30 09:00"))
    again = course(ANSWERED, number=3)
    booked = course(ANSWERED, BOOKED, trial=TRIAL, number=4)
    calm = course((StepKind.ANSWERED, "2026-11-29 09:00"), number=5)
    found = sorted(
        (standing_of(each, now, RULES, DAY) for each in (calm, booked, again, newer, late)),
        key=lambda each: each.urgency,
    )
    assert [each.course.inquiry.id for each in found] == [1, 2, 3, 4, 5]
    assert [each.is_due for each in found] == [True, True, True, False, False]


def test_steps_are_told_apart_by_inquiry_and_put_in_order():
    steps = [
        InquiryStep(id=InquiryStepId(3), inquiry_id=InquiryId(1), at=CAME + timedelta(days=2), what=StepKind.TRIAL),
        InquiryStep(id=InquiryStepId(1), inquiry_id=InquiryId(2), at=CAME, what=StepKind.ANSWERED),
        InquiryStep(id=InquiryStepId(2), inquiry_id=InquiryId(1), at=CAME, what=StepKind.ANSWERED),
    ]
    one, two = courses([inquiry(1, trial_lesson_id=TRIAL.id), inquiry(2)], steps, [TRIAL])
    assert ([step.id for step in one.steps], one.trial) == ([2, 3], TRIAL)
    assert ([step.id for step in two.steps], two.trial) == ([1], None)


def test_counts_have_their_denominators():
    """The values were computed: 12 came, 11 answered, 9 in time, 7 trials, 5 students."""
    answered = ("2026-11-21 09:00",) * 9 + ("2026-11-23 09:00",) * 2
    standings = []
    for number in range(12):
        steps = [(StepKind.ANSWERED, answered[number])] if number < 11 else []
        steps += [(StepKind.TRIAL, "2026-11-24 09:00")] if number < 7 else []
        steps += [(StepKind.STUDENT, "2026-11-25 09:00")] if number < 5 else []
        source = ("a friend", "the library", "")[number % 3]
        found = course(*steps, trial=TRIAL, number=number, source=source)
        standings.append(standing_of(found, home("2026-12-01 12:00"), RULES, DAY))
    counts = counted_inquiries(standings, date(2026, 9, 1), date(2026, 11, 30), CLOCK)
    assert (counts.came, counts.answered, counts.in_time, counts.trials, counts.students) == (12, 11, 9, 7, 5)
    assert [
        (source, each.came, each.answered, each.in_time, each.trials, each.students)
        for source, each in counts.by_source
    ] == [
        ("a friend", 4, 4, 3, 3, 2),
        ("the library", 4, 4, 3, 2, 2),
    ]
    assert counts_title(counts, 48) == "9 of 12 answered within 48 hours (75.0 %)"
    assert counts_lines(counts) == [
        "12 came, 11 answered, 7 trials, 5 students",
        "students: 5 of 7 trials (71.4 %), 5 of 12 inquiries (41.7 %)",
        "from a friend: 4 of 12, 3 of 4 with a trial, 2 of 4 became students",
        "from the library: 4 of 12, 2 of 4 with a trial, 2 of 4 became students",
    ]
    assert percent(counts.in_time, counts.came) == "75.0 %"
    assert percent(counts.students, counts.trials) == "71.4 %"
    assert percent(counts.students, counts.came) == "41.7 %"
    on = CLOCK.date_of(CAME)
    spans = [(on, on), (on + timedelta(days=1), date.max), (date.min, on - timedelta(days=1))]
    assert [counted_inquiries(standings, *span, CLOCK).came for span in spans] == [12, 0, 0]
    assert counts_lines(counted_inquiries([], on, on, CLOCK)) == []


@pytest.mark.parametrize(
    ("part", "whole", "said"), [(0, 3, "0.0 %"), (3, 3, "100.0 %"), (1, 16, "6.3 %"), (2, 3, "66.7 %")]
)
def test_a_percentage_is_rounded_half_up(part, whole, said):
    assert percent(part, whole) == said


@pytest.mark.parametrize(
    ("age", "is_adult", "level", "minutes"),
    [
        (8, False, Level.BEGINNER, 30),
        (10, False, Level.INTERMEDIATE, 45),
        (15, False, Level.ADVANCED, 60),
        (None, False, Level.ADVANCED, None),
        (None, False, None, None),
        (6, False, None, 30),
        (6, False, Level.ADVANCED, 45),
        (7, False, Level.ELEMENTARY, 45),
        (12, False, Level.BEGINNER, 30),
        (13, False, Level.BEGINNER, 45),
        (None, True, None, 45),
        (18, False, Level.INTERMEDIATE, 60),
    ],
)
def test_a_length_is_proposed_by_age_and_level(age, is_adult, level, minutes):
    """Common practice, no source."""
    assert inquiry(age=age, is_adult=is_adult, level=level).proposed_length(RULES) == minutes


def test_no_older_and_no_more_advanced_student_is_proposed_a_shorter_lesson():
    rows = [LENGTHS[level] for level in Level]
    assert all(list(row) == sorted(row) and len(row) == len(AGES) for row in rows)
    assert all(above <= below for first, second in pairwise(rows) for above, below in zip(first, second, strict=True))


@pytest.mark.parametrize(
    ("name", "child", "full"),
    [
        ("Ana Bell", "Nora", "Nora Bell"),
        ("Ana Bell", "Nora Quist", "Nora Quist"),
        ("Ana", "Nora", "Nora"),
        ("R. Castellan", None, "R. Castellan"),
    ],
)
def test_a_child_without_a_last_name_has_that_of_who_asks(name, child, full):
    assert inquiry(name=name, child=child).full_name == full


def test_every_pair_of_steps_has_a_state():
    for pair in product(StepKind, repeat=2):
        found = course(*((what, f"2026-11-2{number} 09:00") for number, what in enumerate(pair)), trial=TRIAL)
        standing = standing_of(found, home("2026-12-20 12:00"), RULES, DAY)
        assert standing.urgency
