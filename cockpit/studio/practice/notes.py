"""The practice notes of a lesson: what a family gets, as values, before they become a document."""

import re
from collections.abc import Iterable
from datetime import date, datetime

from cockpit.studio.clocks.moments import Zone, local_time, zone_at
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.notes.notes import FamilyNotes, NoteLine, for_family
from cockpit.studio.notes.vocabulary import BUILT_IN, Labels
from cockpit.studio.people.people import Family, PlanForm, name_key
from cockpit.studio.practice.week import WeekPlan, fits_a_chart
from cockpit.studio.theory.lesson_theory import CountingSystem, LessonTheory
from cockpit.studio.values import Value

_NOT_IN_NAMES = frozenset('/\\:*?"<>|')
_RESERVED = frozenset(
    ("con", "prn", "aux", "nul", "conin$", "conout$", *(port + n for port in ("com", "lpt") for n in "0123456789¹²³"))
)
_LONGEST_NAME = 80
_NUMBERED = re.compile(r" \(\d+\)$")


class PracticeNotes(Value):
    """What a family gets. Moments are aware local times on the family's own clock; `hours` is 12 or 24.

    `zone` is the IANA zone that this shows when the lesson is, and `next_zone` the one when the next lesson is.

    `none_on` are the days before the next lesson on which one would be, and is not; before `none_until` the student's lessons
    pause. `to_get` has a line for each thing that the family is still to get, whenever it was asked for, and
    `goals` has the goals that are open. `plan` is the
    practice until then, and `form` is how it is on the sheet; `has_health_line` where the line about health is on this one.
    """

    student: str
    instrument: str | None
    minutes: int
    taught_at: datetime
    zone: str
    hours: int
    notes: FamilyNotes
    next_at: datetime | None
    next_zone: str
    none_on: tuple[date, ...] = ()
    none_until: date | None = None
    to_get: tuple[NoteLine, ...] = ()
    goals: tuple[NoteLine, ...] = ()
    plan: WeekPlan | None = None
    form: PlanForm = PlanForm.CHART
    has_health_line: bool = True
    language: str = "en"
    counting: CountingSystem = CountingSystem.NUMBERS

    @property
    def theory(self) -> LessonTheory:
        """What the theory that was asked for goes by."""
        return LessonTheory(instrument=self.instrument, counting=self.counting)

    @property
    def charted(self) -> WeekPlan | None:
        """The plan, where it is a chart of days; one of more than two weeks is a list."""
        is_chart = self.plan is not None and self.form is PlanForm.CHART and fits_a_chart(self.plan)
        return self.plan if is_chart else None


def practice_notes(
    booking: ScheduledLesson,
    body: str,
    next_at: datetime | None,
    hours: int,
    none_at: Iterable[datetime] = (),
    labels: Labels = BUILT_IN,
) -> PracticeNotes:
    """The practice notes of one lesson, from its typed notes and the moment (UTC) of the student's next lesson.

    `none_at` are the moments of those before it that do not take place; why is not the family's to read.
    Only what `for_family` lets through is in them; a plan is made from what they hold, and put in afterwards.
    """
    family, notes = booking.family, for_family(body, labels)
    taught_at = booking.lesson.began_at or booking.lesson.starts_at
    return PracticeNotes(
        student=booking.student.name,
        instrument=booking.lesson.instrument,
        minutes=booking.lesson.minutes,
        taught_at=local_time(taught_at, family.zone),
        zone=zone_at(family.zone, taught_at),
        hours=family.hours or hours,
        notes=notes,
        to_get=notes.to_get,
        goals=notes.goals,
        next_at=local_time(next_at, family.zone) if next_at is not None else None,
        next_zone=zone_at(family.zone, next_at or taught_at),
        none_on=tuple(dict.fromkeys(local_time(at, family.zone).date() for at in none_at)),
    )


def safe_name(name: str) -> str:
    """A file name that every common system accepts and that stays inside its folder; other letters are kept."""
    kept = "".join("-" if c in _NOT_IN_NAMES or not (c.isprintable() or c.isspace()) else c for c in name)
    kept = " ".join(kept.split()).strip(" .")
    while len(kept.encode()) > _LONGEST_NAME:
        kept = kept[:-1].strip(" .")
    stem, dot, rest = kept.partition(".")
    if stem.rstrip().lower() in _RESERVED:  # also with an ending: `aux.txt` is the device
        return f"{stem.rstrip()}-{dot}{rest}"
    return kept or "unnamed"


def family_folder(family: Family, families: Iterable[Family]) -> str:
    """The folder of a family's notes: the one it has, or a new one after its name.

    Two families never share one, also where case does not count in file names, or where one took a name that the other
    gave up: its notes of earlier years lie there.
    """
    if family.folder is not None:
        return family.folder
    name = safe_name(family.name)
    others = [other for other in families if other.id != family.id]
    taken = {name_key(safe_name(other.name)) for other in others} | {name_key(other.folder or "") for other in others}
    # A name that ends like a numbered one is always numbered, or `Okonjo (2)` could be two families.
    if name_key(name) not in taken and not _NUMBERED.search(name):
        return name
    return f"{name} ({family.id})"


def paper_name(booking: ScheduledLesson, on: date, that_day: list[ScheduledLesson], home_zone: Zone) -> str:
    """The name of a lesson's practice notes, without ending: `2026-12-01 Ilse`.

    A second lesson of the day in the same family under the same name also has its time, on the teacher's clock, and its number.
    """
    name = f"{on.isoformat()} {safe_name(booking.student.name)}"
    alike = [
        other.lesson.id
        for other in that_day
        if other.family.id == booking.family.id
        and name_key(safe_name(other.student.name)) == name_key(safe_name(booking.student.name))
    ]
    if not alike or alike[0] == booking.lesson.id:
        return name
    at = local_time(booking.lesson.starts_at, home_zone)
    return f"{name} {at.hour:02d}.{at.minute:02d} ({alike.index(booking.lesson.id) + 1})"
