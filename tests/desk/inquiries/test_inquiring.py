"""Inquiries at the desk: from the first line to the closing, each step taken back by one key."""

import random
from contextlib import contextmanager
from datetime import timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.studio import home

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.errors import BadInput, CockpitError, Refused
from cockpit.studio.inquiries.answer import is_by_phone
from cockpit.studio.inquiries.inquiry import InquiryState, StepKind
from cockpit.studio.inquiries.received import ReceivedMail
from cockpit.studio.inquiries.to_do import InquiryTask
from cockpit.studio.lessons.lesson import Kind, Outcome
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Guardian, Level
from cockpit.wiring import studio_at

NOW = home("2026-11-30 10:00")
ANA = "ana bell for nora 8, cello, phoenix, ana@example.org, tue or thu after 4pm, from a friend"
SETTINGS = (
    'home_zone = "America/Chicago"\n[sending]\nways = "mail"\nsignature = "Ms. Oyelaran"\n[sending.mail]\n'
    'host = "localhost"\nsecurity = "none"\nsender = "teacher@studio.example"\n'
)
ROSTER = """student,weekday,time,minutes,family,email,zone,until
Ilse,Tuesday,16:00,60,Brandvold,brandvold@example.org,America/Phoenix,
Wren,Tuesday,17:00,45,Aldersgate,,America/Chicago,2026-12-08
"""


@contextmanager
def opened(folder: Path, roster: str = ""):
    (folder / "settings.toml").write_text(SETTINGS)
    clock = SetClock(NOW)
    with studio_at(folder, clock, to_write=True) as studio:
        if roster:
            studio.enrolling.take_in(roster)
        studio.desk.day.open()
        yield studio, studio.desk.inquiring(), clock


def take(desk, line: str, number=None, purpose: Purpose = Purpose.INQUIRY):
    """Reads a line and carries it out; returns the inquiry."""
    proposal = desk.propose(number, purpose, line)
    said = desk.do(proposal)
    assert said == proposal.understood
    return max(desk._reading.inquiries(), key=lambda each: each.id) if number is None else desk.course(number).inquiry


def put_out(desk, number, text: str = "Hello Ana") -> str:
    """Puts an answer into the outbox."""
    return desk.answering.put_out(number, desk.answering.letter(number), text)


def test_a_line_becomes_an_inquiry_and_is_understood_with_its_deadline(tmp_path):
    with opened(tmp_path) as (studio, desk, _):
        proposal = desk.propose(None, Purpose.INQUIRY, ANA)
        assert proposal.understood == (
            "New inquiry: Ana Bell for Nora, 8; cello; Phoenix; Tue or Thu after 4:00 pm their time; ana@example.org; from a "
            "friend; 30 minutes proposed; answer by Wed, December 2, 10:00 am."
        )
        assert desk.view().open == ()
        desk.do(proposal)
        (standing,) = desk.view().open
        assert (standing.state, standing.to_do.task, desk.view().to_answer) == (InquiryState.NEW, InquiryTask.ANSWER, 1)
        assert studio.desk.teaching.undo() == "Undone: adding Ana Bell's inquiry."
        assert desk.view().open == ()


def test_what_is_known_can_be_corrected_by_the_same_line(tmp_path):
    with opened(tmp_path) as (_, desk, _):
        number = take(desk, ANA).id
        line = desk.line(number, Purpose.INQUIRY)
        assert line == "Ana Bell for Nora 8, cello, Phoenix, ana@example.org, tue or thu after 4pm, from a friend"
        with pytest.raises(Refused, match="Nothing is changed"):
            desk.propose(number, Purpose.INQUIRY, line)
        after = take(desk, line.replace("8", "9").replace("cello", "viola"), number)
        assert (after.age, after.instrument, after.came_at) == (9, "viola", NOW)


def test_the_answer_has_three_free_times_that_suit_both_clocks(tmp_path):
    with opened(tmp_path, ROSTER) as (_, desk, _):
        asked = take(desk, ANA)
        times = desk.answering.free_times(asked)
        # On Tuesdays Ilse and Wren are there until 5:45 pm, which is 4:45 pm in Phoenix.
        there = [f"{local_time(at, 'America/Phoenix'):%a %d %H:%M}" for at in times]
        assert there == ["Tue 01 17:00", "Thu 03 16:00", "Tue 08 17:00"]
        text = desk.answering.letter(asked.id).text
        assert text.startswith("Hello Ana,\n\nThank you for asking about cello lessons for Nora.")
        assert "Thu, December 3, 4:00 pm Phoenix (5:00 pm my time)" in text
        assert text.endswith("\n\nMs. Oyelaran\n")
        assert "{" not in text


def test_where_none_of_the_wishes_is_free_other_times_are_offered(tmp_path):
    with opened(tmp_path) as (_, desk, _):
        asked = take(desk, "ana bell, phoenix, sun after 11pm")
        assert len(desk.answering.free_times(asked)) == 3
        bare = take(desk, "jo amsel")
        assert "4:00 pm Chicago" in desk.answering.letter(bare.id).text
        assert "music lessons for you" in desk.answering.letter(bare.id).text


def test_an_answer_that_is_copied_or_given_by_phone_marks_the_inquiry_and_leaves_no_paper(tmp_path):
    with opened(tmp_path) as (studio, desk, _):
        number = take(desk, ANA).id
        with pytest.raises(Refused, match="no answer yet"):
            desk.answering.copied(number, " \n")
        assert "Paste it into an email to ana@example.org." in desk.answering.copied(number, "Hello Ana")
        assert desk.course(number).state(NOW) is InquiryState.ANSWERED
        assert studio.desk.inquiry_deadlines() == ()
        studio.desk.teaching.undo()
        assert len(studio.desk.inquiry_deadlines()) == 1
        assert is_by_phone(" By phone. She liked it.")
        assert not is_by_phone("Hello Ana. By phone")
        desk.answering.by_phone(number)
        assert desk.course(number).steps[-1].what is StepKind.BY_PHONE
        assert studio.desk.outbox.entries() == ()


def test_a_trial_is_tied_to_the_inquiry_with_what_is_known(tmp_path):
    with opened(tmp_path) as (studio, desk, clock):
        number = take(desk, ANA).id
        assert desk.line(number, Purpose.TRIAL) == "Nora Bell "
        proposal = desk.propose(number, Purpose.TRIAL, "Nora Bell thu 5pm")
        assert "Trial lesson for Nora Bell, cello" in proposal.understood
        assert "5:00 pm · 4:00 pm Phoenix, 30 minutes" in proposal.understood
        desk.do(proposal)
        course = desk.course(number)
        people = studio.store.reading.people()
        student = people.students[course.inquiry.student_id]
        family = people.families[student.family_id]
        assert (family.zone, student.name) == ("America/Phoenix", "Nora Bell")
        (ana,) = studio.store.reading.of_family(Guardian, family.id)
        assert (ana.name, ana.email) == ("Ana Bell", "ana@example.org")
        assert (course.trial.kind, course.trial.instrument, course.state(NOW)) == (
            Kind.TRIAL,
            "cello",
            InquiryState.TRIAL_BOOKED,
        )
        clock.at = home("2026-12-03 18:00")
        assert desk.view().open[0].state is InquiryState.TRIED
        clock.at = NOW
        studio.desk.teaching.undo()
        assert studio.store.reading.people().students == {}
        assert desk.course(number).inquiry.student_id is None
        assert desk.course(number).state(NOW) is InquiryState.NEW


def test_a_trial_becomes_a_student_and_is_counted(tmp_path):
    with opened(tmp_path) as (studio, desk, clock):
        number = take(desk, f"{ANA}, intermediate").id
        desk.do(desk.propose(number, Purpose.TRIAL, "Nora Bell thu 5pm"))
        student = desk.course(number).inquiry.student_id
        clock.at = home("2026-12-03 18:00")
        assert desk.line(number, Purpose.STUDENT) == ""
        desk.do(desk.propose(number, Purpose.STUDENT, "fri 2pm 45m from dec 11"))
        course = desk.course(number)
        assert (course.inquiry.student_id, course.inquiry.age, course.state(clock.at)) == (
            student,
            None,
            InquiryState.STUDENT,
        )
        assert [each.student_id for each in studio.store.reading.standing_times()] == [student]
        assert studio.store.reading.people().students[student].level is Level.INTERMEDIATE
        assert (desk.view().open, desk.view().counts.students) == ((), 1)
        studio.desk.teaching.undo()
        assert desk.course(number).inquiry.age == 8
        assert desk.course(number).state(clock.at) is InquiryState.TRIED
        # A weekly time that came another way, such as by a roster, says the same.
        studio.desk.arranging.do(
            studio.desk.arranging.propose(
                Purpose.STUDENT, _booking(desk.course(number), studio), "fri 2pm 45m from dec 11"
            )
        )
        assert desk.course(number).state(clock.at) is InquiryState.STUDENT


def test_who_becomes_a_student_without_a_trial_is_tied_to_the_inquiry(tmp_path):
    with opened(tmp_path) as (studio, desk, _):
        number = take(desk, f"{ANA}, beginner").id
        line = desk.line(number, Purpose.STUDENT)
        assert line == "Nora Bell, cello, ana@example.org, "
        desk.do(desk.propose(number, Purpose.STUDENT, f"{line}fri 2pm phoenix 45m from dec 11"))
        (student,) = studio.store.reading.people().students.values()
        assert (desk.course(number).inquiry.student_id, student.level) == (student.id, Level.BEGINNER)
        assert desk.view().counts.students == 1


def _booking(course, studio):
    people = studio.store.reading.people()
    student = people.students[course.trial.student_id]
    return ScheduledLesson(lesson=course.trial, student=student, family=people.families[student.family_id])


def test_a_second_child_of_an_address_is_offered_the_same_family(tmp_path):
    with opened(tmp_path) as (studio, desk, _):
        first = take(desk, ANA).id
        second = desk.propose(None, Purpose.INQUIRY, "ana bell for piet 6, cello, phoenix, ANA@example.org")
        assert "has asked before, for Nora" in second.troubles[0]
        desk.do(desk.propose(first, Purpose.TRIAL, "Nora Bell thu 5pm"))
        again = desk.propose(None, Purpose.INQUIRY, "ana bell for piet 6, cello, phoenix, ANA@example.org")
        assert again.troubles == (
            "ANA@example.org is the Nora Bell family's address. A trial can add a student to that family.",
        )
        desk.do(again)
        number = desk.view().open[0].course.inquiry.id
        assert desk.line(number, Purpose.TRIAL) == "Piet Bell, family Nora Bell "
        desk.do(desk.propose(number, Purpose.TRIAL, "Piet Bell, family Nora Bell fri 5pm"))
        assert len(studio.store.reading.people().families) == 1


def test_two_instruments_are_told(tmp_path):
    with opened(tmp_path) as (_, desk, _):
        assert (
            "consider one step more" in desk.propose(None, Purpose.INQUIRY, "ana bell 8, cello and piano").troubles[0]
        )


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("no answer", StepKind.NO_ANSWER),
        ("Chose somebody else", StepKind.DECLINED),
        ("they found another teacher", StepKind.DECLINED),
        ("i have no time", StepKind.TURNED_DOWN),
    ],
)
def test_an_inquiry_is_closed_with_a_reason_and_forgets_the_age(tmp_path, line, kind):
    with opened(tmp_path) as (studio, desk, _):
        number = take(desk, ANA).id
        after = take(desk, line, number, Purpose.CLOSE)
        assert (after.age, desk.course(number).closing.what) == (None, kind)
        assert [each.course.inquiry.id for each in desk.view().closed] == [number]
        studio.desk.teaching.undo()
        assert desk.course(number).inquiry.age == 8
        with pytest.raises(BadInput, match='"moved" is no reason'):
            desk.propose(number, Purpose.CLOSE, "moved")


def test_when_nothing_more_is_expected_of_them_no_answer_is_proposed(tmp_path):
    with opened(tmp_path) as (_, desk, clock):
        number = take(desk, ANA).id
        for days in (0, 5, 7):
            assert desk.line(number, Purpose.CLOSE) == ""
            clock.at += timedelta(days=days)
            desk.answering.by_phone(number)
        clock.at += timedelta(days=5)
        assert desk.line(number, Purpose.CLOSE) == "no answer"
        take(desk, desk.line(number, Purpose.CLOSE), number, Purpose.CLOSE)
        assert desk.course(number).closing.what is StepKind.NO_ANSWER
        today = desk.known.today
        assert (desk.counts(NOW.date(), today).came, desk.counts(today, today).came) == (1, 0)


def test_closed_ones_are_told_two_weeks_before_they_are_deleted(tmp_path):
    with opened(tmp_path) as (_, desk, clock):
        number = take(desk, ANA).id
        take(desk, "no answer", number, Purpose.CLOSE)
        clock.at = home("2027-11-15 09:00")
        assert (desk.view().closed, desk.view().leaving) == ((), ())
        clock.at = home("2027-11-17 09:00")
        assert [each.course.inquiry.id for each in desk.view().leaving] == [number]
        desk.they_wrote(number)
        assert (desk.view().leaving, desk.view().open[0].to_do.task) == ((), InquiryTask.REPLY)


def test_a_mail_is_taken_in_once_and_never_from_the_future(tmp_path):
    mail = ReceivedMail(
        name="Ana Bell", email="ana@example.org", came_at=NOW, subject="Cello", text="Hello", attachments=("a.pdf",)
    )
    with opened(tmp_path) as (studio, desk, _):
        assert "New inquiry: Ana Bell; ana@example.org; answer by Wed, December 2, 10:00 am." in desk.take_mail(
            mail, NOW
        )
        assert desk.view().open[0].course.inquiry.words == "Cello\n\nHello\n\nAttached: a.pdf"
        with pytest.raises(Refused, match="is an inquiry already"):
            desk.take_mail(mail, NOW)
        with pytest.raises(BadInput, match="still to come"):
            desk.take_mail(mail, NOW + timedelta(minutes=1))
        assert desk.came("sat 10am") == home("2026-11-28 10:00")
        studio.desk.teaching.undo()
        assert desk.view().open == ()


def test_their_words_are_kept_and_taken_back(tmp_path):
    with opened(tmp_path) as (studio, desk, _):
        number = take(desk, ANA).id
        assert desk.keep_words(number, "  Hello,\nNora is shy.\n") == "Their words are in Ana Bell's inquiry."
        assert desk.course(number).inquiry.words == "  Hello,\nNora is shy."
        assert desk.keep_words(number, "  Hello,\nNora is shy.") == ""
        with pytest.raises(Refused, match="longer than 20,000"):
            desk.keep_words(number, "x" * 20_001)
        studio.desk.teaching.undo()
        assert desk.course(number).inquiry.words == ""


def test_where_nothing_may_be_written_a_line_is_refused_with_the_reason(tmp_path):
    with opened(tmp_path):
        pass
    with studio_at(tmp_path, SetClock(NOW), to_write=False) as studio, pytest.raises(Refused, match="only reads"):
        studio.desk.inquiring().propose(None, Purpose.INQUIRY, ANA)


STEPS = st.lists(
    st.sampled_from(
        [
            "new",
            "answer",
            "copied",
            "phone",
            "trial",
            "wait",
            "close",
            "wrote",
            "words",
            "cancel",
            "undo",
            "undo",
            "later",
        ]
    ),
    max_size=14,
)


@given(STEPS, st.integers(0, 2**16))
@examples(15, long=20)
def test_every_step_can_be_taken_back_in_the_order_in_which_it_was_taken(tmp_path_factory, steps, seed):
    """An undo machine: after as many undos as steps, the studio has the rows that it began with."""
    chance, days = random.Random(seed), iter(range(100))
    with opened(tmp_path_factory.mktemp("undo"), ROSTER) as (studio, desk, clock):
        seen = [_rows(studio)]

        def number():
            return chance.choice(desk._reading.inquiries()).id

        deeds = {
            "new": lambda: take(desk, f"ana bell for nora {chance.randrange(1, 17)}, cello, phoenix, x{chance.randrange(9)}@example.org"),
            "copied": lambda: desk.answering.copied(number(), "Hello"),
            "answer": lambda: put_out(desk, number()),
            "phone": lambda: desk.answering.by_phone(number()),
            "trial": lambda: desk.do(desk.propose(n := number(), Purpose.TRIAL, f"{desk.line(n, Purpose.TRIAL)} 2026-12-{10 + next(days)} 8pm")),
            "wait": lambda: take(desk, "tue after 4", number(), Purpose.WAITING),
            "close": lambda: take(desk, "no answer", number(), Purpose.CLOSE),
            "wrote": lambda: desk.they_wrote(number()),
            "words": lambda: desk.keep_words(number(), f"words {chance.random()}"),
            "cancel": lambda: _cancel_trial(studio, desk),
            "later": lambda: setattr(clock, "at", clock.at + timedelta(hours=chance.randrange(60))),
            "undo": studio.desk.teaching.undo,
        }  # fmt: skip
        for step in steps:
            try:
                deeds[step]()
            except (CockpitError, IndexError, StopIteration):
                assert _rows(studio) == seen[-1]
                continue
            if step == "undo":
                seen.pop()
                assert _rows(studio) == seen[-1]
            elif _rows(studio) != seen[-1]:
                seen.append(_rows(studio))
            for standing in desk.view().open:
                assert standing.urgency
        while len(seen) > 1:
            studio.desk.teaching.undo()
            seen.pop()
            assert _rows(studio) == seen[-1]


def _cancel_trial(studio, desk) -> None:
    trial = next(each.trial for each in desk.known.all() if each.trial is not None and each.trial.outcome is None)
    studio.desk.teaching.mark(studio.preferences.home.date_of(trial.starts_at), trial.id, Outcome.ABSENT)


def _rows(studio) -> dict[str, list[tuple[object, ...]]]:
    connection = studio.store.connection
    return {
        table: sorted(map(tuple, connection.execute(f"SELECT * FROM {table}").fetchall()), key=repr)
        for table in ("inquiry", "inquiry_step", "outgoing", "family", "student", "lesson")
    }
