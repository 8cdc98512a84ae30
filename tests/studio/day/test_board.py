"""The board: what a student may be shown of the notes, and what the board's own line puts on it."""

from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.changes.records import BoardLine
from cockpit.studio.day.board import board_items, items_of_notes, items_typed, with_family_line
from cockpit.studio.lessons.lesson import LessonId
from cockpit.studio.notes.notes import for_family, kept_lines
from cockpit.studio.theory.examples import EXAMPLES

AT = datetime(2026, 12, 1, 22, 12, tzinfo=UTC)


def words(items):
    return [item.words for item in items]


def line(typed, *, is_off=False):
    return BoardLine(lesson_id=LessonId("1"), words=typed, put_at=AT, is_off=is_off)


def test_what_stands_in_braces_in_lines_of_the_family_is_on_the_board_in_their_order():
    notes = (
        "hello {C/E} and {B F}\nScales: { D  major }, 5 min\nPiece: Minuet {rhythm 3/4 q e e q} mm. 1-8\n{C/E} again"
    )
    assert words(items_of_notes(notes)) == ["C/E", "B F", "D major", "rhythm 3/4 q e e q"]


@pytest.mark.parametrize(
    "notes",
    [
        "Private: {D major}",
        "Private:\n{D major}",
        "Follow-up: send {D major}",
        "Next time: {D major}",
        "Scales: slow Private: {D major}",
        "Private: x\n  {D major}",
        "{D majr} and {rhythm 4/4 q q q} and {an open brace",
        "",
    ],
)
def test_no_private_line_and_nothing_that_is_not_understood_is_on_it(notes):
    assert items_of_notes(notes) == ()


LINES = st.sampled_from(
    ["Private:", "Private: {A minor}", "Follow-up: {A blues}", "Next time: {F lydian}", "Scales: {D major}", "{C/E}", "", "  {B F}"]
)  # fmt: skip


@given(st.lists(LINES, max_size=8).map("\n".join))
def test_whatever_is_on_it_stands_in_what_the_family_sees_and_the_other_way_around(notes):
    seen = for_family(notes)
    text = "\n".join((*(each.text for each in seen.assignments), *seen.remarks))
    assert {f"{{{each}}}" for each in words(items_of_notes(notes))} == {
        each for each in ("{A minor}", "{A blues}", "{F lydian}", "{D major}", "{C/E}", "{B F}") if each in text
    }


@pytest.mark.parametrize("typed", [each for group in EXAMPLES.values() for each in group])
def test_every_example_of_the_guide_goes_on_it_with_braces_or_without(typed):
    assert words(items_typed(typed)) == words(items_typed(f" {{{typed}}} ")) == [" ".join(typed.split())]


@pytest.mark.parametrize(
    "typed", ["D majr", "warm up {D major}", "{D major} {D majr}", "rhythm 4/4 q q q", "{", "  ", "}"]
)
def test_a_line_of_which_a_word_is_not_understood_puts_nothing_on_it(typed):
    assert items_typed(typed) == ()


def test_several_things_of_one_line_are_several_things_on_it():
    assert words(items_typed("{D major} {C/E}")) == ["D major", "C/E"]


def test_the_notes_come_first_each_thing_once_and_what_was_taken_off_is_off():
    lines = [line("A blues"), line("D major"), line("C/E", is_off=True), line("B F", is_off=True)]
    assert words(board_items("{D major} {C/E}", lines)) == ["D major", "A blues"]
    assert words(board_items("", [line("D majr")])) == [], "what an earlier version understood is no fault"


@pytest.mark.parametrize(
    ("notes", "longer"),
    [
        ("", "Theory: {D major}\n"),
        ("Scales: slow", "Scales: slow\nTheory: {D major}\n"),
        ("Scales: slow\n\n", "Scales: slow\nTheory: {D major}\n"),
        ("Private: tired", "Private: tired\nTheory: {D major}\n"),
        ("Private:\ntired", "Private:\ntired\n\nTheory: {D major}\n"),
    ],
)
def test_a_line_below_the_notes_is_one_that_the_family_reads_whatever_is_above_it(notes, longer):
    assert with_family_line(notes, "Theory: {D major}") == longer
    assert kept_lines(longer) == kept_lines(notes)


def test_below_a_private_label_that_waits_for_its_words_there_is_no_place_for_it():
    assert with_family_line("Private:\n\n", "Theory: {D major}") is None


@pytest.mark.parametrize("typed", ["Private: x", "Follow-up: x", "Next time: x", ""])
def test_a_line_that_the_family_does_not_read_is_not_put_below_them(typed):
    assert with_family_line("Scales: slow", typed) is None
