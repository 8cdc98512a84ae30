"""Answers of theory as they are written into a line: nothing of what the program wrote is told to be not read."""

import pytest

from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.assignments.telling import warnings_of
from cockpit.studio.notes.notes import read_line
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.wording.theory import written_out

ALL = [words for group in EXAMPLES.values() for words in group]


def written(line: str) -> str:
    """A line whose last braces were written out by the key that takes a suggestion."""
    stands_for = written_out(line)
    assert stands_for is not None, line
    replaced, text = stands_for
    return line[:-replaced] + text


@pytest.mark.parametrize("label", ["Theory: ", "Piece: Minuet ", "Scales: ", "Rhythm: ", "Technique: ", ""])
def test_no_line_that_was_written_out_is_told_to_be_not_read(label):
    for words in ALL:
        line = read_line(written(f"{label}{{{words}}}"))
        assert list(warnings_of(line)) == [], line


def test_what_is_typed_behind_a_written_answer_is_read_and_told_of_as_ever():
    line = read_line(written("Piece: Minuet mm. 1-8 {rhythm 3/4 q e e q}") + ", 5 min, except 7")
    assignment = read_assignment(line)
    assert (assignment.title, assignment.minutes) == ("Minuet", 5)
    assert list(warnings_of(line)) == ["not read: except 7"]
    for braced in ("Piece: Minuet {chord F#7}, slowly", "Piece: {rhythm 3/4 q e e q} Minuet in G"):
        head, brace, rest = braced.partition("}")
        behind = f"{written(head + brace)}{rest}"
        assert read_assignment(read_line(behind)).title == read_assignment(read_line(braced)).title
    scale = read_assignment(read_line(written("Scales: {D major 2 oct}")))
    assert (str(scale.key.tonic), scale.octaves) == ("D", 2)
