"""Scheduling problems in sentences, with the times of both clocks."""

from collections.abc import Sequence
from datetime import date
from typing import assert_never

from cockpit.studio.calendar.collisions import Group, Meant, SchedulingProblem, Trouble, lessons_of
from cockpit.studio.clocks.moments import Zone, day_bounds, local_time
from cockpit.studio.clocks.words import (
    city,
    clock_time,
    counted,
    family_time,
    minutes_of,
    near_date,
    possessive,
    short_date,
)
from cockpit.studio.lessons.scheduled import ScheduledLesson


def dated_sentence(finding: SchedulingProblem, home_zone: Zone, hours: int) -> str:
    """What goes wrong, in a sentence, with the date on the teacher's clock (12 or 24 `hours`) and both clocks' times.

    The date of NO_SUCH_TIME is the one that was meant.
    """
    return f"{_date(finding, home_zone)}: {problem_sentence(finding, home_zone, hours)}"


def group_sentence(group: Group, home_zone: Zone, hours: int) -> str:
    """The first finding of a group in a sentence, with how often it comes again and until when; with the year, if that is another."""
    again = len(group.findings) - 1
    if not again:
        return dated_sentence(group.first, home_zone, hours)
    # Of a year from now, the last date can be in the same month as the first.
    last = near_date(_on(group.last, home_zone), _on(group.first, home_zone))
    until = f"and {counted(again, 'more time')} through {last}"
    return f"{_date(group.first, home_zone)} {until}: {problem_sentence(group.first, home_zone, hours)}"


def days_ahead(days: int) -> str:
    """How far problems are looked for from now on: `the next year`, or so many days."""
    return "the next year" if days > 364 else f"the next {days} days"


def _date(finding: SchedulingProblem, home_zone: Zone) -> str:
    return short_date(_on(finding, home_zone))


def _on(finding: SchedulingProblem, home_zone: Zone) -> date:
    at = finding.meant.at if finding.meant else local_time(finding.booking.lesson.starts_at, home_zone)
    return at.date()


def problem_sentence(finding: SchedulingProblem, home_zone: Zone, hours: int) -> str:
    """The sentence without its date."""
    names = _names(lessons_of(finding))
    timed = [
        f"{name} ({_times(each, home_zone, hours)})" for name, each in zip(names, lessons_of(finding), strict=True)
    ]
    match finding.trouble:
        case Trouble.OVERLAP:
            return f"{' and '.join(timed)} overlap by {minutes_of(finding.minutes)}."
        case Trouble.TOO_CLOSE:
            few = f"There {'is' if finding.minutes == 1 else 'are'} only {minutes_of(finding.minutes)}"
            return f"{few if finding.minutes else 'There is no time'} between {' and '.join(timed)}."
        case Trouble.NIGHT:
            return f"{timed[0]} is during the night for the family."
        case Trouble.NO_SUCH_TIME:
            held_on = short_date(local_time(finding.booking.lesson.starts_at, home_zone).date())
            held = f"{possessive(names[0])} lesson is on {held_on} ({_times(finding.booking, home_zone, hours)})"
            return f"{_missing(finding.meant, hours)}; {held}."
        case _ as never:
            assert_never(never)


def _missing(meant: Meant | None, hours: int) -> str:
    if meant is None:
        return "That time does not exist"
    begins, ends = day_bounds(meant.at.date(), meant.zone)
    if begins == ends:
        return f"That day does not exist in {city(meant.zone)}"
    return f"{clock_time(meant.at, hours)} does not exist in {city(meant.zone)} that day"


def _times(booking: ScheduledLesson, home_zone: Zone, hours: int) -> str:
    lesson = booking.lesson
    begins, ends = (clock_time(local_time(at, home_zone), hours) for at in (lesson.starts_at, lesson.ends_at))
    theirs = family_time(lesson.starts_at, home_zone, booking.family.zone, hours)
    return f"{begins} to {ends}" + (f"; {theirs}" if theirs else "")


def _names(bookings: Sequence[ScheduledLesson]) -> list[str]:
    names = [booking.student.name for booking in bookings]
    if len(set(names)) == len({booking.student.id for booking in bookings}):
        return names
    return [f"{booking.student.name} of the {booking.family.name} family" for booking in bookings]
