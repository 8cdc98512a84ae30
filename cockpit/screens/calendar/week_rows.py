"""The lines of the week: each day's lessons on both clocks, what is free between them, what a break takes away."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.look.show import padded, role, state_words, wrapped
from cockpit.studio.calendar.collisions import takes_place
from cockpit.studio.calendar.free_times import Stretch
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, minutes_of, month_and_day
from cockpit.studio.lessons.breaks import Break, LeftOut
from cockpit.studio.lessons.lesson import Kind, Lesson, LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, called
from cockpit.wording.queue import instrument_and_minutes

_WORTH_TELLING = timedelta(minutes=30)
_LONGEST_NAME = 20
_INDENT = "   "
_A_MONDAY = datetime(2001, 1, 1, tzinfo=UTC)
_BETWEEN = "  "


@dataclass(frozen=True, slots=True, kw_only=True)
class Looked:
    """How a week is looked at: the moment (UTC), her clock, and the columns that a line may have."""

    now: datetime
    home: TeacherClock
    width: int

    def at(self, moment: datetime) -> str:
        """A UTC moment as her clock shows it."""
        return self.home.time(moment)

    @property
    def today(self) -> date:
        """The date on her clock."""
        return self.home.date_of(self.now)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A lesson in words. `there` is the family's time where it differs, `state` is empty while it is booked."""

    lesson_id: LessonId
    starts_at: datetime
    at: str
    name: str
    what: str
    there: str
    state: tuple[str, str]
    why: str


def week_title(week: Sequence[DayOfWeek]) -> str:
    """Which days these are: `Week of November 30 to December 6, 2026`."""
    first, last = week[0].on, week[-1].on
    if first.year != last.year:  # with more words it would not fit on the narrowest screen
        return f"{month_and_day(first)}, {first.year}, to {month_and_day(last)}, {last.year}"
    return f"Week of {month_and_day(first)} to {month_and_day(last)}, {last.year}"


def week_sums(week: Sequence[DayOfWeek], today: date) -> str:
    """How far off the week is, and how much is taught in it."""
    weeks = (week[0].on - (today - timedelta(days=today.weekday()))).days // 7
    near = {-1: "Last week", 0: "This week", 1: "Next week"}
    far = f"In {weeks} weeks" if weeks > 0 else f"{-weeks} weeks ago"
    lessons = [b.lesson for day in week for b in day.bookings if b.lesson.outcome is None]
    minutes = minutes_of(sum(lesson.minutes for lesson in lessons))
    return f"{near.get(weeks, far)} · {counted(len(lessons), 'lesson')}" + (f", {minutes}" if lessons else "")


def week_options(week: Sequence[DayOfWeek], looked: Looked) -> list[Option]:
    """Day after day; the id of a lesson's line is the lesson's. Nothing else can be chosen."""
    names = called(booking for day in week for booking in day.bookings)
    told = {day.on: [_told(b, names[b.lesson.id], looked) for b in day.bookings] for day in week}
    columns = _columns([each for lessons in told.values() for each in lessons], looked)
    breaks = [each.because for day in week for each in day.left_out if each.because.family_id is None]
    found: list[Option] = []
    for day in week:
        found.append(
            Option(Content.assemble((_heading(day.on, looked), role("title", "bold underline"))), disabled=True)
        )
        lines = sorted(_lines(day, told[day.on], columns, looked), key=lambda line: line[0])
        found += [option for _, option in lines] or [_quiet(_nothing(day.on, breaks))]
    return found


def cursor_on(bookings: Sequence[ScheduledLesson], like: ScheduledLesson | None, now: datetime) -> LessonId | None:
    """Where the cursor goes in a week: to a lesson, to that of its weekly time, or to the nearest to its weekday and time.

    Without a lesson to go by, to the first that is not over at `now` (UTC), else to the first.
    """
    if like is None:
        to_come = [b for b in bookings if b.lesson.is_live or (takes_place(b) and b.lesson.planned_end > now)]
        return next((booking.lesson.id for booking in [*to_come, *bookings]), None)

    def unlike(lesson: Lesson) -> tuple[bool, bool, timedelta, LessonId]:
        standing = like.lesson.standing_time_id
        is_other = standing is None or lesson.standing_time_id != standing
        apart = abs((lesson.starts_at - _A_MONDAY) % WEEK - (like.lesson.starts_at - _A_MONDAY) % WEEK)
        return lesson.id != like.lesson.id, is_other, apart, lesson.id

    return min((booking.lesson for booking in bookings), key=unlike).id if bookings else None


def _lines(
    day: DayOfWeek, lessons: list[Told], columns: tuple[int, ...] | None, looked: Looked
) -> Iterator[tuple[tuple[datetime, int], Option]]:
    """What stands below a heading, each with its place: by time; at one time the lesson goes first."""
    for lesson in lessons:
        row = _in_columns(lesson, columns) if columns is not None else _on_two_lines(lesson, looked.width)
        yield (lesson.starts_at, 0), Option(row, id=lesson.lesson_id)
    for left_out in day.left_out:
        yield (left_out.booking.lesson.starts_at, 1), _quiet(_left_out(left_out, looked))
    for begins, ends in free_from_now(day.gaps, looked.now):
        said = f"{_INDENT}free {looked.at(begins)} to {looked.at(ends)}"
        yield (begins, 2), _quiet(said if begins > looked.now else f"{_INDENT}free until {looked.at(ends)}")


def free_from_now(gaps: Sequence[Stretch], now: datetime) -> list[Stretch]:
    """What is still to come of some free stretches (UTC), where that is half an hour or more."""
    left = [(max(begins, now), ends) for begins, ends in gaps]
    return [(begins, ends) for begins, ends in left if ends - begins >= _WORTH_TELLING]


def _told(booking: ScheduledLesson, name: str, looked: Looked) -> Told:
    lesson, state = booking.lesson, state_of(booking.lesson, looked.now)
    words = state_words(state)
    if state is State.BOOKED:
        words = ("", "")
    why = [str(lesson.kind)] if lesson.kind is not Kind.WEEKLY else []
    return Told(
        lesson_id=lesson.id,
        starts_at=lesson.starts_at,
        at=f"{looked.at(lesson.starts_at):>{8 if looked.home.hours == 12 else 5}}",
        name=name,
        what=instrument_and_minutes(lesson),
        there=looked.home.there(lesson.starts_at, booking.family.zone) or "",
        state=words,
        why=", ".join([*why, "moved"] if lesson.is_moved else why),
    )


def _columns(told: Sequence[Told], looked: Looked) -> tuple[int, ...] | None:
    """How wide name, matter and family's time are; None where a line has no room for them side by side."""
    sides = [(each.name, each.what, each.there) for each in told]
    widths = tuple(max(map(cell_len, column)) for column in zip(*sides, strict=True))
    if not widths:
        return None
    widths = (min(widths[0], _LONGEST_NAME), *widths[1:])
    at, marks = len(told[0].at), max(cell_len(_marks(each)) for each in told)
    return widths if at + sum(widths) + 4 * len(_BETWEEN) + marks <= looked.width else None


def _in_columns(lesson: Told, columns: tuple[int, ...]) -> Content:
    name, what, there = columns
    return Content.assemble(
        (f"{lesson.at}{_BETWEEN}", ""),
        (padded(lesson.name, name), "bold"),
        (f"{_BETWEEN}{padded(lesson.what, what)}{_BETWEEN}{padded(lesson.there, there)}{_BETWEEN}", role("quiet")),
        lesson.state,
        (_why(lesson), ""),
    )


def _on_two_lines(lesson: Told, width: int) -> Content:
    """The rest stands below; so does why the lesson is there, where the name needs the room."""
    room = width - len(lesson.at) - 2 * len(_BETWEEN)
    has_room = cell_len(lesson.name) + cell_len(_marks(lesson)) <= room
    room -= cell_len(_marks(lesson) if has_room else lesson.state[0])
    below = wrapped([lesson.what, lesson.there, "" if has_room else lesson.why], width, _INDENT)
    return Content.assemble(
        (f"{lesson.at}{_BETWEEN}", ""),
        (lesson.name if cell_len(lesson.name) <= room else padded(lesson.name, room), "bold"),
        _BETWEEN,
        lesson.state,
        (_why(lesson) if has_room else "", ""),
        (f"\n{below}", role("quiet")),
    )


def _why(lesson: Told) -> str:
    return f" · {lesson.why}" if lesson.why and lesson.state[0] else lesson.why


def _marks(lesson: Told) -> str:
    return lesson.state[0] + _why(lesson)


def _heading(on: date, looked: Looked) -> str:
    begins, ends = (looked.home.local(moment) for moment in looked.home.day_bounds(on))
    changes = " · your clock changes" if begins.utcoffset() != ends.utcoffset() else ""
    return f"{WEEKDAYS[on.weekday()]}, {month_and_day(on)}{' · today' if on == looked.today else ''}{changes}"


def _left_out(left_out: LeftOut, looked: Looked) -> str:
    reason = f", {left_out.because.reason}" if left_out.because.reason else ""
    return f"{_INDENT}on break: {left_out.booking.student.name}, {looked.at(left_out.booking.lesson.starts_at)}{reason}"


def _nothing(on: date, breaks: Sequence[Break]) -> str:
    reasons = [each.reason for each in breaks if each.from_on <= on <= each.until_on and each.reason]
    return f"{_INDENT}no lessons" + (f": {reasons[0]}" if reasons else "")


def _quiet(said: str) -> Option:
    return Option(Content.styled(said, role("quiet")), disabled=True)
