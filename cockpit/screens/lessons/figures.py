"""Large numerals out of blocks, and the lesson as a ruler; of our own drawing."""

from collections.abc import Mapping

_SIGNS = "0123456789:+-"
# Two dots share a row of the terminal, so that a dot is about square. Strokes are two dots wide and bowls stay open: 6, 8, 9
# and 0 differ from across a room. Each digit fills the same columns, so that nothing jumps as time passes.
_LOW = """
.###. .##.. ####. ####. ##.## ##### .###. ##### .###. .###. .. ..... .....
##.## ###.. ...## ...## ##.## ##... ##... ...## ##.## ##.## ## ..#.. .....
##.## .##.. ..##. .###. ##.## ####. ####. ..##. .###. ##.## .. ##### #####
##.## .##.. .##.. ...## ##### ...## ##.## ..##. ##.## .#### .. ..#.. .....
##.## .##.. ##... ...## ...## ...## ##.## .##.. ##.## ...## ## ..... .....
.###. ####. ##### ####. ...## ####. .###. .##.. .###. .###. .. ..... .....
"""
_TALL = """
.#####. ...##.. .#####. ######. ##...## ####### .#####. ####### .#####. .#####. .. ....... .......
####### ..###.. ####### ####### ##...## ####### ######. ####### ####### ####### .. ....... .......
##...## .####.. ##...## .....## ##...## ##..... ##..... .....## ##...## ##...## ## ..##... .......
##...## ...##.. .....## .....## ##...## ##..... ##..... ....##. ##...## ##...## ## ..##... .......
##...## ...##.. ....### .#####. ####### ######. ######. ...##.. .#####. ####### .. ######. ######.
##...## ...##.. ..####. .#####. ####### ####### ####### ...##.. .#####. .###### .. ######. ######.
##...## ...##.. .###... .....## .....## .....## ##...## ..##... ##...## .....## ## ..##... .......
##...## ...##.. ##..... .....## .....## .....## ##...## ..##... ##...## .....## ## ..##... .......
####### .###### ####### ####### .....## ####### ####### .##.... ####### .###### .. ....... .......
.#####. .###### ####### ######. .....## ######. .#####. .##.... .#####. .#####. .. ....... .......
"""
_HALVES = {"..": " ", "#.": "▀", ".#": "▄", "##": "█"}
_Shapes = Mapping[str, tuple[str, ...]]


def _shapes(drawing: str) -> _Shapes:
    """The rows of blocks of each sign in a drawing."""
    dots = [row.split() for row in drawing.split("\n") if row]
    shapes = {
        sign: tuple(
            "".join(_HALVES[above + below] for above, below in zip(upper[place], lower[place], strict=True))
            for upper, lower in zip(dots[::2], dots[1::2], strict=True)
        )
        for place, sign in enumerate(_SIGNS)
    }
    return shapes | {" ": tuple(" " * len(row) for row in shapes[":"])}


_SHAPES = {3: _shapes(_LOW), 5: _shapes(_TALL)}


def big_figures(text: str, height: int) -> list[str]:
    """The text in numerals `height` rows high, 3 (digits of 5 columns) or 5 (of 7); one column lies between two signs.

    Raises:
        KeyError: another height, or a sign other than the digits, `:`, `+`, `-` and the space.
    """
    shapes = _SHAPES[height]
    return [" ".join(shapes[sign][row] for sign in text) for row in range(height)]


def ruler(share: float, cue: float, width: int) -> tuple[str, str, str, str]:
    """A lesson as a line of `width` columns: what passed, what is left up to the wrap-up cue, the cue, the rest.

    `share` and `cue` are parts of the lesson, 0 to 1. What passed is thick. The cue is a cross-stroke: thin ahead, thick
    and part of what passed from then on, when the second and third piece are empty.
    """
    passed = min(width, max(0, round(share * width)))
    mark = min(width - 1, max(0, round(cue * width)))
    if passed > mark:
        return "━" * mark + "╋" + "━" * (passed - mark - 1), "", "", "─" * (width - passed)
    return "━" * passed, "─" * (mark - passed), "┼", "─" * (width - mark - 1)
