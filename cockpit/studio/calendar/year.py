"""The studio year: each student's lessons by month, against the number promised, and the make-ups that are owed.

Common practice, no source: a trial is not one of those promised. Which lessons are made up, her policy says.
"""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date, datetime, timedelta
from typing import TypeVar

from cockpit.studio.calendar.clock_changes import ChangeAhead
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, Outcome
from cockpit.studio.lessons.lineage import origin_of
from cockpit.studio.lessons.policy import USUAL_POLICY
from cockpit.studio.lessons.scheduled import ScheduledLesson, in_order, was_taught
from cockpit.studio.people.people import Student, StudentId, name_key
from cockpit.studio.values import Value

_Each = TypeVar("_Each")


class StudentYear(Value):
    """A student's lessons of the year, each in one of the counts. The `unmarked` are over, and nobody said how they went.

    A make-up counts as taught or planned in place of the lesson it is given for, which stays cancelled.
    """

    student: Student
    taught: int
    planned: int
    cancelled: int
    cancelled_late: int
    absent: int
    unmarked: int
    promised: int
    called_off: int = 0

    @property
    def difference(self) -> int:
        """How many lessons more than promised the year comes to; below zero, how many are missing."""
        return self.taught + self.planned - self.promised


class StudentMonth(Value):
    """A student's lessons of the month that begins on `first_on`, and those that a break takes away; both in order."""

    student: Student
    first_on: date
    lessons: tuple[ScheduledLesson, ...]
    on_break: tuple[ScheduledLesson, ...] = ()


class StudioYear(Value):
    """A studio year from its first day up to and on its last one, and the `changes` of clocks that shift lessons in it."""

    first_on: date
    until_on: date
    students: tuple[StudentYear, ...]
    months: tuple[StudentMonth, ...]
    changes: tuple[ChangeAhead, ...] = ()

    @property
    def month_firsts(self) -> list[date]:
        """The first days of its months; one that begins within a month has that month at both ends."""
        firsts = [self.first_on.replace(day=1)]
        while (following := (firsts[-1] + timedelta(days=31)).replace(day=1)) <= self.until_on:
            firsts.append(following)
        return firsts


def make_ups_owed(
    lessons: Iterable[Lesson], owes: Callable[[Lesson], bool] = USUAL_POLICY.owes
) -> Mapping[StudentId, tuple[Lesson, ...]]:
    """The lessons that are to be made up, and are not yet, by student, each student's by start; `owes` says which are.

    A make-up that is to be made up itself leaves the first lesson owed, once; any other settles it, also one that was missed. Where the first lesson is not among `lessons`, a cancelled make-up of it stands for it.
    """
    known = {lesson.id: lesson for lesson in sorted(lessons, key=lambda each: (each.starts_at, each.id))}
    made_up = {lesson.id: lesson.makes_up for lesson in known.values()}
    settled = {
        origin_of(lesson.id, made_up.get)
        for lesson in known.values()
        if lesson.makes_up is not None and not owes(lesson)
    }
    owed: dict[LessonId, Lesson] = {}
    for lesson in known.values():
        first = origin_of(lesson.id, made_up.get)
        standing_for = known.get(first, lesson)
        if owes(standing_for) and first not in settled:
            owed.setdefault(first, standing_for)
    by_student: defaultdict[StudentId, list[Lesson]] = defaultdict(list)
    for lesson in sorted(owed.values(), key=lambda each: (each.starts_at, each.id)):
        by_student[lesson.student_id].append(lesson)
    return {student_id: tuple(theirs) for student_id, theirs in by_student.items()}


def year_plan(bookings: Iterable[ScheduledLesson], now: datetime, promised: int) -> tuple[StudentYear, ...]:
    """Where each student of a studio year stands at `now` (UTC), by name; `bookings` are all lessons of that year.

    A student without a number of lesson times in the roster is `promised` as many.
    """
    return tuple(
        StudentYear(
            student=student,
            taught=sum(was_taught(lesson) for lesson in lessons),
            planned=sum(_is_planned(lesson, now) for lesson in lessons),
            cancelled=_closed(lessons, Outcome.CANCELLED),
            cancelled_late=_closed(lessons, Outcome.CANCELLED_LATE),
            called_off=_closed(lessons, Outcome.CALLED_OFF),
            absent=_closed(lessons, Outcome.ABSENT),
            unmarked=sum(is_unmarked(lesson, now) for lesson in lessons),
            promised=student.yearly_lessons or promised,
        )
        for student, lessons in _by_student(bookings, lambda booking: booking.lesson)
    )


def months(
    bookings: Iterable[ScheduledLesson], on_break: Iterable[ScheduledLesson], home: TeacherClock
) -> tuple[StudentMonth, ...]:
    """The lessons by student's name, then by month of the teacher's clock; in each month those that take place in it."""
    taken_away = dict(_by_student(on_break, lambda booking: booking))
    found: list[StudentMonth] = []
    for student, lessons in _by_student(bookings, lambda booking: booking):
        kept, away = _by_month(lessons, home), _by_month(taken_away.get(student, []), home)
        found += [
            StudentMonth(
                student=student,
                first_on=first_on,
                lessons=tuple(kept.get(first_on, ())),
                on_break=tuple(away.get(first_on, ())),
            )
            for first_on in sorted(kept.keys() | away.keys())
        ]
    return tuple(found)


def is_unmarked(lesson: Lesson, now: datetime) -> bool:
    """Whether a lesson is over at `now` (UTC), and nobody said what became of it."""
    return _is_open(lesson) and lesson.planned_end <= now


def _by_student(
    bookings: Iterable[ScheduledLesson], what: Callable[[ScheduledLesson], _Each]
) -> Iterator[tuple[Student, list[_Each]]]:
    students: dict[StudentId, Student] = {}
    lessons: defaultdict[StudentId, list[_Each]] = defaultdict(list)
    for booking in bookings:
        if booking.lesson.kind is not Kind.TRIAL:
            students[booking.student.id] = booking.student
            lessons[booking.student.id].append(what(booking))
    for student in sorted(students.values(), key=lambda each: (name_key(each.name), each.id)):
        yield student, lessons[student.id]


def _by_month(bookings: Iterable[ScheduledLesson], home: TeacherClock) -> dict[date, list[ScheduledLesson]]:
    found: defaultdict[date, list[ScheduledLesson]] = defaultdict(list)
    for booking in in_order(bookings):
        found[home.date_of(booking.lesson.starts_at).replace(day=1)].append(booking)
    return found


def _closed(lessons: Iterable[Lesson], outcome: Outcome) -> int:
    return sum(lesson.outcome is outcome for lesson in lessons)


def _is_open(lesson: Lesson) -> bool:
    return lesson.outcome is None and not was_taught(lesson)


def _is_planned(lesson: Lesson, now: datetime) -> bool:
    # As long as its time is not over, the student may still come.
    return _is_open(lesson) and lesson.planned_end > now
