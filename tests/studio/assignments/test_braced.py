"""Theory in braces within an assignment: it stays what it is, and nothing in it is taken for measures, a tempo, or a title."""

import pytest

from cockpit.studio.assignments.assignment import Key
from cockpit.studio.assignments.carrying import carried_on, thread_of
from cockpit.studio.assignments.reading import read_assignment
from cockpit.studio.assignments.unread import unread
from cockpit.studio.notes.notes import read_line


def assignment(line: str):
    return read_assignment(read_line(line))


def test_a_scale_in_braces_is_what_is_practiced():
    found = assignment("Scales: {D major 2 oct}, q=72 to 88, 5 min")
    assert (found.key, found.octaves, found.minutes) == (Key(tonic="D", mode="major"), 2, 5)
    assert found.text == "D major 2 oct, q=72 to 88, 5 min"
    assert found.typed == "Scales: {D major 2 oct}, q=72 to 88, 5 min"
    assert assignment("Warm-up: {F# minor arpeggio}").key == Key(tonic="F#", mode="minor")


@pytest.mark.parametrize(
    "braced",
    ["{D major 2 oct}", "{rhythm 3/4 q q q}", "{key 3 sharps}", "{interval D F#}", "{A minor, 3 forms}", "{eb major for clarinet}"],
)  # fmt: skip
def test_braces_end_a_title_and_are_no_measures_no_tempo_and_no_key(braced):
    found = assignment(f"Piece: Minuet in G {braced} mm. 17-32, q = 72, 5 min")
    assert (found.title, found.minutes, found.tempo.goal, found.key) == ("Minuet in G", 5, 72, None)
    assert [(each.first, each.last) for each in found.measures] == [(17, 32)]
    assert found.octaves is None
    assert not found.has_other_numbers
    assert unread(found) == ()
    alone = assignment(f"Theory: {braced}")
    assert (alone.measures, alone.tempo, alone.minutes, alone.key) == ((), None, None, None)


def test_what_is_not_understood_is_read_as_ever():
    found = assignment("Piece: Minuet {mm. 1-8}")
    assert found.text == "Minuet {mm. 1-8}"
    assert [(each.first, each.last) for each in found.measures] == [(1, 8)]


def test_a_line_with_braces_is_carried_on_with_its_tempo_in_its_place():
    line = read_line("Scales: {D major} and {B minor}, q = 72 to 88")
    assert carried_on(line, 76) == "Scales: {D major} and {B minor}, q = 76 to 88"
    bare = read_line("Scales: {D major} and {B minor}, q = 88")
    assert carried_on(bare, 76) == "Scales: {D major} and {B minor}, q = 76 to 88"
    assert thread_of(line) == thread_of(read_line("Scales: D major and B minor, q = 60"))
