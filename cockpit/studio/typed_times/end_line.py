"""A typed line that says when a student ends: "after dec 18", "today, moved away", "after dec 18, keep lessons".

A day stands first; behind a comma or a colon stands why, for the teacher alone. Common practice, no source.
"""

import re
from datetime import date, datetime

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.line_parts import BETWEEN_PARTS, refuse_long
from cockpit.studio.typed_times.weekly_line import read_weekly
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value

EXAMPLES = '"after dec 18" or "today, moved away"'
_BEFORE_DAY = re.compile(
    r"^(?:(?:ends?|ending|stops?|leaves?|(?:the )?last lesson(?: is)?)(?:\s+|$))?(?:(?:after|on|through|thru|until|till?|to|by|with)(?:\s+|$))?",
    re.IGNORECASE,
)
_KEEPS = re.compile(r"(?:but )?keeps? (?:the |all )?(?:single |other |booked )?lessons?", re.IGNORECASE)
_LONGEST = 300


class EndLine(Value):
    """The last day on which a lesson may be, why, and whether single lessons after it stay."""

    until_on: date
    reason: str = ""
    keeps_lessons: bool = False


def read_end(text: str, reference: Reference, usual: datetime) -> EndLine:
    """When somebody ends; `usual` is a lesson (UTC) that a day is read against.

    Raises:
        BadInput: the line has no day, or it is not understood.
    """
    refuse_long(text, _LONGEST)
    first, mark, rest = _apart(text.strip())
    said = _BEFORE_DAY.sub("", first, count=1)
    if not said:
        raise BadInput(f"The line has no day. Type {EXAMPLES}.")
    try:
        read = read_weekly(f"until {said}", reference, usual=usual, also={})
    except BadInput as fault:
        raise BadInput(
            f"{str(fault).partition(' Try ')[0]} The day of the end stands first, and why behind a comma: {EXAMPLES}."
        ) from fault
    if read.when is not None or read.until_on is None:
        raise BadInput(f'"{first}" is no day. Type {EXAMPLES}.')
    parts = [part.strip() for part in rest.split(",")] if mark else []
    reasons = [part for part in parts if part and not _KEEPS.fullmatch(part)]
    return EndLine(until_on=read.until_on, reason=", ".join(reasons), keeps_lessons=any(map(_KEEPS.fullmatch, parts)))


def _apart(text: str) -> tuple[str, str, str]:
    """The day, the mark behind it, and the rest: `dec 18, 2026` is one day."""
    at = re.search(rf"{BETWEEN_PARTS}|:(?!\d)", text)
    return (text[: at.start()].strip(), at[0], text[at.end() :].strip()) if at is not None else (text, "", "")
