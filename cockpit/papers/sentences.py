"""What every form of the practice notes says in the same words; times are on the family's own clock."""

from datetime import datetime

from cockpit.studio.notes import Line, NoteLine
from cockpit.studio.practice_notes import PracticeNotes
from cockpit.studio.words import city, clock_time, long_date, minutes_of, short_date, utc_offset

ASSIGNMENTS = "What to practice"
REMARKS = "From the lesson"
NEXT_LESSON = "Next lesson"
_NOT_BOOKED = "The next lesson is not booked yet."


def title(paper: PracticeNotes) -> str:
    """Whose practice notes they are."""
    return f"Practice notes for {paper.student}"


def taught(paper: PracticeNotes) -> str:
    """When the lesson was: `Tuesday 1 December 2026, 3:00 pm Phoenix time`."""
    return _when(paper.taught_at, paper)


def length(paper: PracticeNotes) -> str:
    """How long the lesson was booked for, and what it was: `30 minutes of cello`."""
    booked = minutes_of(paper.minutes)
    return f"{booked} of {paper.instrument}" if paper.instrument else booked


def area_label(assignment: NoteLine) -> str:
    """What an assignment works on, as a label: `Method book`."""
    return (assignment.area or Line.ASSIGNMENT).capitalize()


def next_lesson(paper: PracticeNotes) -> str:
    """When the next lesson is, with the offset from UTC, and on which days before it there is none.

    `Tuesday 8 December 2026, 3:00 pm Phoenix time (UTC−07:00)`.
    """
    if paper.next_at is None:
        return _NOT_BOOKED
    following = f"{_when(paper.next_at, paper)} ({utc_offset(paper.next_at, paper.zone)})"
    if not paper.none_on:
        return following
    *before, last = (short_date(on) for on in paper.none_on)
    return f"{following}. No lesson on {' and '.join([', '.join(before), last] if before else [last])}"


def _when(at: datetime, paper: PracticeNotes) -> str:
    return f"{long_date(at.date())}, {clock_time(at, paper.hours)} {city(paper.zone)} time"
