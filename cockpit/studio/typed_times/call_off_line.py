"""A typed line that says which lessons the teacher calls off: "today ill", "from 4pm", "until thursday", "ilse".

The days, whose they are, and why, are read as those of a break; common practice, no source. Beside that a line may begin
with a time of today, name a student or a family for today, or say nothing but why: it is the chosen lesson then.
"""

import re
from datetime import date, time

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId
from cockpit.studio.typed_times.break_line import BreakLine, read_break
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.times import time_of, with_numbers_read
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.typed_times.words import read_parts
from cockpit.studio.values import Value

_ALL = re.compile(r"all(?: of)?(?: the)?(?: lessons)?(?: on)? (?=\w)", re.IGNORECASE)
_UNTIL = re.compile(r"(?:until|till?|through|thru|to) ", re.IGNORECASE)
_FROM = re.compile(
    r"(?:today,? )?(?:from|after|since) (?P<time>\d{1,2}(?:[:.]\d{2})? ?(?:[ap]\.?m\.?)?)(?: on(?:ward)?s?)?(?=$|[ ,:])",
    re.IGNORECASE,
)
_MARK = re.compile(r"^[\s,:;–—-]+")
_TODAY = "today"
EXAMPLE = '"today ill", "from 4pm", "until thursday trip", "ilse", or nothing for the chosen lesson'


class CallOffLine(Value):
    """What a line names: days on the teacher's clock, the first and the last, and why; without days, the chosen lesson.

    `begins` is a time of the first day on that clock, before which nothing is called off.
    """

    days: tuple[date, date] | None = None
    begins: time = time()
    family_id: FamilyId | None = None
    whom: str = ""
    reason: str = ""


def read_call_off(text: str, people: StudioNames, reference: Reference) -> CallOffLine:
    """Which lessons a line calls off.

    Raises:
        BadInput: a word is not understood, or a day has passed.
    """
    line = _ALL.sub("", text.strip(), count=1)
    if not line:
        return CallOffLine()
    begun = _FROM.match(line)
    if begun is not None:
        begins = time_of(with_numbers_read(read_parts(begun["time"], {})), None, is_away=False)
        rest = _MARK.sub("", line[begun.end() :])
        return _called(read_break(f"{_TODAY} {rest}", people, reference), begins)
    if _UNTIL.match(line):
        return _called(read_break(f"{_TODAY} {_UNTIL.sub('to ', line, count=1)}", people, reference))
    try:
        return _called(read_break(line, people, reference))
    except BadInput:
        if any(char.isdigit() for char in line):
            raise
        return _of_today(line, people, reference)


def _of_today(line: str, people: StudioNames, reference: Reference) -> CallOffLine:
    """A line without a day: a name means today, a reason alone the chosen lesson."""
    try:
        read = read_break(f"{_TODAY} {line}", people, reference)
    except BadInput as fault:
        raise BadInput(f'"{line}" is not understood. Type {EXAMPLE}.') from fault
    if read.whom:
        return _called(read)
    return CallOffLine(reason=read.reason)


def _called(read: BreakLine, begins: time = time()) -> CallOffLine:
    return CallOffLine(
        days=(read.from_on, read.until_on),
        begins=begins,
        family_id=read.family_id,
        whom=read.whom,
        reason=read.reason,
    )
