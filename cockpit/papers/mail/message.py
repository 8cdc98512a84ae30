"""A mail with practice notes, by RFC 5322 and MIME: plain text first and the page last, the next lesson by choice."""

import re
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from email import message_from_bytes
from email.message import MIMEPart
from email.policy import SMTP, default
from email.utils import format_datetime
from hashlib import sha256

from cockpit.papers.mail.headers import address_line, ids_line, text_line
from cockpit.papers.mail.words import page_words, plain_words, subject
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.post.channels import MailAccount, NextLesson, SendingRules
from cockpit.studio.post.outgoing import Outgoing, Paper
from cockpit.studio.practice.notes import safe_name
from cockpit.studio.shown import one_line

# RFC 2045 6.7 and 6.8: lines of at most 76; nothing needs a server that takes eight bits.
_POLICY = SMTP.clone(cte_type="7bit", max_line_length=76)
_METHOD = re.compile(r"^METHOD:([A-Za-z-]+)\r?$", re.MULTILINE)
_DOMAIN = re.compile(r"[A-Za-z0-9-]+(?:\.[A-Za-z0-9-]+)*")
_NO_DOMAIN = "notes.invalid"  # RFC 2606: a name that is nobody's


def message(  # noqa: PLR0913 everything that a mail is made of
    items: Sequence[Outgoing],
    account: MailAccount,
    rules: SendingRules,
    phrases: Phrases,
    style: str,
    *,
    day: str,
    references: Sequence[str],
    sent_at: datetime,
    sheets: Sequence[str] = (),
) -> bytes:
    """A mail to the one address of `items`, complete with its lines ended by CRLF; the same values give the same bytes.

    Several items are one mail, each under its own heading. `sheets` are pages that go with it as files. `day` is the day of the lesson in words; `references` are
    the identifiers of earlier versions, oldest first. Header lines with an address outside ASCII need RFC 6532.

    Raises:
        BadInput: the sender or the recipient is not an address.
        ValueError: the items are for several families or addresses.
    """
    if len({(each.whom, each.address) for each in items}) != 1:
        raise ValueError("a mail is for one family and one address")
    title = subject(items, phrases, day)
    first = items[0]
    head = [
        f"Date: {_rfc_date(sent_at)}",
        address_line("From", account.sender, account.name),
        address_line("To", first.address),
        text_line("Subject", title),
        ids_line("Message-ID", [first.message_id or ""]),
        ids_line("In-Reply-To", references[-1:]),
        ids_line("References", references),
    ]
    is_within = rules.next_lesson is NextLesson.WITHIN and sum(each.next_lesson is not None for each in items) == 1
    calendars = list(_calendars(items, phrases, rules, is_within=is_within))
    forms = [_text(plain_words(items, rules, phrases), "plain")]
    forms += calendars if is_within else []
    forms.append(_text(page_words(items, rules, phrases, title, style), "html"))
    files = [_sheet(item, each, day) for item, each in zip(items, sheets, strict=False) if each]
    return _whole(head, _together(forms, [*files, *([] if is_within else calendars)]))


def draft(  # noqa: PLR0913 everything that a mail is made of
    item: Outgoing,
    account: MailAccount | None,
    rules: SendingRules,
    phrases: Phrases,
    style: str,
    *,
    day: str,
    made_at: datetime,
    sheet: str,
) -> bytes:
    """The same as a file that a mail program opens to be sent, with the page as a file, `sheet`, beside the words.

    It has no identifier, and no sender without an account: the program that sends it gives them. The next lesson is a
    file too, because a program that writes mails keeps two forms of the words only.

    Raises:
        BadInput: the sender or the recipient is not an address.
    """
    title = subject([item], phrases, day)
    head = [
        "X-Unsent: 1",
        f"Date: {_rfc_date(made_at)}",
        address_line("From", account.sender, account.name) if account else None,
        address_line("To", item.address),
        text_line("Subject", title),
    ]
    files = []
    if item.paper in {Paper.NOTES, Paper.REPORT, Paper.PROGRAM}:  # a sheet to print
        files = [_sheet(item, sheet, day)]
    files += _calendars([item], phrases, rules, is_within=False)
    forms = [
        _text(plain_words([item], rules, phrases), "plain"),
        _text(page_words([item], rules, phrases, title, style), "html"),
    ]
    return _whole(head, _together(forms, files))


def message_id(item: Outgoing, studio_uid: str, sender: str = "", also: Sequence[Outgoing] = ()) -> str:
    """The lasting identifier of a mail: the same for the same version to the same address, in which nobody is named.

    Its domain is that of `sender`. `also` are the others in the same mail: together they are another mail, which must
    not be taken for a copy of one that had fewer.
    """
    parts = [studio_uid]
    for each in (item, *also):
        parts += [each.about, str(each.version), each.address]
    domain = sender.partition("@")[2]
    known = sha256("\n".join(parts).encode("utf-8", "replace")).hexdigest()[:40]
    return f"<{known}@{domain if _DOMAIN.fullmatch(domain) else _NO_DOMAIN}>"


def as_read(content: bytes) -> tuple[str, str, str]:
    """The subject, the plain text and the page of a mail or draft, as a program reads them that gets it."""
    read = message_from_bytes(content, policy=default)
    plain, page = read.get_body(("plain",)), read.get_body(("html",))
    return str(read["Subject"]), plain.get_content() if plain else "", page.get_content() if page else ""


def _calendars(
    items: Sequence[Outgoing], phrases: Phrases, rules: SendingRules, *, is_within: bool
) -> Iterator[MIMEPart]:
    """The next lesson of each as a part, with the method that its text names: without one, it has none (RFC 5545 8.1)."""
    known = [each for each in items if each.next_lesson and rules.next_lesson is not NextLesson.LEFT_OUT]
    for item in known:
        text = item.next_lesson or ""
        method = _METHOD.search(text)
        key = "recital.calendar_file" if item.paper is Paper.PROGRAM else "mail.calendar_of_next"
        name = phrases.say(key) + (f", {item.student}" if len(known) > 1 else "")
        yield _text(
            text,
            "calendar",
            filename=None if is_within else f"{_file_name(name)}.ics",
            method=method[1] if method else None,
        )


def _sheet(item: Outgoing, page: str, day: str) -> MIMEPart:
    return _text(page, "html", filename=f"{_file_name(f'{item.title}, {day}')}.html")


def _file_name(text: str) -> str:
    """A file name that mail programs read alike: some cut quoted text at a sign that means something in a header."""
    return safe_name("".join(sign if sign.isalnum() or sign in " ,.-_()" else "-" for sign in one_line(text)))


def _text(text: str, kind: str, filename: str | None = None, method: str | None = None) -> MIMEPart:
    part = MIMEPart(policy=_POLICY)
    part.set_content(
        text.encode("utf-8", "replace").decode(),
        subtype=kind,
        disposition="attachment" if filename else None,
        filename=filename,
        params={"method": method} if method else None,
    )
    return part


def _together(forms: Sequence[MIMEPart], files: Sequence[MIMEPart]) -> MIMEPart:
    alternative = _multipart("alternative", forms)
    return _multipart("mixed", [alternative, *files]) if files else alternative


def _multipart(kind: str, parts: Sequence[MIMEPart]) -> MIMEPart:
    """Parts around a boundary that is taken from what they say, so that it stands nowhere in it."""
    boundary = sha256(b"".join(part.as_bytes() for part in parts)).hexdigest()[:32]
    whole = MIMEPart(policy=_POLICY)
    whole["Content-Type"] = f'multipart/{kind}; boundary="={boundary}"'
    for part in parts:
        whole.attach(part)
    return whole


def _whole(head: Sequence[str | None], body: MIMEPart) -> bytes:
    lines = [*filter(None, head), "MIME-Version: 1.0"]
    return "".join(f"{line}\r\n" for line in lines).encode() + body.as_bytes()


def _rfc_date(at: datetime) -> str:
    return format_datetime(at.astimezone(UTC).replace(microsecond=0))
