"""The week as a grid: seven days beside each other, a row for each half hour of her clock; the cursor goes from cell to cell."""

from collections.abc import Callable, Mapping, Sequence
from datetime import datetime, time, timedelta
from itertools import zip_longest

from rich.cells import cell_len
from textual.binding import Binding
from textual.content import Content
from textual.events import Click
from textual.message import Message
from textual.widget import Widget

from cockpit.desk.calendar.ahead import DayOfWeek
from cockpit.screens.calendar.week_panels import panels
from cockpit.screens.calendar.week_rows import Looked, marks_of
from cockpit.screens.look.show import (
    BREAK,
    NEEDS_HER,
    NOW,
    Piece,
    cut,
    heading,
    padded,
    placed,
    role,
    state_sign,
    wrapped,
)
from cockpit.screens.textual_parts.fast_compositor import refresh_changed
from cockpit.studio.clocks.moments import WEEKDAYS, moment
from cockpit.studio.clocks.words import possessive, short_date
from cockpit.studio.lessons.breaks import is_for_all
from cockpit.studio.lessons.lesson import LessonId, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson, are_together, called
from cockpit.studio.values import Value, replace
from cockpit.wording.queue import instrument_and_minutes

WIDE = 108  # columns from which on a week is a grid
_HALF_HOUR = timedelta(minutes=30)
_HALF_HOURS_OF_A_DAY = 48
_NO_HOURS = (18, 36)  # of a week without lessons in which nothing is free: 9 to 18
_LABEL, _EARLIER, _ROOM_FOR_MINUTES = 9, 4, 17
_LONGEST_NAME = 30
_GROUNDS = ("13%", "7%")  # shares of the text in the ground of a lesson, so that two in a row part
_PANEL = 4  # rows below the grid at least
_PANELS = 5  # rows for what stands beside the chosen lesson
_APART = 4  # columns between them
_FACT = len("weekly") + 2
_CURSOR = "$role-cursor-text on $role-cursor-ground"


class Cell(Value):
    """A day of the week, 0 to 6, and a half hour of her clock, 0 to 47."""

    day: int
    half_hour: int


def _no_facts(booking: ScheduledLesson) -> tuple[tuple[str, str], ...]:  # noqa: ARG001 as others
    return ()


class GridView(Value):
    """A week as the grid shows it, in so many columns: the half hours of her clock from `first` up to `last`, which is left out.

    Below it are so many rows for what is `below`: the chosen lesson, and beside it what is not as usual, and what is free.
    `facts` says what else is told of the chosen lesson, each with its label.
    """

    week: Sequence[DayOfWeek]
    looked: Looked
    first: int
    last: int
    width: int
    below: int
    facts: Callable[[ScheduledLesson], Sequence[tuple[str, str]]] = _no_facts

    @property
    def column_width(self) -> int:
        """The columns of a day, the last of them a gap; that of the last day is in the margin."""
        return (self.width + 1 - _LABEL) // len(self.week)

    def column(self, day: int) -> int:
        """Where a day begins."""
        return _LABEL + day * self.column_width

    def cell_of(self, booking: ScheduledLesson) -> Cell:
        """The cell in which a lesson begins."""
        return self.cell_at(booking.lesson.starts_at)

    def cell_at(self, at: datetime) -> Cell:
        """The cell of a moment (UTC), which may be of another week."""
        day = (self.looked.home.date_of(at) - self.week[0].on).days
        return Cell(day=day, half_hour=_half_hour(at, self.looked))

    def held(self, cell: Cell) -> Cell:
        """A cell, or the nearest of its day that is shown."""
        return replace(cell, half_hour=min(max(cell.half_hour, self.first), self.last - 1))

    def bookings_in(self, cell: Cell) -> list[ScheduledLesson]:
        """The lessons that begin in a cell."""
        return [booking for booking in self.week[cell.day].bookings if self.cell_of(booking) == cell]

    def under(self, cell: Cell) -> ScheduledLesson | None:
        """The lesson that lies over a cell, wherever it began."""
        begins = self.begins(cell)
        lying = [b for b in self.week[cell.day].bookings if b.lesson.starts_at < begins + _HALF_HOUR]
        return next((b for b in lying if b.lesson.planned_end > begins and b.lesson.outcome is None), None)

    def begins(self, cell: Cell) -> datetime:
        """The moment (UTC) at which a cell begins."""
        at = time(cell.half_hour // 2, cell.half_hour % 2 * 30)
        return moment(datetime.combine(self.week[cell.day].on, at), self.looked.home.zone)


def grid_view(week: Sequence[DayOfWeek], looked: Looked, width: int, rows: int) -> GridView | None:
    """The grid in so many columns and rows: her teaching hours, else the hours with lessons; None where neither fits."""
    if width < WIDE:
        return None
    lessons = [each for day in week for b in day.bookings for each in (b.lesson.starts_at, b.lesson.planned_end)]
    free = [each for day in week for gap in day.gaps for each in gap]
    for moments in ([*lessons, *free], lessons):
        halves = [_half_hour(each, looked) for each in moments] or _NO_HOURS
        first, last = min(halves), min(_HALF_HOURS_OF_A_DAY, max(halves) + 1)
        below = rows - (1 + last - first)
        if below >= _PANEL:
            return GridView(week=week, looked=looked, first=first, last=last, width=width, below=below)
    return None


def _half_hour(at: datetime, looked: Looked) -> int:
    local = looked.home.local(at)
    return local.hour * 2 + local.minute // 30


def grid_rows(view: GridView, cursor: Cell, carried: ScheduledLesson | None) -> list[Content]:
    """The headings of the days, a row for each half hour, and what is chosen, told below."""
    names = called(booking for day in view.week for booking in day.bookings)
    rows = [_days(view)]
    half = ""
    for half_hour in range(view.first, view.last):
        pieces: list[Piece] = []
        for day in range(len(view.week)):
            cell = Cell(day=day, half_hour=half_hour)
            drawn = _on_its_ground(view, cell, _cell(view, cell, names))
            if cell == cursor:
                at, words = _EARLIER - 1, placed(view.column_width - 1, *drawn).plain
                earlier = [(0, words[:at], role("quiet"))] if words[:at].strip() else []
                drawn = [*earlier, (at, padded(words[at:], view.column_width - 1 - at), _CURSOR)]
            pieces += [(view.column(day) + column, words, style) for column, words, style in drawn]
        label, half = _label(view, half_hour, half)
        rows.append(placed(view.width, *_with_now(view, half_hour, [label, *pieces])))
    return [*rows, Content(), *_below(view, cursor, carried)]


def _below(view: GridView, cursor: Cell, carried: ScheduledLesson | None) -> list[Content]:
    """What stands below the grid: what is chosen, and where there are rows for more, beside it what the week holds."""
    height = view.below - 1
    wide = (view.width - _APART) // 2
    beside = panels(view.week, view.looked, wide, height) if height >= _PANELS else []
    if not beside:
        return _chosen(view, cursor, carried, view.width)
    chosen = _chosen(view, cursor, carried, wide)[:height]
    rows = zip_longest(chosen, beside, fillvalue=Content())
    return [left + Content(" " * (wide + _APART - left.cell_length)) + right for left, right in rows]


def _days(view: GridView) -> Content:
    """The headings of the days, each over the signs of its lessons; today's has the color of now."""
    parts: list[Content] = [Content(" " * (_LABEL + _EARLIER))]
    for day in view.week:
        named = f"{WEEKDAYS[day.on.weekday()][:3]} {day.on.day}".upper()
        is_today = day.on == view.looked.today
        line = heading(named, view.column_width - 1 - _EARLIER, has_keys=is_today)
        parts += [Content.styled(line.plain, role("clock_running", "bold")) if is_today else line]
        parts += [Content(" " * (1 + _EARLIER))]
    return Content("").join(parts[:-1])


def _label(view: GridView, half_hour: int, before: str) -> tuple[Piece, str]:
    """The time of a full hour, with its half of the day where that is another than `before`."""
    if half_hour % 2 and half_hour != view.first:
        return (0, "", ""), before
    at = view.begins(Cell(day=0, half_hour=half_hour))
    digits, half = view.looked.home.time_and_half(at)
    return (0, f"{digits:>5}{f' {half}' if half != before else ''}", role("quiet")), half


def _with_now(view: GridView, half_hour: int, pieces: list[Piece]) -> list[Piece]:
    """The row of now has its time for a label, and a line to today."""
    now = view.cell_at(view.looked.now)
    if not 0 <= now.day < len(view.week) or now.half_hour != half_hour:
        return pieces
    style = role("clock_running")
    digits, _ = view.looked.home.time_and_half(view.looked.now)
    begins, ends = len(f"{digits:>5}") + 1, view.column(now.day) + _EARLIER
    taken = [(column, column + cell_len(words)) for column, words, _ in pieces[1:] if words]
    free = [c for c in range(begins, ends) if not any(at <= c < until for at, until in taken)]
    line = [(column, "─", style) for column in free]
    is_there = any(at <= ends < until for at, until in taken)
    return [(0, f"{digits:>5}", f"{style} bold"), *line, *pieces[1:], *([] if is_there else [(ends, NOW, style)])]


def _cell(view: GridView, cell: Cell, names: Mapping[LessonId, str]) -> list[Piece]:
    """The words of a cell: a lesson that begins in it, the rail of one that goes on, or a break."""
    begins = view.bookings_in(cell)
    if begins:
        return _lesson(view, begins, names)
    lying = view.under(cell)
    if lying is not None:
        _, style = state_sign(state_of(lying.lesson, view.looked.now))
        return [(_EARLIER, "┃", style if lying.lesson.is_live else role("quiet"))]
    if is_day_off(view.week[cell.day]):
        return [(0, BREAK * (view.column_width - 1), role("line"))]
    off = [each for each in view.week[cell.day].left_out if view.cell_of(each.booking) == cell]
    return (
        [(_EARLIER, f"{BREAK} {cut(off[0].booking.student.name, view.column_width - 6)}", role("quiet"))] if off else []
    )


def _on_its_ground(view: GridView, cell: Cell, drawn: list[Piece]) -> list[Piece]:
    """The words of a cell on the ground of the lesson that lies over it; lessons of a day have two of them in turn."""
    lying = next(iter(view.bookings_in(cell)), view.under(cell))
    if lying is None or lying.lesson.outcome is not None:
        return drawn
    place = view.week[cell.day].bookings.index(lying)
    ground = f"on $role-text {_GROUNDS[place % len(_GROUNDS)]}"
    at, ends = _EARLIER - 1, view.column_width - 1
    pieces: list[Piece] = []
    for column, words, style in drawn:
        if column < at:
            pieces.append((column, words, style))
            continue
        pieces += [(at, " " * (column - at), ground), (column, words, f"{style} {ground}")]
        at = column + cell_len(words)
    return [*pieces, (at, " " * max(0, ends - at), ground)]


def is_day_off(day: DayOfWeek) -> bool:
    """Whether a break takes the whole day, as far as can be seen: nothing of it is taught, and nothing is free."""
    return not day.gaps and not day.bookings and any(is_for_all(each.because) for each in day.left_out)


def _lesson(view: GridView, begins: Sequence[ScheduledLesson], names: Mapping[LessonId, str]) -> list[Piece]:
    first, wide = begins[0], view.column_width
    state = state_of(first.lesson, view.looked.now)
    sign, style = state_sign(state)
    if not all(are_together(first, each) for each in begins[1:]):
        sign, style = NEEDS_HER, role("warning", "bold")
    minutes = f" {first.lesson.minutes}" if wide >= _ROOM_FOR_MINUTES else ""
    room = wide - _EARLIER - 3 - len(minutes)
    past = view.looked.home.local(first.lesson.starts_at).minute
    name = style if first.lesson.is_live else role("text", "bold") if first.lesson.is_open else role("quiet")
    pieces: list[Piece] = [
        (_EARLIER, sign, style),
        (_EARLIER + 2, cut(_who(begins, names), max(1, room)), name),
    ]
    if past % 30:
        pieces.append((0, f":{past:02d}", role("quiet")))
    pieces.append((wide - 1 - len(minutes), minutes, role("quiet")))
    return pieces


def _who(begins: Sequence[ScheduledLesson], names: Mapping[LessonId, str]) -> str:
    """Whose lesson begins in a cell: the first one's, and of all who share it."""
    shared = [each for each in begins[1:] if are_together(begins[0], each)]
    return ", ".join(names[each.lesson.id] for each in (begins[0], *shared))


def _chosen(view: GridView, cursor: Cell, carried: ScheduledLesson | None, width: int) -> list[Content]:
    """Tells what is in the chosen cell, on both clocks, or where a lesson that is carried would go."""
    quiet = role("quiet")
    begins = view.begins(cursor)
    at = f"{short_date(view.week[cursor.day].on)}, {view.looked.home.time(begins)}"
    if carried is not None:
        said = cut(f"{possessive(carried.student.name)} lesson goes to {at}", width - 2)
        rows = [(said, role("text", "bold")), ("enter asks for it  esc leaves it where it is", quiet)]
        return [heading("CARRYING", width, has_keys=True), *(placed(width, (2, *row)) for row in rows)]
    under = view.under(cursor)
    found = view.bookings_in(cursor) or ([under] if under is not None else [])
    if found:
        most = _PANEL - 2
        told = [row for booking in found[:most] for row in _told(booking, view, width)]
        return [heading("CHOSEN", width), *(told if width < view.width else told[:most])]
    is_free = any(gap_begins <= begins < ends for gap_begins, ends in view.week[cursor.day].gaps)
    return [heading("CHOSEN", width), placed(width, (2, f"{at}   {'free' if is_free else 'not free'}", quiet))]


def _told(booking: ScheduledLesson, view: GridView, width: int) -> list[Content]:
    """A lesson on both clocks, with what is not as usual; in as many rows as the width needs."""
    lesson, home, state = booking.lesson, view.looked.home, state_of(booking.lesson, view.looked.now)
    facts = [
        instrument_and_minutes(lesson),
        f"{short_date(home.date_of(lesson.starts_at))}, {home.time(lesson.starts_at)} to {home.time(lesson.planned_end)}",
        home.there(lesson.starts_at, booking.family.zone) or "on your clock",
        marks_of(lesson, state),
    ]
    sign, style = state_sign(state)
    name = cut(booking.student.name, _LONGEST_NAME)
    at_facts = 4 + cell_len(name) + 2
    first, *rest = wrapped(facts, max(1, width - at_facts), "", "   ").split("\n")
    if width < view.width:
        rest += [f"{label:<{_FACT}}{words}" for label, words in view.facts(booking)]
    return [
        placed(
            width,
            (2, sign, style),
            (4, name, role("text", "bold")),
            (at_facts, cut(first, width - at_facts), role("quiet")),
        ),
        *(placed(width, (at_facts, cut(row, width - at_facts), role("quiet"))) for row in rest),
    ]


class WeekGrid(Widget, can_focus=True):
    """The seven days. Arrows walk; off the first or the last day they ask for another week."""

    BINDINGS = [
        Binding("up", "walk(-1)", show=False),
        Binding("down", "walk(1)", show=False),
        Binding("pageup", "turn(-1)", show=False),
        Binding("pagedown", "turn(1)", show=False),
        Binding("enter", "enter", show=False),
    ]

    class Turned(Message):
        """She walked off the first day, -1, or off the last one, 1, or asks for another week."""

        def __init__(self, weeks: int) -> None:
            super().__init__()
            self.weeks = weeks

    class Entered(Message):
        """The chosen cell was entered."""

    view: GridView | None = None
    cell = Cell(day=0, half_hour=0)
    carried: ScheduledLesson | None = None
    _drawn: Sequence[Content] = ()

    def show(self, view: GridView | None, cursor: ScheduledLesson | None) -> None:
        """Shows a week, with the cursor on a lesson of it, else where it was; nothing where it does not fit."""
        self.view, self.display = view, view is not None
        if view is not None:
            self._go_to(view.cell_of(cursor) if cursor is not None and self.carried is None else self.cell)

    def look_again(self, looked: Looked) -> None:
        """Shows the same week at another moment; paints only what is another then."""
        if self.view is not None:
            self.view = replace(self.view, looked=looked)
            before, self._drawn = self._drawn, grid_rows(self.view, self.cell, self.carried)
            refresh_changed(self, before, self._drawn)

    def render(self) -> Content:
        """The grid."""
        self._drawn = grid_rows(self.view, self.cell, self.carried) if self.view is not None else []
        return Content("\n").join(self._drawn)

    @property
    def chosen(self) -> ScheduledLesson | None:
        """The lesson in the chosen cell, or over it."""
        if self.view is None:
            return None
        return next(iter(self.view.bookings_in(self.cell)), self.view.under(self.cell))

    def walk_days(self, days: int) -> None:
        """Goes to the same time of another day; off the week's end to the other end of the week beside it."""
        day = self.cell.day + days
        self._go_to(replace(self.cell, day=day % len(WEEKDAYS)))
        if not 0 <= day < len(WEEKDAYS):
            self.post_message(self.Turned(days))

    def action_walk(self, rows: int) -> None:
        """Goes to the half hour before or after."""
        self._go_to(replace(self.cell, half_hour=self.cell.half_hour + rows))

    def action_turn(self, weeks: int) -> None:
        """Asks for the week before or after."""
        self.post_message(self.Turned(weeks))

    def action_enter(self) -> None:
        """Enters the chosen cell."""
        self.post_message(self.Entered())

    def on_click(self, event: Click) -> None:
        """Goes to the cell that is tapped."""
        place = event.get_content_offset_capture(self)
        if self.view is not None and place.y >= 1 and place.x >= _LABEL:
            day = min(len(WEEKDAYS) - 1, (place.x - _LABEL) // self.view.column_width)
            half_hour = self.view.first + place.y - 1
            if half_hour < self.view.last:
                self._go_to(Cell(day=day, half_hour=half_hour))

    def _go_to(self, cell: Cell) -> None:
        if self.view is not None:
            self.cell = self.view.held(cell)
            self.refresh()

    @property
    def begins(self) -> datetime | None:
        """The moment (UTC) at which the chosen cell begins."""
        return self.view.begins(self.cell) if self.view is not None else None
