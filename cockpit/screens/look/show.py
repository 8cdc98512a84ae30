"""Values to the lines that the panes show; no widget, so that each can be looked at by itself."""

from collections.abc import Iterable
from datetime import date, datetime, timedelta

from rich.cells import cell_len, set_cell_size
from textual.content import Content

from cockpit.settings.settings import Settings
from cockpit.studio.assignments.last_lesson import GivenAssignment, LastLesson
from cockpit.studio.clocks.moments import Zone, local_time
from cockpit.studio.clocks.two_clocks import family_time
from cockpit.studio.clocks.words import clock_time, counted, minutes_of, short_date, span
from cockpit.studio.lessons.booking import Booking
from cockpit.studio.lessons.countdown import ClockFace, Phase
from cockpit.studio.lessons.lesson import State, state_of
from cockpit.studio.notes.notes import Line, Mark, has_private_without_colon, read_notes
from cockpit.studio.post.outgoing import FATE_WORDS, Fate
from cockpit.studio.practice.budget import Budget

_STATE_SIGNS = {
    State.BOOKED: "·",
    State.RUNNING: "▶",
    State.OVER_TIME: "▲",
    State.FINISHED: "✓",
    State.ABSENT: "○",
    State.CANCELLED: "×",
    State.CANCELLED_LATE: "×",
}
_LONG = 10 * 3600
_ALMOST_A_MINUTE = timedelta(minutes=1) - timedelta(microseconds=1)
_LONGEST_NAME = 30
PHASE_ROLES = {
    Phase.RUNNING: "clock_running",
    Phase.WRAP_UP: "clock_wrap_up",
    Phase.OVER: "clock_over",
    Phase.BEFORE: "clock_waiting",
    Phase.WAITING: "clock_wrap_up",
    Phase.FREE: "clock_waiting",
    Phase.NO_LESSONS: "clock_waiting",
}


_MARK_SIGNS = {
    Mark.DONE: ("■", "$role-finished bold"),
    Mark.MORE_WORK: ("◧", "$role-warning bold"),
    Mark.NOT_YET: ("□", "$role-absent bold"),
    Mark.DROPPED: ("×", "$role-quiet"),
    None: ("·", "$role-quiet"),
}

_NEEDS_HER = frozenset({Fate.UNSURE, Fate.REFUSED})


def role(name: str, *more: str) -> str:
    """The style of a role of the theme, with text attributes after it."""
    return " ".join((f"$role-{name.replace('_', '-')}", *more))


def state_role(state: State) -> str:
    """The style of a lesson's state."""
    return role("cancelled" if state is State.CANCELLED_LATE else state.value.replace(" ", "_"))


def fate_words(fate: Fate) -> tuple[str, str]:
    """What keeps notes from having gone out, with its sign, and the style of both."""
    return f"! {FATE_WORDS[fate]}", role("error" if fate in _NEEDS_HER else "warning", "bold")


def state_words(state: State) -> tuple[str, str]:
    """A lesson's state with its sign, and the style of both."""
    return f"{_STATE_SIGNS[state]} {state}", state_role(state)


def padded(text: str, width: int) -> str:
    """A text that takes so many columns, cut or filled up."""
    return set_cell_size(text, width) if cell_len(text) <= width else f"{set_cell_size(text, width - 1)}…"


def wrapped(facts: Iterable[str], width: int, indent: str) -> str:
    """Facts one after another, on as many indented lines as they need; an empty one is left out."""
    lines: list[str] = []
    for fact in filter(None, facts):
        longer = f"{lines[-1]} · {fact}" if lines else ""
        if lines and cell_len(longer) <= width:
            lines[-1] = longer
        else:
            lines.append(f"{indent}{fact}")
    return "\n".join(lines)


def queue_row(
    booking: Booking, called: str, now: datetime, settings: Settings, *, is_shown: bool, fate: Fate | None = None
) -> Content:
    """A lesson in the queue, on two lines: when, who and its state; what, and the family's time where it differs.

    `fate` is that of its notes where they have not gone out: once the lesson is finished, that is told instead.
    """
    name = called if len(called) <= _LONGEST_NAME else f"{called[: _LONGEST_NAME - 1]}…"
    lesson, home_zone, hours = booking.lesson, settings.home, settings.hours
    state = state_of(lesson, now)
    at = clock_time(local_time(lesson.starts_at, home_zone), hours)
    there = family_time(lesson.starts_at, home_zone, booking.family.zone, hours)
    what = f"{lesson.instrument} {lesson.minutes}" if lesson.instrument else minutes_of(lesson.minutes)
    late = "cancelled late" if state is State.CANCELLED_LATE else ""
    weight = "bold" if is_shown else ""
    return Content.assemble(
        (f"{'›' if is_shown else ' '}{at:>8}  ", weight),
        (name, weight),
        "  ",
        fate_words(fate)
        if fate is not None and state is State.FINISHED
        else state_words(State.CANCELLED if state is State.CANCELLED_LATE else state),
        "\n",
        ("   " + " · ".join(fact for fact in (what, there, late) if fact), role("quiet")),
    )


def clock_words(face: ClockFace, home_zone: Zone, hours: int, wait_minutes: int) -> tuple[str, str, str]:
    """What stands beside the figures: what they count, until when, and what follows from it."""
    booking = face.booking
    if booking is None:
        return ("", "", "") if face.phase is Phase.NO_LESSONS else ("No more lessons", "", "")
    lesson = booking.lesson
    starts = clock_time(local_time(lesson.starts_at, home_zone), hours)
    match face.phase:
        case Phase.BEFORE:
            return "hours to go" if _shows_hours(face) else "until the lesson", f"begins {starts}", ""
        case Phase.WAITING:
            left = wait_minutes - face.seconds // 60
            wait = f"wait {minutes_of(left)} more" if left > 0 else f"{minutes_of(wait_minutes)} are over"
            return "past the start", f"planned {starts}", wait
        case _:
            return _lesson_words(face, home_zone, hours)


def _lesson_words(face: ClockFace, home_zone: Zone, hours: int) -> tuple[str, str, str]:
    if face.booking is None:
        return "", "", ""
    # Up to the whole minute, as lateness is: an end seconds after half past is not half past.
    ends = clock_time(local_time(face.booking.lesson.ends_at + _ALMOST_A_MINUTE, home_zone), hours)
    late = " · ".join(
        f"{start.student} starts {minutes_of(start.minutes)} late"
        if start.has_time
        else f"no time left for {start.student}"
        for start in face.late
    )
    match face.phase:
        case Phase.OVER:
            return "OVER TIME", f"ended {ends}", late
        case Phase.WRAP_UP:
            return "left · WRAP UP", f"ends {ends}", late
        case _:
            return "left", f"ends {ends}", late


def figures_text(face: ClockFace) -> str:
    """The characters that are drawn large."""
    if face.booking is None:
        return ""
    if _shows_hours(face):
        return f"{face.seconds // 3600}:{face.seconds // 60 % 60:02d}"
    return ("+" if face.phase in {Phase.OVER, Phase.WAITING} else "") + span(face.seconds)


def _shows_hours(face: ClockFace) -> bool:
    """Whether the time is too long for seconds to say anything, or to fit beside the words."""
    return face.phase is Phase.BEFORE and face.seconds >= _LONG


def assignment_row(given: GivenAssignment, on: date) -> Content:
    """An assignment, with its mark in words, what was heard of it, and for how many weeks it has been open by a date."""
    area = str(given.line.area or "").capitalize()
    sign, style = _MARK_SIGNS[given.mark]
    mark = f"{sign} {given.mark}  " if given.mark is not None else f"{sign} "
    weeks = given.weeks(on)
    facts = (
        f"heard at {given.tempo}" if given.tempo is not None else "",
        f"{given.clean_runs} clean" if given.clean_runs else "",
        f"open {weeks} weeks" if weeks > 1 and given.is_open else "",
    )
    said = " · ".join(fact for fact in facts if fact)
    return Content.assemble(
        (mark, style), (f"{area}: ", "bold"), given.line.text, (f"  {said}" if said else "", role("quiet"))
    )


def last_heading(booking: Booking, last: LastLesson | None, more: int = 0) -> Content:
    """What stands above the assignments: what she wanted to remember, her remark, the date, and how many `more` are open."""
    parts: list[tuple[str, str]] = []
    if last is not None and last.next_time:
        parts.extend((f"Remember: {text}\n", role("student")) for text in last.next_time)
    if booking.student.remark:
        parts.append((f"Private: {booking.student.remark}\n", role("private", "italic")))
    if last is None:
        parts.append(("No notes from an earlier lesson.", role("quiet")))
    elif not last.assignments:
        parts.append((f"Nothing was given on {short_date(last.taught_on)}.", role("quiet")))
    else:
        parts.append((f"Given on {short_date(last.taught_on)}", role("quiet")))
    if more:
        parts.append((f" · {more} older", role("quiet")))
    return Content.assemble(*parts)


def notes_count(body: str, budget: Budget) -> Content:
    """What the typed lines are so far, `27 of 30 minutes a day · 2 to practice`, or what may be a slip in them."""
    if has_private_without_colon(body):
        return Content.styled("! Private needs a colon to stay here", role("warning", "bold"))
    lines = [line for line in read_notes(body) if line.text]
    given = sum(line.line is Line.ASSIGNMENT for line in lines)
    remarks = sum(line.line is Line.REMARK for line in lines)
    kept = len(lines) - given - remarks
    asked = budget.asked(lines)
    if budget.warning(lines) is not None:
        return Content.styled(f"! {asked.words}, last week {budget.last_week}", role("warning", "bold"))
    if not asked.typed:
        return Content(f"{given} to practice · {counted(remarks, 'remark')} · {kept} private")
    is_more = asked.of is not None and asked.typed > asked.of
    return Content.assemble((asked.words, role("warning", "bold") if is_more else ""), f" · {given} to practice")
