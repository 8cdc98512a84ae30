"""The lines of the review."""

from textual.content import Content

from cockpit.screens.look.show import rehearsed_words, role, state_words
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, short_date
from cockpit.studio.day.review import Missing, OtherDaysNotes, OwedFollowUp, ReviewedLesson
from cockpit.studio.lessons.breaks import LeftOut
from cockpit.studio.lessons.lesson import State
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.wording.day_review import missing_sentence


def missing_row(missing: Missing | OtherDaysNotes) -> Content:
    """Something left undone."""
    return Content.assemble(("! ", role("warning", "bold")), missing_sentence(missing))


def lesson_row(reviewed: ReviewedLesson, home: TeacherClock) -> Content:
    """A lesson: when it was planned and when it was, and what became of its notes."""
    lesson = reviewed.booking.lesson
    planned = f"{home.time(lesson.starts_at)}–{home.time(lesson.planned_end)}"
    real = "actual times not recorded"
    if lesson.began_at is not None and lesson.finished_at is not None:
        began, finished = home.time(lesson.began_at), home.time(lesson.finished_at)
        real = f"taught {began}–{finished}, {reviewed.minutes_taught} min"
    facts = [real] if lesson.outcome is None and lesson.finished_at is not None else []
    if lesson.is_live and lesson.began_at is not None:
        facts = [f"began {home.time(lesson.began_at)}, {reviewed.minutes_taught} min so far"]
    facts += [_notes_fact(reviewed), rehearsed_words(lesson)]
    return Content.assemble(
        (f"{planned}  ", ""),
        (reviewed.booking.student.name, "bold"),
        "  ",
        state_words(reviewed.state),
        ("".join(f"\n    {fact}" for fact in [" · ".join(fact for fact in facts if fact)] if fact), role("quiet")),
    )


def _notes_fact(reviewed: ReviewedLesson) -> str:
    if not reviewed.has_notes:
        return "no notes" if reviewed.state is State.FINISHED else ""
    given = counted(reviewed.assignments, "assignment")
    if reviewed.export is None:
        return f"{given} · not exported"
    kind = "exported" if reviewed.export.is_final else "draft"
    return f"{given} · {kind}{' before the last change' if reviewed.is_stale else ''}"


def follow_up_row(owed: OwedFollowUp, home: TeacherClock) -> Content:
    """Something owed; choosing it ticks it."""
    noted_on = short_date(home.date_of(owed.noted_at))
    return Content.assemble("[ ] ", owed.follow_up.body, (f"  {owed.student}, {noted_on}", role("quiet")))


def tomorrow_row(booking: ScheduledLesson, home: TeacherClock) -> Content:
    """A lesson of the day after."""
    lesson = booking.lesson
    there = home.there(lesson.starts_at, booking.family.zone)
    facts = " · ".join(fact for fact in (lesson.instrument, f"{lesson.minutes} min", there) if fact)
    at = home.time(lesson.starts_at)
    return Content.assemble(f"{at}  ", (booking.student.name, "bold"), (f"  {facts}", role("quiet")))


def left_out_row(each: LeftOut, home: TeacherClock) -> Content:
    """A lesson that a break takes away."""
    why = f", {each.because.reason}" if each.because.reason else ""
    said = f"{home.date_and_time(each.booking.lesson.starts_at)}  {each.booking.student.name}{why}"
    return Content.styled(said, role("quiet"))
