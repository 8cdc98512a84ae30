"""The lessons of a stretch of time, each with the people it belongs to."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta

from cockpit.studio.clocks.moments import Zone, day_bounds, local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, meeting_date, weekly_id
from cockpit.studio.lessons.weekly_times import StandingTime, StandingTimeId, names_date, occurrences
from cockpit.studio.people.people import Family, FamilyId, Student, StudentId, name_key
from cockpit.studio.values import Value, replace

_A_DAY = timedelta(days=1)


class Enrollment(Value):
    """A weekly time with its student and family."""

    standing: StandingTime
    student: Student
    family: Family


class ScheduledLesson(Value):
    """A lesson with its student and family. `is_recorded` tells whether the database holds a row of it.

    `shares` is the number that its weekly time has in common with others that share their lessons.
    """

    lesson: Lesson
    student: Student
    family: Family
    call_link: str | None = None
    is_recorded: bool = False
    shares: int | None = None


class People(Value):
    """Everybody that the bookings of a stretch of time may speak of."""

    students: Mapping[StudentId, Student]
    families: Mapping[FamilyId, Family]


def planned(
    enrollments: Iterable[Enrollment], home: TeacherClock, begins: datetime, ends: datetime
) -> list[ScheduledLesson]:
    """The weekly lessons that start in [begins, ends), both UTC, by rule alone; in order."""
    found: list[ScheduledLesson] = []
    for enrollment in enrollments:
        standing = enrollment.standing
        zone = standing.clock(home, enrollment.family.zone)
        for meeting in occurrences(standing, zone, begins, ends):
            lesson = Lesson(
                id=weekly_id(standing.id, meeting.taught_on),
                student_id=enrollment.student.id,
                standing_time_id=standing.id,
                instrument=standing.instrument,
                starts_at=meeting.starts_at,
                minutes=standing.minutes,
            )
            found.append(
                ScheduledLesson(
                    lesson=lesson,
                    student=enrollment.student,
                    family=enrollment.family,
                    call_link=standing.call_link,
                    shares=standing.shares,
                )
            )
    return in_order(found)


def merged(
    by_rule: Iterable[ScheduledLesson],
    recorded: Iterable[Lesson],
    people: People,
    enrollments: Iterable[Enrollment],
) -> list[ScheduledLesson]:
    """The lessons by rule, overlaid with what is recorded of them, and the recorded ones that no rule names; in order.

    A recorded lesson that was not begun or moved follows its weekly time when that changes; it keeps its outcome.
    """
    standing_times = {enrollment.standing.id: enrollment.standing for enrollment in enrollments}
    bookings = {booking.lesson.id: booking for booking in by_rule}
    for lesson in recorded:
        rule = bookings.get(lesson.id)
        if rule is not None and lesson.follows_its_rule:
            bookings[lesson.id] = replace(rule, lesson=_with_outcome_of(lesson, rule.lesson), is_recorded=True)
            continue
        student = people.students[lesson.student_id]
        standing = standing_times.get(lesson.standing_time_id) if lesson.standing_time_id is not None else None
        bookings[lesson.id] = ScheduledLesson(
            lesson=lesson,
            student=student,
            family=people.families[student.family_id],
            call_link=standing.call_link if standing is not None else None,
            is_recorded=True,
            shares=standing.shares if standing is not None and lesson.kind is Kind.WEEKLY else None,
        )
    return in_order(bookings.values())


def _with_outcome_of(recorded: Lesson, by_rule: Lesson) -> Lesson:
    """A lesson when its weekly time has it now, with what became of it as it was written down."""
    return replace(by_rule, outcome=recorded.outcome, reason=recorded.reason, is_let_go=recorded.is_let_go)


def left_behind(by_rule: Iterable[ScheduledLesson], recorded: Iterable[Lesson]) -> list[LessonId]:
    """The recorded lessons that their weekly time does not name any more, and that nothing else was done to."""
    named = {booking.lesson.id for booking in by_rule}
    return [lesson.id for lesson in recorded if lesson.is_by_rule and lesson.id not in named]


def gone_along(
    by_rule: Iterable[ScheduledLesson], recorded: Iterable[Lesson], enrollments: Iterable[Enrollment]
) -> frozenset[LessonId]:
    """The recorded lessons that their weekly time names out of the stretch of `by_rule`, where they are to be found.

    They were written down in it before a clock became another one: a family's, or the teacher's.
    """
    named = {booking.lesson.id for booking in by_rule}
    unnamed = [lesson for lesson in recorded if lesson.follows_its_rule and lesson.id not in named]
    if not unnamed:
        return frozenset()
    standing_times = {enrollment.standing.id: enrollment.standing for enrollment in enrollments}
    return frozenset(lesson.id for lesson in unnamed if _is_named(lesson, standing_times))


def where_it_is(lesson: Lesson, enrollments: Iterable[Enrollment], home: TeacherClock) -> Lesson:
    """A recorded lesson at the time, and for as long, as its weekly time has it now; else as it was written down."""
    on = meeting_date(lesson)
    if not lesson.follows_its_rule or on is None:
        return lesson
    begins, _ = day_bounds(on, "UTC")
    theirs = [each for each in enrollments if each.standing.id == lesson.standing_time_id]
    meetings = planned(theirs, home, begins - _A_DAY, begins + 2 * _A_DAY)
    return next(
        (_with_outcome_of(lesson, each.lesson) for each in meetings if each.lesson.id == lesson.id),
        lesson,
    )


def _is_named(lesson: Lesson, standing_times: Mapping[StandingTimeId, StandingTime]) -> bool:
    standing = standing_times.get(lesson.standing_time_id) if lesson.standing_time_id is not None else None
    on = meeting_date(lesson)
    return standing is not None and on is not None and names_date(standing, on)


def in_order(bookings: Iterable[ScheduledLesson]) -> list[ScheduledLesson]:
    """By start; two at once by student's name, then id, so that the order never flickers."""
    return sorted(bookings, key=lambda booking: (booking.lesson.starts_at, booking.student.name, booking.lesson.id))


def called(bookings: Iterable[ScheduledLesson]) -> dict[LessonId, str]:
    """What each lesson's student is called among others: by name, and by family too where two have one name."""
    known = list(bookings)
    families: dict[str, set[FamilyId]] = {}
    for booking in known:
        families.setdefault(name_key(booking.student.name), set()).add(booking.family.id)
    return {
        b.lesson.id: f"{b.student.name} ({b.family.name})"
        if len(families[name_key(b.student.name)]) > 1
        else b.student.name
        for b in known
    }


def told_apart(bookings: Iterable[ScheduledLesson]) -> list[ScheduledLesson]:
    """The bookings with each student under the name that it is called by among the others."""
    known = list(bookings)
    names = called(known)
    return [replace(b, student=replace(b.student, name=names[b.lesson.id])) for b in known]


def reads_otherwise(booking: ScheduledLesson, zone: Zone) -> bool:
    """Whether a lesson is at another time of its family's clock than of a clock that they may have had."""
    at = booking.lesson.starts_at
    return local_time(at, zone).replace(tzinfo=None) != local_time(at, booking.family.zone).replace(tzinfo=None)


def are_together(one: ScheduledLesson, other: ScheduledLesson) -> bool:
    """Whether two lessons are one for the teacher: their weekly times share their lessons, and both are at the same time.

    One that is moved alone, or whose weekly time becomes another one, is a lesson by itself.
    """
    return (
        one.shares is not None
        and one.shares == other.shares
        and one.lesson.id != other.lesson.id
        and (one.lesson.starts_at, one.lesson.minutes) == (other.lesson.starts_at, other.lesson.minutes)
    )


def together_with(booking: ScheduledLesson, bookings: Iterable[ScheduledLesson]) -> list[ScheduledLesson]:
    """The other lessons that share the time of one and take place, or are to."""
    return [each for each in bookings if are_together(booking, each) and each.lesson.outcome is None]


def each_time_once(bookings: Sequence[ScheduledLesson]) -> list[ScheduledLesson]:
    """The lessons as the teacher's time counts them: of those who share one, the first that takes place."""
    kept: list[ScheduledLesson] = []
    for booking in bookings:
        if not together_with(booking, kept):
            kept.append(booking)
    return kept


def live_one(bookings: Iterable[ScheduledLesson]) -> ScheduledLesson | None:
    """The lesson that is being taught, if any."""
    return next((booking for booking in bookings if booking.lesson.is_live), None)


def opens_on(bookings: list[ScheduledLesson], now: datetime) -> LessonId | None:
    """The lesson to show when the day opens: the running one, else the next that is still to come, else the last."""
    running = live_one(bookings)
    if running is not None:
        return running.lesson.id
    to_come = (b for b in bookings if b.lesson.finished_at is None and b.lesson.outcome is None)
    for booking in to_come:
        if booking.lesson.planned_end > now:
            return booking.lesson.id
    return bookings[-1].lesson.id if bookings else None


def after_finishing(bookings: list[ScheduledLesson], finished: LessonId) -> LessonId:
    """The lesson to show when one is finished: one that still runs, else the next one that is still booked, else the same."""
    if (running := live_one(bookings)) is not None:
        return running.lesson.id
    ids = [booking.lesson.id for booking in bookings]
    for booking in bookings[ids.index(finished) + 1 :]:
        if booking.lesson.is_open:
            return booking.lesson.id
    return finished


def was_taught(lesson: Lesson) -> bool:
    """Whether the lesson took place, or is taking place."""
    return lesson.outcome is None and (lesson.began_at is not None or lesson.finished_at is not None)
