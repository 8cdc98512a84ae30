"""The calendar that is handed out: weekly rules with their exceptions, and the single lessons beside them."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta
from itertools import groupby

from cockpit.studio.clocks.home import Home
from cockpit.studio.clocks.horizons import A_YEAR
from cockpit.studio.clocks.moments import WEEK, Zone, lesson_zone, moment, parted
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import possessive
from cockpit.studio.lessons.breaks import Pause, TimeOff, without_breaks
from cockpit.studio.lessons.lesson import NOT_HELD, Kind, Lesson, LessonId, meeting_date, weekly_id
from cockpit.studio.lessons.scheduled import (
    Enrollment,
    People,
    ScheduledLesson,
    gone_along,
    left_behind,
    merged,
    planned,
)
from cockpit.studio.lessons.weekly_times import KeptIn, Occurrence, StandingTime, ends_before_it_begins, occurrences
from cockpit.studio.lessons.withdrawn import NOBODY, WithdrawnClock, WithdrawnLesson, WithdrawnTime
from cockpit.studio.people.people import Family, Student, StudentId
from cockpit.studio.values import Value, replace

_LONGEST = timedelta(days=3653)


class SharedLesson(Value):
    """A lesson that stands by itself, or, with `instead_of`, in the place of one of a series.

    `starts_at` is UTC; `instead_of` is the naive local start by the rule, on the clock of the series.
    """

    uid: str
    title: str
    starts_at: datetime
    minutes: int
    call_link: str | None = None
    instead_of: datetime | None = None


class SharedSeries(Value):
    """A weekly rule on the clock of one IANA zone.

    `first` and `left_out` are naive local starts; `last` is the UTC start of the last meeting, None if there is none.
    One that is cancelled has no meeting any more: a program that has it is told so. So it is of the meetings in `gone`,
    which were moved and are beyond its end now.
    """

    uid: str
    title: str
    zone: str
    first: datetime
    minutes: int
    every_weeks: int = 1
    last: datetime | None = None
    left_out: tuple[datetime, ...] = ()
    moved: tuple[SharedLesson, ...] = ()
    gone: tuple[SharedLesson, ...] = ()
    call_link: str | None = None
    is_cancelled: bool = False


class SharedCalendar(Value):
    """A calendar to be handed out, with nothing private in it. `made_at` is UTC.

    The single lessons in `cancelled` do not take place: a program that has one of them is told so.
    """

    uid: str
    name: str
    revision: int
    made_at: datetime
    series: tuple[SharedSeries, ...] = ()
    lessons: tuple[SharedLesson, ...] = ()
    cancelled: tuple[SharedLesson, ...] = ()


class Timetable(Value):
    """What lessons come from: weekly times, what is recorded, breaks, and the teacher's clock.

    `recorded` holds at least the lessons that start in the time asked for, and those that were moved out of it.
    `withdrawn_lessons`, `withdrawn_times`, and the moves of `withdrawn_clocks` are those that others may have and the
    studio has no more.
    """

    enrollments: Sequence[Enrollment]
    recorded: Sequence[Lesson] = ()
    people: People
    breaks: Sequence[TimeOff] = ()
    withdrawn_lessons: Sequence[WithdrawnLesson] = ()
    withdrawn_times: Sequence[WithdrawnTime] = ()
    withdrawn_clocks: Sequence[WithdrawnClock] = ()
    home: TeacherClock


class Edition(Value):
    """Which calendar is handed out: the lessons that start in [begins, ends), of one family or of the whole studio.

    Moments are UTC; without `ends` the weekly rules go on. `uid` names the studio for good, and `revision` grows with
    every change: by both, a calendar program knows what it has already.
    """

    uid: str
    revision: int
    made_at: datetime
    begins: datetime
    ends: datetime | None = None
    family: Family | None = None


def shared_calendar(timetable: Timetable, edition: Edition) -> SharedCalendar:
    """The calendar of a studio or of one family.

    A weekly time becomes one series for each zone that the owner of its clock lives in. What was cancelled or
    falls into a break is left out of its series; what was moved stands in place of its meeting, and so does what was
    moved back. A single lesson that is cancelled is named as such, so that it goes where it was handed out before; so
    is, until its date is past, what was withdrawn. Without an end, the rules go on for
    good, unless a date that changes something lies more than ten years ahead: then they end there.
    """
    family = edition.family
    if family is not None:
        timetable = _of_family(timetable, family)
    timetable = _ended_by_pauses(timetable)
    span = _span(timetable, edition)
    held = {booking.lesson.id: booking for booking in lessons_held(timetable, span.begins, span.ends)}
    series: list[SharedSeries] = []
    for enrollment in sorted(timetable.enrollments, key=lambda each: each.standing.id):
        series += _series_of(enrollment, timetable, span, held, edition)
    series += _withdrawn_series(timetable, span, edition)
    series += _withdrawn_moves(timetable, span, edition)
    return SharedCalendar(
        uid=edition.uid if family is None else f"family-{family.id}@{edition.uid}",
        name="Lessons" if family is None else f"Lessons: {family.name}",
        revision=edition.revision,
        made_at=edition.made_at,
        series=tuple(series),
        lessons=tuple(_lesson(booking, f"{key}@{edition.uid}", family) for key, booking in held.items()),
        cancelled=(
            *(_lesson(each, f"{each.lesson.id}@{edition.uid}", family) for each in _singles_off(timetable, span)),
            *_withdrawn_lessons(timetable, span, edition),
        ),
    )


def _singles_off(timetable: Timetable, span: "_Span") -> list[ScheduledLesson]:
    """The cancelled lessons that stand by themselves; a cancelled one of a series is left out of that."""
    recorded = (
        lesson
        for lesson in timetable.recorded
        if lesson.outcome in NOT_HELD and lesson.kind is not Kind.WEEKLY and span.begins <= lesson.starts_at < span.ends
    )
    return merged((), recorded, timetable.people, timetable.enrollments)


def lessons_held(timetable: Timetable, begins: datetime, ends: datetime) -> list[ScheduledLesson]:
    """The lessons that start in [begins, ends), both UTC, and are not cancelled; in order.

    One whose student did not come took its place in the calendar, and is among them.
    """
    by_rule = planned(timetable.enrollments, timetable.home, begins, ends)
    # What a weekly time has left behind is no lesson for others, also where its notes are still to be found.
    left = {*left_behind(by_rule, timetable.recorded), *gone_along(by_rule, timetable.recorded, timetable.enrollments)}
    recorded = (lesson for lesson in timetable.recorded if lesson.id not in left)
    booked = merged(by_rule, recorded, timetable.people, timetable.enrollments)
    kept, _ = without_breaks(booked, timetable.breaks, timetable.home)
    return [
        booking
        for booking in kept
        if begins <= booking.lesson.starts_at < ends and booking.lesson.outcome not in NOT_HELD
    ]


class _Span(Value):
    """[begins, ends) in UTC; where the rules go on, nothing but they is behind `ends`."""

    begins: datetime
    ends: datetime
    goes_on: bool


def _of_family(timetable: Timetable, family: Family) -> Timetable:
    students = timetable.people.students
    return replace(
        timetable,
        enrollments=tuple(each for each in timetable.enrollments if each.family.id == family.id),
        recorded=tuple(each for each in timetable.recorded if students[each.student_id].family_id == family.id),
        withdrawn_lessons=tuple(each for each in timetable.withdrawn_lessons if _is_of(each, family, timetable)),
        withdrawn_times=tuple(each for each in timetable.withdrawn_times if _is_of(each, family, timetable)),
        withdrawn_clocks=tuple(each for each in timetable.withdrawn_clocks if each.family_id == family.id),
    )


def _ended_by_pauses(timetable: Timetable) -> Timetable:
    """The weekly times of who pauses without an end have one: others cannot be told of lessons that are left out for good."""
    begins: dict[StudentId, date] = {}
    for each in timetable.breaks:
        if isinstance(each, Pause) and each.until_on is None:
            begins[each.student_id] = min(begins.get(each.student_id, date.max), each.from_on)
    if not begins:
        return timetable
    return replace(
        timetable,
        enrollments=tuple(
            replace(each, standing=_ended_before(each.standing, begins[each.student.id]))
            if each.student.id in begins
            else each
            for each in timetable.enrollments
        ),
    )


def _ended_before(standing: StandingTime, on: date) -> StandingTime:
    return replace(standing, until_on=min(standing.until_on or date.max, on - timedelta(days=1)))


def _is_of(withdrawn: WithdrawnLesson | WithdrawnTime, family: Family, timetable: Timetable) -> bool:
    student = timetable.people.students.get(withdrawn.student_id or NOBODY)
    return student is not None and student.family_id == family.id


def _span(timetable: Timetable, edition: Edition) -> _Span:
    begins, ends = edition.begins, edition.ends
    if ends is not None:
        return _Span(begins=begins, ends=ends, goes_on=False)
    # So far behind the last change that every rule has met once more.
    after = WEEK * (max((each.standing.every_weeks for each in timetable.enrollments), default=1) + 2)
    latest = begins + _LONGEST
    changed_on = max(_changes(timetable), default=begins.date())
    if changed_on > (latest - after).date():
        return _Span(begins=begins, ends=latest, goes_on=False)
    changed_at = datetime.combine(max(changed_on, begins.date()), time(), UTC)
    return _Span(begins=begins, ends=changed_at + after, goes_on=True)


def _changes(timetable: Timetable) -> Iterator[date]:
    """The dates after which the rules may be another's, and those of their exceptions."""
    for enrollment in timetable.enrollments:
        yield from filter(None, (enrollment.standing.from_on, enrollment.standing.until_on))
    yield from (each.starts_at.date() for each in timetable.withdrawn_lessons)
    for withdrawn in timetable.withdrawn_times:
        yield from filter(None, (withdrawn.from_on, withdrawn.until_on))
    for each in timetable.breaks:
        if each.until_on is not None:
            yield each.until_on
    for lesson in timetable.recorded:
        yield lesson.starts_at.date()
        yield from filter(None, [meeting_date(lesson)])
    theirs = (each.family.zone for each in timetable.enrollments)
    clocks = (timetable.home.zone, *theirs, *(each.zone for each in timetable.withdrawn_clocks))
    for clock in dict.fromkeys(each for each in clocks if isinstance(each, Home)):
        yield from (stay.from_on for stay in clock.stays)


def _series_of(
    enrollment: Enrollment,
    timetable: Timetable,
    span: _Span,
    held: dict[LessonId, ScheduledLesson],
    edition: Edition,
) -> Iterator[SharedSeries]:
    """The series of a weekly time, in order; their lessons are taken out of `held`."""
    standing = enrollment.standing
    title = _title(enrollment.student, standing.instrument, edition.family)
    zone = standing.clock(timetable.home, enrollment.family.zone)
    moved_to = {each.lesson_id: each.starts_at for each in timetable.withdrawn_lessons}
    rules = list(_rules(standing, title, zone, span, edition))
    for rule, meetings in rules:
        series = _with_exceptions(rule, standing, meetings, held, edition, moved_to)
        is_last = rule is rules[-1][0]
        gone = tuple(_gone(rule, enrollment, timetable, edition)) if is_last and rule.last is not None else ()
        if rule.last is None or len(series.left_out) < len(meetings):
            yield replace(series, gone=gone)
        elif rule.last > edition.made_at:
            yield replace(rule, gone=gone, is_cancelled=True)


def _gone(rule: SharedSeries, enrollment: Enrollment, timetable: Timetable, edition: Edition) -> Iterator[SharedLesson]:
    """The meetings beyond the end of a rule that others may have where they were moved to, until that is past."""
    standing = enrollment.standing
    others = {
        meeting_date(lesson): lesson.starts_at
        for lesson in timetable.recorded
        if lesson.standing_time_id == standing.id and lesson.is_moved
    }
    own = f"w{standing.id}-"
    others |= {
        date.fromisoformat(each.lesson_id.removeprefix(own)): each.starts_at
        for each in timetable.withdrawn_lessons
        if each.lesson_id.startswith(own)
    }
    for on in sorted(filter(None, others)):
        by_rule = datetime.combine(on, standing.at)
        at = moment(by_rule, rule.zone)
        if rule.last is not None and at > rule.last and max(at, others[on]) > edition.made_at:
            yield SharedLesson(uid=rule.uid, title=rule.title, starts_at=at, minutes=rule.minutes, instead_of=by_rule)


def _rules(
    standing: StandingTime, title: str, zone: Zone, span: _Span, edition: Edition
) -> Iterator[tuple[SharedSeries, list[Occurrence]]]:
    """A weekly time as a rule for each zone that the owner of its clock lives in, with the meetings of each."""
    meetings = occurrences(standing, zone, span.begins, span.ends)
    stretches = [(move, list(those)) for move, those in groupby(meetings, lambda each: _moves(zone, each.taught_on))]
    for move, those in stretches:
        goes_on = span.goes_on and standing.until_on is None and move == stretches[-1][0]
        rule = SharedSeries(
            uid=f"standing-{standing.id}{f'-{move}' if move else ''}@{edition.uid}",
            title=title,
            zone=lesson_zone(zone, those[0].taught_on),
            first=datetime.combine(those[0].taught_on, standing.at),
            minutes=standing.minutes,
            every_weeks=standing.every_weeks,
            last=None if goes_on else those[-1].starts_at,
            call_link=standing.call_link,
        )
        yield rule, those


def _withdrawn_series(timetable: Timetable, span: _Span, edition: Edition) -> Iterator[SharedSeries]:
    """The weekly times that never met: those that were taken back, and those that ended before their first day.

    One that would have gone on for good is named for a year from its first day on.
    """
    here = {each.standing.id for each in timetable.enrollments}
    gone = [each.standing for each in timetable.withdrawn_times if each.standing_time_id not in here]
    gone += [
        replace(each.standing, until_on=None) for each in timetable.enrollments if ends_before_it_begins(each.standing)
    ]
    for standing in sorted(gone, key=lambda each: each.id):
        student = timetable.people.students.get(standing.student_id)
        zone: Zone = timetable.home.lesson_clock
        if student is not None:
            zone = standing.clock(timetable.home, timetable.people.families[student.family_id].zone)
        for rule, meetings in _rules(
            standing, _title(student, standing.instrument, edition.family), zone, span, edition
        ):
            first_on = standing.from_on or meetings[0].taught_on
            if (rule.last or datetime.combine(first_on, time(), UTC) + A_YEAR) > edition.made_at:
                yield replace(rule, is_cancelled=True)


def _withdrawn_moves(timetable: Timetable, span: _Span, edition: Edition) -> Iterator[SharedSeries]:
    """The weekly times behind a move of their family that was taken away; one without an end is named for a year."""
    clocks = {each.family_id: each.zone for each in timetable.withdrawn_clocks}
    for enrollment in sorted(timetable.enrollments, key=lambda each: each.standing.id):
        standing, family = enrollment.standing, enrollment.family
        if standing.kept_in is not KeptIn.FAMILY or family.id not in clocks:
            continue
        title = _title(enrollment.student, standing.instrument, edition.family)
        clock = standing.clock(timetable.home, clocks[family.id])
        for rule, meetings in _rules(standing, title, clock, span, edition):
            nth = _moves(clock, meetings[0].taught_on)
            if nth <= _moves(family.zone, date.max):
                continue
            moved_at = datetime.combine(_move_days(clock)[nth - 1], time(), UTC)
            if (rule.last or moved_at + A_YEAR) > edition.made_at:
                yield replace(rule, is_cancelled=True)


def _withdrawn_lessons(timetable: Timetable, span: _Span, edition: Edition) -> Iterator[SharedLesson]:
    """The lessons by themselves that were booked and taken back, until their date is past."""
    here = {lesson.id for lesson in timetable.recorded}
    for each in timetable.withdrawn_lessons:
        is_ahead = edition.made_at < each.starts_at and span.begins <= each.starts_at < span.ends
        if is_ahead and each.kind is not Kind.WEEKLY and each.lesson_id not in here:
            student = timetable.people.students.get(each.student_id or NOBODY)
            yield SharedLesson(
                uid=f"{each.lesson_id}@{edition.uid}",
                title=_title(student, each.instrument, edition.family),
                starts_at=each.starts_at,
                minutes=each.minutes,
            )


def _moves(zone: Zone, on: date) -> int:
    """How often the owner of a clock has moved house up to a date: the number stays when the date of a move is corrected."""
    return sum(day <= on for day in _move_days(zone))


def _move_days(zone: Zone) -> list[date]:
    """The first days of the moves of a clock's owner, in order."""
    return sorted(stay.from_on for stay in parted(zone)[1] if stay.until_on is None)


def _with_exceptions(
    rule: SharedSeries,
    standing: StandingTime,
    meetings: Iterable[Occurrence],
    held: dict[LessonId, ScheduledLesson],
    edition: Edition,
    moved_to: Mapping[LessonId, datetime],
) -> SharedSeries:
    left_out: list[datetime] = []
    moved: list[SharedLesson] = []
    for meeting in meetings:
        by_rule = datetime.combine(meeting.taught_on, standing.at)
        lesson_id = weekly_id(standing.id, meeting.taught_on)
        booking = held.pop(lesson_id, None)
        if booking is None:
            left_out.append(by_rule)
            continue
        lesson = _lesson(booking, rule.uid, edition.family)
        # A program that has it where it was moved to goes by what stands in its place, not by the rule.
        is_moved_back = lesson_id in moved_to and max(meeting.starts_at, moved_to[lesson_id]) > edition.made_at
        if is_moved_back or _content(lesson) != (meeting.starts_at, rule.minutes, rule.title, rule.call_link):
            moved.append(replace(lesson, instead_of=by_rule))
    return replace(rule, left_out=tuple(left_out), moved=tuple(moved))


def _content(lesson: SharedLesson) -> tuple[datetime, int, str, str | None]:
    return lesson.starts_at, lesson.minutes, lesson.title, lesson.call_link


def _lesson(booking: ScheduledLesson, uid: str, family: Family | None) -> SharedLesson:
    return SharedLesson(
        uid=uid,
        title=_title(booking.student, booking.lesson.instrument, family),
        starts_at=booking.lesson.starts_at,
        minutes=booking.lesson.minutes,
        call_link=booking.call_link,
    )


def _title(student: Student | None, instrument: str | None, family: Family | None) -> str:
    """What a lesson is called: to the teacher by student and instrument, to the family as their child's lesson."""
    if student is None:
        return "Lesson"
    if family is not None:
        return f"{possessive(student.name)} lesson"
    return student.name if instrument is None else f"{student.name}, {instrument}"
