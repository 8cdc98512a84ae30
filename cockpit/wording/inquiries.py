"""Inquiries in the teacher's words: who asks, what is to be done next, and what came of them."""

from datetime import date, datetime, timedelta

from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, month_and_day, near_date, possessive
from cockpit.studio.inquiries.inquiry import Inquiry, InquiryState
from cockpit.studio.inquiries.to_do import InquiryCounts, InquiryStanding, InquiryTask, WhoFits, percent
from cockpit.studio.inquiries.wishes import Fit

_DAY = timedelta(days=1)


def who_asks(inquiry: Inquiry) -> str:
    """Who asks and for whom, with the age: `Ana Bell for Nora, 8`."""
    who = f"{inquiry.name} for {inquiry.child}" if inquiry.child else inquiry.name
    return f"{who}, {inquiry.age}" if inquiry.age is not None else f"{who}, adult" if inquiry.is_adult else who


def next_step(standing: InquiryStanding, now: datetime, home: TeacherClock) -> str:
    """What is to be done next, at a moment (UTC), or what is waited for."""
    to_do, today = standing.to_do, standing.today
    if to_do is None:
        return _waited_for(standing, home)
    if to_do.task is InquiryTask.ANSWER:
        return _to_answer(standing, now, home)
    since = _since(to_do.on, today)
    if to_do.task is InquiryTask.ASK_AGAIN:
        answered = standing.course.answered_at
        said = f"answered {_on(home.date_of(answered), today)}; " if answered is not None else ""
        return f"{said}ask again {since}"
    return _NEXT[to_do.task].format(on=_on(to_do.on, today), since=since)


_NEXT = {
    InquiryTask.REPLY: "they wrote again {on}",
    InquiryTask.ASK_ABOUT_TRIAL: "ask how they liked the trial {since}",
    InquiryTask.BOOK_AGAIN: "the trial did not take place; book another",
    InquiryTask.CLOSE: "no answer; close it {since}",
}


def _to_answer(standing: InquiryStanding, now: datetime, home: TeacherClock) -> str:
    left = standing.deadline.left(now)
    if standing.deadline.is_late(now):
        return f"answer: {left}"
    return f"answer within {left}: by {short_time(standing.deadline.shown_until(now), standing.today, home)}"


def _waited_for(standing: InquiryStanding, home: TeacherClock) -> str:
    trial = standing.course.trial
    if standing.state is InquiryState.TRIAL_BOOKED and trial is not None:
        return f"trial {short_time(trial.starts_at, standing.today, home)}"
    closing = standing.course.closing
    if closing is not None:
        reason = closing.what.partition(": ")[2]
        return f"{reason}, {near_date(home.date_of(closing.at), standing.today)}"
    return standing.state


def short_time(at: datetime, today: date, home: TeacherClock) -> str:
    """A moment (UTC) in few words: `9:00 pm` today, else `Wed 9:00 am`, and with the date from a week on."""
    on = home.date_of(at)
    if on == today:
        return f"{home.time(at)} today"
    day = f"{on:%a}" if today < on < today + 7 * _DAY else near_date(on, today)
    return f"{day} {home.time(at)}"


def _since(on: date, today: date) -> str:
    if on > today:
        return f"on {_on(on, today)}"
    return "today" if on == today else "since yesterday" if on == today - _DAY else f"since {_on(on, today)}"


def _on(on: date, today: date) -> str:
    return "today" if on == today else month_and_day(on) if on.year == today.year else near_date(on, today)


def counts_title(counts: InquiryCounts, hours: int) -> str:
    """How many were answered in time: `9 of 12 answered within 48 hours (75.0 %)`; empty where none came."""
    if not counts.came:
        return ""
    return f"{counts.in_time} of {counts.came} answered within {hours} hours ({percent(counts.in_time, counts.came)})"


def counts_lines(counts: InquiryCounts) -> list[str]:
    """What came of the inquiries, each count with what it is taken from."""
    if not counts.came:
        return []
    lines = [
        f"{counts.came} came, {counts.answered} answered, {counted(counts.trials, 'trial')}, {counted(counts.students, 'student')}"
    ]
    if counts.trials:
        of_trials = (
            f"{counts.students} of {counted(counts.trials, 'trial')} ({percent(counts.students, counts.trials)})"
        )
        lines.append(
            f"students: {of_trials}, {counts.students} of {counts.came} inquiries ({percent(counts.students, counts.came)})"
        )
    for source, theirs in counts.by_source:
        of_them = [f"{theirs.trials} of {theirs.came} with a trial"] if theirs.trials else []
        of_them += [f"{theirs.students} of {theirs.came} became students"] if theirs.students else []
        lines.append(", ".join([f"from {source}: {theirs.came} of {counts.came}", *of_them]))
    return lines


def opening_words(opening: WhoFits, home: TeacherClock, today: date) -> str:
    """A weekly place that is free: `Tue 5:00 pm from December 15, 45 min (was Wren's)`, `Tue 5:00 pm to 7:00 pm`.

    One between the weeks of another is `Tue 5:00 pm every other week from December 8, 45 min`.
    """
    local, gap = home.local(opening.starts_at), opening.gap
    place = f"{local:%a} {home.time(opening.starts_at)}"
    if gap.every_weeks > 1:
        return f"{place} every other week from {_on(local.date(), today)}, {gap.minutes} min"
    if not gap.was:
        return f"{place} to {home.time(opening.starts_at + timedelta(minutes=gap.minutes))}"
    whose = f"while {gap.was} is paused" if gap.is_paused else f"was {possessive(gap.was)}"
    return f"{place} from {_on(local.date(), today)}, {gap.minutes} min ({whose})"


def fit_words(fit: Fit, opening: WhoFits, home: TeacherClock, today: date) -> str:
    """From when until when a weekly place suits: `fits`, `fits at 5:15 pm until Tue, March 9`, `fits from Tue, June 1`."""
    local, first = home.local(fit.starts_at), home.local(opening.starts_at)
    at = "" if local.time() == first.time() else f" at {home.time(fit.starts_at)}"
    begins = "" if fit.from_on <= first.date() else f" from {near_date(fit.from_on, today)}"
    ends = f" until {near_date(fit.until_on, today)}" if fit.until_on is not None else ""
    return f"fits{at}{begins}{ends}"
