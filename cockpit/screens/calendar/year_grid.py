"""The studio year as a sheet: months across, students down, a sign a lesson; the cursor goes from cell to cell."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date, datetime
from typing import TYPE_CHECKING

from rich.cells import cell_len
from textual.binding import Binding
from textual.content import Content
from textual.events import Click, Resize
from textual.geometry import Size
from textual.message import Message
from textual.widget import Widget

from cockpit.desk.calendar.proposals import Proposal
from cockpit.screens.look.show import (
    AS_PLANNED,
    BREAK,
    CHANGES,
    NEEDS_HER,
    Piece,
    cut,
    heading,
    hung,
    padded,
    placed,
    role,
    state_sign,
    wrapped,
)
from cockpit.studio.calendar.year import StudentMonth, StudentYear, StudioYear
from cockpit.studio.clocks.teacher_clock import TeacherClock
from cockpit.studio.clocks.words import MONTHS, counted, month_and_day
from cockpit.studio.lessons.lesson import State, in_words, state_of
from cockpit.studio.lessons.scheduled import ScheduledLesson
from cockpit.studio.values import Value, replace

if TYPE_CHECKING:
    from cockpit.studio.people.people import StudentId

WHOLE = -1
"""The column of the whole year; the row below the last student is that of all students."""

_LONGEST_NAME, _SHORT_NAME = 18, 8
_NARROW = 60  # columns below which names are short
_GAP = 2
_BETWEEN = " " * _GAP
_RULED = 8  # columns of a month from which on each has a rule
_OF_SIGNS, _OF_SUMS = 6, 4  # columns of a month: five lessons and a space, or two digits, a sign, and a space
_SPACED = 40  # rows of the screen from which on an empty one stands before what is chosen
_TOLD = 3  # rows below the heading of what is chosen
_BELOW = 2 + _TOLD  # with the row of all students, and that heading
_CURSOR = "$role-cursor-text on $role-cursor-ground"
_COUNTED_SO = "Trial lessons do not count. A make-up counts in place of the lesson it replaces."
_COUNTED: Mapping[State, str] = {
    State.FINISHED: "taught",
    State.RUNNING: "taught",
    State.OVER_TIME: "taught",
    State.BOOKED: "to come",
    State.ABSENT: in_words(State.ABSENT),
    State.CANCELLED: in_words(State.CANCELLED),
    State.CANCELLED_LATE: in_words(State.CANCELLED_LATE),
    State.CALLED_OFF: in_words(State.CALLED_OFF),
    State.NOT_MARKED: in_words(State.NOT_MARKED),
}
"""What the lessons of a state are counted as, in the order in which they are told."""


class YearCell(Value):
    """A student's month, by the student's place and the month's; WHOLE is the year, the place after the last all students."""

    row: int
    month: int


class _Sum(Value):
    """A column of sums: its heading, what it says of a student, how wide it is, and its style."""

    name: str
    of: Callable[[StudentYear], str]
    width: int
    style: str = ""


class YearView(Value):
    """A year at a moment (UTC), on her clock, as it is shown in so many columns and rows."""

    year: StudioYear
    now: datetime
    home: TeacherClock
    size: Size

    @property
    def months(self) -> Sequence[date]:
        """The first days of the months."""
        return self.year.month_firsts

    @property
    def this_month(self) -> int:
        """The place of the month that it is."""
        return self.months.index(self.home.date_of(self.now).replace(day=1))

    def held(self, cell: YearCell) -> YearCell:
        """A cell, or the nearest one that there is."""
        row = min(max(cell.row, 0), len(self.year.students))
        return YearCell(row=row, month=min(max(cell.month, WHOLE), len(self.months) - 1))

    def lessons_of(self, cell: YearCell) -> list[ScheduledLesson]:
        """The lessons of a cell, in order."""
        found = [booking for month in self._months_of(cell) for booking in month.lessons]
        return sorted(found, key=lambda booking: (booking.lesson.starts_at, booking.lesson.id))

    def on_break(self, cell: YearCell) -> int:
        """How many lessons of a cell a break takes away."""
        return sum(len(month.on_break) for month in self._months_of(cell))

    def _months_of(self, cell: YearCell) -> Iterable[StudentMonth]:
        whose = None if cell.row == len(self.year.students) else self.year.students[cell.row].student.id
        first_on = None if cell.month == WHOLE else self.months[cell.month]
        return (
            month
            for month in self.year.months
            if whose in {None, month.student.id} and first_on in {None, month.first_on}
        )

    def counts(self, lessons: Iterable[ScheduledLesson]) -> Counter[str]:
        """How many of the lessons there are of each kind that is told."""
        return Counter(_COUNTED[state_of(booking.lesson, self.now)] for booking in lessons)


def difference_words(year: StudentYear) -> str:
    """What is taught and planned against what is promised: `2 short`, `1 over`, nothing where they are the same."""
    if year.difference < 0:
        return f"{-year.difference} short"
    return f"{year.difference} over" if year.difference else ""


class YearSheet:
    """A year drawn for its width: where its columns are, and the rows of each student."""

    def __init__(self, view: YearView) -> None:
        self.view = view
        self._by_place: dict[tuple[StudentId, date], StudentMonth] = {
            (month.student.id, month.first_on): month for month in view.year.months
        }
        width = view.size.width
        longest = max((cell_len(year.student.name) for year in view.year.students), default=0)
        self.name = min(longest, _LONGEST_NAME if width >= _NARROW else _SHORT_NAME)
        self.name = max(self.name, len(self._all()))
        self.sums, self.cell = self._columns(width - self.name - _GAP)
        self.shown = max(1, min(len(view.months), (width - self.name - _GAP - _wide(self.sums)) // self.cell))
        self.has_signs = self.cell >= _OF_SIGNS
        row = len(view.year.students)
        self._totals = [self._sum(view.lessons_of(YearCell(row=row, month=place))) for place in range(len(view.months))]

    def _columns(self, room: int) -> tuple[Sequence[_Sum], int]:
        """The sums that there is room for beside all months, and the columns of a month; at least the shortest sum."""
        students, months = self.view.year.students, len(self.view.months)
        comes_to = _Sum(name="", of=lambda year: f"{year.taught + year.planned} of {year.promised}", width=9)
        short = _Sum(name="", of=difference_words, width=9, style="warning")
        counts = [
            _Sum(name="taught", of=lambda year: str(year.taught or ""), width=6),
            _Sum(name="to come", of=lambda year: str(year.planned or ""), width=7),
            _Sum(name="missed", of=lambda year: str(_missed(year) or ""), width=6),
            _Sum(name="not marked", of=lambda year: str(year.unmarked or ""), width=10, style="warning"),
        ]
        if not any(map(difference_words, students)):
            short = replace(short, width=0)
        choices = (
            ([*counts, comes_to, short], _OF_SIGNS),
            ([comes_to, short], _OF_SIGNS),
            ([comes_to, short], _OF_SUMS),
        )
        for sums, least in choices:
            cell = (room - _wide(sums)) // months
            if cell >= least:
                return sums, cell if least == _OF_SIGNS else _OF_SUMS
        return [comes_to], _OF_SUMS

    def heading(self, first: int) -> Content:
        """The months, each with a rule that is heavy in the month that it is, and the names of the sums."""
        view = self.view
        shifted = {view.home.date_of(change.at).replace(day=1) for change in view.year.changes}
        parts = [Content(" " * (self.name + _GAP))]
        for place in range(first, first + self.shown):
            on = view.months[place]
            named = MONTHS[on.month - 1][:3].upper()
            change = CHANGES if on in shifted else ""
            has_keys = place == view.this_month
            if self.has_signs and (self.cell >= _RULED or (has_keys and not change)):
                parts += [heading(f"{named} {change}".rstrip(), self.cell - 1, has_keys=has_keys), Content(" ")]
            else:
                style = role("text" if has_keys else "quiet", "bold")
                words = f"{named}{' ' * self.has_signs}{change}"
                parts.append(Content.styled(padded(words, self.cell), style))
        parts += [Content.styled(f"{'':{_GAP}}{each.name:>{each.width}}", role("quiet")) for each in self.sums]
        return Content("").join(parts)

    def height(self, row: int) -> int:
        """How many rows a student takes: as many as the fullest month needs."""
        if not self.has_signs:
            return 1
        student = self.view.year.students[row].student.id
        months = (self._by_place.get((student, on)) for on in self.view.months)
        most = max((len(month.lessons) + len(month.on_break) for month in months if month is not None), default=0)
        return max(1, -(-most // (self.cell - 1)))

    def student(self, row: int, first: int, cursor: YearCell) -> list[Content]:
        """The rows of a student."""
        year = self.view.year.students[row]
        at = self.name + _GAP
        chosen = cursor.row == row
        name = role("text", "bold") if not chosen or cursor.month != WHOLE else _CURSOR
        rows: list[list[Piece]] = [[] for _ in range(self.height(row))]
        rows[0].append((0, padded(year.student.name, self.name), name))
        for place in range(first, first + self.shown):
            month = self._by_place.get((year.student.id, self.view.months[place]))
            column = at + (place - first) * self.cell
            pieces = self._month(month) if month is not None else []
            if chosen and cursor.month == place:
                pieces = _under_cursor(pieces, self.cell - 1, len(rows))
            for line, words, column_in, style in pieces:
                rows[line].append((column + column_in, words, style))
        rows[0] += self._sums_of(year, at + self.shown * self.cell)
        return [placed(self.view.size.width, *pieces) for pieces in rows]

    def all_students(self, first: int, cursor: YearCell) -> Content:
        """The sums of the months, of all students."""
        view, row = self.view, len(self.view.year.students)
        is_chosen = cursor.row == row
        name = _CURSOR if is_chosen and cursor.month == WHOLE else role("quiet", "bold")
        pieces: list[Piece] = [(0, padded(self._all(), self.name), name)]
        for place in range(first, first + self.shown):
            words, style = self._totals[place]
            column = self.name + _GAP + (place - first) * self.cell
            if is_chosen and cursor.month == place:
                words, style = padded(words, self.cell - 1), _CURSOR
            pieces.append((column, words, style))
        students = view.year.students
        column = self.name + _GAP + self.shown * self.cell
        for each in self.sums:
            column += _GAP
            if each.name:
                total = sum(int(each.of(year) or 0) for year in students)
                pieces.append((column, f"{total or '':>{each.width}}", role("quiet")))
            column += each.width
        return placed(view.size.width, *pieces)

    def _all(self) -> str:
        return f"all {len(self.view.year.students)}"

    def _month(self, month: StudentMonth) -> list[tuple[int, str, int, str]]:
        """What is in a month: the row, the words, the column, and the style of each."""
        if not self.has_signs:
            if not month.lessons and month.on_break:
                return [(0, f"{BREAK:>2}", 0, role("line"))]
            words, style = self._sum(month.lessons)
            return [(0, words, 0, style)]
        both = sorted(
            [*((b, False) for b in month.lessons), *((b, True) for b in month.on_break)],
            key=lambda each: (each[0].lesson.starts_at, each[0].lesson.id),
        )
        found = []
        for number, (booking, is_off) in enumerate(both):
            sign, style = (BREAK, role("line")) if is_off else state_sign(state_of(booking.lesson, self.view.now))
            found.append((number // (self.cell - 1), sign, number % (self.cell - 1), style))
        return found

    def _sum(self, lessons: Sequence[ScheduledLesson]) -> tuple[str, str]:
        """How many lessons take place, or may have; a sign says that some are not marked."""
        counts = self.view.counts(lessons)
        unmarked = counts[_COUNTED[State.NOT_MARKED]]
        count = counts["taught"] + counts["to come"] + unmarked
        if unmarked:
            return f"{count:>2}{NEEDS_HER}", role("warning", "bold")
        return (f"{count:>2}" if count else ""), role("text" if counts["to come"] else "quiet")

    def _sums_of(self, year: StudentYear, column: int) -> list[Piece]:
        pieces: list[Piece] = []
        for each in self.sums:
            style = role(each.style, "bold") if each.style and (each.name or year.difference < 0) else role("quiet")
            pieces.append((column + _GAP, f"{each.of(year):>{each.width}}", style))
            column += _GAP + each.width
        return pieces

    def told(self, cell: YearCell) -> list[Content]:
        """What is chosen in words: whose, which month, how many of each kind, and the days of one student's month."""
        view, width = self.view, self.view.size.width
        is_all, is_year = cell.row == len(view.year.students), cell.month == WHOLE
        lessons = view.lessons_of(cell)
        counts = view.counts(lessons)
        facts = [f"{counts[word]} {word}" for word in dict.fromkeys(_COUNTED.values()) if counts[word]]
        if off := view.on_break(cell):
            facts.append(f"{off} on break")
        if is_year and not is_all:
            year = view.year.students[cell.row]
            comes_to = f"{year.taught + year.planned} of {counted(year.promised, 'lesson time')}"
            facts.insert(0, ", ".join(filter(None, (comes_to, difference_words(year)))))
        whose = counted(len(view.year.students), "student") if is_all else view.year.students[cell.row].student.name
        on = None if is_year else view.months[cell.month]
        when = f"{MONTHS[on.month - 1]} {on.year}" if on is not None else "the whole year"
        name = cut(whose, max(4, width // 3))
        first, *rest = wrapped([name, when, *(facts or ["no lessons"])], width - 4, "", _BETWEEN).splitlines()
        quiet = role("quiet")
        said = [Content.assemble((name, role("text", "bold")), (first[len(name) :], quiet))]
        rows = [heading("CHOSEN", width), *_indented([*said, *(Content.styled(f"  {line}", quiet) for line in rest)])]
        if not is_all and not is_year:
            rows += _indented(hung(self._days(lessons), width - 2))
        shifts = [change for change in view.year.changes if on == view.home.date_of(change.at).replace(day=1)]
        for change in shifts:
            day = month_and_day(view.home.date_of(change.at))
            shifted = counted(len(change.shifts), "weekly time")
            rows.append(
                Content.styled(cut(f"  {CHANGES} {day}: clocks change, {shifted} shifted", width), role("quiet"))
            )
        return [*rows, *[Content()] * _TOLD][: 1 + _TOLD]

    def proposed(self, proposal: Proposal) -> list[Content]:
        """What enter would mark, as a question."""
        width = self.view.size.width
        words = " ".join((proposal.understood, *proposal.troubles))
        rows = _indented(hung(Content.styled(words, role("text", "bold")), width - 2))[: _TOLD - 1]
        rows.append(Content.styled("  enter does it  esc leaves them", role("quiet")))
        return [heading("MARK AS TAUGHT", width, has_keys=True), *rows, *[Content()] * _TOLD][: 1 + _TOLD]

    def _days(self, lessons: Sequence[ScheduledLesson]) -> Content:
        """Each lesson's sign and day; behind the last of some that are not as planned alike, their word."""
        parts: list[tuple[str, str]] = []
        states = [state_of(booking.lesson, self.view.now) for booking in lessons]
        for booking, state, following in zip(lessons, states, [*states, None][1:], strict=True):
            sign, style = state_sign(state)
            is_told = sign not in AS_PLANNED and following is not state
            day = self.view.home.date_of(booking.lesson.starts_at).day
            told = f"{day} {in_words(state)}" if is_told else f"{day}"
            parts += [(f"{sign} ", style), (told, style if sign not in AS_PLANNED else role("text")), ("  ", "")]
        return Content.assemble(*parts)


def _missed(year: StudentYear) -> int:
    return year.absent + year.cancelled + year.cancelled_late + year.called_off


def _wide(sums: Sequence[_Sum]) -> int:
    return sum(_GAP + each.width for each in sums)


def _indented(rows: Iterable[Content]) -> list[Content]:
    return [Content("  ") + row for row in rows]


def _under_cursor(
    pieces: Iterable[tuple[int, str, int, str]], width: int, rows: int
) -> list[tuple[int, str, int, str]]:
    """A cell in the colors of the cursor."""
    lines = [
        placed(width, *((column, words, "") for line, words, column, _ in pieces if line == row)) for row in range(rows)
    ]
    return [(row, line.plain, 0, _CURSOR) for row, line in enumerate(lines)]


class YearGrid(Widget, can_focus=True):
    """The sheet, and what is chosen in it. The arrows walk; what does not fit comes into sight with the cursor."""

    BINDINGS = [
        Binding("up", "walk(-1, 0)", show=False),
        Binding("down", "walk(1, 0)", show=False),
        Binding("left", "walk(0, -1)", show=False),
        Binding("right", "walk(0, 1)", show=False),
        Binding("home", "go(0)", show=False),
        Binding("end", "go(1)", show=False),
        Binding("enter", "enter", show=False),
    ]

    class Agreed(Message):
        """Enter was pressed: what is proposed is to be done."""

    cell = YearCell(row=0, month=WHOLE)
    proposal: Proposal | None = None
    _sheet: YearSheet | None = None
    _top = 0
    _first = 0

    def show(self, year: StudioYear, now: datetime, home: TeacherClock) -> None:
        """Shows a year at a moment (UTC); the cursor begins in the month that it is, and stays where it is then."""
        view = YearView(year=year, now=now, home=home, size=self._room())
        if self._sheet is None:
            self.cell = YearCell(row=0, month=view.this_month)
        self._sheet = YearSheet(view)
        self._go_to(self.cell)

    def on_resize(self, _event: Resize) -> None:
        """Lays it out anew."""
        if self._sheet is not None and self._sheet.view.size != self._room():
            self._sheet = YearSheet(replace(self._sheet.view, size=self._room()))
            self._go_to(self.cell)

    def propose(self, proposal: Proposal | None) -> None:
        """Shows what enter would do, or again what is chosen."""
        self.proposal = proposal
        self.refresh()

    @property
    def chosen(self) -> list[ScheduledLesson]:
        """The lessons of the chosen cell, in order."""
        return self._sheet.view.lessons_of(self.cell) if self._sheet is not None else []

    def render(self) -> Content:
        """The sheet, as much of it as fits, and what is chosen."""
        sheet = self._sheet
        if sheet is None:
            return Content()
        if not sheet.view.year.students:
            return Content.styled("No student has lessons this year.", role("quiet"))
        rows = [sheet.heading(self._first)]
        for row in self._in_sight()[:-1]:
            rows += sheet.student(row, self._first, self.cell)
        rows.append(sheet.all_students(self._first, self.cell))
        if self._is_spaced:
            rows.append(Content())
        rows += sheet.told(self.cell) if self.proposal is None else sheet.proposed(self.proposal)
        if self._is_spaced:
            counted_so = hung(Content.styled(_COUNTED_SO, role("quiet")), sheet.view.size.width - 2)
            rows += [Content(), *_indented(counted_so)]
        return Content("\n").join(rows)

    def action_walk(self, rows: int, months: int) -> None:
        """Goes to the cell beside."""
        self._go_to(YearCell(row=self.cell.row + rows, month=self.cell.month + months))

    def action_go(self, end: int) -> None:
        """Goes to the first student, or to the row of all of them."""
        students = len(self._sheet.view.year.students) if self._sheet is not None else 0
        self._go_to(replace(self.cell, row=students * end))

    def action_enter(self) -> None:
        """Says that enter was pressed."""
        self.post_message(self.Agreed())

    def on_click(self, event: Click) -> None:
        """Goes to the cell that is tapped."""
        place, sheet = event.get_content_offset_capture(self), self._sheet
        if sheet is None or not sheet.view.year.students:
            return
        month = (place.x - sheet.name - _GAP) // sheet.cell
        column = self._first + month if 0 <= month < sheet.shown else WHOLE
        line = 1
        for row in self._in_sight():
            height = 1 if row == len(sheet.view.year.students) else sheet.height(row)
            if line <= place.y < line + height:
                self._go_to(YearCell(row=row, month=column))
            line += height

    def _room(self) -> Size:
        return Size(max(1, self.app.size.width - 2), self.app.size.height)

    @property
    def _is_spaced(self) -> bool:
        return self.app.size.height >= _SPACED

    @property
    def _rows(self) -> int:
        """The rows that there are for students."""
        return max(1, self.content_size.height - 1 - _BELOW - 3 * self._is_spaced)

    def _in_sight(self) -> list[int]:
        """The rows that are seen: some students, and that of all."""
        sheet = self._sheet
        if sheet is None:
            return []
        found, room = [], self._rows
        for row in range(self._top, len(sheet.view.year.students)):
            room -= sheet.height(row)
            if room < 0:
                break
            found.append(row)
        return [*found, len(sheet.view.year.students)]

    def _go_to(self, cell: YearCell) -> None:
        sheet = self._sheet
        if sheet is None:
            return
        self.cell, self.proposal = sheet.view.held(cell), None
        if self.cell.month != WHOLE:
            self._first = min(max(self._first, self.cell.month - sheet.shown + 1), self.cell.month)
        self._first = min(self._first, len(sheet.view.months) - sheet.shown)
        self._top = min(self._top, self.cell.row)
        while self.cell.row not in self._in_sight():
            self._top += 1
        while self._top and self._is_room_above():
            self._top -= 1
        self.refresh()

    def _is_room_above(self) -> bool:
        """Whether one more student would be seen together with all below."""
        sheet = self._sheet
        if sheet is None:
            return False
        return sum(map(sheet.height, range(self._top - 1, len(sheet.view.year.students)))) <= self._rows
