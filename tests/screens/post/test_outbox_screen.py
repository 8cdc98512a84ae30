"""The outbox on the screen: she sees what has not gone out, and can do something about it."""

import re
import sqlite3

import pytest
from support.mail_server import mail_server
from support.outbox import TAKEN, Answering
from support.outbox_screens import on_sending_screen
from textual.widgets import Input

from cockpit.outlets.sender import ParcelSender
from cockpit.screens.commands.commands import BY_ID
from cockpit.screens.post.outbox import OutboxScreen
from cockpit.screens.post.preview import PreviewScreen
from cockpit.screens.post.ways import WaysScreen
from cockpit.screens.textual_parts.notice import Notice
from cockpit.settings.settings import parse_settings
from cockpit.studio.post.channels import Channel
from cockpit.studio.post.delivery import Answer, Delivery
from cockpit.studio.post.outgoing import DeliveryStatus

NEVER = Delivery(answer=Answer.NEVER, reason="no such mailbox")
UNKNOWN = Delivery(answer=Answer.UNKNOWN, reason="the line was cut")
SHUT = Delivery(answer=Answer.LATER, reason="no network", is_channel_shut=True)
SECRET = "Private: quokka"


def fates(opened) -> list[DeliveryStatus]:
    return [item.fate for item in opened.studio.desk.outbox.entries()]


def test_after_the_finish_key_the_notes_go_by_themselves(tmp_path):
    sender = Answering()

    async def steps(opened):
        await opened.finish_first("Scales: D major")
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]
        assert [parcel.address for parcel in sender.carried] == ["ann@brandvold.example", "per@brandvold.example"]
        assert opened.shown == "Ilse"
        assert "outbox:" not in opened.drawn()
        assert "to send" not in opened.drawn()

    on_sending_screen(tmp_path, sender, steps)


@pytest.mark.long
def test_what_was_refused_stands_in_the_queue_the_keys_the_notice_and_the_review(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        assert fates(opened) == [DeliveryStatus.REFUSED, DeliveryStatus.SENT]
        drawn = opened.drawn()
        assert re.search("! Ilse .*refused", drawn, re.DOTALL)
        opened.app.screen.query_one(Notice).go()
        await opened.done()
        assert "outbox: 1" in opened.drawn()
        assert opened.said == "The notes for Ilse were refused: no such mailbox. See the outbox."
        await opened.press("f10")
        assert "Ilse's notes were refused. See the outbox" in opened.drawn()
        await opened.press("o")
        assert isinstance(opened.app.screen, OutboxScreen)
        assert "no such mailbox" in opened.drawn()

    on_sending_screen(tmp_path, Answering([NEVER, TAKEN]), steps, size=(130, 40))


@pytest.mark.long
def test_an_empty_outbox_says_so_once_and_offers_nothing_to_be_done(tmp_path):
    async def steps(opened):
        await opened.app.run_action(BY_ID["app.show_outbox"].action)
        await opened.pilot.pause()
        *rows, keys = opened.drawn().splitlines()
        assert "everything has been sent" in "".join(rows)
        assert "empty" not in "".join(rows)
        assert keys.split()[:2] == ["esc", "back"]

    on_sending_screen(tmp_path, None, steps)


def test_the_review_of_the_next_day_leads_to_the_outbox(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        await opened.press("f10", "right")
        assert "Also in the outbox: 1 refused" in opened.drawn()
        await opened.press("enter")
        await opened.pilot.pause()
        assert isinstance(opened.app.screen, OutboxScreen)

    on_sending_screen(tmp_path, Answering([NEVER, TAKEN]), steps)


def test_an_answer_to_an_inquiry_goes_and_the_outbox_names_it(tmp_path):
    async def steps(opened):
        await opened.press("escape", "tab", "tab", "q", "n")
        await opened.paste("ana bell for nora 8, cello, phoenix, ana@example.org")
        await opened.press("enter", "escape", "w")
        assert "To ana@example.org (Ana Bell for Nora, 8), by email" in opened.drawn()
        await opened.type("Good morning. ")
        await opened.press("f9")
        await opened.settled()
        assert "The answer to Ana Bell was refused: no such mailbox" in opened.said
        assert "! Ana Bell for Nora, 8" in opened.drawn(), "she is still to be answered"
        await opened.press("escape")
        await opened.app.run_action(BY_ID["app.show_outbox"].action)
        await opened.pilot.pause()
        drawn = opened.drawn()
        assert "Ana Bell  refused  inquiry" in drawn
        assert "by email to ana@example.org" in drawn
        await opened.press("e")
        await opened.type("ana@new.example")
        assert "save it with the inquiry and send there" in opened.drawn()
        await opened.press("enter")
        await opened.settled()
        (item,) = opened.studio.desk.outbox.entries()
        assert (item.fate, item.address) == (DeliveryStatus.SENT, "ana@new.example")
        assert item.text.startswith("Good morning. Hello Ana,")
        await opened.press("escape", "q")
        assert "○ Ana Bell for Nora, 8" in opened.drawn()

    on_sending_screen(
        tmp_path, Answering([NEVER, TAKEN]), steps, sending='wait_seconds = 0\nways = "mail"', size=(130, 40)
    )


def test_the_outbox_tries_again_what_was_refused(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        await opened.tap("app.show_outbox")
        assert "OUTBOX  1 refused" in opened.drawn()
        await opened.press("r")
        await opened.settled()
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]
        assert "OUTBOX  everything has been sent" in opened.drawn()
        await opened.press("escape")
        assert "refused" not in opened.drawn()

    on_sending_screen(tmp_path, Answering([NEVER, TAKEN]), steps)


@pytest.mark.long
def test_a_doubt_is_settled_by_her(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        assert opened.said == "Did the notes for Ilse arrive? The line was cut. Answer in the outbox."
        await opened.tap("app.show_outbox")
        assert "NOT SURE: DID THEY ARRIVE? ─" in opened.drawn()
        await opened.press("y")
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]

    on_sending_screen(tmp_path, Answering([UNKNOWN, TAKEN]), steps)


def test_drafts_that_wait_in_her_email_program_are_a_group_until_she_says_that_they_are_sent(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        await opened.app.run_action(BY_ID["app.show_outbox"].action)
        await opened.pilot.pause()
        assert "OUTBOX  2 drafts for you to send" in opened.drawn()
        lines = opened.drawn().splitlines()
        at = next(place for place, line in enumerate(lines) if "WAITS IN YOUR EMAIL PROGRAM ─" in line)
        assert lines[at].rstrip().endswith("2")
        assert lines[at + 1].split()[:5] == ["December", "1", "Ilse", "written", "Brandvold"]
        assert lines[at + 1].rstrip().endswith("○")
        assert "DONE" not in opened.drawn()
        await opened.press("y")
        assert opened.said.startswith("The draft for Ilse is deleted from drafts/.")
        assert len(list((tmp_path / "drafts").rglob("*.eml"))) == 1
        assert "DONE, LAST TWO WEEKS ─" in opened.drawn()
        await opened.press("end", "home", "y")
        assert "OUTBOX  everything has been sent" in opened.drawn()
        assert "WAITS IN YOUR EMAIL PROGRAM" not in opened.drawn()

    on_sending_screen(
        tmp_path,
        ParcelSender(parse_settings("home_zone = 'UTC'", "settings.toml").preferences.sending, tmp_path),
        steps,
        way="draft",
    )


@pytest.mark.long
def test_another_address_is_typed_and_the_notes_go_there(tmp_path):
    sender = Answering([NEVER, TAKEN])

    async def steps(opened):
        await opened.finish_first("Scales: D major")
        await opened.tap("app.show_outbox")
        await opened.press("e")
        await opened.type("anna@brandvold.example")
        assert opened.app.screen.query_one(Input).value == "anna@brandvold.example"
        await opened.press("enter")
        await opened.settled()
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]
        assert sender.carried[-1].address == "anna@brandvold.example"

    on_sending_screen(tmp_path, sender, steps)


@pytest.mark.long
def test_what_waits_is_withdrawn_and_what_is_no_address_is_told(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        assert fates(opened) == [DeliveryStatus.WAITING, DeliveryStatus.WAITING]
        assert re.search("! Ilse .*to send", opened.drawn(), re.DOTALL)
        await opened.app.run_action(BY_ID["app.show_outbox"].action)
        await opened.pilot.pause()
        assert "no network" in opened.drawn()
        await opened.press("e")
        await opened.type("anna")
        await opened.press("enter")
        assert "Write an email address such as" in opened.said
        await opened.press("w")
        assert fates(opened) == [DeliveryStatus.WITHDRAWN, DeliveryStatus.WAITING]
        assert "withdrawn" in opened.drawn()

    on_sending_screen(tmp_path, Answering([SHUT]), steps, size=(130, 40))


def test_the_preview_shows_before_the_finish_what_the_family_gets_and_what_stays_with_her(tmp_path):
    async def steps(opened):
        opened.clock.at = opened.studio.desk.day.bookings[0].lesson.starts_at
        await opened.press("f2")
        await opened.type("Scales: D major")
        await opened.press("enter")
        await opened.type(SECRET)
        await opened.press("f11")
        assert isinstance(opened.app.screen, PreviewScreen)
        drawn = opened.drawn()
        assert "To ann@brandvold.example" in drawn
        assert "D major" in drawn
        assert "Dear family" in drawn
        family, kept = drawn.split("STAYS WITH YOU")
        assert "quokka" not in family
        assert "▒ Private: quokka" in kept
        await opened.press("o")
        page = tmp_path / "previews" / "preview.html"
        assert "D major" in page.read_text()
        assert "quokka" not in page.read_text()
        assert page.stat().st_mode & 0o777 == 0o600
        await opened.press("f11")
        assert opened.notes.text.has_focus
        assert opened.studio.desk.outbox.entries() == ()

    on_sending_screen(tmp_path, None, steps, sending='greeting = "Dear family,"', size=(80, 60))


def test_without_notes_there_is_nothing_to_preview(tmp_path):
    async def steps(opened):
        await opened.press("f11")
        assert opened.said == "No notes for Ilse yet."

    on_sending_screen(tmp_path, None, steps)


def test_a_rehearsal_sends_nothing(tmp_path):
    async def steps(opened):
        await opened.finish_first("Scales: D major")
        assert fates(opened) == [DeliveryStatus.WAITING, DeliveryStatus.WAITING]
        await opened.tap("app.show_outbox")
        await opened.press("s")
        await opened.choose(Channel.MAIL)
        assert opened.said == "This is a rehearsal. Nothing is sent."

    on_sending_screen(tmp_path, None, steps)


def test_a_rehearsal_says_so_on_every_screen_and_marks_what_it_finishes(tmp_path):
    async def steps(opened):
        opened.clock.is_rehearsal = True
        await opened.finish_first("Scales: D major")
        assert fates(opened) == []
        assert "rehearsal  " in opened.drawn().splitlines()[0]
        assert "rehearsal, never sent" in opened.drawn()
        for command, title in {"app.show_ahead": "COMING UP", "app.show_outbox": "OUTBOX"}.items():
            await opened.app.run_action(BY_ID[command].action)
            await opened.pilot.pause()
            assert title in opened.drawn()
            assert "rehearsal  " in opened.drawn().splitlines()[0]
            await opened.press("escape")
        opened.clock.is_rehearsal = False
        await opened.pilot.pause()
        assert "rehearsal, never sent" in opened.drawn(), "the mark stays"

    on_sending_screen(tmp_path, None, steps)


@pytest.mark.long
def test_each_way_is_tested_and_tells_what_it_still_wants(tmp_path):
    sender = Answering()

    async def steps(opened):
        await opened.app.run_action(BY_ID["app.show_outbox"].action)
        await opened.pilot.pause()
        await opened.press("s")
        assert isinstance(opened.app.screen, WaysScreen)
        assert "teacher@studio.example at localhost" in opened.drawn()
        assert "still needed: folder in [sending]" in opened.drawn()
        await opened.choose(Channel.MAIL)
        await opened.settled()
        assert opened.said == "Email: test sent to teacher@studio.example."
        (parcel,) = sender.carried
        assert parcel.address == "teacher@studio.example"
        assert b"Ilse" not in parcel.documents[0].content
        await opened.choose(Channel.FOLDER)
        assert opened.said == "settings.toml names no folder yet. Set folder in [sending]."
        assert opened.studio.desk.outbox.entries() == ()

    on_sending_screen(tmp_path, sender, steps)


@pytest.mark.long
def test_a_database_that_another_program_holds_stops_nothing_and_is_told(tmp_path):
    sender = Answering()

    async def steps(opened):
        other = sqlite3.connect(tmp_path / "studio.db", isolation_level=None)
        opened.studio.store.connection.execute("PRAGMA busy_timeout = 10")
        opened.clock.at = opened.studio.desk.day.bookings[0].lesson.starts_at
        await opened.press("f2")
        await opened.type("Scales: D major")
        opened.studio.desk.teaching.finish()
        other.execute("BEGIN IMMEDIATE")
        opened.app.look_at_outbox()
        assert "while another program is using" in opened.said
        assert sender.carried == []
        other.execute("ROLLBACK")
        other.close()
        opened.app.look_at_outbox()
        await opened.settled()
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]

    on_sending_screen(tmp_path, sender, steps)


@pytest.mark.long
def test_an_answer_that_cannot_be_kept_yet_is_kept_later_and_nothing_goes_twice(tmp_path):
    other = None

    class Holding(Answering):
        def carry(self, parcel, *more):
            nonlocal other
            if other is None:
                other = sqlite3.connect(tmp_path / "studio.db", isolation_level=None, check_same_thread=False)
                other.execute("BEGIN IMMEDIATE")
            return super().carry(parcel, *more)

    sender = Holding()

    async def steps(opened):
        opened.studio.store.connection.execute("PRAGMA busy_timeout = 10")
        await opened.finish_first("Scales: D major")
        assert fates(opened) == [DeliveryStatus.GOING, DeliveryStatus.WAITING]
        assert "while another program is using" in opened.said
        other.execute("ROLLBACK")
        other.close()
        opened.app.look_at_outbox()
        await opened.settled()
        assert fates(opened) == [DeliveryStatus.SENT, DeliveryStatus.SENT]
        assert [parcel.address for parcel in sender.carried] == ["ann@brandvold.example", "per@brandvold.example"]

    on_sending_screen(tmp_path, sender, steps)


@pytest.mark.long
def test_a_fault_of_ours_shows_no_notes_on_its_way_out(tmp_path, capsys):
    async def steps(opened):
        def fail(*_):
            secret = opened.studio.desk.outbox.entries()
            raise ZeroDivisionError(len(secret))

        await opened.finish_first("Scales: " + "-".join(("quokka", "waltz")))
        opened.app.screen.call_later(fail)
        await opened.pilot.pause()

    with pytest.raises(ZeroDivisionError):
        on_sending_screen(tmp_path, Answering(), steps)
    shown = capsys.readouterr()
    assert "quokka-waltz" not in shown.out + shown.err


def test_a_test_reaches_her_own_address_through_her_own_account(tmp_path, monkeypatch):
    monkeypatch.setenv("COCKPIT_TEST_PASSWORD", "Ünïcode")
    with mail_server(logins={"teacher": "Ünïcode"}) as server:
        sending = (
            f"wait_seconds = 0\n[sending.mail]\nhost = '127.0.0.1'\nport = {server.port}\nsecurity = 'none'\n"
            "sender = 'teacher@studio.example'\nuser = 'teacher'\npassword_from = 'env:COCKPIT_TEST_PASSWORD'\n"
        )

        async def steps(opened):
            await opened.app.run_action(BY_ID["app.show_outbox"].action)
            await opened.pilot.pause()
            await opened.press("s")
            await opened.choose(Channel.MAIL)
            await opened.settled()
            assert opened.said == "Email: test sent to teacher@studio.example."

        rules = parse_settings(f"home_zone = 'UTC'\n[sending]\n{sending}", "settings.toml").preferences.sending
        on_sending_screen(tmp_path, ParcelSender(rules, tmp_path), steps, sending=sending)
        assert [(mail.to, mail.user) for mail in server.messages] == [(("teacher@studio.example",), "teacher")]
