"""The people of a studio: families and their guardians, who get the notes, and their students."""

import unicodedata
from collections.abc import Iterable
from enum import StrEnum
from typing import NewType

from cockpit.studio.clocks.moments import Zone
from cockpit.studio.values import Value

FamilyId = NewType("FamilyId", int)
StudentId = NewType("StudentId", int)
GuardianId = NewType("GuardianId", int)


class PlanForm(StrEnum):
    """How the practice until the next lesson is on a sheet: as a chart of days to check off, as a list of days, or not at all."""

    CHART = "chart"
    LIST = "list"
    NONE = "none"


class Level(StrEnum):
    """How far a student has come, or somebody who asks, in the teacher's eyes."""

    BEGINNER = "beginner"
    ELEMENTARY = "elementary"
    INTERMEDIATE = "intermediate"
    ADVANCED = "advanced"


class Family(Value):
    """Who gets the practice notes. `zone` moves when they do; `hours` is 12, 24, or None for the studio's own habit.

    `folder` is where their notes lie, once there are any: it stays theirs when they change their name. `send_by` may hold
    several ways; None stands for the studio's habit, also in `language` (ISO 639-1).
    """

    id: FamilyId
    name: str
    zone: Zone
    hours: int | None = None
    folder: str | None = None
    send_by: str | None = None
    language: str | None = None


class Gets(StrEnum):
    """What a guardian can get: the notes and letters about times, or news for many."""

    NOTES = "notes"
    NEWS = "news"


class Guardian(Value):
    """One of those who answer for a family's students; an adult student is its own.

    `name` is what the teacher calls them, `phone` is for her alone, and `gets` is what goes to `email`. `position` is
    their place among those of the family.
    """

    id: GuardianId
    family_id: FamilyId
    name: str | None = None
    email: str | None = None
    phone: str | None = None
    gets: frozenset[Gets] = frozenset(Gets)
    position: int = 0


class Student(Value):
    """One who takes lessons. `remark`, `level`, and why a student ended (`ended_because`) are the teacher's own and never leave the program.

    `practice_days` are the weekdays on which the student practices, Monday is 0; None stands for every day.
    `plan` is the form of the week's plan, and `yearly_lessons` how many lesson times the student is given in a studio
    year; None stands for the studio's habit.
    """

    id: StudentId
    family_id: FamilyId
    name: str
    daily_minutes: int | None = None
    remark: str | None = None
    practice_days: frozenset[int] | None = None
    plan: PlanForm | None = None
    yearly_lessons: int | None = None
    ended_because: str | None = None
    level: Level | None = None


def first_name(student: Student, family: Family) -> str:
    """The name that a student is called by: the first word that is not the family's, also where that comes first."""
    words = student.name.replace(",", " ").split()
    of_family = set(map(name_key, family.name.split())) if name_key(family.name) != name_key(student.name) else set()
    own = [word for word in words if name_key(word) not in of_family]
    return next(iter(own or words), "")


def addresses_of(guardians: Iterable[Guardian], family_id: FamilyId, gets: Gets = Gets.NOTES) -> tuple[str, ...]:
    """The addresses of those guardians of a family who get something, in their order, each once."""
    theirs = sorted((each for each in guardians if each.family_id == family_id), key=lambda each: each.position)
    return tuple(dict.fromkeys(each.email for each in theirs if each.email and gets in each.gets))


def next_position(guardians: Iterable[Guardian]) -> int:
    """The place of one more guardian behind those of a family."""
    return max((each.position + 1 for each in guardians), default=0)


def name_key(name: str) -> str:
    """The form in which two spellings of one name are equal: composed, without case, single spaces."""
    return " ".join(unicodedata.normalize("NFC", name).casefold().split())
