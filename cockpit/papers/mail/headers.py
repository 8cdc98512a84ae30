"""Lines of a mail's header by RFC 5322, 2047 and 6532, folded; nothing that was typed can begin a line of its own."""

import re
from collections.abc import Iterable
from email.charset import BASE64, Charset
from email.header import Header
from email.utils import formataddr

from cockpit.studio.errors import BadInput
from cockpit.studio.shown import one_line

_LONGEST_LINE = 76  # RFC 2047 2, for a line with encoded words; RFC 5322 2.1.1 lets others have 78
_PLAIN = re.compile(r"[!-~]{1,60}(?: [!-~]{1,60})*")
# An address as the roster takes it, and none of the signs that mean something in a header or in SMTP.
_ADDRESS = re.compile(r"[^\s@,;:<>()\[\]\"\\\x00-\x20\x7f-\x9f]+@[^\s@,;:<>()\[\]\"\\\x00-\x20\x7f-\x9f]+")
_MESSAGE_ID = re.compile(r"<[!-;=?-~]+>")
_LINE_END = "\r\n"
_FOLD = f"{_LINE_END} "
_UTF_8 = Charset("utf-8")
_UTF_8.header_encoding = BASE64


def text_line(name: str, text: str) -> str:
    """A header that is text, such as a subject: what is typed is read back as it is, on one line."""
    shown = one_line(text)
    return _line(name, shown, None if _is_plain(shown) else _UTF_8)


def address_line(name: str, address: str, shown_as: str = "") -> str:
    """A header with one address, after the name that it is shown with.

    Raises:
        BadInput: it is not an address.
    """
    if not is_address(address):
        raise BadInput(f"{one_line(address) or 'nothing'} is not an email address")
    shown = one_line(shown_as).strip()
    if not shown:
        return f"{name}: {address}"
    if address.isascii() and _is_plain(shown):
        return _line(name, formataddr((shown, address)))
    # An address outside ASCII stands as it is: in encoded words it would be none.
    return f"{_line(name, shown, _UTF_8)}{_FOLD}<{address}>"


def ids_line(name: str, ids: Iterable[str]) -> str | None:
    """A header of message identifiers; None where none of them is one."""
    kept = [each for each in ids if _MESSAGE_ID.fullmatch(each)]
    return f"{name}: {_FOLD.join(kept)}" if kept else None


def is_address(text: str) -> bool:
    """Whether a text can stand as an address in a header and in SMTP."""
    return _ADDRESS.fullmatch(text) is not None


def _is_plain(text: str) -> bool:
    return "=?" not in text and _PLAIN.fullmatch(text) is not None


def _line(name: str, text: str, charset: Charset | None = None) -> str:
    header = Header(text, charset, maxlinelen=_LONGEST_LINE, header_name=name)
    return f"{name}: {header.encode(linesep=_LINE_END)}"
