"""The review of a day as Markdown. It is the teacher's own: it says what no family may see."""

from collections.abc import Iterable

from cockpit.papers.notes.literal import literal_line
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, long_date, minutes_of
from cockpit.studio.day.review import DayReview, InquiriesToDo, Owed, ReviewedLesson
from cockpit.studio.inquiries.inquiry import InquiryState
from cockpit.studio.lessons.breaks import LeftOut
from cockpit.studio.lessons.lesson import Kind, Lesson, in_words
from cockpit.studio.lessons.scheduled import ScheduledLesson, was_taught
from cockpit.wording.day_review import attendance, missing_sentence, owed_words


def review_markdown(review: DayReview, home: TeacherClock) -> str:
    """A day looked back on, and the next one laid out; times on the teacher's clock."""
    said = f"{attendance(review)}, {minutes_of(review.minutes_taught)} total." if review.lessons else "No lessons."
    blocks = [
        f"# End of the day: {long_date(review.on)}",
        said,
        *_section("Lessons", (_lesson(lesson, home) for lesson in review.lessons), ""),
        *_section("Missing", map(missing_sentence, review.missing), "Nothing missing."),
        *_section("Follow-ups", (_owed(owed, home) for owed in review.owed), "No open follow-ups."),
        *_section(
            long_date(review.tomorrow_on),
            (_tomorrow(booking, home) for booking in review.tomorrow),
            "No lessons.",
        ),
    ]
    if review.inquiries is not None and review.inquiries.due:
        blocks += _section("Inquiries", _inquiries(review.inquiries), "")
    if review.left_out:
        blocks += _section("On break", (_left_out(each, home) for each in review.left_out), "")
    return "\n\n".join(blocks) + "\n"


def _section(heading: str, items: Iterable[str], otherwise: str) -> list[str]:
    listed = "\n".join(f"- {literal_line(item)}" for item in items) or otherwise
    return [f"## {heading}", listed] if listed else []


def _inquiries(inquiries: InquiriesToDo) -> list[str]:
    """How many wait, without their names: they are deleted long before this page is."""
    answers = sum(each.state is InquiryState.NEW for each in inquiries.due)
    others = len(inquiries.due) - answers
    said = [f"{counted(answers, 'inquiry', 'inquiries')} to answer"] if answers else []
    return [*said, *([f"{counted(others, 'inquiry', 'inquiries')} to look at again"] if others else [])]


def _left_out(each: LeftOut, home: TeacherClock) -> str:
    said = f"{each.booking.student.name}, {home.date_and_time(each.booking.lesson.starts_at)}"
    return f"{said} ({each.because.reason})" if each.because.reason else said


def _lesson(reviewed: ReviewedLesson, home: TeacherClock) -> str:
    lesson = reviewed.booking.lesson
    starts, ends = (home.time(at) for at in (lesson.starts_at, lesson.planned_end))
    planned = f"{_who(reviewed.booking)}, {starts} to {ends}: {in_words(reviewed.state)}"
    said = (planned, _real_times(lesson, reviewed.minutes_taught, home), _notes(reviewed))
    return ". ".join(part for part in said if part) + "."


def _who(booking: ScheduledLesson) -> str:
    lesson = booking.lesson
    parts = (booking.student.name, lesson.instrument, None if lesson.kind is Kind.WEEKLY else lesson.kind)
    return ", ".join(part for part in parts if part)


def _real_times(lesson: Lesson, minutes_taught: int | None, home: TeacherClock) -> str | None:
    if lesson.began_at is None:
        return None
    began = home.time(lesson.began_at)
    if minutes_taught is None:
        return f"Began at {began}"
    if lesson.finished_at is None:
        return f"Began at {began}, {minutes_of(minutes_taught)} so far"
    finished = home.time(lesson.finished_at)
    return f"Taught from {began} to {finished}, {minutes_of(minutes_taught)}"


def _notes(reviewed: ReviewedLesson) -> str | None:
    if not reviewed.has_notes:
        return "No notes" if was_taught(reviewed.booking.lesson) else None
    return f"Notes {_written_out(reviewed)}, {counted(reviewed.assignments, 'assignment')}"


def _written_out(reviewed: ReviewedLesson) -> str:
    if reviewed.export is None:
        return "not exported"
    if reviewed.is_stale:
        return "changed since they were exported"
    return "exported" if reviewed.export.is_final else "exported as a draft"


def _owed(owed: Owed, home: TeacherClock) -> str:
    words, behind = owed_words(owed, home)
    return f"{behind}: {words}"


def _tomorrow(booking: ScheduledLesson, home: TeacherClock) -> str:
    lesson = booking.lesson
    parts = (
        home.both(lesson.starts_at, booking.family.zone),
        _who(booking),
        minutes_of(lesson.minutes),
        in_words(lesson.outcome) if lesson.outcome is not None else None,
    )
    return ", ".join(part for part in parts if part)
