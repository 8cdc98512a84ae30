"""What is typed about a piece."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support.studio import ILSE

from cockpit.studio.changes.pieces import Piece, PieceState
from cockpit.studio.errors import BadInput
from cockpit.studio.pieces.piece_line import read_piece

TODAY = date(2026, 12, 1)
FRESH = Piece(student_id=ILSE.id, key="old mill")
FULL = Piece(
    student_id=ILSE.id, key="old mill", composer="dvorak", origin="irish", is_chosen=True, measures=96,
    wanted_on=date(2026, 12, 19), state=PieceState.KEPT_ALIVE, state_since=date(2026, 10, 6),
)  # fmt: skip


def day(text: str) -> date:
    if text != "dec 19":
        raise BadInput(f'"{text}" is no date.')
    return date(2026, 12, 19)


@pytest.mark.parametrize(
    ("line", "expected", "facts"),
    [
        ("irish", {"origin": "irish"}, ["origin: irish"]),
        ("Irish, her choice", {"origin": "Irish", "is_chosen": True}, ["origin: Irish", "choice: the student's own"]),
        ("from west africa, his choice", {"origin": "west africa", "is_chosen": True}, None),
        ("composer Antonín Dvořák", {"composer": "Antonín Dvořák"}, ["composer: Antonín Dvořák"]),
        ("96 measures", {"measures": 96}, ["measures: 96"]),
        ("96 bars, by dec 19", {"measures": 96, "wanted_on": date(2026, 12, 19)}, ["measures: 96", "date: by Saturday, December 19, 2026"]),
        ("origin: folk; composer: none", {"origin": "folk", "composer": None}, ["origin: folk", "composer: not said"]),
    ],
)  # fmt: skip
def test_each_part_says_one_thing(line, expected, facts):
    after, said = read_piece(line, FRESH, day, TODAY)
    assert after == Piece(student_id=ILSE.id, key="old mill", **expected)
    assert facts is None or list(said) == facts


def test_everything_can_be_taken_back_by_a_line():
    line = "no composer, no origin, not her choice, no measures, no date"
    after, _ = read_piece(line, FULL, day, TODAY)
    assert after == Piece(student_id=ILSE.id, key="old mill", state=FULL.state, state_since=FULL.state_since)


@pytest.mark.parametrize(
    ("line", "sentence"),
    [
        ("irish, scottish", "The line says the origin twice. Keep one."),
        ("0 measures", '"0 measures": a piece has 1 to 9999 measures.'),
        ("12 tone", '"12 tone" is not understood. Type "irish"'),
        ("by the river", '"the river" is no date.'),
        ("x" * 61, "is too long"),
    ],
)
def test_a_part_that_cannot_be_used_is_named(line, sentence):
    with pytest.raises(BadInput, match=sentence.replace("(", r"\(")):
        read_piece(line, FRESH, day, TODAY)


@pytest.mark.parametrize("state", [PieceState.POLISHED, PieceState.RESTING, PieceState.KEPT_ALIVE])
def test_a_state_is_so_from_today_and_stays_so_since_then(state):
    after, said = read_piece(str(state), FRESH, day, TODAY)
    assert (after.state, after.state_since, said) == (state, TODAY, (f"state: {state}",))
    again, _ = read_piece(f"irish, {str(state).upper()}", after, day, date(2026, 12, 8))
    assert (again.state_since, again.origin) == (TODAY, "irish")
    back, _ = read_piece("learning", after, day, date(2026, 12, 8))
    assert back == FRESH


def test_a_piece_that_was_polished_is_kept_alive_since_then():
    polished, _ = read_piece("polished", FRESH, day, date(2026, 10, 6))
    kept, _ = read_piece("keep alive", polished, day, TODAY)
    assert kept.kept_since == date(2026, 10, 6)
    resting, _ = read_piece("resting", kept, day, TODAY)
    assert (resting.kept_since, resting.state_since) == (None, TODAY)


@given(st.text(max_size=80))
def test_any_line_is_understood_or_refused_and_changes_nothing_else(line):
    try:
        after, _ = read_piece(line, FULL, day, TODAY)
    except BadInput:
        return
    assert (after.student_id, after.key, after.kept_since) == (FULL.student_id, FULL.key, FULL.kept_since)
