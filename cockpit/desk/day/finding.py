"""Students by a part of their name, and where their lessons are."""

import difflib
from datetime import UTC, date, datetime

from cockpit.desk.lookup import bookings_between, first_from, next_of
from cockpit.desk.ports import Clock, Reading
from cockpit.studio.changes.records import Note
from cockpit.studio.clocks.horizons import NEXT_LESSON
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import NotFound
from cockpit.studio.lessons.lesson import NOT_HELD
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.people.people import Family, Student, StudentId, name_key
from cockpit.studio.searching import has_words, plain, searched_words
from cockpit.studio.values import Value

_LONG_AGO = datetime(1970, 1, 1, tzinfo=UTC)


class Found(Value):
    """A student that a search found."""

    student: Student
    family: Family


def _full_name(found: Found) -> str:
    return f"{found.student.name} (family {found.family.name})"


def _called(found: Found) -> tuple[str, ...]:
    student, family = found.student.name, found.family.name
    return tuple(plain(name_key(name)) for name in (student, family, f"{student} {family}"))


def _in_full(found: Found) -> set[str]:
    student, family = found.student.name, found.family.name
    return {name_key(name) for name in (student, f"{student} {family}", _full_name(found))}


def _begins_as(found: Found, wanted: str) -> bool:
    """Whether the full name, as answers have it, begins so: a part is not looked for in the word "family"."""
    return plain(name_key(_full_name(found))).startswith(wanted)


def _has_all(found: Found, text: str) -> bool:
    """Whether each word of a text begins a name of the student or the family, in any order."""
    words = searched_words(text)
    return bool(words) and has_words(words, f"{found.student.name} {found.family.name}")


class Finding:
    """Looks students up."""

    def __init__(self, reading: Reading, clock: Clock, home: TeacherClock) -> None:
        self._reading = reading
        self._clock = clock
        self._home = home

    def search(self, text: str) -> list[Found]:
        """The students whose name, family or both have the text in them, or all its words; those whose name begins with it first.

        Case and accents make no difference.
        """
        wanted = plain(name_key(text))
        people = self._reading.people()
        found = [Found(student=s, family=people.families[s.family_id]) for s in people.students.values()]
        hits = [
            f
            for f in found
            if any(wanted in called for called in _called(f)) or _begins_as(f, wanted) or _has_all(f, text)
        ]
        return sorted(hits, key=lambda f: (not plain(f.student.name).startswith(wanted), name_key(f.student.name)))

    def by_id(self, student_id: StudentId) -> Student:
        """The student of a number."""
        return self._reading.people().students[student_id]

    def student(self, name: str) -> Found:
        """The one student of a name, of a part of one, or of a name with the family behind it.

        Raises:
            NotFound: there is none, or more than one; the sentence names the nearest.
        """
        hits = self.search(name)
        exact = [hit for hit in hits if name_key(name) in _in_full(hit)]
        if len(exact or hits) == 1:
            return (exact or hits)[0]
        if hits:
            which = ", ".join(_full_name(hit) for hit in exact or hits)
            raise NotFound(f"{name!r} matches several students: {which}. Type one exactly as shown here.")
        names = {name_key(s.name): s.name for s in self._reading.people().students.values()}
        near = [names[key] for key in difflib.get_close_matches(name_key(name), names, n=3, cutoff=0.4)]
        raise NotFound(
            f"No student is named {name!r}. Close matches: {', '.join(near)}."
            if near
            else f"No student is named {name!r}, and no name in the roster is close."
        )

    def next_lesson(self, student: Student) -> ScheduledLesson | None:
        """The student's lesson of today that is still to end, else one that is over, else the next one."""
        today = self._home.day_bounds(self._home.date_of(self._clock.now()))
        kept, _ = bookings_between(self._reading, *today, self._home, student.id)
        for booking in sorted(kept, key=lambda b: not b.lesson.is_open):
            if booking.lesson.outcome not in NOT_HELD:
                return booking
        return next_of(self._reading, student.id, today[0], self._home)

    def what_is_next(self) -> str:
        """A sentence for a day without lessons: the next one, and what leads there."""
        booking = first_from(self._reading, self._clock.now(), self._home)
        if booking is None:
            ahead = f"the next {NEXT_LESSON.days} days"
            return f"No lesson is booked in {ahead}. To add weekly times: cockpit roster FILE.csv"
        when = self._home.date_and_time(booking.lesson.starts_at)
        return f"Next lesson: {booking.student.name}, {when}. Find (F8) takes you there."

    def noted_lesson(self, found: Found, on: date | None) -> tuple[ScheduledLesson, Note]:
        """The student's lesson with notes on a date of the teacher's clock, or the latest one.

        Raises:
            NotFound: there is none.
        """
        now = self._clock.now()
        begins, ends = self._home.day_bounds(on) if on is not None else (_LONG_AGO, now)
        lessons = self._reading.lessons_of(found.student.id, begins, ends)
        notes = self._reading.notes([lesson.id for lesson in lessons[-60:]])
        for lesson in reversed(lessons):
            note = notes.get(lesson.id)
            if note is not None and note.body.strip():
                return ScheduledLesson(
                    lesson=lesson, student=found.student, family=found.family, is_recorded=True
                ), note
        when = f" on {on.isoformat()}" if on is not None else ""
        raise NotFound(f"There are no notes for {found.student.name}{when}.")
