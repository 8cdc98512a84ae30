"""A mail handed to the teacher's own server (RFC 5321), with an answer that never claims more than is known."""

import re
import smtplib
from collections.abc import Callable

from cockpit.outlets.mail_line import Stopped, ask, broken_off, leave, open_line, refused
from cockpit.studio.clocks.words import number_in
from cockpit.studio.post.channels import MailAccount
from cockpit.studio.post.delivery import Answer, Delivery

# Whoever hangs up too early does not know what became of it (RFC 5321 4.5.3.2.6 asks for ten minutes).
_TIMES_LONGER_FOR_THE_ANSWER = 4
_LINE_END = re.compile(rb"\r\n|\r|\n")
_LEADING_DOT = re.compile(rb"^\.", re.MULTILINE)


def send(account: MailAccount, password: str | None, to: str, message: bytes, may_go: Callable[[], bool]) -> Delivery:
    """Hands a mail over for one address, and returns what came of it; it raises nothing and keeps no record.

    `UNKNOWN` stands for the one gap that SMTP has: the whole mail was handed over, and the answer never came. Until
    then nothing was taken, and it can be tried again. `may_go` is asked just before the mail itself leaves. No reason
    repeats the password or what the notes say.
    """
    for address, is_channel in ((account.sender, True), (to, False)):
        if not _fits(address):
            reason = f"{' '.join(address.split()) or 'nothing'} is not an email address"
            return Delivery(answer=Answer.NEVER, reason=reason, is_channel_shut=is_channel)
    try:
        line = open_line(account, password)
    except Stopped as stopped:
        return stopped.delivery
    try:
        _addressed(line, account, to, message)
        return _handed_over(line, message, may_go)
    except Stopped as stopped:
        return stopped.delivery
    finally:
        leave(line)


def _fits(address: str) -> bool:
    """Whether an address can stand in a command without being read as anything else."""
    local, _, domain = address.rpartition("@")
    return bool(local and domain) and address.isprintable() and not set(address) & set(' <>"')


def _addressed(line: smtplib.SMTP, account: MailAccount, to: str, message: bytes) -> None:
    options = _options(line, account, to, message)
    ask(
        line,
        f"MAIL FROM:<{account.sender}>{options}",
        2,
        f"the mail server does not accept email from {account.sender}",
    )
    ask(line, f"RCPT TO:<{to}>", 2, f"the mail server does not accept email for {to}", is_channel=False)
    ask(line, "DATA", 3, "the mail server did not accept this email", is_channel=False)


def _options(line: smtplib.SMTP, account: MailAccount, to: str, message: bytes) -> str:
    """What is said with the sender: how large the mail is (RFC 1870), and that its header is in UTF-8 (RFC 6531)."""
    options = ""
    if line.has_extn("size"):
        limit = number_in(line.esmtp_features["size"].strip()) or 0  # 0 is no limit
        if 0 < limit < len(message):
            reason = f"the email is too large for the mail server ({len(message):,} bytes; the limit is {limit:,})"
            raise Stopped(Answer.NEVER, reason, is_channel_shut=False)
        options += f" SIZE={len(message)}"
    head = message.partition(b"\r\n\r\n")[0]
    if account.sender.isascii() and to.isascii() and head.isascii():
        return options
    if not line.has_extn("smtputf8"):
        foreign = to if account.sender.isascii() else account.sender
        reason = f"the mail server does not support addresses with letters like those in {foreign} (SMTPUTF8)"
        raise Stopped(Answer.NEVER, reason, is_channel_shut=foreign == account.sender)
    line.command_encoding = "utf-8"
    return f"{options} BODY=8BITMIME SMTPUTF8"


def _handed_over(line: smtplib.SMTP, message: bytes, may_go: Callable[[], bool]) -> Delivery:
    if not may_go():
        raise Stopped(Answer.LATER, "sending was stopped before the email left", is_channel_shut=False)
    body = _LEADING_DOT.sub(b"..", _LINE_END.sub(b"\r\n", message))
    try:
        line.send(body + (b".\r\n" if body.endswith(b"\r\n") else b"\r\n.\r\n"))
    except (smtplib.SMTPException, OSError) as fault:
        # The end of the mail never left, and without it no server may take it. Another mail may fare better.
        raise Stopped(Answer.LATER, broken_off(line, fault), is_channel_shut=False) from None
    try:
        if line.sock is not None:
            line.sock.settimeout(line.timeout * _TIMES_LONGER_FOR_THE_ANSWER)
        code, words = line.getreply()
    except (smtplib.SMTPException, OSError):
        code, words = -1, b""
    if code // 100 == 2:
        return Delivery(answer=Answer.TAKEN)
    if code // 100 in {4, 5}:
        return refused(code, words, "the mail server did not accept this email", is_channel=False).delivery
    reason = (
        "the connection was lost after the whole email was sent, so nobody knows whether the mail server accepted it"
    )
    return Delivery(answer=Answer.UNKNOWN, reason=reason)
