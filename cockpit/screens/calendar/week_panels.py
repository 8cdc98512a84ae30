"""What stands beside the chosen lesson below the grid of a week: what is not as usual, and when she is free."""

from collections.abc import Sequence
from datetime import datetime

from rich.cells import cell_len
from textual.content import Content

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.calendar.week_rows import Looked, free_from_now, marks_of, off_words
from cockpit.screens.look.show import (
    AS_PLANNED,
    BREAK,
    cut,
    cut_at_word,
    heading,
    hung,
    placed,
    role,
    state_sign,
    wrapped,
)
from cockpit.studio.clocks.moments import WEEKDAYS
from cockpit.studio.lessons.breaks import LeftOut
from cockpit.studio.lessons.lesson import state_of
from cockpit.studio.lessons.scheduled import called

_LONGEST_NAME = 18
_AT_NAME, _GAP = 4, 2
_BETWEEN = "   "  # between the free times of two days
_LEAST = 2  # rows of a panel: its heading, and one below it

Row = tuple[str, str, str, str, str]
"""A sign and its style, who, when, and what is not as usual."""


def panels(week: Sequence[DayOfWeek], looked: Looked, width: int, height: int) -> list[Content]:
    """Both panels in so many columns and rows; one that has nothing to tell, or no room, is left out."""
    rows = not_as_usual(week, looked)
    days = [day for day in wrapped(free_words(week, looked), width, "  ", _BETWEEN).split("\n") if day]
    free = [line.plain for day in days for line in hung(Content(f"  {day.lstrip()}"), width)]
    room = height - (_LEAST if free else 0)
    told = _panel(rows, width, room) if rows else []
    room = height - len(told)
    if room > _LEAST and told and free:
        told.append(Content())
    if free and height - len(told) >= _LEAST:
        fits = free[: height - len(told) - 1]
        if len(fits) < len(free):  # what does not fit is told of by a sign
            fits[-1] = cut_at_word(f"{fits[-1]}{_BETWEEN}{free[len(fits)].strip()}", width)
        told += [heading("FREE", width), *(Content.styled(line, role("quiet")) for line in fits)]
    return told


def _panel(rows: Sequence[Row], width: int, height: int) -> list[Content]:
    if height < _LEAST:
        return []
    fits = len(rows) if len(rows) < height else height - 2
    name = min(_LONGEST_NAME, max(cell_len(who) for _, _, who, _, _ in rows))
    at_when = _AT_NAME + name + _GAP
    at_what = at_when + max(cell_len(when) for _, _, _, when, _ in rows) + _GAP
    drawn = [
        placed(
            width,
            (2, sign, style),
            (_AT_NAME, cut(who, name), role("text")),
            (at_when, when, role("quiet")),
            (at_what, cut_at_word(what, max(0, width - at_what)), role("quiet") if sign in AS_PLANNED else style),
        )
        for sign, style, who, when, what in rows[:fits]
    ]
    more = [] if fits == len(rows) else [placed(width, (_AT_NAME, f"{len(rows) - fits} more", role("quiet")))]
    return [heading("NOT AS USUAL", width), *drawn, *more]


def not_as_usual(week: Sequence[DayOfWeek], looked: Looked) -> list[Row]:
    """The lessons of a week that are moved, of another kind, or do not take place, in order."""
    names = called(booking for day in week for booking in day.bookings)
    rows: list[tuple[datetime, Row]] = []
    for day in week:
        for booking in day.bookings:
            lesson, state = booking.lesson, state_of(booking.lesson, looked.now)
            sign, style = state_sign(state)
            what = marks_of(lesson, state)
            if what:
                row = (sign, style, names[lesson.id], _when(lesson.starts_at, looked), what)
                rows.append((lesson.starts_at, row))
        rows += [(each.booking.lesson.starts_at, _left_out(each, looked)) for each in day.left_out]
    return [row for _, row in sorted(rows, key=lambda row: row[0])]


def _left_out(each: LeftOut, looked: Looked) -> Row:
    when = _when(each.booking.lesson.starts_at, looked)
    return BREAK, role("quiet"), each.booking.student.name, when, off_words(each.because)


def _when(at: datetime, looked: Looked) -> str:
    return f"{WEEKDAYS[looked.home.date_of(at).weekday()][:3]} {looked.home.time(at)}"


def free_words(week: Sequence[DayOfWeek], looked: Looked) -> list[str]:
    """When she is still free, a day each: `Mon all day`, `Thu until 4:00, from 6:00`, `Tue 6:30 to 7:00`."""
    said: list[str] = []
    for day in week:
        gaps = free_from_now(day.gaps, looked.now)
        begins, ends = (day.hours[0][0], day.hours[-1][1]) if day.hours else (None, None)
        named = WEEKDAYS[day.on.weekday()][:3]
        times: list[str] = []
        for first, last in gaps:
            at, half = looked.home.time_and_half(first)
            until = looked.home.time(last)
            if (first, last) == (begins, ends):
                times.append("all day")
            elif first == begins:
                times.append(f"until {until}")
            elif last == ends:
                times.append(f"from {looked.home.time(first)}")
            else:
                times.append(f"{at if until.endswith(half) else looked.home.time(first)} to {until}")
        if times:
            said.append(f"{named} {', '.join(times)}")
    return said
