"""A `Get:` line: what is one, which things it names, and that the family reads it and nothing that is kept back."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.notes.notes import Line, for_family, read_line, read_notes, things_of
from cockpit.studio.notes.vocabulary import Labels, Meaning


def things(line: str) -> list[str]:
    return [thing.text for thing in things_of(read_line(line))]


@pytest.mark.parametrize(
    ("named", "expected"),
    [
        ("size 3/4 strings, book 2", ["size 3/4 strings", "book 2"]),
        ("strings (A, D)", ["strings (A, D)"]),
        ("strings (A, D), book 2", ["strings (A, D)", "book 2"]),
        ("strings [A, D (thin, steel)]; rosin", ["strings [A, D (thin, steel)]", "rosin"]),
        ("strings,rosin", ["strings", "rosin"]),
        ("rosin, a pencil, and book 2", ["rosin", "a pencil", "book 2"]),
        ("a pencil and an eraser", ["a pencil and an eraser"]),
        ("books 2,3", ["books 2,3"]),
        ('"Old Mill, for two", rosin', ['"Old Mill, for two"', "rosin"]),
        ('1" binder, 2" tape', ['1" binder', '2" tape']),
        ("https://shop.example/a,b, rosin", ["https://shop.example/a,b", "rosin"]),
        ("strings (A, D", ["strings (A, D"]),
        ("rosin, , ;", ["rosin"]),
        ("E strings, E strings", ["E strings"]),
        (",", [","]),
        ("Kolophonium, und ein Heft", ["Kolophonium", "ein Heft"]),
    ],
)
def test_things_are_parted_as_a_teacher_writes_them(named: str, expected: list[str]) -> None:
    assert things(f"Get: {named}") == expected


@pytest.mark.parametrize(
    "label",
    ["Get:", "GET -", "to get:", "Please buy:", "- Buy:", "Supplies:", "Besorgen:", "Bitte kaufen:", "À acheter:", "Achats:",
     "Comprar:", "Por conseguir:"],
)  # fmt: skip
def test_the_label_is_read_in_four_languages_and_the_family_reads_a_heading_for_it(label: str) -> None:
    line = read_line(f"{label} book 2")
    assert (line.line, line.own_label, line.text) == (Line.TO_GET, None, "book 2")


@pytest.mark.parametrize("line", ["Get well soon", "Get: ", "Get", "get it by heart, book 2", "Get https://a.example"])
def test_other_lines_are_no_things_to_get_and_the_family_reads_them_as_typed(line: str) -> None:
    assert for_family(line).to_get == ()
    assert for_family(line).remarks == (line.rstrip(),)


@pytest.mark.parametrize(
    ("line", "own_label"),
    [("Get (by Friday): book 2", "Get (by Friday)"), ("Buy 2: book 2", "Buy 2"), ("Get for the recital: book 2", None)],
)
def test_what_a_label_says_beside_it_is_not_lost(line: str, own_label: str | None) -> None:
    (thing,) = things_of(read_line(line))
    assert thing.own_label == (own_label or "Get for the recital")


def test_a_label_of_hers_can_mean_it_and_is_shown() -> None:
    labels = Labels(own={"sheetmusic": Meaning(None, is_to_get=True), "buy": Meaning(None)}, names=("sheet music",))
    assert [thing.own_label for thing in things_of(read_line("Sheet music: The Old Mill", labels))] == ["Sheet music"]
    assert read_line("Buy: book 2", labels).line is Line.REMARK


@pytest.mark.parametrize(
    "body",
    ["Private: Get: wrzl", "Private:\nGet: wrzl, wrzl", "Get: rosin, private: wrzl", "Get: rosin. Follow-up: wrzl",
     "Private: x\n  Get: wrzl, wrzl", "Get: (private: wrzl)", "Next time: get: wrzl"],
)  # fmt: skip
def test_what_is_kept_back_is_no_thing_to_get(body: str) -> None:
    seen = for_family(body)
    assert "wrzl" not in f"{seen}"
    assert {thing.text for thing in seen.to_get} <= {"rosin", "rosin."}


_PARTS = st.sampled_from(
    [
        "rosin",
        "book 2",
        "E",
        "and ",
        "und ",
        ",",
        ", ",
        ";",
        "(",
        ")",
        "[",
        "]",
        '"',
        "“",
        "”",
        "1,2",
        "3/4",
        " ",
        "https://a.b/c,d",
        "é",
        "&",
    ]
)


@given(st.lists(_PARTS, max_size=12).map("".join))
def test_each_thing_is_read_again_as_itself_and_no_word_is_lost(text: str) -> None:
    line = read_line(f"Get: {text}")
    named = things_of(line)
    for thing in named:
        assert things_of(read_line(thing.typed)) == (thing,)
    if line.line is Line.TO_GET:
        assert named
        said = "".join(thing.text for thing in named)
        assert {word for word in ("rosin", "book", "é", "https") if word in text} <= {
            word for word in ("rosin", "book", "é", "https") if word in said
        }


@given(st.lists(st.sampled_from(["Get: rosin, wax", "Lovely tone", "", "Scales: D", "Private: x", "x"]), max_size=6))
def test_with_or_without_things_to_get_the_other_lines_are_the_same(lines: list[str]) -> None:
    without = [line for line in lines if not line.startswith("Get")]
    body, other = for_family("\n".join(lines)), for_family("\n".join(without))
    assert body.assignments == other.assignments
    assert [line for line in body.remarks if line] == [line for line in other.remarks if line]
    assert len(body.to_get) == (2 if len(without) < len(lines) else 0)
    assert len(read_notes("\n".join(lines))) == max(1, len(lines))
