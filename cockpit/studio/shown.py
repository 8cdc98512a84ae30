"""Text as it may leave the program: no control character in it can command a terminal, no cell of it a spreadsheet.

What is pasted, read from a file, or comes from a mail server can hold control characters and halves of surrogate pairs; a
terminal, a page or a file would obey them or choke on them. Each is shown as U+FFFD; everything else, zero widths and
direction marks too, stays as it is.
"""

import re

_COMMANDS = "\x00-\x08\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff"
CONTROL = re.compile(f"[{_COMMANDS}\x0b-\r\x85]")
"""What no line of text holds: every control character but the tab and the line break (ECMA-48: C0, DEL, C1)."""
_BREAK = re.compile("\r(?!\n)|[\x0b\x0c\x1c-\x1e\x85]")  # those that `str.splitlines` knows, too
# The first characters that OWASP's ASVS 1.2.10 (= + - @ TAB NUL) and lists after it (CR, LF, the full-width signs) name.
# Some programs drop blanks before a cell, and nobody sees a zero-width sign: behind those they count as well. So does
# an apostrophe, or a cell that has one of its own before such a sign would be read as guarded.
_A_FORMULA = re.compile("'*(?:[\\s\x00\u200b-\u200f\u2060\ufeff]*[=+\\-@\uff1d\uff0b\uff0d\uff20]|[\\t\\r\\n\x00])")
_COMMAND = re.compile(f"[{_COMMANDS}]")


def shown(text: str) -> str:
    """Text in which each control character is seen, and none is obeyed; every break of a line is a line break."""
    return _COMMAND.sub("\ufffd", _BREAK.sub("\n", text))


def typed_lines(text: str) -> list[str]:
    """The lines of typed text, split at every break that an editor shows as one."""
    return [shown(line) for line in text.splitlines()]


def one_line(text: str) -> str:
    """Typed text on a single line; a break in it becomes a blank."""
    return " ".join(typed_lines(text))


def can_be_shown(text: str) -> bool:
    """Whether nothing in a text but its breaks of lines is a control character."""
    return _COMMAND.search(text) is None


def guarded(text: str) -> str:
    """Words as a cell that no spreadsheet computes: what would begin a formula has an apostrophe before it.

    A control character in them is shown and not obeyed.
    """
    return shown(f"'{text}" if _A_FORMULA.match(text) else text)


def unguarded(cell: str) -> str:
    """The words of a cell that was `guarded`."""
    return cell[1:] if cell.startswith("'") and _A_FORMULA.match(cell) else cell
