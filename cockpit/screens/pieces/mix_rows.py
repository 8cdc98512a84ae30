"""The rows of the mix: an area or a strand each, with eight weeks as cells; of the studio, a strand each with its students."""

from collections.abc import Iterator
from datetime import date

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.desk.pieces.mixing import StudentMix, StudioMix
from cockpit.screens.look.show import HAPPENED, NEEDS_HER, OPEN, WIDEST, Piece, cut_at_word, lines_of, placed, role
from cockpit.screens.textual_parts.rows import group
from cockpit.studio.changes.pieces import StrandLeft
from cockpit.studio.clocks.words import MONTHS, counted, near_day
from cockpit.studio.pieces.mix import WEEKS, MixLine, is_over
from cockpit.studio.pieces.rules import MixRules
from cockpit.wording.pieces import since_words, strand_words

_NAME, _CELLS, _COUNT, _MINUTES = 2, WEEKS, 4, 6  # where names begin; columns of cells, weeks, minutes
_LONGEST_NAME, _SHORTEST_NAME = 20, 12
_AREA, _STRAND = "area", "strand"
BETWEEN = ":"
_BEING_READ = "Earlier notes are still being read: a strand may have been given less long ago."


def mix_options(shown: StudentMix, rules: MixRules, width: int) -> list[Option]:
    """All areas and strands of a student, in two groups."""
    width = min(width, WIDEST)
    left = {each.strand: each for each in shown.left}
    options: list[Option] = []
    for kind, words, lines in (
        (_AREA, "areas, 8 weeks", shown.mix.areas),
        (_STRAND, "strands, 8 weeks", shown.mix.strands),
    ):
        if lines:
            options.append(group(words, width, "oldest left"))
            options.append(Option(_names_row(width), disabled=True))
            options += [
                Option(
                    mix_line_row(each, left.get(each.name), shown.on, rules, width), id=f"{kind}{BETWEEN}{each.name}"
                )
                for each in lines
            ]
    last = [Content.styled(f"  {line}", role("quiet")) for said in _last_words(shown) for line in _wrapped(said, width)]
    return [*options, Option(Content("\n").join([Content(), *last]), disabled=True)]


def name_of(option: str) -> str:
    """The area or the strand that a row is about, by the row's id."""
    return option.partition(BETWEEN)[2]


def mix_line_row(line: MixLine, left: StrandLeft | None, on: date, rules: MixRules, width: int) -> Content:
    """A row: the name, eight cells with the oldest left, how many weeks, the minutes, and when it was given last."""
    over = is_over(line, rules)
    style = role("warning", "bold") if over else role("quiet")
    cells = "".join(HAPPENED if cell else OPEN for cell in line.cells)
    at = _cells_at(width)
    minutes = str(line.minutes) if line.minutes is not None else ""
    ends = at + _CELLS + _COUNT + _MINUTES
    pieces: list[Piece] = [
        (0, NEEDS_HER if over else "", style),
        (
            _NAME,
            cut_at_word(line.name[:1].upper() + line.name[1:], at - _NAME - 1),
            role("warning" if over else "asked", "bold"),
        ),
        (at, cells, style),
        (at + _CELLS, f"{len(line.touched):>{_COUNT}}", role("text")),
        (ends - len(minutes), minutes, role("quiet")),
    ]
    said, room = _last(line, left, on, rules, width - ends - 2), width - ends - 2
    if cell_len(said) <= room:
        return placed(width, *pieces, (ends + 2, said, style))
    return Content("\n").join([placed(width, *pieces), placed(width, (at, cut_at_word(said, width - at), style))])


def studio_options(shown: StudioMix, width: int, *, may_miss: bool = False) -> list[Option]:
    """The strands of the studio, each with who had it and who did not, and whether it `may_miss` earlier lessons."""
    width = min(width, WIDEST)
    options: list[Option] = []
    for each in shown.strands:
        options.append(group(each.name, width, f"{len(each.touched)} of {each.count}"))
        said = Content.styled(strand_words(each), role("text"))
        rows = [Content("  ") + line for line in lines_of(said, width - 2)]
        options.append(Option(Content("\n").join(rows), id=each.name))
    if not options:
        options.append(
            Option(
                Content.styled("  Nothing was given to any student with a weekly time yet.", role("quiet")),
                disabled=True,
            )
        )
    if may_miss:
        last = [Content.styled(f"  {line}", role("quiet")) for line in _wrapped(_BEING_READ, width)]
        options.append(Option(Content("\n").join([Content(), *last]), disabled=True))
    return options


def _cells_at(width: int) -> int:
    return min(_LONGEST_NAME, max(_SHORTEST_NAME, width - 40)) + _NAME


def _names_row(width: int) -> Content:
    at = _cells_at(width) + _CELLS
    names = [(at + _COUNT - 3, "wks", role("quiet")), (at + _COUNT + _MINUTES - 3, "min", role("quiet"))]
    return placed(width, *names, (at + _COUNT + _MINUTES + 2, "last", role("quiet")))


def _last(line: MixLine, left: StrandLeft | None, on: date, rules: MixRules, room: int) -> str:
    """When it was given last, or that it is left; a month is cut where there is no room for it."""
    if line.is_left and left is not None:
        said = "not taught" if left.until_on is None else f"left through {near_day(left.until_on, on)}"
    elif line.last_on is None and rules.is_by_word(line.name):
        said = "nothing noted"
    elif line.last_on is None or not line.touched:
        said = since_words(line)
    else:
        said = near_day(line.last_on, on)
        said = said if cell_len(said) <= room else f"{MONTHS[line.last_on.month - 1][:3]} {line.last_on.day}"
    return said


def _last_words(shown: StudentMix) -> Iterator[str]:
    if shown.unread:
        yield f"Not counted yet: {counted(shown.unread, 'earlier lesson')} whose notes are still to be read."
    yield "A piece counts in every strand that fits it, so strands do not add up."


def _wrapped(said: str, width: int) -> list[str]:
    return [line.plain for line in lines_of(Content(said), width - 2)]
