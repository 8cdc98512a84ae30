"""A whole line understood: titles, parts said twice, and lines as they grow under her hands."""

import pytest
from support.reading import line_of, pieces, read, understood_as

from cockpit.studio.assignments.assignment import Assignment, Part
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.notes.notes import Area, read_line
from cockpit.studio.values import replace


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("The Old Mill, mm. 17-32", "The Old Mill"),
        ("The Old Mill (mm. 17-32)", "The Old Mill"),
        ("The Old Mill - q = 72", "The Old Mill"),
        ("The Old Mill", "The Old Mill"),
        ("  The Old Mill ,, mm. 1-8", "The Old Mill"),
        ("the old mill 10 min", "the old mill"),
        ("Gavotte from m. 5 to 9", "Gavotte"),
        ("Gavotte at q = 72", "Gavotte"),
        ("Gavotte, only on Mondays", "Gavotte"),
        ("Gavotte in turns with Minuet", "Gavotte"),
        ("Gavotte, slow and even, mm. 1-8", "Gavotte"),
        ("Gavotte, Minuet, mm. 1-8", "Gavotte, Minuet"),
        ("Twinkle, Twinkle mm. 1-8", "Twinkle, Twinkle"),
        ("row, row your boat mm. 1-8", "row, row your boat"),
        ("Minuet 3, mm. 1-8", "Minuet 3"),
        ("5 Bagatelles", "5 Bagatelles"),
        ("A Song to Play to", "A Song to Play to"),
        ("Minuet in G major, BWV Anh. 114", "Minuet in G major"),
        ("Gavotte mm. 32-17", "Gavotte"),
        ("Gavotte pickup to m. 9", "Gavotte"),
        ("Gavotte letter B to C", "Gavotte"),
        ("Gavotte HS, then HT", "Gavotte"),
        ("Gavotte q=60, 72, 84", "Gavotte"),
        ("Gavotte 3 x 5 min", "Gavotte"),
        ("Gavotte 5-10 min", "Gavotte"),
        ("Gavotte 20 min a week", "Gavotte"),
        ("Gavotte every other day", "Gavotte"),
        ("mm. 1-8 of the Gavotte", None),
        ("5 min, Gavotte", None),
        ("from m. 5 to 9", None),
        ("pp", None),
        ("12", None),
        ("a very long sentence about how " * 3, None),
        ("", None),
    ],
)
def test_the_title_is_what_stands_before_the_first_thing_understood(text, title):
    assignment = read(text)
    assert assignment.title == title
    assert understood_as(assignment).get(title or "", None) == (Part.TITLE if title else None)


@pytest.mark.parametrize("area", Area)
def test_only_what_has_a_name_has_a_title(area):
    has_name = area in {
        Area.PIECE,
        Area.REVIEW,
        Area.ETUDE,
        Area.METHOD_BOOK,
        Area.LISTENING,
        Area.TECHNIQUE,
        Area.OTHER,
    }
    assert read("Bow strokes, 5 min", area).title == ("Bow strokes" if has_name else None)


def test_words_typed_are_kept_as_they_are():
    line = read_line("- Piece : The Old Mill,  mm. 17-32 , q=72 (watch the V!)  ")
    assignment = read_assignment(line)
    assert (assignment.text, assignment.typed) == (line.text, line.typed)
    assert pieces(assignment) == ["", "The Old Mill", ",  ", "mm. 17-32", " , ", "q=72", " (watch the V!)"]


def test_a_line_without_spaces_is_understood():
    assignment = read("mm17-32 q=72 HS 3x 5min")
    assert understood_as(assignment) == {
        "mm17-32": Part.MEASURES,
        "q=72": Part.TEMPO,
        "HS": Part.HANDS,
        "3x": Part.TIMES,
        "5min": Part.MINUTES,
    }


def test_a_dash_between_two_thoughts_belongs_to_neither():
    assert list(understood_as(read("mm. 17 - HS - q = 72 - slowly"))) == ["mm. 17", "HS", "q = 72"]


def test_a_part_that_is_not_clear_leaves_the_others_alone():
    assignment = read("Gavotte mm. 1-8, q = 60 then q = 72, 5 min")
    assert assignment.tempo is None
    assert understood(assignment) == "measures 1–8 (8) · 5 min"
    assert Part.TEMPO not in {each.part for each in assignment.stretches}


def test_measures_and_pages_said_twice_are_both_claimed():
    assignment = read("mm. 1-8 HS (p. 3), mm. 17-24 slower (p. 4)")
    assert [each.first for each in assignment.measures] == [1, 17]
    assert [each.first for each in assignment.pages] == [3, 4]


def test_nothing_wrong_is_claimed_while_a_line_grows():
    text = "Gavotte mm. 117-24, q = 72 to 88, 10 min"
    grown = [read(text[:length]) for length in range(len(text) + 1)]
    measures = {each.measures[0].last for each in grown if each.measures}
    goals = {each.tempo.goal for each in grown if each.tempo}
    assert measures == {1, 11, 117, 124}  # never 117-2 or 112
    assert goals == {72, 88}
    assert {each.minutes for each in grown} == {None, 10}


def test_an_empty_line_claims_nothing():
    assert read("") == Assignment(area=Area.PIECE, text="", typed="Piece: ")


def test_a_line_without_an_area_is_read_as_a_piece():
    assert read_assignment(replace(line_of("Gavotte 5 min"), area=None)).area is Area.PIECE
