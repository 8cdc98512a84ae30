"""What was given and heard at a student's earlier lessons, out of the records."""

from cockpit.desk.ports import Reading
from cockpit.studio.assignments.last_lesson import TaughtNotes
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.lessons.lesson import Lesson
from cockpit.studio.practice.given_again import Earlier

# More than a year of weeks; what is open longer than that is not shown any more.
_LOOKED_BACK = 60


def earlier_lessons(reading: Reading, lesson: Lesson, zone: Zone) -> Earlier:
    """The lessons taught before one to the same student on the same instrument; their dates are of the clock of `zone`."""
    taught = reading.last_taught(lesson.student_id, lesson.starts_at, lesson.instrument, _LOOKED_BACK)
    ids = [each.id for each in taught]
    notes = reading.notes(ids)
    return Earlier(
        taught=[
            TaughtNotes(lesson_id=each.id, taught_on=local_time(each.starts_at, zone).date(), body=notes[each.id].body)
            for each in taught
        ],
        marks=reading.marks(ids),
        heard=reading.heard(ids),
    )
