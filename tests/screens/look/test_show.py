"""Values as the panes say them."""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len
from support.studio import CLOCK, CUES, STARTS_AT, TEODOR, booking
from textual.content import Content

from cockpit.screens.lessons.countdown import clock_words, part_names, parts_for
from cockpit.screens.lessons.figures import music_line
from cockpit.screens.look.show import cut_at_word, heading, hung, lines_of, placed
from cockpit.studio.lessons.countdown import next_after, read_clock
from cockpit.studio.notes.areas import Area, OwnArea
from cockpit.studio.notes.vocabulary import BUILT_IN

MINUTE = timedelta(minutes=1)


def said(face):
    return [words for words, _ in clock_words(face, CLOCK, 15, "F9")]


def test_an_end_seconds_after_a_minute_agrees_with_how_late_the_next_lesson_starts():
    running = booking(began_at=STARTS_AT + timedelta(seconds=7), gives_full_length=True)
    following = booking(TEODOR, starts_at=STARTS_AT + 30 * MINUTE)
    face = read_clock([running, following], STARTS_AT + MINUTE, CUES)
    assert said(face) == ["left of 30", "ends 4:31 pm"]
    assert [late.minutes for late in face.late] == [1]


def test_an_end_at_a_whole_minute_is_that_minute():
    face = read_clock([booking(began_at=STARTS_AT)], STARTS_AT + MINUTE, CUES)
    assert said(face)[1] == "ends 4:30 pm"


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (-5, ["until the lesson", "starts 4:00 pm"]),
        (1, ["left of 30", "ends 4:30 pm"]),
        (28, ["WRAP UP  F9 finishes", "left, ends 4:30 pm"]),
        (31, ["OVER TIME  F9 finishes", "since 4:30 pm"]),
    ],
)
def test_what_the_clock_counts_and_what_to_do_stands_beside_it(minutes, words):
    began_at = STARTS_AT if minutes > 0 else None
    assert said(read_clock([booking(began_at=began_at)], STARTS_AT + minutes * MINUTE, CUES)) == words


def test_who_is_next_is_the_first_that_is_not_begun_after_the_one_that_runs():
    running, following = booking(began_at=STARTS_AT), booking(TEODOR, starts_at=STARTS_AT + 30 * MINUTE)
    assert next_after([running, following], read_clock([running, following], STARTS_AT, CUES)) is following
    assert next_after([running], read_clock([running], STARTS_AT, CUES)) is None
    assert next_after([following], read_clock([following], STARTS_AT, CUES)) is None


@given(st.integers(3, 200), st.floats(0, 1.2), st.lists(st.floats(-0.5, 1.5), max_size=9))
def test_a_line_of_music_has_its_length_and_one_place_that_is_now(width, share, parts):
    line = "".join(music_line(width, share, parts))
    assert len(line) == width
    assert line.count("▶") == (share < 1)
    assert line[-2:] == ("┤┃" if share < 1 else "┥┃")


@given(st.text("ab cé日 ", max_size=80), st.integers(4, 40))
def test_what_hangs_fits_and_loses_no_word(text, width):
    lines = hung(Content(text), width)
    assert all(line.cell_length <= width for line in lines)
    assert "".join("".join(line.plain.split()) for line in lines) == "".join(text.split())


@given(st.text("ab cé日,", max_size=80), st.integers(2, 40))
def test_what_is_cut_fits_and_ends_with_a_sign(text, width):
    short = cut_at_word(text, width)
    assert cell_len(short) <= width
    assert short == text or short.endswith("…")


@pytest.mark.parametrize(
    ("text", "width", "short"),
    [
        ("D major 2 oct, q=72 to 88, 5 min", 21, "D major 2 oct…"),
        ("D major 2 oct, q=72 to 88, 5 min", 26, "D major 2 oct, q=72 to 88…"),
        ("The Old Mill mm. 17-32 q=66", 19, "The Old Mill…"),
        ("waits for 12 minutes", 19, "waits for…"),
        ("q=72 to 88", 6, "q=72…"),
    ],
)
def test_a_row_is_not_cut_between_a_number_and_its_unit(text, width, short):
    assert cut_at_word(text, width) == short


def test_a_heading_leads_to_its_count_and_is_heavy_where_the_keys_are():
    assert heading("TODAY", 24, "2 of 6").plain == "TODAY ─────────── 2 of 6"
    assert heading("TODAY", 24, "2 of 6", has_keys=True).plain == "TODAY ━━━━━━━━━━━ 2 of 6"
    assert heading("TODAY", 11, "2 of 6").plain == "TODAY ─────"


def test_a_piece_that_does_not_fit_is_left_out():
    assert placed(10, (6, "right", ""), (1, "left", "")).plain == " left     "
    assert placed(10, (1, "left", ""), (3, "over", ""), (6, "ri", "")).plain == " left ri  "


@pytest.mark.parametrize(
    ("area", "parts"),
    [
        (None, set()),
        (Area.PIECE, {2}),
        (Area.SCALES, {1}),
        (Area.SIGHT_READING, {3}),
        (Area.EAR, set()),
        (OwnArea(name="drumming"), {4}),
    ],
)
def test_the_parts_of_a_lesson_are_for_areas_by_their_names(area, parts):
    names = ("hello", "Scales and arpeggios", "Piece", "sight", "drumming", "wrap-up")
    assert parts_for(area, names, BUILT_IN) == parts


def test_the_part_of_the_area_typed_last_is_underlined_and_its_minutes_are_not():
    lesson = booking(began_at=STARTS_AT)
    face = read_clock([lesson], STARTS_AT + 9 * MINUTE, CUES)
    names, shares = ["hello", "piece", "theory"], [0.0, 0.2, 0.8]

    def underlined(typed):
        return [words for _, words, style in part_names(names, shares, face, 60, typed) if "underline" in style]

    assert underlined(frozenset()) == []
    assert underlined(frozenset({1})) == ["PIECE"]
    assert underlined(frozenset({2})) == ["theory"]


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("D major 2 oct, q=76 to 92, 5 min", 20, ["D major 2 oct,", "q=76 to 92, 5 min"]),
        ("D major 2 oct, q=76 to 92, 5 min", 26, ["D major 2 oct, q=76 to 92,", "5 min"]),
        ("The Old Mill mm. 17-40, slow", 20, ["The Old Mill", "mm. 17-40, slow"]),
        ("whole bows 10 min a day", 14, ["whole bows", "10 min a day"]),
        ("Etude no. 7", 9, ["Etude", "no. 7"]),
        ("2:00 pm (8:00 pm London), 1:45 pm", 31, ["2:00 pm (8:00 pm London),", "1:45 pm"]),
        ("dotted quarter=100 to 120", 16, ["dotted", "quarter=100 to", "120"]),
        ("count 12 bars", 9, ["count 12", "bars"]),
        ("5 min", 3, ["5", "min"]),
        ("", 5, [""]),
    ],
)
def test_a_number_keeps_its_unit_where_a_line_ends(text, width, lines):
    assert [line.plain for line in lines_of(Content(text), width)] == lines


@given(st.text(alphabet="ab 1.=-q,", max_size=40), st.integers(3, 30))
def test_wrapping_loses_no_letter_and_keeps_to_the_width(text, width):
    for lines in (lines_of(Content(text), width), hung(Content(text), width)):
        assert "".join("".join(line.plain.split()) for line in lines) == "".join(text.split())
        assert all(line.cell_length <= width for line in lines) or len(text) <= width


def test_a_heading_gives_its_rule_up_before_its_words():
    said = heading("NOTES FOR ISHAAN", 39, "finished, F2 reopens", style="bold")
    assert said.plain == "NOTES FOR ISHAAN ─ finished, F2 reopens"
