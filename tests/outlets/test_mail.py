"""A mail handed over to real servers, which do at each step what a server may do; and what is then said of it."""

import logging
import socket
import ssl
import threading
from contextlib import closing, contextmanager
from datetime import UTC, datetime

import pytest
import trustme
from hypothesis import given
from hypothesis import strategies as st
from support.examples import examples
from support.mail_server import HOST, account_at, certificate, mail_server
from support.mails import mailed, outgoing
from support.outbox import always

from cockpit.outlets.mail import send
from cockpit.outlets.mail_line import leave, open_line
from cockpit.studio.post.channels import MailAccount, Security
from cockpit.studio.post.delivery import Answer, Delivery

TO = "brandvold@example.org"
PASSWORD = "s3cret-pa$$wörd"
LOGINS = {"ada": PASSWORD}
NOTE = b"Subject: x\r\nTo: brandvold@example.org\r\n\r\nthe bow arm\r\n"
TAKEN = Delivery(answer=Answer.TAKEN)
LATER, NEVER, UNKNOWN = Answer.LATER, Answer.NEVER, Answer.UNKNOWN


@pytest.fixture
def server():
    with mail_server() as found:
        yield found


@pytest.fixture(autouse=True)
def _tells_no_secret(caplog):
    """Whatever a test does, no log has the password or the notes in it."""
    caplog.set_level(logging.DEBUG)
    caplog.set_level(logging.CRITICAL, "mail.log")  # that of the server, which hears everything
    yield
    assert "s3cret" not in caplog.text
    assert "bow arm" not in caplog.text


def handed_over(server, message=NOTE, to=TO, password=None, **account):
    delivery = send(account_at(server, **account), password, to, message, always)
    assert "s3cret" not in repr(delivery)
    assert "bow arm" not in repr(delivery)
    assert not delivery.reason.endswith(".")
    assert bool(delivery.reason) is (delivery.answer is not Answer.TAKEN)
    return delivery


def judged(server, **account):
    delivery = handed_over(server, **account)
    return delivery.answer, delivery.is_channel_shut


def test_a_mail_arrives_as_it_was_handed_over_with_its_sender_and_its_one_recipient(server):
    message = mailed(outgoing(text="One.\n.\n..two\n. three\n"))
    assert handed_over(server, message) == TAKEN
    (arrived,) = server.messages
    assert (arrived.sender, arrived.to, arrived.content) == ("teacher@example.org", (TO,), message)


@examples(30)
@given(lines=st.lists(st.text("." + "ab \t", max_size=5), max_size=8), end=st.sampled_from(["\r\n", "\n", "\r", ""]))
def test_dots_and_ends_of_lines_neither_end_a_mail_early_nor_change_it(lines, end):
    message = ("Subject: x\r\n\r\n" + "".join(f"{line}{end}" for line in lines)).encode()
    with mail_server() as server:
        assert handed_over(server, message) == TAKEN
        whole = message.replace(b"\r\n", b"\n").replace(b"\r", b"\n").replace(b"\n", b"\r\n")
        assert [each.content for each in server.messages] == [whole if whole.endswith(b"\r\n") else whole + b"\r\n"]


def test_a_hidden_end_of_a_mail_makes_no_second_mail(server):
    # RFC 5321 4.1.1.4: only CRLF.CRLF ends a mail; a server that takes LF.CRLF for it would see two.
    handed_over(server, b"Subject: x\r\n\r\na\n.\r\nMAIL FROM:<a@b.example>\r\nb\r.\rc\r\n")
    assert [each.content for each in server.messages] == [
        b"Subject: x\r\n\r\na\r\n.\r\nMAIL FROM:<a@b.example>\r\nb\r\n.\r\nc\r\n"
    ]


@pytest.mark.parametrize("step", ["RCPT", "DATA", "end"])
def test_one_that_is_refused_for_good_says_so_and_the_others_go(server, step):
    server.refuse(
        step, "550 5.1.1 No such mailbox", to="gone@example.org" if step in {"RCPT", "end"} else None, times=1
    )
    delivery = handed_over(server, to="gone@example.org")
    assert (delivery.answer, delivery.is_channel_shut) == (NEVER, False)
    assert delivery.reason.endswith("(it says: 550 5.1.1 No such mailbox)")
    assert handed_over(server) == TAKEN
    assert [each.to for each in server.messages] == [(TO,)]


@pytest.mark.parametrize("step", ["RCPT", "DATA", "end"])
def test_one_that_is_refused_for_now_goes_later(server, step):
    server.refuse(step, "450 4.2.1 Busy", times=1)
    assert judged(server) == (LATER, False)
    assert handed_over(server) == TAKEN
    assert len(server.messages) == 1


@pytest.mark.parametrize(
    ("step", "answer", "expected"),
    [
        ("greeting", "421 Too busy", (LATER, True)),
        ("greeting", "554 Not from here", (LATER, True)),
        ("EHLO", "421 Too busy", (LATER, True)),
        ("EHLO", "451 Not now", (LATER, True)),
        ("MAIL", "421 Going down", (LATER, True)),
        ("MAIL", "451 Not now", (LATER, True)),
        ("MAIL", "550 Not from you", (NEVER, True)),
        ("MAIL", "530 5.7.0 Authentication required", (NEVER, True)),
        ("MAIL", "552 5.3.4 Too large", (NEVER, False)),
        ("RCPT", "421 Going down", (LATER, True)),
        ("RCPT", "530 Login", (NEVER, True)),
        ("DATA", "421 Going down", (LATER, True)),
        ("DATA", "250 Eh?", (LATER, False)),
        ("end", "421 Going down", (LATER, True)),
        ("end", "554 5.7.1 No", (NEVER, False)),
        ("end", "452 4.3.1 Full", (LATER, False)),
        ("end", "354 Eh?", (UNKNOWN, False)),
        ("end", "what?", (UNKNOWN, False)),
        ("end", "5" * 9000, (UNKNOWN, False)),
        ("QUIT", "554 No", (Answer.TAKEN, False)),
    ],
)
def test_what_an_answer_means(server, step, answer, expected):
    server.refuse(step, answer)
    assert judged(server) == expected


@pytest.mark.parametrize(
    ("step", "expected"),
    [
        ("greeting", (LATER, True)),
        ("EHLO", (LATER, True)),
        ("MAIL", (LATER, True)),
        ("RCPT", (LATER, False)),
        ("DATA", (LATER, False)),
        ("end", (UNKNOWN, False)),
        ("QUIT", (Answer.TAKEN, False)),
    ],
)
@pytest.mark.parametrize("how", ["drop", "hang"])
def test_where_the_line_breaks_or_stays_silent_decides_what_is_known(server, step, how, expected):
    getattr(server, how)(step)
    assert judged(server, patience_seconds=1) == expected
    # What nobody knows was taken here; what goes later was not.
    assert len(server.messages) == (expected[0] in {UNKNOWN, Answer.TAKEN})


def test_a_server_that_says_nothing_is_named_with_the_time(server):
    server.hang("RCPT")
    assert handed_over(server, patience_seconds=1).reason == "the mail server did not answer within 1 seconds"


def test_a_line_that_breaks_within_a_large_mail_left_nothing_there(server):
    server.drop("body")
    assert judged(server, message=NOTE + b"x" * 70 * 400_000) == (LATER, False)
    assert server.messages == []


def test_a_line_that_breaks_within_a_small_mail_is_later_or_unknown_and_never_taken(server):
    # The whole of it may lie in the system's buffers by then: nobody knows.
    server.drop("body")
    assert judged(server) in {(LATER, False), (UNKNOWN, False)}
    assert server.messages == []


def test_nobody_at_the_port_is_later_for_everything_and_then_it_goes(server):
    server.stop()
    delivery = handed_over(server)
    assert (delivery.answer, delivery.is_channel_shut) == (LATER, True)
    assert "127.0.0.1 does not answer on port" in delivery.reason
    server.start()
    assert handed_over(server) == TAKEN


def test_a_name_that_nobody_knows_is_no_network_or_a_wrong_name(server):
    # RFC 6761 6.4: names below .invalid do not exist.
    delivery = handed_over(server, host="mail.example.invalid")
    assert (delivery.answer, delivery.is_channel_shut) == (LATER, True)
    assert delivery.reason.startswith("mail.example.invalid was not found")


@pytest.mark.parametrize("host", ["a..b", "x" * 70 + ".example", "é..é"])
def test_a_name_that_cannot_be_one_is_told_too(server, host):
    assert judged(server, host=host) == (LATER, True)


def test_a_mail_larger_than_the_server_takes_is_not_even_begun():
    with mail_server(data_size_limit=40) as server:
        delivery = handed_over(server)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, False)
        assert f"({len(NOTE)} bytes; the limit is 40)" in delivery.reason
        assert b"MAIL" not in server.heard


@pytest.mark.parametrize("to", ["zoë@example.org", "zoe@dvořák.example"])
def test_an_address_outside_ascii_goes_to_a_server_that_can(server, to):
    message = mailed(outgoing(address=to))
    assert handed_over(server, message, to) == TAKEN
    (arrived,) = server.messages
    assert (arrived.to, arrived.content) == ((to,), message)
    assert "SMTPUTF8" in arrived.options


def test_an_address_outside_ascii_is_refused_by_a_server_that_cannot():
    with mail_server(enable_SMTPUTF8=False) as server:
        delivery = handed_over(server, mailed(outgoing(address="zoë@example.org")), "zoë@example.org")
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, False)
        assert "zoë@example.org" in delivery.reason
        assert b"MAIL" not in server.heard
        assert judged(server, sender="zoë@example.org") == (NEVER, True)
        assert handed_over(server) == TAKEN


def test_names_outside_ascii_go_to_every_server():
    with mail_server(enable_SMTPUTF8=False) as server:
        assert handed_over(server, mailed(outgoing(title="Zoë Dvořák", text="žluťoučký\n"))) == TAKEN


@pytest.mark.parametrize(
    "to", ["", "x", "a@b>\r\nRCPT TO:<c@d.example", "a@b.example> <c@d.example", "a b@c.example", "@b"]
)
def test_what_is_no_address_is_never_said_to_a_server(server, to):
    assert judged(server, to=to) == (NEVER, False)
    assert judged(server, sender=to) == (NEVER, True)
    assert server.connections == 0


# Logins and lines that others cannot read.


@pytest.fixture
def trusted(tmp_path):
    return certificate(tmp_path)


@pytest.mark.parametrize("is_tls_at_once", [False, True], ids=["STARTTLS", "TLS"])
def test_a_mail_goes_over_a_line_that_others_cannot_read_after_a_login(trusted, is_tls_at_once):
    context, authority = trusted
    with mail_server(tls=context, is_tls_at_once=is_tls_at_once, logins=LOGINS) as server:
        assert handed_over(server, user="ada", password=PASSWORD, ca_file=authority) == TAKEN
        (arrived,) = server.messages
        assert (arrived.was_protected, arrived.user, arrived.content) == (True, "ada", NOTE)


def test_a_server_that_knows_only_login_is_logged_in_to():
    with mail_server(logins=LOGINS, auth_exclude_mechanism=["PLAIN"]) as server:
        assert handed_over(server, user="ada", password=PASSWORD) == TAKEN
        assert b"AUTH LOGIN" in server.heard


def test_a_server_without_any_login_by_password_is_told():
    with mail_server(logins=LOGINS, auth_exclude_mechanism=["PLAIN", "LOGIN"]) as server:
        assert judged(server, user="ada", password=PASSWORD) == (NEVER, True)
        assert b"AUTH" not in server.heard


@pytest.mark.parametrize("mechanism", ["PLAIN", "LOGIN"])
def test_a_wrong_password_is_for_her_to_mend_and_is_not_repeated(mechanism):
    with mail_server(logins={"ada": "other"}, auth_exclude_mechanism={"PLAIN", "LOGIN"} - {mechanism}) as server:
        delivery = handed_over(server, user="ada", password=PASSWORD)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert "refused the login for ada" in delivery.reason
        assert server.messages == []


def test_a_server_that_repeats_the_password_is_not_quoted():
    with mail_server(logins=LOGINS) as server:
        server.refuse("AUTH", f"535 {PASSWORD} is wrong")
        assert judged(server, user="ada", password=PASSWORD) == (NEVER, True)


@pytest.mark.parametrize(
    ("how", "expected"), [("454 4.7.0 Not now", (LATER, True)), ("421 No", (LATER, True)), (None, (LATER, True))]
)
def test_a_login_that_fails_for_now_is_later(how, expected):
    with mail_server(logins=LOGINS) as server:
        server.refuse("AUTH", how) if how else server.drop("AUTH")
        assert judged(server, user="ada", password=PASSWORD) == expected


def test_no_password_is_told_before_anything_is_said():
    with mail_server(logins=LOGINS) as server:
        delivery = handed_over(server, user="ada")
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert "there is no password for ada" in delivery.reason


def test_a_server_that_wants_a_login_from_an_account_without_one_says_so():
    with mail_server(logins=LOGINS) as server:
        assert "needs a login" in handed_over(server).reason


WRONG = {
    "of another name": lambda folder: certificate(folder, "mail.elsewhere.example"),
    "of an authority nobody knows": lambda folder: (certificate(folder)[0], None),
    "that is over": lambda folder: expired(folder),
}


def expired(folder):
    authority = trustme.CA()
    context = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    authority.issue_cert(HOST, not_after=datetime(2020, 1, 1, tzinfo=UTC)).configure_cert(context)
    authority.cert_pem.write_to_path(folder / "authority.pem")
    return context, str(folder / "authority.pem")


@pytest.mark.parametrize("wrong", WRONG)
@pytest.mark.parametrize("is_tls_at_once", [False, True], ids=["STARTTLS", "TLS"])
def test_a_certificate_that_is_wrong_ends_it_before_the_password_is_sent(tmp_path, wrong, is_tls_at_once):
    context, authority = WRONG[wrong](tmp_path)
    with mail_server(tls=context, is_tls_at_once=is_tls_at_once, logins=LOGINS) as server:
        delivery = handed_over(server, user="ada", password=PASSWORD, ca_file=authority)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert "the certificate of 127.0.0.1 could not be verified" in delivery.reason
        assert b"AUTH" not in server.heard
        assert b"MAIL" not in server.heard


def test_a_server_without_starttls_gets_neither_password_nor_note():
    with mail_server(logins=LOGINS) as server:
        delivery = handed_over(server, user="ada", password=PASSWORD, security=Security.STARTTLS)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert b"AUTH" not in server.heard
        assert b"MAIL" not in server.heard


@pytest.mark.parametrize(
    ("answer", "expected"), [("454 TLS not now", (LATER, True)), ("502 No", (NEVER, True)), (None, (LATER, True))]
)
def test_starttls_that_is_refused_gets_neither_password_nor_note(trusted, answer, expected):
    context, authority = trusted
    with mail_server(tls=context, logins=LOGINS) as server:
        server.refuse("STARTTLS", answer) if answer else server.drop("STARTTLS")
        assert judged(server, user="ada", password=PASSWORD, ca_file=authority) == expected
        assert b"AUTH" not in server.heard


def test_tls_to_a_server_that_speaks_plainly_is_a_wrong_setting(server):
    delivery = handed_over(server, security=Security.TLS)
    assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
    assert "does not use TLS" in delivery.reason


def test_a_file_of_certificates_that_is_not_there_or_has_none_is_told(server, tmp_path):
    (tmp_path / "empty.pem").write_text("none")
    for name in ("empty.pem", "missing.pem"):
        delivery = handed_over(server, ca_file=str(tmp_path / name), security=Security.TLS)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert name in delivery.reason


@contextmanager
def deaf_server(says: bytes = b""):
    """A listener that takes one line, says something at once, reads what comes, and never answers."""
    heard = bytearray()
    with closing(socket.create_server((HOST, 0))) as listener:

        def serve() -> None:
            line, _ = listener.accept()
            with line:
                line.sendall(says)
                while got := line.recv(4096):
                    heard.extend(got)

        thread = threading.Thread(target=serve, daemon=True)
        thread.start()
        yield listener.getsockname()[1], heard
        thread.join(10)


@pytest.mark.parametrize("security", list(Security))
def test_a_server_that_never_greets_is_waited_for_no_longer_than_was_said(security):
    with deaf_server() as (port, _):
        account = MailAccount(host=HOST, port=port, security=security, sender="t@example.org", patience_seconds=1)
        delivery = send(account, None, TO, NOTE, always)
    assert (delivery.answer, delivery.is_channel_shut) == (LATER, True)
    assert "did not answer" in delivery.reason
    assert "within 1 seconds" in delivery.reason


def test_an_open_line_to_another_machine_gets_neither_password_nor_note():
    # The machine's own address in its network stands for another machine: it is none of the loopback.
    with closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        probe.connect(("192.0.2.1", 9))  # RFC 5737: nobody's; nothing is sent
        outside = probe.getsockname()[0]
    with mail_server(host=outside, logins=LOGINS) as server:
        delivery = handed_over(server, host=outside, user="ada", password=PASSWORD)
        assert (delivery.answer, delivery.is_channel_shut) == (NEVER, True)
        assert "is not encrypted" in delivery.reason
        assert b"AUTH" not in server.heard
        assert b"MAIL" not in server.heard


def test_a_login_leaves_when_it_is_told_to(server):
    line = open_line(account_at(server), None)
    leave(line)
    assert line.sock is None
    server.await_step("QUIT")


def test_two_hundred_mails_arrive_in_order(server):
    for n in range(200):
        assert handed_over(server, b"Subject: %d\r\n\r\n" % n) == TAKEN
    assert [each.content for each in server.messages] == [b"Subject: %d\r\n\r\n" % n for n in range(200)]


def test_a_mail_that_may_not_go_any_more_stops_just_before_it_leaves():
    asked = []

    def may_go() -> bool:
        asked.append(len(server.messages))
        return False

    with mail_server() as server:
        delivery = send(
            account_at(server), None, "m@perreault.example", b"Subject: x\r\n\r\nScales: D major\r\n", may_go
        )
        assert delivery.answer is Answer.LATER
        assert server.messages == []
        assert b"DATA" in server.heard
        assert b"Scales" not in server.heard
    assert asked == [0]
