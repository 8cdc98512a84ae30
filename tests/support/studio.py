"""Families, students, weekly times and lessons of an invented studio, with defaults to vary.

The teacher lives in America/Chicago. Unless told otherwise it is Tuesday 1 December 2026, and Ilse Brandvold has her
cello lesson of 30 minutes at 16:00, which is 22:00 UTC and 15:00 in Phoenix.
"""

from datetime import UTC, date, datetime, time, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from cockpit.studio.clocks.home import Home, Stay
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, Outcome
from cockpit.studio.lessons.scheduled import Enrollment, ScheduledLesson
from cockpit.studio.lessons.weekly_times import KeptIn, StandingTime, StandingTimeId
from cockpit.studio.people.people import Family, FamilyId, Guardian, GuardianId, Student, StudentId
from cockpit.studio.preferences import Preferences

HOME = "America/Chicago"
TO_DENVER = Home(zone="America/Phoenix", stays=(Stay(zone="America/Denver", from_on=date(2027, 3, 1)),))
"""The clock of a family that moves from Phoenix to Denver on Monday, March 1, 2027."""
CLOCK = TeacherClock(zone=HOME)
DAY = date(2026, 12, 1)
CUES = {30: 3, 45: 4, 60: 5}


def utc(text: str) -> datetime:
    """The moment of `2026-12-01 22:00`, read in UTC."""
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def home(text: str) -> datetime:
    """The UTC moment of `2026-12-01 16:00`, read on the teacher's clock."""
    return datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(HOME)).astimezone(UTC)


STARTS_AT = home("2026-12-01 16:00")


def preferences(**values: Any) -> Preferences:
    """A teacher's preferences on her clock in Chicago, or what `values` make of them."""
    return Preferences(**{"home": CLOCK} | values)


def family(**values: Any) -> Family:
    """The Brandvolds of Phoenix, or what `values` make of them."""
    return Family(**{"id": FamilyId(1), "name": "Brandvold", "zone": "America/Phoenix"} | values)


def student(**values: Any) -> Student:
    """Ilse Brandvold, or what `values` make of her."""
    return Student(**{"id": StudentId(1), "family_id": FamilyId(1), "name": "Ilse"} | values)


BRANDVOLD, ILSE = family(), student()
BRANDVOLDS = Guardian(
    id=GuardianId(1), family_id=FamilyId(1), name="Liv", email="brandvold@example.org", phone="+1 602 555 0100"
)
OKONJO = family(id=FamilyId(2), name="Okonjo", zone="Europe/London", hours=24)
TEODOR = student(id=StudentId(2), family_id=FamilyId(2), name="Teodor")
PERREAULT = family(id=FamilyId(3), name="Perreault", zone="America/St_Johns")
MIREILLE = student(id=StudentId(3), family_id=FamilyId(3), name="Mireille")
KEALOHA = family(id=FamilyId(4), name="Kealoha", zone="Pacific/Honolulu")
NALANI = student(id=StudentId(4), family_id=FamilyId(4), name="Nalani")
BANERJEE = family(id=FamilyId(5), name="Banerjee", zone="Asia/Kolkata", hours=24)
ISHAAN = student(id=StudentId(5), family_id=FamilyId(5), name="Ishaan")
MACASKILL = family(id=FamilyId(6), name="MacAskill", zone="America/Halifax")
EILIDH = student(id=StudentId(6), family_id=FamilyId(6), name="Eilidh")

HOUSEHOLDS = {
    ILSE: (BRANDVOLD, "cello"),
    TEODOR: (OKONJO, "guitar"),
    MIREILLE: (PERREAULT, "clarinet"),
    NALANI: (KEALOHA, "ukulele"),
    ISHAAN: (BANERJEE, "violin"),
    EILIDH: (MACASKILL, "piano"),
}


def standing(**values: Any) -> StandingTime:
    """Tuesdays at 16:00 on the teacher's clock, 30 minutes of cello for Ilse, or what `values` make of it."""
    defaults = {
        "id": StandingTimeId(1),
        "student_id": StudentId(1),
        "weekday": 1,
        "at": time(16),
        "minutes": 30,
        "kept_in": KeptIn.TEACHER,
        "instrument": "cello",
    }
    return StandingTime(**defaults | values)


def enrollment(who: Student = ILSE, **values: Any) -> Enrollment:
    """A weekly time of one of the studio's students; its id is the student's own."""
    household, instrument = HOUSEHOLDS[who]
    kept = {"id": StandingTimeId(who.id), "student_id": who.id, "instrument": instrument} | values
    return Enrollment(standing=standing(**kept), student=who, family=household)


def lesson(**values: Any) -> Lesson:
    """Ilse's lesson of the day, or what `values` make of it."""
    defaults = {
        "id": LessonId("w1-2026-12-01"),
        "student_id": StudentId(1),
        "standing_time_id": StandingTimeId(1),
        "instrument": "cello",
        "starts_at": STARTS_AT,
        "minutes": 30,
    }
    return Lesson(**defaults | values)


def booking(who: Student = ILSE, **values: Any) -> ScheduledLesson:
    """A lesson of one of the studio's students with its people; `values` are those of the lesson."""
    household, instrument = HOUSEHOLDS[who]
    named = {
        "id": LessonId(f"w{who.id}-2026-12-01"),
        "student_id": who.id,
        "standing_time_id": StandingTimeId(who.id),
        "instrument": instrument,
    }
    return ScheduledLesson(lesson=lesson(**named | values), student=who, family=household)


def back_to_back(*minutes: int, starts_at: datetime = STARTS_AT) -> list[ScheduledLesson]:
    """One lesson after the other without a gap, each of the next student of the studio."""
    bookings = []
    for who, length in zip(HOUSEHOLDS, minutes, strict=False):
        bookings.append(booking(who, starts_at=starts_at, minutes=length))
        starts_at += timedelta(minutes=length)
    return bookings


def day_in_several_states() -> list[ScheduledLesson]:
    """Six lessons back to back: the first is running, the fourth is a make-up that was canceled, the others are booked."""
    bookings = back_to_back(30, 45, 60, 30, 30, 30)
    lesson = bookings[0].lesson
    bookings[0] = booking(ILSE, starts_at=lesson.starts_at, minutes=30, began_at=home("2026-12-01 16:01"))
    bookings[3] = booking(
        bookings[3].student, starts_at=bookings[3].lesson.starts_at, outcome=Outcome.CANCELLED, kind=Kind.MAKE_UP
    )
    return bookings
