"""Typed text as lines that are safe in every document.

Control characters and halves of a surrogate pair can be in pasted text; a file, a page or a terminal would choke on
them or obey them. Each is shown as U+FFFD; everything else, zero widths and direction marks too, stays as it is.
"""

import re

_UNSHOWABLE = re.compile("[\x00-\x08\x0e-\x1f\x7f-\x9f\ud800-\udfff]")


def typed_lines(text: str) -> list[str]:
    """The lines of typed text, split at every break that an editor shows as one."""
    return [_UNSHOWABLE.sub("\ufffd", line) for line in text.splitlines()]


def one_line(text: str) -> str:
    """Typed text on a single line; a break in it becomes a blank."""
    return " ".join(typed_lines(text))
