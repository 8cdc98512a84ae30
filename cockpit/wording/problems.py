"""Scheduling problems in sentences, with the times of both clocks."""

from collections.abc import Sequence
from datetime import date, time
from typing import assert_never

from cockpit.studio.calendar.collisions import Group, Meant, SchedulingProblem, Trouble, lessons_of
from cockpit.studio.clocks.moments import Zone, day_bounds, local_time
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import (
    city,
    clock_time,
    counted,
    minutes_of,
    near_date,
    possessive,
    short_date,
)
from cockpit.studio.lessons.scheduled import ScheduledLesson

_MORNING = 5  # o'clock; common practice, no source


def dated_sentence(finding: SchedulingProblem, home: TeacherClock, today: date | None = None) -> str:
    """What goes wrong, in a sentence, with the date on the teacher's clock and both clocks' times.

    The date of NO_SUCH_TIME is the one that was meant. It has its year where that is not the one of `today`.
    """
    return f"{_date(finding, home, today)}: {problem_sentence(finding, home)}"


def group_sentence(group: Group, home: TeacherClock, today: date | None = None) -> str:
    """The first finding of a group in a sentence, with how often it comes again and until when.

    Its date has its year where that is not the one of `today`, and the last date where it is not that of the first.
    """
    again = len(group.findings) - 1
    if not again:
        return dated_sentence(group.first, home, today)
    # Of a year from now, the last date can be in the same month as the first.
    last = near_date(_on(group.last, home), _on(group.first, home))
    until = f"and {counted(again, 'more time')} through {last}"
    return f"{_date(group.first, home, today)} {until}: {problem_sentence(group.first, home)}"


def days_ahead(days: int) -> str:
    """How far problems are looked for from now on: `the next year`, or so many days."""
    return "the next year" if days > 364 else f"the next {days} days"


def _date(finding: SchedulingProblem, home: TeacherClock, today: date | None) -> str:
    on = _on(finding, home)
    return near_date(on, today or on)


def _on(finding: SchedulingProblem, home: TeacherClock) -> date:
    at = finding.meant.at if finding.meant else home.local(finding.booking.lesson.starts_at)
    return at.date()


def problem_sentence(finding: SchedulingProblem, home: TeacherClock) -> str:
    """The sentence without its date."""
    names = _names(lessons_of(finding))
    timed = [f"{name} ({_times(each, home)})" for name, each in zip(names, lessons_of(finding), strict=True)]
    match finding.trouble:
        case Trouble.OVERLAP:
            return f"{' and '.join(timed)} overlap by {minutes_of(finding.minutes)}."
        case Trouble.TOO_CLOSE:
            few = f"There {'is' if finding.minutes == 1 else 'are'} only {minutes_of(finding.minutes)}"
            return f"{few if finding.minutes else 'There is no time'} between {' and '.join(timed)}."
        case Trouble.NIGHT:
            return f"{timed[0]} is {_outside(finding, finding.booking.family.zone)} for the family."
        case Trouble.OWN_NIGHT:
            return f"{timed[0]} is {_outside(finding, home.zone)} for you."
        case Trouble.NO_SUCH_TIME:
            held_on = short_date(home.date_of(finding.booking.lesson.starts_at))
            held = f"{possessive(names[0])} lesson is on {held_on} ({_times(finding.booking, home)})"
            return f"{_missing(finding.meant, home.hours)}; {held}."
        case _ as never:
            assert_never(never)


def problem_columns(group: Group, home: TeacherClock, today: date) -> tuple[str, str, str, tuple[str, ...]]:
    """A problem in columns: its first date, the time and the name of the lesson that would be moved, and what is wrong with it.

    What is wrong is a clause of that lesson; below it the family's clock, and how often it comes again.
    """
    finding = group.first
    names, moved = _names(lessons_of(finding)), finding.other or finding.booking
    facts = [_clause(finding, names, home)]
    if there := home.there(moved.lesson.starts_at, moved.family.zone):
        facts.append(there)
    if again := len(group.findings) - 1:
        last = near_date(_on(group.last, home), _on(finding, home))
        facts.append(f"and {counted(again, 'more time')} through {last}")
    return _date(finding, home, today), home.time(moved.lesson.starts_at), names[-1], tuple(facts)


def _clause(finding: SchedulingProblem, names: Sequence[str], home: TeacherClock) -> str:
    first = finding.booking.lesson
    begins, ends = (home.time(at) for at in (first.starts_at, first.ends_at))
    match finding.trouble:
        case Trouble.OVERLAP:
            return f"overlaps {names[0]}, {begins} to {ends}, by {minutes_of(finding.minutes)}"
        case Trouble.TOO_CLOSE:
            few = f"only {minutes_of(finding.minutes)}" if finding.minutes else "no time"
            return f"{few} after {names[0]}, {begins} to {ends}"
        case Trouble.NIGHT:
            return f"{_outside(finding, finding.booking.family.zone)} for the family"
        case Trouble.OWN_NIGHT:
            return f"{_outside(finding, home.zone)}{' for you' if _is_night(finding, home.zone) else ''}"
        case Trouble.NO_SUCH_TIME:
            held_on = short_date(home.date_of(finding.booking.lesson.starts_at))
            return f"{_missing(finding.meant, home.hours)}; the lesson is on {held_on}"
        case _ as never:
            assert_never(never)


def _outside(finding: SchedulingProblem, zone: Zone) -> str:
    """What her settings do not allow."""
    return "during the night" if _is_night(finding, zone) else "outside your teaching hours"


def _is_night(finding: SchedulingProblem, zone: Zone) -> bool:
    """Whether it is a night to everybody: only what begins after midnight or goes on past it."""
    lesson = finding.booking.lesson
    begins, ends = local_time(lesson.starts_at, zone), local_time(lesson.ends_at, zone)
    return begins.hour < _MORNING or (begins.date() != ends.date() and ends.time() != time())


def _missing(meant: Meant | None, hours: int) -> str:
    if meant is None:
        return "That time does not exist"
    begins, ends = day_bounds(meant.at.date(), meant.zone)
    if begins == ends:
        return f"That day does not exist in {city(meant.zone)}"
    return f"{clock_time(meant.at, hours)} does not exist in {city(meant.zone)} that day"


def _times(booking: ScheduledLesson, home: TeacherClock) -> str:
    lesson = booking.lesson
    begins, ends = (home.time(at) for at in (lesson.starts_at, lesson.ends_at))
    theirs = home.there(lesson.starts_at, booking.family.zone)
    return f"{begins} to {ends}" + (f"; {theirs}" if theirs else "")


def _names(bookings: Sequence[ScheduledLesson]) -> list[str]:
    names = [booking.student.name for booking in bookings]
    if len(set(names)) == len({booking.student.id for booking in bookings}):
        return names
    return [f"{booking.student.name} of the {booking.family.name} family" for booking in bookings]
