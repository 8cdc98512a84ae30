"""How long something of a recital lasts, as it is typed and as it is said: `3:00`, `90s`, `2m 30s`."""

import re

from cockpit.studio.errors import BadInput

MOST_SECONDS = 4 * 60 * 60
LENGTH = (
    r"\d{1,3}:[0-5]\d|\d{1,3} ?(?:minutes?|mins?|m)(?: ?\d{1,2} ?(?:seconds?|secs?|s))?|\d{1,4} ?(?:seconds?|secs?|s)"
)
"""A pattern for a length."""
_TIMED = re.compile(
    r"(?P<minutes>\d+):(?P<seconds>\d+)|(?:(?P<m>\d+) ?m[a-z]*)?(?: ?(?P<s>\d+) ?s[a-z]*)?", re.IGNORECASE
)


def read_length(text: str) -> int:
    """The seconds of a length that `LENGTH` matches.

    Raises:
        BadInput: it is longer than any recital.
    """
    match = _TIMED.fullmatch(text.strip())
    parts = (match["minutes"] or match["m"] or "0", match["seconds"] or match["s"] or "0") if match else ("0", "0")
    seconds = int(parts[0]) * 60 + int(parts[1])
    if seconds > MOST_SECONDS:
        raise BadInput(f'"{text}" is too long. Type at most {MOST_SECONDS // 3600} hours.')
    return seconds


def length_words(seconds: int) -> str:
    """Seconds in minutes and seconds: `3:00`."""
    return f"{seconds // 60}:{seconds % 60:02d}"
