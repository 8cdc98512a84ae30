"""How pieces come along, in rows below the last assignments: the tempos of a piece, and the mix of the last weeks."""

from collections.abc import Collection
from datetime import date

from rich.cells import cell_len
from textual.content import Content
from textual.widgets.option_list import Option

from cockpit.screens.look.show import HAPPENED, NEEDS_HER, OPEN, Piece, cut_at_word, heading, lines_of, placed, role
from cockpit.studio.clocks.words import near_day
from cockpit.studio.pieces.history import PieceTime
from cockpit.studio.pieces.mix import Mix, MixLine, is_over
from cockpit.studio.pieces.plot import MOST_CELLS, heights
from cockpit.studio.pieces.rules import MixRules
from cockpit.wording.pieces import beats_words, plot_words, since_words, tempo_words

_MOST_ROWS = 3  # of what is mentioned; a title can be long
_NUMBERS = 10  # where the tempos begin
_AROUND = len("132.5  132.5  goal 132.5")  # columns of what stands around the plot


def tempo_rows(time: PieceTime, width: int) -> list[Content]:
    """A heading, and the tempos that a piece was heard at: the first, a small plot of the latest, the last one, and the goal."""
    beats, beat, goal = beats_words(time.beat), time.beat, time.goal
    heard = [each.quarters for each in time.hearings]
    shown = heard[-min(MOST_CELLS, max(2, width - _NUMBERS - _AROUND)) :]
    first, last = tempo_words(heard[0], beat), tempo_words(heard[-1], beat)
    plot = plot_words(heights(shown, goal)) if len(shown) > 1 else ""
    title = cut_at_word(time.asked.read.title.upper(), max(8, width - cell_len(beats) - 4))
    said: list[Piece] = [(2, "heard", role("quiet"))]
    at = _NUMBERS
    for words, style in (
        (f"{first} {plot}" if plot else "", role("text")),
        (last, role("text", "bold")),
        (f" goal {tempo_words(goal, beat)}" if goal is not None else "", role("quiet")),
    ):
        said += [(at, words, style)] if words else []
        at += cell_len(words) + 1 if words else 0
    return [heading(title, width, beats), placed(width, *said)]


def mention_option(words: str, width: int, name: str, *, has_gap: bool) -> Option:
    """A quiet row that mentions something: what was not given for long, or is to be heard again."""
    rows = [Content("  ") + row for row in lines_of(Content.styled(words, role("quiet")), width - 2)[:_MOST_ROWS]]
    return Option(Content("\n").join([*([Content()] if has_gap else []), *rows]), id=name)


def mix_rows(mix: Mix, mentioned: Collection[MixLine], on: date, rules: MixRules, width: int) -> list[Content]:
    """The areas of the last eight weeks below a heading; of what is mentioned elsewhere, since when it was not given stands there."""
    lines = [each for each in mix.areas if each.touched or is_over(each, rules)]
    lines += [each for each in mentioned if each not in lines]
    rows = [mix_row(each, on, rules, width, says_since=each not in mentioned) for each in lines]
    return [heading("THE MIX, 8 WEEKS", width), *rows] if rows else []


def mix_row(line: MixLine, on: date, rules: MixRules, width: int, *, says_since: bool = True) -> Content:
    """An area or a strand: eight cells, the oldest left, how many weeks, and when it was given last."""
    over = is_over(line, rules)
    name = line.name[:1].upper() + line.name[1:]
    cells = "".join(HAPPENED if cell else OPEN for cell in line.cells)
    at = min(20, max(14, width - 40))
    room = max(0, width - at - 15)
    last = near_day(line.last_on, on) if line.last_on is not None and not over else since_words(line)
    if line.last_on is not None and not over:
        last = next((each for each in (f"last {last}", last) if cell_len(each) <= room), "")
    style = role("warning", "bold") if over else role("quiet")
    return placed(
        width,
        (0, NEEDS_HER if over else "", style),
        (2, cut_at_word(name, at - 3), role("warning" if over else "asked", "bold")),
        (at, cells, style if over else role("quiet")),
        (at + 8, f"{len(line.touched):>4}", role("text")),
        (at + 15, cut_at_word(last, room) if says_since else "", style),
    )
