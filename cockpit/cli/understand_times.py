"""Reads a line that would move, make up, add, or pause lessons, or set a weekly time or a break, and says what it means."""

from collections.abc import Callable, Mapping
from datetime import time
from functools import partial
from types import MappingProxyType

from cockpit.cli.answers import LineAnswer, Question
from cockpit.desk.calendar.arranging import Arranging
from cockpit.desk.calendar.proposals import Proposal, Purpose
from cockpit.desk.lookup import bookings_on
from cockpit.studio.clocks.moments import WEEKDAYS, local_time
from cockpit.studio.clocks.words import long_date
from cockpit.studio.errors import BadInput, CockpitError, NotFound
from cockpit.studio.lessons.breaks import Break, Pause
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.lessons.weekly_times import StandingTime
from cockpit.wiring import Studio

_FIELDS = (
    *("student", "family", "starts_at", "minutes", "from_on", "until_on", "weekday", "at", "zone", "every_weeks"),
    *("first_on", "last_on", "whom", "reason", "troubles"),
)
_NOBODYS = (Purpose.TRIAL, Purpose.BREAK)


def _answers(purpose: Purpose, studio: Studio, question: Question) -> list[LineAnswer]:
    """What lines for a purpose mean, each by itself."""
    if question.is_whole:
        raise BadInput("--whole reads notes. A line on a time is read by itself.")
    booking = None if purpose in _NOBODYS else _booking(studio, question)
    arranging = studio.desk.arranging.without_numbers()
    return [_answer(arranging, purpose, booking, line, studio) for line in question.lines]


def _booking(studio: Studio, question: Question) -> ScheduledLesson:
    """The lesson that lines are about: the student's on a date, else the next one."""
    if question.student is None:
        raise BadInput("Whose lesson is it? Add --student NAME.")
    student = studio.desk.finding.student(question.student).student
    if question.on is None:
        found = studio.desk.finding.next_lesson(student)
    else:
        on_day = bookings_on(studio.store.reading, question.on, studio.preferences.home)
        found = next((each for each in on_day if each.student.id == student.id), None)
    if found is None:
        day = "coming up" if question.on is None else f"on {long_date(question.on)}"
        raise NotFound(f"{student.name} has no lesson {day}.")
    return found


def _answer(
    arranging: Arranging, purpose: Purpose, booking: ScheduledLesson | None, line: str, studio: Studio
) -> LineAnswer:
    nothing: dict[str, object] = dict.fromkeys(_FIELDS)
    try:
        proposal = arranging.propose(purpose, booking, line)
    except CockpitError as fault:
        return LineAnswer(refused=str(fault), fields=nothing)
    fields = {**nothing, **_lesson(proposal, studio), **_kept(proposal), "troubles": list(proposal.troubles)}
    return LineAnswer(understood=proposal.understood, fields=fields)


def _lesson(proposal: Proposal, studio: Studio) -> Mapping[str, object]:
    """The lesson that a line names; its weekday and time are those of the clock that the line is read on."""
    booking = proposal.lesson
    if booking is None or proposal.zone is None:
        return {}
    starts_at = booking.lesson.starts_at
    there = local_time(starts_at, proposal.zone)
    return {
        "student": booking.student.name,
        "family": booking.family.name,
        "starts_at": studio.preferences.home.local(starts_at).isoformat(),
        "minutes": booking.lesson.minutes,
        "weekday": WEEKDAYS[there.weekday()],
        "at": _clock(there.time()),
        "zone": proposal.zone,
    }


def _kept(proposal: Proposal) -> Mapping[str, object]:
    """The dates of a weekly time or a break that a line makes, or ends."""
    match proposal.edits[-1 if proposal.lesson is None else 0].after:
        case Break() as each:
            return {
                "first_on": each.from_on.isoformat(),
                "last_on": each.until_on.isoformat(),
                "whom": proposal.whom or "studio",
                "reason": each.reason or None,
            }
        case Pause() as each:
            return {
                "first_on": each.from_on.isoformat(),
                "last_on": each.until_on.isoformat() if each.until_on is not None else None,
                "whom": proposal.whom,
                "reason": each.reason or None,
            }
        case _:
            return _weekly(proposal)


def _weekly(proposal: Proposal) -> Mapping[str, object]:
    times = [edit for edit in proposal.edits if isinstance(edit.after, StandingTime)]
    if not times or not isinstance(after := times[-1].after, StandingTime):
        return {}
    is_new = times[-1].before is None
    return {
        "from_on": after.from_on.isoformat() if is_new and after.from_on is not None else None,
        "until_on": after.until_on.isoformat() if after.until_on is not None else None,
        "every_weeks": after.every_weeks,
    }


def _clock(at: time) -> str:
    return f"{at:%H:%M}"


TIME_KINDS: Mapping[str, Callable[[Studio, Question], list[LineAnswer]]] = MappingProxyType(
    {
        ("time" if purpose is Purpose.CHANGE else str(purpose)): partial(_answers, purpose)
        for purpose in (
            Purpose.MOVE,
            Purpose.MAKE_UP,
            Purpose.EXTRA,
            Purpose.TRIAL,
            Purpose.CHANGE,
            Purpose.BREAK,
            Purpose.PAUSE,
        )
    }
)
