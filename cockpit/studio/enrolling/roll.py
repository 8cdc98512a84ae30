"""Who is in the studio, found by name."""

from collections import defaultdict
from dataclasses import dataclass

from cockpit.studio.lessons.file_rows import FileRow
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """The families, students and standing times that a studio has, and what files said of these when last read."""

    families: tuple[Family, ...] = ()
    students: tuple[Student, ...] = ()
    standing_times: tuple[StandingTime, ...] = ()
    file_rows: tuple[FileRow, ...] = ()


class Roll:
    """The studio's people by the key of their names. Of two families with one name it is the older that counts."""

    def __init__(self, known: Known) -> None:
        self.families: dict[str, Family] = {}
        self.families_by_id: dict[FamilyId, Family] = {family.id: family for family in known.families}
        self.students: dict[tuple[FamilyId, str], Student] = {}
        self.namesakes: defaultdict[str, list[Student]] = defaultdict(list)
        self.members: defaultdict[FamilyId, list[Student]] = defaultdict(list)
        self.times: defaultdict[StudentId, list[StandingTime]] = defaultdict(list)
        self.file_rows: defaultdict[StudentId, list[FileRow]] = defaultdict(list)
        for family in sorted(known.families, key=lambda family: family.id):
            self.families.setdefault(name_key(family.name), family)
        for student in sorted(known.students, key=lambda student: student.id):
            self.students.setdefault((student.family_id, name_key(student.name)), student)
            self.namesakes[name_key(student.name)].append(student)
            self.members[student.family_id].append(student)
        for standing in sorted(known.standing_times, key=lambda standing: standing.id):
            self.times[standing.student_id].append(standing)
        for row in known.file_rows:
            self.file_rows[row.student_id].append(row)

    def homes_of(self, student: str) -> list[Family]:
        """The families that have a student with this name key."""
        return [self.families_by_id[namesake.family_id] for namesake in self.namesakes.get(student, ())]
