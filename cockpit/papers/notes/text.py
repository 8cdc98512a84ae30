"""The practice notes as text: as Markdown (CommonMark 0.31.2) that reads well unrendered too, and plain, for a terminal or a mail."""

from collections.abc import Iterable, Iterator
from itertools import chain
from typing import TYPE_CHECKING

from cockpit.papers.notes import sentences
from cockpit.papers.notes.literal import literal, literal_inline, literal_line
from cockpit.papers.notes.theory import answers, with_answers
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.practice.sheet import FamilySheet, SheetPart
from cockpit.studio.shown import one_line

if TYPE_CHECKING:
    from cockpit.studio.practice.sheet import ChartCell, ChartRow
    from cockpit.studio.practice.week import WeekPlan

# Wider than that, a table breaks into pieces where it is not rendered.
_WIDEST_TABLE = 120


def practice_notes_markdown(paper: PracticeNotes, phrases: Phrases) -> str:
    """The practice notes of a lesson as a Markdown document; sections without words are left out."""
    phrases = sentences.phrases_of_paper(paper, phrases)
    when, how_long = sentences.taught(paper, phrases), sentences.length(paper, phrases)
    blocks = [title_markdown(paper, phrases), f"{literal_line(when)}  \n{literal_line(how_long)}"]
    if paper.notes.remarks:
        blocks += [_heading("notes.remarks", phrases), remarks_markdown(paper, phrases)]
    blocks += [*assignments_markdown(paper, phrases), *plan_markdown(paper, phrases), *lasting_markdown(paper, phrases)]
    blocks += [_heading("notes.next_lesson", phrases), literal_line(sentences.next_lesson(paper, phrases))]
    if paper.has_health_line:
        blocks += ["---", literal_line(phrases.say("notes.caution"))]
    return "\n\n".join(blocks) + "\n"


def title_markdown(paper: PracticeNotes, phrases: Phrases) -> str:
    """The title as a heading."""
    return f"# {literal_inline(sentences.title(paper, phrases))}"


def _heading(key: str, phrases: Phrases) -> str:
    return f"## {literal_inline(phrases.say(key))}"


def remarks_markdown(paper: PracticeNotes, phrases: Phrases) -> str:
    """The remarks as they were typed, with what was asked in braces answered."""
    return literal("\n".join(with_answers(paper.notes.remarks, phrases, paper.theory)))


def assignments_markdown(paper: PracticeNotes, phrases: Phrases) -> Iterator[str]:
    """The assignments as a list under their heading, as they were typed; nothing without any."""
    if not paper.notes.assignments:
        return
    from cockpit.papers.notes.plan import assignment_text  # 5 ms, which opening the day need not pay

    yield _heading("notes.assignments", phrases)
    yield "\n".join(
        f"- **{literal_inline(sentences.assignment_label(each, phrases))}** "
        f"{literal_inline(assignment_text(each, phrases))}"
        + "".join(f"  \n  {literal_line(answer)}" for answer in answers(each.text, phrases, paper.theory))
        for each in paper.notes.assignments
    )


def plan_markdown(paper: PracticeNotes, phrases: Phrases) -> Iterator[str]:
    """The plan under its heading: a table where it is a chart and that fits, else days, and in each what it has."""
    if paper.plan is None:
        return
    from cockpit.papers.notes.plan import plan_blocks, plan_lead  # 5 ms, which opening the day need not pay

    if table := _table(paper, phrases):
        yield from table
        return
    yield _heading(_plan_heading(paper), phrases)
    if lead := plan_lead(paper.plan, phrases):
        yield literal_line(lead)
    lines: list[str] = []
    for block in plan_blocks(paper.plan, phrases):
        lines.append(f"- **{literal_inline(block.heading)}**")
        lines += [f"  - {literal_inline(item)}" for item in block.items]
    yield "\n".join(lines)


def lasting_markdown(paper: PracticeNotes, phrases: Phrases) -> Iterator[str]:
    """What is still to get, and the goals, each as a list under its heading; nothing where there is nothing."""
    for heading, lines in sentences.lasting_parts(paper, phrases):
        yield f"## {literal_inline(heading)}"
        yield "\n".join(
            f"- {literal_inline(line)}" + "".join(f"  \n  {literal_line(answer)}" for answer in told)
            for line, *told in lines
        )


def _plan_heading(paper: PracticeNotes) -> str:
    """The phrase over a plan: the same on the page, in a text, and on the screen."""
    return "plan.heading" if paper.charted is None else "chart.heading"


def _table(paper: PracticeNotes, phrases: Phrases) -> list[str]:
    """The chart as a table (GFM) with its legend; nothing where it is too wide to be read unrendered."""
    from cockpit.papers.notes.chart import chart_of

    chart = chart_of(paper, phrases)
    if chart is None:
        return []
    rows = [
        ["", *(f"{day.weekday} {day.date}" for day in chart.days)],
        *([_asked(row), *map(_cell, row.cells)] for row in chart.rows),
    ]
    if any(day.minutes for day in chart.days):
        rows.append([chart.minutes, *(day.minutes for day in chart.days)])
    cells = [[literal_inline(cell).replace("|", "\\|") for cell in row] for row in rows]
    widths = [max(3, *map(len, column)) for column in zip(*cells, strict=True)]
    if sum(widths) + 3 * len(widths) + 1 > _WIDEST_TABLE:
        return []
    head, *others = (" | ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)) for row in cells)
    rule = " | ".join("-" * width for width in widths)
    legend = literal_line(" ".join(chart.legend)) if chart.legend else ""
    table = "\n".join(f"| {line} |" for line in (head, rule, *others))
    return [f"## {literal_inline(chart.heading)}", table, *([legend] if legend else [])]


def _asked(row: "ChartRow") -> str:
    return " ".join(filter(None, (row.area, row.minutes, row.name)))


def _cell(cell: "ChartCell | None") -> str:
    return " ".join((*cell.lines, "☐")) if cell is not None else ""


def practice_notes_text(paper: PracticeNotes, phrases: Phrases) -> str:
    """The practice notes of a lesson as plain text; what stands under a heading is indented by two blanks."""
    phrases = sentences.phrases_of_paper(paper, phrases)
    head = (sentences.title(paper, phrases), sentences.taught(paper, phrases), sentences.length(paper, phrases))
    blocks = [_block(map(one_line, head))]
    if paper.notes.remarks:
        blocks.append(_section(phrases.say("notes.remarks"), with_answers(paper.notes.remarks, phrases, paper.theory)))
    if paper.notes.assignments:
        blocks.append(_section(phrases.say("notes.assignments"), _given(paper, phrases)))
    if paper.plan is not None:
        blocks.append(_section(phrases.say(_plan_heading(paper)), _plan_in_lines(paper.plan, phrases)))
    blocks += [_section(heading, chain(*lines)) for heading, lines in sentences.lasting_parts(paper, phrases)]
    blocks.append(_section(phrases.say("notes.next_lesson"), [sentences.next_lesson(paper, phrases)]))
    if paper.has_health_line:
        blocks.append(phrases.say("notes.caution"))
    return "\n\n".join(blocks) + "\n"


def practice_notes_sheet(paper: PracticeNotes, phrases: Phrases) -> FamilySheet:
    """The practice notes of a lesson as they lie on their page, part by part, for a screen to draw."""
    from cockpit.papers.notes.chart import chart_of

    phrases = sentences.phrases_of_paper(paper, phrases)
    chart = chart_of(paper, phrases)
    parts: list[SheetPart] = []
    if chart is None and paper.notes.assignments:
        parts.append(SheetPart(heading=phrases.say("notes.assignments"), lines=tuple(_given(paper, phrases))))
    if chart is None and paper.plan is not None:
        parts.append(
            SheetPart(heading=phrases.say(_plan_heading(paper)), lines=tuple(_plan_in_lines(paper.plan, phrases)))
        )
    parts += [
        SheetPart(heading=heading, lines=tuple(chain(*lines)))
        for heading, lines in sentences.lasting_parts(paper, phrases)
    ]
    told = tuple(with_answers(paper.notes.remarks, phrases, paper.theory))
    remarks = SheetPart(heading=phrases.say("notes.remarks"), lines=told) if told else None
    label = phrases.say("notes.label", label=phrases.say("notes.next_lesson"))
    return FamilySheet(
        title=sentences.title(paper, phrases),
        head=(
            f"{sentences.taught(paper, phrases)}. {sentences.length(paper, phrases)}",
            f"{label} {sentences.next_lesson(paper, phrases)}",
        ),
        remarks=remarks,
        chart=chart,
        parts=tuple(parts),
        caution=phrases.say("notes.caution") if paper.has_health_line else "",
    )


def _given(paper: PracticeNotes, phrases: Phrases) -> Iterator[str]:
    """The assignments in lines, each with what was asked in braces answered below it."""
    from cockpit.papers.notes.plan import assignment_text

    for line in paper.notes.assignments:
        yield f"{sentences.assignment_label(line, phrases)} {assignment_text(line, phrases)}"
        yield from answers(line.text, phrases, paper.theory)


def _plan_in_lines(plan: "WeekPlan", phrases: Phrases) -> Iterator[str]:
    from cockpit.papers.notes.plan import plan_blocks, plan_lead

    if lead := plan_lead(plan, phrases):
        yield lead
    for block in plan_blocks(plan, phrases):
        yield block.heading
        yield from (f"  {item}" for item in block.items)


def _section(heading: str, lines: Iterable[str]) -> str:
    return _block([heading, *(f"  {one_line(line)}" for line in lines)])


def _block(lines: Iterable[str]) -> str:
    return "\n".join(line.rstrip() for line in lines)
