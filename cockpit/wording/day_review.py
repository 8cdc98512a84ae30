"""The end of the day: who came, and what is left undone."""

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, minutes_of, possessive, short_date
from cockpit.studio.day.review import (
    BroughtAlong,
    DayReview,
    Lack,
    Missing,
    OtherDaysNotes,
    Owed,
    OwedFollowUp,
    WeekSoFar,
)
from cockpit.studio.lessons.calls import OwedMinutes
from cockpit.studio.lessons.lesson import State, in_words
from cockpit.studio.lessons.scheduled import was_taught
from cockpit.wording.outbox import outbox_words

_REMEMBER = "»"
_SAID = {
    Lack.NOT_FINISHED: "{whose} lesson is not finished",
    Lack.NO_OUTCOME: "{whose} lesson is not marked. Was it finished, absent, or canceled?",
    Lack.NO_NOTES: "No notes for {name}",
    Lack.NOT_EXPORTED: "{whose} notes are not in the studio folder",
    Lack.DRAFT: "{whose} notes are still a draft",
    Lack.CHANGED: "{whose} notes changed after they were exported",
    Lack.IN_DOUBT: "Did {whose} notes arrive? Answer in the outbox",
    Lack.REFUSED: "{whose} notes were refused. See the outbox",
    Lack.WAITING: "{whose} notes are still waiting in the outbox",
}


def missing_sentence(missing: Missing | OtherDaysNotes) -> str:
    """What is left undone, and what to do about it where that is not clear."""
    if isinstance(missing, OtherDaysNotes):
        return f"Also in the outbox: {outbox_words(missing.fates)}"
    return _SAID[missing.lack].format(name=missing.student, whose=possessive(missing.student))


def owed_words(owed: Owed, home: TeacherClock) -> tuple[str, str]:
    """What is owed, and to whom or until when, and since when."""
    if isinstance(owed, OwedFollowUp):
        return owed.follow_up.body, f"{owed.student}, {short_date(home.date_of(owed.noted_at))}"
    if isinstance(owed, OwedMinutes):
        since = owed.lost.lessons[0].starts_at
        return f"{minutes_of(owed.minutes)} of lost calls", f"{owed.student.name}, {short_date(home.date_of(since))}"
    by = f"by {short_date(owed.duty.by_on)}" if owed.duty.by_on is not None else f"since {short_date(owed.since)}"
    return owed.duty.words, by


def week_words(week: WeekSoFar) -> str:
    """How much of a week was taught, and what is owed: `162 of 555 minutes taught   4 of 13 lessons   1 make-up owed`."""
    facts = [
        f"{week.minutes_taught} of {minutes_of(week.minutes)} taught",
        f"{week.taught} of {counted(week.lessons, 'lesson')}",
        f"{counted(week.owed, 'make-up')} owed" if week.owed else "",
    ]
    return "   ".join(filter(None, facts))


def attendance(review: DayReview) -> str:
    """Who came, with the count it is taken from: `3 of 5 lessons taught, 1 absent, 1 cancelled`."""
    taught = sum(was_taught(lesson.booking.lesson) for lesson in review.lessons)
    parts = [f"{taught} of {counted(len(review.lessons), 'lesson')} taught"]
    closed = (
        (review.count(state), state)
        for state in (State.ABSENT, State.CANCELLED, State.CANCELLED_LATE, State.CALLED_OFF, State.NOT_MARKED)
    )
    parts += [f"{number} {in_words(state)}" for number, state in closed if number]
    return ", ".join(parts)


def brought_words(brought: BroughtAlong) -> str:
    """What a student brings to a lesson: `» bring the reed case`, else `3 open, oldest 2 weeks`."""
    return f"{_REMEMBER} {'; '.join(brought.next_time)}" if brought.next_time else asked_words(brought)


def asked_words(brought: BroughtAlong) -> str:
    """How much a student was asked to do that is open still: `3 open, oldest 2 weeks`."""
    return f"{brought.open} open" + (f", oldest {counted(brought.weeks, 'week')}" if brought.weeks > 1 else "")
