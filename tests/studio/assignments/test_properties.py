"""Reading a line of an assignment by property: no character is lost, and no text is too odd to be read."""

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from support.reading import pieces, read

from cockpit.studio.assignments.assignment import Part
from cockpit.studio.assignments.reading import read_assignment, understood
from cockpit.studio.assignments.tokens import LONGEST_READ
from cockpit.studio.notes.notes import Area, read_line

_TYPED_WORDS = (
    "m. mm. mm MM M.M. m bar bars b. bb. measures p. pp. pg. no. nos. # ex. Op. BWV K. q q. h e ♩ ♪ ♩. 𝅗𝅥 quarter half dotted note "
    "= ≈ @ -> → - – — , ; . / & + ' ( ) x × 3x x3 times bpm min min. m 10' 5' daily every other day week M W F T Th MWF Mon Wed "
    "Fri Sat-Sun only by on to the end up ca. about from at in turns interleave not HS HT LH R.H. hands together left right hand "
    "oct 8ve octaves D A a Bb C#m F# G maj min mel. harm. major minor sharp flat 0 1 5 7 8 9 12 17 24 32 72 96 117 101 323 999 "
    "10000 two ten twice once a per day letter pickup except skip Gavotte The Old Mill "
    "no never off without rest don't are great done finished was last below at least then or hour hours half an ½ 1.5 1/2 sessions "
    "of more other weekends evening morning"
)
WORDS = _TYPED_WORDS.split()
JOINTS = st.sampled_from(["", " ", " ", " ", ", ", "-", "\t", "\u00a0"])
TYPED = st.lists(st.tuples(st.sampled_from(WORDS), JOINTS), max_size=25).map(
    lambda drawn: "".join(word + joint for word, joint in drawn)
)
TEXTS = TYPED | st.text(max_size=200) | st.tuples(TYPED, st.text(max_size=20), TYPED).map("".join)
AREAS = st.sampled_from(Area)
LONG = 100_000
NASTY = {
    "one word": "m" * LONG,
    "digits": "7" * LONG,
    "a digit and a space": "7 " * (LONG // 2),
    "words for measures": "mm. " * (LONG // 4),
    "a list of measures": "mm. " + "1-8, " * (LONG // 5),
    "a climb": "q=" + "60-" * (LONG // 3),
    "beats": "q." * (LONG // 2),
    "days": "M " * (LONG // 2),
    "primes": "10'" * (LONG // 3),
    "nested brackets": "(" * (LONG // 2) + ")" * (LONG // 2),
    "spaces": " " * LONG,
    "tabs": "mm.\t5\t" * (LONG // 6),
    "nulls": "m. 5\0" * (LONG // 5),
    "right to left": "תרגול m. 5 سلم ♩=72 " * (LONG // 20),
    "combining marks": "q\u0301=72\u0300 " * (LONG // 7),
    "emoji": "🎻👩🏽‍🎤 3x " * (LONG // 9),
    "digits of other scripts": "mm. ١٧-٣٢ q=７２ m. ५ 𝟕𝟐 bpm ³x " * (LONG // 30),
    "lone surrogates": "m. 5 \ud800 q=72 " * (LONG // 14),
}


@given(TEXTS, AREAS)
def test_understood_and_kept_pieces_give_the_text_character_for_character(text, area):
    assignment = read(text, area)
    assert assignment.text == text
    assert "".join(pieces(assignment)) == text


@given(TEXTS, AREAS)
def test_stretches_are_in_order_without_overlap_within_the_text(text, area):
    stretches = read(text, area).stretches
    assert all(0 <= each.begins < each.ends <= len(text) for each in stretches)
    assert all(one.ends <= other.begins for one, other in pairwise(stretches))


@given(TEXTS, AREAS)
def test_every_claim_has_a_stretch_and_every_stretch_a_claim(text, area):
    assignment = read(text, area)
    for part in Part:
        is_claimed = bool(getattr(assignment, part.name.lower()))
        assert is_claimed == (part in {each.part for each in assignment.stretches})


@given(TEXTS, AREAS)
def test_numbers_are_within_bounds(text, area):
    assignment = read(text, area)
    assert all(1 <= each.first <= (each.last or 9999) <= 9999 for each in assignment.measures)
    assert all(1 <= each.first <= each.last <= 999 for each in assignment.pages)
    if assignment.tempo:
        assert 20 <= (assignment.tempo.start or 20) <= assignment.tempo.goal <= 400
    assert 1 <= (assignment.minutes or 1) <= 240
    assert 1 <= (assignment.octaves or 1) <= 8
    assert assignment.times is None or 1 <= assignment.times.count <= 99
    assert (assignment.days or frozenset()) <= frozenset(range(7))


@given(TEXTS, AREAS)
def test_what_was_understood_is_one_line_without_empty_phrases(text, area):
    phrase = understood(read(text, area))
    assert "\n" not in phrase
    assert phrase == "" or all(part.strip() for part in phrase.split("·"))


@given(TYPED, AREAS)
@example("mm. 1-8, 5 min", Area.PIECE)
def test_a_line_claims_nothing_else_behind_words_that_claim_nothing(text, area):
    plain, behind = read(text, area), read(f"slowly ; {text}", area)
    assert (behind.pages, behind.minutes) == (plain.pages, plain.minutes)
    assert {*behind.measures} <= {*plain.measures}  # "slowly; old mill m. 5" has no title that would lead to it


@given(st.text(max_size=100), AREAS)
def test_a_stretch_holds_no_space_at_its_ends(text, area):
    assignment = read(text, area)
    for each in assignment.stretches:
        stretch = assignment.text[each.begins : each.ends]
        assert stretch == stretch.strip()


@pytest.mark.parametrize("text", NASTY.values(), ids=NASTY.keys())
@pytest.mark.parametrize("area", [Area.PIECE, Area.SCALES])
def test_a_nasty_line_of_100_kb_is_read(text, area):
    assignment = read(text, area)
    assert "".join(pieces(assignment)) == text
    assert all(each.ends <= LONGEST_READ for each in assignment.stretches)


@pytest.mark.parametrize("text", ["mm. ١٧-٣٢", "q=７２", "m. ५", "𝟕𝟐 bpm", "m. ³", "²x", "٣ min", "① oct"])
def test_only_the_digits_0_to_9_are_numbers(text):
    assert read(text, Area.SCALES).stretches == ()


def test_nothing_is_claimed_behind_the_longest_read():
    assignment = read("Gavotte " * 120 + "m. 5 " + "slowly " * 20 + "q = 72")
    assert [(each.first, each.last) for each in assignment.measures] == [(5, 5)]
    assert assignment.tempo is None


def test_an_open_end_across_the_longest_read_is_not_cut():
    for padding in range(LONGEST_READ - 20, LONGEST_READ + 5):
        ranges = read("a" * padding + " m. 32 to end").measures
        assert [(each.first, each.last) for each in ranges] in ([], [(32, None)])


def test_a_line_is_read_once():
    line = read_line("Piece: Gavotte mm. 1-8")
    assert read_assignment(line) is read_assignment(read_line("Piece: Gavotte mm. 1-8"))


@given(TYPED)
def test_the_text_is_what_stands_behind_the_label_and_the_line_stays_as_typed(text):
    typed = f"Piece: {text}"
    assignment = read_assignment(read_line(typed))
    assert (assignment.typed, assignment.text) == (typed, text.strip())
