"""What the notes of a lesson are completed from, out of the records."""

from collections.abc import Mapping

from cockpit.desk.ports import Reading
from cockpit.studio.assignments.carrying import carried_on
from cockpit.studio.assignments.last_lesson import Sheet
from cockpit.studio.completion.remembered import Remembered
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.people.people import StudentId

_OWN = 60
_OF_OTHERS = 12


class Remembering:
    """Fetches what may be remembered for a lesson; to make a memory of it is a computation on values."""

    def __init__(self, reading: Reading) -> None:
        self._reading = reading

    def remembered(self, booking: Booking, sheet: Sheet, abbreviations: Mapping[str, str]) -> Remembered:
        """The notes that completions of a lesson's notes may be learned from, the newest first."""
        people, student = self._reading.people(), booking.student
        last = sheet.last
        given = (*last.assignments, *last.earlier) if last is not None else ()
        others = [other for other in people.students.values() if other.id != student.id]
        families = {other.family_id for other in others} - {student.family_id}
        return Remembered(
            bodies=self._bodies(booking, student.id, _OWN),
            open_lines=tuple(carried_on(each.line, each.tempo) for each in given if each.is_open),
            others=tuple(self._bodies(booking, other.id, _OF_OTHERS) for other in others),
            abbreviations=abbreviations,
            names=(*(other.name for other in others), *(people.families[each].name for each in families)),
        )

    def _bodies(self, booking: Booking, student_id: StudentId, most: int) -> tuple[str, ...]:
        taught = self._reading.last_taught(student_id, booking.lesson.starts_at, None, most)
        notes = self._reading.notes([lesson.id for lesson in taught])
        return tuple(notes[lesson.id].body for lesson in taught)
