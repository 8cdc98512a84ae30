"""The sending comes to an end, whatever the server does and whatever the clock says."""

import threading
from datetime import timedelta

import pytest
from support.mail_server import mail_server
from support.outbox import TAKEN, Answering, mail_settings, posting_studio

from cockpit.clock import monotonic
from cockpit.outlets.sender import ParcelSender
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus

BODY = "Scales: D major"
LATER = Delivery(answer=Answer.LATER, reason="try again")
LESSONS = (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Mireille", "Perreault"))


def finish_all(posted):
    for student, family in LESSONS:
        posted.finish(student, family, BODY)


@pytest.mark.parametrize("fault", ["451", "cut at RCPT", "cut at DATA"])
def test_at_the_end_each_entry_is_tried_once_and_the_others_go(tmp_path, fault):
    with mail_server() as server, posting_studio(tmp_path, sending=mail_settings(server, wait_seconds=600)) as posted:
        finish_all(posted)
        match fault:
            case "451":
                server.refuse("RCPT", "451 4.7.1 Greylisted", to="ann@brandvold.example", times=50)
            case "cut at RCPT":
                server.drop("RCPT", to="ann@brandvold.example", times=50)
            case _:
                server.drop("DATA", times=1)
        posted.studio.desk.dispatch.hand_over(ParcelSender(posted.studio.preferences.sending, tmp_path), at_once=True)
        assert server.connections == 4
        assert posted.fates() == [DeliveryStatus.WAITING, DeliveryStatus.SENT, DeliveryStatus.SENT, DeliveryStatus.SENT]
        first = posted.entries()[0]
        assert first.attempts == 1
        assert first.not_before > posted.clock.at


def test_the_gap_after_an_attempt_grows_from_run_to_run(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", BODY)
        gaps = []
        for _ in range(4):
            posted.studio.desk.dispatch.hand_over(Answering([LATER]), at_once=True)
            (item,) = posted.entries()
            gaps.append(item.not_before - posted.clock.at)
            posted.clock.at = item.not_before
        assert item.attempts == 4
        assert gaps[3] > gaps[0]


def test_a_run_that_lasts_longer_than_the_gap_tries_nothing_twice(tmp_path):
    with posting_studio(tmp_path) as posted:

        class Slow(Answering):
            def carry(self, parcel, *more):
                posted.clock.wind(minutes=10)
                return super().carry(parcel, *more)

        finish_all(posted)
        posted.clock.wind(minutes=1)
        slow = Slow([LATER])
        posted.studio.desk.dispatch.hand_over(slow)
        assert len(slow.carried) == 4


def test_a_clock_that_was_ahead_makes_no_endless_loop_while_the_cockpit_is_open(tmp_path):
    with posting_studio(tmp_path) as posted:
        finish_all(posted)
        posted.clock.at -= timedelta(days=6)
        dispatch = posted.studio.desk.dispatch
        for _ in range(4):
            parcel = dispatch.next_parcel()
            assert parcel is not None
            dispatch.settle(parcel, LATER)
        assert dispatch.next_parcel() is None
        due_at = dispatch.due_at()
        assert due_at is not None
        assert due_at - posted.clock.at <= timedelta(minutes=1)


def test_an_attempt_made_while_the_clock_was_ahead_does_not_hold_notes_back(tmp_path):
    with posting_studio(tmp_path) as posted:
        posted.finish("Mireille", "Perreault", BODY)
        posted.clock.wind(days=27000)
        posted.studio.desk.dispatch.hand_over(Answering([LATER]))
        posted.clock.wind(days=-27000)
        posted.send()
        assert posted.fates() == [DeliveryStatus.SENT]


def test_one_mail_a_day_is_not_tried_again_before_its_time_because_of_another_lesson(tmp_path):
    with posting_studio(tmp_path, sending="one_mail_a_day = true") as posted:
        for student in ("Tor", "Ilse"):
            posted.finish(student, "Brandvold", BODY)
        posted.clock.wind(hours=2)
        for _ in range(6):
            posted.studio.desk.dispatch.hand_over(Answering([LATER]))
            posted.clock.at = max(item.not_before for item in posted.entries())
        posted.clock.wind(minutes=-20)
        posted.finish("Tor", "Brandvold", BODY + "\nEar: hum")
        posted.clock.wind(seconds=11)
        assert posted.send().carried == [], "it waits with the others, and goes with them"
        posted.clock.wind(hours=2)
        assert {len(parcel.items) for parcel in posted.send().carried} == {2}


class Hanging(Answering):
    """A sender whose mail server never answers: before the mail leaves, or after."""

    def __init__(self, *, leaves):
        super().__init__()
        self.leaves = leaves
        self.may_end = threading.Event()
        self.ended = threading.Event()
        self.handed_over = 0

    def carry(self, parcel, may_go):
        if self.leaves and may_go():
            self.handed_over += 1
        self.may_end.wait()
        if not self.leaves and may_go():
            self.handed_over += 1
        self.ended.set()
        return TAKEN


@pytest.mark.parametrize(("leaves", "fate"), [(False, DeliveryStatus.WAITING), (True, DeliveryStatus.UNSURE)])
def test_an_attempt_that_outlasts_the_bound_is_recorded_as_what_is_known_of_it(tmp_path, leaves, fate):
    with posting_studio(tmp_path) as posted:
        finish_all(posted)
        hanging = Hanging(leaves=leaves)
        ends_at = monotonic() + 0.05
        posted.studio.desk.dispatch.hand_over(
            hanging, at_once=True, seconds_left=lambda: max(0.0, ends_at - monotonic())
        )
        assert posted.fates() == [fate, DeliveryStatus.WAITING, DeliveryStatus.WAITING, DeliveryStatus.WAITING]
        assert [item.attempts for item in posted.entries()] == [1, 0, 0, 0]
        hanging.may_end.set()
        assert hanging.ended.wait(20)
        assert hanging.handed_over == leaves, "what is said to wait cannot leave any more"
        if leaves:
            posted.clock.wind(days=1)
            sender = posted.send()
            assert "ann@brandvold.example" not in [parcel.address for parcel in sender.carried]
