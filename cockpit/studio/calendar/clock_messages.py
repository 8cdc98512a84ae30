"""Which families are told about a clock change: only those whose own time changes, and only about their lessons."""

from collections.abc import Iterable
from dataclasses import dataclass

from cockpit.studio.calendar.clock_changes import Ahead, Shift, Whom
from cockpit.studio.people.people import Family, FamilyId


@dataclass(frozen=True, slots=True, kw_only=True)
class Concerned:
    """A family whose own time changes, with what of its lessons shifts; `is_move` where the teacher moves or travels."""

    family: Family
    shifts: tuple[Shift, ...]
    is_move: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyMessage:
    """What to send to one family: a subject of one line, and a plain text."""

    family: Family
    subject: str
    text: str


def concerned(ahead: Iterable[Ahead]) -> list[Concerned]:
    """Each family whose own time changes, all of its students in one; the first concerned goes first."""
    shifts: dict[FamilyId, list[Shift]] = {}
    moved: set[FamilyId] = set()
    for each in ahead:
        for shift in each.shifts:
            if shift.whom is not Whom.TEACHER:
                shifts.setdefault(shift.family.id, []).append(shift)
                moved |= {shift.family.id} if each.is_move else set()
    return [
        Concerned(family=theirs[-1].family, shifts=tuple(theirs), is_move=family in moved)
        for family, theirs in shifts.items()
    ]
