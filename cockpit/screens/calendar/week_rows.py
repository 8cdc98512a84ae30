"""The lines of the week: each day's lessons on both clocks, what is free between them, what a break takes away."""

from collections.abc import Sequence
from datetime import UTC, date, datetime, timedelta

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.look.show import (
    AS_PLANNED,
    BREAK,
    CHANGES,
    FREE,
    clock_column,
    cut,
    padded,
    role,
    state_sign,
    state_word,
    wrapped,
)
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.calendar.collisions import takes_place
from cockpit.studio.calendar.free_times import Stretch
from cockpit.studio.clocks.moments import WEEK, WEEKDAYS
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import counted, minutes_of, month_and_day
from cockpit.studio.lessons.breaks import Pause, TimeOff, is_for_all
from cockpit.studio.lessons.lesson import Lesson, LessonId, State, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, called, each_time_once
from cockpit.studio.values import Value
from cockpit.wording.queue import unusual

_WORTH_TELLING = timedelta(minutes=30)
_LONGEST_NAME = 20
_LONGEST_INSTRUMENT = 12
_A_MONDAY = datetime(2001, 1, 1, tzinfo=UTC)
_BETWEEN = "  "


class Looked(Value):
    """The moment (UTC) at which a week is shown, and the clock on which its times are told."""

    now: datetime
    home: TeacherClock

    @property
    def today(self) -> date:
        """The date on her clock."""
        return self.home.date_of(self.now)


class Told(Value):
    """A lesson in words. `there` is the family's time where it differs, `marks` what is not as usual."""

    name: str
    what: str
    there: str
    sign: tuple[str, str]
    marks: str
    is_to_come: bool


def week_title(week: Sequence[DayOfWeek]) -> str:
    """Which days these are: `November 30 to December 6, 2026`."""
    first, last = week[0].on, week[-1].on
    year = f", {first.year}," if first.year != last.year else ""
    return f"{month_and_day(first)}{year} to {month_and_day(last)}, {last.year}"


def week_sums(week: Sequence[DayOfWeek], today: date) -> str:
    """How far off the week is, and how much is taught in it."""
    weeks = (week[0].on - (today - timedelta(days=today.weekday()))).days // 7
    near = {-1: "last week", 0: "this week", 1: "next week"}
    far = f"in {weeks} weeks" if weeks > 0 else f"{-weeks} weeks ago"
    lessons = [b for day in week for b in day.bookings if b.lesson.outcome is None]
    minutes = minutes_of(sum(each.lesson.minutes for each in each_time_once(lessons)))
    return f"{near.get(weeks, far)}, {counted(len(lessons), 'lesson')}" + (f", {minutes}" if lessons else "")


def week_options(week: Sequence[DayOfWeek], looked: Looked, width: int) -> list[Option]:
    """Day after day in so many columns; the id of a lesson's row is the lesson's. Nothing else can be chosen."""
    bookings = [booking for day in week for booking in day.bookings]
    names = called(bookings)
    told = {b.lesson.id: _told(b, names[b.lesson.id], looked, _longest_instrument(bookings)) for b in bookings}
    columns = _columns(list(told.values()), width - len(clock_column(looked.home, looked.now, "")[0]) - 3)
    breaks = [each.because for day in week for each in day.left_out if is_for_all(each.because)]
    found: list[Option] = []
    for day in week:
        rows = list(_rows(day, looked))
        begins, ends = (looked.home.local(moment) for moment in looked.home.day_bounds(day.on))
        said = "" if rows else _nothing(day.on, breaks)
        said = said if begins.utcoffset() == ends.utcoffset() else f"{CHANGES} your clock changes"
        found.append(group(_heading(day.on), width, said, has_keys=day.on == looked.today))
        before = ""
        for moment, what in rows:
            start, before = clock_column(looked.home, moment, before)
            if isinstance(what, ScheduledLesson):
                found.append(Option(_row(told[what.lesson.id], start, columns, width), id=what.lesson.id))
            else:
                sign, said = what
                found.append(_quiet(start, sign, said, width))
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


def free_from_now(gaps: Sequence[Stretch], now: datetime) -> list[Stretch]:
    """What is still to come of some free stretches (UTC), where that is half an hour or more."""
    left = [(max(begins, now), ends) for begins, ends in gaps]
    return [(begins, ends) for begins, ends in left if ends - begins >= _WORTH_TELLING]


def off_words(because: TimeOff) -> str:
    """Why a weekly lesson does not take place: `paused: trip`, `on break`."""
    what = "paused" if isinstance(because, Pause) else "on break"
    return f"{what}: {because.reason}" if because.reason else what


def marks_of(lesson: Lesson, state: State) -> str:
    """What of a lesson is not as usual: `canceled, trial`."""
    return ", ".join(filter(None, [state_word(state), *unusual(lesson)]))


def _rows(day: DayOfWeek, looked: Looked) -> list[tuple[datetime, ScheduledLesson | tuple[str, str]]]:
    """What stands below a heading, by time (UTC): lessons, and with a sign each what is off and what is free."""
    rows: list[tuple[datetime, int, ScheduledLesson | tuple[str, str]]] = []
    rows += [(booking.lesson.starts_at, 0, booking) for booking in day.bookings]
    for each in day.left_out:
        rows.append(
            (each.booking.lesson.starts_at, 1, (BREAK, f"{each.booking.student.name}, {off_words(each.because)}"))
        )
    for begins, ends in free_from_now(day.gaps, looked.now):
        rows.append((begins, 2, (FREE, f"free until {looked.home.time(ends)}")))
    return [(moment, what) for moment, _, what in sorted(rows, key=lambda row: row[:2])]


def _told(booking: ScheduledLesson, name: str, looked: Looked, longest: int) -> Told:
    lesson, state = booking.lesson, state_of(booking.lesson, looked.now)
    instrument = padded(lesson.instrument or "", longest)
    return Told(
        name=name,
        what=f"{instrument} {lesson.minutes:>3}" if longest else f"{lesson.minutes:>3}",
        there=looked.home.there(lesson.starts_at, booking.family.zone) or "",
        sign=state_sign(state),
        marks=marks_of(lesson, state),
        is_to_come=state in {State.BOOKED, State.RUNNING, State.OVER_TIME},
    )


def _longest_instrument(bookings: Sequence[ScheduledLesson]) -> int:
    return min(_LONGEST_INSTRUMENT, max((cell_len(b.lesson.instrument or "") for b in bookings), default=0))


def _columns(told: Sequence[Told], room: int) -> tuple[int, ...]:
    """How wide the columns are that fit side by side: name, matter, the family's time; what does not fit stands below."""
    sides = [(each.name, each.what, each.there) for each in told]
    widths = [max(map(cell_len, column)) for column in zip(*sides, strict=True)]
    widths[:1] = [min(each, _LONGEST_NAME) for each in widths[:1]]
    room -= max((cell_len(each.marks) + len(_BETWEEN) for each in told), default=0)
    while len(widths) > 1 and sum(widths) + len(_BETWEEN) * (len(widths) - 1) > room:
        widths.pop()
    return tuple(widths)


def _row(told: Told, start: str, columns: tuple[int, ...], width: int) -> Content:
    sides = (told.name, told.what, told.there)
    beside = [padded(side, wide) for side, wide in zip(sides, columns, strict=False)]
    sign, style = told.sign
    indent = len(start) + 2
    marks = told.marks
    taken = indent + sum(map(cell_len, beside)) + len(_BETWEEN) * len(beside)
    below = [side for side in sides[len(columns) :] if side.strip()]
    if taken + cell_len(marks) > width:  # a long name alone in its row
        below, marks = [*below, marks], ""
    name = role("text", "bold") if told.is_to_come else role("quiet")
    quiet = role("quiet")
    return Content.assemble(
        (start, role("text") if told.is_to_come else quiet),
        (sign, style),
        (f" {beside[0]}", name),
        ("".join(f"{_BETWEEN}{each}" for each in beside[1:]), quiet),
        (f"{_BETWEEN}{marks}" if marks else "", quiet if sign in AS_PLANNED else style),
        (f"\n{wrapped(below, width, ' ' * indent, _BETWEEN)}" if below else "", quiet),
    )


def _heading(on: date) -> str:
    return f"{WEEKDAYS[on.weekday()]}, {month_and_day(on)}"


def _nothing(on: date, breaks: Sequence[TimeOff]) -> str:
    reasons = [each.reason for each in breaks if each.from_on <= on <= each.last_on and each.reason]
    return f"{BREAK} {reasons[0]}" if reasons else "no lessons"


def _quiet(start: str, sign: str, said: str, width: int) -> Option:
    row = f"{start}{sign} {cut(said, max(1, width - len(start) - 2))}"
    return Option(Content.styled(row, role("quiet")), disabled=True)
