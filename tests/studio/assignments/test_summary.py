"""The quiet phrase of what was understood of a typed line."""

import pytest
from support.reading import read

from cockpit.studio.assignments.reading import understood
from cockpit.studio.notes.notes import Area


@pytest.mark.parametrize(
    ("text", "phrase"),
    [
        ("mm. 17-32", "measures 17–32 (16)"),
        ("m. 5", "measure 5"),
        ("mm. 1-8, 17-24", "measures 1–8, 17–24 (16)"),
        ("m. 32 to end", "measures 32 to the end"),
        ("q = 72", "quarter 72"),
        ("q = 72 to 88", "quarter 72 to 88"),
        ("q. = 60", "dotted quarter 60"),
        ("h. = 50", "dotted half 50"),
        ("e = ca. 144", "eighth about 144"),
        ("up to 96", "quarter up to 96"),
        ("op. 59/2", "op. 59 · no. 2"),
        ("ex. 3", "ex. 3"),
        ("p. 12", "page 12"),
        ("pp. 12-13, 15", "pages 12–13, 15"),
        ("HS", "hands separately"),
        ("3x", "3 times"),
        ("x2 daily", "twice a day"),
        ("once a day", "once a day"),
        ("5 min", "5 min"),
        ("MWF", "Mon Wed Fri"),
        ("daily", "every day"),
        ("in turns", "in turns"),
        ("Gavotte, slowly", ""),
        ("", ""),
    ],
)
def test_a_piece(text, phrase):
    assert understood(read(text)) == phrase


@pytest.mark.parametrize(
    ("text", "phrase"),
    [
        ("D major 2 oct", "D major · 2 octaves"),
        ("C#m, 1 oct", "C-sharp minor · 1 octave"),
        ("Bb", "B-flat major"),
        ("a min mel.", "A melodic minor"),
    ],
)
def test_scales(text, phrase):
    assert understood(read(text, Area.SCALES)) == phrase


def test_parts_are_said_in_one_order_however_they_are_typed():
    text = "5 min daily, q = 72, Gavotte op. 1 no. 2, HS, 3x, p. 12, mm. 1-8, in turns"
    assert understood(read(text)) == (
        "op. 1 · no. 2 · page 12 · measures 1–8 (8) · quarter 72 · hands separately · 3 times · 5 min · every day · in turns"
    )


def test_a_usual_line_stays_within_40_columns():
    assert len(understood(read("The Old Mill, mm. 17-32, q = 72, 5 min"))) <= 40
