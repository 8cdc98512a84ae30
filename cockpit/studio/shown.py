"""Text as it may leave the program: no control character in it can command a terminal.

What is pasted, read from a file, or comes from a mail server can hold control characters and halves of surrogate pairs; a
terminal, a page or a file would obey them or choke on them. Each is shown as U+FFFD; everything else, zero widths and
direction marks too, stays as it is.
"""

import re
from itertools import chain

# A set, since a pattern of as many signs takes ten times as long to make.
_COMMANDS = frozenset(
    map(chr, chain(range(0x09), range(0x0E, 0x20), range(0x7F, 0x85), range(0x86, 0xA0), range(0xD800, 0xE000)))
)
CONTROL = _COMMANDS | frozenset("\x0b\x0c\r\x85")
"""What no line of text holds: every control character but the tab and the line break (ECMA-48: C0, DEL, C1), and halves of pairs."""
_BREAK = re.compile("\r(?!\n)|[\x0b\x0c\x1c-\x1e\x85]")  # those that `str.splitlines` knows, too


def shown(text: str) -> str:
    """Text in which each control character is seen, and none is obeyed; every break of a line is a line break."""
    broken = _BREAK.sub("\n", text)
    return broken if _COMMANDS.isdisjoint(broken) else without(_COMMANDS, broken, "\ufffd")


def without(signs: frozenset[str], text: str, instead: str = "") -> str:
    """A text with something else in the place of some signs, or nothing."""
    return "".join(instead if sign in signs else sign for sign in text)


def typed_lines(text: str) -> list[str]:
    """The lines of typed text, split at every break that an editor shows as one."""
    return [shown(line) for line in text.splitlines()]


def one_line(text: str) -> str:
    """Typed text on a single line; a break in it becomes a blank."""
    return " ".join(typed_lines(text))


def can_be_shown(text: str) -> bool:
    """Whether nothing in a text but its breaks of lines is a control character."""
    return _COMMANDS.isdisjoint(text)
