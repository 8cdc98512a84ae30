"""A family's sheet drawn for a width, and the lines that stay with the teacher."""

from collections.abc import Iterable, Iterator, Sequence

from rich.cells import cell_len
from textual.content import Content

from cockpit.desk.post.previewing import Preview
from cockpit.screens.look.show import PRIVATE, Piece, heading, hung, padded, placed, role
from cockpit.studio.practice.sheet import ChartCell, ChartDay, ChartRow, FamilySheet, PracticeChart, SheetPart

BOX = "□"
"""A box to check off, as on the sheet; on the screen nothing checks it."""

_NARROWEST_ROW, _WIDEST_ROW = 18, 30  # columns of what is asked, before the days
_END = "│┃"
_AIR = 2  # columns of a day beside its widest line, where there is room


def family_rows(preview: Preview, width: int) -> list[Content]:
    """What the family gets, under its heading: the words around the sheet, and the sheet as it is laid out."""
    rows = [heading("THE FAMILY READS", width, has_keys=True), Content()]
    if preview.sheet is None:
        return [*rows, *_wrapped(preview.text, width, "")]
    before, after = preview.around
    if before:
        rows += [*_wrapped(before, width, ""), Content()]
    rows += _sheet(preview.sheet, width)
    if after:
        rows += [Content(), *_wrapped(after, width, "")]
    return rows


def kept_rows(preview: Preview, width: int) -> list[Content]:
    """What stays with her, under its heading with a count."""
    rows = [heading("STAYS WITH YOU", width, str(len(preview.kept) or "")), Content()]
    if not preview.kept:
        return [*rows, *_wrapped("Nothing: the family reads every line.", width, "quiet")]
    style = role("private")
    for line in preview.kept:
        first, *rest = hung(Content.styled(line, f"{style} italic"), width - 2)
        rows += [Content.assemble((f"{PRIVATE} ", style), first), *(Content("  ") + each for each in rest)]
    return rows


def _sheet(sheet: FamilySheet, width: int) -> Iterator[Content]:
    yield from _wrapped(sheet.title, width, "text", "bold")
    for line in sheet.head:
        yield from _wrapped(line, width, "quiet")
    if sheet.remarks is not None:
        yield Content()
        yield from _part(SheetPart(heading=sheet.remarks.heading, lines=()), width)
        for line in sheet.remarks.lines:
            for each in _wrapped(line, width - 2, "text") or [Content()]:
                yield Content.styled("┃ ", role("line")) + each
    if sheet.chart is not None:
        yield Content()
        yield from chart_rows(sheet.chart, width)
    for part in sheet.parts:
        yield Content()
        yield from _part(part, width)
    if sheet.caution:
        yield Content()
        yield from _wrapped(sheet.caution, width, "quiet")


def _part(part: SheetPart, width: int) -> Iterator[Content]:
    yield Content.styled(part.heading.upper(), role("quiet", "bold"))
    for line in part.lines:
        yield from _wrapped(line, width, "text")


def chart_rows(chart: PracticeChart, width: int) -> Iterator[Content]:
    """The practice: days across where they fit, else a day under the other, as on a phone."""
    yield Content.styled(chart.heading.upper(), role("quiet", "bold"))
    lines = [line for row in chart.rows for cell in row.cells if cell is not None for line in cell.lines]
    heads = [words for day in chart.days for words in (day.weekday, day.date, day.minutes)]
    widest = max(map(cell_len, [*lines, *heads, BOX]), default=1)
    for air in (_AIR, 0):
        left = width - len(chart.days) * (widest + air + 1) - len(_END)
        if left >= _NARROWEST_ROW:
            yield from _Table(chart, min(left, _WIDEST_ROW), widest + air).rows()
            break
    else:
        yield from _days(chart, width)
    for line in chart.legend:
        yield from _wrapped(line, width, "quiet")


class _Table:
    """A chart between bar lines: what is asked in the first column, a column a day, a thin and a thick bar at the end."""

    def __init__(self, chart: PracticeChart, first: int, day: int) -> None:
        self._chart = chart
        self._first = first
        self._day = day
        self._width = first + len(chart.days) * (day + 1) + 2

    def rows(self) -> Iterator[Content]:
        """All rows, a rule below each assignment."""
        days, quiet = self._chart.days, role("quiet")
        yield self._row([], [[(day.weekday, role("text", "bold"))] for day in days], 0)
        yield self._row([], [[(day.date, quiet)] for day in days], 0)
        for row in self._chart.rows:
            yield self._rule()
            asked, cells = _asked(row, self._first - 1), [_lines(cell) for cell in row.cells]
            for line in range(max(len(asked), *map(len, cells))):
                yield self._row(asked, cells, line)
        if any(day.minutes for day in days):
            yield self._rule()
            yield self._row([Content.styled(self._chart.minutes, quiet)], [[(day.minutes, quiet)] for day in days], 0)
        yield self._rule(is_last=True)

    def _row(self, asked: Sequence[Content], cells: Sequence[Sequence[tuple[str, str]]], line: int) -> Content:
        parts = [asked[line] if line < len(asked) else Content()]
        parts.append(Content(" " * max(0, self._first - parts[0].cell_length)))
        for day, cell in zip(self._chart.days, cells, strict=True):
            words, style = cell[line] if line < len(cell) else ("", "")
            space = self._day - cell_len(words)
            parts.append(Content.styled(_bar(day), role("line")))
            parts.append(Content.assemble(" " * (space // 2), (words, style), " " * (space - space // 2)))
        parts.append(Content.styled(_END, role("line")))
        return Content("").join(parts)

    def _rule(self, *, is_last: bool = False) -> Content:
        cross = {"│": "┴" if is_last else "┼", "┃": "┸" if is_last else "╂"}
        days = "".join(cross[_bar(day)] + "─" * self._day for day in self._chart.days)
        return Content.styled(f"{'─' * self._first}{days}{'┘┃' if is_last else '┤┃'}", role("line"))


def _bar(day: ChartDay) -> str:
    return "┃" if day.begins_week else "│"


def _asked(row: ChartRow, width: int) -> list[Content]:
    """An assignment: its area and minutes, its name, how it is done."""
    quiet = role("quiet")
    head = Content.assemble((row.area, role("text", "bold")), (f"  {row.minutes}" if row.minutes else "", quiet))
    below = (each for words in (row.how, *row.answers) for each in _wrapped(words, width, "quiet"))
    return [*hung(head, width), *_wrapped(row.name, width, "text"), *below]


def _lines(cell: ChartCell | None) -> list[tuple[str, str]]:
    """A cell: the measures bold, then the rest, and its box; nothing on a day without it."""
    if cell is None:
        return []
    measures = {cell.first, cell.again}
    lines = [(line, role("text", "bold") if line in measures else role("text")) for line in cell.lines]
    return [*lines, (BOX, role("text"))]


def _days(chart: PracticeChart, width: int) -> Iterator[Content]:
    areas = max((cell_len(row.area) for row in chart.rows), default=0)
    areas = min(areas, width // 3)
    for place, day in enumerate(chart.days):
        minutes = f"{day.minutes} {chart.minutes}" if day.minutes else ""
        pieces: list[Piece] = [(0, day.whole, role("text", "bold"))]
        pieces.append((max(cell_len(day.whole) + 2, width - cell_len(minutes)), minutes, role("quiet")))
        yield placed(width, *pieces)
        for row in chart.rows:
            cell = row.cells[place]
            if cell is None:
                continue
            head = f"  {BOX} {padded(row.area, areas)}  "
            said = "  ".join(filter(None, (row.name, *cell.lines)))
            first, *rest = _wrapped(said, max(8, width - cell_len(head)), "text") or [Content()]
            yield Content(head) + first
            yield from (Content(" " * cell_len(head)) + each for each in rest)


def _wrapped(words: str, width: int, name: str, *more: str) -> list[Content]:
    """Words on as many lines as they need, each line of them by itself; none for no words."""
    style = role(name, *more) if name else ""
    return [line for each in words.splitlines() for line in _line(Content.styled(each, style), width)] if words else []


def _line(words: Content, width: int) -> Iterable[Content]:
    return [each.rstrip() for each in words.wrap(max(1, width))] if words.cell_length > width else [words]
