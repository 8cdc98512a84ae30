"""Large numerals and the line of music; how wide they may be is common practice, no source."""

import subprocess
import sys
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.screens.lessons.figures import big_figures, big_notes, music_line
from cockpit.screens.look.roles import CORNERS, STROKES, Face

DIGITS = "0123456789"
SIGNS = DIGITS + ":+- "
HEIGHTS = (3, 5)
FACES = [Face(stroke=stroke, corners=corners) for stroke in STROKES for corners in CORNERS]
SHARES = st.floats(0, 1)


def dots(sign: str, height: int, face: Face) -> list[str]:
    """A sign as the dots one sees, two a row of the terminal."""
    upper, lower = str.maketrans("█▀▄ ", "##.."), str.maketrans("█▀▄ ", "#.#.")
    return [line for row in big_figures(sign, height, face) for line in (row.translate(upper), row.translate(lower))]


def holes(sign: str, height: int, face: Face) -> int:
    """The areas without ink that are closed on every side: one in a 0, two in an 8."""
    drawing = dots(sign, height, face)
    width = len(drawing[0]) + 2
    empty = {
        (x, y)
        for y, line in enumerate(["." * width, *(f".{line}." for line in drawing), "." * width])
        for x, dot in enumerate(line)
        if dot == "."
    }
    areas = 0
    while empty:
        edge = [empty.pop()]
        areas += 1
        while edge:
            x, y = edge.pop()
            beside = {(x + 1, y), (x - 1, y), (x, y + 1), (x, y - 1)} & empty
            empty -= beside
            edge.extend(beside)
    return areas - 1


@pytest.mark.parametrize("height", HEIGHTS)
@given(st.text(SIGNS, min_size=1, max_size=9))
def test_the_figures_are_a_block_of_their_height(height, text):
    rows = big_figures(text, height)
    assert len(rows) == height
    assert len({len(row) for row in rows}) == 1
    assert set("".join(rows)) <= set("█▀▄ ")


@pytest.mark.parametrize("face", FACES, ids=str)
@pytest.mark.parametrize(("height", "width"), [(3, 5), (5, 7)])
def test_every_digit_is_of_one_width_so_that_nothing_jumps(height, width, face):
    assert {len(big_figures(digit, height, face)[0]) for digit in DIGITS} == {width}


@pytest.mark.parametrize(("text", "height", "most"), [("88:88", 3, 26), ("88:88", 5, 40), ("1:88:88", 3, 42)])
def test_the_clock_fits_beside_its_words(text, height, most):
    assert len(big_figures(text, height)[0]) <= most


@pytest.mark.parametrize("height", HEIGHTS)
@given(st.text(SIGNS, min_size=1, max_size=6), st.text(SIGNS, min_size=1, max_size=6))
def test_figures_stand_beside_each_other_with_one_column_between(height, left, right):
    both = zip(big_figures(left, height), big_figures(right, height), strict=True)
    assert big_figures(left + right, height) == [f"{one} {other}" for one, other in both]


@pytest.mark.parametrize("face", FACES, ids=str)
@pytest.mark.parametrize("height", HEIGHTS)
def test_any_two_digits_differ_in_three_dots_or_more(height, face):
    for one, other in combinations(DIGITS, 2):
        pairs = zip("".join(dots(one, height, face)), "".join(dots(other, height, face)), strict=True)
        assert sum(a != b for a, b in pairs) >= 3, (one, other)


@pytest.mark.parametrize("face", FACES, ids=str)
@pytest.mark.parametrize("height", HEIGHTS)
@pytest.mark.parametrize(("digits", "expected"), [("8", 2), ("069", 1), ("12357", 0)])
def test_a_digit_has_the_closed_bowls_that_it_is_known_by(height, digits, expected, face):
    assert {digit: holes(digit, height, face) for digit in digits} == dict.fromkeys(digits, expected)


@pytest.mark.parametrize("face", FACES, ids=str)
@pytest.mark.parametrize("height", HEIGHTS)
def test_a_six_is_open_at_the_right_and_a_nine_at_the_left(height, face):
    six, nine = dots("6", height, face), dots("9", height, face)
    middle = len(six) // 2
    assert any(line.endswith("..") for line in six[1:middle])
    assert not any(line.startswith("..") for line in six)
    assert any(line.startswith("..") for line in nine[middle:-1])
    assert not any(line.endswith("..") for line in nine)


@pytest.mark.parametrize("face", FACES, ids=str)
@pytest.mark.parametrize("height", HEIGHTS)
def test_a_one_stands_on_a_foot_and_a_seven_under_a_bar(height, face):
    one, seven = dots("1", height, face), dots("7", height, face)
    assert seven[0] == "#" * len(seven[0])
    assert one[-1].count("#") >= 4 > one[0].count("#")
    assert seven[-1].count("#") == 2


@pytest.mark.parametrize(("text", "height"), [("4x", 3), ("4", 4)])
def test_other_signs_and_heights_are_a_mistake_of_the_caller(text, height):
    with pytest.raises(KeyError):
        big_figures(text, height)


@pytest.mark.parametrize(
    ("share", "line"),
    [
        (0.0, "▶──┼────┼─┤┃"),
        (0.25, "━━▶┼────┼─┤┃"),
        (0.35, "━━━▶────┼─┤┃"),
        (0.55, "━━━┿━▶──┼─┤┃"),
        (0.99, "━━━┿━━━━┿▶┤┃"),
        (1.0, "━━━┿━━━━┿━┥┃"),
    ],
)
def test_a_lesson_is_a_line_of_music_with_its_parts_and_one_now(share, line):
    assert "".join(music_line(12, share, [0.0, 0.3, 0.8])) == line


def test_any_two_names_of_notes_differ_and_stand_in_three_rows_of_one_width():
    drawn = {sign: big_notes(sign, 3) for sign in (*"ABCDEFGH♯♭𝄪()[]ea|+", *DIGITS)}
    for one, other in combinations(drawn, 2):
        assert drawn[one] != drawn[other], (one, other)
    for rows in drawn.values():
        assert len(rows) == 3
        assert len({len(row) for row in rows}) == 1


def test_notes_stand_so_many_columns_apart_and_a_sign_beside_its_letter():
    assert big_notes("F♯ B", 3) == ["██▀▀▀ ▄█▄█▄   ██▀█▄", "██▀▀   █ █    ██▀█▄", "██    ▀█▀█▀   ██▄█▀"]


@pytest.mark.parametrize("words", ["Fis", "sol", "2 sharps: F♯", "root C, first inversion", "x"])
def test_words_are_no_notes_to_be_drawn(words):
    assert big_notes(words, 3) is None


def test_the_rest_of_the_line_can_be_drawn_in_another_way():
    assert "".join(music_line(8, 0.5, [], rest="╌")) == "━━━▶╌╌┤┃"


def test_the_figures_need_no_textual():
    code = "import sys\nimport cockpit.screens.lessons.figures\nprint('textual' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "False\n"


@pytest.mark.parametrize(("face", "corner", "inner"), [
    (Face(), ".", "#######"),
    (Face(corners="square"), "#", "#######"),
    (Face(stroke="thin"), ".", "##...##"),
    (Face(stroke="thin", corners="square"), "#", "##...##"),
])  # fmt: skip
def test_a_theme_chooses_the_corners_and_the_level_strokes(face, corner, inner):
    rows = dots("0", 5, face)
    assert (rows[0][0], rows[-1][-1], rows[1], rows[-2]) == (corner, corner, inner, inner)
