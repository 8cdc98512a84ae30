"""A line to the teacher's mail server: connected, kept from others, logged in. Each way to fail has its answer."""

import base64
import contextlib
import re
import smtplib
import socket
import ssl
from ipaddress import ip_address
from pathlib import Path

from cockpit.studio.post.channels import MailAccount, Security
from cockpit.studio.post.delivery import Answer, Delivery

# An address instead of a name: the usual look-up of a name can take long, and would tell the server what this is called.
_WHO_WE_ARE = "[127.0.0.1]"
_FAREWELL_SECONDS = 2.0
_MOST_WORDS = 200
_SHUT_DOWN, _LOGIN_WANTED, _TOO_LARGE = 421, 530, 552


class Stopped(Exception):
    """It went no further: why, and what that means for what was to go."""

    def __init__(self, answer: Answer, reason: str, *, is_channel_shut: bool = True) -> None:
        super().__init__(reason)
        self.delivery = Delivery(answer=answer, reason=reason, is_channel_shut=is_channel_shut)


def open_line(account: MailAccount, password: str | None) -> smtplib.SMTP:
    """A line on which mail can be handed over; whoever gets it has to `leave` it.

    Raises:
        Stopped: no network, no server, a wrong certificate, a refused login; no password went over an open line.
    """
    context = None if account.security is Security.NONE else _trust(account)
    line = _connected(account, context)
    try:
        _greeted(line, account)
        if context is None:
            _at_home(line, account)
        elif account.security is Security.STARTTLS:
            _protected(line, account, context)
        if account.user is not None:
            _logged_in(line, account, password)
    except BaseException:
        leave(line)
        raise
    return line


def leave(line: smtplib.SMTP) -> None:
    """Says goodbye, and hangs up whatever comes back."""
    with contextlib.suppress(smtplib.SMTPException, OSError):
        if line.sock is not None:
            line.sock.settimeout(_FAREWELL_SECONDS)
            line.docmd("QUIT")
    line.close()


def ask(line: smtplib.SMTP, command: str, wanted: int, refusal: str, *, is_channel: bool = True) -> str:
    """Says a command and returns the server's words, where its answer begins with the digit `wanted`.

    `refusal` is what any other answer means; `is_channel` says that it would mean the same for every other mail.

    Raises:
        Stopped: another answer, or none.
    """
    try:
        code, words = line.docmd(command)
    except (smtplib.SMTPException, OSError) as fault:
        raise Stopped(Answer.LATER, broken_off(line, fault), is_channel_shut=is_channel) from None
    if code // 100 != wanted:
        raise refused(code, words, refusal, is_channel=is_channel)
    return words.decode("utf-8", "replace")


def refused(code: int, words: bytes, refusal: str, *, is_channel: bool) -> Stopped:
    """What an answer means that was not the wanted one (RFC 5321 4.2.1: 5 for good, 4 for now)."""
    answer = Answer.NEVER if code // 100 == 5 else Answer.LATER
    if code == _SHUT_DOWN:
        refusal = "the mail server is not accepting email right now"
    elif code == _LOGIN_WANTED:
        refusal = "the mail server needs a login; set user in settings.toml"
    is_channel = (is_channel and code != _TOO_LARGE) or code in {_SHUT_DOWN, _LOGIN_WANTED}
    return Stopped(answer, f"{refusal} ({_said(code, words)})", is_channel_shut=is_channel)


def broken_off(line: smtplib.SMTP, fault: BaseException) -> str:
    """Why nothing more was heard."""
    if isinstance(fault, TimeoutError) or isinstance(fault.__context__, TimeoutError):
        return f"the mail server did not answer within {line.timeout:.0f} seconds"
    return "the connection to the mail server was lost"


def _said(code: int, words: bytes) -> str:
    shown = " ".join(re.sub(r"[^\x20-\x7e\xa0-\uffff]", " ", words.decode("utf-8", "replace")).split())
    return f"it says: {code} {shown}"[:_MOST_WORDS]


def _trust(account: MailAccount) -> ssl.SSLContext:
    context = ssl.create_default_context()  # 40 ms of certificates, during which other threads run
    if account.ca_file is not None:
        try:
            context.load_verify_locations(Path(account.ca_file).expanduser())
        except (OSError, RuntimeError):  # also of ssl: there is no certificate in it; or ~ is nobody's
            raise Stopped(Answer.NEVER, f"the certificates in {account.ca_file} could not be read") from None
    return context


def _connected(account: MailAccount, context: ssl.SSLContext | None) -> smtplib.SMTP:
    host, port, patience = account.host, account.port, account.patience_seconds
    try:
        if account.security is Security.TLS:
            return smtplib.SMTP_SSL(host, port, _WHO_WE_ARE, timeout=patience, context=context)
        return smtplib.SMTP(host, port, _WHO_WE_ARE, timeout=patience)
    except smtplib.SMTPConnectError as fault:
        words = fault.smtp_error if isinstance(fault.smtp_error, bytes) else b""
        # For good or for now: she may be in another network tomorrow.
        reason = f"{host} does not accept email from this computer ({_said(fault.smtp_code, words)})"
        raise Stopped(Answer.LATER, reason) from None
    except (smtplib.SMTPException, UnicodeError, OSError) as fault:
        is_late = isinstance(fault, smtplib.SMTPException) and isinstance(fault.__context__, TimeoutError)
        raise _unreached(account, TimeoutError() if is_late else fault) from None


def _unreached(account: MailAccount, fault: BaseException) -> Stopped:
    """Why there is no line, from what the system or the other side says."""
    host, port, answer = account.host, account.port, Answer.LATER
    match fault:
        case ssl.SSLCertVerificationError():
            answer = Answer.NEVER
            reason = f"the certificate of {host} could not be verified, so nothing was sent ({fault.verify_message})"
        case socket.gaierror() | UnicodeError():
            reason = f"{host} was not found; check your network, and host in settings.toml"
        case TimeoutError():
            reason = f"{host} did not answer on port {port} within {account.patience_seconds} seconds"
        case ConnectionRefusedError():
            reason = f"{host} does not answer on port {port}; it is down, or port in settings.toml is wrong"
        case ssl.SSLEOFError() | ssl.SSLZeroReturnError():
            reason = f"{host} closed the connection before it accepted anything"
        case ssl.SSLError():
            answer = Answer.NEVER
            reason = (
                f"{host} does not use TLS on port {port}; check security and port in settings.toml ({fault.reason})"
            )
        case OSError() if fault.strerror:
            reason = f"{host} could not be reached ({fault.strerror})"
        case _:
            reason = f"{host} closed the connection before it accepted anything"
    return Stopped(answer, reason)


def _greeted(line: smtplib.SMTP, account: MailAccount) -> None:
    try:
        code, words = line.ehlo()
        if code // 100 == 5:
            code, words = line.helo()
    except (smtplib.SMTPException, OSError) as fault:
        raise Stopped(Answer.LATER, broken_off(line, fault)) from None
    if code // 100 != 2:
        raise refused(code, words, f"{account.host} does not answer as a mail server", is_channel=True)


def _protected(line: smtplib.SMTP, account: MailAccount, context: ssl.SSLContext) -> None:
    """Has everything from here on unreadable for others, by STARTTLS (RFC 3207)."""
    if not line.has_extn("starttls"):
        reason = f"{account.host} does not offer an encrypted connection (STARTTLS), so nothing was sent"
        raise Stopped(Answer.NEVER, reason)
    try:
        line.starttls(context=context)
    except smtplib.SMTPResponseException as fault:
        words = fault.smtp_error if isinstance(fault.smtp_error, bytes) else b""
        refusal = f"{account.host} did not encrypt the connection"
        raise refused(fault.smtp_code, words, refusal, is_channel=True) from None
    except smtplib.SMTPException as fault:
        raise Stopped(Answer.LATER, broken_off(line, fault)) from None
    except OSError as fault:
        raise _unreached(account, fault) from None
    _greeted(line, account)


def _at_home(line: smtplib.SMTP, account: MailAccount) -> None:
    """Holds that an open line stays on this machine."""
    other = line.sock.getpeername()[0] if line.sock is not None else ""
    if not ip_address(other.partition("%")[0] or "::").is_loopback:
        reason = f"the connection to {account.host} is not encrypted, so nothing was sent"
        raise Stopped(Answer.NEVER, f"{reason}; set security in settings.toml to starttls or tls")


def _logged_in(line: smtplib.SMTP, account: MailAccount, password: str | None) -> None:
    """Proves who she is, by PLAIN (RFC 4616) or LOGIN, in UTF-8; smtplib's own way fails on a letter outside ASCII."""
    if password is None:
        reason = f'there is no password for {account.user}; save one on the screen "How notes are sent" (p)'
        raise Stopped(Answer.NEVER, reason)
    user, secret = (text.encode("utf-8", "surrogateescape") for text in (account.user or "", password))
    offered = line.esmtp_features.get("auth", "").upper().split()
    # The server's own words are left out: they may repeat what it was told.
    if "PLAIN" in offered:
        _prove(line, account, "AUTH PLAIN " + _coded(b"\0".join([b"", user, secret])), 2)
    elif "LOGIN" in offered:
        _prove(line, account, "AUTH LOGIN", 3)
        _prove(line, account, _coded(user), 3)
        _prove(line, account, _coded(secret), 2)
    else:
        raise Stopped(Answer.NEVER, f"{account.host} does not allow login by password ({' '.join(offered) or 'none'})")


def _prove(line: smtplib.SMTP, account: MailAccount, command: str, wanted: int) -> None:
    try:
        code, _ = line.docmd(command)
    except (smtplib.SMTPException, OSError) as fault:
        raise Stopped(Answer.LATER, broken_off(line, fault)) from None
    if code // 100 == wanted:
        return
    if code // 100 == 5:
        reason = f"{account.host} refused the login for {account.user}: wrong user name or password"
        raise Stopped(Answer.NEVER, f"{reason} ({code})")
    raise Stopped(Answer.LATER, f"{account.host} is not accepting logins right now ({code})")


def _coded(text: bytes) -> str:
    return base64.b64encode(text).decode()
