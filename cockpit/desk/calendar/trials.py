"""Trial lessons, also for somebody new: proposed from a typed line with a name and a time."""

from cockpit.desk.calendar.lines import Lines
from cockpit.desk.calendar.proposals import Proposal
from cockpit.desk.ports import Reading
from cockpit.studio.changes.records import added
from cockpit.studio.errors import BadInput
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.typed_times.when import When
from cockpit.studio.typed_times.words import names_places

_TRIAL_MINUTES = 30
_A_TRIAL = 'such as "nora bell thu 4pm phoenix 30m"'


class Trials:
    """Proposes trial lessons."""

    def __init__(self, reading: Reading, lines: Lines) -> None:
        self._reading = reading
        self._lines = lines

    def propose(self, line: str) -> Proposal:
        """A name and a time: of a student of the studio, or of one who is new.

        Raises:
            BadInput: the line names nobody, or no time that is understood.
        """
        words = line.split()
        fault = BadInput(f"Write a name and a time, {_A_TRIAL}.")
        for count in range(1, len(words)):
            try:
                when = self._lines.when(" ".join(words[count:]), None)
            except BadInput as refused:
                fault = refused if count > 1 else fault
                continue
            name = " ".join(words[:count])
            if self._says_when(line) and not names_places(name):
                raise BadInput(f"The line says when, and not who. Write a name too, {_A_TRIAL}.")
            return self._trial_of(name, when)
        raise fault

    def _says_when(self, line: str) -> bool:
        """Whether a line is a moment and nothing else: a student is not called Thursday."""
        try:
            self._lines.when(line, None)
        except BadInput:
            return False
        return True

    def _trial_of(self, name: str, when: When) -> Proposal:
        people = self._reading.people()
        known = [student for student in people.students.values() if name_key(student.name) == name_key(name)]
        if known:
            student, family, edits = known[0], people.families[known[0].family_id], added()
        else:
            called_so = name if name != name.lower() else name.title()
            family = Family(id=FamilyId(self._lines.id_number(1)), name=called_so, zone=when.zone)
            student = Student(id=StudentId(self._lines.id_number(2)), family_id=family.id, name=called_so)
            edits = added(family, student)
        like = Lesson(id=LessonId(""), student_id=student.id, starts_at=when.starts_at, minutes=_TRIAL_MINUTES)
        lesson = self._lines.new_lesson(Kind.TRIAL, like, when)
        booking = Booking(lesson=lesson, student=student, family=family)
        title = f"Trial lesson for {student.name}" + ("" if known else f", new, family {family.name}")
        return self._lines.proposal(booking, when, title, (*edits, *added(lesson)))
