"""A saved mail read: RFC 5322, RFC 2047 and MIME, by the standard library. Nothing is fetched, nothing attached is kept.

Each header and each part is decoded by itself, so that a fault of one leaves the others: what a policy of the library would
do to all headers at once stops at the first that is malformed.
"""

import re
from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from email import message_from_bytes
from email.errors import HeaderParseError
from email.header import decode_header
from email.message import Message
from email.utils import getaddresses, parsedate_to_datetime
from html.parser import HTMLParser
from typing import TypeAlias

from cockpit.papers.mail.headers import is_address
from cockpit.studio.errors import BadInput
from cockpit.studio.inquiries.inquiry import MOST_WORDS
from cockpit.studio.inquiries.received import MOST_BYTES, ReceivedMail
from cockpit.studio.shown import one_line, shown

_HEADERS = ("reply-to", "from", "date", "subject")
_LONGEST = 200
_MOST_TEXT, _MOST_HTML = 2 * MOST_WORDS, 1_000_000  # characters; more of them is not kept
_BLOCKS = frozenset(
    "address article blockquote br dd div dl dt footer form h1 h2 h3 h4 h5 h6 header hr li main ol p pre section table tr ul".split()  # noqa: SIM905 a list would have a line for each word
)
_HIDDEN = frozenset({"head", "script", "style", "template", "title"})
_BLANKS = re.compile(r"[ \t\u00a0]+")
_EMPTY_LINES = re.compile(r"\n{3,}")
_Part: TypeAlias = "Message[str, str]"


def read_mail(content: bytes) -> ReceivedMail:
    """What a saved mail says; no more of it than MOST_BYTES is looked at.

    Raises:
        BadInput: it is no mail, or nobody is named who sent it.
    """
    notices = ["The file is larger than 30 MB. Only its beginning was read."] if len(content) > MOST_BYTES else []
    try:
        mail: _Part = message_from_bytes(content[:MOST_BYTES])
        parts = list(_leaves(mail))
    except RecursionError as fault:
        raise BadInput(
            "The file has too many parts within each other to be read. Paste the text of the mail instead."
        ) from fault
    if not any(mail.get(name) for name in _HEADERS):
        raise BadInput(
            "The file is not a saved email: it has no sender, date, or subject. In your email program, use Save As."
        )
    name, email = _sender(mail)
    text, told = _text(parts)
    return ReceivedMail(
        name=name,
        email=email,
        came_at=_date(mail),
        subject=_header(mail, "subject"),
        text=text,
        attachments=tuple(_attachments(parts)),
        notices=(*notices, *told),
    )


def _leaves(part: _Part) -> Iterator[_Part]:
    """The parts that hold something themselves; a mail within the mail is one of them."""
    inner = part.get_payload()
    if part.get_content_maintype() == "multipart" and isinstance(inner, list):
        for each in inner:
            if isinstance(each, Message):
                yield from _leaves(each)
    else:
        yield part


def _sender(mail: _Part) -> tuple[str, str | None]:
    """Who is to be answered: the name that stands there, or the one before the address."""
    for header in ("reply-to", "from"):
        for name, address in getaddresses([_header(mail, header, is_coded=False)]):
            if is_address(address):
                spoken = one_line(_decoded(name)).strip().strip("\"'")
                return _first_name_first(spoken) or address.partition("@")[0], address
    raise BadInput("The file does not say who sent it. Type the inquiry as a line instead, and paste their words.")


def _first_name_first(name: str) -> str:
    """A name in the order in which it is spoken: `Bell, Ana` is Ana Bell; none where an address stands in its place."""
    last, comma, first = name.partition(",")
    spoken = f"{first.strip()} {last.strip()}".strip() if comma and "," not in first else name
    return "" if "@" in spoken else spoken[:_LONGEST]


def _date(mail: _Part) -> datetime | None:
    try:
        at = parsedate_to_datetime(str(mail.get("date", "")))
        # Without a zone: -0000, which says UTC (RFC 5322 3.3).
        return (at if at.tzinfo is not None else at.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, TypeError, IndexError, OverflowError):
        return None


def _header(mail: _Part, name: str, *, is_coded: bool = True) -> str:
    """A header on one line; its encoded words are read where `is_coded`: in addresses they may hold commas."""
    found = str(mail.get(name, ""))
    return one_line(_decoded(found) if is_coded else _BLANKS.sub(" ", shown(found).replace("\n", " "))).strip()


def _decoded(text: str) -> str:
    try:
        found = decode_header(text)
    except (HeaderParseError, ValueError):
        return text
    words = []
    for part, charset in found:
        words.append(part if isinstance(part, str) else _letters(part, charset or "ascii")[0])
    return shown("".join(words))


def _letters(content: bytes, charset: str) -> tuple[str, bool]:
    """Bytes as text, and whether they were in their charset; else they are read as UTF-8, or as western letters."""
    for name in (charset, "utf-8"):
        try:
            return content.decode(name), name == charset
        except (LookupError, ValueError):
            continue
    return content.decode("cp1252", errors="replace"), False


def _text(parts: Iterable[_Part]) -> tuple[str, list[str]]:
    """The plain text of a mail, that of its HTML where it has none; and what could not be read as it was meant."""
    found: dict[str, list[str]] = {"plain": [], "html": []}
    notices: list[str] = []
    for part in parts:
        kind = part.get_content_subtype()
        if part.get_content_maintype() != "text" or kind not in found or _is_attached(part):
            continue
        content = part.get_payload(decode=True)
        charset = str(part.get_content_charset() or "utf-8")
        text, is_right = _letters(content if isinstance(content, bytes) else b"", charset)
        if not is_right:
            notices.append(f"The letters of the mail are not in {charset[:40]} as it says. Check their words.")
        found[kind].append(text if kind == "plain" else _without_tags(text[:_MOST_HTML]))
    said = ("\n\n".join(found["plain"]).strip() or "\n\n".join(found["html"]).strip())[:_MOST_TEXT]
    return _EMPTY_LINES.sub("\n\n", shown(said.replace("\r\n", "\n"))), list(dict.fromkeys(notices))


def _is_attached(part: _Part) -> bool:
    return part.get_content_disposition() == "attachment" or bool(_file_name(part))


def _file_name(part: _Part) -> str:
    try:
        return one_line(_decoded(part.get_filename() or ""))[:_LONGEST]
    except (ValueError, LookupError):  # a charset that is none
        return "?"


def _attachments(parts: Iterable[_Part]) -> Iterator[str]:
    for part in parts:
        if _is_attached(part) or part.get_content_maintype() not in {"text", "multipart"}:
            yield _file_name(part) or part.get_content_type()


def _without_tags(html: str) -> str:
    reader = _Words()
    reader.feed(html)
    reader.close()
    lines = (_BLANKS.sub(" ", line).strip() for line in "".join(reader.words).split("\n"))
    return _EMPTY_LINES.sub("\n\n", "\n".join(lines)).strip()


class _Words(HTMLParser):
    """The words of an HTML text, with a new line where a block begins or ends."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.words: list[str] = []
        self._hidden = 0

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:  # noqa: ARG002 as there
        """Goes into an element."""
        self._hidden += tag in _HIDDEN
        if tag in _BLOCKS:
            self.words.append("\n")

    def handle_endtag(self, tag: str) -> None:
        """Goes out of an element."""
        self._hidden = max(0, self._hidden - (tag in _HIDDEN))
        if tag in _BLOCKS - {"br"}:
            self.words.append("\n")

    def handle_data(self, data: str) -> None:
        """Keeps words that are seen."""
        if not self._hidden:
            self.words.append(_BLANKS.sub(" ", data.replace("\n", " ").replace("\r", " ")))
