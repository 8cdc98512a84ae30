"""The rest of a line that is proposed while it is typed."""

from itertools import pairwise

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from cockpit.studio.completion.completion import abbreviation, ghost, next_word
from cockpit.studio.completion.memory import memory_of
from cockpit.studio.notes.areas import Area, OwnArea
from cockpit.studio.notes.vocabulary import Labels, Meaning

LAST_WEEK = "\n".join(
    (
        "Scales: D major 2 oct, q=66, 5 min",
        "Etude: no. 7, open-string drone with the tuner",
        "Piece: The Old Mill mm. 1-16, separate bows, q=60",
        "Lovely tone on the A string.",
        "Next time: check the bow hold in the third line",
        "Private: mentions a new baby brother",
    )
)
ILSE = memory_of(bodies=(LAST_WEEK,), abbreviations={"hs": "hands separately", "WB": "whole bows"})
NOBODY = memory_of()
HERS = Labels(
    {
        "hymn": Meaning(Area.PIECE),
        "bowgames": Meaning(Area.TECHNIQUE),
        "world": Meaning(OwnArea(name="world", is_titled=True)),
    },
    names=("hymn", "bow games", "world"),
)
BREAKS = "\n\r\x0b\x0c\x1c\x1d\x1e\x85\u2028\u2029"
LINES = st.text(max_size=60) | st.sampled_from(LAST_WEEK.split("\n")).flatmap(
    lambda line: st.integers(0, len(line)).map(lambda at: line[:at])
)


def test_an_empty_note_begins_as_last_week_began() -> None:
    assert ghost(ILSE, [], "").startswith("Scales: D major 2 oct, q=")


@pytest.mark.parametrize(
    ("line", "rest"),
    [
        ("Hy", "mn: "),
        ("hy", "mn: "),
        ("B", "ow games: "),
        ("Bow g", "ames: "),
        ("Wo", "rld: "),
        ("Pi", "ece: "),
        ("", "Warm-up: "),
    ],
)
def test_a_label_of_hers_is_completed_before_it_was_used(line: str, rest: str) -> None:
    assert ghost(memory_of(labels=HERS), [], line) == rest


@pytest.mark.parametrize("label", ["Hymn", "Bow games", "World"])
def test_a_line_with_a_label_of_hers_goes_on_as_one_with_a_built_in_label(label: str) -> None:
    hers = memory_of(bodies=(LAST_WEEK.replace("Piece:", f"{label}:"),), labels=HERS)
    above = ["Scales: D and G major 2 oct, q=66, 5 min", "Etude: no. 8"]
    for typed in ("", "{}:", "{}: The", "{}: The Old Mill mm. 9-24", "{}: The Old Mill mm. 1-16, separate bows, q=6"):
        assert ghost(hers, above, typed.format(label)).replace(label, "Piece") == ghost(
            ILSE, above, typed.format("Piece")
        )


def test_the_areas_come_in_last_weeks_order() -> None:
    above = ["Scales: D and G major 2 oct, q=66, 5 min"]
    assert ghost(ILSE, above, "").startswith("Etude: no. 7")
    assert ghost(ILSE, [*above, "Etude: no. 8"], "").startswith("Piece: The Old Mill")


def test_a_line_goes_on_as_last_week_behind_what_is_new_in_it() -> None:
    assert ghost(ILSE, [], "Piece: The Old Mill mm. 9-24").startswith(", separate bows, q=")


def test_a_tempo_may_go_up_by_a_mark() -> None:
    assert ghost(ILSE, [], "Scales: D major 2 oct, q=69").startswith(", 5 min")
    assert ghost(ILSE, [], "Scales: D major 2 oct, q=7").startswith("2, 5 min")


def test_measures_may_go_on_where_they_ended() -> None:
    assert ghost(ILSE, [], "Piece: The Old Mill mm. 17").startswith("-32, separate bows")


def test_what_was_to_be_got_is_completed_behind_its_label_and_in_no_assignment() -> None:
    memory = memory_of(bodies=(f"{LAST_WEEK}\nGet: dark rosin (cello)",))
    assert ghost(memory, [], "Get:") == " dark rosin (cello)"
    assert ghost(memory, [], "Get: da") == "rk rosin (cello)"
    assert "rosin" not in ghost(memory, [], "Piece: ")


def test_an_open_assignment_comes_with_its_new_tempo() -> None:
    memory = memory_of(bodies=(LAST_WEEK,), open_lines=("Piece: The Old Mill mm. 1-16, separate bows, q=63",))
    assert ghost(memory, [], "Piece: ").startswith("The Old Mill mm. 1-16, separate bows, q=63")


def test_case_is_ignored_for_matching_and_what_was_typed_is_kept() -> None:
    assert ghost(ILSE, [], "pie") == "ce: " + ghost(ILSE, [], "Piece: ")
    assert ghost(ILSE, [], "Piece: the old m").startswith("ill")


def test_a_first_lesson_is_helped_by_the_built_in_words() -> None:
    assert ghost(NOBODY, [], "Sca").startswith("les: ")
    assert ghost(NOBODY, [], "Piece: Gavotte, hands sep").startswith("arately")
    assert ghost(NOBODY, [], "Watch the metron").startswith("ome")


def test_a_line_that_has_been_typed_is_not_proposed_again() -> None:
    above = LAST_WEEK.split("\n")[:3]
    assert not ghost(ILSE, above, "").startswith(("Scales", "Etude", "Piece"))
    assert not ghost(ILSE, above, "Piece: ").startswith("The Old Mill")


def test_an_area_that_has_had_its_line_is_not_proposed_again() -> None:
    assert ghost(ILSE, [], "S").startswith("cales: ")
    assert not ghost(ILSE, ["Scales: D major 2 oct, q=69"], "S").startswith("cales: ")


def test_nothing_is_proposed_in_a_line_with_a_break_in_it() -> None:
    assert ghost(ILSE, [], "x\nScales: D ") == ""


def test_behind_a_colon_the_proposal_begins_with_a_space() -> None:
    assert ghost(ILSE, [], "Etude:") == " " + ghost(ILSE, [], "Etude: ")


def test_a_sentence_within_a_line_begins_as_lines_do() -> None:
    assert ghost(NOBODY, [], "Bravo. Rem").startswith("ember ")


def test_a_word_is_taken_without_the_signs_behind_it() -> None:
    assert next_word("lowly, with") == "lowly"
    assert next_word(", with the") == ", "
    assert next_word("idge.") == "idge"
    assert next_word("mm. 17-32") == "mm. "
    assert next_word("the ") == "the"


def test_one_key_takes_a_word_with_the_space_behind_it() -> None:
    assert next_word("les: D major") == "les: "
    assert next_word(" with the tuner") == " with "
    assert next_word("uner") == "uner"
    assert next_word("") == ""


def test_an_abbreviation_stands_for_its_words() -> None:
    assert abbreviation(ILSE, "Piece: Gavotte, hs") == (2, "hands separately")
    assert abbreviation(ILSE, "wb") == (2, "whole bows")


def test_only_a_whole_word_is_an_abbreviation() -> None:
    assert abbreviation(ILSE, "Listen to the chs") is None
    assert abbreviation(ILSE, "hs ") is None
    assert abbreviation(ILSE, "") is None


@given(lines=st.lists(LINES, max_size=8), line=LINES)
@example(lines=[], line="Scales: D major" + " bow" * 5000)
@example(lines=[], line="-" * 5000)
@example(lines=["Piece:"], line="Piece: \u0130\ufb01 \ud83c\udfbb")
def test_any_line_has_one_proposal_without_line_breaks(lines: list[str], line: str) -> None:
    proposal = ghost(ILSE, lines, line)
    assert proposal == ghost(ILSE, lines, line)
    assert not set(proposal) & set(BREAKS)
    assert next_word(proposal) == proposal[: len(next_word(proposal))]
    assert bool(next_word(proposal)) == bool(proposal)


@given(bodies=st.lists(st.text(max_size=80), max_size=4), line=st.text(max_size=30))
def test_equal_notes_make_equal_proposals(bodies: list[str], line: str) -> None:
    assert ghost(memory_of(bodies=bodies), [], line) == ghost(memory_of(bodies=bodies), [], line)


@given(at=st.integers(0, 200), row=st.integers(0, 3))
def test_what_is_typed_is_not_repeated(at: int, row: int) -> None:
    line = LAST_WEEK.split("\n")[row]
    whole = line[:at] + ghost(ILSE, [], line[:at])
    words = whole.split()
    assert all(one != other for one, other in pairwise(words))
    assert whole.count(":") <= 1


def test_a_short_name_of_a_day_is_not_the_beginning_of_another_word() -> None:
    for line in ("Scales: C major, Mon Wed Fri", "Piece: The Old Mill, Sat"):
        proposed = ghost(NOBODY, [], line)
        assert proposed == "" or not proposed[0].isalnum()
