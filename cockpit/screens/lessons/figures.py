"""Large numerals and names of notes out of blocks, and the lesson as a line of music; of our own drawing."""

import functools
from collections.abc import Iterator, Mapping, Sequence

from cockpit.screens.look.roles import Face

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
# Names of notes and what else is counted with, as high as a low digit.
_NOTES = "ABCDEFGH♯♭𝄪()[]ea|"
_LOW_NOTES = """
.###. ####. .#### ####. ##### ##### .#### ##.## .#.#. #.. ..... .# #. ## ## .... .... #
##.## ##.## ##... ##.## ##... ##... ##... ##.## ##### #.. #...# #. .# #. .# .##. .##. #
##.## ####. ##... ##.## ####. ####. ##... ##### .#.#. ##. .#.#. #. .# #. .# #..# ...# #
##### ##.## ##... ##.## ##... ##... ##.## ##.## .#.#. #.# ..#.. #. .# #. .# #### .### #
##.## ##.## ##... ##.## ##... ##... ##.## ##.## ##### #.# .#.#. #. .# #. .# #... #..# #
##.## ####. .#### ####. ##### ##... .#### ##.## .#.#. ##. #...# .# #. ## ## .##. .### #
"""
_HALVES = {"..": " ", "#.": "▀", ".#": "▄", "##": "█"}
_DRAWINGS = {3: _LOW, 5: _TALL}
_INNER = ((1, 2), (5, 6), (8, 7))  # the second dot row of each level stroke of a tall digit, and the row next to it
_USUAL = Face()


@functools.cache
def _shapes(height: int, face: Face) -> Mapping[str, tuple[str, ...]]:
    """The rows of blocks of each sign in the drawing of a height."""
    dots = [row.split() for row in _DRAWINGS[height].split("\n") if row]
    shapes = {}
    for place, sign in enumerate(_SIGNS):
        rows = [row[place] for row in dots]
        if sign.isdigit():
            rows = _cut(rows, face)
        shapes[sign] = tuple(_halved(rows))
    return shapes | {" ": tuple(" " * len(row) for row in shapes[":"])}


def _halved(rows: list[str]) -> Iterator[str]:
    """Rows of dots as rows of blocks, two in one."""
    for upper, lower in zip(rows[::2], rows[1::2], strict=True):
        yield "".join(_HALVES[above + below] for above, below in zip(upper, lower, strict=True))


def _cut(rows: list[str], face: Face) -> list[str]:
    """A digit with its corners filled, or with level strokes of one half row; those of a low one are that already."""
    cut = list(rows)
    if face.corners == "square":
        for edge, next_to_it in ((0, 1), (-1, -2)):
            cut[edge] = "".join(max(pair, key=".#".index) for pair in zip(rows[edge], rows[next_to_it], strict=True))
    if face.stroke == "thin" and len(rows) > max(max(pair) for pair in _INNER):
        for inner, next_to_it in _INNER:
            cut[inner] = rows[next_to_it]
    return cut


def big_figures(text: str, height: int, face: Face = _USUAL) -> list[str]:
    """The text in numerals `height` rows high, 3 (digits of 5 columns) or 5 (of 7); one column lies between two signs.

    Raises:
        KeyError: another height, or a sign other than the digits, `:`, `+`, `-` and the space.
    """
    shapes = _shapes(height, face)
    return [" ".join(shapes[sign][row] for sign in text) for row in range(height)]


def big_notes(text: str, between: int) -> list[str] | None:
    """Names of notes or counts of a rhythm in three rows, with so many columns between them; None where a sign has no drawing."""
    shapes = _note_shapes()
    if not set(text) <= shapes.keys() | {" "}:
        return None
    return [
        (" " * between).join(" ".join(shapes[sign][row] for sign in word) for word in text.split()) for row in range(3)
    ]


@functools.cache
def _note_shapes() -> Mapping[str, tuple[str, ...]]:
    dots = [row.split() for row in _LOW_NOTES.split("\n") if row]
    drawn = {sign: tuple(_halved([row[place] for row in dots])) for place, sign in enumerate(_NOTES)}
    return {**_shapes(3, _USUAL), **drawn}


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
