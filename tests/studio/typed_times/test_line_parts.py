"""The parts of a line: each is claimed by exactly one reader."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.typed_times.line_parts import claim_of, parts_of

EXAMPLES = 'Type "nora, cello" or "tobin, guitar".'


def numbers(part: str) -> int | None:
    return int(part) if part.isdecimal() else None


def years(part: str) -> int | None:
    if part.isdecimal() and len(part) > 4:
        raise BadInput(f'"{part}" is no year.')
    return int(part) if part.isdecimal() and len(part) == 4 else None


READERS = {"a number": numbers, "a year": years}
SAID = {name: name for name in READERS}


@pytest.mark.parametrize(
    ("line", "parts"),
    [
        ("a, b; c", ["a", "b", "c"]),
        ('a "b, c", d', ['a "b, c"', "d"]),
        ("from march 1, 2027", ["from march 1, 2027"]),
        ("from 1 march,2027 , b", ["from 1 march,2027", "b"]),
        ("march 1, 2027, 25 a day, 2027", ["march 1, 2027", "25 a day, 2027"]),
        ("phone +1, 20275", ["phone +1", "20275"]),
        ("from Mon, March 1, 2027, b", ["from Mon, March 1, 2027", "b"]),
        ("tuesday, jan. 12 5pm, fri, 45m", ["tuesday, jan. 12 5pm", "fri", "45m"]),
        ("mon, wed, march, b", ["mon", "wed", "march", "b"]),
        ("simon, march 1", ["simon", "march 1"]),
    ],
)
def test_parts_stand_between_commas_that_are_in_no_quotes_and_in_no_date(line, parts):
    assert parts_of(line) == parts


def test_a_part_is_claimed_by_the_one_reader_that_knows_it():
    assert claim_of("12", READERS, SAID, EXAMPLES) == ("a number", 12)
    assert claim_of("cello", READERS, SAID, EXAMPLES) is None


def test_a_part_that_two_claim_is_refused_with_what_it_could_be_and_lines_that_work():
    with pytest.raises(BadInput) as fault:
        claim_of("2026", READERS, SAID, EXAMPLES)
    assert str(fault.value) == f'"2026" could mean two things: a number and a year. {EXAMPLES}'


def test_what_one_reader_refuses_may_be_another_ones():
    assert claim_of("20266", READERS, SAID, EXAMPLES) == ("a number", 20266)
    with pytest.raises(BadInput, match='"20266" is no year'):
        claim_of("20266", {"a year": years}, SAID, EXAMPLES)


@given(st.text("ab1", max_size=5), st.permutations([*READERS]))
def test_the_order_of_the_readers_decides_nothing(part, order):
    def said(readers):
        try:
            return claim_of(part, readers, SAID, "")
        except BadInput as fault:
            return "could mean two things" in str(fault)

    assert said(READERS) == said({name: READERS[name] for name in order})
