"""What goes wrong in the lessons that weekly times name, for a teacher of any hours."""

from datetime import time

from support.studio import HOME, family, preferences, utc

from cockpit.studio.calendar.collisions import find_troubles
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import planned
from cockpit.studio.values import replace

ANY_TIME = preferences(day_begins=time(0), day_ends=time(0))
SCHOOL_YEAR = (utc("2026-09-01"), utc("2027-07-01"))
NEW_YORK = family(zone="America/New_York")


def troubles(enrollments, wishes=ANY_TIME, zone=HOME, between=SCHOOL_YEAR):
    """What goes wrong in the lessons that weekly times name."""
    return find_troubles(
        planned(enrollments, TeacherClock(zone=zone), *between),
        enrollments,
        replace(wishes, home=TeacherClock(zone=zone)),
    )
