"""What the lines of notes say of pieces, and whose a number alone is."""

from datetime import date
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.vocabulary import BUILT_IN
from cockpit.studio.pieces.given import GivenLine, numbers_in, read_lines, with_books
from cockpit.studio.pieces.history import PieceTime

NOTES = """hello
Scales: D major 2 oct, q=72 to 88, 5 min
Piece: The Old Mill mm. 17-32 q=66, whole bows, 10 min
Private: a baby brother
Etude: no. 7, open-string drone
Piece: The Old Mill mm. 17-32 q=66, whole bows, 10 min
Theory: read page 12
Method book: pp. 4-5
Memory: Gavotte h = 40
"""


def given_lines(*bodies: str) -> list[GivenLine]:
    return [
        GivenLine(lesson_id=LessonId(f"x{number}"), on=date(2026, 11, number + 1), read=read)
        for number, body in enumerate(bodies)
        for read in read_lines(body, BUILT_IN)
    ]


def test_each_assignment_is_a_line_with_its_piece_and_what_that_is_called():
    read = read_lines(NOTES, BUILT_IN)
    assert [(each.place, each.area, each.piece, each.title) for each in read] == [
        (0, "scales", "d major scale", "D major scale"),
        (1, "piece", "old mill", "The Old Mill"),
        (2, "etude", "etude no. 7", "Etude no. 7"),
        (3, "theory", "theory: read page 12", "read page 12"),
        (4, "method book", "method book", "Method book"),
        (5, "piece", "gavotte", "Gavotte"),
    ]
    assert [each.minutes for each in read] == [5, 10, None, None, None, None]
    assert [each.by_heart for each in read] == [False] * 5 + [True]


def test_a_number_alone_is_of_the_book_that_was_named_last_in_its_area():
    lines = with_books(
        given_lines(
            "Etude: no. 7",
            "Etude: Bright Studies no. 6\nPiece: Minuet no. 2",
            "Etude: no. 7",
            "Method book: pp. 2-3",
            "Method book: The Blue Book p. 4",
            "Lesson book: p. 5",
        )
    )
    assert [each.read.piece for each in lines] == [
        "etude no. 7", "bright studies no. 6", "minuet no. 2", "bright studies no. 7",
        "method book", "blue book", "blue book",
    ]  # fmt: skip


def test_a_number_in_a_book_ends_the_key_of_its_piece():
    assert numbers_in(["bright studies no. 6", "old mill"]) == {
        "bright studies no. 6", "studies no. 6", "no. 6", "6", "", "old mill", "mill",
    }  # fmt: skip
    for each in with_books(given_lines("Etude: Bright Studies op. 3 no. 6", "Etude: op. 3 no. 7", "Lesson book: p. 5")):
        assert each.read.of_book is None or each.read.of_book in numbers_in([each.read.piece])


def test_a_tempo_heard_is_told_in_quarters():
    half, quarter, none = given_lines("Piece: Gavotte h = 40", "Piece: Gavotte q = 72", "Piece: Gavotte")
    heard = [
        GivenLine(lesson_id=each.lesson_id, on=each.on, read=each.read, heard=30) for each in (half, quarter, none)
    ]
    hearings = [PieceTime(lines=(each,)).hearings for each in heard]
    assert [each.quarters for (each,) in hearings] == [60, 30, 30]
    assert PieceTime(lines=(half,)).hearings == ()
    assert isinstance(hearings[0][0].quarters, Fraction)


@given(st.text(max_size=300))
def test_whatever_is_typed_is_read(body):
    read = read_lines(body, BUILT_IN)
    assert [each.place for each in read] == list(range(len(read)))
    assert all(each.piece and each.title and each.line in body for each in read)
