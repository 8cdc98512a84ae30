"""The practice notes as one self-contained HTML page: her remarks, then the practice as a chart or as lists."""

import re
from collections.abc import Iterator
from html import escape
from typing import TYPE_CHECKING

from cockpit.papers.notes import sentences
from cockpit.papers.notes.literal import literal_inline, literal_line
from cockpit.papers.notes.text import (
    assignments_markdown,
    lasting_markdown,
    plan_markdown,
    remarks_markdown,
    title_markdown,
)
from cockpit.papers.notes.theory import Draw, no_staff, places_of_staves, with_staves
from cockpit.papers.words.phrases import Phrases
from cockpit.studio.practice.notes import PracticeNotes
from cockpit.studio.shown import one_line

if TYPE_CHECKING:
    from markdown_it import MarkdownIt

    from cockpit.studio.practice.sheet import ChartCell, ChartDay, ChartRow, PracticeChart

# Nothing is fetched, run or sent from the page, whatever was typed; a typed link that is followed tells no referrer.
_PAGE = """\
<!doctype html>
<html lang="{language}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; \
base-uri 'none'; form-action 'none'">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>{title}</title>
<style>
{style}</style>
</head>
<body>
<main>
{body}</main>
</body>
</html>
"""
# The sign is for a mail program that leaves out the box itself, or the style sheet that draws it.
_BOX = '<input type="checkbox" aria-label="{label}"><i aria-hidden="true">☐</i>'
# A day stays with its month, and an hour with its half of the day.
_KEPT_TOGETHER = re.compile(r"(?<=[^\W\d_]) (?=\d)|(?<=\d) (?=[ap]m\b)|(?<=\d\.) (?=[^\W\d_])")
_COMMENT_OR_INDENT = re.compile(r"/\*.*?\*/\s*|\n\s*", re.DOTALL)
_SIZES = ((5, "five"), (8, "eight"), (12, "twelve"))
_MOST_UPRIGHT = 7  # more columns lie across the sheet


def practice_notes_page(paper: PracticeNotes, style: str, phrases: Phrases, draw: Draw = no_staff) -> str:
    """The practice notes of a lesson as an HTML page with the style sheet `style` in it."""
    title, body = sentences.title(paper, phrases), practice_notes_body(paper, phrases)
    return page_frame(title, with_staves(body, draw), style, phrases.language)


def practice_notes_body(paper: PracticeNotes, phrases: Phrases) -> str:
    """What stands on the page of a lesson's practice notes, without its frame and its staves."""
    return "".join(_parts(paper, sentences.phrases_of_paper(paper, phrases)))


def _parts(paper: PracticeNotes, phrases: Phrases) -> Iterator[str]:
    reader = _reader()
    head = (f"{sentences.taught(paper, phrases)}. {sentences.length(paper, phrases)}", _next(paper, phrases))
    yield reader.render(title_markdown(paper, phrases))
    yield reader.render("  \n".join(literal_line(_KEPT_TOGETHER.sub("\N{NO-BREAK SPACE}", line)) for line in head))
    if paper.notes.remarks:
        heading = reader.render(f"## {literal_inline(phrases.say('notes.remarks'))}")
        remarks = reader.render(remarks_markdown(paper, phrases))
        yield f'<section class="remarks">\n{heading}{remarks}</section>\n'
    if chart := _chart(paper, phrases):
        yield chart
    else:
        yield reader.render("\n\n".join((*assignments_markdown(paper, phrases), *plan_markdown(paper, phrases))))
    yield places_of_staves(paper, phrases)
    if paper.to_get or paper.goals:
        yield reader.render("\n\n".join(lasting_markdown(paper, phrases)))
    if paper.has_health_line:
        yield reader.render(f"---\n\n{literal_line(phrases.say('notes.caution'))}")


def _next(paper: PracticeNotes, phrases: Phrases) -> str:
    label = phrases.say("notes.label", label=phrases.say("notes.next_lesson"))
    return f"{label} {sentences.next_lesson(paper, phrases)}"


def _chart(paper: PracticeNotes, phrases: Phrases) -> str:
    """The chart as a table, and for a phone as days that fold, of which one is open.

    The days are hidden where they stand, and shown by the style sheet: a mail program that drops style sheets shows
    the table alone. Nothing runs on the page (mail programs take a page that runs something for an attack, and cut it
    out), so that it cannot know which day it is: the day on which the sheet was made, and sent seconds later, is the last
    that it knows. A plan has no day before that, so its first one is open, and stays the one that is when the page is
    opened again. A link to the id of a day opens that, which a browser looks for in what is folded.
    """
    from cockpit.papers.notes.chart import chart_of  # 5 ms with the plan, which opening the day need not pay

    chart = chart_of(paper, phrases)
    if chart is None:
        return ""
    is_across = len(chart.days) > _MOST_UPRIGHT
    size = next((name for most, name in _SIZES if len(chart.rows) <= most), "more")
    kind = f"practice {size}{' across' if is_across else ''}"
    legend = "".join(f"<span>{escape(each)}</span> " for each in chart.legend)
    group = _key(paper)
    folded = "".join(_folded(each, day, chart, group, phrases) for each, day in enumerate(chart.days))
    return (
        f'<section class="{kind}">\n<h2>{escape(chart.heading)}</h2>\n{_table(chart)}'
        f'<div class="days" style="display:none">\n{folded}</div>\n'
        + (f'<p class="legend">{legend.strip()}</p>\n' if legend else "")
        + "</section>\n"
    )


def _key(paper: PracticeNotes) -> str:
    """What tells the days of a sheet from those of any other in one mail: whose it is, and of which lesson."""
    words = "-".join(re.findall(r"\w+", paper.student.casefold()))
    return escape(f"{words}-{paper.taught_at:%m%d-%H%M}")


def _table(chart: "PracticeChart") -> str:
    days = "".join(
        f'<th scope="col"{_begins(day)}>{escape(day.weekday)}<small>{escape(day.date)}</small></th>'
        for day in chart.days
    )
    rows = "".join(
        f'<tr><th scope="row">{_asked(row)}</th>'
        + "".join(
            f"<td{_begins(day)}>{_cell(cell, f'{row.area}, {day.weekday} {day.date}')}</td>"
            for cell, day in zip(row.cells, chart.days, strict=True)
        )
        + "</tr>\n"
        for row in chart.rows
    )
    sums = "".join(f"<td{_begins(day)}>{day.minutes}</td>" for day in chart.days)
    foot = f'<tfoot><tr><th scope="row">{escape(chart.minutes)}</th>{sums}</tr></tfoot>\n'
    has_sums = any(day.minutes for day in chart.days)
    return f"<table>\n<thead><tr><td></td>{days}</tr></thead>\n<tbody>\n{rows}</tbody>\n{foot if has_sums else ''}</table>\n"


def _begins(day: "ChartDay") -> str:
    return ' class="week"' if day.begins_week else ""


def _asked(row: "ChartRow") -> str:
    """An assignment: its area and minutes, its name, how it is done."""
    return _named(row) + _below(row)


def _below(row: "ChartRow") -> str:
    """How it is done, and what was asked in braces, answered."""
    how = f" <span>{escape(row.how)}</span>" if row.how else ""
    return how + "".join(f' <span class="answer">{escape(each)}</span>' for each in row.answers)


def _named(row: "ChartRow") -> str:
    return (
        f"<b>{escape(row.area)}</b>"
        + (f" <small>{escape(row.minutes)}</small>" if row.minutes else "")
        + (f" <strong>{escape(row.name)}</strong>" if row.name else "")
    )


def _cell(cell: "ChartCell | None", label: str) -> str:
    if cell is None:
        return ""
    return f"<label>{_lines(cell, '')}{_BOX.format(label=escape(label))}</label>"


def _lines(cell: "ChartCell", joint: str) -> str:
    lines = (
        f"<b>{escape(cell.first)}</b>" if cell.first else "",
        *map(_line, (cell.tempo, cell.again, cell.again_tempo, *cell.rest)),
    )
    return joint.join(filter(None, lines))


def _line(words: str) -> str:
    return f"<span>{escape(words)}</span>" if words else ""


def _folded(place: int, day: "ChartDay", chart: "PracticeChart", group: str, phrases: Phrases) -> str:
    minutes = phrases.say("words.minutes_short", count=day.minutes) if day.minutes else ""
    items = "".join(
        f"<li><label>{_BOX.format(label=escape(f'{row.area}, {day.weekday} {day.date}'))}<span>{_named(row)}"
        + (f" <em>{_lines(cell, ', ')}</em>" if cell.lines else "")
        + _below(row)
        + "</span></label></li>\n"
        for row in chart.rows
        if (cell := row.cells[place]) is not None
    )
    is_open = " open" if place == 0 else ""
    return (
        f'<details name="{group}"{is_open}><summary><b>{escape(day.whole)}</b> <small>{escape(minutes)}</small></summary>\n'
        f'<ul id="d{day.number}-{group}">\n{items}</ul></details>\n'
    )


def page_frame(title: str, body: str, style: str, language: str = "en") -> str:
    """A page around a body that is HTML already; the title is text. `language` is its code: `es`, `en-GB`."""
    return _PAGE.format(
        language=escape(language),
        title=escape(one_line(title)),
        # A large mail service drops a style sheet of more than 8192 letters. None may close its own element.
        style=_COMMENT_OR_INDENT.sub("\n", style).strip("\n").replace("</", "<\\/") + "\n",
        body=body,
    )


def _reader() -> "MarkdownIt":
    """A CommonMark reader that lets no HTML and no picture through, and shows everything as it was typed."""
    from markdown_it import MarkdownIt  # 23 ms, which opening the day and every other export need not pay

    class TypedTextReader(MarkdownIt):
        def normalizeLinkText(self, link: str) -> str:  # noqa: N802 the name it overrides
            return link

    reader = TypedTextReader("commonmark", {"html": False}).disable("image")
    reader.add_render_rule("hardbreak", _line_break)
    return reader


def _line_break(*_: object) -> str:
    return "<br>"  # without the usual line end: the style sheet keeps white space as typed
