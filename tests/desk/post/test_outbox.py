"""The outbox at the desk: once, whole, in order, and never without her knowing."""

import contextlib
import sqlite3
from datetime import timedelta

import pytest
from support.outbox import MORNING, TAKEN, Answering, Posted, posting_studio, words

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Purpose
from cockpit.desk.lookup import addresses_for
from cockpit.outlets.sender import ParcelSender
from cockpit.studio.day.review import OtherDaysNotes
from cockpit.studio.errors import Refused
from cockpit.studio.people.people import Guardian
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import REHEARSED, DeliveryStatus, Paper
from cockpit.wording.day_review import missing_sentence
from cockpit.wording.outbox import nothing_left

BODY = "Scales: D major\nPrivate: braces come off\nWell played"
LATER = Delivery(answer=Answer.LATER, reason="the server is busy")
NO_NETWORK = Delivery(answer=Answer.LATER, reason="no network", is_channel_shut=True)
NEVER = Delivery(answer=Answer.NEVER, reason="no such mailbox")
UNKNOWN = Delivery(answer=Answer.UNKNOWN, reason="the line was cut")
FOLDER = 'folder = "{}"'


def test_the_finish_puts_the_notes_into_the_outbox_once_for_each_guardian(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        assert words(posted.entries()) == [
            ("Ilse", "draft", "ann@brandvold.example"),
            ("Ilse", "draft", "per@brandvold.example"),
        ]
        assert posted.fates() == [DeliveryStatus.WAITING, DeliveryStatus.WAITING]
        assert all("D major" in item.text and "braces" not in item.text + item.page for item in posted.entries())


@pytest.mark.parametrize("way", ["mail", "draft", "folder", "clipboard"])
def test_what_was_finished_in_a_rehearsal_is_never_sent_also_not_later(tmp_path, way):
    there = tmp_path / "carried on"
    there.mkdir()
    sending = FOLDER.format(there)
    with posting_studio(tmp_path / "copy", way, sending, SetClock(MORNING, is_rehearsal=True)) as rehearsed:
        lesson_id = rehearsed.finish("Ilse", "Okonjo", BODY)
        assert rehearsed.entries() == ()
        assert (tmp_path / "copy" / "notes" / "Okonjo" / "2026-12-01 Ilse.md").exists()
        at = rehearsed.clock.at
    with posting_studio(tmp_path / "copy", way, sending, SetClock(at)) as posted:
        desk = posted.studio.desk
        assert posted.send().carried == []
        posted.finish("Ilse", "Okonjo", f"{BODY}\nand once more")  # reopened, written on and finished for good
        shown = next(each for each in desk.day.bookings if each.lesson.id == lesson_id)
        assert shown.lesson.is_rehearsed
        assert posted.entries() == ()
        assert list(there.iterdir()) == []
        assert desk.previewing.of_lesson(shown).facts == ("Finished in a rehearsal: never sent",)
        posted.finish("Tor", "Brandvold", BODY)
        assert bool(posted.entries()) is (way != "clipboard"), "what was not rehearsed goes as ever"


def test_a_letter_that_was_written_in_a_rehearsal_is_never_sent_also_not_later(tmp_path):
    folder = tmp_path / "copy"
    with posting_studio(folder) as posted:
        posted.finish("Tor", "Brandvold", BODY)  # waits in the copy, as it did in the studio
        waiting = posted.entries()
        posted.studio.desk.outbox.withdraw(waiting[0].id)
    with posting_studio(folder, clock=SetClock(MORNING, is_rehearsal=True)) as rehearsed:
        desk = rehearsed.studio.desk
        desk.day.open()
        ilse = next(each for each in desk.day.bookings if each.family.name == "Okonjo")
        letter = desk.letters.on(ilse, ())
        said = desk.letters.put_out(letter, f"{letter.text}\n\nwords of mine")
        assert said == "The letter for Ilse is in the outbox, and is never sent: this is a rehearsal."
        called_off = desk.arranging.propose(Purpose.CALL_OFF, ilse, "today ill")
        assert "A rehearsal sends no letters." in called_off.understood
        desk.arranging.do(called_off)
        desk.teaching.undo()
        desk.arranging.do(called_off)
        mine = [each for each in rehearsed.entries() if each.reason == REHEARSED]
        assert {each.paper for each in mine} == {Paper.LETTER}
        assert len(mine) == 5  # the letter, and one for each address of a family of the day
        assert "words of mine" in mine[0].text
        for each in (mine[0], waiting[0]):
            with pytest.raises(Refused, match="rehearsal"):
                desk.outbox.try_again(each.id)
        assert [each.fate for each in rehearsed.entries() if each.reason != REHEARSED] == [
            DeliveryStatus.WITHDRAWN, DeliveryStatus.WAITING,
        ]  # fmt: skip
        at = rehearsed.clock.at
    with posting_studio(folder, clock=SetClock(at + timedelta(hours=1))) as posted:
        outbox = posted.studio.desk.outbox
        with pytest.raises(Refused, match="is written in a rehearsal, which sends nothing"):
            outbox.try_again(mine[0].id)
        assert outbox.try_all_again() == "Retrying 1."
        sender = posted.send()
        assert {item.paper for parcel in sender.carried for item in parcel.items} == {Paper.NOTES}
        assert outbox.try_again(waiting[0].id) == "Resending the notes for Tor."


def test_not_everything_has_been_sent_while_drafts_wait_for_her(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        assert nothing_left(posted.studio.desk.outbox.drafts()) == "everything has been sent"
        posted.finish("Ilse", "Brandvold", BODY)
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(ParcelSender(posted.studio.preferences.sending, tmp_path))
        assert not any(item.is_open for item in posted.entries())
        assert nothing_left(posted.studio.desk.outbox.drafts()) == (
            "nothing is waiting here; 2 drafts in drafts/ for you to send"
        )
        outbox = posted.studio.desk.outbox
        waiting = outbox.drafts_waiting()
        assert sorted(waiting.values()) == [
            "Brandvold/2026-12-01 Ilse, ann@brandvold.example.eml",
            "Brandvold/2026-12-01 Ilse, per@brandvold.example.eml",
        ]
        first, second = waiting
        assert outbox.take_as_sent(first).startswith("The draft for Ilse is deleted from drafts/.")
        assert set(outbox.drafts_waiting()) == {second}
        with pytest.raises(Refused):
            outbox.take_as_sent(first)
        for draft in (tmp_path / "drafts").rglob("*.eml"):
            draft.unlink()
        assert outbox.drafts_waiting() == {}
        assert nothing_left(posted.studio.desk.outbox.drafts()) == "everything has been sent"


def test_undo_takes_the_mark_of_a_rehearsal_away(tmp_path):
    with posting_studio(tmp_path, clock=SetClock(MORNING, is_rehearsal=True)) as rehearsed:
        rehearsed.finish("Ilse", "Okonjo", BODY)
        rehearsed.studio.desk.teaching.undo()
        assert not any(each.lesson.is_rehearsed for each in rehearsed.studio.desk.day.bookings)


def test_what_goes_into_a_folder_of_hers_lies_there_as_in_the_studio(tmp_path):
    there = tmp_path / "carried on"
    there.mkdir()
    with posting_studio(tmp_path / "studio", "folder", FOLDER.format(there)) as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        sender = ParcelSender(posted.studio.preferences.sending, posted.studio.desk.folder)
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(sender)
        assert posted.fates() == [DeliveryStatus.SENT]
        ours = tmp_path / "studio" / "notes" / "Okonjo" / "2026-12-01 Ilse.md"
        theirs = there / "Okonjo" / "2026-12-01 Ilse.md"
        assert theirs.read_bytes() == ours.read_bytes()
        assert theirs.with_suffix(".html").read_bytes() == ours.with_suffix(".html").read_bytes()


def test_a_folder_that_is_not_there_is_waited_for_and_not_made(tmp_path):
    there = tmp_path / "disk"
    with posting_studio(tmp_path / "studio", "folder", FOLDER.format(there)) as posted:
        sender = ParcelSender(posted.studio.preferences.sending, posted.studio.desk.folder)
        posted.finish("Ilse", "Okonjo", BODY)
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(sender)
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.WAITING, f"the folder {there} does not exist")
        assert not there.exists()
        there.mkdir()
        posted.clock.wind(minutes=2)
        posted.studio.desk.dispatch.hand_over(sender)
        assert posted.fates() == [DeliveryStatus.SENT]


def test_nothing_goes_before_the_time_for_undo_is_over_and_undo_takes_it_out(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        assert posted.studio.desk.dispatch.next_parcel() is None
        posted.studio.desk.teaching.undo()
        assert posted.entries() == ()
        posted.clock.wind(minutes=1)
        assert posted.studio.desk.dispatch.next_parcel() is None


def test_undo_does_not_take_back_what_went_out(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send()
        with pytest.raises(Refused, match="notes for Ilse changed in the outbox since then"):
            posted.studio.desk.teaching.undo()
        assert posted.fates() == [DeliveryStatus.SENT]


def test_an_attempt_is_on_the_disk_before_anything_is_handed_over(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.clock.wind(seconds=11)
        parcel = posted.studio.desk.dispatch.next_parcel()
        assert parcel is not None
        with contextlib.closing(sqlite3.connect(tmp_path / "studio.db")) as other, other:
            assert other.execute("SELECT fate, attempts FROM outgoing").fetchall() == [("going", 1)]
        assert posted.studio.desk.dispatch.next_parcel() is None


def test_without_a_network_everything_waits_and_goes_in_order_afterwards(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Tor", "Brandvold")):
            posted.finish(student, family, BODY)
        offline = posted.send(Answering([NO_NETWORK]))
        assert len(offline.carried) == 1, "what has nothing to do with the notes is not tried with each of them"
        assert posted.fates() == [DeliveryStatus.WAITING] * 3
        assert {item.reason for item in posted.entries()} == {"no network"}
        posted.clock.wind(minutes=2)
        online = posted.send()
        assert [(p.items[0].student, p.items[0].family_id) for p in online.carried] == [
            (item.student, item.family_id) for item in posted.entries()
        ]
        assert posted.fates() == [DeliveryStatus.SENT] * 3


def test_one_that_must_wait_does_not_hold_up_the_others(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send(Answering([LATER, TAKEN]))
        assert posted.fates() == [DeliveryStatus.WAITING, DeliveryStatus.SENT]
        posted.clock.wind(minutes=2)
        posted.send()
        assert posted.fates() == [DeliveryStatus.SENT, DeliveryStatus.SENT]


def test_what_was_refused_waits_for_her(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send(Answering([NEVER]))
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.REFUSED, "no such mailbox")
        posted.clock.wind(days=1)
        assert posted.send().carried == []
        assert posted.studio.desk.outbox.try_again(item.id) == "Resending the notes for Ilse."
        posted.send()
        assert posted.fates() == [DeliveryStatus.SENT]


def test_what_is_in_doubt_is_asked_about_and_never_sent_by_itself(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send(Answering([UNKNOWN]))
        (item,) = posted.entries()
        posted.clock.wind(days=1)
        assert posted.send().carried == []
        assert posted.studio.desk.outbox.unsent() == {item.lesson_id: DeliveryStatus.UNSURE}
        posted.studio.desk.outbox.take_as_sent(item.id)
        assert posted.fates() == [DeliveryStatus.SENT]


def test_a_version_waits_until_nobody_is_in_doubt_about_the_one_before(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send(Answering([UNKNOWN]))
        posted.finish("Ilse", "Okonjo", BODY + "\nTheory: page 4")
        assert posted.fates() == [DeliveryStatus.UNSURE, DeliveryStatus.WAITING]
        assert posted.send().carried == []
        posted.studio.desk.outbox.take_as_sent(posted.entries()[0].id)
        assert len(posted.send().carried) == 1


def test_notes_that_are_finished_again_go_out_only_if_the_family_sees_a_change(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send()
        posted.finish("Ilse", "Okonjo", BODY + "\nPrivate: her own thoughts")
        assert posted.fates() == [DeliveryStatus.SENT]
        posted.finish("Ilse", "Okonjo", BODY + "\nTheory: page 4")
        assert [(item.version, item.is_update, item.fate) for item in posted.entries()] == [
            (1, False, DeliveryStatus.SENT),
            (2, True, DeliveryStatus.WAITING),
        ]
        posted.send()
        posted.finish("Ilse", "Okonjo", BODY + "\nTheory: page 4")
        assert posted.fates() == [DeliveryStatus.SENT, DeliveryStatus.SENT]


def test_newer_notes_take_the_place_of_those_that_still_wait(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.finish("Ilse", "Okonjo", BODY + "\nTheory: page 4")
        assert [(item.fate, item.is_update) for item in posted.entries()] == [
            (DeliveryStatus.WITHDRAWN, False),
            (DeliveryStatus.WAITING, False),
        ]
        assert "page 4" in posted.send().carried[0].items[0].text
        posted.clock.wind(days=1)
        assert posted.send().carried == []


def test_what_is_withdrawn_does_not_go_and_can_go_after_all(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        (item,) = posted.entries()
        posted.studio.desk.outbox.withdraw(item.id)
        assert posted.send().carried == []
        assert posted.studio.desk.outbox.unsent() == {}
        posted.studio.desk.outbox.try_again(item.id)
        posted.send()
        assert posted.fates() == [DeliveryStatus.SENT]
        with pytest.raises(Refused, match="are already sent"):
            posted.studio.desk.outbox.withdraw(item.id)


def test_another_address_takes_the_place_of_the_old_one_in_the_roster_too(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        posted.send(Answering([NEVER, NEVER]))
        first = posted.entries()[0]
        posted.studio.desk.outbox.change_address(first.id, "ann@new.example")
        addresses = addresses_for(posted.studio.store.reading, first.family_id)
        assert addresses == ("ann@new.example", "per@brandvold.example")
        assert [(item.address, item.fate) for item in posted.entries()] == [
            ("ann@new.example", DeliveryStatus.WAITING),
            ("per@brandvold.example", DeliveryStatus.REFUSED),
        ]


def test_nothing_goes_to_an_address_that_has_left_the_roster(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        row = "student,weekday,time,minutes,family,email\nIlse,Tuesday,16:30,30,Okonjo,new@okonjo.example\n"
        posted.studio.enrolling.take_in(row)
        assert posted.send().carried == []
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.REFUSED, "ada@okonjo.example is no longer in the roster")


def test_a_family_without_an_address_is_in_the_outbox_all_the_same(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.studio.enrolling.take_in(
            "student,weekday,time,minutes,family,email\nMireille,Tuesday,18:00,45,Perreault,\n"
        )
        posted.finish("Mireille", "Perreault", BODY)
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (
            DeliveryStatus.REFUSED,
            "the roster has no email address for this family's notes",
        )
        posted.studio.desk.outbox.change_address(item.id, "m@perreault.example")
        assert [(item.address, item.fate) for item in posted.entries()] == [
            ("m@perreault.example", DeliveryStatus.WAITING)
        ]


@pytest.mark.parametrize(
    ("way", "fate"),
    [("mail", DeliveryStatus.UNSURE), ("folder", DeliveryStatus.WAITING), ("draft", DeliveryStatus.WAITING)],
)
def test_what_was_going_when_the_program_ended_is_asked_about_or_done_again(tmp_path, way, fate):
    with posting_studio(tmp_path, way) as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.clock.wind(seconds=11)
        assert posted.studio.desk.dispatch.next_parcel() is not None
        clock = posted.clock
    with posting_studio(tmp_path, way, clock=clock) as posted:
        assert posted.fates() == [fate]


def test_the_review_names_what_has_not_gone_out(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        on = posted.studio.desk.day.on

        def missing() -> list[str]:
            return [missing_sentence(each) for each in posted.studio.desk.reviewing.review(on).missing]

        assert "Ilse's notes are still waiting in the outbox" in missing()
        posted.send(Answering([NEVER]))
        assert "Ilse's notes were refused. See the outbox" in missing()
        posted.studio.desk.outbox.try_all_again()
        posted.send(Answering([UNKNOWN]))
        assert "Did Ilse's notes arrive? Answer in the outbox" in missing()
        posted.studio.desk.outbox.take_as_sent(posted.entries()[0].id)
        assert not [sentence for sentence in missing() if "Ilse's notes" in sentence]


def test_the_review_of_another_day_does_not_let_her_forget_it(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        posted.send(Answering([NEVER]))
        posted.clock.wind(days=1)
        (missing,) = posted.studio.desk.reviewing.review(posted.studio.desk.day.today()).missing
        assert missing == OtherDaysNotes(fates=(DeliveryStatus.REFUSED,))
        assert missing_sentence(missing) == "Also in the outbox: 1 refused"


def test_at_the_end_of_the_program_nothing_waits_for_undo(tmp_path):
    with posting_studio(tmp_path, "folder") as posted:
        posted.finish("Ilse", "Okonjo", BODY)
        sender = Answering()
        posted.studio.desk.dispatch.hand_over(sender, at_once=True)
        assert posted.fates() == [DeliveryStatus.SENT]


def test_one_mail_a_day_waits_for_the_last_lesson_of_the_family(tmp_path):
    with posting_studio(tmp_path, "mail", "one_mail_a_day = true") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        posted.finish("Ilse", "Okonjo", BODY)
        alone = posted.send()
        assert words(alone.carried[0].items) == [("Ilse", "mail", "ada@okonjo.example")]
        assert len(alone.carried) == 1
        posted.finish("Tor", "Brandvold", BODY)
        together = posted.send()
        assert [words(parcel.items) for parcel in together.carried] == [
            [("Ilse", "mail", "ann@brandvold.example"), ("Tor", "mail", "ann@brandvold.example")],
            [("Ilse", "mail", "per@brandvold.example"), ("Tor", "mail", "per@brandvold.example")],
        ]
        assert set(posted.fates()) == {DeliveryStatus.SENT}


def test_one_mail_a_day_goes_by_itself_when_the_last_lesson_is_never_closed(tmp_path):
    with posting_studio(tmp_path, "mail", "one_mail_a_day = true") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        assert posted.send().carried == []
        posted.clock.wind(hours=2)
        assert len(posted.send().carried) == 2


def with_guardians(posted: Posted, **cells: str) -> None:
    """Has the Brandvolds' guardians as a table says of them."""
    header, row = ",".join(cells), ",".join(f'"{cell}"' for cell in cells.values())
    posted.studio.enrolling.take_in(
        f"student,weekday,time,minutes,family,{header}\nIlse,Tuesday,16:00,30,Brandvold,{row}\n"
    )


@pytest.mark.parametrize("way", ["draft", "mail"])
def test_only_a_guardian_who_gets_notes_gets_them_and_never_sees_another_or_a_phone(tmp_path, way):
    with posting_studio(tmp_path, way) as posted:
        emails = "ann@brandvold.example, per@brandvold.example, oma@brandvold.example"
        names, phones, gets = (
            "Annelie; Perikles; Omalotte",
            "+1 602 555 0100; ; 602 555 0199",
            "notes; notes, news; news",
        )
        with_guardians(posted, email=emails, guardian=names, phone=phones, gets=gets)
        posted.finish("Ilse", "Brandvold", BODY)
        sender = posted.send()
        assert [parcel.address for parcel in sender.carried] == ["ann@brandvold.example", "per@brandvold.example"]
        for parcel in sender.carried:
            content = b"".join(document.content for document in parcel.documents).decode()
            assert parcel.address in content
            others = {*emails.split(", "), "555", "Annelie", "Perikles", "Omalotte"} - {parcel.address}
            assert not [word for word in others if word in content]


def test_what_waits_for_a_guardian_who_gets_no_notes_any_more_does_not_go(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        with_guardians(posted, gets="news; notes")
        assert [parcel.address for parcel in posted.send().carried] == ["per@brandvold.example"]
        assert [item.reason for item in posted.entries() if item.address == "ann@brandvold.example"] == [
            "ann@brandvold.example no longer gets notes"
        ]


def test_where_no_guardian_gets_notes_it_is_told_as_where_there_is_no_address(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        with_guardians(posted, gets="news")
        posted.finish("Ilse", "Brandvold", BODY)
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (
            DeliveryStatus.REFUSED,
            "the roster has no email address for this family's notes",
        )
        wanted = [facts.wanted or "" for facts in posted.studio.desk.post().trying_channels.ways()]
        assert any("an address for Brandvold" in each for each in wanted)
        posted.studio.desk.outbox.change_address(item.id, "ann@brandvold.example")
        assert addresses_for(posted.studio.store.reading, item.family_id) == ("ann@brandvold.example",)


def test_an_address_that_is_filled_in_goes_to_the_guardian_who_has_none(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        with_guardians(posted, email="", guardian="Ann", phone="602 555 0100")
        posted.finish("Ilse", "Brandvold", BODY)
        (item,) = posted.entries()
        posted.studio.desk.outbox.change_address(item.id, "ann@new.example")
        (ann,) = posted.studio.store.reading.of_family(Guardian, item.family_id)
        assert (ann.name, ann.email, ann.phone) == ("Ann", "ann@new.example", "602 555 0100")


def test_an_address_that_another_guardian_has_is_not_there_twice(tmp_path):
    with posting_studio(tmp_path, "draft") as posted:
        posted.finish("Ilse", "Brandvold", BODY)
        first = posted.entries()[0]
        posted.studio.desk.outbox.change_address(first.id, "per@brandvold.example")
        assert addresses_for(posted.studio.store.reading, first.family_id) == ("per@brandvold.example",)
