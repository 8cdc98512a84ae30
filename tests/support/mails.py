"""Mails with practice notes, and how two parsers read them: that of the standard library, and one that owes it nothing."""

import re
from datetime import UTC, datetime
from email import message_from_bytes
from email.errors import NonASCIILocalPartDefect, UndecodableBytesDefect
from email.message import EmailMessage
from email.policy import default
from pathlib import Path
from typing import Any

from fast_mail_parser import PyMail, PyMimePart, parse_email, parse_email_tree
from support.papers import paper
from support.phrases import IN_ENGLISH

from cockpit.papers.mail.message import draft, message
from cockpit.papers.notes.page import page_frame, practice_notes_body
from cockpit.papers.notes.text import practice_notes_text
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.people.people import FamilyId
from cockpit.studio.post.channels import Channel, MailAccount, OwnWords, Security, SendingRules
from cockpit.studio.post.outgoing import Outgoing, OutgoingId
from cockpit.studio.values import Value

_THEMES = Path(__file__).parents[2] / "themes"
STYLE = (_THEMES / "family.css").read_text(encoding="utf-8")
PHRASES = _THEMES / "phrases"
AT = datetime(2026, 12, 1, 22, 31, 5, 123456, tzinfo=UTC)
ACCOUNT = MailAccount(
    host="mail.example.org", port=587, security=Security.STARTTLS, sender="teacher@example.org", name="Ada Quill"
)
NEXT = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//invented//EN\r\nEND:VCALENDAR\r\n"


def outgoing(**values: Any) -> Outgoing:
    """The notes of Ilse's lesson for her family's first address, or what `values` make of them."""
    usual = {
        "id": OutgoingId(1),
        "about": "1",
        "lesson_id": LessonId("1"),
        "family_id": FamilyId(1),
        "version": 1,
        "way": Channel.MAIL,
        "address": "brandvold@example.org",
        "student": "Ilse",
        "title": "Practice notes for Ilse",
        "text": practice_notes_text(paper(), IN_ENGLISH),
        "page": practice_notes_body(paper(), IN_ENGLISH),
        "language": "en",
        "next_lesson": None,
        "is_update": False,
        "queued_at": AT,
        "not_before": AT,
        "message_id": "<one@example.org>",
    }
    return Outgoing(**usual | values)


def mailed(*items: Outgoing, account: MailAccount = ACCOUNT, **values: Any) -> bytes:
    """A mail with these notes, by usual rules but for `values`: rules, day, references, phrases."""
    more = {"day": "Tue 1 Dec", "references": (), "sent_at": AT} | {k: v for k, v in values.items() if k in _OF_MESSAGE}
    rules = _rules(account, {k: v for k, v in values.items() if k not in {*_OF_MESSAGE, "phrases"}})
    return message(items or (outgoing(),), account, rules, values.get("phrases", IN_ENGLISH), STYLE, **more)


def drafted(item: Outgoing, account: MailAccount | None = ACCOUNT, **rules: Any) -> bytes:
    """A draft with these notes."""
    sheet = page_frame(item.title, item.page, STYLE, item.language)
    return draft(item, account, _rules(account, rules), IN_ENGLISH, STYLE, day="Tue 1 Dec", made_at=AT, sheet=sheet)


_OF_MESSAGE = {"day", "references", "sent_at"}


class Read(Value):
    """A mail as both parsers read it."""

    content: bytes
    ours: EmailMessage
    theirs: PyMail
    tree: PyMimePart

    @property
    def kinds(self) -> str:
        return _kinds(self.tree)

    @property
    def plain(self) -> str:
        return self.theirs.text_plain[0].replace("\r\n", "\n")

    @property
    def page(self) -> str:
        return self.theirs.text_html[0].replace("\r\n", "\n")

    @property
    def head(self) -> bytes:
        return self.content.partition(b"\r\n\r\n")[0]


def read(content: bytes) -> Read:
    """Reads a mail, and holds what must be so of every one."""
    ours = message_from_bytes(content, policy=default)
    assert isinstance(ours, EmailMessage)
    theirs, tree = parse_email(content, strict=True), parse_email_tree(content)
    found = Read(content=content, ours=ours, theirs=theirs, tree=tree)
    _holds_its_form(found)
    return found


def _holds_its_form(found: Read) -> None:
    assert not re.search(rb"(?<!\r)\n|\r(?!\n)", found.content), "a line that does not end by CRLF"
    lines = found.content.split(b"\r\n")
    assert max(map(len, lines)) <= 998, "RFC 5322 2.1.1"
    body = found.content[len(found.head) :]
    assert max(map(len, body.split(b"\r\n"))) <= 78
    assert body.isascii(), "nothing in the body needs eight bits"
    for part in found.ours.walk():
        defects = [*part.defects, *(each for value in part.values() for each in getattr(value, "defects", ()))]
        # The standard library minds an address in UTF-8, which RFC 6532 allows.
        assert not {type(each) for each in defects} - {NonASCIILocalPartDefect, UndecodableBytesDefect}
        assert part.get_content_type() == _kind_at(found, part)
    found.head.decode("utf-8", "strict")
    for kind, theirs in (("plain", found.plain), ("html", found.page)):
        assert found.ours.get_body((kind,)).get_content().replace("\r\n", "\n") == theirs
    assert found.ours["Subject"] == found.theirs.subject


def _kind_at(found: Read, part: Any) -> str:
    return [each.content_type for each in _all(found.tree)][list(found.ours.walk()).index(part)]


def _all(part: PyMimePart) -> list[PyMimePart]:
    return [part, *(each for child in part.children for each in _all(child))]


def _kinds(part: PyMimePart) -> str:
    """The tree of a mail: `mixed(alternative(plain html) calendar)`."""
    inner = " ".join(map(_kinds, part.children))
    kind = part.content_type.partition("/")[2]
    return f"{kind}({inner})" if inner else kind


def _rules(account: MailAccount | None, values: dict[str, Any]) -> SendingRules:
    """The rules with the teacher's words in their one language."""
    words = OwnWords(**{name: values.pop(name, "") for name in ("greeting", "signature")})
    return SendingRules(account=account, words={"en": words}, **values)
