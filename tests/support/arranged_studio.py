"""A studio in a folder, as a roster makes it, in which lines are typed on lessons of any day.

The teacher lives in America/Chicago. Unless told otherwise it is Wednesday 25 November 2026, 10:00 there.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from support.studio import home

from cockpit.clock import SetClock
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.lookup import bookings_between
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.wiring import Studio, studio_at

NOW = "2026-11-25 10:00"
HEADER = "student,weekday,time,minutes,family,instrument,zone,kept_in\n"
ROSTER = f"""{HEADER}Ilse,Tuesday,16:00,30,Brandvold,cello,America/Phoenix,teacher
Teodor,Tuesday,16:30,30,Okonjo,guitar,Europe/London,teacher
Mireille,Wednesday,17:00,45,Perreault,clarinet,America/St_Johns,family
Ishaan,Thursday,20:00,30,Banerjee,violin,Asia/Kolkata,family
"""


@dataclass
class Arranged:
    """An open studio, its clock, and what a test does in it."""

    studio: Studio
    clock: SetClock

    def booking(self, on: str, student: str) -> ScheduledLesson:
        """A student's lesson on a date, which is the one that is shown from now on."""
        day = self.studio.desk.day
        day.open(date.fromisoformat(on))
        found = next(booking for booking in day.bookings if booking.student.name == student)
        day.go_to(found.lesson.id)
        return found

    def write(self, on: str, student: str, text: str) -> None:
        """Types notes into a lesson."""
        self.studio.desk.notes.write(self.booking(on, student).lesson.id, text)

    def proposed(self, purpose: Purpose, on: str, student: str, line: str) -> Proposal:
        """What a line typed on a lesson is understood as."""
        return self.studio.desk.arranging.propose(purpose, self.booking(on, student), line)

    def done(self, purpose: Purpose, on: str, student: str, line: str) -> Proposal:
        """The same, carried out."""
        proposal = self.proposed(purpose, on, student, line)
        self.studio.desk.arranging.do(proposal)
        self.studio.desk.day.reload()
        return proposal

    def undo(self) -> str:
        """Takes the last step back."""
        return self.studio.desk.teaching.undo()

    def lessons(self, student: str, begins: str, ends: str) -> list[str]:
        """The starts of a student's lessons in [begins, ends), on the teacher's clock: `Tue 2026-12-01 16:00`."""
        zone = self.studio.preferences.home.zone
        found, _ = bookings_between(
            self.studio.store.reading, home(f"{begins} 00:00"), home(f"{ends} 00:00"), TeacherClock(zone=zone)
        )
        return [
            f"{local_time(booking.lesson.starts_at, zone):%a %Y-%m-%d %H:%M}"
            for booking in found
            if booking.student.name == student
        ]


@contextmanager
def arranged_studio(
    folder: Path, roster: str = ROSTER, now: str = NOW, settings: str = 'home_zone = "America/Chicago"\n'
) -> Iterator[Arranged]:
    """A studio of a roster, opened at a moment of the teacher's clock; a roster is read again where it is there already."""
    (folder / "settings.toml").write_text(settings, encoding="utf-8")
    clock = SetClock(home(now))
    with studio_at(folder, clock, to_write=True) as studio:
        if roster:
            studio.enrolling.take_in(roster)
        studio.desk.day.open()
        yield Arranged(studio=studio, clock=clock)
