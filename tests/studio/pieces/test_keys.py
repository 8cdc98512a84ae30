"""What a line is about from week to week: other measures, an article or "by heart" change nothing; a number does."""

import pytest

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.notes.notes import read_line
from cockpit.studio.pieces.keys import PieceKey, piece_of


def key(typed: str, book: str | None = None) -> str:
    return str(piece_of(read_line(typed), book))


@pytest.mark.parametrize(
    ("name", "lines"),
    [
        (
            "old mill",
            [
                "Piece: The Old Mill mm. 1-16", "Piece: The Old Mill mm. 17-32 q=66, whole bows", "Piece: Old Mill by heart",
                "Piece: Old Mill from memory mm. 1-8 q=66", "Repertoire: old  mill", "Memory: The Old Mill", "Review: Old Mill, 5 min",
                "1. Piece: An Old Mill", "Song 2: OLD MILL mm. 3-4", "Piece: memorize Old Mill",
            ],
        ),
        ("method book", ["Method book: pp. 22-23", "Method book: p. 24", "Lesson book: p. 3"]),
        ("vieux moulin", ["Morceau: Le Vieux Moulin", "Morceau: Vieux Moulin par cœur"]),
        ("étoile", ["Morceau: L'Étoile mm. 3", "Morceau: l’étoile", "Morceau: Étoile"]),
        ("kleine mühle", ["Stück: Die kleine Mühle", "Stück: Kleine Mühle auswendig"]),
        ("molino", ["Pieza: El Molino de memoria", "Pieza: Molino q = 60"]),
        ("minuet op. 27 no. 2", ["Piece: Minuet Op. 27 no. 2", "Piece: Minuet op. 27/2, mm. 1-8"]),
        ("etude no. 7", ["Etude: no. 7", "Etude #7: slowly q=60", "Study: no. 7, 5 min"]),
        ("d major scale", ["Scales: D major 2 oct", "Scales: D major 3 oct q=80", "Scales: D maj"]),
        ("d major arpeggio", ["Arpeggios: D major 2 oct", "Scales: D major arpeggio"]),
        ("c major scale", ["Tonleitern: C-Dur", "Tonleitern: C-Dur 2 Oktaven", "Gammes: do majeur", "Escalas: do mayor q=60"]),
        ("c major chord", ["Tonleitern: C-Dur Akkorde", "Gammes: accords de do majeur"]), ("f# minor arpeggio", ["Arpèges: fa dièse mineur"]),
        ("a harmonic minor scale", ["Scales: a min harm. 2 oct"]),
        ("folk song", ["World: Folk Song", "Folk: The Folk Song mm. 1-4"]),
    ],
)  # fmt: skip
def test_lines_of_one_piece_have_one_key(name: str, lines: list[str]) -> None:
    assert {key(line) for line in lines} == {name}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Piece: Op. 27 no. 2", "Piece: Op. 27 no. 1"), ("Piece: Minuet 1", "Piece: Minuet 2"), ("Piece: Gavote", "Piece: Gavotte"),
        ("Piece: Old Mill", "Piece: Old Mile"), ("Etude: no. 7", "Etude: no. 8"), ("Scales: D major", "Scales: D minor"),
        ("Etude #5: slowly", "Etude #6: slowly"), ("Theory: intervals", "Theory: rests"),
        ("Theory: where is the half step in D major?", "Scales: D major"),
    ],
)  # fmt: skip
def test_other_pieces_and_near_names_have_other_keys(one: str, other: str) -> None:
    assert key(one) != key(other)


def test_a_number_alone_is_one_of_the_book_named_last() -> None:
    assert piece_of(read_line("Etude: no. 7"), "Forty Studies") == PieceKey(name="forty studies", number="7")


@pytest.mark.parametrize(
    ("typed", "title", "is_by_heart"),
    [
        ("Piece: Old Mill from memory mm. 1-8 q=66", "Old Mill", True), ("Piece: Gavotte, memorized", "Gavotte", True),
        ("Piece: Gavotte w/o music", "Gavotte", True), ("Piece: memorise Gavotte mm. 1-8", "Gavotte", True),
        ("Piece: Gavotte memory", "Gavotte", True), ("Piece: Memory Lane mm. 1-4", "Memory Lane", False), ("By heart: Gavotte", "Gavotte", True),
        ("Piece: Gavotte not from memory yet", "Gavotte", False), ("Stück: Menuett auswendig", "Menuett", True),
        ("Piece: Gavotte by heart mm. 1-8, 5 min", "Gavotte", True),
    ],
)  # fmt: skip
def test_by_heart_is_understood_and_no_part_of_the_title(typed: str, title: str, is_by_heart: bool) -> None:
    assignment = read_assignment(read_line(typed))
    assert (assignment.title, assignment.by_heart) == (title, is_by_heart)
