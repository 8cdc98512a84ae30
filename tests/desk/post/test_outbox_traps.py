"""What could make the outbox send twice, too early, too late, or what she took back."""

from datetime import timedelta

import pytest
from support.outbox import Answering, posting_studio, words

from cockpit.outlets.sender import ParcelSender
from cockpit.store.backups import back_up, restore
from cockpit.studio.errors import Refused
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus

FIRST, SECOND = "Scales: D major\na slip of the pen", "Scales: D major"
LATER = Delivery(answer=Answer.LATER, reason="the server is busy")
UNKNOWN = Delivery(answer=Answer.UNKNOWN, reason="the line was cut")
NO_NETWORK = Delivery(answer=Answer.LATER, reason="no network", is_channel_shut=True)


def test_a_version_that_did_not_go_is_dropped_once_there_is_a_newer_one(tmp_path):
    with posting_studio(tmp_path) as posted:
        dispatch = posted.studio.desk.dispatch
        posted.finish("Mireille", "Perreault", FIRST)
        posted.clock.wind(seconds=11)
        going = dispatch.next_parcel()
        assert going is not None
        posted.finish("Mireille", "Perreault", SECOND)
        dispatch.settle(going, LATER)
        assert posted.fates() == [DeliveryStatus.WITHDRAWN, DeliveryStatus.WAITING]
        carried = posted.send().carried
        posted.clock.wind(hours=2)
        carried += posted.send().carried
        assert [parcel.items[0].version for parcel in carried] == [2]


def test_old_notes_are_not_sent_again_after_newer_ones(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.send(Answering([UNKNOWN]))
        posted.finish("Mireille", "Perreault", SECOND)
        first = posted.entries()[0]
        with pytest.raises(Refused, match="notes for Mireille are replaced by newer notes and will not be sent"):
            posted.studio.desk.outbox.try_again(first.id)
        posted.studio.desk.outbox.withdraw(first.id)
        assert [parcel.items[0].version for parcel in posted.send().carried] == [2]
        with pytest.raises(Refused, match="notes for Mireille are replaced by newer notes and will not be sent"):
            posted.studio.desk.outbox.try_again(first.id)


@pytest.mark.parametrize("how", ["emptied", "absent", "cancelled", "open"])
def test_what_waits_of_a_lesson_that_is_opened_again_does_not_go(tmp_path, how):
    with posting_studio(tmp_path) as posted:
        teaching = posted.studio.desk.teaching
        lesson_id = posted.finish("Mireille", "Perreault", FIRST)
        posted.studio.desk.day.go_to(lesson_id)
        match how:
            case "emptied":
                posted.finish("Mireille", "Perreault", "")
            case "absent":
                teaching.begin()
                teaching.mark_absent()
            case "cancelled":
                teaching.begin()
                teaching.mark_cancelled()
            case _:
                teaching.begin()
        assert posted.send().carried == []
        assert posted.fates() == [DeliveryStatus.WITHDRAWN]
        if how == "open":
            teaching.undo()
            assert len(posted.send().carried) == 1


def test_going_back_to_what_the_family_has_sends_nothing(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.send()
        posted.finish("Mireille", "Perreault", SECOND)
        posted.finish("Mireille", "Perreault", FIRST)
        assert posted.send().carried == []
        assert posted.fates() == [DeliveryStatus.SENT, DeliveryStatus.WITHDRAWN]


def test_after_a_backup_is_put_back_nothing_is_sent_a_second_time_by_itself(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        back_up(tmp_path, posted.clock.at)
        posted.send()
        clock = posted.clock
    restore(tmp_path, "now")
    with posting_studio(tmp_path, clock=clock) as posted:
        assert posted.send().carried == []
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.UNSURE, "the studio was restored from a backup")


def test_a_fault_in_one_familys_folder_holds_up_nobody_else(tmp_path):
    there = tmp_path / "there"
    there.mkdir()
    (there / "Brandvold").write_text("not a folder")
    with posting_studio(tmp_path / "studio", "folder", f'folder = "{there}"') as posted:
        for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo")):
            posted.finish(student, family, FIRST)
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(
            ParcelSender(posted.studio.preferences.sending, posted.studio.desk.folder)
        )
        first, second = posted.entries()
        assert (first.fate, second.fate) == (DeliveryStatus.WAITING, DeliveryStatus.SENT)
        assert first.reason == f"{there / 'Brandvold'} could not be written to (File exists)"


@pytest.mark.parametrize("folder", ["~nobody-of-this-name/x", "x" * 5000])
def test_a_path_that_cannot_be_is_told_and_raises_nothing(tmp_path, folder):
    with posting_studio(tmp_path, "folder", f'folder = "{folder}"') as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.clock.wind(seconds=11)
        posted.studio.desk.dispatch.hand_over(ParcelSender(posted.studio.preferences.sending, tmp_path))
        (item,) = posted.entries()
        assert item.fate is DeliveryStatus.REFUSED
        assert item.reason is not None
        assert "settings.toml, folder" in item.reason


def test_at_the_end_a_way_that_is_shut_is_tried_once(tmp_path):
    with posting_studio(tmp_path) as posted:
        for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Mireille", "Perreault")):
            posted.finish(student, family, FIRST)
        sender = Answering([NO_NETWORK])
        posted.studio.desk.dispatch.hand_over(sender, at_once=True)
        assert len(sender.carried) == 1
        assert set(posted.fates()) == {DeliveryStatus.WAITING}


def test_the_finish_key_pressed_twice_finishes_one_lesson(tmp_path):
    with posting_studio(tmp_path) as posted:
        desk = posted.studio.desk
        desk.day.open()
        first, second = desk.day.bookings[:2]
        desk.notes.write(second.lesson.id, "Scales: typed ahead")
        posted.clock.at = first.lesson.starts_at
        desk.day.go_to(first.lesson.id)
        desk.teaching.begin()
        posted.clock.at = second.lesson.starts_at + timedelta(seconds=20)
        desk.teaching.finish()
        with pytest.raises(Refused, match=r"Ilse.s lesson has not begun\. To finish it anyway"):
            desk.teaching.finish()
        posted.clock.wind(seconds=3)
        assert desk.teaching.finish().student == second.student.name


def test_a_way_that_is_no_way_of_the_family_any_more_is_not_taken(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.studio.enrolling.take_in(
            "student,weekday,time,minutes,family,send_by\nMireille,Tuesday,18:00,45,Perreault,none\n"
        )
        assert posted.send().carried == []
        (item,) = posted.entries()
        assert (item.fate, item.reason) == (DeliveryStatus.REFUSED, "the family no longer gets notes by email")


def test_an_address_that_comes_late_is_found_by_trying_again_and_by_finishing_again(tmp_path):
    header = "student,weekday,time,minutes,family,email\n"
    with posting_studio(tmp_path) as posted:
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,\n")
        lesson_id = posted.finish("Mireille", "Perreault", FIRST)
        desk = posted.studio.desk
        (item,) = posted.entries()
        assert item.fate is DeliveryStatus.REFUSED
        preview = desk.previewing.of_entry(item.id)
        assert "slip of the pen" in preview.text
        assert preview.facts[0] == "The roster has no email address for this family's notes"
        desk.day.go_to(lesson_id)
        booking = desk.day.shown
        assert booking is not None
        assert "slip of the pen" in desk.previewing.of_lesson(booking).text
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,m@perreault.example\n")
        posted.studio.desk.outbox.try_again(item.id)
        assert words(posted.send().carried[0].items) == [("Mireille", Channel.MAIL, "m@perreault.example")]


def test_notes_that_had_no_address_are_replaced_by_those_that_have_one(tmp_path):
    header = "student,weekday,time,minutes,family,email\n"
    with posting_studio(tmp_path) as posted:
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,\n")
        posted.finish("Mireille", "Perreault", FIRST)
        posted.studio.enrolling.take_in(f'{header}Mireille,Tuesday,18:00,45,Perreault,"m@p.example, n@p.example"\n')
        posted.finish("Mireille", "Perreault", FIRST)
        assert [(item.address, item.fate) for item in posted.entries()] == [
            ("", DeliveryStatus.WITHDRAWN),
            ("m@p.example", DeliveryStatus.WAITING),
            ("n@p.example", DeliveryStatus.WAITING),
        ]


def test_old_notes_without_an_address_do_not_go_after_newer_ones_that_had_one(tmp_path):
    header = "student,weekday,time,minutes,family,email\n"
    with posting_studio(tmp_path) as posted:
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,\n")
        posted.finish("Mireille", "Perreault", FIRST)
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,m@perreault.example\n")
        posted.finish("Mireille", "Perreault", SECOND)
        assert [parcel.items[0].version for parcel in posted.send().carried] == [2]
        with pytest.raises(Refused, match="notes for Mireille are replaced by newer notes and will not be sent"):
            posted.studio.desk.outbox.try_again(posted.entries()[0].id)
        assert posted.send().carried == []


def test_one_mail_a_day_leaves_the_last_lesson_its_time_for_undo(tmp_path):
    with posting_studio(tmp_path, sending="one_mail_a_day = true") as posted:
        posted.finish("Ilse", "Brandvold", FIRST)
        held_until = posted.entries()[0].not_before
        posted.clock.at = held_until - timedelta(minutes=1, seconds=2)
        posted.finish("Tor", "Brandvold", FIRST)
        posted.clock.at = held_until + timedelta(seconds=1)
        assert posted.studio.desk.dispatch.next_parcel() is None
        assert posted.studio.desk.dispatch.due_at() == posted.entries()[-1].not_before
        posted.studio.desk.teaching.undo()
        assert [words(parcel.items) for parcel in posted.send().carried] == [
            [("Ilse", Channel.MAIL, "ann@brandvold.example")],
            [("Ilse", Channel.MAIL, "per@brandvold.example")],
        ]


def test_what_waits_for_her_answer_is_not_looked_for_again_and_again(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.send(Answering([UNKNOWN]))
        posted.finish("Mireille", "Perreault", SECOND)
        posted.clock.wind(minutes=5)
        assert posted.studio.desk.dispatch.next_parcel() is None
        assert posted.studio.desk.dispatch.due_at() is None


def test_another_address_is_for_what_is_in_doubt_too(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.send(Answering([UNKNOWN]))
        posted.studio.desk.outbox.change_address(posted.entries()[0].id, "new@perreault.example")
        assert [(item.address, item.fate) for item in posted.entries()] == [
            ("new@perreault.example", DeliveryStatus.WAITING)
        ]


def test_old_notes_do_not_go_to_a_new_address_after_newer_ones_went_there(tmp_path):
    header = "student,weekday,time,minutes,family,email\n"
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.send()
        posted.finish("Mireille", "Perreault", SECOND)
        posted.send(Answering([UNKNOWN]))
        posted.studio.enrolling.take_in(f"{header}Mireille,Tuesday,18:00,45,Perreault,b@perreault.example\n")
        posted.finish("Mireille", "Perreault", "Scales: E flat major")
        doubtful = posted.entries()[1]
        assert doubtful.fate is DeliveryStatus.UNSURE
        assert posted.studio.desk.outbox.change_address(doubtful.id, "b@perreault.example").endswith(
            " is now b@perreault.example."
        )
        (parcel,) = posted.send().carried
        assert "E flat major" in parcel.items[0].text


def test_a_clock_that_was_days_ahead_does_not_hold_notes_back(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", FIRST)
        posted.clock.at -= timedelta(days=6)
        assert len(posted.send().carried) == 1
