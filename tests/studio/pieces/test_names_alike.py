"""Names of pieces that look alike: which are offered as one, and what becomes of those that are."""

from support.pieces import given_line

from cockpit.studio.changes.pieces import PieceAlias
from cockpit.studio.people.people import StudentId
from cockpit.studio.pieces.names_alike import near_names, one_name

WHO = StudentId(1)


def is_offered(key, piece) -> bool:
    return near_names([key], [piece, key], []) == ((key, piece),)


def test_near_names_are_offered():  # difflib: 0.923, 0.963, 0.875
    assert is_offered("gavote", "gavotte")
    assert is_offered("harbor lights", "harbour lights")
    assert is_offered("old mill", "old mile")


def test_what_differs_in_a_number_or_a_key_is_never_offered():  # minuet 1 and 2 are 0.875 too
    for key, piece in (
        ("minuet 1", "minuet 2"), ("minuet op. 27 no. 1", "minuet op. 27 no. 2"), ("minuet no. 1", "minuet"),
        ("d major scale", "a major scale"), ("d major scale", "d minor scale"), ("eb major scale", "bb major scale"), ("f# minor scale", "c# minor scale"), ("sonata in c major", "sonata in c minor"),
        ("b flat harmonic minor scale", "b flat melodic minor scale"), ("minuet in g", "minuet in d"),
        ("old dance part ii", "old dance part iii"), ("bright studies no. 6", "bright studies no. 7"),
        ("gavotte", "minuet"), ("theory: read page one", "theory: read page ones"),
    ):  # fmt: skip
        assert not is_offered(key, piece), (key, piece)


def test_what_was_answered_is_not_asked_again_in_either_order():
    for key, piece in (("old mile", "old mill"), ("old mill", "old mile")):
        refused = PieceAlias(student_id=WHO, key=key, piece=piece, is_one=False)
        assert near_names(["old mill"], ["old mile", "gavotte"], [refused]) == ()


def test_each_pair_with_one_of_the_keys_is_asked_about_once():
    assert near_names(["gavotte", "gavote"], ["gavottes", "gavote", "old mill", "old mile"], []) == (
        ("gavotte", "gavote"), ("gavotte", "gavottes"), ("gavote", "gavottes"),
    )  # fmt: skip


def test_a_joined_name_goes_under_the_key_and_the_title_of_its_piece():
    lines = (given_line("11-10", "Piece: The Gavotte"), given_line("11-17", "Piece: Gavote"))
    joined = PieceAlias(student_id=WHO, key="gavote", piece="gavotte", is_one=True)
    refused = PieceAlias(student_id=WHO, key="gavote", piece="minuet", is_one=False)
    assert [(each.read.piece, each.read.title) for each in one_name(lines, [joined, refused])] == [
        ("gavotte", "The Gavotte"), ("gavotte", "The Gavotte"),
    ]  # fmt: skip
    assert one_name(lines, [refused]) == lines


def test_joined_names_may_be_joined_further_and_a_circle_ends():
    lines = [given_line("11-10", f"Piece: {title}") for title in ("Gavot", "Gavote", "Gavotte")]
    chain = [PieceAlias(student_id=WHO, key=key, piece=piece, is_one=True)
             for key, piece in (("gavot", "gavote"), ("gavote", "gavotte"))]  # fmt: skip
    assert {each.read.piece for each in one_name(lines, chain)} == {"gavotte"}
    back = PieceAlias(student_id=WHO, key="gavotte", piece="gavot", is_one=True)
    assert len(one_name(lines, [*chain, back])) == 3
