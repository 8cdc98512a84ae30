"""Answers of theory as they are written into a line: nothing of what the program wrote is told to be not read."""

from functools import cache
from itertools import product

import pytest

from cockpit.printing.phrase_files import phrases_of
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.assignments.telling import warnings_of
from cockpit.studio.notes.notes import read_line
from cockpit.studio.theory.braces import written_in
from cockpit.studio.theory.examples import EXAMPLES
from cockpit.studio.values import replace
from cockpit.wording.theory import answer_rows, written_out

ALL = [words for group in EXAMPLES.values() for words in group]


def written(line: str, language: str = "en") -> str:
    """A line whose last braces were written out by the key that takes a suggestion, the answer in a language."""
    say = phrases_of(language, None).say
    stands_for = written_out(line, rows=lambda answer: answer_rows(answer, say))
    assert stands_for is not None, line
    replaced, text = stands_for
    return line[:-replaced] + text


@pytest.mark.parametrize("label", ["Theory: ", "Piece: Minuet ", "Scales: ", "Rhythm: ", "Technique: ", ""])
def test_no_line_that_was_written_out_is_told_to_be_not_read(label):
    for words in ALL:
        line = read_line(written(f"{label}{{{words}}}"))
        assert list(warnings_of(line)) == [], line


@pytest.mark.parametrize("language", ["de", "fr", "es"])
def test_an_answer_in_another_language_is_read_as_the_english_one_is(language):
    """The words stay as they were typed: the line means the same, and its answer is known again and is no part of it."""
    longest = ("chromatic from C 4 oct", "C minor, 3 forms 2 oct for clarinet and horn", "chords in Bb minor")
    said = 0
    for label, words in product(("Piece: Minuet ", "Scales: ", "Rhythm: "), (*ALL, *longest)):
        line = written(f"{label}{{{words}}}", language)
        english, meant = read_in_english(f"{label}{{{words}}}")
        assert [line[each.begins : each.answered_at] for each in written_in(line)] == [words]
        assert list(warnings_of(read_line(line))) == []
        assert outline(read_line(line)) == meant
        said += line != english.typed
    assert said > 100, "most answers are other words there"


@cache
def read_in_english(line):
    """A line with its answer in English, and its outline."""
    english = read_line(written(line))
    return english, outline(english)


def outline(line):
    """What is read of an assignment but its words, which have the answer."""
    read = read_assignment(line)
    return [each.part for each in read.stretches], replace(read, text="", typed="", braced=(), stretches=())


def test_an_answer_too_long_to_be_known_again_is_not_written():
    instruments = " and ".join(["clarinet", "horn", "alto sax"] * 4)
    assert written_out(f"{{chromatic from C 4 oct for {instruments}}}") is None


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
