"""What a term of invented notes costs in keys; `tests/bench/keystrokes.py` says how they are counted."""

from pathlib import Path

import pytest
from bench.keystrokes import read_notes_file, total, type_note, type_term

from cockpit.studio.completion.memory import memory_of

NOTES = {
    path.stem: read_notes_file(path)
    for path in sorted((Path(__file__).parents[2] / "bench" / "term_of_notes").glob("*.txt"))
}


def test_the_notes_are_a_term_of_five_students() -> None:
    assert len(NOTES) == 5
    assert all(len(bodies) == 14 for bodies in NOTES.values())
    assert all(5 <= len(body.split("\n")) <= 9 for bodies in NOTES.values() for body in bodies)


@pytest.mark.long
def test_a_term_costs_at_most_0_49_keys_a_character_and_shows_little_that_is_wrong() -> None:
    """What is likelier right than wrong is shown, and nothing else: the curve in the bench says what that costs."""
    tally = total(list(type_term(NOTES).values()))
    assert tally.characters == sum(len(body) + 1 for bodies in NOTES.values() for body in bodies)
    assert tally.kspc <= 0.49
    assert tally.wrong <= 0.23 * tally.keys


def test_two_weeks_show_little_that_is_wrong_from_its_first_letter() -> None:
    tally = total(list(type_term({who: bodies[:2] for who, bodies in NOTES.items()}).values()))
    assert tally.kspc <= 0.58
    assert tally.wrong <= 0.2 * tally.keys


def test_a_first_lesson_with_nothing_remembered_costs_at_most_0_8_keys_a_character() -> None:
    assert total([type_note(memory_of(), bodies[0]) for bodies in NOTES.values()]).kspc <= 0.8
