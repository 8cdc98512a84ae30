"""The rows below the last assignments: the tempos of a piece."""

import pytest
from support.pieces import given_line

from cockpit.screens.lessons.progress_rows import tempo_rows
from cockpit.studio.pieces.history import PieceTime


def rows(*heard, width=46, beat="q"):
    days = ("11-03", "11-10", "11-17", "11-24")
    lines = [
        given_line(on, f"Piece: The Old Mill {beat}=60 to 92", heard=each)
        for on, each in zip(days, heard, strict=False)
    ]
    return [row.plain.rstrip() for row in tempo_rows(PieceTime(lines=tuple(lines)), width)]


def test_the_tempos_of_a_piece_are_a_small_plot_between_the_first_and_the_last_with_the_goal():
    title, told = rows(60, 64, 70, 72)
    assert title.startswith("THE OLD MILL ─")
    assert title.endswith("─ quarter notes a minute")
    assert told == "  heard   60 ▁▁▃▃ 72  goal 92"


def test_one_hearing_has_no_plot_and_a_beat_its_name():
    title, told = rows(60, beat="q.")
    assert title.endswith("dotted quarter notes a minute")
    assert told == "  heard   60  goal 92"


@pytest.mark.parametrize("width", [36, 48])
def test_tempos_fit_their_columns(width):
    assert max(map(len, rows(60, 64, 70, 72, width=width))) <= width
