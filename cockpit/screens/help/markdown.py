"""Markdown of ours as lines for the screen, in the colors of the theme.

Textual's own widget makes a widget of each block: a page of ten kilobytes took it half a second, and these lines take
some milliseconds.
"""

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import zip_longest

from markdown_it import MarkdownIt
from markdown_it.tree import SyntaxTreeNode
from textual.content import Content
from textual.style import Style

from cockpit.screens.look.show import role
from cockpit.studio.values import Value

_BETWEEN = 2
_ONE_LINE = 400
_NARROW = 60  # columns, in which a cell that wraps is read word by word
_STYLES: Mapping[str, tuple[str, ...]] = {
    "strong": ("bold",),
    "em": ("italic",),
    "code_inline": (role("key"),),
    "link": (role("student"), "underline"),
}
_EMPTY = Content("")


class Page(Value):
    """A page that is laid out: its lines, and on which of them each heading is."""

    lines: tuple[Content, ...]
    headings: Mapping[str, int]


class Section(Value):
    """A part of a page under one heading: its first paragraph, its tables cell by cell, and its text to search in."""

    heading: str
    paragraph: str
    tables: tuple[tuple[tuple[str, ...], ...], ...]
    text: str


def sections_of(markdown: str) -> list[Section]:
    """The parts of a page; the first has no heading where the page begins with a text."""
    parts: list[tuple[str, list[SyntaxTreeNode]]] = [("", [])]
    for node in SyntaxTreeNode(_markdown().parse(markdown)).children:
        if node.type == "heading" and node.tag == "h2":
            parts.append((_words(node).plain, []))
        elif node.type not in {"html_block", "heading"}:
            parts[-1][1].append(node)
    return [_section(heading, nodes) for heading, nodes in parts if heading or nodes]


def _section(heading: str, nodes: Sequence[SyntaxTreeNode]) -> Section:
    paragraphs = [_words(node).plain for node in nodes if node.type == "paragraph"]
    tables = tuple(
        tuple(tuple(_words(cell).plain for cell in row.children) for part in node.children for row in part.children)
        for node in nodes
        if node.type == "table"
    )
    text = " ".join(line.plain for node in nodes for line in _block(node, _ONE_LINE))
    return Section(heading=heading, paragraph=next(iter(paragraphs), ""), tables=tables, text=text)


def _markdown() -> MarkdownIt:
    return MarkdownIt("commonmark").enable("table")


def laid_out(markdown: str, width: int) -> Page:
    """A page of the guide in lines of a width; its title is left out, since it stands above."""
    lines: list[Content] = []
    headings: dict[str, int] = {}
    root = SyntaxTreeNode(_markdown().parse(markdown))
    for node in root.children:
        if node.type == "html_block" or (node.type == "heading" and node.tag == "h1"):
            continue
        if lines:
            lines.append(_EMPTY)
        if node.type == "heading":
            headings[_words(node).plain] = len(lines)
        lines += _block(node, width)
    return Page(lines=tuple(lines), headings=headings)


def _block(node: SyntaxTreeNode, width: int) -> list[Content]:
    if node.type in {"bullet_list", "ordered_list"}:
        return _list(node, width)
    return _BLOCKS.get(node.type, _paragraph)(node, width)


def _heading(node: SyntaxTreeNode, width: int) -> list[Content]:
    *lines, last = _words(node).stylize_before(role("title", "bold")).wrap(width)
    rule = "─" * (width - last.cell_length - 1)
    return [*lines, Content.assemble(last, (f" {rule}" if rule else "", role("line")))]


def _paragraph(node: SyntaxTreeNode, width: int) -> list[Content]:
    return _words(node).wrap(width)


def _code(node: SyntaxTreeNode, width: int) -> list[Content]:
    lines = (Content.styled(line, role("key")) for line in node.content.splitlines())
    return [_hung(part, "  ") for line in lines for part in line.wrap(width - 2)]


def _list(node: SyntaxTreeNode, width: int) -> list[Content]:
    lines: list[Content] = []
    for number, item in enumerate(node.children, start=1):
        mark = f"{number:>2} " if node.type == "ordered_list" else " – "
        parts = [line for each in item.children for line in _block(each, width - len(mark))]
        lines.append(Content.assemble((mark, role("quiet")), parts[0]))
        lines += [_hung(part, " " * len(mark)) for part in parts[1:]]
    return lines


def _table(node: SyntaxTreeNode, width: int) -> list[Content]:
    rows = [[_words(cell) for cell in row.children] for part in node.children for row in part.children]
    widths = _widths(rows, width)
    if widths is None:
        return _stacked(rows[1:], width)
    heads = [head.stylize_before(role("quiet")) for head in rows[0]]
    return [line for row in (heads, *rows[1:]) for line in _row(row, widths)]


def _widths(rows: Sequence[Sequence[Content]], width: int) -> list[int] | None:
    """How wide each column is: as wide as its words, or cut where there is most of them; None if it cannot be."""
    columns = list(zip(*rows, strict=True))
    wanted = [max(cell.cell_length for cell in column) for column in columns]
    found = [max(_longest_word(cell) for cell in column) for column in columns]
    gaps = _BETWEEN * (len(columns) - 1)
    room = width - gaps - sum(found)
    if room < 0 or (width < _NARROW and sum(wanted) > width - gaps):
        return None
    for _ in range(room):
        most = max(range(len(columns)), key=lambda column: wanted[column] - found[column])
        found[most] += wanted[most] > found[most]
    return found


def _row(cells: Sequence[Content], widths: Sequence[int]) -> list[Content]:
    wrapped = (cell.wrap(width) if cell else [_EMPTY] for cell, width in zip(cells, widths, strict=True))
    lines = []
    for parts in zip_longest(*wrapped, fillvalue=_EMPTY):
        padded = (
            part.pad_right(width - part.cell_length + _BETWEEN) for part, width in zip(parts, widths, strict=True)
        )
        lines.append(Content("").join(padded).rstrip())
    return lines


def _stacked(rows: Iterable[Sequence[Content]], width: int) -> list[Content]:
    """The rows of a table that is too wide: the first cell, and below it the others."""
    lines: list[Content] = []
    for first, *others in rows:
        lines += [*([_EMPTY] if lines else []), *first.stylize_before("bold").wrap(width)]
        lines += [_hung(part, "  ") for cell in others if cell for part in cell.wrap(width - 2)]
    return lines


def _longest_word(cell: Content) -> int:
    return max((len(word) for word in cell.plain.split()), default=1)


def _hung(line: Content, by: str) -> Content:
    return Content.assemble(by, line)


def _words(node: SyntaxTreeNode) -> Content:
    """The words of a block or of a part of it, in their styles."""
    if node.type in {"softbreak", "hardbreak"}:
        return Content(" ")
    words = Content(node.content) if not node.children else Content("").join(map(_words, node.children))
    for style in _STYLES.get(node.type, ()):
        words = words.stylize(style)
    page = re.fullmatch(r"([\w-]+)\.md", str(node.attrs.get("href", "")))
    return words if page is None else words.stylize(Style.from_meta({"@click": f"screen.show_page('{page[1]}')"}))


_BLOCKS: Mapping[str, Callable[[SyntaxTreeNode, int], list[Content]]] = {
    "heading": _heading,
    "fence": _code,
    "table": _table,
}
