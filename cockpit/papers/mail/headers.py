"""Lines of a mail's header by RFC 5322, 2047 and 6532, folded; nothing that was typed can begin a line of its own.

The standard library folds headers too, but in 3.11 it loses blanks between encoded words and quotes around names.
"""

import re
from binascii import b2a_base64
from collections.abc import Iterable, Iterator

from cockpit.papers.words.typed import one_line
from cockpit.studio.errors import BadInput

_LONGEST_LINE = 78  # RFC 5322 2.1.1: what a line should not exceed; one with encoded words must not exceed 76
_LONGEST_ENCODED_LINE = 76
_LONGEST_WORD = 75
_AROUND = len("=?utf-8?b??=")
_PLAIN = re.compile(r"[!-~]{1,60}(?: [!-~]{1,60})*")
_ATOMS = re.compile(r"[A-Za-z0-9]+(?: [A-Za-z0-9]+)*")
# An address as the roster takes it, and none of the signs that mean something in a header or in SMTP.
_ADDRESS = re.compile(r"[^\s@,;:<>()\[\]\"\\\x00-\x20\x7f-\x9f]+@[^\s@,;:<>()\[\]\"\\\x00-\x20\x7f-\x9f]+")
_MESSAGE_ID = re.compile(r"<[!-;=?-~]+>")
_FOLD = "\r\n "


def text_line(name: str, text: str) -> str:
    """A header that is text, such as a subject: what is typed is read back as it is, on one line."""
    shown = one_line(text)
    if _is_plain(shown):
        return _folded(name, shown.split(" "))
    return f"{name}: {_FOLD.join(_encoded_words(shown, len(name) + 2))}"


def address_line(name: str, address: str, shown_as: str = "") -> str:
    """A header with one address, after the name that it is shown with.

    Raises:
        BadInput: it is not an address.
    """
    if not is_address(address):
        raise BadInput(f"{one_line(address) or 'nothing'} is not an e-mail address")
    shown = one_line(shown_as).strip()
    if not shown:
        return f"{name}: {address}"
    if not _is_plain(shown):
        return f"{name}: {_FOLD.join([*_encoded_words(shown, len(name) + 2), f'<{address}>'])}"
    quoted = shown if _ATOMS.fullmatch(shown) else '"' + re.sub(r'(["\\])', r"\\\1", shown) + '"'
    return _folded(name, [*quoted.split(" "), f"<{address}>"])


def ids_line(name: str, ids: Iterable[str]) -> str | None:
    """A header of message identifiers; None where none of them is one."""
    kept = [each for each in ids if _MESSAGE_ID.fullmatch(each)]
    return _folded(name, kept) if kept else None


def is_address(text: str) -> bool:
    """Whether a text can stand as an address in a header and in SMTP."""
    return _ADDRESS.fullmatch(text) is not None


def _is_plain(text: str) -> bool:
    return "=?" not in text and _PLAIN.fullmatch(text) is not None


def _folded(name: str, words: Iterable[str]) -> str:
    line, *rest = f"{name}:", *words
    done = []
    for word in rest:
        if len(line) + 1 + len(word) > _LONGEST_LINE and line != f"{name}:":
            done.append(line)
            line = ""
        line += f" {word}"
    return "\r\n".join([*done, line])


def _encoded_words(text: str, used: int) -> Iterator[str]:
    """Encoded words (RFC 2047) of whole characters; the first stands on a line of which `used` columns are taken."""
    room = min(_LONGEST_WORD, _LONGEST_ENCODED_LINE - used)
    part = b""
    for character in text.encode("utf-8", "replace").decode():
        more = character.encode()
        if part and len(part) + len(more) > (room - _AROUND) // 4 * 3:
            yield _encoded_word(part)
            part, room = b"", _LONGEST_WORD
        part += more
    yield _encoded_word(part)


def _encoded_word(part: bytes) -> str:
    return f"=?utf-8?b?{b2a_base64(part, newline=False).decode()}?="
