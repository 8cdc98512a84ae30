"""The lines of the studio year: each student's lessons against the number promised, in columns where they fit."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from rich.cells import cell_len
from textual.content import Content

from cockpit.screens.look.show import padded, role, wrapped
from cockpit.studio.calendar.year import StudentMonth, StudentYear
from cockpit.studio.clocks.words import MONTHS, counted, month_and_day
from cockpit.studio.people.people import StudentId

_ALWAYS: Mapping[str, Callable[[StudentYear], int]] = {
    "taught": lambda year: year.taught,
    "planned": lambda year: year.planned,
}
_WHERE_ANY: Mapping[str, Callable[[StudentYear], int]] = {
    "canceled": lambda year: year.cancelled,
    "late": lambda year: year.cancelled_late,
    "absent": lambda year: year.absent,
    "not marked": lambda year: year.unmarked,
}
_LONGEST_NAME = 20
_BETWEEN = "  "
_INDENT = "   "
_MONTH = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class YearShown:
    """A studio year from its first day up to and on its last one; `this_month` is the first of the month it is."""

    first_on: date
    until_on: date
    this_month: date
    promised: int
    students: Sequence[StudentYear]
    months: Sequence[StudentMonth]


def year_title(shown: YearShown) -> str:
    """From when to when the year goes."""
    first, last = (f"{month_and_day(on)}, {on.year}" for on in (shown.first_on, shown.until_on))
    return f"{first}, to {last}"


def year_sums(shown: YearShown) -> str:
    """What is promised, and to how many."""
    return f"{counted(shown.promised, 'lesson time')} for each of {counted(len(shown.students), 'student')}"


def difference_words(year: StudentYear) -> str:
    """What is taught and planned against what is promised: `2 short of 36`, `as promised`, `1 over`."""
    if year.difference < 0:
        return f"{-year.difference} short of {year.promised}"
    return f"{year.difference} over" if year.difference else "as planned"


def year_lines(shown: YearShown, width: int) -> tuple[str, list[Content]]:
    """The heading of the columns, empty where there are none, and a line for each student.

    The months are there as soon as they fit; where counts do not fit beside them, they stand on a second line.
    """
    cells = _Cells(shown)
    for parts in ((cells.months, cells.counts), (cells.months,), (cells.counts,)):
        heading = _BETWEEN.join(part.heading for part in parts)
        if cells.name + len(_BETWEEN) + cell_len(heading) + len(_BETWEEN) + cells.difference <= width:
            below = width if cells.counts not in parts else 0
            lines = [
                _line(year, cells, [part.rows[year.student.id] for part in parts], below) for year in shown.students
            ]
            return f"{'':{cells.name}}{_BETWEEN}{heading}", lines
    return "", [_line(year, cells, [], width) for year in shown.students]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """Some columns: their heading, and each student's figures below it."""

    heading: str
    rows: Mapping[StudentId, str]


class _Cells:
    """All that can stand in the line of a student, at its width."""

    def __init__(self, shown: YearShown) -> None:
        self.name = min(_LONGEST_NAME, max((cell_len(year.student.name) for year in shown.students), default=0))
        self.difference = max((len(difference_words(year)) for year in shown.students), default=0)
        self.counts = _counts(shown.students)
        self.months = _months(shown)


def _counts(students: Sequence[StudentYear]) -> _Part:
    columns = [*_ALWAYS.items(), *((name, of) for name, of in _WHERE_ANY.items() if any(map(of, students)))]
    return _Part(
        heading=_BETWEEN.join(name for name, _ in columns),
        rows={
            year.student.id: _BETWEEN.join(f"{of(year) or '·':>{len(name)}}" for name, of in columns)
            for year in students
        },
    )


def _months(shown: YearShown) -> _Part:
    held = {(month.student.id, month.first_on): month.taught + month.planned for month in shown.months}
    columns = list(_firsts(shown.first_on, shown.until_on))
    names = (f"{'›' if on == shown.this_month else ''}{MONTHS[on.month - 1][:3]}" for on in columns)
    return _Part(
        heading="".join(f"{name:>{_MONTH}}" for name in names),
        rows={
            year.student.id: "".join(f"{held.get((year.student.id, on)) or '·':>{_MONTH}}" for on in columns)
            for year in shown.students
        },
    )


def _firsts(first_on: date, until_on: date) -> Iterable[date]:
    on = first_on.replace(day=1)
    while on <= until_on:
        yield on
        on = (on + timedelta(days=31)).replace(day=1)


def _line(year: StudentYear, cells: _Cells, figures: list[str], below: int) -> Content:
    """A student's line; the counts in words on a second one, if that has columns."""
    against = (difference_words(year), role("warning") if year.difference < 0 else "")
    name = padded(year.student.name, cells.name)
    parts: list[tuple[str, str]] = [(name, "bold"), *((f"{_BETWEEN}{each}", "") for each in figures), (_BETWEEN, "")]
    parts.append(against)
    if below:
        facts = [f"{of(year)} {word}" for word, of in _ALWAYS.items()]
        facts += [f"{of(year)} {word}" for word, of in _WHERE_ANY.items() if of(year)]
        parts.append((f"\n{wrapped(facts, below, _INDENT)}", role("quiet")))
    return Content.assemble(*parts)
