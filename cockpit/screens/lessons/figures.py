"""Large numerals out of blocks, and the lesson as a line of music; of our own drawing."""

from collections.abc import Mapping, Sequence

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


def music_line(width: int, share: float, parts: Sequence[float], rest: str = "─") -> tuple[str, str, str, str]:
    """A lesson as a line of music, `width` columns long: what is played, now, what is not, and its two last strokes.

    `share` is how much has been played, 0 to 1, and `parts` where each of its parts begins: a bar line stands there. What
    is played is heavy; the `rest` is thin. Where all is played there is no now.
    """
    length = max(1, width - 2)
    lines = {round(part * length) for part in parts if 0 < part < 1}
    now = min(length - 1, max(0, int(share * length)))
    played = "".join("┿" if place in lines else "━" for place in range(length))
    ahead = "".join("┼" if place in lines else rest for place in range(length))
    return (played, "", "", "┥┃") if share >= 1 else (played[:now], "▶", ahead[now + 1 :], "┤┃")
