"""Bookings out of the records: a day's, and a student's next."""

from collections.abc import Container, Iterable, Sequence
from datetime import date, datetime, timedelta
from itertools import count
from typing import TYPE_CHECKING, Protocol

from cockpit.desk.ports import Reading
from cockpit.studio.clocks.horizons import EVER, NEXT_LESSON
from cockpit.studio.clocks.moments import local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.errors import BadInput, NotFound
from cockpit.studio.lessons.breaks import LeftOut, Pause, pauses_in, without_breaks
from cockpit.studio.lessons.calls import OwedMinutes, owed_by_student
from cockpit.studio.lessons.lesson import NOT_HELD, Lesson, Outcome
from cockpit.studio.lessons.scheduled import (
    Enrollment,
    People,
    ScheduledLesson,
    gone_along,
    in_order,
    left_behind,
    merged,
    planned,
    together_with,
)
from cockpit.studio.people.people import Family, FamilyId, Gets, Guardian, Student, StudentId, addresses_of, name_key
from cockpit.studio.post.outgoing import Outgoing
from cockpit.studio.values import replace

if TYPE_CHECKING:
    from cockpit.studio.inquiries.inquiry import Inquiry

_DAY = timedelta(days=1)
_MINUTE = timedelta(minutes=1)
_STILL_GOING = timedelta(hours=12)
# A lesson has 240 minutes at most, so that one of the evening before is over by then.
_EVENING_ENDS = 4


class Whose(Protocol):
    """What is about one student and the family: a lesson, a line of the roster."""

    @property
    def student(self) -> Student: ...  # noqa: D102 said where it is done
    @property
    def family(self) -> Family: ...  # noqa: D102


def bookings_between(
    reading: Reading, begins: datetime, ends: datetime, home: TeacherClock, of: StudentId | None = None
) -> tuple[list[ScheduledLesson], list[LeftOut]]:
    """The lessons that start in [begins, ends), both UTC, and the weekly ones that fall into a break; in order.

    All of them, or those `of` one student. A weekly lesson that its weekly time has left behind is none any more.
    """
    kept, left_out, _ = _looked_up(reading, reading.people(), begins, ends, home, None if of is None else {of})
    return kept, left_out


def sharing(reading: Reading, booking: ScheduledLesson, home: TeacherClock) -> list[ScheduledLesson]:
    """The other lessons that share the time of one and take place, or are to."""
    if booking.shares is None:  # nearly all: a line is read again at each of its keys
        return []
    at = booking.lesson.starts_at
    return together_with(booking, bookings_between(reading, at, at + _MINUTE, home)[0])


def bookings_of(
    reading: Reading,
    enrollments: Sequence[Enrollment],
    whose: Whose,
    begins: datetime,
    ends: datetime,
    home: TeacherClock,
) -> tuple[list[ScheduledLesson], list[LeftOut]]:
    """What `bookings_between` finds of one student, whose weekly times are known: it asks for nobody else's records."""
    student, family = whose.student, whose.family
    by_rule = planned(enrollments, home, begins, ends)
    elsewhere = reading.lessons_between(begins, begins, [booking.lesson.id for booking in by_rule])
    recorded = {each.id: each for each in (*reading.lessons_of(student.id, begins, ends), *elsewhere)}
    people = People(students={student.id: student}, families={family.id: family})
    found, _ = _put_together(by_rule, recorded.values(), people, enrollments, (begins, ends))
    return without_breaks(found, reading.breaks(begins.date() - 2 * _DAY), home)


def bookings_with(
    reading: Reading, family: Family, begins: datetime, ends: datetime, home: TeacherClock
) -> list[ScheduledLesson]:
    """The lessons of a family that start in [begins, ends), both UTC, as they would be if it were otherwise; in order."""
    everybody = reading.people()
    theirs = {each.id: each for each in everybody.students.values() if each.family_id == family.id}
    known = People(students=everybody.students, families={**everybody.families, family.id: family})
    return _looked_up(reading, known, begins, ends, home, theirs)[0]


def _looked_up(
    reading: Reading,
    people: People,
    begins: datetime,
    ends: datetime,
    home: TeacherClock,
    of: Container[StudentId] | None = None,
) -> tuple[list[ScheduledLesson], list[LeftOut], list[Lesson]]:
    """What `bookings_between` finds, and the recorded lessons that their weekly time has left behind."""
    # Dates of other clocks can be a day behind; a lesson of theirs can still be in the stretch.
    since = begins.date() - timedelta(days=2)
    enrollments = [e for e in reading.enrollments(people, since) if of is None or e.student.id in of]
    by_rule = planned(enrollments, home, begins, ends)
    recorded = reading.lessons_between(begins, ends, [booking.lesson.id for booking in by_rule])
    recorded = tuple(lesson for lesson in recorded if of is None or lesson.student_id in of)
    bookings, left = _put_together(by_rule, recorded, people, enrollments, (begins, ends))
    kept, left_out = without_breaks(bookings, reading.breaks(since), home)
    return kept, left_out, left


def _put_together(
    by_rule: list[ScheduledLesson],
    recorded: Iterable[Lesson],
    people: People,
    enrollments: Sequence[Enrollment],
    stretch: tuple[datetime, datetime],
) -> tuple[list[ScheduledLesson], list[Lesson]]:
    """The lessons of a stretch, by rule and recorded; and the recorded ones that their weekly time has left behind."""
    begins, ends = stretch
    gone = gone_along(by_rule, recorded, enrollments)
    recorded = [lesson for lesson in recorded if lesson.id not in gone]
    left = set(left_behind(by_rule, recorded))
    bookings = [
        booking
        for booking in merged(by_rule, [lesson for lesson in recorded if lesson.id not in left], people, enrollments)
        # One that was moved, or taught, out of the stretch is recorded, and named by rule.
        if not booking.is_recorded or begins <= booking.lesson.starts_at < ends
    ]
    return bookings, [lesson for lesson in recorded if lesson.id in left]


def bookings_on(reading: Reading, on: date, home: TeacherClock) -> list[ScheduledLesson]:
    """The lessons that start on a date of the teacher's clock, in order.

    One that its weekly time has left behind is among them, as called off, where notes were typed ahead: that day is
    where they are looked for. Taken up again, it stands by itself.
    """
    people = reading.people()
    kept, _, left = _looked_up(reading, people, *home.day_bounds(on), home)
    if not left:
        return kept
    notes = reading.notes([lesson.id for lesson in left])
    called_off = [
        replace(lesson, outcome=Outcome.CANCELLED, is_moved=True)
        for lesson in left
        if lesson.id in notes and notes[lesson.id].body.strip()
    ]
    return in_order([*kept, *merged((), called_off, people, ())])


def is_where_its_rule_has_it(reading: Reading, lesson: Lesson, home: TeacherClock) -> bool:
    """Whether a lesson stands at the very time, and for as long, as its weekly time says."""
    begins = lesson.starts_at
    enrollments = reading.enrollments(reading.people(), begins.date() - timedelta(days=2))
    meetings = planned(enrollments, home, begins, begins + timedelta(minutes=1))
    return any((b.lesson.id, b.lesson.minutes) == (lesson.id, lesson.minutes) for b in meetings)


def day_going_on(reading: Reading, now: datetime, home: TeacherClock) -> date:
    """The teacher's date at a UTC moment; after midnight still that of a lesson which is taught, or can yet be."""
    today = home.date_of(now)
    live = reading.live_lesson()
    if live is not None and now - live.starts_at < _STILL_GOING:
        return home.date_of(live.starts_at)
    if home.local(now).hour >= _EVENING_ENDS:
        return today
    evening = bookings_on(reading, today - timedelta(days=1), home)
    is_awaited = any(booking.lesson.is_open and now < booking.lesson.planned_end for booking in evening)
    return today - timedelta(days=1) if is_awaited else today


def next_of(
    reading: Reading, student_id: StudentId, after: Lesson | datetime, home: TeacherClock
) -> ScheduledLesson | None:
    """The student's next lesson that is not cancelled, after a lesson or a UTC moment; None in the next 120 days.

    They are counted from the end of a pause.
    """
    return what_follows(reading, student_id, after, home)[0]


def first_from(reading: Reading, now: datetime, home: TeacherClock) -> ScheduledLesson | None:
    """The first lesson from a UTC moment on that is to take place, of anybody; None in the next 120 days."""
    for ahead in (timedelta(days=7), NEXT_LESSON):  # mostly it is near
        kept, _ = bookings_between(reading, now, now + ahead, home)
        for booking in kept:
            if booking.lesson.is_open:
                return booking
    return None


def what_follows(
    reading: Reading, student_id: StudentId, after: Lesson | datetime, home: TeacherClock
) -> tuple[ScheduledLesson | None, list[ScheduledLesson], date | None]:
    """The student's next lesson, as `next_of` finds it, those before it that do not take place, and the end of a pause.

    Those that a pause takes are not among them: its last day says it, on the clock of the weekly time.
    """
    theirs, left_out = _after(reading, student_id, after, home)
    following = next((b for b in theirs if b.lesson.outcome not in NOT_HELD and b.lesson.finished_at is None), None)
    if following is None:
        return None, [], None
    begins = following.lesson.starts_at
    before = [each for each in left_out if each.booking.lesson.starts_at < begins]
    paused = [each.because.last_on for each in before if isinstance(each.because, Pause)]
    called_off = [b for b in theirs if b.lesson.outcome in NOT_HELD and b.lesson.starts_at < begins]
    called_off += [each.booking for each in before if not isinstance(each.because, Pause)]
    return following, in_order(called_off), max(paused, default=None)


def lesson_that_followed(
    reading: Reading, student_id: StudentId, after: Lesson, home: TeacherClock
) -> ScheduledLesson | None:
    """The student's first lesson after one, taught or not, that is not cancelled; None in the 120 days after it."""
    theirs, _ = _after(reading, student_id, after, home)
    return next((b for b in theirs if b.lesson.outcome not in NOT_HELD), None)


def _after(
    reading: Reading, student_id: StudentId, after: Lesson | datetime, home: TeacherClock
) -> tuple[list[ScheduledLesson], list[LeftOut]]:
    """The student's lessons after a lesson or a UTC moment, and those of them that fall into a break; in order."""
    since = after.starts_at if isinstance(after, Lesson) else after
    same = after.id if isinstance(after, Lesson) else None
    ends = since + NEXT_LESSON
    for each in pauses_in(reading.breaks(home.date_of(since)), student_id):
        if each.until_on is not None:
            ends = max(ends, min(home.day_bounds(each.until_on)[1] + NEXT_LESSON, since + EVER))
    kept, left_out = bookings_between(reading, since, ends, home, student_id)
    return [b for b in kept if b.lesson.id != same], left_out


def family_named(people: People, name: str) -> Family:
    """The family of a name, however it is spelled in case and blanks.

    Raises:
        NotFound: there is none; the sentence names those that there are.
    """
    families = people.families.values()
    for family in families:
        if name_key(family.name) == name_key(name):
            return family
    raise NotFound(f"No family is named {name!r}. Your families: {', '.join(f.name for f in families) or 'none'}.")


def refuse_taken(name: str, family: Family, people: People, of: StudentId | None = None) -> None:
    """Refuses a name that another student of the family has; `of` may keep it. Case and blanks make no difference.

    Raises:
        BadInput.
    """
    taken = {name_key(each.name) for each in people.students.values() if each.family_id == family.id and each.id != of}
    if name_key(name) in taken:
        first = name.partition(" ")[0]
        free = next(each for nth in count(2) if name_key(each := f"{first} {_ordinal(nth)}") not in taken)
        raise BadInput(f'The {family.name} family has a student called {name} already. Type "{free}" or another name.')


def _ordinal(number: int) -> str:
    return f"{number}{ {2: 'nd', 3: 'rd'}.get(number, 'th') }"


def owed_minutes(reading: Reading) -> tuple[OwedMinutes, ...]:
    """What is owed for lost calls, by student; who has waited longest comes first."""
    unsettled = reading.unsettled_losses()
    return owed_by_student(unsettled, reading.people().students) if unsettled else ()


def guardians_of(reading: Reading, family_id: FamilyId) -> tuple[Guardian, ...]:
    """The guardians of a family, in their order."""
    return tuple(sorted(reading.of_family(Guardian, family_id), key=lambda each: each.position))


def addresses_for(reading: Reading, family_id: FamilyId, gets: Gets = Gets.NOTES) -> tuple[str, ...]:
    """The addresses of those guardians of a family who get its notes and letters, or something else; in their order."""
    return addresses_of(reading.of_family(Guardian, family_id), family_id, gets)


def addressee_of(reading: Reading, item: Outgoing) -> "Family | Inquiry":
    """Whom something goes out to: a family, or somebody who asks about lessons.

    Raises:
        NotFound: that one is not there any more.
    """
    known = reading.people().families.get(item.family_id) if item.family_id is not None else None
    to = known or next((each for each in reading.inquiries() if each.id == item.inquiry_id), None)
    if to is None:
        raise NotFound(f"Whom the {item.called} was for is not there any more.")
    return to


def addresses_at(reading: Reading, to: "Family | Inquiry", gets: Gets = Gets.NOTES) -> tuple[str, ...]:
    """The addresses that papers may go to: those of the guardians who get a family's notes, or its news, or an inquiry's own."""
    if isinstance(to, Family):
        return addresses_for(reading, to.id, gets)
    return tuple(filter(None, [to.email]))


def taught_on(reading: Reading, item: Outgoing) -> date:
    """The day of the lesson that something goes out of, on the family's clock; with no record of it, that of the entry."""
    lessons = reading.lessons_between(item.queued_at, item.queued_at, filter(None, [item.lesson_id]))
    starts_at = lessons[0].starts_at if lessons else item.queued_at
    return local_time(starts_at, addressee_of(reading, item).zone or "UTC").date()
