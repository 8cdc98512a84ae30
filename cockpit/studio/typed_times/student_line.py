"""A typed line that is a student: "nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana@example.org".

The name stands first. Behind it come parts in any order with commas between them; each is claimed by exactly one reader, or
the line is refused with that part named. All of it is common practice, no source.
"""

import re
from datetime import datetime, timedelta
from typing import TYPE_CHECKING, Any

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import Family, Student, name_key
from cockpit.studio.typed_times.line_parts import address_in, claim_of, instrument_in, parts_of, refuse_long, zone_of
from cockpit.studio.typed_times.studio_names import StudioNames
from cockpit.studio.typed_times.trial_line import NAME_WORD, with_capitals
from cockpit.studio.typed_times.weekly_line import WeeklyLine, read_weekly
from cockpit.studio.typed_times.when import Reference
from cockpit.studio.values import Value, replace

if TYPE_CHECKING:
    from collections.abc import Callable

EXAMPLES = (
    '"nora bell, cello, fri 2pm phoenix 45m from 11 dec, ana@example.org" or "tobin, guitar, wed 4pm 30m, with wren"'
)
_FAMILY = re.compile(r"(?:the )?family(?: name)?:? (?P<name>.+)|(?P<also>.+) family", re.IGNORECASE)
_WITH = re.compile(r"(?:with|sibling of|brother of|sister of) (?P<name>.+)", re.IGNORECASE)
_SAID = {
    "emails": "an email address",
    "sibling": "a sibling",
    "family": "a family",
    "is_adult": "an adult",
    "instrument": "an instrument",
    "zone": "a place",
    "weekly": "a weekly time",
}
_ADULT = re.compile(r"(?:is )?(?:an? )?(?:adult|grown-?up)", re.IGNORECASE)
_NTH = re.compile(r"\s([2-9](?:nd|rd|th))$", re.IGNORECASE)  # of two with one name in a family
_LONGEST = 500
_MOST_NAMES = 2
_USUAL_MINUTES = 30
_DAY = timedelta(days=1)


class StudentLine(Value):
    """What a line says of a student; None where it does not say it.

    `weekly` is the time, read on the clock of a place that it names, else on the teacher's. `sibling` is a student of the
    studio in whose family the new one is. An adult is the guardian of that same name.
    """

    name: str = ""
    last_name: str | None = None
    family: str | None = None
    sibling: Student | None = None
    instrument: str | None = None
    zone: str | None = None
    weekly: WeeklyLine | None = None
    emails: tuple[str, ...] = ()
    is_adult: bool = False

    @property
    def minutes(self) -> int:
        """How long a lesson lasts; half an hour where the line says nothing."""
        when = self.weekly.when if self.weekly is not None else None
        return (when.minutes if when is not None else None) or _USUAL_MINUTES


def read_student(text: str, people: StudioNames, reference: Reference, usual: datetime) -> StudentLine:
    """A new student. `usual` is a moment (UTC) that a time is read against.

    Raises:
        BadInput: a part is claimed by no reader, or says what another one says; the sentence names it.
    """
    first, *others = _parts(text)
    nth = _NTH.search(first)
    names = first[: nth.start() if nth is not None else None].split()
    if len(names) > _MOST_NAMES or not all(map(NAME_WORD.fullmatch, names)):
        raise BadInput(
            f'"{first}" is not understood as a name. Type a first name, or a first and a last name, and a comma: {EXAMPLES}.'
        )
    spelled = list(map(with_capitals, names))
    name = f"{spelled[0]} {nth[1].lower()}" if nth is not None else spelled[0]
    said = StudentLine(name=name, last_name=spelled[1] if len(spelled) > 1 else None)
    return _with_parts(said, others, people, reference, usual)


def read_becomes(text: str, people: StudioNames, reference: Reference, usual: datetime) -> StudentLine:
    """The same of somebody who is known by name: "fri 2pm 45m from 11 dec, family bell".

    Raises:
        BadInput: a part is claimed by no reader, or the line names no time.
    """
    said = _with_parts(StudentLine(), _parts(text), people, reference, usual)
    if said.weekly is None:
        raise BadInput('The line has no weekly time. Type one such as "fri 2pm 45m from dec 11".')
    return said


def _parts(text: str) -> list[str]:
    refuse_long(text, _LONGEST)
    parts = parts_of(text)
    if not parts:
        raise BadInput(f"Type {EXAMPLES}.")
    return parts


def _with_parts(
    said: StudentLine, parts: list[str], people: StudioNames, reference: Reference, usual: datetime
) -> StudentLine:
    readers: dict[str, Callable[[str], object]] = {
        "emails": address_in,
        "sibling": lambda part: _known(match["name"], people) if (match := _WITH.fullmatch(part)) else None,
        "family": lambda part: (
            _spelled(match["name"] or match["also"], people) if (match := _FAMILY.fullmatch(part)) else None
        ),
        "is_adult": lambda part: True if _ADULT.fullmatch(part) else None,
        "instrument": instrument_in,
        "zone": zone_of,
        "weekly": lambda part: _weekly(part, reference, usual),
    }
    facts: dict[str, Any] = {}
    for part in parts:
        claim = claim_of(part, readers, _SAID, f"Type {EXAMPLES}.")
        if claim is None:
            raise BadInput(
                f'"{part}" is not understood: it is no instrument, place, weekly time, email address, "family" or "with" '
                f"somebody. Type {EXAMPLES}."
            )
        field, value = claim
        if field == "emails":
            value = (*facts.get(field, ()), value)
        elif facts.get(field, value) != value:
            raise BadInput(f'The line says this twice: "{part}". Keep one.')
        facts[field] = value
    return replace(said, **facts)


def _weekly(part: str, reference: Reference, usual: datetime) -> WeeklyLine | None:
    """The weekly time that a part is, also one that began before today; None where nothing in it is a time."""
    reference = replace(reference, can_be_past=True)
    try:
        read = read_weekly(part, reference, usual=usual, also={})
    except BadInput:
        if any(map(str.isdigit, part)):
            raise
        return None
    # A line without a day means that of the day around which it is read.
    other = read_weekly(part, replace(reference, around=reference.around + _DAY), usual=usual + _DAY, also={})
    if (
        read.when is None
        or other.when is None
        or read.keeps_time
        or read.when.local.weekday() != other.when.local.weekday()
    ):
        raise BadInput(f'"{part}" has no day and time. Type one such as "fri 2pm 45m from dec 11".')
    return read


def _known(name: str, people: StudioNames) -> Student:
    found = [student for student in people.students if name_key(student.name) == name_key(name)]
    if len(found) != 1:
        whose = "Nobody" if not found else "More than one student"
        raise BadInput(f'{whose} in your studio is called "{name}". Type "family" and the family\'s name instead.')
    return found[0]


def _spelled(name: str, people: StudioNames) -> str:
    """A family's name as the studio has it, or as it was typed; one in small letters gets capitals."""
    known: Family | None = next(
        (family for family in people.families.values() if name_key(family.name) == name_key(name)), None
    )
    if known is not None:
        return known.name
    return with_capitals(" ".join(name.split()))
