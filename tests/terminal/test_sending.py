"""Notes on their way to a real mail server, from a real process that may be killed at any step."""

import base64
import os
import re
import signal
import subprocess
import sys
from datetime import timedelta
from email import message_from_bytes
from email.policy import default

import pytest
from support.mail_server import STEPS, mail_server
from support.outbox import MORNING, mail_settings, make_studio_of_now, posting_studio
from support.real_terminal import RealTerminal, finish_a_lesson

from cockpit.desk.calendar.proposals import Purpose
from cockpit.outlets.sender import ParcelSender
from cockpit.studio.post.outgoing import DeliveryStatus, Paper
from cockpit.studio.values import replace

BODY = "Scales: D major\nPrivate: quokka"


def read(arrived):
    return message_from_bytes(arrived.content, policy=default)


def fates_of(folder) -> list[DeliveryStatus]:
    """What the outbox says when it is opened again."""
    with posting_studio(folder) as posted:
        return posted.fates()


def write_to(posted, whom):
    """Puts a letter to many families into the outbox."""
    families = posted.studio.desk.families()
    letter = replace(families.fresh(), whom=whom, text="News\n\nDear {family}, {student}: {time}")
    return families.put_out(families.view(letter, families.candidates()))


def put_out(posted, paper):
    """Puts a paper for one address into the outbox."""
    if paper is Paper.NOTES:
        posted.finish("Mireille", "Perreault", BODY)
        return
    desk = posted.studio.desk
    if paper is Paper.REPLY:
        inquiring = desk.inquiring()
        inquiring.do(inquiring.propose(None, Purpose.INQUIRY, "ana bell, cello, ana@example.org"))
        (asked,) = posted.studio.store.reading.inquiries()
        inquiring.answering.put_out(asked.id, inquiring.answering.letter(asked.id), "Hello Ana")
        return
    if paper is Paper.NEWS:
        write_to(posted, "perreault")
        return
    desk.day.open()
    booking = next(each for each in desk.day.bookings if each.family.name == "Perreault")
    letter = desk.letters.on(booking, ())
    desk.letters.put_out(letter, letter.text)


# What is said to the server before these is not heard by ours: it asks for neither.
@pytest.mark.parametrize(
    ("step", "paper"),
    [
        pytest.param(step, paper, marks=() if (step, paper) == ("end", Paper.NOTES) else pytest.mark.long)
        for step in STEPS
        for paper in Paper
        if step not in {"STARTTLS", "AUTH"} and (paper is Paper.NOTES or step in {"end", "QUIT"})
    ],
)
def test_after_a_kill_at_any_step_the_server_has_a_mail_once_or_the_outbox_asks(tmp_path, step, paper):
    with mail_server() as server:
        with posting_studio(tmp_path, sending='ways = "mail"\n' + mail_settings(server)) as posted:
            put_out(posted, paper)
        server.hang(step)
        command = ("outbox", "--send", "--folder", str(tmp_path))
        with RealTerminal(*command) as killed:
            server.await_step(step)
            killed.kill(signal.SIGKILL)
            assert killed.ended() == -signal.SIGKILL
        assert len(server.messages) == (step in {"end", "QUIT"})
        server.behave()
        assert fates_of(tmp_path) == [DeliveryStatus.UNSURE], "the attempt was on the disk before it was made"
        with RealTerminal(*command, columns=200) as again:
            assert again.ended() == 0
            assert "not sure: did it arrive?" in again.text()
        assert len(server.messages) == (step in {"end", "QUIT"}), "nothing is sent blindly"


def test_after_the_finish_key_each_guardian_has_the_notes_and_nothing_else(tmp_path):
    with mail_server() as server:
        make_studio_of_now(
            tmp_path,
            "Bellweather",
            "mail",
            "a@bellweather.example, b@bellweather.example",
            sending=mail_settings(server),
        )
        with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path)) as terminal:
            finish_a_lesson(terminal, "Nora", "Scales: D major\rPrivate: quokka")
            server.await_step("QUIT", 2)
            terminal.wait_for(" 1 of ")  # of those of the day: on a Tuesday there are others
            terminal.key("ctrl+q")
            assert terminal.ended() == 0
        assert [mail.to for mail in server.messages] == [("a@bellweather.example",), ("b@bellweather.example",)]
        for mail in map(read, server.messages):
            parts = [part.get_content() for part in mail.walk() if not part.is_multipart()]
            assert all("D major" in part for part in parts[:2])
            assert not any("quokka" in part for part in parts)
    assert fates_of(tmp_path) == [DeliveryStatus.SENT, DeliveryStatus.SENT]


def test_a_letter_to_many_reaches_each_guardian_alone_and_once(tmp_path):
    with mail_server() as server:
        with posting_studio(
            tmp_path, sending='ways = "mail"\n' + mail_settings(server) + "mails_a_minute = 600\n"
        ) as posted:
            write_to(posted, "all")
        for _ in range(2):
            with RealTerminal("outbox", "--send", "--folder", str(tmp_path), columns=200) as terminal:
                assert terminal.ended() == 0
        assert sorted(mail.to for mail in server.messages) == [
            ("ada@okonjo.example",), ("ann@brandvold.example",), ("m@perreault.example",), ("per@brandvold.example",),
        ]  # fmt: skip
        for mail in map(read, server.messages):
            whole = mail.as_string()
            others = [name for name in ("brandvold", "okonjo", "perreault") if name not in mail["To"]]
            assert not any(name in whole.casefold() for name in others)


@pytest.mark.long
@pytest.mark.parametrize("step", ["RCPT", "DATA", "end", "QUIT"])
def test_after_a_kill_in_the_middle_of_a_letter_to_many_the_others_get_it_and_nobody_twice(tmp_path, step):
    with mail_server() as server:
        with posting_studio(
            tmp_path, sending='ways = "mail"\n' + mail_settings(server) + "mails_a_minute = 600\n"
        ) as posted:
            write_to(posted, "all")
        command = ("outbox", "--send", "--folder", str(tmp_path))
        server.hang(step, to="per@brandvold.example")
        with RealTerminal(*command) as killed:
            server.await_step(step, 2)
            killed.kill(signal.SIGKILL)
            assert killed.ended() == -signal.SIGKILL
        server.behave()
        with RealTerminal(*command, columns=200) as again:
            assert again.ended() == 0
        arrived = [mail.to for mail in server.messages]
        assert len(arrived) == len(set(arrived)) == 3 + (step in {"end", "QUIT"})
        assert sorted(fates_of(tmp_path)) == [DeliveryStatus.SENT] * 3 + [DeliveryStatus.UNSURE]


@pytest.mark.long
def test_a_letter_to_many_is_there_to_its_last_letter_after_a_kill_while_it_was_typed(tmp_path):
    make_studio_of_now(tmp_path, "Nora", "mail", "n@bell.example")
    with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path)) as terminal:
        terminal.wait_for("NOTES FOR NORA")
        terminal.send("\x06")
        terminal.wait_for("FIND   ")
        terminal.send("newsletter\r")
        terminal.wait_for("LETTERS TO FAMILIES")
        terminal.send("all")
        terminal.wait_for("all students")
        terminal.send("\tNews of quokkas")
        terminal.wait_for("quokkas")
        terminal.kill(signal.SIGKILL)
        assert terminal.ended() == -signal.SIGKILL
    with posting_studio(tmp_path) as posted:
        (letter,) = posted.studio.desk.families().letters()
        assert (letter.whom, letter.text) == ("all", "News of quokkas")
        assert posted.entries() == ()


@pytest.mark.parametrize(
    ("copy_as", "begins"),
    [pytest.param("markdown", "# Practice notes for Nora", marks=pytest.mark.long), ("page", "<!doctype html>")],
)
def test_the_clipboard_gets_what_the_family_gets(tmp_path, copy_as, begins):
    make_studio_of_now(tmp_path, "Nora", "clipboard", sending=f"copy_as = '{copy_as}'")
    with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path), SSH_TTY="/dev/pts/0") as terminal:
        finish_a_lesson(terminal, "Nora", "Scales: Dvořák\rPrivate: quokka")
        terminal.wait_for("to the clipboard")
        # OSC 52 of xterm's control sequences: c is the clipboard, and what follows is base64 (from memory).
        found = re.search(rb"\x1b\]52;c;([A-Za-z0-9+/=]+)(?:\x07|\x1b\\)", bytes(terminal.written))
    assert found is not None
    copied = base64.b64decode(found[1]).decode()
    assert copied.startswith(begins)
    assert "Dvořák" in copied
    assert "quokka" not in copied


@pytest.mark.long
def test_what_still_waits_for_undo_goes_when_the_cockpit_is_closed(tmp_path):
    with mail_server() as server:
        make_studio_of_now(tmp_path, "Nora", "mail", "n@bell.example", sending=mail_settings(server, wait_seconds=600))
        with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path)) as terminal:
            finish_a_lesson(terminal, "Nora", "Scales: D major")
            terminal.wait_for("in the outbox")
            assert server.messages == []
            terminal.key("ctrl+q")
            terminal.wait_for("Everything has been sent.")
            assert terminal.ended() == 0
        assert [mail.to for mail in server.messages] == [("n@bell.example",)]


@pytest.mark.long
def test_closing_the_cockpit_waits_for_the_mail_that_is_going_and_keeps_the_answer(tmp_path):
    with mail_server() as server:
        settings = mail_settings(server).replace("patience_seconds = 20", "patience_seconds = 2")
        make_studio_of_now(tmp_path, "Nora", "mail", "n@bell.example", sending=settings)
        server.hang("RCPT")
        with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path)) as terminal:
            finish_a_lesson(terminal, "Nora", "Scales: D major")
            server.await_step("RCPT")
            terminal.key("ctrl+q")
            terminal.wait_for("1 waiting")
            assert terminal.ended() == 0
        assert server.messages == []
    assert fates_of(tmp_path) == [DeliveryStatus.WAITING]


# The program as it is, with less time for its end.
ENDS_SOON = """import functools, sys
from cockpit.cli import commands
from cockpit.cli.main import main
commands.run_screen = functools.partial(commands.run_screen, seconds_to_close=1.0)
sys.exit(main())"""


@pytest.mark.parametrize("wait_seconds", [0, pytest.param(600, marks=pytest.mark.long)])
@pytest.mark.parametrize(
    ("step", "said", "fate"),
    [
        pytest.param("RCPT", "1 waiting", DeliveryStatus.WAITING, marks=pytest.mark.long),
        ("end", "1 not sure", DeliveryStatus.UNSURE),
    ],
)
def test_a_server_that_never_answers_does_not_keep_the_cockpit_open(tmp_path, step, said, fate, wait_seconds):
    with mail_server() as server:
        sending = mail_settings(server, wait_seconds, patience_seconds=600)
        make_studio_of_now(tmp_path, "Nora", "mail", "n@bell.example", sending=sending)
        server.hang(step)
        with RealTerminal("--folder", str(tmp_path), program=("-c", ENDS_SOON), HOME=str(tmp_path)) as terminal:
            finish_a_lesson(terminal, "Nora", "Scales: D major")
            if wait_seconds == 0:
                server.await_step(step)
            terminal.wait_for("in the outbox" if wait_seconds else " 1 of ")
            terminal.key("ctrl+q")
            terminal.wait_for(said)
            assert terminal.ended() == 0
        assert server.connections == 1
        assert len(server.messages) == (step == "end")
    assert fates_of(tmp_path) == [fate]


@pytest.mark.long
@pytest.mark.parametrize("fault", ["451", "cut"])
def test_at_the_end_a_server_that_wants_it_later_is_called_once_for_each_mail(tmp_path, fault):
    with mail_server() as server:
        make_studio_of_now(
            tmp_path, "Nora", "mail", "a@bell.example, b@bell.example", sending=mail_settings(server, wait_seconds=600)
        )
        if fault == "451":
            server.refuse("RCPT", "451 4.7.1 Greylisted", to="a@bell.example")
        else:
            server.drop("RCPT", to="a@bell.example")
        with RealTerminal("--folder", str(tmp_path), HOME=str(tmp_path)) as terminal:
            finish_a_lesson(terminal, "Nora", "Scales: D major")
            terminal.wait_for("in the outbox")
            terminal.key("ctrl+q")
            terminal.wait_for("Still in the outbox: 1 waiting.")
            assert terminal.ended() == 0
        assert server.connections == 2
        assert [mail.to for mail in server.messages] == [("b@bell.example",)]
    assert fates_of(tmp_path) == [DeliveryStatus.WAITING, DeliveryStatus.SENT]


@pytest.mark.parametrize(
    "fault",
    [
        "451 at RCPT",
        *(pytest.param(fault, marks=pytest.mark.long) for fault in ("cut at RCPT", "cut at DATA")),
        "cut in the body",
    ],
)
def test_sending_from_a_shell_ends_whatever_the_server_does(tmp_path, fault):
    with mail_server() as server:
        with posting_studio(tmp_path, sending=mail_settings(server)) as posted:
            for student, family in (("Ilse", "Brandvold"), ("Ilse", "Okonjo"), ("Mireille", "Perreault")):
                posted.finish(student, family, BODY)
        match fault:
            case "451 at RCPT":
                server.refuse("RCPT", "451 4.7.1 Greylisted")
            case "cut at RCPT":
                server.drop("RCPT")
            case "cut at DATA":
                server.drop("DATA")
            case _:
                server.drop("body")
        command = [sys.executable, "-m", "cockpit", "outbox", "--send", "--folder", str(tmp_path)]
        done = subprocess.run(command, capture_output=True, text=True, timeout=60, check=True)
        assert server.connections == 4
        assert server.messages == []
        is_whole = fault == "cut in the body"  # of ours, since so short a mail leaves in one piece
        assert done.stdout.count("not sure" if is_whole else "to send") == 4
    assert fates_of(tmp_path) == [DeliveryStatus.UNSURE if is_whole else DeliveryStatus.WAITING] * 4


@pytest.mark.long
@pytest.mark.parametrize("weeks", [5, 12])
def test_the_notes_of_many_weeks_wait_for_a_server_and_then_arrive_in_order(tmp_path, weeks):
    with mail_server() as server:
        with posting_studio(tmp_path, sending=mail_settings(server)) as posted:
            server.stop()
            studio = posted.studio
            sender = ParcelSender(studio.preferences.sending, studio.desk.folder)
            expected = []
            for number in range(weeks):
                for student, family, addresses in (
                    ("Ilse", "Brandvold", ("ann@brandvold.example", "per@brandvold.example")),
                    ("Ilse", "Okonjo", ("ada@okonjo.example",)),
                    ("Mireille", "Perreault", ("m@perreault.example",)),
                ):
                    posted.finish(student, family, f"Scales: line {number}")
                    expected += [(address, f"line {number}") for address in addresses]
                posted.clock.wind(minutes=5)
                studio.desk.dispatch.hand_over(sender)
                assert server.messages == []
                posted.clock.at = MORNING + timedelta(weeks=number + 1)
            assert posted.fates()[-1] is DeliveryStatus.WAITING
            server.start()
            posted.clock.wind(hours=2)
            studio.desk.dispatch.hand_over(sender)
            arrived = [(mail.to[0], read(mail).get_body(("plain",)).get_content()) for mail in server.messages]
        assert len(arrived) == len(expected) == 4 * weeks
        for (to, text), (address, line) in zip(arrived, expected, strict=True):
            assert to == address
            assert f"Scales: {line}\r\n" in text.replace("\n", "\r\n").replace("\r\r", "\r")


def test_an_update_refers_to_the_mail_whose_place_it_takes(tmp_path):
    with mail_server() as server, posting_studio(tmp_path, sending=mail_settings(server)) as posted:
        sender = ParcelSender(posted.studio.preferences.sending, tmp_path)
        posted.finish("Mireille", "Perreault", BODY)
        posted.studio.desk.dispatch.hand_over(sender)
        posted.finish("Mireille", "Perreault", f"{BODY}\nTheory: page 4")
        posted.studio.desk.dispatch.hand_over(sender)
        first, second = map(read, server.messages)
        assert second["References"] == second["In-Reply-To"] == first["Message-ID"]
        assert first["Message-ID"] != second["Message-ID"]
        assert str(second["Subject"]).startswith("Updated: ")
        assert "quokka" not in str(second)


def test_a_server_that_is_busy_gets_the_mail_a_little_later(tmp_path):
    with mail_server() as server, posting_studio(tmp_path, sending=mail_settings(server)) as posted:
        sender = ParcelSender(posted.studio.preferences.sending, tmp_path)
        server.refuse("RCPT", "451 4.7.1 Try again", to="ann@brandvold.example", times=1)
        posted.finish("Ilse", "Brandvold", BODY)
        posted.studio.desk.dispatch.hand_over(sender)
        assert posted.fates() == [DeliveryStatus.WAITING, DeliveryStatus.SENT]
        posted.clock.wind(minutes=2)
        posted.studio.desk.dispatch.hand_over(sender)
        assert posted.fates() == [DeliveryStatus.SENT, DeliveryStatus.SENT]
        assert [mail.to for mail in server.messages] == [("per@brandvold.example",), ("ann@brandvold.example",)]


def test_a_password_is_in_no_file_and_in_no_answer(tmp_path, monkeypatch):
    monkeypatch.setenv("COCKPIT_TEST_PASSWORD", "correct horse")
    settings = "user = 'teacher'\npassword_from = 'env:COCKPIT_TEST_PASSWORD'\n"
    with mail_server(logins={"teacher": "another"}) as server:
        with posting_studio(tmp_path, sending=mail_settings(server) + settings) as posted:
            posted.finish("Mireille", "Perreault", BODY)
            posted.studio.desk.dispatch.hand_over(ParcelSender(posted.studio.preferences.sending, tmp_path))
            (item,) = posted.entries()
        assert item.fate is DeliveryStatus.REFUSED
        assert b"correct horse" not in b"".join(path.read_bytes() for path in tmp_path.rglob("*") if path.is_file())
        server.logins = {"teacher": "correct horse"}
        with posting_studio(tmp_path) as posted:
            posted.studio.desk.outbox.try_all_again()
            posted.studio.desk.dispatch.hand_over(ParcelSender(posted.studio.preferences.sending, tmp_path))
            assert posted.fates() == [DeliveryStatus.SENT]
        assert os.environ["COCKPIT_TEST_PASSWORD"]
