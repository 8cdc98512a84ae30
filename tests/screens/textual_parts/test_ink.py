"""From one look of a terminal's letters to another in few bytes."""

from cockpit.screens.textual_parts.ink import PLAIN, Ink, ink_of, way

TEXT = Ink(letters="2;238;238;238", ground="2;34;34;34")
CURSOR = Ink(letters="2;34;34;34", ground="2;238;238;238")


def test_a_sequence_is_attributes_and_two_colors():
    assert ink_of("\x1b[1;3;38;2;238;238;238;48;2;34;34;34m") == Ink(
        attributes=frozenset("13"), letters=TEXT.letters, ground=TEXT.ground
    )
    assert ink_of("\x1b[38;5;231m") == Ink(letters="5;231")
    assert ink_of("") == PLAIN


def test_what_is_not_attributes_and_colors_by_value_is_not_known():
    for sequence in ("\x1b[31m", "\x1b[38;2;1m", "\x1b]8;id=1;https://example.org\x1b\\", "\x1b[m", "\x1b[38;7;1m"):
        assert ink_of(sequence) is None, sequence


def test_the_cursor_is_the_text_reversed():
    assert way(TEXT, CURSOR) == ("\x1b[7m", Ink(attributes=frozenset("7"), letters=TEXT.letters, ground=TEXT.ground))
    assert way(way(TEXT, CURSOR)[1], TEXT) == ("\x1b[27m", TEXT)


def test_a_color_that_stays_is_not_said_again():
    assert way(TEXT, Ink(letters="2;1;2;3", ground=TEXT.ground))[0] == "\x1b[38;2;1;2;3m"


def test_what_ends_an_attribute_ends_the_one_beside_it_too():
    both = Ink(attributes=frozenset("12"), letters=TEXT.letters, ground=TEXT.ground)
    faint = Ink(attributes=frozenset("2"), letters=TEXT.letters, ground=TEXT.ground)
    assert way(both, faint)[0] == "\x1b[22;2m"


def test_to_nothing_is_one_short_sequence_and_to_the_same_none():
    assert way(TEXT, PLAIN) == ("\x1b[0m", PLAIN)
    assert way(TEXT, TEXT) == ("", TEXT)
    assert way(PLAIN, PLAIN) == ("", PLAIN)
