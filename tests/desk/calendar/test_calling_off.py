"""Lessons that the teacher calls off: each family is told alone, a make-up is owed, and one step takes all of it back."""

from datetime import UTC, datetime

import pytest
from support.outbox import MORNING, Answering, posting_studio
from support.sample import sample_studio

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Purpose
from cockpit.studio.errors import BadInput, Refused
from cockpit.studio.lessons.lesson import Outcome
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.wiring import studio_at

TEN = datetime(2026, 12, 1, 16, tzinfo=UTC)  # 10:00 in Chicago


@pytest.fixture
def sample(tmp_path):
    with sample_studio(tmp_path, TEN) as (studio, _clock):
        yield studio


def call_off(studio, line, booking=None):
    proposal = studio.desk.arranging.propose(Purpose.CALL_OFF, booking, line)
    studio.desk.arranging.do(proposal)
    studio.desk.day.reload()
    return proposal


def test_a_day_of_the_sample_studio_is_called_off_in_one_step_and_taken_back_in_one(sample):
    before = {booking.lesson.id for booking in sample.desk.day.bookings}
    proposal = call_off(sample, "today ill")
    outcomes = [booking.lesson.outcome for booking in sample.desk.day.bookings]
    assert outcomes == [Outcome.CALLED_OFF] * 6
    assert {booking.lesson.reason for booking in sample.desk.day.bookings} == {"ill"}
    letters = sample.desk.outbox.entries()
    assert len(letters) == len({letter.family_id for letter in letters}) == len(proposal.shown) == 6
    assert sum(map(len, sample.desk.ahead.make_ups_owed().values())) == 6
    for letter in letters:
        assert letter.paper is Paper.LETTER
        assert " ill" not in f"{letter.title} {letter.text} {letter.page}"
    assert proposal.understood.startswith(
        "Called off: Eilidh, Teodor, Ilse, Mireille, Nalani, and Ishaan, Tue, December 1."
    )
    assert "6 make-ups are owed. 6 letters wait in the outbox, one a family." in proposal.understood
    sample.desk.teaching.undo()
    assert [booking.lesson.outcome for booking in sample.desk.day.bookings] == [None] * 6
    assert {booking.lesson.id for booking in sample.desk.day.bookings} == before
    assert sample.desk.outbox.entries() == ()
    assert sample.desk.ahead.make_ups_owed() == {}


def test_no_letter_names_another_family_or_its_time(sample):
    call_off(sample, "today")
    letters = sample.desk.outbox.entries()
    names = {letter.student for letter in letters}
    for letter in letters:
        others = names - {letter.student}
        assert not [name for name in others if name in letter.text + letter.title + letter.page]


@pytest.mark.parametrize(
    ("line", "students"),
    [("from 4pm", ["Ilse", "Mireille", "Nalani", "Ishaan"]), ("ilse", ["Ilse"]), ("family okonjo", ["Teodor"])],
)
def test_a_line_calls_off_what_it_names_and_nothing_else(sample, line, students):
    call_off(sample, line)
    found = [b.student.name for b in sample.desk.day.bookings if b.lesson.outcome is Outcome.CALLED_OFF]
    assert found == students


def test_an_empty_line_is_the_chosen_lesson_and_one_that_has_begun_is_refused(sample):
    desk = sample.desk
    assert desk.day.shown is not None
    call_off(sample, "", desk.day.shown)
    assert desk.day.bookings[0].lesson.outcome is Outcome.CALLED_OFF
    with pytest.raises(Refused, match="Only a lesson to come is called off"):
        desk.arranging.propose(Purpose.CALL_OFF, desk.day.bookings[0], "")


def test_a_line_that_names_no_lesson_is_told(sample):
    with pytest.raises(BadInput, match="no lesson to call off: Sun, December 6"):
        sample.desk.arranging.propose(Purpose.CALL_OFF, None, "sunday")


def test_what_is_owed_is_her_policy(tmp_path):
    with sample_studio(tmp_path, TEN):
        pass
    with (tmp_path / "settings.toml").open("a", encoding="utf-8") as settings:
        settings.write('\n[policy]\ncalled_off = "nothing"\n')
    with studio_at(tmp_path, SetClock(TEN), to_write=True) as studio:
        studio.desk.day.open()
        assert "No make-up is owed." in call_off(studio, "today").understood
        assert studio.desk.ahead.make_ups_owed() == {}


def test_a_lesson_that_is_called_off_is_made_up_and_then_owed_no_more(sample):
    call_off(sample, "ilse")
    called = next(b for b in sample.desk.day.bookings if b.student.name == "Ilse")
    sample.desk.arranging.do(sample.desk.arranging.propose(Purpose.MAKE_UP, called, "fri 4pm"))
    assert sample.desk.ahead.make_ups_owed() == {}


def test_a_letter_goes_by_mail_to_each_address_alone_and_never_twice(tmp_path):
    with posting_studio(tmp_path, "mail") as posted:
        assert posted.clock.at == MORNING
        posted.studio.desk.day.open()
        call_off(posted.studio, "today ill")
        assert [entry.fate for entry in posted.entries()] == [DeliveryStatus.WAITING] * len(posted.entries())
        sender = posted.send()
        addresses = [parcel.address for parcel in sender.carried]
        assert sorted(addresses) == [
            "ada@okonjo.example",
            "ann@brandvold.example",
            "m@perreault.example",
            "per@brandvold.example",
        ]
        for parcel in sender.carried:
            mail = parcel.documents[0].content.decode()
            assert not [other for other in addresses if other != parcel.address and other in mail]
            assert "Subject: No lesson on" in mail
            assert "\r\nTor" not in mail or "brandvold" in parcel.address
        assert posted.send(Answering()).carried == []
        with pytest.raises(Refused, match=r"The letter for .* changed in the outbox since then"):
            posted.studio.desk.teaching.undo()


def test_a_letter_of_two_siblings_names_both(tmp_path):
    with posting_studio(tmp_path, "mail") as posted:
        posted.studio.desk.day.open()
        call_off(posted.studio, "family brandvold")
        first, second = posted.entries()
        assert (first.student, first.text) == (second.student, second.text)
        assert "Ilse" in first.text
        assert "Tor" in first.text
        assert first.about == second.about


def test_what_is_to_be_copied_is_sent_by_nobody(sample):
    call_off(sample, "ilse")
    (letter,) = sample.desk.outbox.entries()
    assert (letter.way, letter.fate) == (Channel.CLIPBOARD, DeliveryStatus.WAITING)
    sender = Answering()
    sample.desk.dispatch.hand_over(sender, at_once=True)
    assert sender.carried == []


def test_her_own_words_go_out_as_she_wrote_them(tmp_path):
    with posting_studio(tmp_path, "mail") as posted:
        desk = posted.studio.desk
        desk.day.open()
        booking = next(each for each in desk.day.bookings if each.family.name == "Perreault")
        letter = desk.letters.on(booking, desk.ahead.times_for(booking))
        assert letter.text.count("\n- ") == 3
        said = desk.letters.put_out(letter, "Dear Mireille,\n\n5 pm <instead>?")
        assert said == "The letter for Mireille is in the outbox. It goes in 10 seconds."
        (entry,) = posted.entries()
        assert entry.text == "Dear Mireille,\n\n5 pm <instead>?"
        assert "&lt;instead&gt;" in entry.page
        desk.teaching.undo()
        assert posted.entries() == ()
