"""The guardians of a family in the cells of a table, and what a table that was read makes of those that are known."""

from itertools import count

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cockpit.studio.errors import BadInput
from cockpit.studio.people.people import FamilyId, Gets, Guardian, GuardianId, addresses_of
from cockpit.studio.roster.guardian_cells import (
    GuardiansTold,
    cells_of,
    read_addresses,
    read_gets,
    read_names,
    read_phones,
)

HOME = FamilyId(1)
BOTH = frozenset(Gets)
NOTES, NEWS, NONE = frozenset({Gets.NOTES}), frozenset({Gets.NEWS}), frozenset[Gets]()
READERS = {"email": read_addresses, "guardian": read_names, "phone": read_phones, "gets": read_gets}


def guardian(number: int, **values) -> Guardian:
    return Guardian(**{"id": GuardianId(number), "family_id": HOME, "position": number - 1} | values)


ANA = guardian(1, name="Ana", email="ana@bell.example", phone="+1 602 555 0100", gets=NOTES)
PER = guardian(2, name="Per", email="per@bell.example")


def told(known=(ANA, PER), **cells: str | None) -> list[tuple[str | None, str | None, str | None, frozenset[Gets]]]:
    numbers = count(10)
    found = GuardiansTold(cells=cells).merged(known, HOME, lambda: next(numbers))
    return [(each.name, each.email, each.phone, each.gets) for each in found]


AS_ANA = ("Ana", "ana@bell.example", "+1 602 555 0100", NOTES)
AS_PER = ("Per", "per@bell.example", None, BOTH)


@pytest.mark.parametrize(
    ("reader", "text", "cell"),
    [
        ("email", "a@b.example b@b.example", "a@b.example, b@b.example"),
        ("email", "- ; a@b.example", "-, a@b.example"),
        ("guardian", " Ana  Bell ;Per", "Ana Bell; Per"),
        ("guardian", "-; Per", "; Per"),
        ("phone", "+1 602  555 0100; -", "+1 602 555 0100; "),
        ("phone", "602.555.0100 (work, mornings)", "602.555.0100 (work, mornings)"),
        ("gets", "News and notes", "notes, news"),
        ("gets", "notes; none; -", "notes; none; none"),
        ("gets", "news;", "news; notes, news"),
    ],
)
def test_a_cell_of_guardians_has_one_form_which_is_read_as_the_same_again(reader, text, cell):
    assert READERS[reader](text).strip() == cell.strip()
    assert READERS[reader](cell) == READERS[reader](text)


@pytest.mark.parametrize(
    ("reader", "text", "wanted"),
    [
        ("email", "ana", "Write an email address such as name@example.org"),
        ("email", "ana@bell", "Write an email address such as name@example.org"),
        ("guardian", "Bell, Ana", 'such as "Ana; Per"'),
        ("phone", "ask Ana", 'such as "\\+1 602 555 0100"'),
        ("gets", "bills", "Write notes or news"),
        ("gets", "notes none", "or none"),
    ],
)
def test_what_cannot_be_used_is_told_with_what_works(reader, text, wanted):
    with pytest.raises(BadInput, match=wanted):
        READERS[reader](text)


@pytest.mark.parametrize(
    ("cells", "expected"),
    [
        ({}, [AS_ANA, AS_PER]),
        # The file does not speak of names, phones, and what they get: these stay with the address.
        ({"email": "per@bell.example, ana@bell.example"}, [AS_PER, AS_ANA]),
        ({"email": "per@bell.example"}, [AS_PER]),
        ({"email": None}, []),
        # Another address in the same place is the same guardian's.
        ({"email": "ana@new.example, per@bell.example"}, [("Ana", "ana@new.example", *AS_ANA[2:]), AS_PER]),
        ({"email": "ana@bell.example, per@bell.example, jo@bell.example"}, [AS_ANA, AS_PER, (None, "jo@bell.example", None, BOTH)]),
        ({"guardian": "Per; Ana"}, [AS_PER, AS_ANA]),
        ({"guardian": "Ana; Per", "email": "ana@new.example, -"}, [("Ana", "ana@new.example", *AS_ANA[2:]), ("Per", None, None, BOTH)]),
        ({"phone": "; 020 7946 0100"}, [("Ana", "ana@bell.example", None, NOTES), (*AS_PER[:2], "020 7946 0100", BOTH)]),
        ({"gets": "news"}, [(*AS_ANA[:3], NEWS), (*AS_PER[:3], NEWS)]),
        ({"gets": "news; none"}, [(*AS_ANA[:3], NEWS), (*AS_PER[:3], NONE)]),
        ({"gets": None}, [(*AS_ANA[:3], BOTH), AS_PER]),
        # Another address and another name are another guardian, whose phone is not Ana's.
        ({"guardian": "Jo; Per", "email": "jo@bell.example, per@bell.example"}, [("Jo", "jo@bell.example", None, BOTH), AS_PER]),
        # Two who share an address are told apart by their names.
        ({"email": "ana@bell.example, ana@bell.example", "guardian": "Ana; Per"}, [AS_ANA, ("Per", "ana@bell.example", None, BOTH)]),
    ],
)  # fmt: skip
def test_a_table_changes_what_it_has_a_column_for(cells, expected):
    assert told(**cells) == expected


def test_one_without_an_address_stays_where_a_table_has_addresses_alone():
    jo = guardian(3, name="Jo", phone="555 0199")
    assert told((ANA, jo), email="ana@bell.example") == [AS_ANA, ("Jo", None, "555 0199", BOTH)]


def test_an_address_that_is_there_twice_is_one_guardian():
    assert told((), email="a@b.example, a@b.example") == [(None, "a@b.example", None, BOTH)]


def test_the_addresses_for_notes_are_those_of_guardians_who_get_them_in_their_order():
    quiet = guardian(3, email="quiet@bell.example", gets=NEWS)
    other = guardian(4, family_id=FamilyId(2), email="x@other.example")
    known = [quiet, other, PER, ANA, guardian(5, email="ana@bell.example"), guardian(6, phone="1234")]
    assert addresses_of(known, HOME) == ("ana@bell.example", "per@bell.example")
    assert addresses_of(known, HOME, Gets.NEWS) == ("per@bell.example", "quiet@bell.example", "ana@bell.example")


ENTRIES = st.lists(
    st.builds(
        dict,
        name=st.none() | st.sampled_from(("Ana", "Per", "Þóra Bell")),
        email=st.none() | st.sampled_from(("a@b.example", "õ@b.example")),
        phone=st.none() | st.sampled_from(("+1 602 555 0100", "555 (x), mornings")),
        gets=st.frozensets(st.sampled_from(Gets)),
    ).filter(lambda each: each["name"] or each["phone"]),
    max_size=4,
    unique_by=lambda each: (each["name"], each["email"]),
)


@given(ENTRIES, ENTRIES)
def test_guardians_come_back_from_their_cells_whoever_was_there(entries, others):
    known = [guardian(number, **values) for number, values in enumerate(entries, start=1)]
    before = [guardian(number, **values) for number, values in enumerate(others, start=1)]
    cells = {name: READERS[name](cell) if cell else None for name, cell in cells_of(known).items()}
    assert told(known, **cells) == [(each.name, each.email, each.phone, each.gets) for each in known]
    assert told(before, **cells) == [(each.name, each.email, each.phone, each.gets) for each in known]
