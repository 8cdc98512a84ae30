"""Families whose students have all ended so long ago that the teacher is asked whether to keep what is known of them."""

from collections import defaultdict
from collections.abc import Iterable
from datetime import date

from cockpit.studio.lessons.scheduled import People
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, FamilyId, Student
from cockpit.studio.values import Value


class LongEnded(Value):
    """A family, all its students, and the last day of their weekly times on the clocks that these are kept on.

    `key` is that of an `Accepted`: she was asked, and keeps it. It names the weekly times, so that she is asked again
    where somebody came back and has ended once more.
    """

    family: Family
    students: tuple[Student, ...]
    ended_on: date
    key: str


def long_ended(people: People, standing_times: Iterable[StandingTime], before: date) -> tuple[LongEnded, ...]:
    """The families that had weekly times, all of which ended before a date; the first to end comes first."""
    times = defaultdict[FamilyId, list[StandingTime]](list)
    for each in standing_times:
        times[people.students[each.student_id].family_id].append(each)
    found = []
    for family_id, theirs in times.items():
        ended_on = max(each.until_on or date.max for each in theirs)
        if ended_on < before:
            ids = " + ".join(sorted(str(each.id) for each in theirs))
            found.append(
                LongEnded(
                    family=people.families[family_id],
                    students=tuple(each for each in people.students.values() if each.family_id == family_id),
                    ended_on=ended_on,
                    key=f"kept after the end: {ids}",
                )
            )
    return tuple(sorted(found, key=lambda each: (each.ended_on, each.family.id)))
