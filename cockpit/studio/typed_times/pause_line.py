"""A typed line that says when one student pauses: "from 1 june to 31 aug", "from 1 june, frees the time".

The days and why are read as those of a break; common practice, no source. A line may say a first day alone, and what
becomes of the weekly time.
"""

import re
from datetime import date

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.break_line import DaysAsked, read_break
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value

_WHOSE = r"(?:the|her|his|their|its|this|that|my)"
_TIME = r"(?:weekly time|weekly slot|time|slot|place|spot|hour)"
_FREES = rf"(?:frees?|freeing|gives? up|giving up|gives? back|releases?|releasing|opens? up|without keeping|(?:do(?:es)? not|don['’]t|doesn['’]t) keep) (?:up )?(?:{_WHOSE} )?{_TIME}"
_KEEPS = rf"(?:keeps?|keeping|holds?|holding|saves?|saving|reserves?) (?:{_WHOSE} )?{_TIME}"
_FREE = rf"{_TIME} (?:is )?(?:free|freed|open)"
_KEPT = rf"{_TIME} (?:is )?(?:kept|held|saved|reserved)"
_WHAT_OF_IT = re.compile(
    rf"[\s,;]*\b(?:and )?(?:(?P<frees>{_FREES}|{_FREE})|(?P<keeps>{_KEEPS}|{_KEPT}))(?=$|[\s,;.:])", re.IGNORECASE
)
_OPEN = re.compile(
    r"[\s,;]*\b(?:until (?:further notice|i know more)|for now|open[- ]ended|(?:with )?no (?:end|last day|return)(?: date)?|"
    r"indefinitely)(?=$|[\s,;.:])",
    re.IGNORECASE,
)
_UNTIL = re.compile(r"(?:until|till?|through|thru|to)\s+", re.IGNORECASE)
EXAMPLES = ('"from june 1 to aug 31 trip"', '"from june 1, frees the time"')


class PauseLine(Value):
    """What a line says of a pause; None where it says no last day, or nothing of the time."""

    from_on: date
    until_on: date | None
    keeps_time: bool | None
    reason: str


def read_pause(text: str, name: str, reference: Reference, since: date | None = None) -> PauseLine:
    """When the student of a name pauses; `since` is the first day of a pause that a line may name the last day of.

    Raises:
        BadInput: a word is not understood, or the line names no day that is still to come.
    """
    claims = [match.lastgroup for match in _WHAT_OF_IT.finditer(text)]
    if len(set(claims)) > 1:
        raise BadInput(f"The line keeps the time and frees it. Type {EXAMPLES[0]} to keep it, or {EXAMPLES[1]}.")
    line, opened = _OPEN.subn("", _WHAT_OF_IT.sub("", text).strip(" ,;"))
    line = line.strip(" ,;")
    if since is not None and (until := _UNTIL.match(line)):
        line = f"{since.isoformat()} to {line[until.end() :]}"
    if opened and not line.casefold().startswith("from "):
        line = f"from {line}"
    small = re.compile(
        rf"(?:{re.escape(' '.join(name.casefold().split()))}|she|he|they|student)(?=[ ,;.]|$)|"
        r"(?:will )?(?:(?:is|are) )?(?:paus(?:e[sd]?|ing)|(?:on|takes?|taking) (?:a )?(?:pause|break)|away)(?=[ ,;.]|$)"
    )
    asked = DaysAsked(noun="pause", examples=EXAMPLES, small=small, can_be_open=True)
    read = read_break(line, StudioNames([], []), reference, asked)
    return PauseLine(
        from_on=read.from_on,
        until_on=None if read.until_on == date.max else read.until_on,
        keeps_time=claims[0] == "keeps" if claims else None,
        reason=read.reason,
    )
