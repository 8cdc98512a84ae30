"""The answer to an inquiry on its way: to its own address alone, once, and never by itself."""

from contextlib import contextmanager
from email import message_from_bytes
from email.policy import default

import pytest
from support.bytes_of import files_holding
from support.outbox import Answering, posting_studio

from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.inquiries.clearing import clear_inquiries
from cockpit.outlets.folder import StudioFolder
from cockpit.outlets.sender import ParcelSender
from cockpit.studio.errors import Refused
from cockpit.studio.inquiries.inquiry import InquiryState, StepKind
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus, Paper

ANA = "ana bell for nora 8, cello, phoenix, ana@example.org"
NEVER = Delivery(answer=Answer.NEVER, reason="no such mailbox")
TEXT = "Hello Ana,\n\nquokka times.\n\nMs. Oyelaran\n"


@contextmanager
def asked(folder, ways: str = "mail", line: str = ANA):
    """A studio with one inquiry, its desk for inquiries, and the inquiry's number."""
    sending = f'ways = "{ways}"\nsignature = "Ms. Oyelaran"'
    with posting_studio(folder, sending=sending) as posted:
        inquiring = posted.studio.desk.inquiring()
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, line))
        (inquiry,) = posted.studio.store.reading.inquiries()
        yield posted, inquiring, inquiry.id


def put_out(inquiring, number, text: str = TEXT) -> str:
    return inquiring.answering.put_out(number, inquiring.answering.letter(number), text)


def state(posted, inquiring, number) -> InquiryState:
    return inquiring.course(number).state(posted.clock.at)


def test_an_answer_goes_to_the_inquirys_own_address_once_and_marks_it(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        letter = inquiring.answering.letter(number)
        assert posted.entries() == (), "nothing goes before she says so"
        assert inquiring.answering.way_of(letter) == "by email"
        assert put_out(inquiring, number) == "The answer to Ana Bell is in the outbox. It goes in 10 seconds."
        (item,) = posted.entries()
        assert (item.paper, item.whom, item.address) == (Paper.REPLY, (None, number), "ana@example.org")
        assert (item.title, item.text) == ("Your question about cello lessons", TEXT)
        assert state(posted, inquiring, number) is InquiryState.ANSWERED
        with pytest.raises(Refused, match="still in the outbox"):
            inquiring.answering.letter(number)
        assert posted.studio.desk.dispatch.next_parcel() is None, "ten seconds of undo"
        (parcel,) = posted.send().carried
        read = message_from_bytes(parcel.documents[0].content, policy=default)
        assert (str(read["To"]), str(read["Subject"])) == ("ana@example.org", "Your question about cello lessons")
        plain = read.get_body(("plain",)).get_content().replace("\r\n", "\n")
        assert plain == TEXT, "her words as they are: the signature once, no greeting of notes"
        assert "quokka times." in read.get_body(("html",)).get_content()
        posted.clock.wind(days=2)
        assert posted.send().carried == []
        assert posted.fates() == [DeliveryStatus.SENT]


def test_in_the_ten_seconds_one_undo_takes_both_back_and_afterwards_none_does(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        assert posted.studio.desk.teaching.undo() == "Undone: the answer to Ana Bell."
        assert posted.entries() == ()
        assert state(posted, inquiring, number) is InquiryState.NEW
        put_out(inquiring, number)
        posted.send()
        with pytest.raises(Refused, match="The answer to Ana Bell changed in the outbox since then"):
            posted.studio.desk.teaching.undo()
        with pytest.raises(Refused, match="You have answered Ana Bell since then, so the inquiry was kept"):
            posted.studio.desk.teaching.undo()
        assert posted.fates() == [DeliveryStatus.SENT]


def test_an_answer_as_a_draft_waits_for_her_below_a_name_of_its_own(tmp_path):
    with asked(tmp_path, "draft") as (posted, inquiring, number):
        assert inquiring.answering.way_of(inquiring.answering.letter(number)) == "as a draft"
        put_out(inquiring, number)
        posted.send(ParcelSender(posted.studio.preferences.sending, tmp_path))
        (draft,) = (tmp_path / "drafts").iterdir()
        assert draft.name.startswith("Ana Bell answer-")
        read = message_from_bytes(draft.read_bytes(), policy=default)
        assert (str(read["To"]), str(read["X-Unsent"])) == ("ana@example.org", "1")
        (item,) = posted.entries()
        assert posted.studio.desk.outbox.drafts_waiting() == {item.id: draft.name}
        posted.studio.desk.outbox.take_as_sent(item.id)
        assert not draft.exists()


@pytest.mark.parametrize(("ways", "line"), [("clipboard", ANA), ("folder", ANA), ("mail", "ana bell, cello")])
def test_without_a_way_or_an_address_it_is_hers_to_copy(tmp_path, ways, line):
    folder = f'{ways}"\nfolder = "{tmp_path}' if ways == "folder" else ways
    with asked(tmp_path / "studio", folder, line) as (posted, inquiring, number):
        assert inquiring.answering.way_of(inquiring.answering.letter(number)) == ""
        inquiring.answering.copied(number, TEXT)
        assert posted.entries() == ()
        assert state(posted, inquiring, number) is InquiryState.ANSWERED


def test_an_answer_that_was_refused_is_none_until_it_goes_to_another_address_of_the_inquiry(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        assert posted.studio.desk.inquiry_deadlines() == ()
        posted.send(Answering([NEVER]))
        (item,) = posted.entries()
        assert (item.fate, item.named("refused")) == (DeliveryStatus.REFUSED, "The answer to Ana Bell is refused")
        assert state(posted, inquiring, number) is InquiryState.NEW
        assert len(posted.studio.desk.inquiry_deadlines()) == 1
        said = posted.studio.desk.outbox.change_address(item.id, "ana@new.example")
        assert said == "Ana Bell's address is now ana@new.example. Sending 1 there."
        assert inquiring.course(number).inquiry.email == "ana@new.example"
        assert state(posted, inquiring, number) is InquiryState.ANSWERED
        (parcel,) = posted.send().carried
        assert parcel.address == "ana@new.example"
        assert len(posted.studio.store.reading.guardians()) == 4, "no guardian gets it"


def test_an_answer_that_is_withdrawn_leaves_the_inquiry_to_be_answered(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        (item,) = posted.entries()
        posted.studio.desk.outbox.withdraw(item.id)
        assert [each.to_do.task.name for each in inquiring.view().open] == ["ANSWER"]
        assert inquiring.view().counts.answered == 0
        put_out(inquiring, number)
        assert inquiring.view().counts.answered == 1


def test_nothing_goes_to_an_address_that_is_no_longer_the_inquirys(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        line = inquiring.line(number, Purpose.INQUIRY).replace("ana@", "bell@")
        inquiring.do(inquiring.propose(number, Purpose.INQUIRY, line))
        assert posted.send().carried == []
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (
            DeliveryStatus.REFUSED,
            "ana@example.org is no longer the address of this inquiry",
        )
        posted.studio.desk.outbox.change_address(item.id, "bell@example.org")
        assert [each.address for each in posted.send().carried] == ["bell@example.org"]


def test_an_answer_that_waits_is_withdrawn_with_the_closing_and_waits_again_when_that_is_undone(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        inquiring.do(inquiring.propose(number, Purpose.CLOSE, "chose somebody else"))
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.WITHDRAWN, "the inquiry was closed")
        posted.studio.desk.teaching.undo()
        assert posted.fates() == [DeliveryStatus.WAITING]
        assert state(posted, inquiring, number) is InquiryState.ANSWERED
        inquiring.do(inquiring.propose(number, Purpose.CLOSE, "no answer"))
        assert posted.send().carried == []
        assert posted.fates() == [DeliveryStatus.WITHDRAWN]


def test_a_trial_does_not_take_the_answer_from_its_address(tmp_path):
    """Who had a trial is in a family; what was written to the inquiry goes to the inquiry's address all the same."""
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        inquiring.do(inquiring.propose(number, Purpose.TRIAL, "Nora Bell thu 5pm"))
        assert [each.address for each in posted.send().carried] == ["ana@example.org"]


def test_what_was_going_when_the_program_ended_is_asked_about(tmp_path):
    with asked(tmp_path) as (posted, inquiring, number):
        put_out(inquiring, number)
        posted.clock.wind(seconds=11)
        assert posted.studio.desk.dispatch.next_parcel() is not None
        clock = posted.clock
    with posting_studio(tmp_path, clock=clock) as posted:
        assert posted.fates() == [DeliveryStatus.UNSURE]
        assert state(posted, posted.studio.desk.inquiring(), number) is InquiryState.ANSWERED


def test_a_closed_inquiry_that_is_forgotten_takes_its_answers_and_drafts_along_to_the_byte(tmp_path):
    with asked(tmp_path, "draft") as (posted, inquiring, number):
        put_out(inquiring, number)
        sender = ParcelSender(posted.studio.preferences.sending, tmp_path)
        posted.send(sender)
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, "jo amsel, piano, jo@example.org"))
        other = next(each for each in posted.studio.store.reading.inquiries() if each.id != number)
        put_out(inquiring, other.id, "wombat times")
        posted.send(sender)
        inquiring.do(inquiring.propose(number, Purpose.CLOSE, "no answer"))
        posted.clock.wind(days=366)
        store = posted.studio.store
        clear_inquiries(store.reading, store.writing, StudioFolder(tmp_path), posted.clock.at)
        assert [each.name for each in store.reading.inquiries()] == ["Jo Amsel"]
        assert [each.student for each in store.reading.answers()] == ["Jo Amsel"]
        assert [path.name[:8] for path in (tmp_path / "drafts").iterdir()] == ["Jo Amsel"]
    assert files_holding(tmp_path, ["quokka", "ana@example.org", "Ana Bell"]) == {}
    assert {name.split("/")[0] for name in files_holding(tmp_path, ["wombat"])} == {"studio.db", "drafts"}


def test_an_answer_goes_by_every_way_of_the_studio(tmp_path):
    with asked(tmp_path, "mail, draft") as (posted, inquiring, number):
        assert inquiring.answering.way_of(inquiring.answering.letter(number)) == "as a draft and by email"
        put_out(inquiring, number)
        assert [item.way for item in posted.entries()] == [Channel.DRAFT, Channel.MAIL]
        first, second = posted.entries()
        posted.studio.desk.outbox.withdraw(first.id)
        assert inquiring.course(number).has(StepKind.ANSWERED)
        posted.studio.desk.outbox.withdraw(second.id)
        assert not inquiring.course(number).has(StepKind.ANSWERED)
